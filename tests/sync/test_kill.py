"""A server killed at random moments while two phones sync, 80 times or 2,000: what it acknowledged is there.

Between two lives of the server its folder may be copied, or put back from a plain copy made before; and in some of them
the disk takes no more.
"""

from __future__ import annotations

import contextlib
import hashlib
import http.client
import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from fieldbook.book import ledger
from fieldbook.book.book import Book
from fieldbook.book.examine import examine
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import open_book
from fieldbook.phones import codes, devices
from tests.examples import is_long
from tests.sites import Surveyed
from tests.sync.phones import Phone, Reply, state_of

pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parents[2]
BOOKS, KILLS_PER_BOOK = (8, 250) if is_long() else (4, 20)
LONGEST_LIFE_S = 0.2
PIECE_BYTES = 4_000
LEAST_MADE = 20  # however short the lives: a book put back often is mostly brought up to where it was
# What may happen between two lives of the server; most often nothing does.
COPIED, PUT_BACK, FULL, NOTHING = "folder is copied", "folder is put back", "disk is full", ""
MISHAPS, WEIGHTS = (NOTHING, COPIED, PUT_BACK, FULL), (6, 2, 1, 1)
FULL_AT_BYTES = 60_000  # of a file, where the disk is full: some photographs and entries fit in, and then no more


class Server:
    """A served book that can be killed and started again."""

    def __init__(self, folder: Path):
        self.folder, self.beside = folder, folder.parent
        self.copies: list[Path] = []
        self.put_back = 0
        command = [sys.executable, "-m", "tests.sync.served"]
        self.parent = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        self.process = self.port = 0

    def start(self, mishap: str = NOTHING) -> None:
        """Serve; what was on disk is what there is."""
        self._befall(mishap)
        self.parent.stdin.write(f"{FULL_AT_BYTES if mishap == FULL else 0} {self.folder}\n")  # type: ignore[union-attr]
        self.parent.stdin.flush()  # type: ignore[union-attr]
        self.process, self.port = map(int, self.parent.stdout.readline().split())  # type: ignore[union-attr]

    def _befall(self, mishap: str) -> None:
        if mishap == COPIED or (mishap == PUT_BACK and not self.copies):
            self.copies.append(self.beside / f"copy-{len(self.copies)}")
            copied(self.folder, self.copies[-1])
        elif mishap == PUT_BACK:
            self.put_back += 1
            self.folder = self.beside / f"book-{self.put_back}"
            copied(random.choice(self.copies[-3:]), self.folder)

    def kill(self) -> None:
        """End it without a chance to finish anything."""
        os.kill(self.process, signal.SIGKILL)
        self.port = 0
        assert self.parent.stdout.readline() == "gone\n"  # type: ignore[union-attr]

    def close(self) -> None:
        """Kill what runs, and let the parent end."""
        if self.port:
            self.kill()
        self.parent.communicate()

    def ask(self, phone: Phone, method: str, path: str, json: Any = None, piece: Any = None) -> Reply:
        """One request over a real connection; None when it breaks."""
        headers, body = {"Authorization": f"Bearer {phone.token}"}, None
        if json is not None:
            headers["Content-Type"], body = "application/json", dumped(json)
        if piece is not None:
            first, body, total = piece
            headers["Content-Type"] = "application/octet-stream"
            headers["Content-Range"] = f"bytes {first}-{first + len(body) - 1}/{total}"
        if not (port := self.port):
            return None
        with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=20)) as connection:
            try:
                connection.request(method, f"/phone/{path}", body, headers)
                answer = connection.getresponse()
                return answer.status, loaded(answer.read())
            except (OSError, http.client.HTTPException, ValueError):
                return None


def copied(folder: Path, to: Path) -> None:
    """By another program: whoever has a database open and closes its file besides loses his locks on it."""
    subprocess.run(["cp", "-r", folder, to], check=True)


dumped, loaded = (lambda sent: json.dumps(sent).encode()), json.loads


class Hand(threading.Thread):
    """Someone with a phone who records and syncs without a pause, until told to stop.

    resting  held while nobody may touch the phone
    """

    def __init__(self, phone: Phone, surveyed: Surveyed):
        super().__init__()
        self.phone, self.surveyed = phone, surveyed
        self.resting, self.stopping = threading.Lock(), threading.Event()

    def run(self) -> None:
        """Record, send, pull, and send photographs."""
        while not self.stopping.is_set():
            with self.resting:
                self.record()
                self.sync()
            time.sleep(0.001)  # so that whoever waits for the lock gets it

    def record(self) -> None:
        """A few changes, and a photograph now and then while few are under way."""
        if len(self.phone.outbox) < 20:
            for _ in range(random.randint(1, 4)):
                self._make("room", self.surveyed.room, {"use": f"use {random.random()}"})
        if len(set(self.phone.photographs) - self.phone.complete) < 3:
            sha256 = self.phone.photograph(noise())
            shown = {"site": self.surveyed.site, "subject": self.surveyed.room, "purpose": "as found", "sha256": sha256}
            self._make("photograph", uuid7(), shown)

    def _make(self, kind: str, item: str, values: dict[str, Any]) -> None:
        at = "2026-05-31T14:30:00+01:00"
        self.phone.record({"id": uuid7(), "at": at, "kind": kind, "item": item, "set": values})

    def sync(self) -> None:
        """One round."""
        self.phone.send(random.randint(1, 10))
        for sha256 in sorted(set(self.phone.photographs) - self.phone.complete)[:2]:
            self.phone.send_piece(sha256, PIECE_BYTES)
        self.phone.pull(50)


def noise() -> bytes:
    """A photograph like no other, of some pieces."""
    buffer = BytesIO()
    Image.frombytes("RGB", (80, 60), random.randbytes(80 * 60 * 3)).save(buffer, "JPEG", quality=90)
    return buffer.getvalue()


@pytest.fixture
def server(surveyed: Surveyed) -> Iterator[Server]:
    """A server over the book, not started yet."""
    served = Server(surveyed.book.folder)
    try:
        yield served
    finally:
        served.close()


def hands_over(server: Server, surveyed: Surveyed) -> list[Hand]:
    """Two people whose phones have joined."""
    book, made = surveyed.book, []
    for number in range(2):
        joined = devices.join(book, codes.new_join_code(book), f"phone {number}")
        phone = Phone(joined.device, joined.token, book.fact("book"), book.fact("epoch"), server.ask)
        made.append(Hand(phone, surveyed))
    return made


def check(folder: Path, hands: list[Hand]) -> None:
    """Everything acknowledged is there, the book is sound, and no photograph is there in part.

    A phone that knows what the book has not has yet to notice that it was put back.
    """
    with open_book(folder) as book:
        ids = {entry["id"] for entry in ledger.entries(book.db)}
        agreeing = [hand for hand in hands if not hand.phone.known or book.holds(*hand.phone.known)]
        agreeing = [hand for hand in agreeing if hand.phone.epoch == book.fact("epoch")]
        wrong = [damage for damage in examine(book) if not damage.words.endswith("its file is not here")]
    assert wrong == []
    here = {path.name: path for path in (folder / "photographs").rglob("*") if path.is_file() and path.name[0] != "."}
    for digest, path in here.items():
        assert hashlib.sha256(path.read_bytes()).hexdigest() == digest, "S7"
    for hand in agreeing:
        assert {entry["id"] for entry in hand.phone.kept.values()} <= ids, "S1"
        assert hand.phone.complete <= set(here), "S7"
    for hand in hands:
        assert len(hand.phone.outbox) + len(hand.phone.kept) == hand.phone.places, "S4"


@pytest.mark.parametrize("number", range(BOOKS))
def test_s1_s7_server_killed_while_phones_sync_keeps_what_it_acknowledged(
    server: Server, surveyed: Surveyed, number: int
) -> None:
    """After each kill the book is sound and holds all it acknowledged; in the end everything is there once.

    Also where its folder was put back from a plain copy, or its disk was full.
    """
    hands = hands_over(server, surveyed)
    for hand in hands:
        hand.resting.acquire()
        hand.start()
    try:
        for _ in range(KILLS_PER_BOOK):
            (mishap,) = random.choices(MISHAPS, WEIGHTS)
            server.start(mishap)
            for hand in hands:
                if mishap == PUT_BACK:
                    hand.phone.complete.clear()  # an app that is opened again asks of all photographs it still has
                hand.resting.release()
            time.sleep(random.uniform(0.005, LONGEST_LIFE_S))
            server.kill()
            for hand in hands:
                hand.resting.acquire()
            check(server.folder, hands)
    finally:
        for hand in hands:
            hand.stopping.set()
            hand.resting.release()
            hand.join()
    server.start()
    with open_book(server.folder) as book:
        finish(hands, book)


def is_behind(phone: Phone, book: Book) -> bool:
    """Whether it has something to send still, or to fetch, or has not noticed yet that the book was put back."""
    waits = phone.outbox or phone.others or phone.complete < set(phone.photographs)
    return bool(waits) or (phone.epoch, phone.cursor) != (book.fact("epoch"), book.revision())


def finish(hands: list[Hand], book: Book) -> None:
    """Let both send and pull to the end; everything made is in the book once, and both show the same."""
    while any(is_behind(hand.phone, book) for hand in hands):
        for hand in hands:
            hand.sync()
    made = sum(hand.phone.places for hand in hands)
    assert made > LEAST_MADE, "hardly anything was sent"
    assert book.revision() == 3 + made, "S2"
    first, second = (hand.phone.state() for hand in hands)
    assert first == second == state_of(hands[0].phone.pulled)
    assert examine(book) == []
