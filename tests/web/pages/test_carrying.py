"""Files for phones at the desk: made, and taken back."""

from __future__ import annotations

import errno
import json
from io import BytesIO
from typing import IO

import pytest
from flask.testing import FlaskClient

from fieldbook.book.book import Book
from fieldbook.book.identity import uuid7
from fieldbook.phones import carried_files, codes, devices
from fieldbook.web import create_app
from tests.sites import Surveyed


@pytest.fixture
def phone(surveyed: Surveyed) -> str:
    """The id of a phone that has joined."""
    return devices.join(surveyed.book, codes.new_join_code(surveyed.book), "fitter's phone").device


@pytest.fixture
def browser(surveyed: Surveyed) -> FlaskClient:
    """A browser at an open desk."""
    return create_app(surveyed.book.folder, access="open", wtf_csrf_enabled=False).test_client()


def test_file_for_a_phone_is_downloaded_whole(surveyed: Surveyed, browser: FlaskClient, phone: str) -> None:
    """The file holds the book's entries from its first line to its end."""
    answer = browser.post(f"/phones/{phone}/file")
    lines = [json.loads(line) for line in answer.data.splitlines()]
    assert answer.headers["Content-Disposition"].endswith(".fieldbook.jsonl")
    assert [len(lines) - 1, 3] == [lines[-1]["end"], sum("entry" in line for line in lines)]
    answer.close()
    assert browser.post(f"/phones/{uuid7()}/file").status_code == 404


def test_full_disk_while_a_file_for_a_phone_is_written_is_said(
    browser: FlaskClient, phone: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No room for the file is told as such, and the half of it that was written is gone."""

    def fill(book: Book, device: str, file: IO[bytes]) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(carried_files, "write_out", fill)
    answer = browser.post(f"/phones/{phone}/file", headers={"Accept": "application/json"})
    assert (answer.status_code, answer.get_json()["error"]) == (507, "disk-full")


def test_file_taken_back_says_what_became_of_everything(surveyed: Surveyed, browser: FlaskClient, phone: str) -> None:
    """What came in is counted; what was refused is shown with its reason."""
    top = {"fieldbook": 1, "book": surveyed.book.fact("book"), "epoch": surveyed.book.fact("epoch"), "device": phone}
    made = {"device": phone, "at": "2026-05-31T14:30:00+01:00", "kind": "room", "item": surveyed.room, "base": 3}
    changes = ({"use": "weighing"}, {"ceiling_mm": -5})
    lines = [
        top | {"way": "back"},
        *({"entry": made | {"id": uuid7(), "set": change}} for change in changes),
        {"end": 3},
    ]
    file = BytesIO("\n".join(map(json.dumps, lines)).encode())
    page = browser.post("/phones/back", data={"file": (file, "visit.fieldbook.jsonl")}).text
    assert "1 came in now" in page
    assert "1 were refused" in page
    assert "Ceiling height is -5 mm" in page
    assert surveyed.book.item(surveyed.room)[1]["use"] == "weighing"


@pytest.mark.parametrize("content", [b"", b"no file of a phone's", b"{}\n"])
def test_file_that_is_none_is_refused_in_words(browser: FlaskClient, content: bytes) -> None:
    """Whatever is chosen by mistake is said to be none, and nothing is taken."""
    answer = browser.post("/phones/back", data={"file": (BytesIO(content), "x.jsonl")})
    assert answer.status_code == 422
    assert browser.post("/phones/back", data={}).status_code == 422
