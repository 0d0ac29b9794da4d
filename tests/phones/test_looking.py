"""Photographs are looked at after they have arrived."""

from __future__ import annotations

import hashlib
import threading

import pytest

from fieldbook.book import evidence, photographs
from fieldbook.book.book import Book
from fieldbook.phones import looking
from tests.sites import picture

GOOD, BAD = picture(), picture(400, 300)[:-200]


def test_what_arrived_is_looked_at_once_nothing_more_arrives(empty_book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was left from before is looked at first, then what comes; one that cannot be shown stops no other."""
    looked: list[str] = []
    seen = threading.Semaphore(0)
    look_at = photographs.look_at

    def noted(book: Book, sha256: str) -> bool:
        looked.append(sha256)
        try:
            return look_at(book, sha256)
        finally:
            seen.release()

    monkeypatch.setattr(photographs, "look_at", noted)
    monkeypatch.setattr(looking, "QUIET_S", 0.01)
    bad = evidence.keep(empty_book.folder, "photograph", BAD)
    looker = looking.Looker(empty_book.folder)
    looker.start()
    try:
        assert seen.acquire(timeout=60)
        good = evidence.keep(empty_book.folder, "photograph", GOOD)
        looker.tell()
        assert seen.acquire(timeout=60)
    finally:
        looker.stop()
    assert looked == [bad, good]
    assert looking.not_looked_at(empty_book) == []
    assert photographs.is_looked_at(empty_book, hashlib.sha256(GOOD).hexdigest())
    assert not photographs.original(empty_book, bad).exists()


def test_looker_that_never_ran_can_be_stopped(empty_book: Book) -> None:
    """Serving may end before it began."""
    looking.Looker(empty_book.folder).stop()
