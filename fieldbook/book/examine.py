"""Does a book still hold together? The chain, the tables, the files kept as they came.

Every finding at once, each naming the item, so that a person knows what is in doubt and what
is not. Nothing is mended here: examining must not bless damage.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from ..model.kinds import KINDS
from . import evidence, ledger, photographs, tables
from .book import Book


@dataclass(frozen=True)
class Damage:
    """One thing that is not as it was recorded.

    part   "file", "ledger", "tables", "photographs" or "logs"
    item   id of the item concerned, or None
    words  what was expected and what was found
    """

    part: str
    item: str | None
    words: str


def examine(book: Book) -> list[Damage]:
    """Everything that does not fit; an empty list for a sound book."""
    found = list(_file(book))
    if not found:
        found = [*_chain(book), *_tables(book), *_files(book)]
    return found


def _file(book: Book) -> Iterator[Damage]:
    try:
        words = [row[0] for row in book.db.execute("PRAGMA integrity_check")]
    except sqlite3.DatabaseError:
        words = ["its pages cannot be read"]
    if words != ["ok"]:
        yield Damage("file", None, f"{book.folder}: {'; '.join(words[:5])}")


def _chain(book: Book) -> Iterator[Damage]:
    before, expected = ledger.NO_HASH, 1
    for row in book.db.query("SELECT * FROM ledger ORDER BY revision"):
        called = f"revision {row['revision']} ({_called(book, row)})"
        if row["revision"] != expected:
            yield Damage("ledger", row["item"], f"{called}: revision {expected} is missing before it")
        found = ledger.chained(before, row["revision"], row["content"])
        if found != row["hash"]:
            yield Damage(
                "ledger", row["item"], f"{called}: its hash is {row['hash'][:12]}…, its content gives {found[:12]}…"
            )
        elif _columns(row) != _content(row):
            yield Damage("ledger", row["item"], f"{called}: its columns and its content differ")
        before, expected = row["hash"], row["revision"] + 1


def _columns(row: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(row[key] for key in ("id", "device", "kind", "item"))


def _content(row: dict[str, Any]) -> tuple[Any, ...]:
    try:
        content = json.loads(row["content"])
        return tuple(content[key] for key in ("id", "device", "kind", "item"))
    except (ValueError, KeyError, TypeError):
        return ()


def _called(book: Book, row: dict[str, Any]) -> str:
    known = ledger.find(book.db, row["item"]) if row["kind"] in KINDS else None
    return f"{row['kind']} “{KINDS[known[0]].title(known[1])}”" if known else f"{row['kind']} {row['item']}"


def _tables(book: Book) -> Iterator[Damage]:
    """The tables as they are, beside tables made afresh from the ledger."""
    fresh = Database(memory=True)
    try:
        tables.make_tables(fresh)
        for entry in ledger.entries(book.db):
            tables.apply(fresh, entry["revision"], entry)
        for name in tables.table_statements():
            yield from _differences(name, _rows(book.db, name), _rows(fresh, name))
    except (ValueError, KeyError, TypeError, sqlite3.Error):
        yield Damage(
            "tables", None, "the ledger can no longer be read as entries, so the tables cannot be compared with it"
        )
    finally:
        fresh.close()


def _rows(db: Database, table: str) -> set[tuple[Any, ...]]:
    return set(db.execute(f'SELECT * FROM "{table}"').fetchall())  # noqa: S608


def _differences(table: str, present: set[tuple[Any, ...]], expected: set[tuple[Any, ...]]) -> Iterator[Damage]:
    for row in sorted(present - expected, key=repr):
        yield Damage("tables", row[0], f"{table} {row[0]}: the table holds what the ledger does not say")
    for row in sorted(expected - present, key=repr):
        yield Damage("tables", row[0], f"{table} {row[0]}: the ledger says what the table does not hold")


def _files(book: Book) -> Iterator[Damage]:
    for kind, shelf in evidence.SHELVES.items():
        for item in book.items(kind, withdrawn=True):
            path = evidence.path_of(book.folder, kind, item["sha256"])
            called = f"{KINDS[kind].label.lower()} “{KINDS[kind].title(item)}” ({item['sha256'][:12]}…)"
            if not path.exists():
                aside = kind == "photograph" and photographs.set_aside(book, item["sha256"]).exists()
                why = (
                    "it came and cannot be shown; its bytes lie under unsuitable/" if aside else "its file is not here"
                )
                yield Damage(shelf, item["id"], f"{called}: {why}")
                continue
            with path.open("rb") as file:
                found = hashlib.file_digest(file, "sha256").hexdigest()
            if found != item["sha256"]:
                yield Damage(shelf, item["id"], f"{called}: its bytes have changed (digest {found[:12]}…)")
