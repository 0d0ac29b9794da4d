"""The browsers that are let in to the desk: each is listed, can be ended there, and lapses by itself.

A browser carries a secret in its signed cookie; only its digest is kept here.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

from ..book.book import Book
from ..book.ledger import now

LAPSES_AFTER = timedelta(days=30)  # unused
SEEN_EVERY = timedelta(hours=1)
LONGEST_NAME = 200


@dataclass(frozen=True)
class Session:
    """A browser that is let in.

    browser            what it calls itself
    opened_at, seen_at when it was let in, and when it last asked for a page
    """

    id: str
    browser: str
    opened_at: str
    seen_at: str

    @property
    def days_old(self) -> int:
        """Whole days since it was let in."""
        return _since(self.opened_at).days

    @property
    def days_unused(self) -> int:
        """Whole days since it last asked for a page."""
        return _since(self.seen_at).days


def begin(book: Book, browser: str) -> str:
    """Let a browser in; returns the secret it is known by from now on. The caller holds the write lock."""
    secret, at = secrets.token_urlsafe(32), now()
    values = [str(uuid4()), _digest(secret), browser[:LONGEST_NAME], at, at]
    book.db.execute("INSERT INTO desk_session VALUES (?, ?, ?, ?, ?)", values)
    return secret


def session_of(book: Book, secret: Any) -> Session | None:
    """The session that a browser is known by, where it is still let in; that it asked is noted, once an hour."""
    if not isinstance(secret, str):
        return None
    columns = "id, browser, opened_at, seen_at"
    query = f"SELECT {columns} FROM desk_session WHERE digest = ?"  # noqa: S608
    found = next((Session(**row) for row in book.db.query(query, [_digest(secret)])), None)
    if found is None or _since(found.seen_at) > LAPSES_AFTER:
        return None
    if _since(found.seen_at) > SEEN_EVERY:
        with book.noting():
            book.db.execute("UPDATE desk_session SET seen_at = ? WHERE id = ?", [now(), found.id])
    return found


def every_session(book: Book) -> list[Session]:
    """All that are let in, the latest used first; those that have lapsed are not among them."""
    rows = book.db.query("SELECT id, browser, opened_at, seen_at FROM desk_session ORDER BY seen_at DESC")
    return [one for one in (Session(**row) for row in rows) if _since(one.seen_at) <= LAPSES_AFTER]


def end(book: Book, session: str) -> None:
    """Let a browser in no more."""
    with book.noting():
        book.db.execute("DELETE FROM desk_session WHERE id = ?", [session])


def _since(moment: str) -> timedelta:
    return datetime.fromisoformat(now()) - datetime.fromisoformat(moment)


def _digest(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
