"""Logger files at the desk."""

from __future__ import annotations

import hashlib
from io import BytesIO

import pytest
from werkzeug.test import TestResponse

from fieldbook.book import evidence
from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown

FILE = (
    "Station 4\r\nZeit;rF %;T °C\r\n" + "".join(f"{day:02}.05.2026 10:00;5{day % 10},5;18\r\n" for day in range(1, 12))
).encode("cp1252")
COLUMNS = {"time_column": "Zeit", "humidity_column": "rF %", "temperature_column": "T °C", "date_order": "day first"}


def send(desk: Desk, surveyed: Surveyed, content: bytes = FILE, **typed: str) -> TestResponse:
    """Add a logger's file to the room."""
    page = f"/site/{surveyed.site}/logger-files/new?room={surveyed.room}"
    sent = shown(desk.get(page).text) | {"name": "By the door"} | COLUMNS | typed
    return desk.post(page, sent | {"files": [(BytesIO(content), "log.csv")]})


def test_file_is_kept_as_it_came_and_plotted_in_its_room(surveyed: Surveyed, desk: Desk) -> None:
    """Any delimiter, code page and headings; the bytes are untouched and the room shows them."""
    assert send(desk, surveyed).status_code == 303
    (log,) = surveyed.book.items("log")
    assert log["sha256"] == hashlib.sha256(FILE).hexdigest()
    assert evidence.path_of(surveyed.book.folder, "log", log["sha256"]).read_bytes() == FILE
    assert "By the door" in desk.get(f"/room/{surveyed.room}").text


def test_what_a_file_says_is_seen_before_it_is_taken(surveyed: Surveyed, desk: Desk) -> None:
    """How many readings, from when to when, and a plot; or why it cannot be read. Nothing is kept."""
    before = surveyed.book.revision()
    answer = send(desk, surveyed, show="yes")
    assert answer.status_code == 200 and "<dd>11</dd>" in answer.text and "<svg" in answer.text
    words = answer.text.replace("\xa0", " ")
    assert "1 May 2026" in words and "11 May 2026" in words
    wrong = send(desk, surveyed, FILE.replace(b"51,5", b"dry"), show="yes")
    assert wrong.status_code == 200 and "<dd>11</dd>" not in wrong.text and "dry" in wrong.text
    assert shown(wrong.text)["name"] == "By the door"
    assert surveyed.book.revision() == before
    assert not (surveyed.book.folder / "logs").exists()


@pytest.mark.parametrize(
    ("content", "typed", "field"),
    [
        (b"", {}, "files"),
        (b"\x00\x01\x02", {}, "files"),
        (FILE, {"humidity_column": "humidity"}, "files"),
        (FILE.replace(b"51,5", b"dry"), {}, "files"),
        (FILE, {"time_column": ""}, "time_column"),
    ],
)
def test_file_that_cannot_be_read_is_refused_and_not_kept(
    surveyed: Surveyed, desk: Desk, content: bytes, typed: dict[str, str], field: str
) -> None:
    """The reason stands beside the input; what was typed stays; no file is left over."""
    answer = send(desk, surveyed, content, **typed)
    assert (answer.status_code, list(messages(answer))) == (422, [field])
    assert shown(answer.text)["name"] == "By the door"
    assert surveyed.book.items("log") == []
    assert not (surveyed.book.folder / "logs").exists()


def test_new_logger_file_is_asked_for_with_its_file(surveyed: Surveyed, desk: Desk) -> None:
    """The form of the kind alone would have no file."""
    answer = desk.get(f"/site/{surveyed.site}/new/log?room={surveyed.room}&endpoint=x")
    assert answer.location == f"/site/{surveyed.site}/logger-files/new?room={surveyed.room}"


def test_pasted_table_is_kept_where_no_file_is_chosen(surveyed: Surveyed, desk: Desk) -> None:
    """As a spreadsheet copies it; shown first, and given back with the form when something in it is wrong."""
    table = "\twhen\trh\r\n" + "".join(f"{day}\t2026-05-{day:02} 10:00\t{50 + day}\r\n" for day in range(1, 12))
    page = f"/site/{surveyed.site}/logger-files/new?room={surveyed.room}"
    typed = shown(desk.get(page).text) | {"name": "By the door", "time_column": "when", "humidity_column": "rh"}

    def sent(**more: str) -> TestResponse:
        return desk.post(page, typed | {"files": [(BytesIO(b""), "")]} | more)

    look = sent(pasted=table, show="yes")
    assert "<dd>11</dd>" in look.text and "<svg" in look.text
    wrong = sent(pasted=table.replace("\t51", "\tdry"))
    assert wrong.status_code == 422 and "dry" in messages(wrong)["files"] and "\tdry" in wrong.text
    assert sent(pasted=table).status_code == 303
    (log,) = surveyed.book.items("log")
    assert evidence.path_of(surveyed.book.folder, "log", log["sha256"]).read_bytes() == table.strip("\r\n").encode()
