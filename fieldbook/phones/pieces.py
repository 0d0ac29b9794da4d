"""Photographs that arrive in pieces: each device's lie apart, out of sight, until every byte is there.

What comes is written once, as it comes, and hashed on the way; a cut costs what was not yet written.
What is whole is held against its digest, its head is looked at, and it is moved into place; its pixels
are looked at afterwards (`looking`). Nothing that could still be written to becomes a photograph.
"""

from __future__ import annotations

import hashlib
import os
import secrets
import shutil
import threading
import time
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from ..book import apart, evidence, photographs
from ..book.book import Book
from ..book.photographs import original
from ..book.storage import DiskFull, storage_errors
from ..errors import FieldbookError

MOST_BYTES = 8 << 20  # a piece: a photograph of a phone's in one
MOST_UNDER_WAY = 40  # photographs of one device
FORGOTTEN_AFTER_S = 30 * 86_400
LEFT_AFTER_S = 3_600
ROOM_LEFT_BYTES = 200_000_000  # for the ledger, which must go on
CHUNK_BYTES = 1 << 18
WHOLE = ".whole"  # all there, and no longer written to

_writing = threading.Lock()


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
    part = _part(book, device, sha256)
    with storage_errors(part):
        if kept := _stat(original(book, sha256)):
            return Progress(kept.st_size, True)
        if apart.is_taken_out(book.db, sha256):  # nobody is to send it again
            return Progress(0, True)
        begun = _stat(part)
        return Progress(begun.st_size if begun else 0, False)


def take(book: Book, device: str, sha256: str, first: int, total: int, chunks: Iterable[bytes]) -> Progress:
    """Put a piece where it belongs as it comes; the last one makes the photograph, on disk before this returns.

    first   place of the piece's first byte; bytes that came before may come again, and are passed over
    chunks  the piece's bytes, in order; they may end early, where the connection was cut
    Raises OutOfStep, DigestDiffers, UnsuitablePhotograph, TooMuchUnderWay, and the errors of `storage`.
    """
    here = progress(book, device, sha256)
    if here.complete:
        return here
    photographs.refuse_size(total)
    if first > here.received:
        raise OutOfStep(here.received)
    part = _part(book, device, sha256)
    with storage_errors(part):
        if not part.exists():
            _make_room(book, part, total)
        hashed = _write(part, first, total, chunks)
        whole = _claim(part, total)
    return _finish(book, whole, sha256, hashed) if whole else progress(book, device, sha256)


def forget(book: Book, device: str) -> None:
    """Throw away what a device has begun and not finished."""
    shutil.rmtree(_part(book, device, "").parent, ignore_errors=True)


def _part(book: Book, device: str, sha256: str) -> Path:
    return book.folder / "arriving" / device / f"{sha256}.part"


def _make_room(book: Book, part: Path, total: int) -> None:
    part.parent.mkdir(parents=True, exist_ok=True)
    begun = 0
    for other in part.parent.iterdir():
        kept_s = LEFT_AFTER_S if other.suffix == WHOLE else FORGOTTEN_AFTER_S
        lies = _stat(other)
        if lies is None:
            continue
        if lies.st_mtime < time.time() - kept_s:
            other.unlink(missing_ok=True)
        else:
            begun += other.suffix != WHOLE
    if begun >= MOST_UNDER_WAY:
        raise TooMuchUnderWay(f"{MOST_UNDER_WAY} photographs were begun and not finished.", "Finish those first.")
    if shutil.disk_usage(book.folder).free < total + ROOM_LEFT_BYTES:
        raise DiskFull(
            f"The disk that holds {book.folder} is nearly full.",
            "Make room on the laptop; the phone keeps the photograph.",
        )


def _write(part: Path, first: int, total: int, chunks: Iterable[bytes]) -> str | None:
    """Append what is not here yet; the digest of the whole part when all of it came now, by this request alone."""
    digest, place, alone = hashlib.sha256(), first, first == 0
    with part.open("ab") as file:
        for chunk in chunks:
            with _writing:  # another request may bring the same bytes: one that was cut, and the one after it
                here = os.fstat(file.fileno()).st_size
                if not _is_at(part, file.fileno()) or here < place:
                    return None
                alone = alone and here == place
                if fresh := chunk[here - place :]:
                    file.write(fresh)
                    file.flush()
            place += len(chunk)
            if alone:
                digest.update(chunk)
        if place < total:  # what is whole is brought to disk when it is moved into place
            os.fsync(file.fileno())
    return digest.hexdigest() if alone else None


def _stat(part: Path) -> os.stat_result | None:
    """What a part is like; None where another request has finished it or thrown it away meanwhile."""
    try:
        return part.stat()
    except FileNotFoundError:
        return None


def _is_at(part: Path, descriptor: int) -> bool:
    """Whether an open file still lies under its name, and was not claimed as whole meanwhile."""
    lies = _stat(part)
    return lies is not None and os.path.samestat(lies, os.fstat(descriptor))


def _claim(part: Path, total: int) -> Path | None:
    """Put a part that is whole under a name that no request writes to; None while something is missing."""
    with _writing:
        if not part.exists() or part.stat().st_size < total:
            return None
        return part.rename(part.with_name(f"{secrets.token_hex(8)}{WHOLE}"))


def _finish(book: Book, whole: Path, sha256: str, hashed: str | None) -> Progress:
    try:
        with storage_errors(whole), whole.open("rb") as file:
            size = os.fstat(file.fileno()).st_size
            found = hashed or hashlib.file_digest(file, "sha256").hexdigest()
            if found != sha256:
                raise DigestDiffers(
                    "The bytes that came are not those of this checksum.", "Send it again from the start."
                )
            file.seek(0)
            if photographs.set_aside(book, sha256).exists():  # it came before, and could not be shown
                photographs.examine_bytes(file.read())
            photographs.examine_head(file)
        evidence.move_in(book.folder, "photograph", sha256, whole)
    finally:
        whole.unlink(missing_ok=True)
    return Progress(size, True)
