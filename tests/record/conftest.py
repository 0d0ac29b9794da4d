"""A furnished site, and its record as printed once for all the tests that only read it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from fieldbook.book.book import Book, create_book
from fieldbook.record.compile import compile_record
from fieldbook.record.contents import Record
from fieldbook.record.pdf import Printed, write_pdf
from tests.record.furnished import Furnished, furnish


@pytest.fixture
def furnished(empty_book: Book) -> Furnished:
    """A book whose site has something for every chapter of a record."""
    return furnish(empty_book)


@dataclass(frozen=True)
class OnPaper:
    """A record, the book it is of, the file it was printed to, and what the printing said."""

    record: Record
    book: Path
    file: Path
    printed: Printed


@pytest.fixture(scope="session")
def on_paper(tmp_path_factory: pytest.TempPathFactory) -> Iterator[OnPaper]:
    """The record of the furnished site, with costs, as a PDF."""
    folder = tmp_path_factory.mktemp("paper")
    with create_book(folder / "book") as book:
        record = compile_record(book, furnish(book).site, costs=True)
        printed = write_pdf(record, book, folder / "record.pdf", lambda *_: None)
    yield OnPaper(record, folder / "book", folder / "record.pdf", printed)
