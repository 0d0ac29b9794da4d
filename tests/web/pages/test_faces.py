"""The page of a face: its booking, and the answer for any point."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import appraise
from fieldbook.model.choices import FORBIDDEN
from fieldbook.web.shown.booking import booking_of
from fieldbook.web.shown.drawings import drawing_of
from tests.sites import Surveyed
from tests.web.conftest import Desk

JSON = {"Accept": "application/json"}


def test_booking_runs_along_the_face_with_plan_left_and_finding_right(surveyed: Surveyed) -> None:
    """Every thing once, in the order one meets it; deviations of what was fitted are told, rounded up."""
    surveyed.zone()
    fitting = surveyed.fitting()
    surveyed.fixing(fitting, x_mm=1800, mark="D1.2")
    # A 3-4-5 triangle: fitted 3 mm to the right and 4 mm lower than planned.
    surveyed.fixing(fitting, state="fitted", fitted_on="2026-05-03", fitted_x_mm=1103, fitted_z_mm=1536)
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1500, "z_mm": 2000, "may_be_used": "yes"}
    surveyed.book.write("hold", hold)
    site = gather(surveyed.book, surveyed.site)
    lines = booking_of(site, site[surveyed.face])
    assert [line.item.called for line in lines] == ["K1", "D1", "D1.1", "H1", "D1.2"]
    assert [line.x_mm for line in lines] == [0, 1000, 1100, 1500, 1800]
    fitted = lines[2]
    assert "5\u00a0mm off the plan" in fitted.found
    assert fitted.found.startswith("fitted 3")
    assert (lines[3].planned, lines[4].found) == ("", "not yet")


def test_every_thing_on_the_drawing_has_its_line_and_the_other_way_round(surveyed: Surveyed, desk: Desk) -> None:
    """A tap on either finds the other."""
    surveyed.zone()
    surveyed.limit()
    surveyed.fixing(surveyed.fitting())
    page = desk.get(f"/face/{surveyed.face}").text
    drawing, _, rest = page.partition("</svg>")
    drawn = set(re.findall(r'data-item="([^"]+)"', drawing))
    booked = set(re.findall(r'<tr[^>]*data-item="([^"]+)"', page))
    assert drawn == booked
    assert len(drawn) == 4
    assert rest


def test_answer_names_what_forbids_and_how_deep_it_may_stand(surveyed: Surveyed, desk: Desk) -> None:
    """Inside a zone 20 mm of margin is kept: at x = 115 the edge of a 10 mm foot is 5 mm from it."""
    surveyed.zone(forbids=["drilling", "contact"], said_by="the conservator")
    surveyed.limit(margin_mm=0)
    said = desk.get(f"/face/{surveyed.face}/answer?x_mm=115&z_mm=50&radius_mm=10", headers=JSON).json
    assert [said[act]["answer"] for act in FORBIDDEN] == ["no", "no", *["not known"] * 4]
    assert said["contact"]["nearest_mm"] == 5
    assert "said by the conservator" in said["contact"]["why"]


def test_answer_gives_the_clear_depth_beside_a_door(surveyed: Surveyed, desk: Desk) -> None:
    """500 mm left of the hinge a door opened to 160° leaves 204.6269 mm: the published case, rounded down."""
    limit = surveyed.limit()
    said = desk.get(f"/face/{surveyed.face}/answer?x_mm=500&z_mm=50", headers=JSON).json
    assert (said["clear_mm"], said["limited_by"]) == (204.6, {"id": limit, "name": "L1 (Door)"})
    page = desk.get(f"/face/{surveyed.face}/answer?x_mm=500&z_mm=50").text
    assert "204.6" in page


def test_answer_of_the_page_and_of_json_agree(surveyed: Surveyed, desk: Desk) -> None:
    """Each act's answer stands in the page as in the values, those alike once for all of them, with the cautions."""
    surveyed.zone(forbids=["load"])
    address = f"/face/{surveyed.face}/answer?x_mm=50&z_mm=50"
    said = desk.get(address, headers=JSON).json
    page = desk.get(address).text
    told = re.findall(r'</svg></span>([a-z ]+)</span><span class="check">([a-z, ]+)<', page)
    assert len(told) == 2
    each = {act: answer for answer, acts in told for act in acts.split(", ")}
    assert [(act, each[act]) for act in FORBIDDEN] == [(act, said[act]["answer"]) for act in FORBIDDEN]
    assert all(title in page for title in said["cautions"])


@pytest.mark.parametrize(
    ("query", "field", "code"),
    [
        ("", "x_mm", "missing"),
        ("x_mm=NaN&z_mm=1", "x_mm", "not-a-number"),
        ("x_mm=1e300&z_mm=1", "x_mm", "out-of-range"),
        ("x_mm=1&z_mm=-1", "z_mm", "outside-the-face"),
        ("x_mm=5001&z_mm=1", "x_mm", "outside-the-face"),
        ("x_mm=1&z_mm=1&radius_mm=-3", "radius_mm", "out-of-range"),
    ],
)
def test_question_that_cannot_be_answered_is_refused(
    surveyed: Surveyed, desk: Desk, query: str, field: str, code: str
) -> None:
    """The refusal names the field, on the page as in JSON."""
    answer = desk.get(f"/face/{surveyed.face}/answer?{query}", headers=JSON)
    assert answer.status_code == 422
    finding = answer.json["findings"][0]
    assert (finding["field"], finding["error"]) == (field, code)
    if query:
        page = desk.get(f"/face/{surveyed.face}/answer?{query}")
        assert page.status_code == 422
        assert f'id="ask-{field}-error"' in page.text


def test_drawing_is_kept_while_nothing_changes_and_no_longer(surveyed: Surveyed) -> None:
    """The same state gives the same drawing at once; an entry, or a verdict that changes, a new one."""
    surveyed.fixing(surveyed.fitting())
    site = gather(surveyed.book, surveyed.site)
    face, findings = site[surveyed.face], appraise(site)
    first = drawing_of(site, face, findings)
    assert drawing_of(site, face, findings) is first
    over = [
        finding._replace(verdict=replace(finding.verdict, check="keep-off", word=Word.OVER)) for finding in findings
    ]
    assert drawing_of(site, face, over) != first
    surveyed.zone()
    later = gather(surveyed.book, surveyed.site)
    assert drawing_of(later, later[surveyed.face], appraise(later)) != first


def test_booking_shows_one_kind_alone_and_stands_fitting_by_fitting(surveyed: Surveyed, desk: Desk) -> None:
    """Each has an address, so that it can be come back to."""
    rail = surveyed.fitting(mark="D1")
    surveyed.fixing(rail, mark="D1.1")
    surveyed.zone(mark="K3")
    page = f"/face/{surveyed.face}"
    told = desk.get(f"{page}?only=limits").text
    booking = told[told.index('id="booking"') :].partition("</table>")[0]
    assert ("K3" in booking, f'data-item="{rail}"' in booking) == (True, False)
    told = desk.get(f"{page}?by=fitting").text
    groups = re.findall(r'<tr class="group">.*?</tr>', told, re.DOTALL)
    assert [("D1" in group, "The face itself" in group) for group in groups] in (
        [(True, False), (False, True)],
        [(False, True), (True, False)],
    )
