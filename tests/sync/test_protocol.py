"""The protocol, step by step, as a phone meets it."""

from __future__ import annotations

import hashlib
from io import BytesIO
from typing import Any

import pytest
from flask import Flask
from PIL import Image

from fieldbook.book import forgetting, photographs
from fieldbook.book.book import FILE
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import open_book
from fieldbook.book.photographs import original
from fieldbook.phones import codes, devices, pieces
from tests.sites import Surveyed, picture, two_in_one
from tests.sync.conftest import Phone

AT = "2026-05-31T14:30:00+01:00"
PICTURE = picture(400, 300)
DIGEST = hashlib.sha256(PICTURE).hexdigest()


def entry(phone: Phone, kind: str, item: str, values: dict[str, Any], base: int = 0, **more: Any) -> dict[str, Any]:
    """An entry as a phone makes it."""
    made = {"id": uuid7(), "device": phone.device, "at": AT, "kind": kind, "item": item, "base": base, "set": values}
    return made | more


def test_hello_says_which_book_and_how_far(app: Flask, surveyed: Surveyed) -> None:
    """Anyone may ask whether this is a book, and learns nothing of what is in it."""
    said = app.test_client().get("/phone/hello").get_json()
    assert (said["fieldbook"], said["book"], said["revision"]) == (1, surveyed.book.fact("book"), 3)
    told = {
        "fieldbook",
        "level",
        "book",
        "epoch",
        "revision",
        "digest",
        "shared",
        "agrees",
        "taken_out",
        "time",
        "shell",
    }
    assert set(said) == told


def test_s10_hello_tells_how_far_a_former_epoch_and_this_one_are_the_same(app: Flask, surveyed: Surveyed) -> None:
    """A phone that comes with a former epoch learns to which revision its bases still hold."""
    former = surveyed.book.fact("epoch")
    with surveyed.book.writing():
        surveyed.book.begin_epoch()
    surveyed.zone()
    client = app.test_client()
    assert client.get(f"/phone/hello?epoch={former}").get_json()["shared"] == 3
    assert client.get(f"/phone/hello?epoch={surveyed.book.fact('epoch')}").get_json()["shared"] == 4
    assert client.get("/phone/hello?epoch=unheard").get_json()["shared"] == 0


def test_join_with_a_code_gives_a_token_that_is_known(app: Flask, surveyed: Surveyed) -> None:
    """What a phone is given when it joins is what it is known by."""
    client = app.test_client()
    code = codes.new_join_code(surveyed.book).lower()
    given = client.post("/phone/join", json={"code": code, "name": "fitter's phone"}).get_json()
    assert given["book"] == surveyed.book.fact("book")
    phone = Phone(client, surveyed.book, given["device"], given["token"])
    assert phone.send().get_json()["answers"] == []
    assert client.post("/phone/join", json={"code": code, "name": "another"}).status_code == 422


def test_join_five_wrong_codes_close_the_door(app: Flask, surveyed: Surveyed) -> None:
    """Whoever guesses is told how long to wait, and so is whoever comes with the right code meanwhile."""
    client, code = app.test_client(), codes.new_join_code(surveyed.book)
    for _ in range(codes.MOST_WRONG):
        assert client.post("/phone/join", json={"code": "0000-0000", "name": "x"}).get_json()["error"] == "wrong-code"
    closed = client.post("/phone/join", json={"code": code, "name": "x"})
    assert (closed.status_code, closed.get_json()["error"]) == (429, "too-many-tries")
    assert 500 < int(closed.headers["Retry-After"]) <= 600


def test_s1_entries_are_on_disk_when_they_are_acknowledged(phone: Phone, surveyed: Surveyed) -> None:
    """Another connection, opened after the answer, finds what was acknowledged."""
    said = phone.send(entry(phone, "room", surveyed.room, {"use": "weighing"}, 3)).get_json()
    assert [answer["status"] for answer in said["answers"]] == ["accepted"]
    with open_book(surveyed.book.folder) as other:
        assert other.item(surveyed.room)[1]["use"] == "weighing"
        assert other.revision() == said["revision"] == said["answers"][0]["revision"]


def test_s2_batch_sent_again_is_answered_repeated_with_the_same_revisions(phone: Phone, surveyed: Surveyed) -> None:
    """When the answer was lost, the second sending says the same and changes nothing."""
    batch = [entry(phone, "room", surveyed.room, {"use": use}, 3) for use in ("weighing", "storage")]
    first, second = (phone.send(*batch).get_json() for _ in range(2))
    assert [answer["status"] for answer in second["answers"]] == ["repeated"] * 2
    revisions = [[answer["revision"] for answer in said["answers"]] for said in (first, second)]
    assert revisions[0] == revisions[1] == [4, 5]
    assert second["revision"] == first["revision"]


def test_s2_id_with_another_content_is_refused(phone: Phone, surveyed: Surveyed) -> None:
    """An id that stands for one change cannot come to stand for another."""
    made = entry(phone, "room", surveyed.room, {"use": "weighing"}, 3)
    said = phone.send(made, made | {"set": {"use": "storage"}}).get_json()
    assert [answer["status"] for answer in said["answers"]] == ["accepted", "refused"]
    assert said["answers"][1]["findings"][0]["error"] == "id-used-twice"


def test_s6_refused_entry_says_why_by_its_field_and_holds_up_no_other(phone: Phone, surveyed: Surveyed) -> None:
    """A slip comes back with its reason; what was sent behind it is accepted."""
    said = phone.send(
        entry(phone, "room", surveyed.room, {"ceiling_mm": -5}, 3),
        entry(phone, "room", surveyed.room, {"use": "weighing"}, 3),
    ).get_json()
    assert [answer["status"] for answer in said["answers"]] == ["refused", "accepted"]
    (finding,) = said["answers"][0]["findings"]
    assert (finding["error"], finding["field"]) == ("out-of-range", "ceiling_mm")
    assert finding["reason"]
    assert finding["remedy"]


def test_entry_that_names_another_device_is_refused(phone: Phone, surveyed: Surveyed) -> None:
    """A phone cannot speak for the desk."""
    said = phone.send(entry(phone, "room", surveyed.room, {"use": "x"}, 3, device="desk")).get_json()
    assert said["answers"][0]["findings"][0]["error"] == "other-device"


def test_s10_entries_of_a_former_epoch_are_not_looked_at(phone: Phone, surveyed: Surveyed) -> None:
    """A phone that does not know of the restoration yet is told, before its bases could mislead."""
    refused = phone.send(entry(phone, "room", surveyed.room, {"use": "x"}, 3), epoch="former")
    assert (refused.status_code, refused.get_json()["error"]) == (409, "epoch-changed")
    assert surveyed.book.revision() == 3


def test_s8_pull_gives_every_entry_in_order_from_the_one_after_the_cursor(phone: Phone, surveyed: Surveyed) -> None:
    """However small the pieces a phone asks for, it gets all, without a gap and in order."""
    surveyed.zone()
    got: list[dict[str, Any]] = []
    while len(got) < surveyed.book.revision():
        said = phone.ask("GET", f"entries?since={len(got)}&most=2").get_json()
        assert said["since"] == len(got)
        got += said["entries"]
    assert [one["revision"] for one in got] == [1, 2, 3, 4]
    assert set(got[0]) == {"id", "device", "at", "kind", "item", "base", "set", "revision"}
    assert phone.ask("GET", "entries?since=4").get_json()["entries"] == []


def test_s12_shut_out_phone_is_answered_401_from_the_next_request_on(phone: Phone, surveyed: Surveyed) -> None:
    """Shutting out works at once, on every route, and the answer is JSON that says what to do."""
    devices.shut_out(surveyed.book, phone.device)
    answers = [phone.send(), phone.ask("GET", "entries"), phone.put(DIGEST, PICTURE, 0, 10)]
    assert [(one.status_code, one.get_json()["error"]) for one in answers] == [(401, "shut-out")] * 3
    assert surveyed.book.revision() == 3


@pytest.mark.parametrize(
    "headers", [{}, {"Authorization": "Bearer x"}, {"Authorization": "Basic eDp4"}, {"Authorization": "Bearer"}]
)
def test_s12_request_without_a_known_token_is_answered_401(phone: Phone, headers: dict[str, str]) -> None:
    """Without a token there is nothing to see."""
    for path in ("entries", f"photographs/{DIGEST}", f"photographs/{DIGEST}/copy/320"):
        answer = phone.client.get(f"/phone/{path}", headers=headers)
        assert (answer.status_code, answer.get_json()["error"]) == (401, "unknown-token")


def test_desk_sees_when_a_phone_was_there_and_what_waits_on_it(phone: Phone, surveyed: Surveyed) -> None:
    """What a phone says still waits on it is what the desk shows."""
    phone.send(waiting=41)
    (known,) = devices.every_device(surveyed.book)
    assert (known.waiting, known.seen_at is None) == (41, False)


def test_s7_photograph_in_pieces_appears_when_the_last_one_is_there(phone: Phone, surveyed: Surveyed) -> None:
    """It goes on from the last byte received, and its bytes are those that were taken."""
    where, half = original(surveyed.book, DIGEST), len(PICTURE) // 2
    assert phone.put(DIGEST, PICTURE, 0, half).get_json() == {"received": half, "complete": False}
    assert phone.ask("GET", f"photographs/{DIGEST}").get_json() == {"received": half, "complete": False}
    assert phone.ask("GET", f"photographs/{DIGEST}/copy/320").status_code == 404
    out = phone.put(DIGEST, PICTURE, half + 1, len(PICTURE))
    assert (out.status_code, out.get_json()["error"], out.get_json()["received"]) == (409, "out-of-step", half)
    assert not where.exists()
    assert phone.put(DIGEST, PICTURE, half, len(PICTURE)).get_json() == {"received": len(PICTURE), "complete": True}
    assert where.read_bytes() == PICTURE
    assert phone.ask("GET", f"photographs/{DIGEST}").get_json()["complete"]


def test_s7_bytes_that_do_not_fit_the_digest_are_refused(phone: Phone, surveyed: Surveyed) -> None:
    """Damage on the way is noticed; nothing of it stays."""
    refused = phone.put(DIGEST, PICTURE[:-1] + b"\0", 0, len(PICTURE))
    assert (refused.status_code, refused.get_json()["error"]) == (422, "digest-differs")
    assert phone.ask("GET", f"photographs/{DIGEST}").get_json() == {"received": 0, "complete": False}


@pytest.mark.parametrize(
    "content", [b"no picture", PICTURE[:100], b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"GIF89a"]
)
def test_photograph_that_is_none_is_refused_with_a_reason(phone: Phone, content: bytes) -> None:
    """A file that is no photograph goes back with words, and never breaks the server."""
    refused = phone.put(hashlib.sha256(content).hexdigest(), content, 0, len(content))
    assert (refused.status_code, refused.get_json()["error"]) == (422, "unsuitable-photograph")


def test_smaller_copy_is_upright_and_without_the_cameras_notes(phone: Phone) -> None:
    """The copy a phone keeps for reading offline has its size and no notes of place."""
    turned = Image.Exif()
    turned[0x0112] = 6  # turned by a quarter
    turned[0x010F] = "a camera"
    content = picture(1200, 900, exif=turned)
    sha256 = hashlib.sha256(content).hexdigest()
    phone.put(sha256, content, 0, len(content))
    answer = phone.ask("GET", f"photographs/{sha256}/copy/320")
    with Image.open(BytesIO(answer.data)) as copy:
        assert (answer.mimetype, copy.size, dict(copy.getexif())) == ("image/jpeg", (240, 320), {})
    answer.close()
    assert phone.ask("GET", f"photographs/{sha256}/copy/321").status_code == 404


def test_photograph_is_complete_for_every_phone_once_it_is_here(phone: Phone, surveyed: Surveyed) -> None:
    """What came by another way need not be sent again."""
    photographs.keep(surveyed.book, PICTURE)
    assert phone.ask("GET", f"photographs/{DIGEST}").get_json() == {"received": len(PICTURE), "complete": True}


@pytest.mark.parametrize(
    ("what", "status"),
    [
        ({"data": b"{", "content_type": "application/json"}, 400),
        ({"data": b"[]", "content_type": "application/json"}, 400),
        ({"data": b"[" * 100_000, "content_type": "application/json"}, 400),
        ({"data": b'{"a":' + b"[" * 500 + b"]" * 500 + b"}", "content_type": "application/json"}, 400),
        ({"data": b"\xff\xfe", "content_type": "application/json"}, 400),
        ({"data": b"{}", "content_type": "text/plain"}, 415),
        ({"data": {"entries": "x"}}, 415),
        ({"json": {"entries": [{}] * 101}}, 400),
        ({"json": {"entries": "none"}}, 400),
        ({"data": b" " * (1 << 20) + b"{}", "content_type": "application/json"}, 413),
    ],
)
def test_body_that_is_none_of_the_protocol_is_refused(phone: Phone, what: dict[str, Any], status: int) -> None:
    """Whatever is sent instead of entries is answered in JSON with a reason, and never with 500."""
    answer = phone.ask("POST", "entries", **what)
    assert answer.status_code == status
    assert answer.get_json()["reason"]


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("entries?since=-1", 400),
        ("entries?since=9999999999999999", 400),
        ("entries?most=many", 400),
        ("photographs/ABC", 400),
        (f"photographs/{'0' * 63}x", 400),
        ("photographs/..%2f..%2fbook.sqlite", 404),
        (f"photographs/{DIGEST}/copy/-1", 404),
        ("nowhere", 404),
    ],
)
def test_address_that_is_none_of_the_protocol_is_refused(phone: Phone, path: str, status: int) -> None:
    """Addresses with slips in them are answered in JSON with a reason."""
    answer = phone.ask("GET", path)
    assert answer.status_code == status
    assert answer.get_json()["reason"]


@pytest.mark.parametrize(
    ("range_", "content"),
    [
        ("", b"x"),
        ("bytes 0-0/*", b"x"),
        ("bytes 0-1/9", b"x"),
        ("bytes 5-4/9", b""),
        ("bytes 0-9/9", b"0123456789"),
        ("bytes ٠-٠/١", b"x"),
    ],
)
def test_piece_whose_range_does_not_fit_is_refused(phone: Phone, range_: str, content: bytes) -> None:
    """A piece says exactly where it belongs, or is not taken."""
    kind = "application/octet-stream"
    headers = {"Content-Range": range_.encode().decode("latin-1")}
    answer = phone.ask("PUT", f"photographs/{DIGEST}", data=content, headers=headers, content_type=kind)
    assert (answer.status_code, answer.get_json()["error"]) == (400, "unsuitable-request")


def test_piece_larger_than_any_is_refused(phone: Phone) -> None:
    """One piece is never larger than what may be lost by a cut."""
    large = b"x" * (pieces.MOST_BYTES + 1)
    assert phone.put(DIGEST, large, 0, len(large)).status_code == 413


def test_one_question_tells_of_many_photographs_how_far_they_have_come(phone: Phone, surveyed: Surveyed) -> None:
    """What is here, what has begun and what is lacking is said in one answer; a list too long is refused."""
    other, lacking = two_in_one(), "0" * 64
    digest = hashlib.sha256(other).hexdigest()
    phone.put(DIGEST, PICTURE, 0, 500)
    phone.put(digest, other, 0, len(other))
    asked = {"digests": [DIGEST, digest, lacking]}
    said = phone.ask("POST", "photographs", json=asked).get_json()["photographs"]
    assert [(one["received"], one["complete"], one["looked_at"]) for one in said] == [
        (500, False, False),
        (len(other), True, False),
        (0, False, False),
    ]
    assert photographs.look_at(surveyed.book, digest)
    (one,) = phone.ask("POST", "photographs", json={"digests": [digest]}).get_json()["photographs"]
    assert one["looked_at"]
    for wrong in ({"digests": [lacking] * 501}, {"digests": ["x"]}, {"digests": [7]}, {}):
        assert phone.ask("POST", "photographs", json=wrong).status_code == 400


def test_photograph_whose_pixels_are_damaged_is_asked_for_again_and_then_refused(
    phone: Phone, surveyed: Surveyed
) -> None:
    """It is acknowledged by its head, found wanting afterwards, and refused with a reason when it comes once more."""
    damaged = picture(400, 300)[:-200]
    digest = hashlib.sha256(damaged).hexdigest()
    assert phone.put(digest, damaged, 0, len(damaged)).get_json()["complete"]
    assert not photographs.look_at(surveyed.book, digest)
    (one,) = phone.ask("POST", "photographs", json={"digests": [digest]}).get_json()["photographs"]
    assert (one["received"], one["complete"]) == (0, False)
    refused = phone.put(digest, damaged, 0, len(damaged))
    assert (refused.status_code, refused.get_json()["error"]) == (422, "unsuitable-photograph")


@pytest.mark.parametrize(
    "headers", [{"Origin": "https://elsewhere.example"}, {"Sec-Fetch-Site": "cross-site"}, {"Origin": "null"}]
)
def test_post_from_a_page_of_another_site_is_refused(phone: Phone, surveyed: Surveyed, headers: dict[str, str]) -> None:
    """A page of another site gets nothing in, even with a token."""
    made = {"epoch": surveyed.book.fact("epoch"), "entries": []}
    answer = phone.ask("POST", "entries", json=made, headers=headers)
    assert (answer.status_code, answer.get_json()["error"]) == (403, "foreign-origin")


def test_request_under_a_name_that_is_not_this_books_is_refused(phone: Phone) -> None:
    """A name that someone else lets point here opens nothing (DNS rebinding)."""
    assert phone.ask("GET", "entries", headers={"Host": "elsewhere.example"}).status_code == 400


def test_answers_to_phones_are_kept_in_no_cache(phone: Phone, app: Flask) -> None:
    """Neither entries nor refusals lie about in the browser's cache."""
    for answer in (phone.send(), phone.ask("GET", "entries"), app.test_client().get("/phone/entries")):
        assert answer.headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize("near", [b"fitter's phone", b'"kind":"room"', b"SQLite format 3"])
def test_damaged_book_is_said_to_be_damaged(phone: Phone, surveyed: Surveyed, near: bytes) -> None:
    """Wherever the file is damaged, a phone is told so in words and to come again, and keeps what it has."""
    surveyed.book.close()  # all of it is in the one file now
    path, page = surveyed.book.folder / FILE, 4096
    content = path.read_bytes()
    start = content.index(near) // page * page
    path.write_bytes(content[:start] + b"\xff" * page + content[start + page :])
    answer = phone.ask("GET", "entries")
    assert (answer.status_code, answer.get_json()["error"]) == (503, "book-damaged")


def test_s18_what_was_taken_out_is_told_and_answered_no_more(phone: Phone, surveyed: Surveyed) -> None:
    """A phone learns from the first answer that something went, then which entries and files; no answer holds it."""
    made = {"face": surveyed.face, "mark": "K1", "name": "Old paint", "outline": [[0, 0], [9, 0], [9, 9]]}
    made |= {"forbids": ["contact"], "margin_mm": 5, "reason": "painted", "said_by": "A. Nother"}
    sent = entry(phone, "zone", uuid7(), made, base=3)
    phone.send(sent)
    client, header = phone.client, {"Authorization": f"Bearer {phone.token}"}
    assert client.get("/phone/hello").get_json()["taken_out"] == ""
    forgetting.take_out(surveyed.book, forgetting.places_of(surveyed.book, "A. Nother"))
    gone = client.get("/phone/taken-out", headers=header).get_json()
    assert gone["taken_out"] == client.get("/phone/hello").get_json()["taken_out"] != ""
    assert [(one["id"], one["revision"]) for one in gone["entries"]] == [(sent["id"], 4)]
    assert gone["entries"][0]["set"] == made | {"said_by": "taken out"}
    pulled = client.get("/phone/entries?since=0", headers=header)
    assert b"A. Nother" not in pulled.data
    assert phone.send(sent).get_json()["answers"][0]["status"] == "repeated"


def test_what_only_the_desk_can_answer_is_told_with_its_day(phone: Phone, surveyed: Surveyed) -> None:
    """What is over about a thing that stands, and the room of one made to be moved or to carry; nothing of a plan."""
    up = surveyed.fitting(state="fitted", mass_loaded_kg=4, carries_kg=9, x_mm=50, z_mm=50, phase="1")
    surveyed.fixing(up, state="fitted", x_mm=60, z_mm=60)
    other = surveyed.fitting(mark="D3", state="fitted", x_mm=700, z_mm=50, phase="1")
    later = surveyed.fitting(mark="D2", phase="2", covers=[up])
    surveyed.zone()
    said = phone.ask("GET", "answers").get_json()
    told = said["sites"][surveyed.site]
    assert (said["revision"], set(told["open"]), set(told["room"])) == (surveyed.book.revision(), {up, other}, {up})
    assert any("inside K1" in sentence for sentence in told["open"][up])
    assert set(told["room"][up]) == {"along_mm", "more_kg", "set_by"}
    assert [(one["name"], one["brings"]) for one in told["phases"]] == [("1", [up, other]), ("2", [later])]
    assert told["phases"][1]["meets"] == [[later, "covers", up]]
