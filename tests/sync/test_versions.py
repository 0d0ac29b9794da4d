"""A phone and a laptop of different versions: nothing is lost, whichever is the newer."""

from __future__ import annotations

import json
from io import BytesIO
from typing import Any

import pytest

from fieldbook.book.identity import uuid7
from fieldbook.model.description import line
from fieldbook.model.kinds import KINDS
from fieldbook.model.versions import fingerprint
from fieldbook.phones import carried_files
from tests.books.frozen import changed, describe, registry_of, with_more
from tests.sites import SQUARE, Surveyed
from tests.sync.conftest import Phone

AT = "2026-05-31T14:30:00+01:00"
NEWER = "fingerprint of a newer version"


def entry(phone: Phone, kind: str, item: str, values: dict[str, Any]) -> dict[str, Any]:
    """An entry as a phone makes it."""
    return {"id": uuid7(), "device": phone.device, "at": AT, "kind": kind, "item": item, "base": 0, "set": values}


def answers(phone: Phone, *entries: dict[str, Any], **more: Any) -> list[dict[str, Any]]:
    """The answers to entries that are sent."""
    return phone.send(*entries, **more).get_json()["answers"]


def zone(surveyed: Surveyed, **more: Any) -> dict[str, Any]:
    """What a phone sets of a new keep-off zone."""
    values = {"face": surveyed.face, "name": "Old paint", "outline": SQUARE, "forbids": ["contact"]}
    return values | {"margin_mm": 20, "reason": "painted scheme below"} | more


def test_s16_former_names_and_words_are_taken_for_what_they_stand_for(
    phone: Phone, surveyed: Surveyed, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What an older phone sends is accepted, and stands under the present name in the present word."""
    renamed = changed(KINDS["zone"], "said_by", name="told_by", renamed_from=("said_by",))
    words = {"choices": ("drilling", "touch"), "renamed_choices": (("contact", "touch"),)}
    describe(monkeypatch, changed(renamed, "forbids", **words))
    item = uuid7()
    sent = entry(phone, "zone", item, zone(surveyed, said_by="caretaker"))
    assert [answer["status"] for answer in answers(phone, sent)] == ["accepted"]
    values = surveyed.book.item(item)[1]
    assert (values["told_by"], values["forbids"]) == ("caretaker", ["touch"])
    assert [answer["status"] for answer in answers(phone, sent)] == ["repeated"]


def test_s16_retired_fields_and_words_are_taken_from_older_phones(
    phone: Phone, surveyed: Surveyed, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is no longer asked for is kept where an older phone still asks for it."""
    retired = changed(KINDS["zone"], "said_by", retired="0.2.0")
    describe(monkeypatch, changed(retired, "forbids", choices=("drilling",), retired_choices=("contact",)))
    item = uuid7()
    sent = entry(phone, "zone", item, zone(surveyed, said_by="caretaker"))
    assert [answer["status"] for answer in answers(phone, sent)] == ["accepted"]
    values = surveyed.book.item(item)[1]
    assert (values["said_by"], values["forbids"]) == ("caretaker", ["contact"])


@pytest.mark.parametrize("described", [None, "fingerprint of an older version"])
def test_s16_new_item_of_an_older_phone_does_without_what_came_later(
    phone: Phone, surveyed: Surveyed, monkeypatch: pytest.MonkeyPatch, described: str | None
) -> None:
    """A field needed since is no reason to refuse what was entered before; a phone that knows it must give it."""
    describe(monkeypatch, with_more(KINDS["zone"], line("seen_in", "Seen in", required=True, since="0.2.0")))
    more = {} if described is None else {"described": described}
    assert [one["status"] for one in answers(phone, entry(phone, "zone", uuid7(), zone(surveyed)), **more)] == [
        "accepted"
    ]
    (refused,) = answers(phone, entry(phone, "zone", uuid7(), zone(surveyed)), described=fingerprint())
    assert (refused["status"], refused["findings"][0]["field"]) == ("refused", "seen_in")


def test_s16_what_a_newer_phone_says_waits_until_the_laptop_knows_it(
    phone: Phone, surveyed: Surveyed, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A field, a word and a kind that are not known here stay on the phone with a plain reason; later they go up."""
    item = uuid7()
    first = entry(phone, "zone", item, zone(surveyed, seen_in="raking light"))
    behind = entry(phone, "zone", item, {"note": "see the photograph"})
    word = entry(phone, "zone", uuid7(), zone(surveyed, forbids=["breath"]))
    kind = entry(phone, "survey flight", uuid7(), {"name": "from above"})
    plain = entry(phone, "room", surveyed.room, {"use": "store"})
    said = answers(phone, first, behind, word, kind, plain, described=NEWER)
    assert [answer["status"] for answer in said] == ["waiting"] * 4 + ["accepted"]
    assert [said[at]["findings"][0]["error"] for at in (0, 2, 3)] == ["newer-entry"] * 3
    assert "this laptop runs an older Fieldbook" in said[0]["findings"][0]["reason"].replace("This", "this")
    describe(monkeypatch, with_more(KINDS["zone"], line("seen_in", "Seen in"), line("note", "Note")))
    assert [answer["status"] for answer in answers(phone, first, behind, described=fingerprint())] == ["accepted"] * 2
    assert surveyed.book.item(item)[1]["seen_in"] == "raking light"


def test_s16_column_that_is_not_known_waits(phone: Phone, surveyed: Surveyed) -> None:
    """A table with one column more is not cut to what is known here."""
    layers = [["lime plaster", 20, "old", "wet"]]
    (answer,) = answers(phone, entry(phone, "face", surveyed.face, {"layers": layers}), described=NEWER)
    assert (answer["status"], answer["findings"][0]["error"]) == ("waiting", "newer-entry")
    assert surveyed.book.item(surveyed.face)[1]["layers"] is None


def test_fault_of_a_phone_of_this_version_is_refused(phone: Phone, surveyed: Surveyed) -> None:
    """What no version knows does not wait for one that does."""
    sent = entry(phone, "room", surveyed.room, {"smell": "tar"})
    for more in ({}, {"described": fingerprint()}):
        (answer,) = answers(phone, sent, **more)
        assert (answer["status"], answer["findings"][0]["error"]) == ("refused", "unknown-field")


def test_s16_carried_file_of_another_version_is_taken_alike(phone: Phone, surveyed: Surveyed) -> None:
    """What waits for a newer version when it is sent waits too when it is carried."""
    book = surveyed.book
    about = {"fieldbook": 1, "book": book.fact("book"), "epoch": book.fact("epoch"), "device": phone.device}
    lines = [
        about | {"way": "back", "made_at": AT, "described": NEWER},
        {"entry": entry(phone, "room", surveyed.room, {"smell": "tar"})},
        {"entry": entry(phone, "face", surveyed.face, {"note": "sound"})},
    ]
    lines.append({"end": len(lines)})
    file = BytesIO("".join(f"{json.dumps(one)}\n" for one in lines).encode())
    assert [str(answer.status) for answer in carried_files.take_back(book, file)] == ["waiting", "accepted"]


def test_phone_is_told_which_description_it_has(phone: Phone) -> None:
    """The registry a phone reads says the fingerprint that it sends."""
    assert registry_of(phone.client.get("/phone/").text)["described"] == fingerprint()


def test_fingerprint_changes_with_what_entries_may_say(monkeypatch: pytest.MonkeyPatch) -> None:
    """A label may be put better at any time; a word, a name or a column makes another version."""
    before = fingerprint()
    describe(monkeypatch, changed(KINDS["zone"], "said_by", label="Who told"))
    assert fingerprint() == before
    describe(monkeypatch, changed(KINDS["zone"], "forbids", choices=("drilling", "contact")))
    assert fingerprint() != before
