"""Entries as a version newer than this one would have made them."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from fieldbook.book import ledger
from fieldbook.book.book import SHAPE
from fieldbook.book.opening import open_book


def from_a_newer_version(folder: Path, entries: Iterable[dict[str, Any]]) -> Path:
    """A book in which a newer version has entered this, chained as it should be."""
    with open_book(folder) as book, book.writing():
        for entry in entries:
            before, revision = book.digest(), book.revision() + 1
            made = {"device": "desk", "at": "2031-05-31T14:30:00+01:00", "base": revision - 1} | entry
            content = ledger.canonical(made)
            book.db.execute(
                "INSERT INTO ledger (revision, id, device, kind, item, content, received_at, hash) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                [revision, made["id"], made["device"], made["kind"], made["item"], content, ledger.now(),
                 ledger.chained(before, revision, content)],
            )  # fmt: skip
        book.set_fact(SHAPE, "of a newer version")
    return folder
