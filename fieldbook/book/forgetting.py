"""Taking a person out of a book: a name wherever it stands apart, the signatures with it, or a picture or document.

What was entered stays, with its hash. Words that people wrote into notes and captions stay as well, and so do former
backups, records that were handed over, and what phones hold that never meet this book again: those are for people.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..model.fields import Type
from ..model.kinds import KINDS
from . import apart, evidence, ledger, photographs, printed
from .book import FILE, Book
from .gathering import site_of
from .storage import storage_errors

# Field of a signature -> the fields that may name whose it is
SIGNED_BY = {"signature": {"said_by", "keeper"}, "fitter_signature": {"fitter"}}


@dataclass(frozen=True)
class PersonAt:
    """Where something of a person stands.

    digest  under which it stands apart; "" for what cannot be taken out, since it is part of the entry itself
    """

    revision: int
    kind: str
    item: str
    field: str
    digest: str


def places_of(book: Book, name: str) -> list[PersonAt]:
    """Where a name stands by itself or beside other words, capital letters aside, and the signatures given under it."""
    named = [place for place, words in _texts(book) if _names(words, name)]
    given = {(place.item, place.field) for place in named if place.digest}
    return sorted([*named, *_signatures(book, given)], key=lambda place: place.revision)


def _names(words: str, name: str) -> bool:
    wanted = re.escape(_plain(name))
    return bool(wanted) and re.search(rf"(?<!\w){wanted}(?!\w)", _plain(words)) is not None


def _plain(words: str) -> str:
    return " ".join(words.split()).casefold()


def _texts(book: Book) -> Iterator[tuple[PersonAt, str]]:
    """Every text that was entered, with where it stands."""
    for entry in _entries(book):
        for mark in apart.marks_in(entry):
            if mark.is_text and (text := apart.value_of(book.db, mark.digest)):
                yield _at(entry, mark.field, mark.digest), str(text)
        for field, value in entry.get("set", {}).items():
            for text in _plain_texts(value):
                yield _at(entry, field, ""), text


def _plain_texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for one in value:
            yield from _plain_texts(one)


def _signatures(book: Book, given: set[tuple[str, str]]) -> Iterator[PersonAt]:
    """Those drawn by whoever is named in one of these fields of an item."""
    for entry in _entries(book):
        for mark in apart.marks_in(entry):
            signed = {(entry["item"], name) for name in SIGNED_BY.get(mark.field, ())}
            if signed & given and apart.value_of(book.db, mark.digest):
                yield _at(entry, mark.field, mark.digest)


def _entries(book: Book) -> Iterator[dict[str, Any]]:
    """The entries as the ledger holds them, without what stands apart."""
    rows = book.db.execute("SELECT revision, content FROM ledger WHERE content <> ? ORDER BY revision", [""]).fetchall()
    yield from (json.loads(content) | {"revision": revision} for revision, content in rows)


def _at(entry: dict[str, Any], field: str, digest: str) -> PersonAt:
    return PersonAt(entry["revision"], entry["kind"], entry["item"], field, digest)


def file_of(book: Book, item: str) -> PersonAt | None:
    """Where the file of a photograph or a document is named; None for an item that is, or has, none."""
    for entry in _entries(book):
        if entry["item"] == item and entry["kind"] in evidence.SHELVES and "sha256" in entry.get("set", {}):
            return _at(entry, "sha256", entry["set"]["sha256"])
    return None


def records_with(book: Book, places: Iterable[PersonAt]) -> list[Path]:
    """The records issued that were made when something of this was there: kept in the book as PDF, they may show it."""
    first: dict[str, int] = {}
    for place in places:
        if place.digest:
            site = site_of(book, place.item)
            first[site] = min(place.revision, first.get(site, place.revision))
    rows = book.db.execute("SELECT site, number, revision FROM edition ORDER BY site, number").fetchall()
    shown = [(site, number) for site, number, revision in rows if revision >= first.get(site, revision + 1)]
    kept = (book.folder / evidence.RECORDS / site for site, _ in shown)
    return [path for folder, (_, number) in zip(kept, shown, strict=True) for path in _of_edition(folder, number)]


def _of_edition(folder: Path, number: int) -> list[Path]:
    return [path for path in sorted(folder.glob("edition-*.pdf")) if re.fullmatch(rf"edition-{number}\b.*", path.stem)]


def take_out(book: Book, places: Iterable[PersonAt]) -> bool:
    """Take out what stands apart at these places, from every file of the book; whether nothing is left in its own.

    False where somebody else reads the book meanwhile: its journal could not be emptied, so this is to be done again.
    Raises the errors of `storage`.
    """
    gone = [place for place in places if place.digest]
    records = records_with(book, gone)
    with book.writing():
        book.db.execute("PRAGMA secure_delete = ON")
        for place in gone:
            apart.take_out(book.db, place.digest, ledger.now())
        printed.forget(book, records)
        ledger.rebuild(book.db)
    for path in [*records, *(path for place in gone for path in _files_of(book, place))]:
        with storage_errors(path):
            path.unlink(missing_ok=True)
            evidence.synchronise(path.parent)
    return _nothing_left(book)


def _files_of(book: Book, place: PersonAt) -> list[Path]:
    """The file that an entry names by its digest, its smaller copies, and what has come of it."""
    named = KINDS[place.kind].by_any_name.get(place.field) if place.kind in evidence.SHELVES else None
    if named is None or named.type is not Type.DIGEST:
        return []
    sha256 = place.digest
    kept = [evidence.path_of(book.folder, place.kind, sha256), photographs.set_aside(book, sha256)]
    copies = [*(book.folder / "copies").glob(f"{sha256}-*"), *(book.folder / "arriving").glob(f"*/{sha256}.*")]
    return [path for path in (*kept, *copies) if path.exists()]


def _nothing_left(book: Book) -> bool:
    """Write the file anew and empty its journal, since both keep what was deleted until something lies over it."""
    with storage_errors(book.folder / FILE):
        book.db.execute("VACUUM")
        (busy, _, _) = book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    return not busy
