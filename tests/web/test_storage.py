"""A book that cannot be read or written while the desk is open: said in words, and nothing typed is lost."""

from __future__ import annotations

import shutil

import pytest
from flask import Flask

from fieldbook.book import storage
from fieldbook.book.book import FILE
from fieldbook.book.evidence import path_of
from fieldbook.book.photographs import keep
from fieldbook.web import create_app
from tests.findings.climate import hours, log_file
from tests.sites import Surveyed, picture
from tests.web.conftest import Desk, shown


@pytest.fixture
def app(surveyed: Surveyed) -> Flask:
    """Pages that do not wait long for a book in use."""
    return create_app(surveyed.book.folder, access="open", busy_seconds=0.1)


def test_form_sent_while_another_program_writes_comes_back_as_typed(surveyed: Surveyed, desk: Desk) -> None:
    """503, the reason on top, every entry kept; once the book is free it goes through."""
    page = f"/site/{surveyed.site}/new/room"
    typed = shown(desk.get(page).text) | {"name": "Store", "floor": "Flags, worn"}
    with surveyed.book.writing():
        answer = desk.client.post(page, data=typed)
    assert answer.status_code == 503
    assert "in use by another program" in answer.text
    again = shown(answer.text)
    assert (again["name"], again["floor"]) == ("Store", "Flags, worn")
    assert desk.client.post(page, data=again).status_code == 303


def test_full_disk_is_told_on_the_form(surveyed: Surveyed, desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """507, what to do, and every entry kept."""

    def full(*_: object, **__: object) -> str:
        raise storage.DiskFull("The disk is full.", "Make room.")

    page = f"/site/{surveyed.site}/new/room"
    typed = shown(desk.get(page).text) | {"name": "Store"}
    monkeypatch.setattr("fieldbook.book.book.Book.write", full)
    answer = desk.client.post(page, data=typed)
    assert (answer.status_code, shown(answer.text)["name"]) == (507, "Store")
    assert "Make room." in answer.text


@pytest.mark.parametrize("address", ["/", "/conflicts", "/site/{site}", "/face/{face}", "/item/{face}/change"])
def test_damaged_book_is_said_on_every_page(surveyed: Surveyed, desk: Desk, address: str) -> None:
    """503 and the way to the backup, not a trace."""
    address = address.format(site=surveyed.site, face=surveyed.face)
    surveyed.book.close()
    for leftover in surveyed.book.folder.glob(f"{FILE}-*"):
        leftover.unlink()
    file = surveyed.book.folder / FILE
    file.write_bytes(b"no database" + file.read_bytes()[11:])
    answer = desk.client.get(address)
    assert answer.status_code == 503
    assert "Traceback" not in answer.text


def test_book_that_was_moved_away_is_said(surveyed: Surveyed, desk: Desk) -> None:
    """The folder is gone under the server."""
    surveyed.book.close()
    shutil.move(surveyed.book.folder, surveyed.book.folder.with_name("elsewhere"))
    answer = desk.client.get("/")
    assert answer.status_code == 503
    assert "There is no book" in answer.text


def test_photograph_whose_original_is_gone_is_not_found(surveyed: Surveyed, desk: Desk) -> None:
    """The page stands without it."""
    digest = "0" * 64
    values = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum", "sha256": digest}
    surveyed.book.write("photograph", values)
    assert desk.get(f"/face/{surveyed.face}").status_code == 200
    assert 400 <= desk.get(f"/photographs/{digest}/320.jpg").status_code < 500


def test_folder_where_a_file_should_be_is_said_and_no_failure(surveyed: Surveyed, desk: Desk) -> None:
    """503 and the reason for the picture; the pages that reckon with a logger's file say that it cannot be read."""
    kept = keep(surveyed.book, picture())
    logged = log_file(surveyed, hours("2026-01-01T00:00:00+00:00", 48))
    files = {"photograph": kept.sha256, "log": surveyed.book.item(logged)[1]["sha256"]}
    for kind, sha256 in files.items():
        path = path_of(surveyed.book.folder, kind, sha256)
        path.unlink()
        path.mkdir()
    answer = desk.client.get(f"/photographs/{kept.sha256}/original")
    assert (answer.status_code, "Is a directory" in answer.text) == (503, True)
    assert desk.get(f"/room/{surveyed.room}").status_code == 200
    assert desk.get(f"/site/{surveyed.site}/findings").status_code == 200
