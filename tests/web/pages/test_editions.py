"""Making the record at the desk."""

from __future__ import annotations

import re
import shutil
import time
from html import unescape
from io import BytesIO

import pytest
from flask import Flask
from pypdf import PdfReader

from fieldbook.record.printing import Printer
from tests.sites import Surveyed
from tests.web.conftest import Desk

pytestmark = pytest.mark.slow

PATIENCE_S = 600


def made(desk: Desk, surveyed: Surveyed, **asked: str) -> str:
    """Make a record and wait until it is there; the last page shown."""
    page = f"/site/{surveyed.site}/record"
    answer = desk.post(page, asked)
    assert answer.status_code == 303
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        shown = desk.get(answer.location).text
        if 'http-equiv="refresh"' not in shown:
            return shown
        time.sleep(0.2)
    raise AssertionError("the record was not made in time")


def test_record_is_made_in_the_background_and_can_be_opened(surveyed: Surveyed, desk: Desk) -> None:
    """The page says how far it is, then leads to the PDF; the list keeps the edition, though its file be lost."""
    surveyed.fixing(surveyed.fitting())
    page = made(desk, surveyed)
    link = re.search(r'href="([^"]+\.pdf)"', page)
    assert link, page
    pdf = desk.get(link[1])
    assert pdf.mimetype == "application/pdf"
    assert "D1.1" in "".join(sheet.extract_text() for sheet in PdfReader(BytesIO(pdf.data)).pages)
    assert link[1] in desk.get(f"/site/{surveyed.site}/record").text
    shutil.rmtree(surveyed.book.folder / "records")
    assert "made elsewhere" in desk.get(f"/site/{surveyed.site}/record").text


def test_costs_are_in_it_only_when_asked_for(app: Flask, desk: Desk, surveyed: Surveyed) -> None:
    """Two presses make one record; one with costs is another, of the same edition, and has the money in it."""
    cost = {"site": surveyed.site, "what": "Ash from the yard", "sort": "material", "amount": 12, "currency": "EUR"}
    surveyed.book.write("cost", cost | {"state": "paid"})
    printer: Printer = app.extensions["printer"]
    first, second = (printer.start(surveyed.site, costs=False) for _ in range(2))
    other = printer.start(surveyed.site, costs=True)
    assert (first.id == second.id, first.id == other.id) == (True, False)
    for printing in (first, other):
        printing.thread.join(PATIENCE_S)
        assert printing.error is None
    page = desk.get(f"/site/{surveyed.site}/record").text
    texts = []
    for link in re.findall(r'href="([^"]+\.pdf[^"]*)"', page):
        pdf = desk.get(unescape(link))
        texts.append("".join(sheet.extract_text() for sheet in PdfReader(BytesIO(pdf.data)).pages))
    assert ["Ash from the yard" in text for text in texts] == [False, True]


def test_record_that_cannot_be_made_says_why(app: Flask, surveyed: Surveyed, desk: Desk) -> None:
    """The reason and the remedy stand on the page, and the desk goes on."""
    folder = surveyed.book.folder / "records"
    folder.write_text("in the way")
    page = made(desk, surveyed)
    assert "No record was made" in page
    assert desk.get("/").status_code == 200


def test_printing_nobody_knows_leads_back_to_the_list(surveyed: Surveyed, desk: Desk) -> None:
    """After the server was started again, the address of a printing is of no use but does no harm."""
    answer = desk.get(f"/site/{surveyed.site}/record/making/{surveyed.face}")
    assert (answer.status_code, answer.location) == (303, f"/site/{surveyed.site}/record")


@pytest.mark.parametrize("address", ["1.pdf", "99999999999999999999.pdf", "1.pdf?costs=yes", "x.pdf"])
def test_edition_that_is_not_here_is_not_found(surveyed: Surveyed, desk: Desk, address: str) -> None:
    """Only what was made can be opened."""
    assert desk.get(f"/site/{surveyed.site}/record/{address}").status_code == 404
