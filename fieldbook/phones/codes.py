"""One-time codes: each is used once, within some minutes. Only their digests are kept.

They lie in the book's own file, so that a code made by one process is accepted by another.
"""

from __future__ import annotations

import hashlib
import hmac
import math
import secrets
import time

from ..book.book import Book
from ..errors import FieldbookError

JOIN, OPEN = "join", "open"  # a phone joins the book; a browser opens the desk
LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # none that is easily taken for another
LENGTH, GROUP = 8, 4  # 5 bits a letter
SECONDS = {JOIN: 3600, OPEN: 600}  # what a phone must be told before it trusts a book takes its time
MOST_WRONG, PAUSE_SECONDS = 5, 600


class WrongCode(FieldbookError):
    """A code that was never given out, has been used, or is too old."""

    code = "wrong-code"


class TooManyTries(FieldbookError):
    """So many wrong codes came that none is looked at for a while.

    seconds  until one is looked at again
    """

    code = "too-many-tries"

    def __init__(self, seconds: int):
        super().__init__(
            f"{MOST_WRONG} wrong codes came within {PAUSE_SECONDS // 60} minutes.",
            f"Wait {math.ceil(seconds / 60)} minutes, then ask for a new code at the desk.",
            field="code",
        )
        self.seconds = seconds


def new_join_code(book: Book, device: str | None = None) -> str:
    """A code of 40 bits to be typed into a phone, in groups.

    device  the earlier phone that whoever brings the code may be again
    """
    letters = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
    _keep(book, JOIN, letters, device)
    return "-".join(letters[start : start + GROUP] for start in range(0, LENGTH, GROUP))


def new_opening(book: Book) -> str:
    """A secret of 256 bits for the address that opens the desk."""
    secret = secrets.token_urlsafe(32)
    _keep(book, OPEN, secret)
    return secret


def _keep(book: Book, purpose: str, secret: str, device: str | None = None) -> None:
    now = time.time()
    with book.noting():
        book.db.execute("DELETE FROM one_time_code WHERE expires_at <= ?", [now])
        book.db.execute(
            "INSERT INTO one_time_code (digest, purpose, expires_at, device) VALUES (?, ?, ?, ?)",
            [_digest(purpose, secret), purpose, now + SECONDS[purpose], device],
        )


def is_for(book: Book, typed: str, device: str) -> bool:
    """Whether a code was made for this very phone to join again."""
    query = "SELECT device FROM one_time_code WHERE digest = ?"
    row = book.db.execute(query, [_digest(JOIN, as_typed(typed))]).fetchone()
    return row is not None and row[0] == device


def as_typed(text: str) -> str:
    """The letters of a code however a person types it: in small letters, with spaces, O for 0, I or L for 1."""
    plain = "".join(letter for letter in text.upper() if letter.isalnum())
    return plain.translate(str.maketrans("OIL", "011"))


def redeem_join_code(book: Book, typed: str, keep: bool = False) -> FieldbookError | None:
    """Use a code up, or say why not; the caller holds the write lock and commits either way.

    keep  only look whether it fits
    """
    now = time.time()
    book.db.execute("DELETE FROM wrong_code WHERE at <= ? OR at > ?", [now - PAUSE_SECONDS, now])
    wrong, first = book.db.execute("SELECT count(*), min(at) FROM wrong_code").fetchone()
    if wrong >= MOST_WRONG:
        return TooManyTries(math.ceil(first + PAUSE_SECONDS - now))
    if redeem(book, JOIN, as_typed(typed), keep):
        return None
    book.db.execute("INSERT INTO wrong_code VALUES (?)", [now])
    return WrongCode(
        "This code was never given out, has been used, or is too old.", "Ask for a new one at the desk.", field="code"
    )


def redeem(book: Book, purpose: str, secret: str, keep: bool = False) -> bool:
    """Use a secret up; False when there is no such one any more. The caller holds the write lock."""
    offered = _digest(purpose, secret)
    live = book.db.execute(
        "SELECT digest FROM one_time_code WHERE purpose = ? AND expires_at > ?", [purpose, time.time()]
    ).fetchall()
    fits = [digest for (digest,) in live if hmac.compare_digest(digest, offered)]
    for digest in fits if not keep else ():
        book.db.execute("DELETE FROM one_time_code WHERE digest = ?", [digest])
    return bool(fits)


def _digest(purpose: str, secret: str) -> str:
    return hashlib.sha256(f"{purpose}\n{secret}".encode()).hexdigest()
