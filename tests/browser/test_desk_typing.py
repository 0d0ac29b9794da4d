"""What is typed into one cell or input and goes into several, at the desk."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from fieldbook.book.opening import create_book
from fieldbook.model.choices import LOOKED_FOR
from tests.browser.conftest import save, served, watched
from tests.sites import Surveyed, survey


@pytest.fixture
def desk(browser: Browser, tmp_path: Path) -> Iterator[tuple[Page, Surveyed]]:
    """The desk of a book with a wall, a fitting and its fixings."""
    with create_book(tmp_path / "book") as book:
        surveyed = survey(book)
        fitting = surveyed.fitting(mark="D1")
        for number in (1, 2, 3):
            surveyed.fixing(fitting, mark=f"D1.{number}")
        with served(book.folder) as address, watched(browser, address, viewport={"width": 1440, "height": 900}) as page:
            yield page, surveyed


def cells_of(table: Locator) -> list[list[str]]:
    """What stands in a table, row by row."""
    return [[cell.input_value() for cell in row.locator("input").all()] for row in table.locator("tbody tr").all()]


def change(page: Page, item: str) -> None:
    """Open the form of an item, with all that is folded in it."""
    page.goto(urljoin(page.url, f"/item/{item}/change"))
    page.evaluate("for (const one of document.querySelectorAll('details.group, details.more')) one.open = true")


def typed(cell: Locator, words: str) -> None:
    """Type into a cell and leave it."""
    cell.fill(words)
    cell.press("Tab")


def test_stroke_begins_the_next_row(desk: tuple[Page, Surveyed]) -> None:
    """Of layers and of figures; what stands in the rows below is not written over."""
    page, surveyed = desk
    (fitting,) = surveyed.book.items("fitting")
    change(page, fitting["id"])
    layers = page.get_by_role("table", name="Layers, from the wall outwards")
    typed(layers.locator("input").first, "cork pad 3 ±1 / lime batten 28 / oak board 17 ±0,5")
    meant = [["cork pad", "3", "1"], ["lime batten", "28", ""], ["oak board", "17", "0,5"]]
    assert cells_of(layers) == meant
    typed(layers.locator("input").first, "felt 2 / cork 9")
    assert cells_of(layers) == [["felt 2 / cork 9", "3", "1"], *meant[1:]]
    typed(layers.locator("input").first, "cork pad")
    save(page)
    told = surveyed.book.item(fitting["id"])[1]["build_up"]
    assert told == [["cork pad", 3, 1], ["lime batten", 28, None], ["oak board", 17, 0.5]]
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/new/fitting?face={surveyed.face}"))
    first = layers.locator("input").first
    offered = first.evaluate("input => [...input.list.options].map((one) => one.value)")
    (whole,) = [words for words in offered if "/" in words]
    typed(first, whole)
    assert cells_of(layers) == [["cork pad", "3", "1"], ["lime batten", "28", ""], ["oak board", "17", "0.5"]]
    change(page, surveyed.face)
    floor = page.get_by_role("table", name="Floor profile")
    typed(floor.locator("input").first, "0 -6/1450 -11 / 2900 2.5")
    assert cells_of(floor) == [["0", "-6"], ["1450", "-11"], ["2900", "2.5"]]


def test_layers_come_by_the_name_of_a_build_up_and_words_by_their_beginning(desk: tuple[Page, Surveyed]) -> None:
    """Seen as the cell is left; the name is offered first."""
    page, surveyed = desk
    layers = [["limewash", 1, "old"], ["soft brick", 228, None]]
    made = {"site": surveyed.site, "name": "Limed brick", "sort": "wall", "layers": layers}
    surveyed.book.write("build_up", made)
    change(page, surveyed.face)
    table = page.get_by_role("table", name="Made of")
    first = table.locator("input").first
    assert first.evaluate("input => input.list.options[0].value") == "Limed brick"
    typed(first, "limed brick")
    assert cells_of(table) == [["limewash", "1", "old"], ["soft brick", "228", ""]]
    typed(table.locator("input").nth(5), "la")
    assert cells_of(table)[1] == ["soft brick", "228", "later"]
    save(page)
    assert surveyed.book.item(surveyed.face)[1]["layers"] == [layers[0], ["soft brick", 228, "later"]]


def test_sentence_said_before_is_chosen_and_a_day_offered(desk: tuple[Page, Surveyed]) -> None:
    """It comes after what stands there already."""
    page, surveyed = desk
    surveyed.zone(evidence="Raking light, 11 March.", said_on="2026-03-11")
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/new/zone?face={surveyed.face}"))
    evidence = page.locator("form.entry [name=evidence]")
    said = page.get_by_label("Evidence: take what was said before")
    said.select_option("Raking light, 11 March.")
    expect(evidence).to_have_value("Raking light, 11 March.")
    evidence.fill("Tapped.")
    said.select_option("Raking light, 11 March.")
    expect(evidence).to_have_value("Tapped.\nRaking light, 11 March.")
    expect(said).to_have_value("")
    days = page.locator("form.entry [name=said_on]").evaluate("one => [...one.list.options].map((day) => day.value)")
    assert days[0] == "2026-03-11"
    assert len(days) == 2  # and today


def test_row_for_each_that_can_be_looked_for(desk: tuple[Page, Surveyed]) -> None:
    """The first is filled in, the others say the same; what has a row already gets no other."""
    page, surveyed = desk
    change(page, surveyed.room)
    table = page.get_by_role("table", name="What was looked for")
    each = page.get_by_role("button", name="Add a row for each")
    each.click()
    assert [row[0] for row in cells_of(table)] == list(LOOKED_FOR)
    expect(table.locator("input").nth(1)).to_be_focused()
    each.click()
    assert len(cells_of(table)) == len(LOOKED_FOR)
    for place, words in enumerate(("fitter", "raking light", "2026-03-02"), 1):
        table.locator("input").nth(place).fill(words)
    table.get_by_role("button", name="Remove this row").last.click()
    save(page)
    told = surveyed.book.item(surveyed.room)[1]["looked_for"]
    assert told == [[what, "fitter", "raking light", "2026-03-02"] for what in LOOKED_FOR[:-1]]


def test_figures_read_off_together_part_as_their_input_is_left(desk: tuple[Page, Surveyed]) -> None:
    """Of one thing, of several, in a table; a size takes the place of another, a place does not."""
    page, surveyed = desk
    (fitting,) = surveyed.book.items("fitting")
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/new/fixing?fitting={fitting['id']}"))
    x, z = (page.locator(f"form.entry [name={name}]") for name in ("x_mm", "z_mm"))
    typed(x, "1240; 910")
    assert (x.input_value(), z.input_value()) == ("1240", "910")
    typed(x, "1250 1310")
    assert (x.input_value(), z.input_value()) == ("1250 1310", "910")
    z.fill("")
    typed(x, "1250 1310")
    assert (x.input_value(), z.input_value()) == ("1250 1310", "")
    z.fill("")
    typed(x, "1240 910 / 1530 912")
    assert (x.input_value(), z.input_value()) == ("1240 / 1530", "910 / 912")
    change(page, fitting["id"])
    width, height = (page.locator(f"form.entry [name={name}]") for name in ("width_mm", "height_mm"))
    typed(width, "760 × 410")
    assert (width.input_value(), height.input_value()) == ("760", "410")
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/several/hold?columns=mark&columns=x_mm&columns=z_mm"))
    table = page.get_by_role("table", name="Rows")
    typed(table.locator("input").nth(1), "415; 2010")
    assert cells_of(table) == [["", "415", "2010"]]


def test_places_of_a_whole_fitting_go_down_its_column(desk: tuple[Page, Surveyed]) -> None:
    """As far as its fixings are ticked; too many stay where they were typed, and are refused there."""
    page, surveyed = desk
    fixings = surveyed.book.items("fixing")
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/fitted?items={fixings[0]['fitting']}"))
    first, *_ = cells = [
        page.locator(f'[name="fitted_{axis}_mm-{one["id"]}"]') for one in fixings for axis in ("x", "z")
    ]
    page.locator(f'input[type=checkbox][value="{fixings[1]["id"]}"]').uncheck()
    typed(first, "1104 1538 / 1707 1536")
    assert [cell.input_value() for cell in cells] == ["1104", "1538", "", "", "1707", "1536"]
    for cell in cells:
        cell.fill("")
    typed(first, "1104 1538 / 1707 1536 / 1 2")
    assert first.input_value() == "1104 1538 / 1707 1536 / 1 2"
    save(page)
    expect(page.locator("#refused")).to_contain_text("3 places are given, for 2")
    assert first.input_value() == "1104 1538 / 1707 1536 / 1 2"


def test_boxes_of_a_long_list_are_ticked_by_their_marks(desk: tuple[Page, Surveyed]) -> None:
    """What has no such mark stays in the input, and is told; Enter ticks, and sends nothing."""
    page, surveyed = desk
    surveyed.zone(mark="K4")
    page.goto(urljoin(page.url, f"/site/{surveyed.site}/new/agreement"))
    marks = page.get_by_label("Tick by their marks")
    marks.fill("D1.1 to D1.3, d1 Q7")
    marks.press("Enter")
    expect(marks).to_have_value("Q7")
    expect(page.get_by_text("Ticked: D1.1, D1.2, D1.3, d1.")).to_contain_text("is called Q7")
    ticked = page.locator("form.entry [name=items]:checked").evaluate_all("all => all.map((box) => box.value)")
    meant = {one["id"] for kind in ("fitting", "fixing") for one in surveyed.book.items(kind)}
    assert set(ticked) == meant
    page.locator("form.entry [name=answer]").select_option("yes")
    page.locator("form.entry [name=words]").fill("As drawn.")
    page.locator("form.entry [name=said_by]").fill("keeper")
    save(page)
    (agreed,) = surveyed.book.items("agreement")
    assert set(agreed["items"]) == meant
