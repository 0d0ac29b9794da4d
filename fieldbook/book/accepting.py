"""Entries taken into the ledger, or refused, each with an answer of its own.

An entry is accepted once, whoever sends it however often; one that is refused holds up no other.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field
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
from ..model.fields import Field, Type
from ..model.kinds import KINDS, Kind, kind_named
from ..model.values import accept, accept_all
from ..model.versions import NewerEntry
from . import apart, tables
from .identity import accept_id
from .ledger import NO_HASH, RULE, canonical, chained, find, now

FIRST = ""  # how the first version of all describes itself: not at all
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
    in_ledger = json.loads(row[1])
    before = apart.put_back(db, json.loads(row[1]))
    if "set" in before and before["kind"] in KINDS:  # it may have come in words that were changed since
        before["set"] = versions.meaning(KINDS[before["kind"]], before["set"]).values
    known, sent = (apart.without_what_is_gone(db, one, in_ledger) for one in (before, entry))
    if known | {"base": entry["base"]} != sent:  # a base is lowered when the epoch changes
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
    revision, content, arrived = last[0] + 1, canonical(apart.set_apart(db, entry)), now()
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
