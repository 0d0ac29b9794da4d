"""What is said to be kept is on disk by then: the entry, the photograph, the keys, the backup."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask, Response

from fieldbook.book.backup import backup, restore
from fieldbook.book.book import Book
from fieldbook.book.evidence import write_whole
from fieldbook.book.identity import uuid7
from fieldbook.book.photographs import keep, original
from fieldbook.phones import codes, devices, pieces
from fieldbook.serving.address import address_of
from fieldbook.serving.authority import keys_of
from fieldbook.web import create_app
from fieldbook.web.books import book as book_of_the_request
from tests.sites import Surveyed, picture

Synchronised = Callable[[Path], bool]
THROUGH_TO_DISK = 2  # SQLite's number for FULL


@pytest.fixture
def synchronised(monkeypatch: pytest.MonkeyPatch) -> Synchronised:
    """Whether a file as it is now, or a folder, was brought to disk: by its inode and its size at that moment."""
    seen: set[tuple[int, int]] = set()
    real = os.fsync

    def noted(descriptor: int) -> None:
        real(descriptor)
        known = os.fstat(descriptor)
        seen.add((known.st_ino, known.st_size))

    monkeypatch.setattr(os, "fsync", noted)

    def asked(path: Path) -> bool:
        known = path.stat()
        if path.is_dir():  # a folder's size may change with the next name in it
            return any(inode == known.st_ino for inode, _ in seen)
        return (known.st_ino, known.st_size) in seen

    return asked


def test_s1_entry_is_acknowledged_by_a_connection_that_writes_through(surveyed: Surveyed) -> None:
    """The very connection of the request commits with synchronous = FULL in WAL, whoever sent the entry."""
    app, found = create_app(surveyed.book.folder), []

    @app.after_request
    def look(answer: Response) -> Response:
        found.append(pragmas(book_of_the_request()))
        return answer

    joined = devices.join(surveyed.book, codes.new_join_code(surveyed.book), "phone")
    entry = {"id": uuid7(), "device": joined.device, "at": "2026-05-31T14:30:00+01:00", "kind": "room"}
    entry |= {"item": surveyed.room, "base": 3, "set": {"use": "weighing"}}
    assert sent(app, joined.token, surveyed.book.fact("epoch"), entry) == "accepted"
    assert found == [("wal", THROUGH_TO_DISK)]


def pragmas(book: Book) -> tuple[str, int]:
    """How a book's connection writes."""
    mode, level = (book.db.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous"))
    return mode, level


def sent(app: Flask, token: str, epoch: str | None, entry: dict[str, object]) -> str:
    """What the server answers to one entry."""
    answer = app.test_client().post(
        "/phone/entries",
        json={"epoch": epoch, "waiting": 1, "entries": [entry]},
        headers={"Authorization": f"Bearer {token}"},
    )
    return answer.get_json()["answers"][0]["status"]


def test_s7_photograph_is_on_disk_with_its_name(empty_book: Book, synchronised: Synchronised) -> None:
    """Its bytes before the name is given, and the folder after."""
    kept = original(empty_book, keep(empty_book, picture()).sha256)
    assert synchronised(kept)
    assert synchronised(kept.parent)


def test_s7_every_piece_is_on_disk_before_it_counts(empty_book: Book, synchronised: Synchronised) -> None:
    """A cut after an answer costs nothing of what the answer told."""
    content, device = picture(400, 300), uuid7()
    digest = hashlib.sha256(content).hexdigest()
    for first in (0, 400):
        assert pieces.take(empty_book, device, digest, first, len(content), [content[first : first + 400]]).received
        (part,) = (empty_book.folder / "arriving" / device).iterdir()
        assert synchronised(part)
    assert pieces.take(empty_book, device, digest, 800, len(content), [content[800:]]).complete
    assert synchronised(original(empty_book, digest))


def test_keys_are_on_disk_before_a_phone_trusts_them(empty_book: Book, synchronised: Synchronised) -> None:
    """Keys that were lost with the power would leave phones with a trust that nobody can answer."""
    keys_of(empty_book, address_of(empty_book), [])
    kept = sorted((empty_book.folder / "keys").iterdir())
    assert kept
    assert [path.name for path in [*kept, kept[0].parent] if not synchronised(path)] == []


def test_backup_and_what_is_restored_from_it_are_on_disk(
    surveyed: Surveyed, tmp_path: Path, synchronised: Synchronised
) -> None:
    """Whoever takes the medium away at once takes all of it."""
    digest = keep(surveyed.book, picture()).sha256
    about = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum"}
    surveyed.book.write("photograph", about | {"sha256": digest})
    backup(surveyed.book, tmp_path / "saved")
    assert synchronised(tmp_path / "saved")
    with restore(tmp_path / "saved", tmp_path / "again") as again:
        assert synchronised(original(again, digest))


def test_half_written_file_never_has_the_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When bringing it to disk fails, nothing is left, under whatever name."""

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(tmp_path / "whole", b"bytes")
    assert list(tmp_path.iterdir()) == []
