"""Whatever is sent to the addresses of phones is answered in words: never with 500, and never with a hang."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from werkzeug.test import TestResponse

from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes, devices
from fieldbook.web import create_app
from tests.examples import examples
from tests.sites import picture, survey
from tests.sync.conftest import Phone

pytestmark = pytest.mark.slow

ODD_TEXT = st.text() | st.sampled_from(["\x00", "\ud800", "../../x", "%s%n", "'; DROP TABLE ledger;--", "🜚" * 300])
ODD = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.just(10**400)
    | st.floats()
    | ODD_TEXT
    | st.sampled_from(["", " ", "NaN", "9" * 400, "2026-05-31T14:30:00+01:00", "9999-99-99", "0" * 64]),
    lambda inner: st.lists(inner, max_size=5) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=20,
)
KEYS = st.sampled_from(["id", "device", "at", "kind", "item", "base", "set", "withdraw", "revision", ""])
ASKED = st.sampled_from(
    ["epoch", "known", "shared", "hashes", "digests", "entries", "returned", "described", "waiting"]
)
FIELDS = st.sampled_from([(kind.name, field.name) for kind in KINDS.values() for field in kind.fields])
PICTURE = picture(64, 48)
DIGEST = hashlib.sha256(PICTURE).hexdigest()


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """A book that goes through all of this."""
    with create_book(tmp_path_factory.mktemp("hostile") / "book") as made:
        yield made


@pytest.fixture(scope="module")
def phone(book: Book) -> Phone:
    """A phone that has joined and has gone mad."""
    survey(book)
    joined = devices.join(book, codes.new_join_code(book), "phone")
    return Phone(create_app(book.folder).test_client(), book, joined.device, joined.token)


def answered(answer: TestResponse) -> TestResponse:
    """The answer, when it is one: below 500, and a refusal says why and what to do."""
    assert answer.status_code < 500, answer.text
    if answer.status_code >= 400:
        assert answer.get_json()["reason"]
        assert answer.get_json()["remedy"]
    return answer


def as_json(value: Any) -> dict[str, Any]:
    """A body with a value that a strict encoder would refuse."""
    return {"data": json.dumps(value), "content_type": "application/json"}


@examples(40, in_the_long_run=1000)
@given(ODD)
def test_any_json_instead_of_a_request_is_answered(phone: Phone, sent: Any) -> None:
    """A body may be anything."""
    for path in ("entries", "join"):
        answered(phone.ask("POST", path, **as_json(sent)))


@examples(40, in_the_long_run=1000)
@example("epoch", {"shared": {}})
@given(st.sampled_from(["entries", "shared", "epoch", "photographs"]), st.dictionaries(ASKED, ODD, max_size=3))
def test_any_value_of_a_step_is_answered(phone: Phone, path: str, odd: dict[str, Any]) -> None:
    """A request that is nearly right, with anything under any of its names."""
    shared = {"revision": 0, "digest": "0" * 64}
    right = {"entries": [], "hashes": [shared], "known": shared, "shared": shared, "digests": [DIGEST]}
    answered(phone.ask("POST", path, **as_json({"epoch": phone.book.fact("epoch")} | right | odd)))


@examples(60, in_the_long_run=1500)
@given(st.dictionaries(KEYS, ODD, min_size=1, max_size=3), FIELDS, ODD)
def test_any_value_in_an_entry_is_accepted_or_refused(
    phone: Phone, odd: dict[str, Any], field: tuple[str, str], value: Any
) -> None:
    """An entry that is nearly right, with anything in any of its places."""
    kind, name = field
    made = {"device": phone.device, "at": "2026-05-31T14:30:00+01:00", "base": 0, "kind": kind}
    for entry in (made | {"set": {name: value}}, made | {"set": {name: value}} | odd, odd):
        entry = {"id": uuid7(), "item": uuid7()} | entry
        answer = answered(
            phone.ask("POST", "entries", **as_json({"epoch": phone.book.fact("epoch"), "entries": [entry]}))
        )
        (said,) = answer.get_json()["answers"]
        assert said["status"] in {"accepted", "refused", "waiting"}
        assert (said["status"] == "accepted") == (said["findings"] == [])


@examples(40, in_the_long_run=1000)
@given(ODD, ODD, ODD)
def test_any_code_name_and_device_are_answered(phone: Phone, code: Any, name: Any, device: Any) -> None:
    """Joining with anything lets nobody in."""
    before = len(devices.every_device(phone.book))
    answered(phone.client.post("/phone/join", **as_json({"code": code, "name": name, "device": device})))
    assert len(devices.every_device(phone.book)) == before


@examples(40, in_the_long_run=1000)
@given(st.binary(max_size=300), st.text(max_size=40) | st.from_regex(r"bytes \d{1,4}-\d{1,4}/\d{1,4}", fullmatch=True))
def test_any_piece_is_taken_or_refused(phone: Phone, content: bytes, range_: str) -> None:
    """Whatever bytes come under whatever range, the photograph is whole or not there."""
    headers = {"Content-Range": range_.encode("utf-8", "replace").decode("latin-1").replace("\n", "").replace("\r", "")}
    kind = "application/octet-stream"
    answered(phone.ask("PUT", f"photographs/{DIGEST}", data=content, headers=headers, content_type=kind))
    said = answered(phone.ask("GET", f"photographs/{DIGEST}")).get_json()
    assert not said["complete"]


@examples(40, in_the_long_run=1000)
@given(st.text(max_size=30), st.text(max_size=30))
def test_any_address_is_answered(phone: Phone, part: str, query: str) -> None:
    """Addresses may hold anything."""
    for path in (part, f"photographs/{part}", f"photographs/{DIGEST}/copy/{part}"):
        phone_path = path.replace("?", "").replace("#", "")
        answer = phone.ask("GET", phone_path, headers={"Accept": "application/json"})
        assert answer.status_code < 500
    for name in ("since", "most", "epoch"):
        answer = phone.ask("GET", "entries", query_string={name: query})
        assert answer.status_code < 500
        assert phone.ask("GET", "hello", query_string={name: query}).status_code == 200


@examples(40, in_the_long_run=1000)
@given(st.text(alphabet=st.characters(max_codepoint=255, exclude_characters="\r\n"), max_size=60))
def test_any_authorization_is_answered_401(phone: Phone, value: str) -> None:
    """A header may hold anything; without the token nothing opens."""
    for header in (value, f"Bearer {value}"):
        answer = phone.client.get("/phone/entries", headers={"Authorization": header})
        assert answer.status_code == 401


@examples(40, in_the_long_run=1000)
@given(
    st.sampled_from(["GET", "POST", "PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "TRACE", "X"]), st.binary(max_size=60)
)
def test_any_method_is_answered(phone: Phone, method: str, content: bytes) -> None:
    """Every address takes any method, and says when it is not one of its own."""
    for path in ("hello", "join", "entries", f"photographs/{DIGEST}", f"photographs/{DIGEST}/copy/320"):
        assert phone.ask(method, path, data=content).status_code < 500


def test_book_is_sound_after_all_of_this(phone: Phone, book: Book) -> None:
    """What was accepted of it can be read, pulled and rebuilt."""
    from fieldbook.book.examine import examine

    assert answered(phone.ask("GET", "entries?since=0")).get_json()["entries"]
    assert examine(book) == []
