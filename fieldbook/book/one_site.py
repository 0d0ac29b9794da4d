"""The part of a book that one site is: its entries as they are, and all others as their hashes alone.

With those hashes the chain can still be followed, and a book of that one site counts its revisions as the whole did.
"""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from ..errors import FieldbookError
from ..model.kinds import KINDS
from . import accepting, apart, ledger
from .book import Book, NewerBook

BEFORE_ALL = "1970-01-01T00:00:00+00:00"
_HASH = re.compile(r"[0-9a-f]{64}")
_OTHERS = {"revision", "hash"}
_OWN = {*_OTHERS, "content", "received_at", "rule", "apart"}


class UnsuitableLedger(FieldbookError):
    """Entries whose chain is broken, or that no book took."""

    code = "unsuitable-ledger"


def belonging(book: Book, site: str) -> set[str]:
    """The ids of a site and of all that belongs to it, withdrawn or not."""
    ids = {site}
    for kind in KINDS.values():  # parents come before what belongs to them
        if kind.parent:
            rows = book.db.execute(f'SELECT id, "{kind.parent}" FROM "{kind.name}"').fetchall()  # noqa: S608
            ids |= {item for item, parent in rows if parent in ids}
    return ids


def last_revision(book: Book, site: str) -> int:
    """The revision of the latest entry about a site or anything that belongs to it; 0 where there is none."""
    mine = belonging(book, site)
    latest = book.db.execute("SELECT item, max(revision) FROM ledger GROUP BY item").fetchall()
    return max((revision for item, revision in latest if item in mine), default=0)


def lines_of(book: Book, site: str, last: int) -> Iterator[dict[str, Any]]:
    """Every revision up to `last`: all of it, with what stands apart, where it is about the site; else its hash."""
    mine = belonging(book, site)
    rows = book.db.query("SELECT * FROM ledger WHERE revision <= ? ORDER BY revision", [last])
    for row in rows:
        if row["content"] and row["item"] in mine:
            said = {key: row[key] for key in ("revision", "received_at", "rule", "content", "hash")}
            yield said | {"apart": apart.rows_of(book.db, row["content"])}
        else:
            yield {key: row[key] for key in ("revision", "hash")}


def checked(lines: Iterable[Any]) -> Iterator[dict[str, Any]]:
    """The same lines, each followed along the chain; raises UnsuitableLedger at the first that does not fit."""
    before = ledger.NO_HASH
    for revision, line in enumerate(lines, 1):
        keys = set(line) if isinstance(line, Mapping) else set()
        if keys not in (_OWN, _OTHERS) or line["revision"] != revision or not _is_hash(line["hash"]):
            raise _broken(revision, "is no entry and no hash of one, or does not follow the one before")
        if "content" in line:
            texts = isinstance(line["content"], str) and isinstance(line["received_at"], str)
            if not texts or _hash_of(line, before) != line["hash"]:
                raise _broken(revision, "does not fit its hash")
            if not _is_complete(line):
                raise _broken(revision, "misses what is kept apart from it, or that was altered")
        before = line["hash"]
        yield line


def _hash_of(line: Mapping[str, Any], before: str) -> str:
    try:
        return ledger.hash_of(line, before)
    except ValueError as error:
        raise _broken(line["revision"], f"cannot be followed: {error}") from None


def _is_complete(line: Mapping[str, Any]) -> bool:
    rows = line["apart"]
    if not isinstance(rows, list) or not all(apart.is_whole(row) for row in rows):
        return False
    try:
        entry = json.loads(line["content"])
        return {mark.digest for mark in apart.marks_in(entry)} <= {row["digest"] for row in rows}
    except (ValueError, KeyError, AttributeError, RecursionError):  # said where it is looked at as an entry
        return True


def _is_hash(value: Any) -> bool:
    return isinstance(value, str) and bool(_HASH.fullmatch(value))


def _broken(revision: int, why: str) -> UnsuitableLedger:
    return UnsuitableLedger(
        f"Revision {revision} of the ledger {why}.", "Do not use this ledger; take another copy.", value=revision
    )


def take_over(book: Book, site: str, lines: Iterable[Any]) -> None:
    """Put a site's ledger into an empty book and make its tables; the caller holds the write lock.

    Raises UnsuitableLedger, and NewerBook for an entry that this version does not know.
    """
    names = "revision, id, device, kind, item, content, received_at, rule, hash"
    statement = f"INSERT INTO ledger ({names}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)"  # noqa: S608
    for line in checked(lines):
        apart.bring(book.db, line.get("apart", []))
        try:
            book.db.execute(statement, _row_of(book, line) if "content" in line else _placeholder(line, site))
        except sqlite3.IntegrityError:
            raise _broken(line["revision"], "is there twice") from None
    ledger.rebuild(book.db)
    if book.db.execute("SELECT 1 FROM site WHERE id = ? AND name IS NOT NULL", [site]).fetchone() is None:
        raise UnsuitableLedger("The ledger says nothing of its site.", "Do not use it; take another copy.", value=site)


def _row_of(book: Book, line: Mapping[str, Any]) -> list[Any]:
    """A ledger's row, of an entry that is looked at again as if a phone had sent it."""
    revision = line["revision"]
    try:
        entry = accepting.accepted(apart.put_back(book.db, json.loads(line["content"])))
        datetime.fromisoformat(line["received_at"])
    except FieldbookError as error:
        raise NewerBook(
            f"Revision {revision} of the ledger says what this version does not take: {error.reason}",
            "If a newer Fieldbook wrote it, update this program; else do not use it.",
            value=revision,
        ) from None
    except (ValueError, TypeError, RecursionError):
        raise _broken(revision, "is no entry") from None
    keys = [entry[key] for key in ("id", "device", "kind", "item")]
    return [revision, *keys, line["content"], line["received_at"], line["rule"], line["hash"]]


def _placeholder(line: Mapping[str, Any], site: str) -> list[Any]:
    """The row of an entry that is known by its hash alone: see `ledger.entries`."""
    own_id = str(UUID(line["hash"][:32]))
    about = [line["revision"], own_id, "elsewhere", "site", site]
    return [*about, ledger.ELSEWHERE, BEFORE_ALL, ledger.FIRST_RULE, line["hash"]]
