"""The customs shed, made once for all tests of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

import demo_site
from demo_site import photographs
from demo_site.photographs.shots import Shot
from fieldbook.book.book import Book
from fieldbook.book.gathering import gather
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.site import Site


@dataclass(frozen=True)
class Shed:
    """A folder with the customs shed in it, the site's id, and its photographs as they were drawn."""

    folder: Path
    site: str
    drawn: tuple[tuple[Shot, bytes], ...]


@pytest.fixture(scope="session")
def shed(tmp_path_factory: pytest.TempPathFactory) -> Shed:
    """The customs shed, with all its photographs drawn."""
    folder = tmp_path_factory.mktemp("shed") / "book"
    drawn = tuple(photographs.drawn())
    with create_book(folder) as book:
        return Shed(folder, demo_site.make(book, drawn=lambda: drawn), drawn)


@pytest.fixture
def shed_book(shed: Shed) -> Iterator[Book]:
    """The book with the customs shed, open."""
    with open_book(shed.folder) as book:
        yield book


@pytest.fixture
def shed_site(shed: Shed, shed_book: Book) -> Site:
    """The customs shed, gathered."""
    return gather(shed_book, shed.site)
