"""Phones, a server and a network that fails, in any order: what must hold, holds.

Each rule is something a person, the network or the machine may do. At the end all are given a
network that works; then every phone, the server, and tables made afresh from the ledger must agree.
"""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from typing import Any
from unittest.mock import patch
from uuid import UUID

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from fieldbook.book import accepting, ledger, photographs
from fieldbook.book.backup import backup, restore
from fieldbook.book.book import Book
from fieldbook.book.examine import examine
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.storage import DiskFull
from fieldbook.errors import UnknownItem
from fieldbook.model.kinds import KINDS
from fieldbook.phones import carried_files, codes, devices, looking
from tests.examples import examples
from tests.sites import picture
from tests.sync.network import FAULTS, Network
from tests.sync.phones import Entry, Phone, state_of

pytestmark = pytest.mark.slow

PHONES = st.integers(0, 2)
WORDS = st.sampled_from(["weighing", "storage", "office", None])
PICTURES = [picture(16 + number, 12) for number in range(3)]
NEVER = {"id-used-twice", "other-device", "unknown-item", "unknown-field", "unsuitable-text"}
CLOCKS = [0, 1, 946_684_800_000, 1_780_000_000_000, 4_102_444_800_000]
CHANGES = ("room", "face", "move", "use", "floor", "low", "high", "note", "withdraw", "bring back", "photograph")
RECORDED = st.lists(st.tuples(st.sampled_from(CHANGES), st.integers(0, 9), WORDS), min_size=1, max_size=6)
FAULTS_OR_NONE = st.one_of(st.just(""), st.sampled_from(FAULTS))
STEPS = st.lists(
    st.tuples(st.sampled_from(["send", "pull", "piece"]), st.integers(1, 5), FAULTS_OR_NONE), min_size=2, max_size=8
)
MISHAPS = (
    "phone_restarts",
    "clock_jumps",
    "server_restarts",
    "backup_is_made",
    "backup_is_made",
    "laptop_is_lost",
    "laptop_is_lost",
    "folder_is_copied",
    "folder_is_put_back",
    "folder_is_put_back",
    "disk_is_full",
    "pixels_are_looked_at",
    "phone_is_shut_out",
    "phone_joins_again",
)
FACE = {"sort": "wall", "width_mm": 5000, "height_mm": 3000}


@contextmanager
def full_disk() -> Iterator[None]:
    """Every write to disk of a file finds no room, and so does the ledger."""

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    def no_room(*_: object, **__: object) -> None:
        raise DiskFull("The disk is full.", "Make room.")

    with patch.object(os, "fsync", full), patch.object(accepting, "append", no_room):
        yield


class SyncMachine(RuleBasedStateMachine):
    """The server, three phones, the desk, the backups, and the files on their way."""

    @initialize()
    def begin(self) -> None:
        """A book with a site, a room and a face, and three phones that have joined and pulled."""
        self.folder = Path(tempfile.mkdtemp())
        self.restored, self.made = 0, 0
        self.clocks = [CLOCKS[3]] * 3
        self.place_of: dict[str, int] = {}
        self.backups: list[Path] = []
        self.copies: list[Path] = []
        self.witnessed: set[str] = set()
        self.mended: set[str] = set()  # by a new entry with an id of its own, which stands in their place
        self.files: list[tuple[bytes, int | None]] = []
        with create_book(self.book_folder) as book:
            self.site = book.write("site", {"name": "Customs shed"})
            self.room = book.write("room", {"site": self.site, "name": "Long room"})
            book.write("face", {"room": self.room, "name": "North wall"} | FACE)
            self.network = Network(self.book_folder)
            self.phones = [self._joined(book, f"phone {number}") for number in range(3)]
        for phone in self.phones:
            phone.pull(10)

    @property
    def book_folder(self) -> Path:
        """Where the book lies that is served now."""
        return self.folder / f"book-{self.restored}"

    def _joined(self, book: Book, name: str) -> Phone:
        joined = devices.join(book, codes.new_join_code(book), name)
        return Phone(joined.device, joined.token, book.fact("book"), book.fact("epoch"), self.network.ask)

    # What people do

    @rule(phone=PHONES, changes=RECORDED)
    def record(self, phone: int, changes: list[tuple[str, int, Any]]) -> None:
        """Something is entered at the wall, some of it to be refused, some about what is not in the book yet."""
        for change, which, words in changes:
            self._record(phone, change, which, words)

    def _record(self, phone: int, change: str, which: int, words: Any) -> None:
        kind = "face" if change in {"note", "move", "withdraw", "bring back"} else "room"
        items = self._known(phone, kind)
        if not items:
            return  # it is pulling a restored book from the beginning, and shows none of these yet
        item = items[which % len(items)]
        if change == "room":
            refused = {"ceiling_mm": -1} if which < 3 else {}
            self._make(phone, "room", None, set={"site": self.site, "name": "Room"} | refused)
        elif change == "face":
            self._make(phone, "face", None, set={"room": item, "name": "Wall"} | FACE)
        elif change == "move":  # perhaps to a room that is not in the book yet
            rooms = self._known(phone, "room") or [self.room]
            self._make(phone, "face", item, set={"room": rooms[-1 - which % len(rooms)]})
        elif change == "photograph":
            shown = {"site": self.site, "subject": self.room, "purpose": "as found"}
            sha256 = self.phones[phone].photograph(PICTURES[which % len(PICTURES)])
            self._make(phone, "photograph", None, set=shown | {"sha256": sha256})
        elif change in {"low", "high"}:  # refused or not, by what another phone has set meanwhile
            self._make(phone, "room", self.room, set={f"humidity_{change}_pct": 40 + which})
        elif change in {"withdraw", "bring back"}:
            self._make(phone, "face", item, withdraw=change == "withdraw")
        else:
            self._make(phone, kind, item, set={change: words})

    def _make(self, phone: int, kind: str, item: str | None, **change: Any) -> None:
        made = {"id": self._id(phone), "at": self._at(phone), "kind": kind, "item": item or self._id(phone)}
        entry = self.phones[phone].record(made | change)
        self.place_of[entry["id"]] = self.phones[phone].places - 1

    def _id(self, phone: int) -> str:
        """A UUIDv7 by the phone's clock, whatever that says."""
        self.made += 1
        return str(UUID(int=self.clocks[phone] << 80 | 7 << 76 | 2 << 62 | self.made))

    def _at(self, phone: int) -> str:
        return datetime.fromtimestamp(self.clocks[phone] / 1000, UTC).isoformat()

    def _known(self, phone: int, kind: str) -> list[str]:
        """The items of a kind that a phone shows: what it pulled, and what it made itself."""
        own = self.phones[phone]
        entries = [*own.pulled, *own.kept.values(), *own.outbox.values(), *own.shelf.values()]
        return sorted({entry["item"] for entry in entries if entry["kind"] == kind})

    @precondition(lambda self: any(phone.shelf for phone in self.phones))
    @rule(which=st.integers(0, 9))
    def mend(self, which: int) -> None:
        """A refused entry is put right."""
        shelved = [(number, place) for number, phone in enumerate(self.phones) for place in sorted(phone.shelf)]
        self._mend(*shelved[which % len(shelved)])

    def _mend(self, phone: int, place: int) -> None:
        refused = self.phones[phone].shelf[place]["set"]
        good = {name: value for name, value in refused.items() if name != "ceiling_mm" and not name.endswith("pct")}
        change = {"id": self._id(phone), "at": self._at(phone), "set": good or {"use": "mended"}}
        self.mended.add(self.phones[phone].shelf[place]["id"])
        self.phones[phone].mend(place, change)  # those behind it may have gone by now, so it has no place in S14

    @rule(settle=st.booleans(), field=st.sampled_from(["use", "floor"]), words=WORDS, stale=st.integers(0, 5))
    def work_at_desk(self, settle: bool, field: str, words: str | None, stale: int) -> None:
        """Conflicts are settled for what shows, or a change is made in a form that lay open for a while."""
        with open_book(self.book_folder) as book:
            if not settle:
                book.write("room", {field: words}, self.room, max(0, book.revision() - stale))
                return
            for pair in book.conflicts():
                kind, values = book.item(pair["item"])
                if pair["field"] == "withdrawn":
                    book.withdraw(pair["item"], bool(values["withdrawn"]))
                else:
                    book.write(kind, {pair["field"]: values[pair["field"]]}, pair["item"])
            assert book.conflicts() == []

    # What the network and the machines do

    @rule(phone=PHONES, steps=STEPS)
    def sync(self, phone: int, steps: list[tuple[str, int, str]]) -> None:
        """A phone sends and pulls, as far as the network lets it."""
        own = self.phones[phone]
        for step, size, fault in steps:
            self.network.faults = [fault]
            if step == "send":
                own.send(size)
            elif step == "pull":
                own.pull(size * 2)
            elif left := sorted(set(own.photographs) - own.complete):
                own.send_piece(left[0], size * 300)
        self.network.faults = []

    @precondition(lambda self: self.network.late)
    @rule(which=st.integers(0, 9))
    def arrive_late(self, which: int) -> None:
        """A request arrives that its sender has long given up."""
        self.network.late.pop(which % len(self.network.late))()

    @rule(mishap=st.sampled_from(MISHAPS), phone=PHONES, which=st.integers(0, 9))
    def meet_a_mishap(self, mishap: str, phone: int, which: int) -> None:
        """Something happens to a phone, or to the laptop."""
        getattr(self, f"_{mishap}")(self.phones[phone], which)

    def _phone_restarts(self, phone: Phone, _: int) -> None:
        phone.waited.clear()  # what is not in its store is lost

    def _clock_jumps(self, phone: Phone, which: int) -> None:
        self.clocks[self.phones.index(phone)] = CLOCKS[which % len(CLOCKS)]

    def _server_restarts(self, _: Phone, which: int) -> None:
        for part in sorted(self.book_folder.rglob("*.part"))[:1]:  # the power went while a piece was written
            part.write_bytes(part.read_bytes()[: which * 40])
        self.network.serve(self.book_folder)

    def _backup_is_made(self, *_: object) -> None:
        self.backups.append(self.folder / f"backup-{len(self.backups)}.zip")
        with open_book(self.book_folder) as book:
            backup(book, self.backups[-1])

    def _laptop_is_lost(self, _: Phone, which: int) -> None:
        if self.backups:
            self._witness()
            self.restored += 1
            restore(self.backups[which % len(self.backups)], self.book_folder).close()
            self.network.serve(self.book_folder)

    def _folder_is_copied(self, *_: object) -> None:
        self.copies.append(self.folder / f"copy-{len(self.copies)}")
        shutil.copytree(self.book_folder, self.copies[-1])

    def _folder_is_put_back(self, _: Phone, which: int) -> None:
        """The folder as it was copied once, under the same epoch: all that phones know of it since is theirs alone."""
        if self.copies:
            self._witness()
            self.restored += 1
            shutil.copytree(self.copies[which % len(self.copies)], self.book_folder)
            self.network.serve(self.book_folder)

    def _witness(self) -> None:
        """What phones hold now must be in the book in the end, whoever made it."""
        for phone in self.phones:
            self.witnessed |= {entry["id"] for entry in phone.pulled} | set(phone.others) | set(phone.given_back)

    def _disk_is_full(self, *_: object) -> None:
        """The laptop's disk takes nothing for the time of one run of each phone."""
        with full_disk():
            for phone in self.phones:
                phone.send(5)
                for sha256 in sorted(set(phone.photographs) - phone.complete)[:1]:
                    phone.send_piece(sha256, 300)

    def _pixels_are_looked_at(self, *_: object) -> None:
        with open_book(self.book_folder) as book:
            for sha256 in looking.not_looked_at(book):
                photographs.look_at(book, sha256)

    def _phone_is_shut_out(self, phone: Phone, _: int) -> None:
        with open_book(self.book_folder) as book:
            devices.shut_out(book, phone.device)

    def _phone_joins_again(self, phone: Phone, _: int = 0) -> None:
        with open_book(self.book_folder) as book:
            phone.token = devices.join(book, codes.new_join_code(book, phone.device), "again", phone.device).token

    @rule(way=st.sampled_from(["back", "out", "arrives"]), phone=PHONES, which=st.integers(0, 9))
    def carry_a_file(self, way: str, phone: int, which: int) -> None:
        """A file is written by a phone, or for one; or one arrives, once or again, at whatever time."""
        if way == "back":
            self.files.append((self.phones[phone].write_file(), None))
        elif way == "out":
            file = BytesIO()
            with open_book(self.book_folder) as book, suppress(devices.ShutOut, UnknownItem):
                carried_files.write_out(book, self.phones[phone].device, file)
                self.files.append((file.getvalue(), phone))
        elif self.files:
            self._hand_over(*self.files[which % len(self.files)])

    def _hand_over(self, content: bytes, phone: int | None) -> None:
        if phone is not None:
            self.phones[phone].read_file(content)
            return
        with open_book(self.book_folder) as book, suppress(devices.ShutOut, UnknownItem):
            carried_files.take_back(book, BytesIO(content))

    # What must hold

    @invariant()
    def s4_s6_s9_phones_hold_everything_they_made(self) -> None:
        """Every change made on a phone is still there: to be sent, acknowledged, or refused with its reason."""
        for phone in getattr(self, "phones", []):
            assert [*range(phone.places)] == sorted([*phone.outbox, *phone.kept, *phone.shelf])
            for place in phone.shelf:
                found = phone.reasons[place]
                assert found
                assert not {finding["error"] for finding in found} & NEVER, found
                assert "base" not in {finding["field"] for finding in found}, found

    @invariant()
    def s1_s2_s8_s14_ledger_holds_what_phones_know(self) -> None:
        """What was acknowledged is in the book once, as sent and in order; what was pulled is the book's beginning."""
        if not hasattr(self, "phones"):
            return
        with open_book(self.book_folder) as book:
            entries, epoch = list(_as_pulled(book)), book.fact("epoch")
            parted = [bool(phone.known) and not book.holds(*phone.known) for phone in self.phones]
        ids = [entry["id"] for entry in entries]
        assert len(ids) == len(set(ids))
        for phone, knows_another in zip(self.phones, parted, strict=True):
            own = [entry for entry in entries if entry["device"] == phone.device]
            for item in {entry["item"] for entry in own}:
                ids_of = [entry["id"] for entry in own if entry["item"] == item]
                # Refused before a later one, and its answer lost, it may be taken when it is sent again.
                in_order = [one for one in ids_of if one in self.place_of and one not in self.network.refused]
                places = [self.place_of[entry_id] for entry_id in in_order]
                assert places == sorted(places), "S14"
            if phone.epoch == epoch and not knows_another:
                assert phone.pulled == entries[: phone.cursor], "S3, S8"
                assert {entry["id"] for entry in phone.kept.values()} <= set(ids), "S1"

    def teardown(self) -> None:
        """Give all a network that works, let them finish, and compare."""
        if not hasattr(self, "phones"):
            return
        try:
            self._drain()
            with open_book(self.book_folder) as book:
                self._compare(book)
        finally:
            shutil.rmtree(self.folder)

    def _drain(self) -> None:
        while self.network.late:
            self.network.late.pop()()
        for phone in self.phones:
            self._phone_joins_again(phone)
        before = None
        while before != (
            before := [(phone.cursor, len(phone.outbox), len(phone.others), phone.epoch) for phone in self.phones]
        ):
            for number, phone in enumerate(self.phones):
                for place in sorted(phone.shelf):
                    self._mend(number, place)
                for _ in range(3):
                    phone.send(100)
                for sha256 in sorted(set(phone.photographs) - phone.complete):
                    phone.send_piece(sha256, 1 << 20)
                phone.pull(500)

    def _compare(self, book: Book) -> None:
        entries = list(_as_pulled(book))
        for phone in self.phones:
            assert not phone.outbox, "something was never taken"
            assert set(phone.others) == set(phone.not_taken), "something of another device was never taken"
            assert not phone.shelf
            assert phone.complete == set(phone.photographs), "S7"
            assert phone.state() == state_of(entries), "S3"
        refused = {one for phone in self.phones for one in phone.not_taken} | self.mended
        assert self.witnessed <= {entry["id"] for entry in entries} | refused, "S10: what phones alone still had"
        assert _tables(book) == {item: _filled(values) for item, values in state_of(entries).items()}, "S3, S11"
        assert examine(book) == [], "S3, S7: rebuilt tables, digests"
        _check_conflicts(book, entries)


def _as_pulled(book: Book) -> Any:
    for entry in ledger.entries(book.db):
        yield {key: value for key, value in entry.items() if key not in {"received_at", "hash"}}


def _filled(values: Entry) -> Entry:
    return {name: value for name, value in values.items() if value is not None}


def _tables(book: Book) -> dict[str, Entry]:
    """What the book's tables show, in the form of `state_of`."""
    shown = {}
    for kind in KINDS:
        for row in book.items(kind, withdrawn=True):
            values = {name: value for name, value in row.items() if name not in {"id", "revision"}}
            shown[row["id"]] = _filled(values | {"kind": kind})
    return shown


def _check_conflicts(book: Book, entries: list[Entry]) -> None:
    """S5, told from the ledger alone: nothing was written over or hidden unseen without a pair that says so."""
    pairs = list(book.db.query("SELECT * FROM conflict"))
    by_revision = {entry["revision"]: entry for entry in entries}
    last: dict[tuple[str, str], Entry] = {}
    for entry in entries:
        item, set_by = entry["item"], {name: last.get((entry["item"], name)) for name in entry.get("set", {})}
        gone = last.get((item, "withdrawn"))
        if "withdraw" in entry or (gone and gone["withdraw"]):
            set_by["withdrawn"] = gone
        for name, before in set_by.items():
            if before and before["device"] != entry["device"] and before["revision"] > entry["base"]:
                assert any(_tells(pair, item, name, before, entry) for pair in pairs), f"S5: {name} lost unseen"
        last |= {(item, name): entry for name in entry.get("set", {}) or ["withdrawn"]}
    for pair in pairs:
        earlier, later = by_revision[pair["earlier"]], by_revision[pair["later"]]
        assert earlier["device"] != later["device"]
        assert later["base"] < earlier["revision"], "a pair of which one had seen the other"
        if pair["settled"]:
            by = by_revision[pair["settled"]]
            own = by["device"] == later["device"] and by["base"] >= pair["earlier"]
            assert by["base"] >= pair["later"] or own, "S5: settled by one that had not seen both"


def _tells(pair: Entry, item: str, name: str, before: Entry, entry: Entry) -> bool:
    """Whether a pair is about this change; one about a withdrawal may name a later change that it hides as well."""
    if (pair["item"], pair["field"]) != (item, name):
        return False
    if name == "withdrawn":
        return before["revision"] <= pair["earlier"] < entry["revision"]
    return pair["earlier"] == before["revision"]


@pytest.mark.long
def test_s1_to_s14_hold_for_phones_and_a_server_whatever_happens() -> None:
    """However all behave, nothing is lost, doubled or written over unseen, and in the end they agree."""
    run_state_machine_as_test(SyncMachine, settings=examples(30, in_the_long_run=10_000, stateful_step_count=40))
