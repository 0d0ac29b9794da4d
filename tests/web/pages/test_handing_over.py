"""What is taken away from the desk with one click: lists, drawings, diary, labels, sheets, the folder."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO

import ezdxf
import icalendar
import pytest
from lxml import etree
from pypdf import PdfReader

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_list_is_taken_as_csv(desk: Desk, surveyed: Surveyed) -> None:
    """Every field of every item of the kind; what looks like a formula is text to a spreadsheet."""
    zone = surveyed.zone(name="=cmd|' /C calc'!A0")
    page = f"/site/{surveyed.site}/all/zone"
    assert f'href="{page}.csv"' in desk.get(page).text
    answer = desk.get(f"{page}.csv")
    assert answer.mimetype == "text/csv"
    assert "Customs-shed-Keep-off-zones.csv" in answer.headers["Content-Disposition"]
    (row,) = csv.DictReader(StringIO(answer.text, newline=""), strict=True)
    assert (row["id"], row["name"]) == (zone, "'=cmd|' /C calc'!A0")


def test_drawings_are_taken_as_svg_and_dxf(desk: Desk, surveyed: Surveyed) -> None:
    """Of a face and of a room; hostile names are words in them and no path in the file's name."""
    surveyed.book.write("face", {"name": "../../&\"'"}, surveyed.face)
    surveyed.fitting(mark="%%c]]>", name="Rail")
    surveyed.book.write("room", {"plan": [[0, 0], [5000, 0], [5000, 4000], [0, 4000]]}, surveyed.room)
    for item, page in ((surveyed.face, "face"), (surveyed.room, "room")):
        shown = desk.get(f"/{page}/{item}").text
        for form, media_type in (("svg", "image/svg+xml"), ("dxf", "image/vnd.dxf")):
            address = f"/item/{item}/drawing.{form}"
            assert f'href="{address}"' in shown
            answer = desk.get(address)
            assert (answer.status_code, answer.mimetype) == (200, media_type)
            assert "/" not in answer.headers["Content-Disposition"]
            assert f"state {surveyed.book.revision()} of the book" in " ".join(answer.text.split())
            if form == "svg":
                assert etree.fromstring(answer.data).tag == "{http://www.w3.org/2000/svg}svg"
            else:
                assert not ezdxf.read(StringIO(answer.text)).audit().errors
    assert desk.get(f"/item/{surveyed.face}/drawing.pdf").status_code == 404
    assert desk.get(f"/item/{surveyed.site}/drawing.svg").status_code == 404


def test_diary_is_taken_from_the_page_of_the_site(desk: Desk, surveyed: Surveyed) -> None:
    """A calendar reads it."""
    task = surveyed.book.write("task", {"site": surveyed.site, "what": "Dust", "first_on": "2026-11-01"})
    address = f"/site/{surveyed.site}/diary.ics"
    assert f'href="{address}"' in desk.get(f"/site/{surveyed.site}").text
    (event,) = icalendar.Calendar.from_ical(desk.get(address).text).walk("VEVENT")
    assert str(event["UID"]) == task


@pytest.mark.slow
def test_labels_sheet_before_work_and_setting_out_sheet_are_printed_at_the_press_of_a_button(
    desk: Desk, surveyed: Surveyed
) -> None:
    """Each as PDF, the sheet on the paper asked for; a paper there is not is refused."""
    surveyed.fixing(surveyed.fitting())
    site, face = f"/site/{surveyed.site}", f"/face/{surveyed.face}"
    labels = desk.post(f"{site}/labels", page=site)
    assert "D1 Rail" in PdfReader(BytesIO(labels.data)).pages[0].extract_text()
    before = PdfReader(BytesIO(desk.post(f"{site}/before-work", page=site).data))
    assert len(before.pages) <= 2
    for words in ("Before work begins", "D1 Rail", "What stops the work", "whose number is not entered", "Keeper"):
        assert words in "".join(page.extract_text() for page in before.pages)
    sheet = desk.post(f"{face}/setting-out", {"paper": "A3", "stock_mm": "1 2"}, page=face)
    assert round(float(PdfReader(BytesIO(sheet.data)).pages[0].mediabox.width) / 72 * 25.4) == 420
    assert desk.post(f"{face}/setting-out", {"paper": "A2"}, page=face).status_code == 422
    assert desk.post(f"{face}/setting-out", {"stock_mm": "thick"}, page=face).status_code == 422


def test_folder_without_an_edition_leads_to_making_one(desk: Desk, surveyed: Surveyed) -> None:
    """Nothing is printed behind a button that does not say how far it is."""
    site = f"/site/{surveyed.site}"
    answer = desk.post(f"{site}/folder", page=site)
    assert (answer.status_code, answer.location) == (303, f"{site}/record")
    assert "make the record" in desk.get(f"{site}/record").text
