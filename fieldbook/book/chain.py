"""Is the ledger whole? Each entry against its hash, and the whole against what others were told of it.

A chain that fits within itself may still have been cut short, or be an older one: what was issued and
what phones were told stands beside it, and on paper.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Any

from sqlite_utils import Database

from ..errors import shown
from ..model.kinds import KINDS
from . import apart, ledger
from .migrations import MIGRATIONS

SHOWN_DIGITS = 12


@dataclass(frozen=True)
class Damage:
    """One thing that is not as it was recorded.

    part   "file", "ledger", "tables", "photographs", "logs" or "records"
    item   id of the item concerned, or None
    words  what was expected and what was found
    """

    part: str
    item: str | None
    words: str


def links(db: Database) -> Iterator[Damage]:
    """Each entry: is it as it was entered, and is none missing before it?"""
    before, expected = ledger.NO_HASH, 1
    for row in db.query("SELECT * FROM ledger ORDER BY revision"):
        which = f"revision {row['revision']} ({called(db, row['kind'], row['item'])})"
        if row["revision"] != expected:
            yield Damage("ledger", row["item"], f"{which}: revision {expected} is missing before it")
        if words := _not_as_entered(row, before):
            yield Damage("ledger", row["item"], f"{which}: {words}")
        before, expected = row["hash"], row["revision"] + 1


def _not_as_entered(row: dict[str, Any], before: str) -> str:
    if row["content"] == ledger.ELSEWHERE:  # its hash alone came along, and stands for it
        return ""
    try:
        found = ledger.hash_of(row, before)
    except ValueError as error:
        return str(error)
    if found != row["hash"]:
        return f"its hash is {_short(row['hash'])}, its content gives {_short(found)}"
    return "" if _columns(row) == _content(row) else "its columns and its content differ"


def _columns(row: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(row[key] for key in ("id", "device", "kind", "item"))


def _content(row: dict[str, Any]) -> tuple[Any, ...]:
    try:
        content = json.loads(row["content"])
        return tuple(content[key] for key in ("id", "device", "kind", "item"))
    except (ValueError, KeyError, TypeError):
        return ()


def called(db: Database, kind: str, item: str) -> str:
    """An item as a person knows it, by its kind and title; where the book cannot say that, by its id."""
    with suppress(Exception):  # its name is a help: whatever stands in the way of it is found elsewhere
        if kind in KINDS and (known := ledger.find(db, item)):
            return f"{kind} “{KINDS[known[0]].title(known[1])}”"
    return f"{kind} {item}"


def set_apart(db: Database) -> Iterator[Damage]:
    """What stands apart from the ledger: is it there, and what was entered, unless it was taken out?"""
    for row in db.query("SELECT * FROM ledger WHERE instr(content, '\"apart\"') ORDER BY revision"):
        for mark in apart.marks_in(json.loads(row["content"])):
            kept = next(iter(db.query("SELECT * FROM apart WHERE digest = ?", [mark.digest])), {})
            if not apart.is_whole({name: value for name, value in kept.items() if value is not None}):
                which = f"revision {row['revision']} ({called(db, row['kind'], row['item'])})"
                words = f"{which}: what was entered as “{mark.field}” was altered or is lost"
                yield Damage("ledger", row["item"], words)


def guards(db: Database) -> Iterator[Damage]:
    """What keeps the ledger from being altered by mistake."""
    present = _guards_in(db)
    for name, statement in _guards_as_made().items():
        if present.get(name) != statement:
            how = "is not as it was made" if name in present else "was taken away"
            yield Damage("file", None, f"the guard {name} {how}: something has altered this file")


def _guards_in(db: Database) -> dict[str, str]:
    return dict(db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY name").fetchall())


@cache
def _guards_as_made() -> dict[str, str]:
    made = Database(memory=True)
    try:
        MIGRATIONS.apply(made)
        return _guards_in(made)
    finally:
        made.close()


def issued(db: Database) -> Iterator[Damage]:
    """Every edition: is what it was made from still in the chain?"""
    for edition in db.query("SELECT * FROM edition ORDER BY site, number"):
        if words := not_in_chain(db, edition["revision"], edition["digest"]):
            yield Damage("ledger", edition["site"], f"edition {edition['number']} of the record was made from {words}")
        try:
            datetime.fromisoformat(edition["made_at"])
        except ValueError:
            when = shown(edition["made_at"])
            yield Damage("ledger", edition["site"], f"edition {edition['number']} of the record: “{when}” is no time")


def told(db: Database) -> Iterator[Damage]:
    """Every phone: is the latest it said that it knows still in the chain?"""
    if "known_revision" not in db["device"].columns_dict:  # a book of the first version
        return
    for device in db.query("SELECT * FROM device WHERE known_revision IS NOT NULL ORDER BY id"):
        if words := not_in_chain(db, device["known_revision"], device["known_digest"]):
            yield Damage("ledger", device["id"], f"the phone “{device['name']}” knows {words}")


def not_in_chain(db: Database, revision: int, digest: str) -> str:
    """What is wrong with a revision and its hash, as somebody else knows them; nothing where the chain has them."""
    found = ledger.hash_at(db, revision)
    if found == digest:
        return ""
    here = f"here it has {_short(found)}" if found else "the ledger here ends before it"
    return f"revision {revision} with the checksum {_short(digest)}: {here}"


def held_against(db: Database, digest: str) -> Iterator[Damage]:
    """Whether a digest printed on paper is in the chain; blanks and capital letters in it do not count."""
    wanted = "".join(digest.split()).lower()
    if db.execute("SELECT 1 FROM ledger WHERE hash = ?", [wanted]).fetchone() is None and wanted != ledger.NO_HASH:
        words = f"no entry here has the checksum {_short(wanted)}: it is another book than was printed, or altered"
        yield Damage("ledger", None, words)


def _short(digest: object) -> str:
    text = str(digest)
    return text if len(text) <= SHOWN_DIGITS else f"{text[:SHOWN_DIGITS]}…"
