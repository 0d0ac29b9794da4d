"""Photographs that arrive in pieces: each device's lie apart, out of sight, until every byte is there.

A cut costs the piece under way. What is whole is read once, held against its digest, looked at,
and written anew by `photographs.keep`; nothing that could still be written to becomes a photograph.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import time
from dataclasses import dataclass
from pathlib import Path

from ..book import photographs
from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, original
from ..book.storage import DiskFull, storage_errors
from ..errors import FieldbookError

MOST_BYTES = 1 << 20
MOST_UNDER_WAY = 40  # photographs of one device
FORGOTTEN_AFTER_S = 30 * 86_400
ROOM_LEFT_BYTES = 200_000_000  # for the ledger, which must go on


class OutOfStep(FieldbookError):
    """A piece does not follow what is here.

    received  how many bytes are here, where the next piece must begin
    """

    code = "out-of-step"

    def __init__(self, received: int):
        super().__init__(
            f"{received} bytes are here; this piece does not follow them.", "Go on from there.", value=received
        )
        self.received = received

    def as_dict(self) -> dict[str, object]:
        return super().as_dict() | {"received": self.received}


class DigestDiffers(FieldbookError):
    """All bytes are there, and they are not those of the digest."""

    code = "digest-differs"


class TooMuchUnderWay(FieldbookError):
    """A device began more photographs than it finished."""

    code = "too-much-under-way"
    seconds = 3_600


@dataclass(frozen=True)
class Progress:
    """How far a photograph has come."""

    received: int
    complete: bool


def progress(book: Book, device: str, sha256: str) -> Progress:
    """How far a photograph of a device has come."""
    kept, part = original(book, sha256), _part(book, device, sha256)
    with storage_errors(part):
        if kept.exists():
            return Progress(kept.stat().st_size, True)
        return Progress(part.stat().st_size if part.exists() else 0, False)


def take(book: Book, device: str, sha256: str, first: int, total: int, content: bytes) -> Progress:
    """Put a piece where it belongs, on disk before this returns; the last one makes the photograph.

    first  place of the piece's first byte; a piece that came before may come again
    Raises OutOfStep, DigestDiffers, UnsuitablePhotograph, TooMuchUnderWay, and the errors of `storage`.
    """
    here = progress(book, device, sha256)
    if here.complete:
        return here
    if total > photographs.MOST_BYTES:
        reason = f"The photograph has {total / 1e6:.0f} MB; at most {photographs.MOST_BYTES / 1e6:.0f} MB are taken."
        raise UnsuitablePhotograph(reason, "Send a smaller copy.", field="photograph")
    if first > here.received:
        raise OutOfStep(here.received)
    part = _part(book, device, sha256)
    with storage_errors(part):
        if not part.exists():
            _make_room(book, part, total)
        _write(part, first, content)
        if part.stat().st_size < total:
            return Progress(part.stat().st_size, False)
    return _finish(book, part, sha256)


def forget(book: Book, device: str) -> None:
    """Throw away what a device has begun and not finished."""
    shutil.rmtree(_part(book, device, "").parent, ignore_errors=True)


def _part(book: Book, device: str, sha256: str) -> Path:
    return book.folder / "arriving" / device / f"{sha256}.part"


def _make_room(book: Book, part: Path, total: int) -> None:
    part.parent.mkdir(parents=True, exist_ok=True)
    for begun in part.parent.iterdir():
        if begun.stat().st_mtime < time.time() - FORGOTTEN_AFTER_S:
            begun.unlink(missing_ok=True)
    if sum(1 for _ in part.parent.iterdir()) >= MOST_UNDER_WAY:
        raise TooMuchUnderWay(f"{MOST_UNDER_WAY} photographs were begun and not finished.", "Finish those first.")
    if shutil.disk_usage(book.folder).free < total + ROOM_LEFT_BYTES:
        raise DiskFull(
            f"The disk that holds {book.folder} is nearly full.",
            "Make room on the laptop; the phone keeps the photograph.",
        )


def _write(part: Path, first: int, content: bytes) -> None:
    part.touch()
    with part.open("r+b") as file:
        file.seek(first)
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _finish(book: Book, part: Path, sha256: str) -> Progress:
    with storage_errors(part):
        content = part.read_bytes()
    try:
        if hashlib.sha256(content).hexdigest() != sha256:
            raise DigestDiffers("The bytes that came are not those of this digest.", "Send it again from the start.")
        photographs.keep(book, content)
    except (DigestDiffers, UnsuitablePhotograph):
        part.unlink(missing_ok=True)
        raise
    part.unlink(missing_ok=True)
    return Progress(len(content), True)
