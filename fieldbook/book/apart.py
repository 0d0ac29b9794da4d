"""What tells who somebody is, kept apart from the ledger: there stands a salted digest, which stays when it goes.

So a person can be taken out of a ledger that never forgets: the entry, its hash and every edition stay provable,
and that somebody was named there. What was entered before such content stood apart keeps its form.
"""

from __future__ import annotations

import hashlib
import json
import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from sqlite_utils import Database

from ..model.fields import TEXTS, Field, Type
from ..model.kinds import KINDS

MARK = "apart"
TAKEN_OUT = "taken out"
SALT_BYTES = 16
NOTHING_TAKEN_OUT = ""


@dataclass(frozen=True)
class Mark:
    """A place of an entry whose content stands apart.

    field   name it came under; of a cell, that of the rows
    digest  SHA-256 of salt and content
    within  the object or list that holds the mark, under `key`
    """

    field: str
    digest: str
    within: Any
    key: Any
    is_text: bool


def digest_of(salt: str, value: str) -> str:
    """SHA-256 over the salt and the value's JSON, each on its line."""
    return hashlib.sha256(f"{salt}\n{value}".encode(errors="surrogateescape")).hexdigest()


def set_apart(db: Database, entry: Mapping[str, Any]) -> dict[str, Any]:
    """The entry as the ledger holds it; the caller holds the write lock."""
    if "set" not in entry:
        return dict(entry)
    fields = KINDS[entry["kind"]].by_name
    return {**entry, "set": {name: _kept(db, fields[name], value) for name, value in entry["set"].items()}}


def _kept(db: Database, field: Field, value: Any) -> Any:
    if value is None:
        return None
    if field.personal:
        return {MARK: _put(db, value)}
    if field.type is Type.ROWS and any(column.personal for column in field.columns):
        return [[_kept(db, *cell) for cell in zip(field.columns, row, strict=False)] for row in value]
    return value


def _put(db: Database, value: Any) -> str:
    salt = secrets.token_hex(SALT_BYTES)
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    digest = digest_of(salt, text)
    db.execute("INSERT INTO apart (digest, salt, value) VALUES (?, ?, ?)", [digest, salt, text])
    return digest


def put_back(db: Database, entry: dict[str, Any]) -> dict[str, Any]:
    """The entry as it was sent; of what was taken out, a text says so and a drawing is none."""
    for mark in list(marks_in(entry)):
        value = value_of(db, mark.digest)
        mark.within[mark.key] = value if value is not None else TAKEN_OUT if mark.is_text else None
    return entry


def marks_in(entry: Mapping[str, Any]) -> Iterator[Mark]:
    """Every place of an entry of the ledger whose content stands apart."""
    given = entry.get("set")
    fields = KINDS[entry["kind"]].by_any_name if entry.get("kind") in KINDS else {}
    for name, value in given.items() if isinstance(given, Mapping) else ():
        if digest := _marked(value):
            known = fields.get(name)
            yield Mark(name, digest, given, name, known is None or known.type in TEXTS)
        for row in value if isinstance(value, list) else ():
            for at, cell in enumerate(row) if isinstance(row, list) else ():
                if digest := _marked(cell):
                    yield Mark(name, digest, row, at, is_text=True)


def _marked(value: Any) -> str | None:
    digest = value.get(MARK) if isinstance(value, Mapping) else None
    return digest if isinstance(digest, str) else None


def without_what_is_gone(db: Database, entry: Mapping[str, Any], row: Mapping[str, Any]) -> dict[str, Any]:
    """An entry without what was taken out of the same entry of the ledger: nobody can say any more what that was.

    row  the entry as the ledger holds it
    """
    fields = KINDS[row["kind"]].by_any_name if row["kind"] in KINDS else {}
    came_as = {mark.field for mark in marks_in(row) if value_of(db, mark.digest) is None}
    gone = came_as | {fields[name].name for name in came_as if name in fields}
    if not gone or "set" not in entry:
        return dict(entry)
    return {**entry, "set": {name: value for name, value in entry["set"].items() if name not in gone}}


def value_of(db: Database, digest: str) -> Any:
    """What stands apart under a digest; None where it was taken out."""
    row = db.execute("SELECT value FROM apart WHERE digest = ?", [digest]).fetchone()
    return json.loads(row[0]) if row and row[0] is not None else None


def take_out(db: Database, digest: str, at: str) -> None:
    """Take out what has this digest, apart from the ledger or a file; the caller holds the write lock."""
    db.execute("INSERT OR REPLACE INTO apart (digest, taken_out_at) VALUES (?, ?)", [digest, at])


def is_taken_out(db: Database, digest: str) -> bool:
    """Whether what has this digest, apart from the ledger or a file, was taken out on purpose."""
    row = db.execute("SELECT taken_out_at FROM apart WHERE digest = ?", [digest]).fetchone()
    return row is not None and row[0] is not None


def taken_out(db: Database) -> list[str]:
    """The digests of all that was taken out, in order."""
    return [row[0] for row in db.execute("SELECT digest FROM apart WHERE taken_out_at IS NOT NULL ORDER BY digest")]


def state(db: Database) -> str:
    """Changes whenever something is taken out; NOTHING_TAKEN_OUT where nothing was."""
    gone = taken_out(db)
    return hashlib.sha256("\n".join(gone).encode()).hexdigest() if gone else NOTHING_TAKEN_OUT


def rows_of(db: Database, content: str) -> list[dict[str, Any]]:
    """What stands apart for one entry of the ledger, and whether its file was taken out, as they are handed over."""
    entry = json.loads(content)
    digests = [mark.digest for mark in marks_in(entry)]
    sha256 = entry.get("set", {}).get("sha256")
    if isinstance(sha256, str) and is_taken_out(db, sha256):
        digests.append(sha256)
    rows = [row for digest in digests for row in db.query("SELECT * FROM apart WHERE digest = ?", [digest])]
    return [{key: value for key, value in row.items() if value is not None} for row in rows]


def is_whole(row: Any) -> bool:
    """Whether a row of what stands apart holds what its digest says, or says when it was taken out."""
    texts = isinstance(row, Mapping) and all(isinstance(value, str) for value in row.values())
    if not texts or set(row) not in ({"digest", "salt", "value"}, {"digest", "taken_out_at"}):
        return False
    return "taken_out_at" in row or digest_of(row["salt"], row["value"]) == row["digest"]


def bring(db: Database, rows: list[Mapping[str, Any]]) -> None:
    """Put rows that were handed over into a book; the caller holds the write lock."""
    for row in rows:
        values = [row.get(name) for name in ("digest", "salt", "value", "taken_out_at")]
        db.execute("INSERT OR REPLACE INTO apart (digest, salt, value, taken_out_at) VALUES (?, ?, ?, ?)", values)
