"""A visit carried in a file, out and back."""

from __future__ import annotations

import base64
import hashlib
import json
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from fieldbook.book.accepting import Status
from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import original
from fieldbook.errors import FieldbookError, UnknownItem
from fieldbook.phones import carried_files, codes, devices
from fieldbook.phones.carried_files import UnsuitableFile
from fieldbook.phones.devices import ShutOut
from tests.examples import examples
from tests.sites import Surveyed, picture, survey, two_in_one

AT = "2026-05-31T14:30:00+01:00"
PICTURE = picture(1200, 900)
DIGEST = hashlib.sha256(PICTURE).hexdigest()


@pytest.fixture
def device(surveyed: Surveyed) -> str:
    """The id of a phone that has joined."""
    return devices.join(surveyed.book, codes.new_join_code(surveyed.book), "fitter's phone").device


def entry(device: str, item: str, values: dict[str, Any], base: int = 0, kind: str = "room") -> dict[str, Any]:
    """An entry as a phone makes it."""
    return {"id": uuid7(), "device": device, "at": AT, "kind": kind, "item": item, "base": base, "set": values}


def header(book: Book, device: str, **more: Any) -> dict[str, Any]:
    """The first line of a phone's file."""
    about = {"fieldbook": 1, "book": book.fact("book"), "epoch": book.fact("epoch")}
    return about | {"device": device, "way": "back", "made_at": AT} | more


def photograph(content: bytes = PICTURE, sha256: str = DIGEST) -> dict[str, Any]:
    """A photograph's line."""
    return {"photograph": sha256, "media_type": "image/jpeg", "base64": base64.b64encode(content).decode()}


def written(*lines: Any, end: Any = None) -> BytesIO:
    """A file of these lines, with its end."""
    whole = [*lines, {"end": len(lines) if end is None else end}]
    return BytesIO(b"".join(json.dumps(line).encode() + b"\n" for line in whole))


def test_s13_file_back_has_the_effect_of_sync(surveyed: Surveyed, device: str) -> None:
    """Entries and photographs of a file are in the book as if they had been sent."""
    book = surveyed.book
    made = entry(device, surveyed.room, {"use": "weighing"}, 3)
    answers = carried_files.take_back(book, written(header(book, device), {"entry": made}, photograph()))
    assert [(answer.id, answer.status) for answer in answers] == [(DIGEST, "accepted"), (made["id"], "accepted")]
    assert book.item(surveyed.room)[1]["use"] == "weighing"
    assert original(book, DIGEST).read_bytes() == PICTURE


def test_s13_file_taken_twice_or_beside_sync_has_the_effect_of_once(surveyed: Surveyed, device: str) -> None:
    """What has come by any way is answered as repeated."""
    book = surveyed.book
    first, second = (entry(device, surveyed.room, {"use": use}, 3) for use in ("weighing", "storage"))
    book.append([first], device)
    for expected in (["accepted", "repeated", "accepted"], ["repeated"] * 3):
        file = written(header(book, device), {"entry": first}, photograph(), {"entry": second})
        assert [answer.status for answer in carried_files.take_back(book, file)] == expected
    assert book.revision() == 5


def test_s6_refused_entry_of_a_file_goes_back_with_its_reason_in_the_next_one(surveyed: Surveyed, device: str) -> None:
    """A phone that cannot be reached learns what was refused, and why, from the file it is given."""
    book = surveyed.book
    bad = entry(device, surveyed.room, {"ceiling_mm": -1}, 3)
    spoilt = photograph(PICTURE[:-1])
    answers = carried_files.take_back(book, written(header(book, device), {"entry": bad}, spoilt))
    assert [answer.status for answer in answers] == [Status.REFUSED] * 2
    file = BytesIO()
    carried_files.write_out(book, device, file)
    given = [line["answer"] for line in map(json.loads, file.getvalue().splitlines()) if "answer" in line]
    assert [(one["id"], one["findings"][0]["error"]) for one in given] == [
        (DIGEST, "digest-differs"),
        (bad["id"], "out-of-range"),
    ]


def test_file_out_holds_every_entry_in_order_and_a_copy_of_each_photograph(surveyed: Surveyed, device: str) -> None:
    """A phone can go on from the file alone, as if it had pulled, and sees the photographs small."""
    book = surveyed.book
    kept = {"site": surveyed.site, "subject": surveyed.face, "purpose": "as found", "sha256": DIGEST}
    carried_files.take_back(book, written(header(book, device), photograph()))
    book.write("photograph", kept)
    book.write("photograph", kept | {"sha256": "0" * 64})
    file = BytesIO()
    number = carried_files.write_out(book, device, file)
    lines = [json.loads(line) for line in file.getvalue().splitlines()]
    assert len(lines) == number
    assert lines[0] | {"way": "out"} == lines[0]
    assert lines[-1] == {"end": number - 1}
    assert [line["entry"]["revision"] for line in lines if "entry" in line] == list(range(1, book.revision() + 1))
    ((copied, content),) = [(line["copy"], line["base64"]) for line in lines if "copy" in line]
    with Image.open(BytesIO(base64.b64decode(content))) as copy:
        assert (copied, copy.size) == (DIGEST, (800, 600))


def test_s10_file_of_a_former_epoch_has_its_bases_lowered(surveyed: Surveyed, device: str) -> None:
    """What was made having seen changes that a restoration lost cannot hide a conflict with what came since."""
    book, former = surveyed.book, surveyed.book.fact("epoch")
    made = entry(device, surveyed.room, {"use": "weighing"}, 9)
    with book.writing():
        book.begin_epoch()
    book.write("room", {"use": "storage"}, surveyed.room)
    (answer,) = carried_files.take_back(book, written(header(book, device, epoch=former), {"entry": made}))
    assert answer.status is Status.ACCEPTED
    assert book.history(surveyed.room)[-1]["base"] == 3
    assert len(book.conflicts()) == 1


def test_entry_of_another_device_in_a_file_is_refused(surveyed: Surveyed, device: str) -> None:
    """A phone's file speaks for that phone alone."""
    made = entry("desk", surveyed.room, {"use": "weighing"}, 3)
    (answer,) = carried_files.take_back(surveyed.book, written(header(surveyed.book, device), {"entry": made}))
    assert answer.findings[0].code == "other-device"


def test_s12_file_of_a_shut_out_or_unknown_phone_is_refused(surveyed: Surveyed, device: str) -> None:
    """A lost phone gets nothing in by a file either, nor one that never joined."""
    book = surveyed.book
    with pytest.raises(UnknownItem):
        carried_files.take_back(book, written(header(book, uuid7())))
    devices.shut_out(book, device)
    with pytest.raises(ShutOut):
        carried_files.take_back(book, written(header(book, device)))
    with pytest.raises(ShutOut):
        carried_files.write_out(book, device, BytesIO())


def unsuitable(book: Book, device: str, item: str) -> dict[str, BytesIO]:
    """Files that are not whole, or none of a phone's, each with one good entry in them."""
    top, good = header(book, device), {"entry": entry(device, item, {"use": "weighing"}, 3)}
    whole = written(top, good).getvalue()
    return {
        "empty": BytesIO(),
        "without its end": BytesIO(whole[: whole.rindex(b'{"end"')]),
        "cut within a line": BytesIO(whole[: len(whole) // 2]),
        "with a line too few": written(top, good, end=3),
        "with a line too many": written(top, good, end=1),
        "with an end that is no number": written(top, good, end="2"),
        "with an end that is true": written(top, end=True),
        "longer than its end": BytesIO(whole + whole),
        "of another book": written(header(book, device) | {"book": uuid7()}, good),
        "on its way out": written(header(book, device, way="out"), good),
        "of another protocol": written(header(book, device, fieldbook=2), good),
        "without a device": written(header(book, device) | {"device": None}, good),
        "without a header": written(good),
        "with a strange line": written(top, good, {"delete": "all"}),
        "with a line of two things": written(top, good | photograph()),
        "with a line that is no object": written(top, good, []),
        "with a line that is no JSON": BytesIO(whole.replace(b"weighing", b'wei"ghing')),
        "with a line nested without end": BytesIO(whole + b"[" * 100_000),
        "with an entry of megabytes": written(top, {"entry": "x" * (2 << 20)}),
        "no text": BytesIO(b"\xff\xfe\x00"),
    }


def test_file_that_is_not_whole_is_refused_whole(surveyed: Surveyed, device: str) -> None:
    """Nothing is taken from a file of which not everything is there, however good its lines are."""
    for case, file in unsuitable(surveyed.book, device, surveyed.room).items():
        with pytest.raises(UnsuitableFile) as refusal:
            carried_files.take_back(surveyed.book, file)
        assert refusal.value.field == "file", case
        assert surveyed.book.revision() == 3, case


@examples(60)
@given(st.integers(0, 10_000), st.integers(0, 255))
def test_flipped_byte_in_a_file_is_refused_or_harmless(
    tmp_path_factory: pytest.TempPathFactory, place: int, value: int
) -> None:
    """Damage to any byte refuses the file or one entry in words; it never raises anything else."""
    with create_book(tmp_path_factory.mktemp("book") / "b") as book:
        site = survey(book)
        device = devices.join(book, codes.new_join_code(book), "phone").device
        small = picture(8, 8)
        lines = [{"entry": entry(device, site.room, {"use": "weighing"}, 3)}]
        lines += [photograph(small, hashlib.sha256(small).hexdigest())]
        content = bytearray(written(header(book, device), *lines).getvalue())
        content[place % len(content)] = value
        try:
            answers = carried_files.take_back(book, BytesIO(content))
        except FieldbookError as error:
            assert error.remedy
        else:
            assert len(answers) == 2


def test_visit_in_several_files_is_answered_for_all_of_them(surveyed: Surveyed, device: str) -> None:
    """What a phone wrote in parts is taken part by part, and the next file out tells what became of each."""
    book = surveyed.book
    bad = entry(device, surveyed.room, {"ceiling_mm": -1}, 3)
    carried_files.take_back(book, written(header(book, device), {"entry": bad}))
    carried_files.take_back(book, written(header(book, device), photograph(), photograph(b"none", "0" * 64)))
    file = BytesIO()
    carried_files.write_out(book, device, file)
    given = [line["answer"] for line in map(json.loads, file.getvalue().splitlines()) if "answer" in line]
    expected = [(bad["id"], "refused"), (DIGEST, "accepted"), ("0" * 64, "refused")]
    assert [(one["id"], one["status"]) for one in given] == expected


def test_photograph_that_cannot_be_read_stops_nothing_else_in_a_file(surveyed: Surveyed, device: str) -> None:
    """Three bad ones are each answered, what is good goes in, and the next file out is whole."""
    book = surveyed.book
    content = two_in_one(400, 300)
    bad = [photograph(made, hashlib.sha256(made).hexdigest()) for made in (b"GIF89a", PICTURE[:300], b"\xff\xd8\xff")]
    digest = hashlib.sha256(content).hexdigest()
    answers = carried_files.take_back(book, written(header(book, device), *bad, photograph(content, digest)))
    assert [answer.status for answer in answers] == ["refused"] * 3 + ["accepted"]
    book.write("photograph", {"site": surveyed.site, "subject": surveyed.face, "purpose": "as found", "sha256": digest})
    file = BytesIO()
    carried_files.write_out(book, device, file)
    copies = [line["copy"] for line in map(json.loads, file.getvalue().splitlines()) if "copy" in line]
    assert copies == [digest]
