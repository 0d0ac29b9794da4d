"""What a pointer and a keyboard do at the desk, and what is left without scripts."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, Page, expect

from fieldbook.book.opening import create_book
from tests.browser.conftest import save, served, watched
from tests.browser.pointing import click_on, drag_over
from tests.sites import Surveyed, survey
from tests.web.test_routes import furnished

NEAR_MM = 20  # a pixel of the drawing is a few millimetres of the wall


@pytest.fixture
def furnished_desk(browser: Browser, tmp_path: Path) -> Iterator[tuple[Page, Surveyed]]:
    """The desk of a book with one item of every kind, in a wide window."""
    with create_book(tmp_path / "book") as book:
        surveyed = furnished(survey(book))
        surveyed.zone(mark="K9")
        with served(book.folder) as address, watched(browser, address, viewport={"width": 1440, "height": 900}) as page:
            yield page, surveyed


def visit(page: Page, path: str) -> None:
    """Open an address of this server."""
    page.goto(urljoin(page.url, path))


def figures(page: Page, *names: str) -> list[float]:
    """What numbers stand in inputs."""
    return [float(page.locator(f"form.entry [name={name}]").input_value()) for name in names]


def near(found: list[float], meant: list[float]) -> bool:
    """Whether what was pointed at is what was meant, as far as a pixel tells."""
    return all(abs(one - other) <= NEAR_MM for one, other in zip(found, meant, strict=True))


def test_tap_on_the_drawing_finds_its_line_and_the_other_way_round(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The line is marked and in sight; a tap on a line rings the thing on the drawing."""
    page, surveyed = furnished_desk
    visit(page, f"/face/{surveyed.face}")
    fixing = surveyed.book.items("fixing")[0]["id"]
    page.locator(f"svg [data-item='{fixing}']").first.dispatch_event("click")
    line = page.locator(f"tr[data-item='{fixing}']")
    expect(line).to_have_class("fixing marked")
    expect(line).to_be_in_viewport()
    zone = surveyed.book.items("zone")[0]["id"]
    page.locator(f"tr[data-item='{zone}'] th").click()
    expect(page.locator("svg .halo")).to_have_count(1)
    expect(page.locator("svg .halo")).to_be_in_viewport()
    expect(line).not_to_have_class("marked")


def test_long_page_folds_on_a_narrow_screen_and_stays_as_it_was_left(furnished_desk: tuple[Page, Surveyed]) -> None:
    """Its headings stand on top; one leads to what is folded and opens it, and a tap on the drawing does too."""
    page, surveyed = furnished_desk
    page.set_viewport_size({"width": 390, "height": 260})
    visit(page, f"/face/{surveyed.face}")
    booking = page.locator("details.part").filter(has=page.locator("#booking"))
    expect(booking).not_to_have_attribute("open", "")
    jumps = page.get_by_role("navigation", name="On this page")
    jumps.get_by_role("link", name="Photographs").click()
    expect(jumps).to_be_in_viewport()
    page.locator("svg [data-item] >> nth=0").dispatch_event("click")
    expect(booking).to_have_attribute("open", "")
    booking.locator("summary").click()
    booking.locator("summary").click()
    page.reload()
    expect(booking).to_have_attribute("open", "")
    page.set_viewport_size({"width": 1440, "height": 900})


def test_drawing_is_made_larger_by_buttons_keys_and_the_wheel(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The wheel moves the page until the drawing is meant; what lay in the middle stays there."""
    page, surveyed = furnished_desk
    visit(page, f"/face/{surveyed.face}")
    panel = page.get_by_role("group", name="Drawing", exact=True)
    page.get_by_role("button", name="Larger").click()
    expect(panel).to_have_attribute("data-size", "1.60")
    assert panel.evaluate("one => one.scrollWidth > one.clientWidth && one.scrollLeft > 0")
    page.get_by_role("button", name="All of it").click()
    expect(panel).to_have_attribute("data-size", "1.00")
    panel.focus()
    page.keyboard.press("+")
    expect(panel).to_have_attribute("data-size", "1.25")
    panel.hover()
    page.mouse.wheel(0, -100)
    expect(panel).to_have_attribute("data-size", "1.56")
    page.keyboard.press("0")
    expect(panel).to_have_attribute("data-size", "1.00")
    panel.blur()
    page.mouse.wheel(0, -100)
    expect(panel).to_have_attribute("data-size", "1.00")


def test_click_on_a_free_place_is_answered_there(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The question is filled in and the answer comes without leaving the face."""
    page, surveyed = furnished_desk
    visit(page, f"/face/{surveyed.face}")
    click_on(page, 4000, 2500)
    expect(page.locator("[data-answer]")).to_contain_text("Before you begin")
    assert abs(float(page.locator("#ask-x_mm").input_value()) - 4000) <= NEAR_MM
    page.locator("#ask-z_mm").fill("9999")
    page.get_by_role("button", name="Answer").click()
    expect(page.locator("#ask-z_mm-error")).to_contain_text("9999")
    expect(page.locator("[data-answer]")).to_have_count(0)
    page.locator("#ask-z_mm").fill("50")
    page.locator("#ask-x_mm").fill("50")
    page.keyboard.press("Enter")
    expect(page.locator("[data-answer] .finding.refused")).to_contain_text("contact")


def test_zone_is_drawn_in_three_ways_and_figures_move_the_drawing(furnished_desk: tuple[Page, Surveyed]) -> None:
    """Rectangle, circle, corners; what is typed is drawn too; beginning again rubs it out."""
    page, surveyed = furnished_desk
    visit(page, f"/site/{surveyed.site}/new/zone?face={surveyed.face}")
    outline, pencil = page.locator("[name=outline]"), page.locator("svg .pencil")
    drag_over(page, (2500, 1000), (3500, 2000))
    *numbers, between, height = outline.input_value().split()
    assert between == "×"
    numbers.append(height)
    assert near([float(number) for number in numbers], [2500, 1000, 1000, 1000])
    page.get_by_label("Circle").check()
    drag_over(page, (3000, 1500), (3300, 1500))
    word, *numbers = outline.input_value().split()
    assert word == "circle"
    assert near([float(number) for number in numbers], [3000, 1500, 300])
    expect(pencil.locator("circle")).to_have_count(1)
    page.get_by_label("Corners").check()
    for corner in ((2500, 500), (3500, 500), (3000, 1500)):
        click_on(page, *corner)
    assert len(outline.input_value().splitlines()) == 3
    width = pencil.bounding_box()["width"]
    outline.fill("0 0\n4000 0\n4000 1000")
    assert pencil.bounding_box()["width"] > 3 * width
    page.get_by_role("button", name="Begin again").click()
    assert outline.input_value() == ""
    expect(pencil.locator("*")).to_have_count(0)


def test_places_follow_the_pointer_and_the_pointer_what_is_typed(furnished_desk: tuple[Page, Surveyed]) -> None:
    """A fixing's planned and as-fitted place, and a fitting's rectangle."""
    page, surveyed = furnished_desk
    fixing = surveyed.book.items("fixing")[0]["id"]
    visit(page, f"/item/{fixing}/change")
    click_on(page, 1500, 1540)
    assert near(figures(page, "x_mm", "z_mm"), [1500, 1540])
    page.get_by_label("the place as fitted").check()
    click_on(page, 1600, 1550)
    assert near(figures(page, "fitted_x_mm", "fitted_z_mm"), [1600, 1550])
    assert near(figures(page, "x_mm", "z_mm"), [1500, 1540])
    before = page.locator("svg .pencil").bounding_box()
    page.locator("[name=fitted_x_mm]").fill("200")
    assert page.locator("svg .pencil").bounding_box()["x"] < before["x"]
    save(page)
    visit(page, f"/site/{surveyed.site}/new/fitting?face={surveyed.face}")
    drag_over(page, (4500, 2000), (3500, 1800))
    assert near(figures(page, "x_mm", "z_mm", "width_mm", "height_mm"), [3500, 1800, 1000, 200])
    click_on(page, 300, 300)
    assert near(figures(page, "x_mm", "z_mm", "width_mm", "height_mm"), [300, 300, 1000, 200])


def test_copies_are_set_out_by_dragging_and_their_figures_follow(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The fitting is dragged to its first copy, the last copy to the end of the row; a hand that is a little off keeps
    the height, and what is entered is what was drawn."""
    page, surveyed = furnished_desk
    shelf = surveyed.fitting(mark="D7", x_mm=400, z_mm=900, width_mm=300, height_mm=200)
    visit(page, f"/item/{shelf}/copies")
    drag_over(page, (500, 1000), (1000, 1010))
    assert near(figures(page, "apart"), [500])
    assert page.locator("[name=up_mm]").input_value() == "0"
    expect(page.locator("svg .pencil polygon")).to_have_count(1)
    page.get_by_label("How many").fill("3")
    expect(page.locator("svg .pencil polygon")).to_have_count(3)
    last = 400 + 3 * figures(page, "apart")[0]
    drag_over(page, (last + 100, 1000), (1700, 1300))
    apart, up = figures(page, "apart", "up_mm")
    assert near([3 * apart, 3 * up], [1200, 300])
    page.get_by_label("x of the first copy").fill("200")
    drag_over(page, (300, 1000 + up), (600, 1500))
    assert near(figures(page, "x_mm", "z_mm"), [500, 1400])
    drag_over(page, (3000, 300), (3100, 400))
    assert figures(page, "apart", "up_mm") == [apart, up]
    x, z = figures(page, "x_mm", "z_mm")
    page.get_by_role("button", name="Enter the copies").click()
    expect(page).to_have_url(urljoin(page.url, f"/face/{surveyed.face}"))
    copies = [one for one in surveyed.book.items("fitting") if one["make"] == shelf]
    assert sorted((one["x_mm"], one["z_mm"]) for one in copies) == [(x + n * apart, z + n * up) for n in range(3)]


def test_small_tables_are_typed_cell_by_cell(furnished_desk: tuple[Page, Surveyed]) -> None:
    """Rows are added and removed; what is sent is the text the form would hold without scripts."""
    page, surveyed = furnished_desk
    fitting = surveyed.book.items("fitting")[0]["id"]
    visit(page, f"/item/{fitting}/change")
    table = page.get_by_role("table", name="Layers, from the wall outwards")
    table.locator("xpath=following-sibling::button[1]").click()
    for cell, text in zip(table.locator("tbody tr").nth(1).locator("input").all(), ("lining", "3", ""), strict=True):
        cell.fill(text)
    save(page)
    assert surveyed.book.item(fitting)[1]["build_up"] == [["rail", 22, 1], ["lining", 3, None]]
    visit(page, f"/item/{fitting}/change")
    table.get_by_role("button", name="Remove this row").first.click()
    save(page)
    assert surveyed.book.item(fitting)[1]["build_up"] == [["lining", 3, None]]


def test_cells_offer_what_was_entered_before_and_their_rows_can_be_removed_on_a_phone(
    furnished_desk: tuple[Page, Surveyed],
) -> None:
    """In a form's small table and in that of several things; the button at the end of a row never slides away."""
    page, surveyed = furnished_desk
    for path, table, words in (
        (f"/item/{surveyed.book.items('fitting')[0]['id']}/change", "Layers, from the wall outwards", "rail"),
        (f"/site/{surveyed.site}/several/zone?face={surveyed.face}&columns=mark&columns=said_by", "Rows", "keeper"),
    ):
        page.set_viewport_size({"width": 390, "height": 844})
        visit(page, path)
        row = page.get_by_role("table", name=table).locator("tbody tr").first
        offered = row.locator("input").evaluate_all(
            "all => all.map(({ list }) => [...(list?.options ?? [])].map((one) => one.value))"
        )
        assert words in sum(offered, [])
        away = row.get_by_role("button", name="Remove this row").bounding_box()
        frame = page.locator(".of-rows").filter(has=page.get_by_role("table", name=table)).bounding_box()
        assert away["x"] + away["width"] <= frame["x"] + frame["width"] <= 390


def test_lines_of_a_grid_part_into_its_cells(furnished_desk: tuple[Page, Surveyed]) -> None:
    """Places along, then a height with what was read at each, a cell more than the grid begins with."""
    page, surveyed = furnished_desk
    visit(page, f"/item/{surveyed.face}/change")
    page.get_by_role("table", name="Surface readings").locator("xpath=following-sibling::button[2]").click()
    grid = page.locator("table.grid")
    for row, line in enumerate(("310 / 620 / 930 / 1240", "300 2 -1.5 0 4", "1205 1 0 3 -2")):
        cell = grid.locator("tr").nth(row).locator("input:not([type=hidden])").first
        cell.fill(line)
        cell.press("Enter")
    save(page)
    read = surveyed.book.item(surveyed.face)[1]["surface"]
    assert read[:4] == [[310, 300, 2], [620, 300, -1.5], [930, 300, 0], [1240, 300, 4]]
    assert read[4:] == [[310, 1205, 1], [620, 1205, 0], [930, 1205, 3], [1240, 1205, -2]]
    other = surveyed.book.write(
        "face", {"room": surveyed.room, "name": "Pier", "sort": "wall", "width_mm": 640, "height_mm": 2400}
    )
    visit(page, f"/item/{other}/change")
    expect(grid).to_have_count(1)  # as the last ones were booked
    page.get_by_text("Survey", exact=True).click()
    page.get_by_role("button", name="Enter row by row").click()
    page.get_by_role("table", name="Surface readings").locator("input").first.fill("310 300 2")
    save(page)
    assert surveyed.book.item(other)[1]["surface"] == [[310, 300, 2]]


def test_what_is_typed_into_a_cell_is_offered_under_it_and_figures_part(
    furnished_desk: tuple[Page, Surveyed],
) -> None:
    """A new word in a table, and a line of a reading of a surface."""
    page, surveyed = furnished_desk
    visit(page, f"/item/{surveyed.face}/change")
    layers = page.get_by_role("table", name="Made of")
    layers.get_by_label("material, row 1").fill("riven lath")
    layers.get_by_label("material, row 1").press("Enter")
    offered = layers.get_by_label("material, row 2").evaluate(
        "input => [...input.list.options].map((one) => one.value)"
    )
    assert offered[0] == "riven lath"
    read = page.get_by_role("table", name="Surface readings")
    read.get_by_label("x (mm), row 1").fill("640 1210 2.5")
    read.get_by_label("x (mm), row 1").press("Tab")
    assert [cell.input_value() for cell in read.locator("tbody tr").first.locator("input").all()] == [
        "640",
        "1210",
        "2.5",
    ]


@pytest.mark.parametrize(("kind", "width", "lines"), [("fitting", 1440, 2), ("fitting", 1024, 2), ("fixing", 1440, 1)])
def test_buttons_of_a_form_stand_in_few_lines(
    furnished_desk: tuple[Page, Surveyed], kind: str, width: int, lines: int
) -> None:
    """They stay at the foot of the window, and cover what is typed."""
    page, surveyed = furnished_desk
    page.set_viewport_size({"width": width, "height": 900})
    visit(page, f"/site/{surveyed.site}/new/{kind}?face={surveyed.face}")
    tops = page.locator(".save > *").evaluate_all("all => all.map((one) => one.getBoundingClientRect().top)")
    assert len(set(tops)) == lines


def test_form_that_was_typed_in_is_not_left_by_mistake(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The browser asks first."""
    page, surveyed = furnished_desk
    visit(page, f"/site/{surveyed.site}/new/room")
    page.locator("[name=name]").fill("Store")
    asked = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.dismiss()))
    with page.expect_event("dialog"):
        page.get_by_role("link", name="Leave without saving").click()
    assert asked == ["beforeunload"]
    assert page.locator("[name=name]").input_value() == "Store"


def test_refused_form_is_read_out_from_its_summary(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The focus goes to the summary; its links lead to the inputs."""
    page, surveyed = furnished_desk
    visit(page, f"/site/{surveyed.site}/new/room")
    save(page)
    expect(page.locator("#refused")).to_be_focused()
    page.locator("#refused a").first.click()
    expect(page.locator("[name=name]")).to_be_focused()


def test_first_key_leads_past_the_header(furnished_desk: tuple[Page, Surveyed]) -> None:
    """The skip link comes first and shows itself."""
    page, surveyed = furnished_desk
    visit(page, f"/site/{surveyed.site}")
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Skip to the content")).to_be_in_viewport()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()


def test_everything_works_without_scripts(browser: Browser, furnished_desk: tuple[Page, Surveyed]) -> None:
    """A zone is entered and its verdicts read with scripts switched off."""
    page, surveyed = furnished_desk
    state = page.context.storage_state()
    with watched(browser, page.url, java_script_enabled=False, storage_state=state) as plain:
        visit(plain, f"/site/{surveyed.site}/new/zone?face={surveyed.face}")
        for name, text in {
            "name": "Band",
            "outline": "rectangle 1000 1400 500 300",
            "margin_mm": "20",
            "reason": "x",
        }.items():
            plain.locator(f"form.entry [name={name}]").fill(text)
        plain.get_by_role("checkbox", name="contact").check()
        save(plain)
        expect(plain.get_by_role("heading", level=1)).to_contain_text("Band")
        visit(plain, f"/face/{surveyed.face}")
        expect(plain.locator("table.booking")).to_contain_text("Band")


def test_taken_mark_is_told_while_it_is_typed(furnished_desk: tuple[Page, Surveyed]) -> None:
    """Beside its input, and gone again when the mark is changed."""
    page, surveyed = furnished_desk
    visit(page, f"/site/{surveyed.site}/new/zone?face={surveyed.face}")
    warning = page.locator("#mark-warning")
    expect(warning).to_be_hidden()
    page.locator("[name=mark]").fill("k 09")
    expect(warning).to_contain_text("Taken already by keep-off zone K9")
    page.locator("[name=mark]").fill("K91")
    expect(warning).to_be_hidden()
