"""Photographs at the desk: taken in, shown upright and small, handed out as they came."""

from __future__ import annotations

import hashlib
import json
import re
import struct
import zlib
from html import unescape
from io import BytesIO

import pytest
from PIL import Image

from tests.sites import Surveyed, noted, picture
from tests.web.conftest import Desk, messages, shown


def bomb() -> bytes:
    """A small PNG that says it unfolds to 20,000 by 20,000 pixels."""

    def chunk(name: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))

    head = struct.pack(">IIBBBBB", 20_000, 20_000, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")
    )


def lying() -> bytes:
    """A photograph taken with the camera on its side: 64 by 48, to be turned to 48 by 64."""
    exif = Image.Exif()
    exif[0x0112] = 6
    return picture(exif=exif)


BAD = {
    "cut": picture(800, 600)[:4000],
    "text": b"not a picture",
    "empty": b"",
    "bomb": bomb(),
    "svg": b"<svg xmlns=''/>",
}


def send(desk: Desk, surveyed: Surveyed, *files: tuple[str, bytes], **typed: str | list[str]):
    """Add files to the face."""
    page = f"/site/{surveyed.site}/photographs/new?subject={surveyed.face}"
    sent = shown(desk.get(page).text) | {"purpose": "as found"} | typed
    return desk.post(page, sent | {"files": [(BytesIO(content), name) for name, content in files]})


def test_each_is_entered_under_what_is_said_of_it_alone(surveyed: Surveyed, desk: Desk) -> None:
    """An empty line says what the form says; what the form needs may be said in every line instead."""
    files = [("a.jpg", picture()), ("b.jpg", picture(65, 48)), ("c.jpg", picture(66, 48))]
    own = {
        "each-subject": ["", surveyed.room, ""],
        "each-purpose": ["datum", "", ""],
        "each-caption": ["Stud", "", "Sill"],
    }
    own |= {"each-x_mm": ["", "", "310,5"], "each-z_mm": ["", "", "900"]}
    assert send(desk, surveyed, *files, caption="North", **own).status_code == 303
    told = [(one["subject"], one["purpose"], one["caption"]) for one in surveyed.book.items("photograph")]
    assert told == [
        (surveyed.face, "datum", "Stud"),
        (surveyed.room, "as found", "North"),
        (surveyed.face, "as found", "Sill"),
    ]
    assert [(one["x_mm"], one["z_mm"]) for one in surveyed.book.items("photograph")[1:]] == [(None, None), (310.5, 900)]
    own = {"each-subject": [surveyed.room], "each-purpose": ["receipt"], "each-caption": [""]}
    answer = send(desk, surveyed, ("d.jpg", picture(67, 48)), subject="", purpose="", **own)
    assert answer.status_code == 303, messages(answer)
    assert surveyed.book.items("photograph")[-1]["purpose"] == "receipt"


def test_what_is_said_of_each_stays_for_those_that_are_sent_again(surveyed: Surveyed, desk: Desk) -> None:
    """A word that the purposes do not have is told with its file; lines that fit no files are told."""
    files = [("a.jpg", picture()), ("b.jpg", picture(65, 48))]
    own = {"each-subject": ["", ""], "each-purpose": ["", "keepsake"], "each-caption": ["Stud", "Sill"]}
    answer = send(desk, surveyed, *files, **own)
    assert answer.status_code == 422
    assert messages(answer)["files"].startswith("b.jpg: Purpose")
    assert "a.jpg" not in messages(answer)["files"]
    assert [one["caption"] for one in surveyed.book.items("photograph")] == ["Stud"]
    kept = re.search(r'data-said="([^"]*)"', answer.text)
    assert kept
    said = json.loads(unescape(kept[1]))
    assert said.keys() == {"b.jpg"}
    assert [line["caption"] for line in said["b.jpg"]] == ["Sill"]
    answer = send(desk, surveyed, *files, **(own | {"each-caption": ["", "", "Reveal"]}))
    assert "came with" in messages(answer)["files"]
    assert len(surveyed.book.items("photograph")) == 1


def test_several_are_taken_and_stand_on_the_page_of_their_subject(surveyed: Surveyed, desk: Desk) -> None:
    """Two files, two entries, with what the files themselves tell."""
    answer = send(desk, surveyed, ("a.jpg", picture()), ("b.png", picture(32, 32, "PNG")), caption="The datum")
    assert answer.status_code == 303
    first, second = surveyed.book.items("photograph")
    assert (first["media_type"], first["width_px"], second["media_type"]) == ("image/jpeg", 64, "image/png")
    assert first["sha256"] == hashlib.sha256(picture()).hexdigest()
    page = desk.get(f"/face/{surveyed.face}").text
    assert page.count("<img") == 2
    assert "<bdi>The datum</bdi>" in page


def test_each_was_taken_when_its_camera_says_unless_somebody_says_otherwise(surveyed: Surveyed, desk: Desk) -> None:
    """Nobody types for each picture what stands in its file."""
    morning, later = (
        picture(size, exif=noted(f"2026:02:11 {at}:00", "+00:00")) for size, at in ((40, "09:41"), (50, "11:05"))
    )
    send(desk, surveyed, ("a.jpg", morning), ("b.jpg", later), ("c.jpg", picture(60)))
    send(
        desk,
        surveyed,
        ("d.jpg", picture(70, exif=noted("2019:01:01 00:00:00", "+00:00"))),
        taken_at="2026-03-19T14:30+00:00",
    )
    taken = [one["taken_at"] for one in surveyed.book.items("photograph")]
    assert taken == ["2026-02-11T09:41:00+00:00", "2026-02-11T11:05:00+00:00", None, "2026-03-19T14:30:00+00:00"]


@pytest.mark.parametrize("name", BAD)
def test_bad_file_is_refused_by_name_and_good_ones_are_kept(surveyed: Surveyed, desk: Desk, name: str) -> None:
    """One bad file among good ones costs nobody the good ones."""
    answer = send(desk, surveyed, ("good.jpg", picture()), (f"{name}.jpg", BAD[name]))
    assert answer.status_code == 422
    assert f"{name}.jpg:" in messages(answer)["files"]
    assert len(surveyed.book.items("photograph")) == 1
    kept = [path for path in (surveyed.book.folder / "photographs").rglob("*") if path.is_file()]
    assert len(kept) == 1


def test_form_with_a_slip_takes_no_file_and_keeps_what_was_typed(surveyed: Surveyed, desk: Desk) -> None:
    """The files have to be chosen again, the words do not."""
    answer = send(desk, surveyed, ("a.jpg", picture()), caption="Above the door", taken_at="noon")
    assert (answer.status_code, shown(answer.text)["caption"]) == (422, "Above the door")
    assert surveyed.book.items("photograph") == []


def test_no_file_is_said(surveyed: Surveyed, desk: Desk) -> None:
    """An empty choice is told beside the input."""
    assert "files" in messages(send(desk, surveyed))


def test_name_of_a_file_is_shown_and_never_used(surveyed: Surveyed, desk: Desk) -> None:
    """A hostile name is text on the page and no path."""
    answer = send(desk, surveyed, ("../<b>x\u202e.jpg", b"none"))
    assert "<b>x" not in answer.text
    assert [path for path in surveyed.book.folder.parent.iterdir() if path.name != "book"] == []


def test_copy_is_upright_small_without_notes_and_cached_for_good(surveyed: Surveyed, desk: Desk) -> None:
    """What is shown stands upright; the original is untouched."""
    send(desk, surveyed, ("a.jpg", lying()))
    (photograph,) = surveyed.book.items("photograph")
    answer = desk.get(f"/photographs/{photograph['sha256']}/320.jpg")
    with Image.open(BytesIO(answer.data)) as image:
        assert image.size == (48, 64)
        assert not image.getexif()
    assert "immutable" in answer.headers["Cache-Control"]
    original = desk.get(f"/photographs/{photograph['sha256']}/original")
    assert original.data == lying()
    assert original.headers["Content-Disposition"].startswith("attachment")


@pytest.mark.parametrize("address", ["319.jpg", "99999.jpg", "320.png", "original"])
def test_unknown_photographs_and_sizes_are_not_there(desk: Desk, address: str) -> None:
    """Only the sizes the pages use are made, so that nobody can fill the disk with copies."""
    assert desk.get(f"/photographs/{'0' * 64}/{address}").status_code == 404


def test_caption_can_be_changed_and_the_file_cannot(surveyed: Surveyed, desk: Desk) -> None:
    """What was photographed may be said better; the digest stays."""
    send(desk, surveyed, ("a.jpg", picture()))
    (photograph,) = surveyed.book.items("photograph")
    desk.changed(photograph["id"], caption="North wall", sha256="0" * 64)
    (after,) = surveyed.book.items("photograph")
    assert (after["caption"], after["sha256"]) == ("North wall", photograph["sha256"])
