"""The ledger: accepted once, chained, and the tables made from it."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.book import ledger, tables
from fieldbook.book.accepting import EntryAnswer, Status
from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book
from tests.examples import examples
from tests.sites import Surveyed

AT = "2026-05-31T14:30:00+01:00"


def entry(
    kind: str, item: str, values: dict[str, Any], base: int = 0, device: str = "phone-a", **more: Any
) -> dict[str, Any]:
    """An entry as a device makes it."""
    return {"id": uuid7(), "device": device, "at": AT, "kind": kind, "item": item, "base": base, "set": values} | more


def withdrawal(kind: str, item: str, base: int = 0, device: str = "phone-a") -> dict[str, Any]:
    """An entry that takes an item out of the present state."""
    return {"id": uuid7(), "device": device, "at": AT, "kind": kind, "item": item, "base": base, "withdraw": True}


def send(book: Book, *sent: Any) -> list[EntryAnswer]:
    """Send entries to a book."""
    return book.append(sent)


def all_rows(book: Book) -> dict[str, list[tuple[Any, ...]]]:
    """Everything the projection holds."""
    return {
        name: sorted(book.db.execute(f'SELECT * FROM "{name}"').fetchall(), key=repr)
        for name in tables.table_statements()
    }


def test_append_first_entry_gets_revision_one(empty_book: Book) -> None:
    """An accepted entry gets the next revision and shows in its table."""
    (answer,) = send(empty_book, entry("site", item := uuid7(), {"name": "Customs shed"}))
    assert (answer.status, answer.revision) == (Status.ACCEPTED, 1)
    assert empty_book.item(item)[1]["name"] == "Customs shed"


def test_append_same_entry_twice_has_the_effect_of_once(empty_book: Book) -> None:
    """An entry sent again is answered with the revision it already has, and changes nothing."""
    sent = entry("site", uuid7(), {"name": "Customs shed"})
    send(empty_book, sent)
    before, digest = all_rows(empty_book), empty_book.digest()
    (answer,) = send(empty_book, sent)
    assert (answer.status, answer.revision) == (Status.REPEATED, 1)
    assert (all_rows(empty_book), empty_book.digest()) == (before, digest)


def test_append_same_id_other_content_is_refused(empty_book: Book) -> None:
    """An id stands for one content; another under the same id changes nothing."""
    sent = entry("site", uuid7(), {"name": "Customs shed"})
    send(empty_book, sent)
    (answer,) = send(empty_book, sent | {"set": {"name": "Weigh house"}})
    assert answer.status is Status.REFUSED
    assert answer.findings[0].code == "id-used-twice"
    assert empty_book.item(sent["item"])[1]["name"] == "Customs shed"


def test_s2_same_entry_with_a_lowered_base_is_known_again(surveyed: Surveyed) -> None:
    """After a restoration a phone sends again with lower bases; what the book still has is not blamed for that."""
    sent = entry("room", surveyed.room, {"use": "weighing"}, 3)
    send(surveyed.book, sent)
    assert send(surveyed.book, sent | {"base": 0})[0].status is Status.REPEATED
    assert surveyed.book.history(surveyed.room)[-1]["base"] == 3


def test_append_refused_entry_holds_up_no_other(empty_book: Book) -> None:
    """Entries of one batch are judged each on its own."""
    good, also_good = (entry("site", uuid7(), {"name": name}) for name in ("Shed", "Yard"))
    answers = send(empty_book, good, entry("site", uuid7(), {"name": ""}), also_good)
    assert [answer.status for answer in answers] == [Status.ACCEPTED, Status.REFUSED, Status.ACCEPTED]
    assert [site["name"] for site in empty_book.items("site")] == ["Shed", "Yard"]


def test_append_child_before_parent_waits_and_is_accepted_later(empty_book: Book) -> None:
    """An entry that points to something not here yet waits, and goes in once that has come."""
    site, room = uuid7(), uuid7()
    child = entry("room", room, {"site": site, "name": "Long room"})
    assert send(empty_book, child)[0].status is Status.WAITING
    send(empty_book, entry("site", site, {"name": "Shed"}))
    assert send(empty_book, child)[0].status is Status.ACCEPTED


@pytest.mark.parametrize(
    ("change", "code", "field"),
    [
        ({"id": "7"}, "unsuitable-text", "id"),
        ({"item": None}, "unsuitable-text", "item"),
        ({"at": "noon"}, "unsuitable-text", "at"),
        ({"device": ""}, "missing", "device"),
        ({"base": -1}, "out-of-range", "base"),
        ({"base": None}, "missing", "base"),
        ({"kind": "gadget"}, "unknown-kind", "kind"),
        ({"kind": ["site"]}, "unknown-kind", "kind"),
        ({"set": 5}, "unsuitable-text", "set"),
        ({"set": {"colour": "red"}}, "unknown-field", "colour"),
        ({"withdraw": True}, "unsuitable-text", None),
        ({"hash": "0"}, "unknown-field", "hash"),
    ],
)
def test_append_malformed_entry_is_refused_by_field(
    empty_book: Book, change: dict[str, Any], code: str, field: str | None
) -> None:
    """An entry that is not of the form of an entry is refused, and the field is named."""
    (answer,) = send(empty_book, entry("site", uuid7(), {"name": "Shed"}) | change)
    assert answer.status is Status.REFUSED
    assert (answer.findings[0].code, answer.findings[0].field) == (code, field)


@pytest.mark.parametrize("sent", [None, 3, [], "entry", {}, {"set": {}}])
def test_append_what_is_no_entry_is_refused(empty_book: Book, sent: object) -> None:
    """Anything else than an entry is refused with words, not with an exception."""
    (answer,) = send(empty_book, sent)
    assert answer.status is Status.REFUSED
    assert empty_book.revision() == 0


def test_append_other_kind_for_known_item_is_refused(empty_book: Book) -> None:
    """An item keeps its kind."""
    send(empty_book, entry("site", item := uuid7(), {"name": "Shed"}))
    (answer,) = send(empty_book, entry("visit", item, {"site": item, "purpose": "survey", "on": "2026-05-31"}))
    assert (answer.status, answer.findings[0].field) == (Status.REFUSED, "kind")


def test_different_fields_from_two_devices_merge_silently(surveyed: Surveyed) -> None:
    """Two devices that set different fields of one item leave no conflict."""
    book, base = surveyed.book, surveyed.book.revision()
    send(
        book,
        entry("room", surveyed.room, {"use": "weighing"}, base),
        entry("room", surveyed.room, {"floor": "setts"}, base, "phone-b"),
    )
    room = book.item(surveyed.room)[1]
    assert (room["use"], room["floor"]) == ("weighing", "setts")
    assert not book.conflicts()


def test_same_field_from_two_devices_keeps_both_and_waits(surveyed: Surveyed) -> None:
    """The later revision shows, the earlier stays in the ledger, and the pair waits to be settled."""
    book, base = surveyed.book, surveyed.book.revision()
    first, second = send(
        book,
        entry("room", surveyed.room, {"use": "weighing"}, base),
        entry("room", surveyed.room, {"use": "storage"}, base, "phone-b"),
    )
    assert book.item(surveyed.room)[1]["use"] == "storage"
    (pair,) = book.conflicts()
    assert (pair["field"], pair["earlier"], pair["later"]) == ("use", first.revision, second.revision)
    assert [change["set"]["use"] for change in book.history(surveyed.room)[1:]] == ["weighing", "storage"]


def test_conflict_is_settled_by_an_entry_that_has_seen_both(surveyed: Surveyed) -> None:
    """Setting the field again, having seen both, settles the pair; having seen one only opens another."""
    book, base = surveyed.book, surveyed.book.revision()
    _, second = send(
        book,
        entry("room", surveyed.room, {"use": "weighing"}, base),
        entry("room", surveyed.room, {"use": "storage"}, base, "phone-b"),
    )
    send(book, entry("room", surveyed.room, {"use": "weighing hall"}, base))
    assert len(book.conflicts()) == 2
    send(book, entry("room", surveyed.room, {"use": "weighing hall"}, book.revision(), "desk"))
    assert not book.conflicts()


def test_s11_a_later_change_stands_though_its_clock_and_id_are_earlier(surveyed: Surveyed) -> None:
    """A device whose clock was set back by years still has the last word with what it sends last."""
    book, base = surveyed.book, surveyed.book.revision()
    first = entry("room", surveyed.room, {"use": "first thought"}, base)
    second = entry("room", surveyed.room, {"use": "second thought"}, base, at="1999-12-31T23:59:59+00:00")
    second["id"] = "00000000-0000-7000-8000-000000000001"
    send(book, first)
    send(book, second)
    assert book.item(surveyed.room)[1]["use"] == "second thought"
    assert not book.conflicts()


def test_s14_entry_behind_a_waiting_one_about_the_same_item_waits_too(surveyed: Surveyed) -> None:
    """A device's changes of an item stand in the order it made them, though the first has to wait."""
    book, base, hold = surveyed.book, surveyed.book.revision(), uuid7()
    fixing = surveyed.fixing(surveyed.fitting())
    first = entry("fixing", fixing, {"hold": hold, "note": "first"}, base)
    second = entry("fixing", fixing, {"note": "second"}, base)
    elsewhere = entry("room", surveyed.room, {"use": "weighing"}, base)
    statuses = [answer.status for answer in send(book, first, second, elsewhere)]
    assert statuses == [Status.WAITING, Status.WAITING, Status.ACCEPTED]
    place = {"face": surveyed.face, "sort": "hole", "x_mm": 10, "z_mm": 10, "may_be_used": "yes"}
    answers = send(book, entry("hold", hold, place), first, second)
    assert [answer.status for answer in answers] == [Status.ACCEPTED] * 3
    assert book.item(fixing)[1]["note"] == "second"


def test_s6_change_of_an_item_not_here_yet_waits_for_its_first_entry(surveyed: Surveyed) -> None:
    """When what made an item was refused, later changes of it wait; they are not blamed for what they leave out."""
    zone = uuid7()
    answers = send(
        surveyed.book,
        entry("zone", zone, {"face": surveyed.face, "name": "Old paint"}),
        entry("zone", zone, {"mark": "K7"}),
        withdrawal("zone", zone),
    )
    assert [answer.status for answer in answers] == [Status.REFUSED, Status.WAITING, Status.WAITING]


@pytest.mark.parametrize("ours_first", [True, False])
def test_s5_withdrawal_and_change_unseen_by_each_other_wait(surveyed: Surveyed, ours_first: bool) -> None:
    """What one device changed while another withdrew it is not hidden without a word, whichever came first."""
    book, zone = surveyed.book, surveyed.zone()
    base = book.revision()
    change = entry("zone", zone, {"mark": "K9"}, base)
    gone = withdrawal("zone", zone, base, "phone-b")
    first, second = send(book, *((change, gone) if ours_first else (gone, change)))
    (pair,) = book.conflicts()
    assert (pair["field"], pair["earlier"], pair["later"]) == ("withdrawn", first.revision, second.revision)
    assert book.items("zone") == []
    book.withdraw(zone, False)
    assert not book.conflicts()


def test_change_of_what_one_has_seen_withdrawn_opens_no_conflict(surveyed: Surveyed) -> None:
    """Whoever knows that an item is withdrawn may still correct it."""
    zone = surveyed.zone()
    surveyed.book.withdraw(zone)
    send(surveyed.book, entry("zone", zone, {"mark": "K9"}, surveyed.book.revision()))
    assert not surveyed.book.conflicts()


def test_append_base_ahead_of_the_book_waits(surveyed: Surveyed) -> None:
    """What has seen more than the book has is kept by its sender: the book may have been put back from a copy."""
    (answer,) = send(surveyed.book, entry("room", surveyed.room, {"use": "x"}, surveyed.book.revision() + 1))
    assert (answer.status, answer.findings[0].field) == (Status.WAITING, "base")


def test_append_entry_of_another_device_than_its_sender_is_refused(surveyed: Surveyed) -> None:
    """A phone cannot speak for another, and its own entries in the same batch go on."""
    ours, theirs = (entry("room", surveyed.room, {"use": "x"}, device=device) for device in ("phone-a", "phone-b"))
    answers = surveyed.book.append([theirs, ours], "phone-a")
    assert [answer.status for answer in answers] == [Status.REFUSED, Status.ACCEPTED]
    assert answers[0].findings[0].code == "other-device"


def test_s2_moment_without_offset_is_refused(surveyed: Surveyed) -> None:
    """What an entry means must not hang on this machine's time zone, or it would be another when it comes again."""
    reading = {"room": surveyed.room, "quantity": "level", "value": 3, "unit": "mm", "at": "2026-05-31T14:30:00"}
    (answer,) = send(surveyed.book, entry("reading", uuid7(), reading))
    assert (answer.status, answer.findings[0].field) == (Status.REFUSED, "at")


def test_s5_device_that_changes_its_mind_unseen_leaves_one_pair_with_its_last_value(surveyed: Surveyed) -> None:
    """What waits is the other's value against the one that shows, not against one given up since."""
    book, base = surveyed.book, surveyed.book.revision()
    send(book, entry("room", surveyed.room, {"use": "weighing"}, base, "phone-b"))
    send(book, entry("room", surveyed.room, {"use": "storage"}, base))
    send(book, entry("room", surveyed.room, {"use": "office"}, base))
    (pair,) = book.conflicts()
    assert (pair["earlier"], pair["later"]) == (base + 1, base + 3)


def test_s5_device_that_has_seen_the_others_value_settles_without_pulling_its_own(surveyed: Surveyed) -> None:
    """A phone knows what it set itself, though its cursor has not passed it yet."""
    book, base = surveyed.book, surveyed.book.revision()
    send(book, entry("room", surveyed.room, {"use": "weighing"}, base, "phone-b"))
    send(book, entry("room", surveyed.room, {"use": "storage"}, base))
    send(book, entry("room", surveyed.room, {"use": "weighing hall"}, base + 1))
    assert not book.conflicts()


def test_s5_several_changes_of_what_was_withdrawn_unseen_leave_one_pair(surveyed: Surveyed) -> None:
    """A day's entries about a withdrawn item are one question to the desk, not many."""
    book, zone = surveyed.book, surveyed.zone()
    base = book.revision()
    send(book, withdrawal("zone", zone, base, "phone-b"))
    send(book, entry("zone", zone, {"mark": "K8"}, base), entry("zone", zone, {"name": "Paint"}, base))
    assert [pair["field"] for pair in book.conflicts()] == ["withdrawn"]


def test_withdrawn_item_is_gone_and_can_be_brought_back(surveyed: Surveyed) -> None:
    """Withdrawing hides an item; withdrawing the withdrawal shows it again; the ledger has all of it."""
    zone = surveyed.zone()
    surveyed.book.withdraw(zone)
    assert surveyed.book.items("zone") == []
    assert [item["id"] for item in surveyed.book.items("zone", withdrawn=True)] == [zone]
    surveyed.book.withdraw(zone, False)
    assert [item["id"] for item in surveyed.book.items("zone")] == [zone]
    assert len(surveyed.book.history(zone)) == 3


@pytest.mark.parametrize("statement", ["UPDATE ledger SET content = '{}'", "DELETE FROM ledger"])
def test_ledger_rows_cannot_be_altered(surveyed: Surveyed, statement: str) -> None:
    """The database itself refuses to change or delete an entry."""
    with pytest.raises(sqlite3.IntegrityError, match="append-only"):
        surveyed.book.db.execute(statement)
    surveyed.book.db.conn.rollback()


def test_hash_is_sha256_over_hash_before_revision_arrival_and_content(surveyed: Surveyed) -> None:
    """The chain can be followed with nothing but SHA-256 and the ledger's own rows."""
    before = "0" * 64
    for revision, arrived, content, found in surveyed.book.db.execute(
        "SELECT revision, received_at, content, hash FROM ledger ORDER BY revision"
    ):
        before = hashlib.sha256(f"{before}\n{revision}\n{arrived}\n{content}".encode()).hexdigest()
        assert before == found
        assert json.dumps(json.loads(content), sort_keys=True, separators=(",", ":"), ensure_ascii=False) == content
    assert before == surveyed.book.digest()


NAMES = st.sampled_from(["weighing", "storage", "office", None])
EDITS = st.lists(
    st.tuples(st.sampled_from(["a", "b", "c"]), st.sampled_from(["use", "floor", "ceiling"]), NAMES, st.integers(0, 9)),
    max_size=25,
)


@examples(60)
@given(EDITS, st.randoms(use_true_random=False))
def test_tables_rebuilt_from_the_ledger_are_the_same(
    tmp_path_factory: pytest.TempPathFactory, edits: list[Any], random: Any
) -> None:
    """Whatever was sent, however often and in whatever order, the tables equal those made afresh."""
    with create_book(tmp_path_factory.mktemp("book") / "b") as book:
        site, room = book.write("site", {"name": "Shed"}), uuid7()
        sent = [entry("room", room, {"site": site, "name": "Long room"}, 0, "a")]
        sent += [entry("room", room, {field: value}, base, device) for device, field, value, base in edits]
        sent += random.sample(sent, len(sent) // 2)
        random.shuffle(sent)
        accepted = 1
        for one in [*sent, *sent]:  # those that waited for the room go in on the second round
            accepted += send(book, one)[0].status is Status.ACCEPTED
        before = all_rows(book)
        with book.writing():
            ledger.rebuild(book.db)
        assert all_rows(book) == before
        assert book.revision() == accepted


def test_entries_since_a_revision_are_in_order_and_limited(surveyed: Surveyed) -> None:
    """A device asks for what came after a revision and gets it in order, no more than it asked for."""
    surveyed.zone()
    assert [one["revision"] for one in ledger.entries(surveyed.book.db, since=1, most=2)] == [2, 3]
