"""The phones that have joined a book: how they join, are known again, and are shut out.

A phone carries a token that does not expire, since it may be away for weeks; only its digest is
kept here. Refusing a token never loses what the phone holds.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

from ..book.book import Book
from ..book.identity import accept_id
from ..book.ledger import now
from ..errors import FieldbookError, UnknownItem
from ..model.fields import Field, Type
from ..model.values import accept
from . import codes

SEEN_EVERY = timedelta(minutes=1)  # a finer answer would cost a write with every request
_SELECT = "SELECT id, name, joined_at, seen_at, waiting, shut_out_at FROM device"
_NAME = Field("name", "Name of the phone", Type.LINE, required=True)


class UnknownToken(FieldbookError):
    """A request without a token this book gave out."""

    code = "unknown-token"


class ShutOut(FieldbookError):
    """The device was shut out at the desk."""

    code = "shut-out"


class YesNeeded(FieldbookError):
    """A phone says that it is one that has joined before, and nobody at the desk has said so."""

    code = "yes-needed"


@dataclass(frozen=True)
class Device:
    """A phone that has joined.

    waiting  how many entries and photographs it said it still held when last seen; None before that
    """

    id: str
    name: str
    joined_at: str
    seen_at: str | None
    waiting: int | None
    shut_out_at: str | None


@dataclass(frozen=True)
class Joined:
    """What a phone is given once, when it joins."""

    device: str
    token: str


def join(book: Book, code: Any, name: Any, device: Any = None) -> Joined:
    """Take a phone in that brings a valid code.

    device  the one it says that it was before; it stays that one where the code was made for it at the desk, or
            where the book, restored from before it joined, has never heard of it
    Raises WrongCode, TooManyTries, YesNeeded, and what is wrong with the name; the code is used up by none of them.
    """
    name, typed = accept(_NAME, name), code if isinstance(code, str) else ""
    joined = Joined(accept_id("device", device) if device else str(uuid4()), secrets.token_urlsafe(32))
    with book.noting():
        said_yes = not device or not _is_known(book, joined.device) or codes.is_for(book, typed, joined.device)
        refusal = codes.redeem_join_code(book, typed, keep=not said_yes) or (
            None if said_yes else _yes_needed(book, joined.device)
        )
        if refusal is None:
            book.db.execute(
                "INSERT INTO device (id, name, token_digest, joined_at) VALUES (?, ?, ?, ?) ON CONFLICT (id) DO UPDATE "
                "SET name = excluded.name, token_digest = excluded.token_digest, shut_out_at = NULL",
                [joined.device, name, _digest(joined.token), now()],
            )
    if refusal:
        raise refusal
    return joined


def _is_known(book: Book, device: str) -> bool:
    """Whether a phone has joined under this id, or entries of it are in the book."""
    asked = "SELECT 1 FROM device WHERE id = ?1 UNION ALL SELECT 1 FROM ledger WHERE device = ?1 LIMIT 1"
    return book.db.execute(asked, [device]).fetchone() is not None


def _yes_needed(book: Book, device: str) -> YesNeeded:
    row = book.db.execute("SELECT name FROM device WHERE id = ?", [device]).fetchone()
    called = f"“{row[0]}”" if row else "a phone whose entries are in this book"
    return YesNeeded(
        f"This phone says that it is {called}, which has joined before.",
        "At the desk, under Phones, press “Let it join again” beside it, and bring that code.",
        field="code",
    )


def authenticate(book: Book, token: str) -> Device:
    """The device that carries a token. Raises UnknownToken and ShutOut."""
    row = next(iter(book.db.query(f"{_SELECT} WHERE token_digest = ?", [_digest(token)])), None)
    if row is None:
        raise UnknownToken(
            "This book does not know this phone.",
            "Ask for a code at the desk and join again; nothing on the phone is lost.",
        )
    return _not_shut_out(Device(**row))


def device_named(book: Book, device: str) -> Device:
    """The device with an id. Raises UnknownItem and ShutOut."""
    row = next(iter(book.db.query(f"{_SELECT} WHERE id = ?", [device])), None)
    if row is None:
        raise UnknownItem("No such phone has joined this book.", "Let it join first.", field="device", value=device)
    return _not_shut_out(Device(**row))


def _not_shut_out(device: Device) -> Device:
    if device.shut_out_at:
        raise ShutOut(
            f"“{device.name}” has been removed from this book.",
            "Ask for a code at the desk and join again; nothing on it is lost.",
        )
    return device


def touch(book: Book, device: Device, waiting: int | None = None, known: tuple[int, str] | None = None) -> None:
    """Note that a device was seen, and what it says of itself; at most once a minute while no other number waits.

    waiting  how much is still on it
    known    the latest revision it says it knows, and its hash, which the book holds; `examine` asks for it there
    """
    recently = device.seen_at and datetime.fromisoformat(now()) - datetime.fromisoformat(device.seen_at) < SEEN_EVERY
    if recently and waiting in {None, device.waiting}:
        return
    with book.noting():
        book.db.execute(
            "UPDATE device SET seen_at = ?, waiting = coalesce(?, waiting), known_digest = coalesce(?, known_digest), "
            "known_revision = coalesce(?, known_revision) WHERE id = ?",
            [now(), waiting, known and known[1], known and known[0], device.id],
        )


def every_device(book: Book) -> list[Device]:
    """All that ever joined, those shut out last, by name."""
    order = "ORDER BY shut_out_at IS NOT NULL, name, joined_at"
    return [Device(**row) for row in book.db.query(f"{_SELECT} {order}")]


def shut_out(book: Book, device: str) -> None:
    """Answer a device no more, from now on; it keeps what it has, and can join again with a new code."""
    with book.noting():
        book.db.execute("UPDATE device SET shut_out_at = coalesce(shut_out_at, ?) WHERE id = ?", [now(), device])


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
