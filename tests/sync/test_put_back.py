"""A book that was put back from a plain copy of its folder: noticed, told, and given back what phones still have."""

from __future__ import annotations

import json
import shutil
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from flask import Flask

from fieldbook.book.book import Book
from fieldbook.book.examine import examine
from fieldbook.book.opening import open_book
from fieldbook.phones import carried_files, codes, devices, put_back
from fieldbook.web import create_app
from tests.sites import Surveyed
from tests.sync.conftest import Phone as Asking
from tests.sync.network import Network
from tests.sync.phones import Phone


class Kept:
    """A book of which a plain copy was made before two phones and the desk went on."""

    def __init__(self, surveyed: Surveyed, folder: Path):
        self.book, self.folder, self.surveyed = surveyed.book, folder, surveyed
        self.network = Network(surveyed.book.folder)
        self.first, self.second = (self._joined(f"phone {number}") for number in (1, 2))
        for phone in (self.first, self.second):
            phone.pull(500)
        self.book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        shutil.copytree(surveyed.book.folder, folder)

    def _joined(self, name: str) -> Phone:
        joined = devices.join(self.book, codes.new_join_code(self.book), name)
        epoch = self.book.fact("epoch")
        return Phone(joined.device, joined.token, self.book.fact("book"), epoch, self.network.ask)

    def put_back(self) -> Book:
        """Serve the copy, as if nothing had happened."""
        self.network.serve(self.folder)
        return open_book(self.folder)


@pytest.fixture
def kept(surveyed: Surveyed, tmp_path: Path) -> Kept:
    """The book, its copy, and two phones."""
    return Kept(surveyed, tmp_path / "copy")


def made(number: int, item: str, **values: Any) -> dict[str, Any]:
    """A change of a room as a phone makes it."""
    made_id = f"01890a5d-ac96-774b-bcce-{number:012x}"
    return {"id": made_id, "at": "2026-05-31T14:30:00+01:00", "kind": "room", "item": item, "set": values}


def test_s10_other_entries_under_the_same_number_are_a_new_epoch(kept: Kept) -> None:
    """Book and phone both count four, and mean different things: it is noticed, told, and nothing is lost."""
    kept.first.record(made(1, kept.surveyed.room, use="weighing"))
    kept.first.send(10)
    kept.first.pull(500)
    with kept.put_back() as book:
        book.write("room", {"floor": "stone"}, kept.surveyed.room)
        former = book.fact("epoch")
        assert book.revision() == kept.book.revision() == kept.first.cursor
        for _ in range(2):
            kept.first.send(10)
            kept.first.pull(500)
        assert book.fact("epoch") == kept.first.epoch != former
        assert (
            book.item(kept.surveyed.room)[1] | {"use": "weighing", "floor": "stone"} == book.item(kept.surveyed.room)[1]
        )
        assert examine(book) == []
        (told,) = put_back.every(book)
        assert (told.device, told.known, told.shared) == ("phone 1", 4, 3)
    page = create_app(kept.folder, access="open").test_client().get("/phones").text
    assert "put back from a copy" in page
    assert "“<bdi>phone 1</bdi>” knew 4 entries of this book; this book has only the first 3" in page


def test_s10_acknowledged_entry_that_was_not_pulled_yet_is_noticed_to_be_gone(kept: Kept) -> None:
    """The phone's cursor fits the copy; that more was acknowledged does not."""
    kept.first.record(made(1, kept.surveyed.room, use="weighing"))
    kept.first.send(10)
    with kept.put_back() as book:
        assert kept.first.cursor == book.revision() == 3
        for _ in range(3):
            kept.first.send(10)
            kept.first.pull(500)
        assert book.item(kept.surveyed.room)[1]["use"] == "weighing"


def test_s10_what_others_made_comes_back_under_its_ids_from_whoever_still_has_it(kept: Kept) -> None:
    """Entries of the desk and of a phone that is gone are given back by the one that pulled them."""
    desk = kept.book.write("room", {"site": kept.surveyed.site, "name": "Tower"})
    kept.second.record(made(2, kept.surveyed.room, use="weighing"))
    kept.second.send(10)
    kept.first.pull(500)
    lost = [entry["id"] for entry in kept.first.pulled[3:]]
    with kept.put_back() as book:
        for _ in range(3):
            kept.first.send(10)
            kept.first.pull(500)
        assert [entry["id"] for entry in kept.first.pulled[3:]] == lost
        assert book.item(desk)[1]["name"] == "Tower"
        assert [entry["device"] for entry in book.history(kept.surveyed.room)][-1] == kept.second.device
        assert kept.first.others == kept.first.given_back == {}


def test_entries_of_other_devices_are_taken_only_into_a_book_that_lost_some(phone: Asking, surveyed: Surveyed) -> None:
    """As long as nothing was restored, a phone speaks for itself alone, whatever it calls returned."""
    entry = made(1, surveyed.room, use="x") | {"device": "desk", "base": 3}
    said = phone.send(entry, returned=[entry["id"]]).get_json()
    assert said["answers"][0]["findings"][0]["error"] == "other-device"


def test_phone_of_the_first_version_that_has_pulled_further_is_told_of_a_new_epoch(
    phone: Asking, surveyed: Surveyed
) -> None:
    """It says no hashes; that it has come further than the book is enough."""
    former = surveyed.book.fact("epoch")
    answer = phone.ask("GET", "entries?since=9")
    assert (answer.status_code, answer.get_json()["error"]) == (409, "epoch-changed")
    said = phone.ask("GET", f"hello?epoch={former}").get_json()
    assert (said["epoch"] != former, said["shared"]) == (True, 0)
    (waits,) = phone.send(made(1, surveyed.room, use="x") | {"device": phone.device, "base": 9}).get_json()["answers"]
    assert (waits["status"], waits["findings"][0]["error"]) == ("waiting", "ahead-of-book")


def test_phone_cannot_part_a_book_that_is_what_it_knows(phone: Asking, surveyed: Surveyed) -> None:
    """A new epoch begins only where the hash the phone knows is not the book's, and only for the present epoch."""
    epoch, (revision, digest) = surveyed.book.fact("epoch"), surveyed.book.head()
    known, shared = {"revision": revision, "digest": digest}, {"revision": 0, "digest": "0" * 64}
    for about in ({"epoch": epoch, "known": known}, {"epoch": "former", "known": {"revision": 3, "digest": "f" * 64}}):
        assert phone.ask("POST", "epoch", json=about | {"shared": shared}).get_json()["epoch"] == epoch
    assert put_back.every(surveyed.book) == []


@pytest.mark.parametrize("wrong", [{}, {"hashes": "x"}, {"hashes": [1]}, {"hashes": [{"revision": -1, "digest": "x"}]}])
def test_hashes_that_are_none_are_refused(phone: Asking, wrong: dict[str, Any]) -> None:
    """Whatever is sent instead of hashes is answered in words."""
    assert phone.ask("POST", "shared", json=wrong).status_code in {400, 422}


def test_s13_carried_file_tells_of_a_book_put_back_as_well(kept: Kept) -> None:
    """What a phone knows travels in its file; the file back to it is followed from the last shared entry."""
    kept.first.record(made(1, kept.surveyed.room, use="weighing"))
    kept.first.send(10)
    kept.first.pull(500)
    with kept.put_back() as book:
        former = book.fact("epoch")
        out = BytesIO()
        carried_files.write_out(book, kept.first.device, out)
        kept.first.read_file(out.getvalue())
        assert kept.first.cursor == 4, "a file of a book that was put back is not mixed in"
        carried_files.take_back(book, BytesIO(kept.first.write_file()))
        assert book.fact("epoch") != former
        out = BytesIO()
        carried_files.write_out(book, kept.first.device, out)
        kept.first.read_file(out.getvalue())
        assert (kept.first.epoch, kept.first.cursor) == (book.fact("epoch"), 3)
        assert [json.loads(line).get("hash") for line in out.getvalue().splitlines()][3] == book.digest()
        carried_files.take_back(book, BytesIO(kept.first.write_file()))
        assert book.item(kept.surveyed.room)[1]["use"] == "weighing"


def test_s14_carried_file_brings_no_later_change_before_an_earlier_one_that_was_lost(kept: Kept) -> None:
    """The book lost what the phone had sent first: what it carries about the same thing waits until that is back."""
    kept.first.record(made(1, kept.surveyed.room, use="weighing"))
    kept.first.send(10)
    later = kept.first.record(made(2, kept.surveyed.room, use="office"))
    other = kept.first.record(made(3, kept.surveyed.face, note="damp") | {"kind": "face"})
    file = kept.first.write_file()
    with kept.put_back() as book:
        statuses = {answer.id: str(answer.status) for answer in carried_files.take_back(book, BytesIO(file))}
        assert statuses == {later["id"]: "waiting", other["id"]: "accepted"}
        for _ in range(2):
            kept.first.send(10)
            kept.first.pull(500)
        assert [entry["set"].get("use") for entry in book.history(kept.surveyed.room)][-2:] == ["weighing", "office"]
        assert book.item(kept.surveyed.room)[1]["use"] == "office"
        again = carried_files.take_back(book, BytesIO(file))
        assert {str(answer.status) for answer in again} == {"repeated"}


def test_app_starts_over_a_copy(app: Flask) -> None:
    """A phone that asks without saying what it knows is not contradicted."""
    assert app.test_client().get("/phone/hello").get_json()["agrees"] is True
