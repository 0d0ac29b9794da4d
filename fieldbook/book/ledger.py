"""The ledger: entries, in order, each holding the hash of the one before. Nothing is ever changed."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from typing import Any

from sqlite_utils import Database

from ..model.kinds import KINDS
from . import apart, tables

NO_HASH = "0" * 64
FIRST_RULE, RULE = 1, 2  # by which a hash was taken: since the second, it vouches for when an entry came as well
ELSEWHERE = ""  # the content of an entry about another site, in a book of which only its hash came along


def canonical(entry: Mapping[str, Any]) -> str:
    """The one text of an entry, over which its hash is taken: JSON, keys sorted, no spaces."""
    return json.dumps(entry, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def chained(hash_before: str, revision: int, content: str, received_at: str | None = None) -> str:
    """SHA-256 over the hash before, the revision, when the entry came, and its text, each on its line.

    received_at  None by the first rule, which books of the first version were begun with: not vouched for there
    """
    lines = [hash_before, str(revision), *([] if received_at is None else [received_at]), content]
    return hashlib.sha256("\n".join(lines).encode(errors="surrogateescape")).hexdigest()


def hash_of(row: Mapping[str, Any], hash_before: str) -> str:
    """The hash that a row of the ledger should have, by the rule it was entered by; one without a rule has the first.

    Raises ValueError for a rule that this version does not know.
    """
    if row.get("rule", FIRST_RULE) not in {FIRST_RULE, RULE}:
        raise ValueError(f"its hash was taken by rule {row['rule']}, which this version does not know")
    arrived = row["received_at"] if row.get("rule", FIRST_RULE) == RULE else None
    return chained(hash_before, row["revision"], row["content"], arrived)


def find(db: Database, item: str) -> tuple[str, dict[str, Any]] | None:
    """The kind and values of an item, withdrawn ones included; None when it is not in the book."""
    row = db.execute("SELECT kind FROM item WHERE id = ?", [item]).fetchone()
    if row is None:
        return None
    values = next(iter(db.query(f'SELECT * FROM "{row[0]}" WHERE id = ?', [item])))  # noqa: S608
    return row[0], tables.read_row(KINDS[row[0]], values)


def entries(db: Database, since: int = 0, item: str | None = None, most: int = -1) -> Iterator[dict[str, Any]]:
    """Accepted entries after a revision, in order, each with `revision`, `received_at` and `hash`.

    One that is here by its hash alone is there as well, as an entry that changes nothing: phones count revisions.
    """
    where, values = ("AND item = ? AND content <> ?", [since, item, ELSEWHERE, most]) if item else ("", [since, most])
    statement = f"SELECT * FROM ledger WHERE revision > ? {where} ORDER BY revision LIMIT ?"  # noqa: S608
    for row in db.query(statement, values):
        said = apart.put_back(db, json.loads(row["content"])) if row["content"] else _changes_nothing(row)
        yield said | {key: row[key] for key in ("revision", "received_at", "hash")}


def _changes_nothing(row: Mapping[str, Any]) -> dict[str, Any]:
    keys = {key: row[key] for key in ("id", "device", "kind", "item")}
    return keys | {"at": row["received_at"], "base": 0, "set": {}}


def hash_at(db: Database, revision: int) -> str | None:
    """The hash of an entry, which vouches for all before it; None where there is no such revision."""
    if revision == 0:
        return NO_HASH
    row = db.execute("SELECT hash FROM ledger WHERE revision = ?", [revision]).fetchone()
    return row[0] if row else None


def rebuild(db: Database) -> None:
    """Make the tables again from the ledger."""
    with db.atomic():
        tables.make_tables(db)
        for entry in entries(db):
            tables.apply(db, entry["revision"], entry)


def now() -> str:
    """This machine's time, RFC 3339 with offset."""
    return datetime.now(UTC).astimezone().isoformat(timespec="milliseconds")
