"""How the pages of the phone's app stand, each gone to once: on narrow screens, for a thumb, and for everybody."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from fieldbook.book.opening import create_book
from fieldbook.book.photographs import keep
from tests.browser.looks import LEAST_TARGET_PX, SCHEMES, audit, audit_of_colours, overflow, pale, resize
from tests.browser.phones import HELD_PHONE, Laptop, Phone
from tests.sites import picture, survey

pytestmark = pytest.mark.xdist_group("phone_pages")

LOW = 640  # as high as a screen is with the keys of a keyboard up
ACROSS = (844, 390)  # a phone held across
SIZES = [
    (320, LOW, "100%"),
    (320, LOW, "200%"),
    (390, LOW, "100%"),
    (1440, LOW, "100%"),
    (*ACROSS, "100%"),
    (*ACROSS, "200%"),
]
VISITED = (
    *("#/", "#/site/{site}", "#/room/{room}", "#/face/{face}", "#/here/{face}?x_mm=50&z_mm=50&radius_mm=5"),
    *("#/packers/{face}", "#/item/{fixing}", "#/item/{fitting}", "#/item/{zone}", "#/history/{fixing}"),
    *("#/choose/{face}", "#/fitted/{fixing}", "#/work/{face}", "#/row/{fixing}"),
    *("#/photograph/{face}", "#/picture/{photograph}", "#/measure/{photograph}", "#/colour/{photograph}"),
    *("#/arrow/{photograph}", "#/due", "#/round", "#/inspect/{fitting}", "#/happened", "#/move/{fitting}"),
    *("#/phases", "#/down", "#/off/{fitting}", "#/left"),
    *("#/new/fixing?face={face}", "#/new/agreement", "#/new/zone?face={face}", "#/change/{face}"),
    *("#/waiting", "#/workshop", "#/storage", "#/join", "#/nowhere", "#/mine", "#/search", "#/mend/1"),
)
DRAWN = """async () => {
  await Promise.allSettled([...document.images].map((image) => image.decode()));
  await document.fonts.ready;
  await new Promise((go) => requestAnimationFrame(() => requestAnimationFrame(go)));
}"""
TARGETS = "button, .action, .button, select, input:not([type=checkbox]):not([type=file]), .head a, .row-link, summary"
SMALL_TARGETS = """([least, targets]) => [...document.querySelectorAll(targets)]
  .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < least - 0.5)
  .map((one) => `${one.outerHTML.slice(0, 80)} ${one.getBoundingClientRect().height}`)"""
# Words in a place so narrow that they break letter by letter.
CRAMPED = """() => [...document.querySelectorAll('#page dd, #page td, #page p, #page li')]
  .filter((one) => one.checkVisibility() && one.textContent.trim().length > 12)
  .filter((one) => one.getBoundingClientRect().width < 4 * parseFloat(getComputedStyle(one).fontSize))
  .map((one) => one.textContent.trim().slice(0, 40))"""
# Words of which a part is cut off, or that stand out of what they stand on. What a drawing leaves out, it leaves out by
# its scale; of a step of the trail the page itself says the rest, and the line of a verdict ends in dots.
CLIPPED = """() => [...document.querySelectorAll('body *')]
  .filter((one) => one.checkVisibility() && !one.closest('svg, .drawing, .trail, .skip, .verdict-line'))
  .filter((one) => [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()))
  .filter((one) => {
    const box = one.closest('button, .button, .action') ?? one;
    const { left, right, top, bottom } = box.getBoundingClientRect();
    const words = document.createRange();
    words.selectNodeContents(one);
    const said = words.getBoundingClientRect();
    const cut = box !== one || getComputedStyle(one).overflowX !== 'visible';
    return cut && (said.left < left - 1 || said.right > right + 1 || said.top < top - 1 || said.bottom > bottom + 1);
  })
  .map((one) => one.outerHTML.slice(0, 120))"""
# How much of the screen the head takes, and all that stands over the page.
HEAD = "() => document.querySelector('.head').getBoundingClientRect().height / innerHeight"
OVER = """() => (document.querySelector('.head').offsetHeight + document.getElementById('actions').offsetHeight
  + (document.querySelector('.under-thumb')?.offsetHeight ?? 0)) / innerHeight"""
MOST_HEAD, MOST_OVER = 1 / 5, 1 / 2
Found = dict[str, dict[object, Any]]


@contextmanager
def served_laptop(folder: Path) -> Iterator[tuple[Laptop, dict[str, str]]]:
    """A served book with a face that has something of everything on it, and an id of each kind."""
    with create_book(folder) as book:
        known = survey(book)
        floor = {"floor": [[0, 0], [5000, 30]], "surface": [[0, 0, 4], [300, 0, 1], [600, 0, 0]]}
        book.write("face", floor, known.face)
        zone = known.zone()
        known.limit()
        cut = {"parts": [["rail", 640, None, 2, "along"]], "stock_length_mm": 2150, "kerf_mm": 3}
        fitting = known.fitting(build_up=[["rail", 22, 1]], **cut)
        fixing = known.fixing(fitting)
        hold = {"face": known.face, "mark": "H1", "sort": "hole", "x_mm": 200, "z_mm": 200, "may_be_used": "no"}
        book.write("hold", hold)
        shown = {"site": known.site, "subject": known.face, "purpose": "datum"} | vars(keep(book, picture(640, 480)))
        ids = {"photograph": book.write("photograph", shown), "zone": zone, "fitting": fitting, "fixing": fixing}
    laptop = Laptop(folder)
    laptop.start()
    try:
        yield laptop, ids | {"site": known.site, "room": known.room, "face": known.face}
    finally:
        laptop.stop()


@pytest.fixture(scope="module")
def found(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Found:
    """Address of every page -> what was found on it, by what was looked for."""
    folder = tmp_path_factory.mktemp("phone")
    with served_laptop(folder / "book") as (laptop, ids):
        phone = Phone(folder / "phone", laptop.address, browser)
        try:
            page = phone.open(viewport=HELD_PHONE)
            on_pages = {"to join": looked_at(page)}
            phone.join(laptop.code())
            refuse_one(phone, ids["face"])
            for route in VISITED:
                on_pages[route] = looked_at(phone.go(route.format(**ids)))
        finally:
            phone.close()
        assert phone.troubles == []
        return on_pages


def refuse_one(phone: Phone, face: str) -> None:
    """Let something be refused, and something wait."""
    zone = {"face": face, "name": "Paint", "outline": [[0, 0], [9, 0], [9, 9]], "forbids": ["load"], "reason": "old"}
    phone.write({"kind": "zone", "item": "00000000-0000-7000-8000-000000000001", "set": zone | {"margin_mm": -5}})
    phone.go("#/waiting").get_by_role("button", name="Send now").click()
    expect(phone.page.locator("#waits")).to_contain_text("1 refused")


def looked_at(page: Page) -> dict[object, Any]:
    """Look at the page in every way."""
    resize(page, HELD_PHONE["width"], "100%", HELD_PHONE["height"])
    page.evaluate(DRAWN)
    found: dict[object, Any] = {"audit": audit(page)}
    for size in SIZES:
        width, height, letters = size
        resize(page, width, letters, height)
        page.evaluate(DRAWN)
        found["wide", size] = overflow(page)
        found["small", size] = page.evaluate(SMALL_TARGETS, [LEAST_TARGET_PX, TARGETS])
        found["cramped", size] = page.evaluate(CRAMPED)
        found["clipped", size] = page.evaluate(CLIPPED)
        found["head", size] = page.evaluate(HEAD)
        found["over", size] = page.evaluate(OVER)
    resize(page, HELD_PHONE["width"], "100%", HELD_PHONE["height"])
    found |= {("pale", scheme): pale(page, scheme) for scheme in SCHEMES}
    found |= {("colours", scheme): broken for scheme, broken in audit_of_colours(page).items()}
    page.emulate_media(color_scheme="light")
    return found


def troubles(found: Found, sought: object) -> dict[str, Any]:
    """The pages on which something was found of what was looked for."""
    return {route: of_page[sought] for route, of_page in found.items() if of_page[sought]}


def test_audit_finds_no_violation_on_any_page(found: Found) -> None:
    """Source of the rules: axe-core, WCAG 2.2 A and AA with its best practices."""
    assert troubles(found, "audit") == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_colours_stand_apart_on_every_page(found: Found, scheme: str) -> None:
    """Source of the rules: axe-core, WCAG 2.2 AA, those about colours; and WCAG 2.2, 1.4.3, for every text."""
    assert troubles(found, ("colours", scheme)) == {}
    assert troubles(found, ("pale", scheme)) == {}


@pytest.mark.parametrize("size", SIZES)
def test_page_fits_narrow_screens_and_large_letters(found: Found, size: tuple[int, int, str]) -> None:
    """No page is wider than the screen, no words break letter by letter, and what is pressed is at least 48 px high."""
    assert {route: px for route, px in troubles(found, ("wide", size)).items() if px > 0} == {}
    assert troubles(found, ("small", size)) == {}
    assert troubles(found, ("cramped", size)) == {}
    assert troubles(found, ("clipped", size)) == {}


@pytest.mark.parametrize("size", SIZES)
def test_page_is_seen_between_what_stands_over_it(found: Found, size: tuple[int, int, str]) -> None:
    """The head takes at most a fifth of the screen, and with the bar and the verdict at most half."""
    assert {route: share for route, share in troubles(found, ("head", size)).items() if share > MOST_HEAD} == {}
    assert {route: share for route, share in troubles(found, ("over", size)).items() if share > MOST_OVER} == {}
