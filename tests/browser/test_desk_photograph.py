"""What the pointer does on a photograph at the desk: marks, a place, a zone, a colour by its card, a numbered mark."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from demo_site.photographs.camera import Camera
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from tests.browser.conftest import save, served, watched
from tests.sites import Surveyed, carded, picture, saved, survey

CAMERA = Camera((1500, 3400, 1700), (1900, 0, 1400), 1250, 2)
TAPED = ((800, 600), (3000, 600), (3000, 2200), (800, 2200))
ON_SCREEN = """(svg, [x, y]) => {
    const at = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM());
    return [at.x, at.y];
}"""
NEAR_MM = 20  # a pixel of the screen is a few millimetres of the wall


@pytest.fixture
def desk(browser: Browser, tmp_path: Path) -> Iterator[tuple[Page, Surveyed, str, str]]:
    """A wide window on a book with a photograph of a wall that has a clamp, and one of a finish beside a grey."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        known.fixing(known.fitting())
        finish = book.write("finish", {"site": known.site, "name": "Dado drab", "sort": "oil paint"})
        wall = {"site": known.site, "subject": known.face, "purpose": "as found"} | asdict(
            keep(book, picture(1600, 1200))
        )
        card = {"site": known.site, "subject": finish, "purpose": "evidence"} | asdict(keep(book, saved(carded())))
        photographs = [book.write("photograph", one) for one in (wall, card)]
        with served(book.folder) as address, watched(browser, address, viewport={"width": 1440, "height": 900}) as page:
            yield page, known, *photographs


def on_screen(page: Page, across_px: float, down_px: float) -> tuple[float, float]:
    """Where a point of the photograph lies in the window, once it is brought into it."""
    svg = page.locator(".measured svg")
    svg.scroll_into_view_if_needed()
    x, y = svg.evaluate(ON_SCREEN, [across_px, down_px])
    return x, y


def click(page: Page, across_px: float, down_px: float) -> None:
    """Click a point of the photograph."""
    page.mouse.click(*on_screen(page, across_px, down_px))


def click_wall(page: Page, x_mm: float, z_mm: float) -> None:
    """Click where the photograph shows a place of the wall."""
    click(page, *CAMERA.seen((x_mm, 0, z_mm))[:2])


def type_beside(page: Page, number: int, x_mm: float, z_mm: float) -> None:
    """Type where on the wall a mark is, beside it."""
    beside = page.get_by_role("form", name=f"Mark {number}")
    beside.get_by_label("x, mm").fill(str(x_mm))
    beside.get_by_label("z, mm").fill(str(z_mm))
    beside.get_by_role("button", name="Done").click()


def press(page: Page, button: Locator) -> None:
    """Press a button, and wait for the page that comes of it."""
    with page.expect_navigation():
        button.click()


def test_photograph_is_marked_measured_and_numbered_with_the_pointer(desk: tuple[Page, Surveyed, str, str]) -> None:
    """A mark with another's figures is told before it is saved; zone, colour and number land where they were set."""
    page, known, wall, card = desk
    page.goto(urljoin(page.url, f"/item/{wall}/measure"))
    said = page.locator("[data-said]")
    for number, place in enumerate(TAPED, 1):
        click_wall(page, *place)
        type_beside(page, number, *(TAPED[1] if number == 3 else place))
    expect(said).to_contain_text("Marks 2 and 3 are the same point on the face")
    click_wall(page, *TAPED[2])
    type_beside(page, 3, *TAPED[2])
    page.mouse.move(*on_screen(page, *CAMERA.seen((TAPED[0][0], 0, TAPED[0][1]))[:2]))
    page.mouse.down()
    page.mouse.move(*on_screen(page, *CAMERA.seen((TAPED[0][0] + 300, 0, TAPED[0][1]))[:2]), steps=4)
    page.mouse.move(*on_screen(page, *CAMERA.seen((TAPED[0][0], 0, TAPED[0][1]))[:2]), steps=4)
    page.mouse.up()
    expect(said).to_contain_text("The mark was moved")
    press(page, page.get_by_role("button", name="Save the marks"))
    expect(said).to_contain_text("Four marks always fit")
    click_wall(page, 1600, 1540)
    expect(said).to_contain_text("in 95 cases of 100")
    page.get_by_label("A click sets a corner of a zone").check()
    corners = ((1000, 1000), (2000, 1000), (2000, 1800))
    for corner in corners:
        click_wall(page, *corner)
    expect(said).to_contain_text("Corners set: 3")
    press(page, page.get_by_role("button", name="Place the corners"))
    press(page, page.get_by_role("link", name="New keep-off zone there"))
    page.locator("[name=name]").fill("Loose plaster")
    page.locator("[name=forbids][value=contact]").check()
    page.locator("[name=reason]").fill("hollow")
    save(page)
    (zone,) = known.book.items("zone")
    assert [part for corner in zone["outline"] for part in corner] == pytest.approx(
        [part for corner in corners for part in corner], abs=NEAR_MM
    )

    page.goto(urljoin(page.url, f"/item/{card}/colour"))
    page.get_by_label("A click adds a patch of the card").check()
    click(page, 100, 100)
    page.keyboard.press("End")
    page.locator("#card_patches").press_sequentially("70 0 0")
    page.get_by_label("A click sets the finish").check()
    click(page, 300, 100)
    expect(page.locator(".measured .square")).to_have_count(2)
    press(page, page.get_by_role("button", name="Enter it as a colour measured again"))
    (colour,) = known.book.items("colour")
    assert [colour[name] for name in ("lab_l", "lab_a", "lab_b")] == pytest.approx((62, 8, 20), abs=0.8)

    (fixing,) = known.book.items("fixing")
    page.goto(urljoin(page.url, f"/site/{known.site}/new/pointer?photograph={wall}"))
    expect(page.locator("#of optgroup").first).to_have_attribute("label", "Faces on R1-N")
    click_wall(page, fixing["x_mm"], fixing["z_mm"])
    page.locator("#of").select_option(fixing["id"])
    save(page)
    (mark,) = known.book.items("pointer")
    seen = CAMERA.seen((fixing["x_mm"], 0, fixing["z_mm"]))[:2]
    assert (mark["across_px"], mark["down_px"]) == pytest.approx(seen, abs=3)


def test_what_is_said_of_each_photograph_stands_beside_it(desk: tuple[Page, Surveyed, str, str]) -> None:
    """Of an empty line what the form says; what was typed for a file is there again when it is chosen again."""
    page, known, *_ = desk
    page.goto(urljoin(page.url, f"/site/{known.site}/photographs/new?subject={known.face}"))
    sent = [
        {"name": f"{name}.jpg", "mimeType": "image/jpeg", "buffer": picture(*size)}
        for name, size in (("stud", (64, 48)), ("sill", (48, 64)))
    ]
    page.locator("#files").set_input_files([*sent, {"name": "cut.jpg", "mimeType": "image/jpeg", "buffer": b"no"}])
    lines = page.get_by_role("list", name="Of each photograph").get_by_role("listitem")
    expect(lines).to_have_count(3)
    lines.nth(0).get_by_label("Caption").fill("Stud of the datum")
    lines.nth(1).get_by_label("Of").select_option(known.room)
    lines.nth(2).get_by_label("Caption").fill("Reveal")
    page.get_by_label("Purpose").last.select_option("datum")
    with page.expect_navigation():
        page.get_by_role("button", name="Add").click()
    expect(page.locator("#files-error")).to_contain_text("2 photographs of these already added")
    told = {one.get("caption"): one["subject"] for one in known.book.items("photograph")[-2:]}
    assert told == {"Stud of the datum": known.face, None: known.room}
    page.locator("#files").set_input_files([{"name": "cut.jpg", "mimeType": "image/jpeg", "buffer": picture(60, 60)}])
    expect(lines.get_by_label("Caption")).to_have_value("Reveal")
    with page.expect_navigation():
        page.get_by_role("button", name="Add").click()
    assert known.book.items("photograph")[-1]["caption"] == "Reveal"


def test_photographs_of_one_name_keep_each_its_own_words(desk: tuple[Page, Surveyed, str, str]) -> None:
    """From two folders; one is taken, and the others come back with what was typed for them, in their order."""
    page, known, *_ = desk
    page.goto(urljoin(page.url, f"/site/{known.site}/photographs/new?subject={known.face}&purpose=datum"))
    named = {"name": "1.jpg", "mimeType": "image/jpeg"}
    page.locator("#files").set_input_files([named | {"buffer": one} for one in (b"no", picture(52, 40), b"none")])
    captions = page.get_by_role("list", name="Of each photograph").get_by_label("Caption")
    for at, words in enumerate(("Hinge", "Stud", "Lock")):
        captions.nth(at).fill(words)
    with page.expect_navigation():
        page.get_by_role("button", name="Add").click()
    assert {one["caption"] for one in known.book.items("photograph") if one["purpose"] == "datum"} == {"Stud"}
    page.locator("#files").set_input_files([named | {"buffer": picture(40, 52 + at)} for at in (0, 4)])
    expect(captions.nth(0)).to_have_value("Hinge")
    expect(captions.nth(1)).to_have_value("Lock")
