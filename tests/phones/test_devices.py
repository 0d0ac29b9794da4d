"""Phones join, are known again, and are shut out."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.book import Book
from fieldbook.errors import FieldbookError, Missing
from fieldbook.phones import codes, devices
from fieldbook.phones.codes import WrongCode
from fieldbook.phones.devices import Device, Joined, ShutOut, UnknownToken, YesNeeded


def joined(book: Book, name: str = "fitter's phone", device: str | None = None) -> Joined:
    """Let a phone join, with a yes to whichever it says that it was."""
    return devices.join(book, codes.new_join_code(book, device), name, device)


def known(book: Book, phone: Joined) -> Device:
    """The device as its token shows it."""
    return devices.authenticate(book, phone.token)


def test_joined_phone_is_known_by_its_token(empty_book: Book) -> None:
    """A phone that joined is recognised, and is listed by its name."""
    phone = joined(empty_book)
    assert known(empty_book, phone).id == phone.device
    assert [device.name for device in devices.every_device(empty_book)] == ["fitter's phone"]


def test_token_has_256_bits_and_only_its_digest_is_kept(empty_book: Book) -> None:
    """Whoever reads the book's file cannot speak for a phone."""
    phone = joined(empty_book)
    assert len(phone.token) * 6 >= 256
    assert phone.token not in repr(empty_book.db.execute("SELECT * FROM device").fetchall())


@pytest.mark.parametrize(("code", "name"), [("0000-0000", "phone"), (None, "phone"), (7, "phone"), (["x"], "phone")])
def test_join_without_a_valid_code_is_refused(empty_book: Book, code: Any, name: str) -> None:
    """Nobody joins without a code, and nothing is recorded but the try."""
    with pytest.raises(WrongCode):
        devices.join(empty_book, code, name)
    assert devices.every_device(empty_book) == []


@pytest.mark.parametrize("name", ["", None, "  ", 7, "x" * 500, {"a": 1}])
def test_join_with_an_unsuitable_name_does_not_use_the_code_up(empty_book: Book, name: Any) -> None:
    """A slip in the name costs no new code."""
    code = codes.new_join_code(empty_book)
    with pytest.raises(FieldbookError) as refusal:
        devices.join(empty_book, code, name)
    assert refusal.value.field == "name"
    assert devices.join(empty_book, code, "phone").device


def test_join_under_an_id_that_is_none_is_refused(empty_book: Book) -> None:
    """A phone cannot call itself the desk."""
    with pytest.raises(FieldbookError) as refusal:
        joined(empty_book, device="desk")
    assert refusal.value.field == "device"


@pytest.mark.parametrize("token", ["", "x", "☃" * 9])
def test_authenticate_unknown_token_is_refused(empty_book: Book, token: str) -> None:
    """A token this book never gave out opens nothing."""
    joined(empty_book)
    with pytest.raises(UnknownToken):
        devices.authenticate(empty_book, token)


def test_s12_shut_out_device_is_refused_at_once_and_listed_last(empty_book: Book) -> None:
    """A lost phone is shut out from one request to the next; the others go on."""
    lost, other = joined(empty_book, "a lost phone"), joined(empty_book, "other phone")
    devices.shut_out(empty_book, lost.device)
    with pytest.raises(ShutOut):
        known(empty_book, lost)
    with pytest.raises(ShutOut):
        devices.device_named(empty_book, lost.device)
    assert known(empty_book, other)
    assert [device.name for device in devices.every_device(empty_book)] == ["other phone", "a lost phone"]


def test_phone_that_joins_again_stays_the_device_it_was(empty_book: Book) -> None:
    """After a mistaken shutting-out the phone's own entries still name the right device; the old token is dead."""
    phone = joined(empty_book)
    devices.shut_out(empty_book, phone.device)
    again = joined(empty_book, "same phone", phone.device)
    assert again.device == phone.device
    assert known(empty_book, again).name == "same phone"
    with pytest.raises(UnknownToken):
        known(empty_book, phone)


@pytest.mark.parametrize("made_for", [None, "01890a5d-ac96-774b-bcce-b302099a8057"])
def test_phone_is_an_earlier_one_only_after_a_yes_at_the_desk(empty_book: Book, made_for: str | None) -> None:
    """A code for any phone, or for another, lets nobody speak as a phone that has joined; the code stays good."""
    phone = joined(empty_book)
    code = codes.new_join_code(empty_book, made_for)
    with pytest.raises(YesNeeded) as refusal:
        devices.join(empty_book, code, "somebody", phone.device)
    assert refusal.value.field == "code"
    assert known(empty_book, phone).name == "fitter's phone"
    assert devices.join(empty_book, code, "another phone").device != phone.device


def test_device_forgotten_by_a_restored_book_can_join_under_its_id(empty_book: Book) -> None:
    """A book restored from before a phone joined takes it in again as the same device."""
    device = "01890a5d-ac96-774b-bcce-b302099a8057"
    assert joined(empty_book, device=device).device == device


def test_touch_notes_what_waits_and_when_it_was_seen(empty_book: Book) -> None:
    """The desk sees how much a phone still holds; a request that says nothing of it leaves the figure."""
    phone = joined(empty_book)
    devices.touch(empty_book, known(empty_book, phone), 7)
    seen = known(empty_book, phone)
    assert (seen.waiting, seen.seen_at is None) == (7, False)
    devices.touch(empty_book, seen)
    assert known(empty_book, phone) == seen


def test_unknown_device_of_a_file_is_refused(empty_book: Book) -> None:
    """A file of a phone that never joined is of no device here."""
    with pytest.raises(FieldbookError) as refusal:
        devices.device_named(empty_book, "01890a5d-ac96-774b-bcce-b302099a8057")
    assert refusal.value.code == "unknown-item"
    assert not isinstance(refusal.value, Missing)
