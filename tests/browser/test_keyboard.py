"""A small job entered at the desk by keyboard alone: no pointer, and whatever has the focus is in sight."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from fieldbook.book.opening import create_book, open_book
from tests.browser.conftest import served, watched

MOST_TABS = 160
MOST_FRAMES = 600
# What has the focus is called by its label, its words or, in a table, by its column; null where, even once the page has
# moved to it, something lies over its beginning.
CALLED = """async (frames) => {
  const at = document.activeElement;
  const inSight = () => {
    const { x, y, width, height } = at.getBoundingClientRect();
    const over = document.elementFromPoint(x + Math.min(width, 40) / 2, y + Math.min(height, 40) / 2);
    return at === document.body || at.contains(over) || Boolean(over?.contains(at));
  };
  for (; !inSight() && frames > 0; frames -= 1) await new Promise(requestAnimationFrame);
  return inSight() ? (at.getAttribute("aria-label") ?? at.labels?.[0]?.innerText ?? at.innerText ?? "").trim() : null;
}"""


def reach(page: Page, words: str) -> None:
    """Press Tab until what is called so has the focus; wherever it comes to on the way is in sight."""
    called = ""
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        before, called = called, page.evaluate(CALLED, MOST_FRAMES)
        assert called is not None, f"what comes after {before} has the focus and lies under something"
        if called.startswith(words):
            return
    raise AssertionError(f"{words} is not reached by Tab on {page.url}")


def follow(page: Page, words: str, key: str = "Enter") -> None:
    """Reach a link or a button, press it, and wait for the page that comes of it."""
    reach(page, words)
    with page.expect_navigation():
        page.keyboard.press(key)


def type_in(page: Page, **typed: str) -> None:
    """Reach each field by its label, in this order, and type into it; of a select the letters its word begins with."""
    for words, text in typed.items():
        reach(page, words.replace("_", " "))
        page.keyboard.type(text)


def press(page: Page, key: str) -> None:
    """Press a key that leads to another page."""
    with page.expect_navigation():
        page.keyboard.press(key)


def rows(page: Page, first: str, *lines: tuple[str, ...]) -> None:
    """Reach the first cell of a table and fill it: Tab to the next cell, Enter to the next row."""
    reach(page, first)
    for number, line in enumerate(lines):
        if number:
            page.keyboard.press("Enter")
        for place, text in enumerate(line):
            if place:
                page.keyboard.press("Tab")
            page.keyboard.type(text)


def survey(page: Page) -> None:
    """A site, a room, a face of old plaster, a keep-off zone on it."""
    follow(page, "New site")
    type_in(page, Name="Malthouse, Fallow Lane")
    press(page, "Enter")
    follow(page, "New room")
    type_in(page, Mark="R1", Name="Steep floor")
    press(page, "Enter")
    follow(page, "New face")
    type_in(page, Mark="R1-N", Name="Kiln wall", Type="w", Width="5230", Height="2610")
    rows(page, "material", ("lime plaster", "23", "old"))
    follow(page, "Save")
    follow(page, "New keep-off zone")
    type_in(page, Mark="K1", Name="Tally marks", Outline="rectangle 510 1380 870 260")
    reach(page, "drilling")
    page.keyboard.press("Space")
    type_in(page, Margin="45", Reason="Chalk tallies under the limewash")
    follow(page, "Save")


def plan(page: Page) -> None:
    """A rail with three clamps by the row, their marks counting on."""
    follow(page, "R1-N")
    follow(page, "New fitting")
    type_in(page, Mark="D1", Name="Sack rail", Left_edge_x="1640", Bottom_edge_z="1720", Width="1830", Height="74")
    press(page, "Enter")
    follow(page, "New fixing")
    follow(page, "Several at once")
    rows(page, "Mark, row 1", ("", "1710", "1757"), ("", "2555", '"'), ("", "3400", '"'))
    type_in(page, Type="cl", Contact_radius="26", Hole="no", Into="o", Marks_left="no")
    follow(page, "Save all")


def put_up(page: Page) -> None:
    """All of it in one act, not measured: from the booking, which comes after the drawing."""
    reach(page, "By fitting")
    follow(page, "D1")
    follow(page, "Fitted, with its fixings")
    type_in(page, Fitted_by="joiner", Place_as_fitted="not")
    follow(page, "Save")


@pytest.mark.long
def test_small_job_by_keyboard_alone(browser: Browser, tmp_path: Path) -> None:
    """From an empty book to a rail that stands, and each place the focus comes to is in sight."""
    folder = tmp_path / "book"
    create_book(folder).close()
    with served(folder) as address, watched(browser, address, viewport={"width": 1440, "height": 900}) as page:
        survey(page)
        plan(page)
        put_up(page)
        expect(page.get_by_role("heading", level=1)).to_contain_text("Kiln wall")
    with open_book(folder) as book:
        (zone,), (rail,), clamps = book.items("zone"), book.items("fitting"), book.items("fixing")
    assert (zone["forbids"], zone["margin_mm"], len(zone["outline"])) == (["drilling"], 45, 4)
    assert rail["state"] == "fitted"
    assert [(one["mark"], one["x_mm"], one["z_mm"], one["state"], one["fitted_by"]) for one in clamps] == [
        ("D1.1", 1710, 1757, "fitted", "joiner"),
        ("D1.2", 2555, 1757, "fitted", "joiner"),
        ("D1.3", 3400, 1757, "fitted", "joiner"),
    ]
