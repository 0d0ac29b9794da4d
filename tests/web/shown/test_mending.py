"""What is not known leads to where it can be entered."""

from __future__ import annotations

import re
from html import unescape
from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.site import Site
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
from fieldbook.web.shown.mending import Mending, mending_of
from tests.sites import Surveyed
from tests.web.conftest import Desk

HUNG = {"mass_loaded_kg": 9, "centre_out_mm": 30, "climbable": 0, "touches_face": 0}
SCREW = {"sort": "wood screw", "hole": "existing", "trace": "an old hole used again"}


def mendings(surveyed: Surveyed, desk: Desk, question: str) -> list[Mending | None]:
    """Where each answer to a question that is not known leads."""
    site = gather(surveyed.book, surveyed.site)
    with desk.app.test_request_context():
        return [
            mending_of(site, finding)
            for finding in appraise(site)
            if finding.question == question and finding.verdict.word is Word.NOT_KNOWN
        ]


def leads_to_input(desk: Desk, mending: Mending | None, item: str, field: str) -> bool:
    """Whether it opens the form of the item, and the form has that input."""
    assert mending is not None
    page = desk.get(mending.address).text
    return mending.address == f"/item/{item}/change#{field}" and f'id="{field}"' in page


def test_missing_mass_leads_to_the_fitting_that_has_none(surveyed: Surveyed, desk: Desk) -> None:
    """It is what hangs on the rail that was not weighed, not the rail."""
    rail = surveyed.fitting(mass_loaded_kg=9, mass_empty_kg=9, centre_out_mm=30)
    panel = surveyed.fitting(mark="D2", hangs_on=rail, mass_empty_kg=None, centre_out_mm=30)
    surveyed.fixing(rail)
    for mending in mendings(surveyed, desk, "load"):
        assert leads_to_input(desk, mending, panel, "mass_loaded_kg")
    (lift,) = [one for one in mendings(surveyed, desk, "lifting") if one and "D2" in one.words]
    assert leads_to_input(desk, lift, panel, "mass_empty_kg")
    assert lift.words == "Enter “mass empty” of D2"


def test_missing_load_of_a_hold_leads_to_the_hold(surveyed: Surveyed, desk: Desk) -> None:
    """What is agreed for it is entered there."""
    hold = surveyed.book.write(
        "hold", {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1, "z_mm": 1, "may_be_used": "yes"}
    )
    rail = surveyed.fitting(**HUNG)
    surveyed.fixing(rail, hold=hold, sort="hook", x_mm=1500)
    (mending,) = mendings(surveyed, desk, "carrier")
    assert leads_to_input(desk, mending, hold, "load_limit_n")


@pytest.mark.parametrize(
    ("more", "question", "field"),
    [
        (SCREW | {"grips": "white oak", "penetration_mm": 40, "fabric": "another fitting"}, "pull", "length_mm"),
        (SCREW | {"grips": "oak", "length_mm": 60, "fabric": "another fitting"}, "pull", "penetration_mm"),
        ({"sort": "magnet"}, "pull", "stated_load_n"),
        ({"sort": "clamp"}, "slip", "torque_nm"),
    ],
)
def test_missing_figure_of_a_fixing_leads_to_its_input(
    surveyed: Surveyed, desk: Desk, more: dict[str, Any], question: str, field: str
) -> None:
    """Whatever a fixing's answer needs is asked for where it is entered."""
    rail = surveyed.fitting(**HUNG)
    fixings = [surveyed.fixing(rail, mark=f"D1.{number}", x_mm=900 + 200 * number, **more) for number in (1, 2)]
    found = mendings(surveyed, desk, question)
    assert len(found) == 2
    assert all(leads_to_input(desk, mending, fixing, field) for mending, fixing in zip(found, fixings, strict=True))


def test_projection_that_is_not_entered_leads_to_the_build_up(surveyed: Surveyed, desk: Desk) -> None:
    """The check's word for it is not the field's."""
    surveyed.limit()
    rail = surveyed.fitting(build_up=None, x_mm=100)
    (mending,) = mendings(surveyed, desk, "projection")
    assert leads_to_input(desk, mending, rail, "build_up")


def test_missing_readings_lead_to_a_new_reading_of_that_quantity(surveyed: Surveyed, desk: Desk) -> None:
    """Its room and its quantity are filled in."""
    surveyed.fitting(moving_part="white oak", moving_mm=900, movement_allowed_mm=4)
    (mending,) = mendings(surveyed, desk, "movement")
    assert mending is not None
    page = desk.get(mending.address).text
    assert re.search(r'<option value="air temperature"[^>]* selected>', page)
    assert re.search(rf'<option value="{surveyed.room}"[^>]* selected>', page)


def test_every_not_known_verdict_of_a_site_has_a_link_that_opens(surveyed: Surveyed, desk: Desk) -> None:
    """The list can be worked down to the end."""
    surveyed.limit()
    rail = surveyed.fitting(build_up=None, x_mm=100, moving_part="brass", moving_mm=10)
    surveyed.fixing(rail)
    surveyed.fixing(surveyed.fitting(mark="D2"), mark="D2.1", **SCREW)
    surveyed.book.write("room", {"light_category": "low"}, surveyed.room)
    lit = {"room": surveyed.room, "quantity": "illuminance", "value": 120, "unit": "lx", "at": "2026-05-03T10:00+01:00"}
    surveyed.book.write("reading", lit)
    page = desk.get(f"/site/{surveyed.site}/findings?word=not+known").text
    entries = re.findall(r'<li class="finding not-known">(.*?)</li>', page, re.DOTALL)
    assert len(entries) > 4
    for entry in entries:
        link = re.search(r'<a href="([^"]+)">(?:Enter|Look at)', entry)
        assert link, entry
        assert desk.get(unescape(link[1])).status_code == 200


def test_what_is_known_needs_no_mending(surveyed: Surveyed, desk: Desk) -> None:
    """Neither within nor over."""
    surveyed.zone()
    surveyed.fixing(surveyed.fitting(x_mm=0, z_mm=0), x_mm=50, z_mm=50)
    site: Site = gather(surveyed.book, surveyed.site)
    findings: list[Finding] = [finding for finding in appraise(site) if finding.verdict.word is Word.OVER]
    with desk.app.test_request_context():
        assert findings
        assert {mending_of(site, finding) for finding in findings} == {None}
