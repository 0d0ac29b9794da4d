"""Records printed into the book's folder: the book holds the digest of each, so that an altered one is told."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from sqlite_utils import Database

from .book import Book
from .chain import Damage
from .evidence import RECORDS, synchronise
from .storage import storage_errors

_EDITION = re.compile(r"edition-(\d+)(?:-with-costs)?\.pdf")


def keep(book: Book, written: Path, file: Path) -> None:
    """Move a record that was written into its place; its digest is noted, and it is on disk, before this returns.

    file  where it belongs, in the book's folder
    Raises the errors of `storage`.
    """
    with storage_errors(file):
        with written.open("rb") as content:
            sha256 = hashlib.file_digest(content, "sha256").hexdigest()
            os.fsync(content.fileno())
        with book.noting():
            place = file.relative_to(book.folder).as_posix()
            book.db.execute("INSERT OR IGNORE INTO printed VALUES (?, ?)", [place, sha256])
        written.replace(file)
        synchronise(file.parent)


def forget(book: Book, files: Iterable[Path]) -> None:
    """Vouch for these no more: they go; the caller holds the write lock."""
    for file in files:
        book.db.execute("DELETE FROM printed WHERE file = ?", [file.relative_to(book.folder).as_posix()])


def altered(folder: Path, db: Database, file: Path | None = None) -> Iterator[Damage]:
    """Every record that was printed, or the one in this file: does it lie here as it was printed?"""
    for place, digests in _noted(db).items():
        if file in {None, folder / place} and (words := _not_as_printed(folder / place, digests)):
            yield Damage(RECORDS, Path(place).parent.name, f"{place}: {words}")


def _noted(db: Database) -> dict[str, set[str]]:
    """The digests a record may have, by its place in the book's folder; of one that came before this, none is noted."""
    places: dict[str, set[str]] = {}
    if db["printed"].exists():
        for file, sha256 in db.execute("SELECT file, sha256 FROM printed ORDER BY file"):
            places.setdefault(file, set()).add(sha256)
    return places


def _not_as_printed(file: Path, digests: set[str]) -> str:
    try:
        with file.open("rb") as content:
            found = hashlib.file_digest(content, "sha256").hexdigest()
    except FileNotFoundError:
        return "this record was printed, and is not here"
    except OSError as error:
        return f"this record cannot be read ({error.strerror})"
    return "" if found in digests else "this record is not as it was printed"


def unknown(folder: Path, db: Database) -> Iterator[Damage]:
    """The records that lie here: does the book know that it issued them?"""
    known = {(row["site"], row["number"]) for row in db.query("SELECT site, number FROM edition")}
    for file in sorted((folder / RECORDS).glob("*/edition-*.pdf")):
        named = _EDITION.fullmatch(file.name)
        if named and (file.parent.name, int(named[1])) not in known:
            place = file.relative_to(folder)
            yield Damage(RECORDS, file.parent.name, f"{place}: the book does not know of this edition any more")
