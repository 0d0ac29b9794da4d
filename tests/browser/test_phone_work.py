"""The day's work at a face, on a phone that is touched, with the laptop stopped."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import FilePayload, Page, expect

from fieldbook.book.opening import create_book
from fieldbook.model.choices import LOOKED_FOR
from tests.browser.looks import audit_as_it_stands
from tests.browser.phones import HELD_PHONE, InstalledApps, Laptop, Phone
from tests.sites import picture, survey

LAYERS = [["cob", 300, "old"], ["stones", None, None]]
# Whether a field can be touched where it stands.
UNCOVERED = """(id) => {
  const field = document.getElementById(id);
  const { left, top, width, height } = field.getBoundingClientRect();
  return document.elementFromPoint(left + width / 2, top + height / 2) === field;
}"""
# Whether no button of the page answers in the moment it is shown again.
WATCH_PAGE = """() => {
  const page = document.getElementById("page");
  const look = () => (window.stillAtFirst ??= [...page.querySelectorAll("button")].every((one) => one.inert));
  new MutationObserver(look).observe(page, { childList: true });
}"""
TELL = """async () => ((await import("/phone/app.js")).modules["phone/notices.js"]).notice(
  "test", "Room on this phone is getting tight: only 40 MB are left for photographs.", "Make room", () => {})"""
ONE_BELOW_THE_OTHER = """(places) => {
  const boxes = places.map((place) => document.querySelector(place).getBoundingClientRect());
  const [head, notice, page] = boxes;
  return Math.abs(notice.top - head.bottom) <= 1 && page.top >= notice.bottom - 1;
}"""


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a wall, a rail on it, three clamps that are planned, and paint beside the last of them."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        known.looked()
        rail = known.fitting()
        for number in range(1, 4):
            known.fixing(rail, mark=f"D1.{number}", x_mm=1000 + 200 * number)
        book.write("build_up", {"site": known.site, "name": "Cob wall", "sort": "wall", "layers": LAYERS})
        known.zone(outline=[[1620, 1500], [1700, 1500], [1700, 1600], [1620, 1600]])
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone in the hand, joined, out of the laptop's reach; at the end nothing may have gone wrong in it."""
    held = Phone(tmp_path / "phone", laptop.address, installed=installed)
    held.open(viewport=HELD_PHONE, has_touch=True, is_mobile=True)
    held.join(laptop.code())
    laptop.stop()
    held.switch_network(on=False)
    yield held
    held.close()
    assert held.troubles == []


def figures(page: Page, text: str) -> None:
    """Press figures on the pad."""
    for key in text:
        page.locator(f'[data-key="{key}"]').tap()


def to_work(phone: Phone) -> Page:
    """From the first screen to the work at the wall: one touch."""
    page = phone.page
    page.get_by_role("link", name="North wall").tap()
    expect(page.get_by_role("heading", name="D1.1")).to_be_visible()
    return page


def sent(phone: Phone, laptop: Laptop, kind: str) -> list[dict[str, Any]]:
    """What the book holds of a kind once the phone is back."""
    phone.switch_network(on=True)
    laptop.start()
    phone.send()
    with laptop.book() as book:
        return sorted(book.items(kind), key=lambda one: str(one.get("mark")))


def test_fixings_are_measured_one_after_the_other_on_the_pad(phone: Phone, laptop: Laptop) -> None:
    """After the first the next one's field is ready, the last figure is one key away, and steps are of one."""
    page = to_work(phone)
    page.locator("#fitted_x_mm").tap()
    figures(page, "1203")
    page.locator("[data-key=next]").tap()
    figures(page, "1544")
    expect(page.get_by_text("5 mm", exact=True)).to_be_visible()  # 3-4-5
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Fitted", exact=True).tap()
    expect(page.get_by_role("heading", name="D1.2")).to_be_visible()
    expect(page.locator("#fitted_x_mm")).to_be_focused()
    expect(page.locator("#fitted_x_mm")).to_have_value("")
    figures(page, "1401")
    page.locator("[data-key=less]").tap()
    page.locator("[data-key=next]").tap()
    page.locator("[data-key=last]").tap()
    expect(page.locator("#fitted_z_mm")).to_have_value("1544")
    page.get_by_role("button", name="Fitted", exact=True).tap()
    expect(page.get_by_role("heading", name="D1.3")).to_be_visible()
    places = [(one["state"], one["fitted_x_mm"], one["fitted_z_mm"]) for one in sent(phone, laptop, "fixing")]
    assert places == [("fitted", 1203, 1544), ("fitted", 1400, 1544), ("planned", None, None)]


def test_plan_is_never_written_as_a_measurement(phone: Phone, laptop: Laptop) -> None:
    """As planned and checked, and not measured, are words without figures; nothing said is asked for."""
    page = to_work(phone)
    page.get_by_role("button", name="Fitted", exact=True).tap()
    expect(page.locator(".not-taken")).to_contain_text("Nothing says where it came to sit.")
    page.get_by_role("button", name="As planned, checked with a tape", exact=True).tap()
    expect(page.get_by_role("heading", name="D1.2")).to_be_visible()
    page.get_by_role("button", name="Fitted, not measured").tap()
    expect(page.get_by_role("heading", name="D1.3")).to_be_visible()
    told = [(one["state"], one["fitted_x_mm"], one["fitted_place"]) for one in sent(phone, laptop, "fixing")]
    words = ["as planned, checked with a tape", "not measured"]
    assert told == [("fitted", None, words[0]), ("fitted", None, words[1]), ("planned", None, None)]


def test_tick_is_undone_and_photographs_follow_in_a_row(phone: Phone, laptop: Laptop) -> None:
    """What was just fitted is still in hand: two photographs of it as fitted, and the way back."""
    page = to_work(phone)
    page.get_by_role("button", name="As planned, checked with a tape", exact=True).tap()
    done = page.locator(".just-done")
    for count in ("1 photograph", "2 photographs"):
        with page.expect_file_chooser() as chosen:
            done.get_by_role("button", name="Photograph D1.1").tap()
        shot: FilePayload = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture(640, 480 + len(count))}
        chosen.value.set_files(shot)
        expect(done).to_contain_text(count)
    done.get_by_role("button", name="Undo").tap()
    expect(page.get_by_role("heading", name="D1.1")).to_be_visible()
    photographs = sent(phone, laptop, "photograph")
    assert [one["purpose"] for one in photographs] == ["as fitted", "as fitted"]
    with laptop.book() as book:
        first = next(one for one in book.items("fixing") if one["mark"] == "D1.1")
        assert {one["subject"] for one in photographs} == {first["id"]}
        assert (first["state"], first["fitted_place"], first["fitted_on"]) == ("planned", None, None)


def test_photograph_that_is_too_large_or_none_stops_no_other_and_is_reduced_at_once(
    phone: Phone, laptop: Laptop, tmp_path: Path
) -> None:
    """Of three chosen together one is kept, one is no picture, and one is kept as soon as it may be reduced."""
    contents = {"good": picture(), "large": picture(40, 30) + bytes(50_000_000), "none": b"no picture"}
    for name, content in contents.items():
        (tmp_path / f"{name}.jpg").write_bytes(content)
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    with page.expect_file_chooser() as chosen:
        page.get_by_role("button", name="Photograph").tap()
    chosen.value.set_files([tmp_path / f"{name}.jpg" for name in ("none", "large", "good")])
    notices = page.locator("#notices")
    expect(notices).to_contain_text("1 of 3 photographs not kept: This file is no picture")
    expect(notices).to_contain_text("1 photograph not kept yet. The file has 50 MB")
    expect(page.locator(".pictures li a")).to_have_count(1)
    notices.get_by_role("button", name="Reduce and keep").tap()
    expect(page.locator(".pictures li a")).to_have_count(2)
    expect(notices).not_to_contain_text("not kept yet")
    assert sorted(one["width_px"] for one in sent(phone, laptop, "photograph")) == [40, 64]


def test_large_photograph_is_reduced_in_its_form(phone: Phone, tmp_path: Path) -> None:
    """It is told before anything is stored, with the button that mends it."""
    large = tmp_path / "large.jpg"
    large.write_bytes(picture() + bytes(50_000_000))
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    page.get_by_role("link", name="Photograph with its purpose and words").tap()
    page.locator("#chosen-file").set_input_files(large)
    expect(page.locator(".camera")).to_contain_text("at most 50 are taken")
    page.get_by_role("button", name="Reduce it and keep it").tap()
    expect(page.locator(".camera")).to_contain_text("kept on this phone")
    expect(page.get_by_role("button", name="Reduce it and keep it")).to_be_hidden()
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="R1-N North wall")).to_be_visible()


def test_place_that_is_over_asks_for_words_before_it_is_kept(phone: Phone, laptop: Laptop) -> None:
    """The verdict stands above the keys while they are pressed, and what is over is not saved without a reason."""
    page = to_work(phone)
    page.get_by_role("link", name="Next").tap()
    expect(page.get_by_role("heading", name="D1.2")).to_be_visible()
    page.get_by_role("link", name="Next").tap()
    expect(page.get_by_role("heading", name="D1.3")).to_be_visible()
    page.locator("#fitted_x_mm").tap()
    figures(page, "1600")
    page.locator("[data-key=next]").tap()
    figures(page, "1540")
    line = page.locator(".verdict-line")
    expect(line).to_contain_text("over")
    pad = page.locator(".number-pad")
    assert line.bounding_box()["y"] < pad.bounding_box()["y"]  # type: ignore[index]
    page.get_by_role("button", name="Fitted", exact=True).tap()
    expect(page.locator(".not-taken")).to_contain_text("say in the note why it stands all the same")
    page.locator("#note").fill("Moved on the caretaker’s word")
    page.get_by_role("button", name="Fitted", exact=True).tap()
    expect(page.locator(".just-done")).to_contain_text("D1.3 is fitted")
    assert sent(phone, laptop, "fixing")[2]["note"] == "Moved on the caretaker’s word"


def test_fixing_is_entered_like_the_last_one_and_a_row_follows(phone: Phone, laptop: Laptop) -> None:
    """All but its place is that of the last one; a row half typed is there again, and is held against what is there."""
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    page.get_by_role("link", name="New…").tap()
    page.get_by_role("link", name="Fixing one connection").tap()
    page.get_by_role("button", name="As the last one: D1.3").tap()
    expect(page.locator("#mark")).to_have_value("D1.4")
    expect(page.locator("#x_mm")).to_be_focused()
    figures(page, "1050")
    page.locator("[data-key=next]").tap()
    figures(page, "1540")
    expect(page.locator(".verdict-line")).to_contain_text("within")
    page.get_by_role("button", name="Save", exact=True).tap()
    page.get_by_role("link", name="A row like this").tap()
    page.locator("#row-count").tap()
    figures(page, "3")
    page.get_by_role("button", name="Back", exact=True).tap()
    page.get_by_role("link", name="A row like this").tap()
    expect(page.get_by_text("What you had typed until")).to_be_visible()
    expect(page.locator("#row-count")).to_have_value("3")
    page.locator("#row-count").tap()
    page.locator("[data-key=next]").tap()
    figures(page, "150")
    places = page.locator(".row-place")
    expect(places).to_have_text(
        ["D1.5 x 1200, z 1540 mm over", "D1.6 x 1350, z 1540 mm within", "D1.7 x 1500, z 1540 mm within"]
    )
    page.get_by_role("button", name="Enter the row").tap()
    expect(page.locator(".not-taken")).to_contain_text("over")
    page.locator("#row-across").tap()
    figures(page, "40")
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Enter the row").tap()
    expect(page.locator("tr.fixing")).to_have_count(7)
    made = sent(phone, laptop, "fixing")[3:]
    assert [(one["mark"], one["x_mm"], one["z_mm"], one["sort"]) for one in made] == [
        (f"D1.{4 + at}", 1050 + 40 * at, 1540, "clamp") for at in range(4)
    ]


def test_wall_is_asked_on_the_pad_and_answers_above_it(phone: Phone) -> None:
    """The radius is that of the widest fixing here, and the nearest free place is looked for beside the keys."""
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    page.get_by_role("link", name="May I, here?").tap()
    expect(page.locator("#here-radius")).to_have_value("12")
    expect(page.locator("#here-x")).to_be_focused()
    figures(page, "1660")
    page.locator("[data-key=next]").tap()
    figures(page, "1550")
    touch = page.locator(".finding", has_text="May I touch?")
    expect(touch).to_contain_text("No zone forbids it at x")
    expect(page.locator(".verdict-line")).to_contain_text("contact: no")
    assert audit_as_it_stands(page) == []


def test_fitting_is_agreed_with_its_fixings_on_one_page(phone: Phone, laptop: Laptop) -> None:
    """The signer sees every thing with its place and what it leaves; one answer, a stroke, and it is kept."""
    page = to_work(phone)
    page.get_by_role("link", name="D1 Rail").tap()
    page.get_by_role("link", name="Agree on it with its fixings, and sign").tap()
    expect(page.locator(".signed-thing")).to_have_count(4)
    expect(page.locator(".signed-thing").nth(3)).to_have_text(
        "D1.3 clamp at x 1600, z 1540 mm; no hole in old fabric; leaves no mark"
    )
    page.get_by_role("button", name="yes", exact=True).tap()
    area = page.locator(".pad-area")
    area.scroll_into_view_if_needed()
    box = area.bounding_box()
    assert box and box["height"] > 200  # room for a hand
    page.mouse.move(box["x"] + 40, box["y"] + 40)
    page.mouse.down()
    page.mouse.move(box["x"] + 200, box["y"] + 60, steps=6)
    page.mouse.up()
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.locator(".signature svg path")).to_have_count(1)
    (agreement,) = sent(phone, laptop, "agreement")
    assert (agreement["reference"], agreement["answer"]) == ("A1", "yes")
    assert agreement["said_by"] == "harbour trust caretaker"
    assert len(agreement["items"]) == 4


def test_entries_of_today_are_looked_at_and_undone(phone: Phone, laptop: Laptop) -> None:
    """Each shows what it set; undone, the item is as before, by one more entry."""
    page = to_work(phone)
    page.get_by_role("button", name="Fitted, not measured").tap()
    expect(page.locator(".just-done")).to_be_visible()
    phone.go("#/mine")
    entry = page.locator(".mine > li")
    expect(entry).to_contain_text("Fixing D1.1")
    expect(entry).to_contain_text("not measured")
    assert audit_as_it_stands(page) == []
    entry.get_by_role("button", name="Undo").tap()
    expect(entry).to_have_count(2)
    with_undo = sent(phone, laptop, "fixing")
    assert [(one["state"], one["fitted_place"], one["fitted_on"]) for one in with_undo[:1]] == [("planned", None, None)]


def test_two_quick_presses_on_what_is_due_enter_one_thing(phone: Phone, laptop: Laptop) -> None:
    """Neither the same twice, nor what moves up into its place."""
    with laptop.book() as book:
        site = str(book.items("site")[0]["id"])
    care = {"site": site, "every_months": 12, "first_on": "2020-01-01"}
    for number, what in enumerate(("Dust the rail", "Look at the linings"), 1):
        phone.write(
            {"kind": "task", "item": f"00000000-0000-7000-8000-00000000000{number}", "set": care | {"what": what}}
        )
    page = phone.go("#/due")
    done = page.get_by_role("button", name="Done", exact=True)
    expect(done).to_have_count(2)
    page.evaluate(WATCH_PAGE)
    done.first.dblclick()
    expect(page.get_by_role("heading", name="Later")).to_be_visible()
    assert page.evaluate("window.stillAtFirst") is True
    assert len(sent(phone, laptop, "work")) == 1


def test_anything_is_found_by_its_mark_and_its_words(phone: Phone) -> None:
    """Every word sought must be there; what is called so comes first."""
    page = phone.go("#/search")
    page.locator("#sought").fill("d1.2")
    expect(page.locator(".lines li")).to_have_count(1)
    page.locator("#sought").fill("d1")
    expect(page.locator(".lines li").first).to_contain_text("Rail")
    page.locator("#sought").fill("scheme painted")
    page.get_by_role("link", name="Old paint").tap()
    expect(page.get_by_role("heading", name="K1 Old paint")).to_be_visible()


def to_a_new_zone(phone: Phone) -> Page:
    """To the form of a keep-off zone, with all but its outline filled in."""
    page = to_work(phone)
    page.get_by_role("link", name="New…").tap()
    page.get_by_role("link", name="Keep-off zone").tap()
    expect(page.locator("#name")).to_be_focused()
    page.locator("#name").fill("Lettering")
    page.get_by_role("checkbox", name="contact").check()
    page.locator("#margin_mm").fill("20")
    page.locator("#page #reason").fill("painted")
    return page


def corner(page: Page, x: str, z: str) -> None:
    """Press the figures of a corner; the field for x is at hand."""
    figures(page, x)
    page.locator("[data-key=next]").tap()
    figures(page, z)


def outlines(phone: Phone, laptop: Laptop) -> list[Any]:
    """Those of the zones in the book, once what is on the page is saved and sent."""
    page = phone.page
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="Lettering")).to_be_visible()
    return [zone["outline"] for zone in sent(phone, laptop, "zone")]


def test_outline_is_entered_by_walking_its_corners(phone: Phone, laptop: Laptop) -> None:
    """Figures one after the other; two corners across from each other make a rectangle."""
    page = to_a_new_zone(phone)
    page.locator("[data-corner=x]").tap()
    corner(page, "300", "2000")
    page.locator("[data-key=next]").tap()
    expect(page.locator("[data-corner=x]")).to_be_focused()
    corner(page, "900", "2250")
    page.get_by_role("button", name="These two: a rectangle").tap()
    expect(page.locator("#outline")).to_have_value("300 2000\n900 2000\n900 2250\n300 2250")
    assert audit_as_it_stands(page) == []
    assert [[300, 2000], [900, 2000], [900, 2250], [300, 2250]] in outlines(phone, laptop)


def test_rectangle_of_two_corners_is_saved_by_one_touch_above_the_keys(phone: Phone, laptop: Laptop) -> None:
    """It says how large it is, stands in dashes on the drawing, and is not offered for what is no rectangle."""
    page = to_a_new_zone(phone)
    page.locator("[data-corner=x]").tap()
    corner(page, "300", "2000")
    page.locator("[data-key=next]").tap()
    figures(page, "900")
    expect(page.get_by_role("button", name="Save the rectangle")).to_have_count(0)
    page.locator("[data-key=next]").tap()
    figures(page, "2250")
    expect(page.locator(".corners path.outline.touched")).to_have_count(1)
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Save the rectangle, 600 × 250\N{NO-BREAK SPACE}mm").tap()
    expect(page.get_by_role("heading", name="Lettering")).to_be_visible()
    outline = [[300, 2000], [900, 2000], [900, 2250], [300, 2250]]
    assert outline in [zone["outline"] for zone in sent(phone, laptop, "zone")]


def test_last_corner_counts_though_nothing_was_pressed_after_it(phone: Phone, laptop: Laptop) -> None:
    """A corner belongs to the outline as soon as it is typed; half of one is asked for."""
    page = to_a_new_zone(phone)
    page.locator("[data-corner=x]").tap()
    for x, z in (("300", "2000"), ("900", "2000")):
        corner(page, x, z)
        page.get_by_role("button", name="Next corner").tap()
    figures(page, "600")
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.locator(".not-taken")).to_contain_text("Outline")
    page.locator("[data-corner=z]").tap()
    figures(page, "2250")
    assert [[300, 2000], [900, 2000], [600, 2250]] in outlines(phone, laptop)


def test_corners_touched_on_the_drawing_are_measured_before_anything_is_made_of_them(
    phone: Phone, laptop: Laptop
) -> None:
    """Each says how far it may be out and is asked for its figures; until then the outline is not kept."""
    page = to_a_new_zone(phone)
    drawing = page.get_by_role("region", name="Drawing of the face")
    drawing.scroll_into_view_if_needed()
    box = drawing.bounding_box()
    assert box
    for across, down in ((0.3, 0.4), (0.6, 0.4), (0.45, 0.2)):
        drawing.tap(position={"x": box["width"] * across, "y": box["height"] * down})
    expect(page.locator(".corners")).to_contain_text("Corner 1, touched near x")
    expect(page.locator(".corners circle.outline.touched")).to_have_count(3)
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.locator(".not-taken")).to_contain_text("corner 1 was touched on the drawing")
    page.locator("[data-corner=x]").tap()
    for x, z in (("1500", "1800"), ("2900", "1800"), ("2200", "2300")):
        corner(page, x, z)
        page.locator("[data-key=next]").tap()
    expect(page.locator(".corners circle.outline.dot")).to_have_count(3)
    assert [[1500, 1800], [2900, 1800], [2200, 2300]] in outlines(phone, laptop)


def to_change(phone: Phone, item: str) -> Page:
    """The form of something that is there."""
    page = phone.page
    page.evaluate(f"location.hash = '#/change/{item}'")
    expect(page.locator("form")).to_be_visible()
    return page


def save(page: Page) -> None:
    """Save a form, and wait until its page is left."""
    button = page.get_by_role("button", name="Save", exact=True)
    button.tap()
    expect(button).to_be_hidden()


def test_rows_of_a_table_are_entered_cell_by_cell(phone: Phone, laptop: Laptop) -> None:
    """Figures by the pad, words as on a drawing, a row for each that was looked for; each is in the lines at once."""
    with laptop.book() as book:
        (face,), (room,) = (book.items(kind) for kind in ("face", "room"))
    page = to_change(phone, face["id"])
    page.get_by_text("Survey", exact=True).tap()
    floor = page.get_by_role("group", name="Floor profile: the next row")
    before = page.locator("#floor").input_value()
    floor.locator("input").first.tap()
    for figure in ("0", "4", "1450"):
        figures(page, figure)
        page.locator("[data-key=next]").tap()
    figures(page, "9")
    expect(page.locator("#floor")).to_have_value(f"{before}\n0 4\n1450 9".lstrip())
    made_of = page.get_by_role("group", name="Made of: the next row")
    material, thickness = (made_of.locator("input").nth(at) for at in range(2))
    page.locator("#layers").fill("lime plaster 21 old / rubble 480")
    page.locator("#layers").blur()
    expect(page.locator("#layers")).to_have_value("lime plaster; 21; old\nrubble; 480")
    material.fill("clay 3 l")
    material.blur()
    expect(page.locator("#layers")).to_have_value("lime plaster; 21; old\nrubble; 480\nclay; 3; later")
    expect(material).to_have_value("")
    material.fill("cob wall")
    material.blur()
    thickness.fill("12")  # of the next row, which was not meant
    thickness.fill("")
    assert audit_as_it_stands(page) == []
    save(page)
    page = to_change(phone, room["id"])
    looked = page.get_by_role("group", name="What was looked for: the next row")
    looked.locator("select").select_option("all of these")
    looked.locator("input").nth(0).fill("fitter")
    looked.locator("input").nth(1).fill("raking light")
    save(page)
    (face,) = sent(phone, laptop, "face")
    with laptop.book() as book:
        (room,) = book.items("room")
    assert face["layers"] == [["lime plaster", 21, "old"], ["rubble", 480, None], ["clay", 3, "later"], *LAYERS]
    assert face["floor"][-2:] == [[0, 4], [1450, 9]]
    today = {on for *_, on in room["looked_for"][-len(LOOKED_FOR) :]}
    assert [row[:3] for row in room["looked_for"][-len(LOOKED_FOR) :]] == [
        [what, "fitter", "raking light"] for what in LOOKED_FOR
    ]
    assert len(today) == 1


def test_what_is_read_off_together_is_typed_or_ticked_together(phone: Phone, laptop: Laptop) -> None:
    """A size by one input, as an instrument types it; what an agreement is about by the marks."""
    with laptop.book() as book:
        (fitting,) = book.items("fitting")
    page = to_change(phone, fitting["id"])
    page.locator("#width_mm").fill("760 × 410")
    page.locator("#width_mm").blur()
    expect(page.locator("#height_mm")).to_have_value("410")
    save(page)
    page.evaluate("location.hash = '#/new/agreement'")
    marks = page.get_by_label("Tick by their marks")
    marks.fill("D1.1 to D1.3 Q7")
    marks.blur()
    expect(marks).to_have_value("Q7")
    expect(page.locator("[name=items]:checked")).to_have_count(3)
    (fitting,) = sent(phone, laptop, "fitting")
    assert (fitting["width_mm"], fitting["height_mm"]) == (760, 410)


def test_wall_of_a_room_is_one_touch_and_two_figures(phone: Phone, laptop: Laptop) -> None:
    """Its mark, its name and its sort are known by the side it stands on; one that is there is not offered."""
    page = phone.page
    page.get_by_role("link", name="Long room").tap()
    page.get_by_role("link", name="New face").tap()
    expect(page.get_by_role("button", name="North wall")).to_have_count(0)
    page.get_by_role("button", name="South wall").tap()
    expect(page.locator("#width_mm")).to_be_focused()
    figures(page, "4800")
    page.locator("#height_mm").tap()
    figures(page, "2900")
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="South wall")).to_be_visible()
    (face,) = (one for one in sent(phone, laptop, "face") if one["name"] == "South wall")
    assert (face["mark"], face["sort"], face["width_mm"], face["height_mm"]) == ("R1-S", "wall", 4800, 2900)


def test_first_screen_leads_to_one_more_like_the_last(phone: Phone, laptop: Laptop) -> None:
    """At the face one was at: a fixing like the last, an agreement on a fitting; and in a room the wall that lacks."""
    page = to_work(phone)
    phone.go("#/")
    page.get_by_role("link", name="New at R1-N").tap()
    assert audit_as_it_stands(page) == []
    phone.go("#/")
    page.get_by_role("link", name="Like D1.3").tap()
    expect(page.locator("#x_mm")).to_be_focused()
    figures(page, "1800")
    page.locator("[data-key=next]").tap()
    figures(page, "1540")
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="D1.4")).to_be_visible()
    phone.go("#/")
    page.get_by_role("link", name="New at R1-N").tap()
    page.get_by_role("link", name="On D1 Rail").tap()
    expect(page.locator(".signing li")).to_have_count(5)
    phone.go("#/")
    page.get_by_role("link", name="Long room").tap()
    page.get_by_role("link", name="New: South wall").tap()
    expect(page.locator("#width_mm")).to_be_focused()
    expect(page.locator("#mark")).to_have_value("R1-S")
    fixings = sent(phone, laptop, "fixing")
    assert [(one["mark"], one["x_mm"], one["z_mm"]) for one in fixings[-1:]] == [("D1.4", 1800, 1540)]


def test_what_was_seen_before_is_said_again_by_one_touch(phone: Phone, laptop: Laptop) -> None:
    """In the words of the button, with its classes; what was blank stays blank, and what is chosen anew is so."""
    page = to_work(phone)
    said = (("condition_class", "1"),), (), (("condition_class", "3"), ("urgency_class", "2"))
    for chosen in said:
        phone.go("#/")
        page.get_by_role("link", name="Observation", exact=True).tap()
        before = page.get_by_role("button", name="Plaster hollow: condition 1", exact=True)
        if chosen == said[0]:
            expect(page.locator("#what")).to_be_focused()
            page.locator("#what").fill("Plaster hollow")
        else:
            expect(before).to_have_attribute("aria-pressed", "false")
            before.tap()
            expect(before).to_have_attribute("aria-pressed", "true")
            assert audit_as_it_stands(page) == []
        for name, word in chosen:
            page.locator(".input", has=page.locator(f"#{name}")).get_by_role("button", name=word, exact=True).tap()
        page.get_by_role("button", name="Save", exact=True).tap()
        expect(page.get_by_role("heading", name="Plaster hollow")).to_be_visible()
    seen = sent(phone, laptop, "observation")
    assert {(one["what"], one["recommendation_class"]) for one in seen} == {("Plaster hollow", None)}
    classes = [(one["condition_class"], one["urgency_class"]) for one in seen]
    assert sorted(classes, key=str) == [("1", None), ("1", None), ("3", "2")]
    assert all(one["face"] and one["room"] for one in seen)


def test_lean_of_a_face_is_taken_from_the_phone_s_sensor(phone: Phone, laptop: Laptop) -> None:
    """The back on a face that hangs over by 3°: the figure, and in the note how sure that is."""
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    page.get_by_role("link", name="All fields and history").tap()
    page.get_by_role("link", name="Change").tap()
    page.evaluate(  # again and again, as a sensor tells: the app listens once it was allowed to
        "setInterval(() => { for (let at = 0; at < 20; at += 1)"
        " dispatchEvent(new DeviceOrientationEvent('deviceorientation', { beta: 93.1, gamma: 0.2 })) }, 50)"
    )
    page.get_by_role("button", name="Take it from this phone").tap()
    expect(page.locator("#slope_deg")).to_have_value("3")
    expect(page.get_by_text("± 1°: nobody has calibrated")).to_be_visible()
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="North wall")).to_be_visible()
    (face,) = sent(phone, laptop, "face")
    assert face["slope_deg"] == 3
    assert "± 1°" in face["note"]


def test_arrow_and_words_go_on_a_copy_of_a_photograph(phone: Phone, laptop: Laptop) -> None:
    """The first stays as it was taken; the copy is a photograph of its own, of the same thing."""
    page = to_work(phone)
    page.get_by_role("link", name="R1-N").tap()
    with page.expect_file_chooser() as chosen:
        page.get_by_role("navigation", name="What to do").get_by_role("button", name="Photograph").tap()
    shot: FilePayload = {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture(640, 480)}
    chosen.value.set_files(shot)
    page.locator(".pictures a").tap()
    page.get_by_role("link", name="Draw an arrow on it").tap()
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.locator(".not-taken")).to_contain_text("There is no arrow yet.")
    page.locator("#arrow-words").fill("crack")
    canvas = page.locator("canvas")
    canvas.scroll_into_view_if_needed()
    box = canvas.bounding_box()
    assert box
    page.mouse.move(box["x"] + 40, box["y"] + 40)
    page.mouse.down()
    page.mouse.move(box["x"] + 200, box["y"] + 120, steps=6)
    page.mouse.up()
    assert audit_as_it_stands(page) == []
    page.locator("#trail").get_by_role("link", name="On site").tap()
    page.get_by_role("link", name="An arrow on it").tap()
    expect(page.locator("#arrow-words")).to_have_value("crack")
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("heading", name="crack (arrow drawn on a copy)")).to_be_visible()
    first, second = sorted(sent(phone, laptop, "photograph"), key=lambda one: one["caption"] or "")
    assert first["caption"] is None
    assert (first["subject"], first["purpose"]) == (second["subject"], second["purpose"])
    assert first["sha256"] != second["sha256"]


@pytest.mark.parametrize(("width", "height"), [(390, 844), (320, 568)])
def test_field_in_hand_is_in_sight_however_the_phone_is_turned(phone: Phone, width: int, height: int) -> None:
    """Between the head and the keys; held across, beside them, with what is answered over them."""
    page = to_work(phone)
    page.set_viewport_size({"width": width, "height": height})
    page.locator("#fitted_z_mm").tap()
    figures(page, "15")
    expect(page.locator(".verdict-line")).to_be_visible()
    for turned in ((width, height), (height, width), (width, height)):
        page.set_viewport_size({"width": turned[0], "height": turned[1]})
        page.wait_for_function(UNCOVERED, arg="fitted_z_mm")
        page.wait_for_function(UNCOVERED, arg="fitted_x_mm")


def test_notice_stands_under_the_head_and_the_page_under_it(phone: Phone) -> None:
    """Over the page that was being read; the next one, and one that is turned, begin below it."""
    page = to_work(phone)
    page.evaluate(TELL)
    notice = page.locator("#notices .notice")
    expect(notice).to_be_in_viewport()
    phone.go("#/mine")
    for width, height in ((390, 844), (844, 390), (320, 568)):
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_function(ONE_BELOW_THE_OTHER, arg=[".head", ".notice", "#page h1"])


def test_head_stays_low_however_large_the_letters(phone: Phone) -> None:
    """At twice the size it is at most a fifth of the screen, five steps deep, and shows where one is."""
    page = to_work(phone)
    page.evaluate("document.documentElement.style.setProperty('font-size', '200%')")
    page.get_by_role("link", name="D1 Rail").tap()
    expect(page.get_by_role("heading", name="D1 Rail")).to_be_visible()
    head = page.locator(".head").bounding_box()
    assert head and head["height"] <= HELD_PHONE["height"] / 5
    expect(page.locator("#trail li").last).to_be_in_viewport()


def test_drawing_is_enlarged_with_two_fingers_and_a_touch_is_no_measurement(phone: Phone) -> None:
    """Apart they make it larger; what a touch answers says how far it may be out, and plans nothing by itself."""
    page = to_work(phone)
    drawing = page.locator(".viewed")
    expect(drawing).to_have_attribute("data-scale", "3")
    box = drawing.bounding_box()
    assert box
    spread_fingers(page, box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(drawing).to_have_attribute("data-scale", "1")  # 3 mm a pixel, for fingers thrice as far apart
    page.touchscreen.tap(box["x"] + 30, box["y"] + 30)
    quick = page.locator(".quick-answer")
    expect(quick).to_contain_text("Touched, not measured")
    quick.get_by_role("link", name="Plan a fixing here").tap()
    expect(page.locator("#x_mm")).to_have_value("")


def spread_fingers(page: Page, x: float, z: float) -> None:
    """Two fingers, 40 px apart, moved to 120 px apart."""
    session = page.context.new_cdp_session(page)
    for kind, half in (("touchStart", 20), ("touchMove", 40), ("touchMove", 60), ("touchEnd", None)):
        points = [] if half is None else [{"x": x - half, "y": z, "id": 0}, {"x": x + half, "y": z, "id": 1}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
