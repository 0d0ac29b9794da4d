"""Measuring in a photograph on the phone, without a network: marks, three fixings, and where they end up."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from demo_site.photographs.camera import Camera
from fieldbook.book.card_in_photograph import colour_in, measured_again
from fieldbook.book.gathering import gather
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from fieldbook.drawing.elevation import elevation
from fieldbook.record.compile import compile_record
from tests.browser.looks import audit_as_it_stands, overflow, resize
from tests.browser.phones import HELD_PHONE, InstalledApps, Laptop, Phone
from tests.sites import carded, picture, saved, survey

CAMERA = Camera((1500, 3400, 1700), (1900, 0, 1400), 1250, 2)
TAPED = ((800, 600), (3000, 600), (3000, 2200), (800, 2200))
WANTED = ((1200, 1540), (1600, 1540), (1900, 1550))
RECORDED = {"lab_l": 60, "lab_a": 8, "lab_b": 21, "lab_white": "D65"}
ON_SCREEN = """(svg, [x, y]) => {
    const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
    return [at.x, at.y];
}"""


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a wall, a rail on it with one clamp, and a photograph of the wall."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        known.fixing(known.fitting())
        kept = asdict(keep(book, picture(1600, 1200)))
        book.write("photograph", {"site": known.site, "subject": known.face, "purpose": "as found"} | kept)
        book.write("finish", {"site": known.site, "name": "Dado drab", "sort": "oil paint"} | RECORDED)
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone in the hand, joined, with its copy of the photograph, out of the laptop's reach."""
    held = Phone(tmp_path / "phone", laptop.address, installed=installed)
    held.open(viewport=HELD_PHONE, has_touch=True, is_mobile=True)
    held.join(laptop.code())
    with laptop.book() as book:
        (taken,) = book.items("photograph")
    page = held.go(f"#/picture/{taken['id']}")
    expect(page.locator("img.whole")).to_have_js_property("naturalWidth", 800)
    laptop.stop()
    held.switch_network(on=False)
    yield held
    held.close()
    assert held.troubles == []


def touch(page: Page, x_mm: float, z_mm: float) -> None:
    """Touch the photograph where the camera shows a place of the wall."""
    touch_at(page, *CAMERA.seen((x_mm, 0, z_mm))[:2])


def touch_at(page: Page, across_px: float, down_px: float) -> None:
    """Touch a point of the photograph."""
    svg = page.locator(".over-picture")
    svg.scroll_into_view_if_needed()
    page.touchscreen.tap(*svg.evaluate(ON_SCREEN, [across_px, down_px]))


def number_on_picture(page: Page, mark: str, x_mm: float, z_mm: float) -> None:
    """Number a fixing on the photograph whose page is shown, by touching it there."""
    page.get_by_role("link", name="Number something on it").tap()
    expect(page.locator("#number")).to_have_value("1")
    touch(page, x_mm, z_mm)
    page.locator("#of").select_option(page.locator("#of option", has_text=mark).get_attribute("value"))
    page.get_by_role("button", name="Save", exact=True).tap()
    expect(page.get_by_role("link", name=f"1 · {mark}")).to_be_visible()
    expect(page.locator(".over-picture")).to_contain_text("1")


def test_three_fixings_placed_on_a_photograph_are_on_the_drawing_and_in_the_record(
    phone: Phone, laptop: Laptop
) -> None:
    """Four touched corners make it measure; each touch says where it is; one is numbered; all arrives as drawn."""
    page = phone.page
    picture_page = page.evaluate("location.hash")
    page.get_by_role("link", name="Measure in it").tap()
    expect(page.get_by_role("heading", name="Measure in")).to_be_visible()
    measuring = page.evaluate("location.hash")
    expect(page.get_by_text("There are 0 marks")).to_be_visible()
    for number, (x, z) in enumerate(TAPED, 1):
        touch(page, x, z)
        mark = page.get_by_role("group", name=f"Mark {number}")
        mark.get_by_label("x mm").fill(str(x))
        mark.get_by_label("z mm").fill(str(z))
    expect(page.get_by_text("Four marks always fit")).to_be_visible()
    page.get_by_text("Measure by figures").tap()
    page.get_by_role("button", name="Where is it?").tap()
    expect(page.get_by_text("Give both across and down")).to_be_visible()
    for name, figure in (("Across", "800"), ("Down", "600")):
        page.get_by_label(name).last.fill(figure)
    page.get_by_role("button", name="Where is it?").tap()
    expect(page.get_by_role("link", name="Plan a fixing here")).to_be_visible()
    shown = page.locator("#plane_face").input_value()
    page.locator("#plane_face").select_option("")
    expect(page.get_by_role("link", name="Plan a fixing here")).to_be_hidden()
    expect(page.get_by_text("Say below on which face the marks lie")).to_be_visible()
    page.locator("#plane_face").select_option(shown)
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Save the marks").tap()
    for number, (x, z) in enumerate(WANTED, 2):
        page.get_by_role("button", name="Measure", exact=True).tap()
        touch(page, x, z)
        expect(page.get_by_text(re.compile(r"x \d+, z \d+\smm; within"))).to_be_visible()
        page.get_by_role("link", name="Plan a fixing here").tap()
        expect(page.locator("#mark")).to_have_value(f"D1.{number}")
        page.get_by_role("button", name="Save", exact=True).tap()
        expect(page.get_by_role("heading", name=f"D1.{number}", exact=True)).to_be_visible()
        phone.go(measuring)
        expect(page.locator(".over-picture")).to_contain_text(f"D1.{number}")
    number_on_picture(phone.go(picture_page), "D1.2", *WANTED[0])
    with laptop.book() as book:
        (wall,) = book.items("face")
    phone.go(f"#/face/{wall['id']}").get_by_role("button", name="Photograph under it").tap()
    expect(page.locator(".drawing image.under")).to_have_attribute("href", re.compile("^data:image/"))
    page.get_by_role("button", name="Photograph under it").tap()
    expect(page.locator(".drawing image.under")).to_have_count(0)
    phone.switch_network(on=True)
    laptop.start()
    phone.send()
    with laptop.book() as book:
        (mark,) = book.items("pointer")
        seen = CAMERA.seen((WANTED[0][0], 0, WANTED[0][1]))[:2]
        assert (mark["across_px"], mark["down_px"]) == pytest.approx(seen, abs=3)  # to a pixel of the screen
        placed = {one["mark"]: (one["x_mm"], one["z_mm"]) for one in book.items("fixing")}
        for number, wanted in enumerate(WANTED, 2):
            assert placed[f"D1.{number}"] == pytest.approx(wanted, abs=15)  # a touch is good to a screen pixel: 9 mm
        (site,) = book.items("site")
        gathered = gather(book, site["id"])
        (face,) = gathered.all("face")
        drawn = elevation(gathered, face, ())
        recorded = {one.mark for sheet in compile_record(book, site["id"]).sheets for one in sheet.fixings}
    for mark in ("D1.2", "D1.3", "D1.4"):
        assert mark in drawn
        assert mark in recorded


def test_finish_is_measured_beside_a_grey_at_the_wall_once_its_marks_are_right(
    phone: Phone, laptop: Laptop, tmp_path: Path
) -> None:
    """What is wrong with marks is told and nothing of them is lost; put right, the colour arrives with its finish."""
    taken = tmp_path / "taken.png"
    taken.write_bytes(saved(carded()))
    with laptop.book() as book:
        (finish,) = book.items("finish")
    page = phone.go(f"#/photograph/{finish['id']}")
    page.locator("#chosen-file").set_input_files(taken)
    expect(page.locator(".camera [data-slot=said]")).to_contain_text("400 × 200 px")
    page.get_by_role("button", name="Save", exact=True).tap()
    page.locator(".pictures a").tap()
    page.get_by_role("link", name="A colour from it").tap()
    expect(page.locator("#finish")).to_have_value(finish["id"])
    expect(page.get_by_text("No patch of a card is marked")).to_be_visible()
    touch_at(page, 2, 100)
    patch = page.get_by_role("group", name="Patch 1")
    for name, figure in (("L*", "70"), ("a*", "0"), ("b*", "0")):
        patch.get_by_label(name).fill(figure)
    page.get_by_role("button", name="Mark the finish").tap()
    touch_at(page, 300, 100)
    said = page.locator(".big-line")
    expect(said).to_contain_text("Patch 1 of the card: It reaches beyond the photograph")
    page.get_by_role("button", name="Enter the colour").tap()
    expect(page.get_by_role("alert")).to_contain_text("reaches beyond")
    phone.go("#/")
    page.go_back()
    expect(patch.get_by_label("L*")).to_have_value("70")
    patch.get_by_label("across px").fill("300")
    patch.get_by_label("a*").fill("28")
    expect(said).to_contain_text("one of them coloured")
    patch.get_by_label("across px").fill("100")
    patch.get_by_label("a*").fill("0")
    expect(said).to_contain_text("from 1 known patch")
    expect(page.get_by_text("Against its card: difference 1")).to_be_visible()
    assert audit_as_it_stands(page) == []
    page.get_by_role("button", name="Enter the colour").tap()
    expect(page.get_by_text("photograph with a grey beside it")).to_be_visible()
    phone.switch_network(on=True)
    laptop.start()
    phone.send()
    with laptop.book() as book:
        (colour,) = book.items("colour")
        assert colour["finish"] == finish["id"]
        assert [colour[name] for name in ("lab_l", "lab_a", "lab_b")] == pytest.approx((62, 8, 20), abs=0.8)
        photograph = next(one for one in book.items("photograph") if one["card_patches"])
        matched, correction = colour_in(book, photograph, 300, 100, 5)
        at_the_desk = measured_again(photograph, finish["id"], matched, correction)
    assert words_of(at_the_desk) == words_of({name: colour[name] for name in at_the_desk})


def test_packers_are_told_for_points_typed_at_the_wall_and_what_was_typed_stays(phone: Phone, laptop: Laptop) -> None:
    """Each line in any unit; what cannot be read is told by its line; no figure leaves its unit in large letters."""
    with laptop.book() as book:
        (wall,) = book.items("face")
    page = phone.go(f"#/packers/{wall['id']}")
    points, answer = page.get_by_label("Points"), page.locator("[data-slot=answer]")
    points.fill("300 300 6\n\n1.9 m 300 3")
    expect(answer).to_contain_text("Line 3: “1.9 m 300 3” cannot be read")
    points.fill("300 300 6\n\n1900 300")
    expect(answer).to_contain_text("Line 3 has 2 figures. Give x, z and proud.")
    points.fill("300 300 6\n1900 300 3\n3500 300 1\n5700 300 6")
    page.get_by_label("Thinnest packer anywhere").fill("600")
    expect(answer).to_contain_text("Thinnest packer anywhere is 600 mm; it must lie from 0 to 500 mm.")
    page.get_by_label("Thinnest packer anywhere").fill("")
    page.get_by_label("In the box").fill("1 1.5 2 5")
    packers = ["0 mm", "3 mm from the box: 2 + 1", "5 mm from the box: 5", "0 mm"]
    expect(answer.locator("tbody td")).to_have_text(packers)
    resize(page, 320, "200%")
    assert overflow(page) <= 0
    assert page.evaluate("() => document.querySelector('.big-figure').getClientRects().length") == 1
    assert audit_as_it_stands(page) == []
    resize(page, HELD_PHONE["width"], "100%")
    phone.go("#/")
    page.get_by_role("link", name="Packers: ").click()
    expect(points).to_have_value("300 300 6\n1900 300 3\n3500 300 1\n5700 300 6")
    for typed in (points, page.get_by_label("In the box")):
        typed.fill("")
    phone.go("#/")
    expect(page.get_by_role("link", name="Packers: ")).to_have_count(0)


def words_of(values: dict[str, Any]) -> dict[str, str]:
    """What is entered, without the figures: the desk reads a copy, the phone its original."""
    return {name: re.sub(r"\d+(\.\d+)?", "0", str(value)) for name, value in values.items() if name != "on"} | {
        "on": values["on"]
    }
