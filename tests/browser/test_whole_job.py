"""The whole job by hand, in a new book: from an empty folder to a record in the keeper's hand."""

from __future__ import annotations

import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from pypdf import PdfReader

from tests.browser.conftest import ROOT, follow, open_headings, save, served, watched
from tests.browser.pointing import click_on, drag_over
from tests.sites import picture

PATIENCE_MS = 300_000
# A pixel of the drawing is a few millimetres of the wall.
NEAR_MM = 8


def enter(page: Page, **typed: str) -> None:
    """Type into inputs, or choose in selects, by the names of the fields."""
    open_headings(page)
    for name, text in typed.items():
        element = page.locator(f"form.entry [name={name}]")
        if element.evaluate("element => element.tagName") == "SELECT":
            element.select_option(text)
        else:
            element.fill(text)


def cells(page: Page, label: str, *rows: tuple[str, ...]) -> None:
    """Fill a small table, row by row."""
    open_headings(page)
    table = page.get_by_role("table", name=label)
    for number, row in enumerate(rows):
        if number:
            table.locator("xpath=following-sibling::button[1]").click()
        for place, text in enumerate(row):
            table.locator("tbody tr").nth(number).locator("input").nth(place).fill(text)


def enter_site_room_and_face(page: Page) -> None:
    follow(page, page.get_by_role("link", name="New site"))
    enter(
        page, name="Customs shed, Marrow Quay", keeper="Caretaker of the harbour trust", budget="2500", currency="EUR"
    )
    save(page)
    follow(page, page.get_by_role("link", name="New room"))
    enter(page, mark="R1", name="Weighing hall")
    cells(page, "Plan outline", ("0", "0"), ("6000", "0"), ("6000", "4000"), ("0", "4000"))
    save(page)
    follow(page, page.get_by_role("link", name="New face").first)
    enter(
        page,
        mark="R1-N",
        name="North wall",
        sort="wall",
        width_mm="4000",
        height_mm="2500",
        datum="Brass pin, lower left",
    )
    cells(page, "Made of", ("lime plaster", "25", "old"), ("rubble stone", "600", "old"))
    cells(page, "What was looked for", ("keep-off zones", "adviser", "raking light", "2026-05-31"))
    save(page)
    expect(page.get_by_role("heading", level=1)).to_contain_text("North wall")


def draw_zone(page: Page) -> None:
    follow(page, page.get_by_role("link", name="New keep-off zone"))
    enter(
        page, mark="K1", name="Tally clerks' lettering", margin_mm="50", reason="Limewash lettering under later paint"
    )
    drag_over(page, (500, 1400), (2000, 1700))
    figures = [float(figure) for figure in page.locator("[name=outline]").input_value().replace("×", " ").split()]
    assert all(abs(figure - meant) <= NEAR_MM for figure, meant in zip(figures, (500, 1400, 1500, 300), strict=True))
    page.get_by_role("checkbox", name="drilling").check()
    page.get_by_role("checkbox", name="contact").check()
    save(page)


def to_face(page: Page) -> None:
    follow(page, page.get_by_role("navigation", name="Where you are").get_by_role("link", name="R1-N"))


def enter_leaf(page: Page) -> None:
    follow(page, page.get_by_role("link", name="New clearance limit"))
    enter(page, mark="L1", name="Door to the quay", sort="leaf", margin_mm="20", leaf="door", hinge_x_mm="3900")
    enter(page, hinge_y_mm="0", swing_from_deg="180", swing_to_deg="90")
    cells(page, "Boxes of leaf and handle", ("0", "900", "-50", "0"))
    save(page)


def enter_fitting(page: Page) -> None:
    follow(page, page.get_by_role("link", name="New fitting"))
    enter(page, mark="D1", name="Map rail", mass_empty_kg="4", mass_loaded_kg="9", care="Dust twice a year")
    drag_over(page, (400, 1800), (2200, 1860))
    cells(page, "Layers, from the wall outwards", ("packer", "6", "2"), ("rail", "22", "1"))
    save(page)


def enter_fixing(page: Page, mark: str) -> None:
    follow(page, page.get_by_role("link", name="New fixing"))
    enter(page, mark=mark, sort="wood screw", contact_radius_mm="15", hole="existing", fabric="old fabric")
    # Deep enough that the stone behind the plaster bears it.
    enter(page, trace="an old hole used again", penetration_mm="90", diameter_mm="5", removal_tool="Screwdriver")


@pytest.mark.long
def test_whole_job_by_hand_in_a_new_book(browser: Browser, tmp_path: Path) -> None:
    """Site, room, face, zone drawn, leaf, fitting, fixings refused, over and allowed, photograph, record."""
    book = tmp_path / "book"
    subprocess.run([sys.executable, "-m", "fieldbook", "new", str(book)], cwd=ROOT, check=True, capture_output=True)
    with served(book) as address, watched(browser, address, viewport={"width": 1440, "height": 900}) as page:
        enter_site_room_and_face(page)
        draw_zone(page)
        to_face(page)
        enter_leaf(page)
        to_face(page)
        enter_fitting(page)

        enter_fixing(page, "D1.1")
        enter(page, x_mm="4200", z_mm="1600")
        save(page)
        expect(page.locator("#x_mm-error")).to_contain_text("4200")
        assert page.locator("[name=mark]").input_value() == "D1.1"
        click_on(page, 1000, 1600)  # on the wall, but on the lettering, below its fitting
        save(page)
        expect(page.locator("#z_mm-error")).to_contain_text("off the fitting")
        enter(page, sort="hook")  # which reaches up to its fitting
        save(page)
        expect(page.get_by_role("heading", name="Findings")).to_be_visible()
        expect(page.locator(".finding.over").first).to_contain_text("K1")

        follow(page, page.get_by_role("navigation", name="Where you are").get_by_role("link", name="D1", exact=True))
        enter_fixing(page, "D1.2")
        click_on(page, 1500, 1830)
        save(page)
        expect(page.locator(".finding.over")).to_have_count(0)
        expect(page.locator(".finding.within", has_text="K1").first).to_be_visible()

        follow(page, page.get_by_role("link", name="Add photographs"))
        page.locator("#files").set_input_files(
            {"name": "d1-2.jpg", "mimeType": "image/jpeg", "buffer": picture(800, 600)}
        )
        enter(page, purpose="as fitted", caption="D1.2 from below")
        page.get_by_role("button", name="Add").click()
        expect(page.get_by_role("link", name="D1.2 from below")).to_be_visible()

        text = record_text(page)
    for words in ("D1.1", "D1.2", "K1", "L1", "Map rail", "Tally clerks", "over", "within", "Screwdriver"):
        assert words in text, words
    for words in ("Loads and fixings", "What people can climb on or lean on", "Its edge lies"):
        assert words in text, words


def record_text(page: Page) -> str:
    """Make the record, and read its PDF."""
    follow(page, page.get_by_role("link", name="Record"))
    page.get_by_role("button", name="Make the record").click()
    link = page.get_by_role("link", name="Open the PDF")
    expect(link).to_be_visible(timeout=PATIENCE_MS)
    answer = page.request.get(link.evaluate("link => link.href"))
    assert answer.headers["content-type"] == "application/pdf"
    text = " ".join(sheet.extract_text() for sheet in PdfReader(BytesIO(answer.body())).pages)
    return re.sub(r"\s+", " ", text.replace("\u00a0", " "))
