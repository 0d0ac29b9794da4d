"""The ledger: entries, in order, each holding the hash of the one before. Nothing is ever changed.

An entry is accepted once, whoever sends it however often; the answer to each is its own, and one
that is refused holds up no other.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from enum import StrEnum
from typing import Any

from sqlite_utils import Database

from ..errors import (
    FieldbookError,
    Missing,
    OutOfRange,
    Refused,
    UnknownField,
    UnknownItem,
    UnsuitableText,
    shown,
)
from ..model import rules, versions
from ..model.fields import Field, Type, accept, accept_all
from ..model.kinds import KINDS, Kind, kind_named
from ..model.versions import NewerEntry
from . import tables
from .identity import accept_id

NO_HASH = "0" * 64
FIRST_RULE, RULE = 1, 2  # by which a hash was taken: since the second, it vouches for when an entry came as well
FIRST = ""  # how the first version of all describes itself: not at all
ELSEWHERE = ""  # the content of an entry about another site, in a book of which only its hash came along
_AT = Field("at", "Time", Type.MOMENT, required=True)
_DEVICE = Field("device", "Device", Type.LINE, required=True)
_BASE = Field("base", "Base revision", Type.WHOLE, low=0, required=True)
_WITHDRAW = Field("withdraw", "Withdraw", Type.YES_NO, required=True)


class Status(StrEnum):
    """What became of an entry that was sent."""

    ACCEPTED = "accepted"
    REPEATED = "repeated"  # the same entry had been accepted before
    WAITING = "waiting"  # it points to something not yet here, or takes a newer version; send it again later
    REFUSED = "refused"


@dataclass(frozen=True)
class EntryAnswer:
    """The answer to one entry.

    revision  the number it was given, when accepted or repeated
    findings  why it was refused or waits
    """

    id: str | None
    status: Status
    revision: int | None = None
    findings: tuple[FieldbookError, ...] = field(default=())

    def as_dict(self) -> dict[str, Any]:
        """The answer as plain values, for JSON."""
        findings = [finding.as_dict() for finding in self.findings]
        return {"id": self.id, "status": str(self.status), "revision": self.revision, "findings": findings}


class IdUsedTwice(FieldbookError):
    """An entry came under an id that belongs to another entry."""

    code = "id-used-twice"


class AheadOfBook(OutOfRange):
    """An entry has seen a revision that the book has not: the book was put back, or the phone has not asked yet."""

    code = "ahead-of-book"


class OtherDevice(FieldbookError):
    """An entry names another device than the one that sends it."""

    code = "other-device"


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


def append(
    db: Database, sent: Any, device: str | None = None, behind: set[str] | None = None, described: str | None = None
) -> EntryAnswer:
    """Accept or refuse one entry, with all its effects, in one transaction; the caller holds the write lock.

    device     the one it must come from; None for any
    behind     items of which an earlier entry of the same sender waits: a later one waits behind it, so that
               a device's changes of one item stand in the order it made them
    described  fingerprint of the description the sender has; None where it is this one, FIRST where it says none
    """
    behind = set() if behind is None else behind
    given = sent if isinstance(sent, Mapping) else {}
    given_id = given.get("id") if isinstance(given.get("id"), str) else None
    other = described not in {None, versions.fingerprint()}
    try:
        with db.atomic():
            if other and described != FIRST:
                versions.refuse_newer(given, tables.KEYS)
            entry = _accept(sent, device)
            return _known(db, entry) or _append_new(db, entry, behind, other)
    except Refused as refused:
        answer = _refusal(given_id, tuple(refused.findings))
    except FieldbookError as error:
        answer = _refusal(given_id, (error,))
    if answer.status is Status.WAITING:
        with suppress(FieldbookError):
            behind.add(accept_id("item", given.get("item")))
    return answer


def _refusal(entry_id: str | None, findings: tuple[FieldbookError, ...]) -> EntryAnswer:
    waits = all(isinstance(finding, (UnknownItem, NewerEntry, AheadOfBook)) for finding in findings)
    return EntryAnswer(entry_id, Status.WAITING if waits else Status.REFUSED, None, findings)


def _accept(sent: Any, device: str | None) -> dict[str, Any]:
    if not isinstance(sent, Mapping) or ("set" in sent) == ("withdraw" in sent):
        raise UnsuitableText("An entry either sets fields or withdraws an item.", "Send it as it was made.", value=sent)
    for key in sent:
        if key not in tables.KEYS:
            known = ", ".join(tables.KEYS)
            raise UnknownField(f"An entry has no “{shown(key)}”.", f"Its keys are: {known}.", field=str(key))
    entry = {
        "id": accept_id("id", sent.get("id")),
        "device": accept(_DEVICE, sent.get("device")),
        "at": accept(_AT, sent.get("at")),
        "kind": kind_named(sent.get("kind")).name,
        "item": accept_id("item", sent.get("item")),
        "base": accept(_BASE, sent.get("base")),
    }
    if device not in {None, entry["device"]}:
        raise OtherDevice(
            "This was made on another device.", "Send it from there.", field="device", value=entry["device"]
        )
    if "withdraw" in sent:
        return entry | {"withdraw": bool(accept(_WITHDRAW, sent["withdraw"]))}
    if not isinstance(sent["set"], Mapping):
        raise UnsuitableText(
            "“set” is not an object of fields.", "Send it as it was made.", field="set", value=sent["set"]
        )
    kind = KINDS[entry["kind"]]
    return entry | {"set": accept_all(kind.by_name, versions.present_names(kind, sent["set"]))}


def is_here(db: Database, entry_id: str) -> bool:
    """Whether the ledger has an entry."""
    return db.execute("SELECT 1 FROM ledger WHERE id = ?", [entry_id]).fetchone() is not None


def accepted(sent: Any) -> dict[str, Any]:
    """An entry by itself as a book would take it, its links not followed; raises a FieldbookError."""
    return _accept(sent, None)


def _known(db: Database, entry: Mapping[str, Any]) -> EntryAnswer | None:
    row = db.execute("SELECT revision, content FROM ledger WHERE id = ?", [entry["id"]]).fetchone()
    if row is None:
        return None
    before = json.loads(row[1])
    if "set" in before and before["kind"] in KINDS:  # it may have come in words that were changed since
        before["set"] = versions.meaning(KINDS[before["kind"]], before["set"]).values
    if before | {"base": entry["base"]} != entry:  # a base is lowered when the epoch changes
        raise IdUsedTwice(
            f"Entry {entry['id']} was accepted before with another content.",
            "Enter the change again.",
            field="id",
            value=entry["id"],
        )
    return EntryAnswer(entry["id"], Status.REPEATED, row[0])


def _append_new(db: Database, entry: dict[str, Any], behind: set[str], other: bool) -> EntryAnswer:
    kind = KINDS[entry["kind"]]
    known = find(db, entry["item"])
    if known and known[0] != kind.name:
        raise UnsuitableText(
            f"This item is a {known[0]}, not a {kind.name}.", "Send it as it was made.", field="kind", value=kind.name
        )
    if entry["item"] in behind or (known is None and not _founds(kind, entry)):
        raise UnknownItem(
            "An earlier entry about this item is not in the book yet.",
            "Send that first.",
            field="item",
            value=entry["item"],
        )
    if "set" in entry:
        before = known[1] if known else None
        as_it_would_stand = dict(before or {}) | entry["set"]
        found = rules.findings(kind, entry["item"], as_it_would_stand, lambda item: find(db, item), before)
        if other:
            found = [one for one in found if not _was_not_asked(kind, one)]
        if found:
            raise Refused(found)
    last = db.execute("SELECT revision, hash FROM ledger ORDER BY revision DESC LIMIT 1").fetchone() or (0, NO_HASH)
    if entry["base"] > last[0]:
        raise AheadOfBook(
            f"The entry has seen revision {entry['base']}; the book has {last[0]}.",
            "It goes again once the phone has asked how far the book is.",
            field="base",
            value=entry["base"],
        )
    revision, content, arrived = last[0] + 1, canonical(entry), now()
    digest = chained(last[1], revision, content, arrived)
    db.execute(
        "INSERT INTO ledger (revision, id, device, kind, item, content, received_at, hash, rule) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [revision, entry["id"], entry["device"], kind.name, entry["item"], content, arrived, digest, RULE],
    )
    tables.apply(db, revision, entry)
    return EntryAnswer(entry["id"], Status.ACCEPTED, revision)


def _was_not_asked(kind: Kind, finding: FieldbookError) -> bool:
    """Whether what is missing is asked for in this version and was not in every one before."""
    return isinstance(finding, Missing) and bool(kind.by_name[finding.field or ""].since)


def _founds(kind: Kind, entry: Mapping[str, Any]) -> bool:
    """Whether an entry can be the first of its item: it says what the item belongs to, or what a site is called."""
    return (kind.parent or "name") in entry.get("set", {})


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
        said = json.loads(row["content"]) if row["content"] else _changes_nothing(row)
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
