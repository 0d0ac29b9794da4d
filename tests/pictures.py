"""Take the README's pictures again: `python -m tests.pictures` enters the invented site, serves it and photographs it.

They lie in `demo_site/pictures/`. Look at each before it is committed: nothing may be cut off.
"""

from __future__ import annotations

import io
import subprocess
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, Page, expect, sync_playwright
from pypdf import PdfReader

import demo_site
from fieldbook.book.book import Book
from fieldbook.book.opening import create_book
from fieldbook.record.pdf import make_record
from tests.browser.conftest import FLAGS, ONLY_HERE, chromium_path, served
from tests.browser.phones import HELD_PHONE, Laptop, Phone
from tests.browser.serving import make_ready

PICTURES = Path(demo_site.__file__).parent / "pictures"
FACE, FITTING, POINT = "R1-N", "D2", "x_mm=2400&z_mm=1200&radius_mm=6"
ACTS = 3  # of what the phone answers
DESK_PX, RECORD_DPI = {"width": 1280, "height": 900}, 80
PATIENCE_MS = 120_000
ABOVE_PX, BAR_PX = -8, 71  # room above what is scrolled to; the bar below it
TO_THE_TOP = "(drawing, margin) => { drawing.style.scrollMarginTop = `${margin}px`; drawing.scrollIntoView(); }"
COLOURS = 96  # of a picture's palette, which keeps it small


def main() -> int:
    """Make the site and take all pictures."""
    make_ready()
    expect.set_options(timeout=PATIENCE_MS)
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        shed = Path(folder) / "shed.book"
        with create_book(shed) as book:
            site = demo_site.make(book, say=print)
            face, fitting = (marked(book, *one) for one in (("face", FACE), ("fitting", FITTING)))
            record = Path(folder) / "record.pdf"
            make_record(book, site, record)
        keep("record-page", page_about(record, fitting))
        with closing(driver.chromium.launch(executable_path=chromium_path(), args=[*FLAGS, ONLY_HERE])) as browser:
            keep("face-page", desk(browser, shed, f"/face/{face}"))
            keep("phone", phone(browser, shed, f"#/here/{face}?{POINT}"))
    return 0


def marked(book: Book, kind: str, mark: str) -> str:
    """The id of the item with a mark."""
    return next(str(item["id"]) for item in book.items(kind) if item["mark"] == mark)


def keep(name: str, png: bytes) -> None:
    """Write a picture, small."""
    picture = Image.open(io.BytesIO(png)).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    picture.save(PICTURES / f"{name}.png", optimize=True)
    print(f"{name}: {picture.width} × {picture.height}, {(PICTURES / f'{name}.png').stat().st_size} bytes")


def desk(browser: Browser, book: Path, address: str) -> bytes:
    """A page at the desk, down to the end of its first drawing."""
    with served(book) as opening, closing(browser.new_context(viewport=DESK_PX)) as context:
        page = context.new_page()
        page.goto(opening)
        page.goto(opening.split("/open")[0] + address)
        drawn = page.locator(".drawing svg").first.bounding_box()
        assert drawn
        page.set_viewport_size({**DESK_PX, "height": round(drawn["y"] + drawn["height"]) + 24})
        return shot(page)


def phone(browser: Browser, book: Path, route: str) -> bytes:
    """A page of the app on a phone that has joined."""
    laptop = Laptop(book)
    laptop.start()
    held = Phone(book, laptop.address, browser)
    try:
        held.open(device_scale_factor=1.5)
        held.join(laptop.code())
        page = held.go(route)
        page.wait_for_selector("#said:not(.shown)", state="attached")  # that it has joined is said no longer
        page.locator("#page svg").first.evaluate(TO_THE_TOP, ABOVE_PX)
        last = page.locator("[data-slot=acts] > *").nth(ACTS - 1).bounding_box()
        assert last
        page.set_viewport_size({**HELD_PHONE, "height": round(last["y"] + last["height"]) + BAR_PX})
        return shot(page)
    finally:
        held.close()
        laptop.stop()


def shot(page: Page) -> bytes:
    """What is on the screen, once all of it is there."""
    page.wait_for_load_state("networkidle")
    page.evaluate("() => document.fonts.ready.then(() => true)")
    return page.screenshot()


def page_about(record: Path, item: str) -> bytes:
    """The page of a record on which an item's sheet begins."""
    reader = PdfReader(record)
    number = str((reader.get_destination_page_number(reader.named_destinations[f"item-{item}"]) or 0) + 1)
    command = ["pdftoppm", "-png", "-r", str(RECORD_DPI), "-f", number, "-l", number, str(record)]
    return subprocess.run(command, check=True, capture_output=True).stdout


if __name__ == "__main__":
    sys.exit(main())
