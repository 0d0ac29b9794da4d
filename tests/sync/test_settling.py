"""Two phones and the desk: what they set unseen by each other is settled by a person, in one press."""

from __future__ import annotations

import re
from html import unescape

import pytest
from flask import Flask

from fieldbook.book.identity import uuid7
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.sites import Surveyed
from tests.sync.conftest import Phone
from tests.sync.test_protocol import entry

HIDDEN = re.compile(r'<input type="hidden" name="(\w+)" value="([^"]*)">')


@pytest.fixture
def app(surveyed: Surveyed) -> Flask:
    """The app with an open desk."""
    return create_app(surveyed.book.folder, access="open")


@pytest.fixture
def phones(app: Flask, surveyed: Surveyed) -> list[Phone]:
    """Two phones that have joined."""
    book, made = surveyed.book, []
    for name in ("phone of the fitter", "phone of the mate"):
        joined = devices.join(book, codes.new_join_code(book), name)
        made.append(Phone(app.test_client(), book, joined.device, joined.token))
    return made


def choices(app: Flask) -> list[dict[str, str]]:
    """What each button of the page of conflicts sends, in order."""
    page = app.test_client().get("/conflicts").text
    forms = re.findall(r"<form.*?</form>", page, re.DOTALL)
    return [{name: unescape(value) for name, value in HIDDEN.findall(form)} for form in forms if "/settle" in form]


@pytest.mark.parametrize("stands", [0, 1])
def test_s5_two_phones_that_set_the_same_field_are_settled_at_the_desk(
    app: Flask, phones: list[Phone], surveyed: Surveyed, stands: int
) -> None:
    """Both values and both phones are shown; one press settles it, either way, and both stay in the history."""
    book, fixing = surveyed.book, surveyed.fixing(surveyed.fitting())
    base = book.revision()
    for phone, note in zip(phones, ("first jaw", "second jaw"), strict=True):
        said = phone.send(entry(phone, "fixing", fixing, {"lining": note}, base)).get_json()
        assert said["answers"][0]["status"] == "accepted"
    assert book.item(fixing)[1]["lining"] == "second jaw"
    page = app.test_client().get("/conflicts").text
    for words in ("first jaw", "second jaw", "phone of the fitter", "phone of the mate"):
        assert words in page
    client = app.test_client()
    token = re.search(r'csrf_token" value="([^"]+)"', client.get("/conflicts").text)
    assert token
    sent = choices(app)[stands] | {"csrf_token": token[1]}
    assert client.post("/conflicts/settle", data=sent).status_code == 303
    assert book.item(fixing)[1]["lining"] == ("first jaw", "second jaw")[stands]
    assert book.conflicts() == []
    pulled = phones[0].ask("GET", f"entries?since={base}").get_json()["entries"]
    assert [one["set"]["lining"] for one in pulled][:2] == ["first jaw", "second jaw"]


def test_s5_change_of_what_was_withdrawn_unseen_is_settled_at_the_desk(
    app: Flask, phones: list[Phone], surveyed: Surveyed
) -> None:
    """An item one phone withdrew and the other changed waits at the desk, and one press brings it back."""
    book, zone = surveyed.book, surveyed.zone()
    base, (first, second) = book.revision(), phones
    gone = {"id": uuid7(), "device": first.device, "at": "2026-05-31T14:30:00+01:00", "kind": "zone", "item": zone}
    first.send(gone | {"base": base, "withdraw": True})
    second.send(entry(second, "zone", zone, {"mark": "K9"}, base))
    assert book.items("zone") == []
    client = app.test_client()
    token = re.search(r'csrf_token" value="([^"]+)"', client.get("/conflicts").text)
    assert token
    bring_back = choices(app)[1] | {"csrf_token": token[1]}
    assert client.post("/conflicts/settle", data=bring_back).status_code == 303
    assert [item["mark"] for item in book.items("zone")] == ["K9"]
    assert book.conflicts() == []
