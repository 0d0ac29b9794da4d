"""A folder that was handed over: does it still hold together, and a book made of it to go on working in."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import IO, Any
from uuid import UUID

from ..book import evidence, one_site, printed
from ..book.book import Book
from ..book.one_site import UnsuitableLedger
from ..book.opening import book_made, open_book
from ..errors import FieldbookError
from ..model.fields import Field, Type
from ..model.values import accept
from . import bag
from .bag import Flaw
from .editions import Edition, issue_edition
from .handover import EDITIONS, LEDGER, RECORD
from .printing import file_of

MOST_LINE_BYTES = 4_000_000
MOST_FILE_BYTES = 200_000_000
_MADE_AT = Field("made_at", "Made", Type.MOMENT, required=True)


class UnsuitableFolder(FieldbookError):
    """A folder that is no bag of a site, is damaged, or is a copy for others."""

    code = "unsuitable-folder"


def verify(folder: Path) -> list[Flaw]:
    """Everything wrong with a folder that was handed over: its lists, its digests, the chain of its ledger."""
    flaws = bag.flaws_of(folder)
    if not flaws and (folder / LEDGER).exists():
        try:
            _followed(folder, _said(folder).issued)
        except FieldbookError as error:
            flaws = [Flaw(LEDGER, error.reason)]
    return flaws


def _followed(folder: Path, issued: list[Edition]) -> None:
    """Follow the ledger; raises UnsuitableLedger where it breaks, or does not lead to an edition that was issued."""
    wanted = {edition.revision: edition.digest for edition in issued}
    with (folder / LEDGER).open("rb") as file:
        for line in one_site.checked(_lines(file)):
            if wanted.pop(line["revision"], line["hash"]) != line["hash"]:
                raise UnsuitableLedger(f"Revision {line['revision']} is not that of its edition.", "Take another copy.")
    if wanted:
        raise UnsuitableLedger(f"The ledger ends before revision {max(wanted)}.", "Take another copy.")


def _lines(file: IO[bytes]) -> Iterator[Any]:
    while line := file.readline(MOST_LINE_BYTES):
        try:
            yield json.loads(line)
        except (ValueError, RecursionError):
            raise UnsuitableLedger("A line of the ledger is no JSON.", "Take another copy.") from None


class _Said:
    """What a folder says of itself: the ids of its book and site, and the editions issued."""

    def __init__(self, said: Mapping[str, Any]):
        self.book, self.site = (str(UUID(said[name])) for name in ("book", "site"))
        self.issued = [self._edition(one) for one in said["editions"]]

    def _edition(self, said: Mapping[str, Any]) -> Edition:
        number, revision, digest = said["number"], said["revision"], said["digest"]
        if type(number) is not int or type(revision) is not int or not isinstance(digest, str) or number < 1:
            raise ValueError("no edition")
        accept(_MADE_AT, said["made_at"])
        return Edition(self.site, number, revision, digest, said["made_at"])


def _said(folder: Path) -> _Said:
    try:
        return _Said(json.loads((folder / EDITIONS).read_text(encoding="utf-8")))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError, FieldbookError):
        raise _unsuitable(folder, f"does not say which book it is of: {EDITIONS} is missing or damaged") from None


def open_folder(folder: Path, target: Path) -> Book:
    """Make a book of a folder that was handed over: the same book in a new epoch, with this one site.

    target  a folder that does not exist yet, or is empty
    Raises UnsuitableFolder, UnsuitableLedger, NotABook, NewerBook, and the errors of `storage`; nothing is made then.
    """
    _refuse_unsuitable(folder)
    with book_made(target.absolute()) as book:  # a new book has an epoch of its own
        _fill(book, folder, _said(folder))
    return open_book(target)


def _refuse_unsuitable(folder: Path) -> None:
    if flaws := verify(folder):
        more = f", and {len(flaws) - 1} more" if len(flaws) > 1 else ""
        raise _unsuitable(folder, f"is not as it was handed over: {flaws[0].path} {flaws[0].words}{more}")
    if not (folder / LEDGER).exists():
        raise _unsuitable(folder, "is a copy for others, without the ledger that a book is made of")


def _fill(book: Book, folder: Path, said: _Said) -> None:
    with (folder / LEDGER).open("rb") as file, book.writing():
        book.set_fact("book", said.book)
        one_site.take_over(book, said.site, _lines(file))
    for edition in said.issued:
        issue_edition(book, edition)
    for kind, shelf in evidence.SHELVES.items():
        _bring_files(book, kind, folder / "data" / shelf)
    if said.issued:
        record = file_of(book, said.site, str(said.issued[-1].number), False)
        record.parent.mkdir(parents=True)
        shutil.copyfile(folder / RECORD, copied := record.with_name(f"{evidence.PART}record"))
        printed.keep(book, copied, record)


def _bring_files(book: Book, kind: str, shelf: Path) -> None:
    """Keep the files an entry names; others are left where they are."""
    wanted = {item["sha256"] for item in book.items(kind, withdrawn=True)}
    for path in sorted(shelf.iterdir()) if shelf.is_dir() else ():
        if path.is_file() and path.stat().st_size <= MOST_FILE_BYTES and bag.digest_of(path) in wanted:
            evidence.keep(book.folder, kind, path.read_bytes())


def _unsuitable(folder: Path, why: str) -> UnsuitableFolder:
    return UnsuitableFolder(f"{folder} {why}.", "Ask for another copy of it.", field="folder", value=folder)
