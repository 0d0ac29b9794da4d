"""What was taken out of the book, told to phones that may still hold it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from ..book import apart, ledger
from ..book.book import Book
from ..book.evidence import SHELVES


@dataclass(frozen=True)
class TakenOut:
    """All that was ever taken out of a book.

    state    changes whenever something is taken out
    entries  those it was part of, as they are without it, each with its revision
    files    digests of photographs and documents whose bytes are gone
    """

    state: str
    entries: list[dict[str, Any]]
    files: list[str]


def state(book: Book) -> str:
    """Changes whenever something is taken out; "" where nothing was."""
    return apart.state(book.db)


def taken_out(book: Book) -> TakenOut:
    """All that was ever taken out of a book."""
    gone = set(apart.taken_out(book.db))
    revisions, files = [], set()
    for revision, kind, content in book.db.execute("SELECT revision, kind, content FROM ledger WHERE content <> ''"):
        entry = json.loads(content)
        if any(mark.digest in gone for mark in apart.marks_in(entry)):
            revisions.append(revision)
        sha256 = entry.get("set", {}).get("sha256")
        if kind in SHELVES and sha256 in gone:
            files.add(sha256)
    entries = [next(ledger.entries(book.db, revision - 1, most=1)) for revision in revisions]
    return TakenOut(state(book), entries, sorted(files))
