"""A furnished site, and its record as printed once for all the tests that only read it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from fieldbook.book.book import Book
from fieldbook.book.opening import create_book, open_book
from fieldbook.phones import codes, devices
from fieldbook.record.compile import compile_record
from fieldbook.record.contents import Record
from fieldbook.record.editions import issue_edition
from fieldbook.record.handover import handover
from fieldbook.record.pdf import Printed, write_pdf
from fieldbook.record.printing import file_of
from tests.record.furnished import Furnished, furnish


@pytest.fixture
def furnished(empty_book: Book) -> Furnished:
    """A book whose site has something for every chapter of a record."""
    return furnish(empty_book)


PHONE = "telephone of the youngest volunteer"
"""What a phone is called that has joined the book."""


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
        site = furnish(book).site
        book.write("site", {"name": "Tide mill"})
        devices.join(book, codes.new_join_code(book), PHONE)
        record = compile_record(book, site, costs=True)
        printed = write_pdf(record, book, folder / "record.pdf", lambda *_: None)
    yield OnPaper(record, folder / "book", folder / "record.pdf", printed)


@dataclass(frozen=True)
class HandedOver:
    """A folder that was handed over, the book it is of, and the record in it."""

    folder: Path
    book: Path
    record: Record


@pytest.fixture(scope="session")
def handed_over(on_paper: OnPaper, tmp_path_factory: pytest.TempPathFactory) -> HandedOver:
    """The folder of the furnished site, with the record that was printed."""
    folder, site = tmp_path_factory.mktemp("handed over"), on_paper.record.site.id
    with open_book(shutil.copytree(on_paper.book, folder / "book")) as book:
        kept = file_of(book, site, "1", False)
        kept.parent.mkdir(parents=True)
        shutil.copyfile(on_paper.file, kept)
        issue_edition(book, on_paper.record.edition)
        handover(book, site, folder / "folder")
    return HandedOver(folder / "folder", folder / "book", on_paper.record)
