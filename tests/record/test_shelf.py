"""A folder of books at a glance: what is due, open and in conflict; a damaged one is a line and no more."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from fieldbook.book.book import FILE, Book
from fieldbook.book.gathering import gather
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book
from fieldbook.cli import main
from fieldbook.record.shelf import due, on_the_shelf
from tests.sites import Surveyed, survey

TODAY = date(2026, 11, 26)


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    """Two books, one of them with a pair that waits; one damaged; a folder that is none."""
    folder = tmp_path / "books"
    for name in ("mill", "shed"):
        with create_book(folder / name) as book:
            surveyed = survey(book)
            if name == "mill":
                made = {"at": "2026-05-31T14:30:00+01:00", "kind": "room", "item": surveyed.room, "base": 3}
                for device in ("one", "two"):
                    book.append([{**made, "id": uuid7(), "device": device, "set": {"use": f"as {device} says"}}])
    create_book(folder / "hurt").close()
    (folder / "hurt" / FILE).write_bytes(b"SQLite format 3\0" + b"x" * 5000)
    (folder / "letters").mkdir()
    return folder


def test_books_are_listed_with_what_waits_and_damage_is_one_line(shelf: Path) -> None:
    """Each book is looked at by itself: the damaged one says so, the others are as if it were not there."""
    hurt, mill, shed = on_the_shelf(shelf, TODAY)
    assert (hurt.name, bool(hurt.trouble)) == ("hurt", True)
    assert (mill.name, mill.conflicts, mill.sites, mill.trouble) == ("mill", 1, shed.sites, "")
    assert (shed.conflicts, shed.due) == (0, ())


def test_page_leads_to_each_book_by_its_name(shelf: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The page is for a proxy to show; as JSON it is for programs; trouble in any is status 1."""
    page = tmp_path / "index.html"
    assert main(["shelf", str(shelf), "-o", str(page), "--at", "https://{book}.books.example/"]) == 1
    text = page.read_text(encoding="utf-8")
    assert 'href="https://mill.books.example/"' in text
    assert "letters" not in text
    assert main(["shelf", str(shelf)]) == 1
    assert [book["name"] for book in json.loads(capsys.readouterr().out)] == ["hurt", "mill", "shed"]
    assert main(["shelf", str(tmp_path / "nowhere")]) == 2


@pytest.mark.parametrize(
    ("entered", "said"),
    [
        (lambda book, site: None, []),
        (
            lambda book, site: visit(book, site, on="2026-05-01", next_on="2026-11-01"),
            ["Visit, due since 1 November 2026"],
        ),
        (lambda book, site: visit(book, site, on="2026-05-01", next_on="2027-05-01"), []),
        (
            lambda book, site: task(book, site, first_on="2025-01-31", every_months=1),
            ["Dust, due since 31 January 2025"],
        ),
        (
            lambda book, site: task(book, site, first_on="2026-02-26", every_months=3),
            ["Dust, due since 26 February 2026"],
        ),
        (lambda book, site: task(book, site, first_on="2026-11-27", every_months=3), []),
        (lambda book, site: task(book, site, first_on="2027-01-01", every_months=1), []),
        (lambda book, site: task(book, site, first_on="2026-01-01"), ["Dust, due since 1 January 2026"]),
        (lambda book, site: task(book, site, every_months=1), []),
        (lambda book, site: done(book, site, task(book, site, first_on="2026-11-01"), "2026-11-02"), []),
    ],
)
def test_due_is_what_came_round_and_nobody_has_done(
    surveyed: Surveyed, entered: Callable[..., object], said: list[str]
) -> None:
    """The first round of a task that was not entered as done; the next visit that was to be."""
    entered(surveyed.book, surveyed.site)
    assert [one.replace("\u00a0", " ") for one in due(gather(surveyed.book, surveyed.site), TODAY)] == said


def visit(book: Book, site: str, **values: object) -> None:
    """A visit."""
    book.write("visit", {"site": site, "purpose": "inspection"} | values)


def task(book: Book, site: str, **values: object) -> str:
    """A task."""
    return book.write("task", {"site": site, "what": "Dust"} | values)


def done(book: Book, site: str, task: str, on: str) -> None:
    """A task that was done."""
    values = {"site": site, "what": "Dust", "sort": "care", "task": task, "on": on, "outcome": "done"}
    book.write("work", values)
