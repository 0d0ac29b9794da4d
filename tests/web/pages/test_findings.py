"""The list of all verdicts of a site, and doing one again by hand."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.calculations.catalogue import calculate
from fieldbook.findings import Finding, appraise
from fieldbook.web.pages import findings
from fieldbook.web.shown.repeat import repeated
from tests.sites import Surveyed
from tests.web.conftest import Desk


def crowded(surveyed: Surveyed) -> None:
    """A site with a verdict of each word."""
    surveyed.looked()
    surveyed.zone()
    surveyed.zone(mark="K2", forbids=["drilling"], outline=[[2000, 0], [2100, 0], [2100, 100], [2000, 100]])
    surveyed.limit()
    fitting = surveyed.fitting(x_mm=0, z_mm=0, width_mm=2000, height_mm=1580)
    surveyed.fixing(fitting, x_mm=110, z_mm=50, adhesive=0)
    surveyed.fixing(fitting, mark="D1.2", x_mm=134, z_mm=50, adhesive=0)
    surveyed.fixing(
        fitting, mark="D1.3", x_mm=1980, z_mm=50, hole="new", trace="a new hole in old fabric", penetration_mm=30
    )
    surveyed.fixing(
        fitting, mark="D1.4", x_mm=1800, z_mm=50, hole="new", diameter_mm=6, trace="a new hole in old fabric"
    )


def test_list_runs_from_worst_to_best_with_working_and_source(surveyed: Surveyed, desk: Desk) -> None:
    """What stops the work, what is not known, what is fine; whatever was reckoned says where its method comes from."""
    crowded(surveyed)
    page = desk.get(f"/site/{surveyed.site}/findings").text
    words = re.findall(r'<li class="finding ([\w-]+)"', page)
    order = ["refused", "over", "not-agreed", "not-known", "close", "within", "agreed", "does-not-apply"]
    groups = [0 if order.index(word) < 2 else 1 if order.index(word) < 4 else 2 for word in words]
    assert groups == sorted(groups)
    assert {"over", "not-known", "close", "within"} <= set(words)
    sourced = [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.source]
    assert page.count("Source: ") == len(sourced)


def test_long_list_comes_in_parts_and_by_word(surveyed: Surveyed, desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every finding once, by way of the links alone; each word by itself; nonsense in the address is passed over."""
    crowded(surveyed)
    monkeypatch.setattr(findings, "AT_ONCE", 3)
    count = len(appraise(gather(surveyed.book, surveyed.site)))
    address, seen = f"/site/{surveyed.site}/findings", []
    while address:
        page = desk.get(address).text
        seen += re.findall(r'<li class="finding ([\w-]+)"', page)
        following = re.search(r'href="([^"]+)">Next of', page)
        address = following[1].replace("&amp;", "&") if following else ""
    assert len(seen) == count
    only = desk.get(f"/site/{surveyed.site}/findings?word=over").text
    assert set(re.findall(r'<li class="finding ([\w-]+)"', only)) == {"over"}
    for nonsense in ("word=fine&from=-1", "from=9999999999999", "from=x", "from=999999"):
        assert desk.get(f"/site/{surveyed.site}/findings?{nonsense}").status_code == 200


def test_list_can_be_narrowed_to_a_question(surveyed: Surveyed, desk: Desk) -> None:
    """Each question with how many it has of the word that is shown; both can be chosen together."""
    crowded(surveyed)
    findings = appraise(gather(surveyed.book, surveyed.site))
    for check in {finding.question for finding in findings}:
        page = desk.get(f"/site/{surveyed.site}/findings?question={check}").text
        shown = re.findall(r'<span class="check">([^<]+)</span>', page)
        assert shown == [check] * sum(finding.question == check for finding in findings)
    page = desk.get(f"/site/{surveyed.site}/findings?word=over&question=keep-off").text
    over = sum(finding.verdict.word == "over" and finding.question == "keep-off" for finding in findings)
    assert page.count('<li class="finding over"') == over
    assert f">keep off {over}</a>" in page
    assert "every question" in page


def again_of(surveyed: Surveyed, desk: Desk, check: str) -> Iterator[tuple[Finding, dict[str, Any]]]:
    """Every finding of a check that can be done again, and what comes of it; the page that does it opens."""
    site = gather(surveyed.book, surveyed.site)
    with desk.app.test_request_context():
        found = [(finding, repeated(finding)) for finding in appraise(site)]
        done = [(finding, again, again.address) for finding, again in found if again and again.name == check]
    assert done
    for finding, again, address in done:
        assert desk.get(address).status_code == 200
        yield finding, calculate(check, json.loads(json.dumps(again.payload)))


def test_distance_done_again_by_hand_is_the_same(surveyed: Surveyed, desk: Desk) -> None:
    """What the page says to type leads to the figure it shows, which is rounded to 0.1 mm."""
    crowded(surveyed)
    for finding, result in again_of(surveyed, desk, "keep-off"):
        assert result["distance_mm"] == pytest.approx(finding.verdict.figure, abs=0.1)


def test_depth_that_was_judged_is_done_again_as_a_depth(surveyed: Surveyed, desk: Desk) -> None:
    """Where the depth of a hole decides, it is the depth that comes out."""
    surveyed.looked()
    surveyed.zone(forbids=["drilling"], safe_depth_mm=60)
    hole = {"hole": "new", "diameter_mm": 6, "penetration_mm": 30, "trace": "a new hole in old fabric"}
    fixing = surveyed.fixing(surveyed.fitting(x_mm=0, z_mm=0), x_mm=50, z_mm=50, **hole)
    done = {finding.subject.id: (finding, result) for finding, result in again_of(surveyed, desk, "keep-off")}
    finding, result = done[fixing]
    assert finding.verdict.figure == 30
    assert (result["verdict"]["figure"], result["verdict"]["margin"]) == (30, finding.verdict.margin)


def test_whole_fitting_is_held_against_a_zone_again(surveyed: Surveyed, desk: Desk) -> None:
    """Its outline is what touches, not a point of it."""
    surveyed.looked()
    surveyed.zone()
    surveyed.fitting(x_mm=150, z_mm=0, touches_face=True)
    ((finding, result),) = again_of(surveyed, desk, "keep-off")
    assert result["distance_mm"] == finding.verdict.figure == 50


@pytest.mark.parametrize(
    "limit",
    [
        {},
        {"sort": "route", "available_mm": 1350, "clear_width_mm": 1250},
        {"sort": "headroom", "headroom_mm": 2000, "projection_mm": 15},
        {"sort": "flat", "projection_mm": 10, "x_from_mm": 900, "z_to_mm": 1600},
    ],
)
def test_clear_depth_done_again_by_hand_is_the_same(surveyed: Surveyed, desk: Desk, limit: dict[str, Any]) -> None:
    """Any sort of limit over the whole stretch a fitting takes up gives the figures of the finding."""
    surveyed.looked()
    surveyed.limit(**limit)
    surveyed.fitting(x_mm=200)
    ((finding, result),) = again_of(surveyed, desk, "clearance")
    figures = (finding.verdict.word, finding.verdict.figure, finding.verdict.limit, finding.verdict.margin)
    assert tuple(result["verdict"][key] for key in ("word", "figure", "limit", "margin")) == figures


def loaded(surveyed: Surveyed) -> None:
    """A rail of 10 kg on two screws in oak and two tightened clamps, one on an existing hold."""
    book = surveyed.book
    fitting = surveyed.fitting(
        mass_loaded_kg=10,
        mass_empty_kg=9,
        people_to_remove=1,
        lift_reach="close",
        centre_out_mm=60,
        pull_n=100,
        touches_face=1,
    )
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hook", "x_mm": 1100, "z_mm": 1540, "may_be_used": "yes"}
    book.write(
        "material",
        {"site": surveyed.site, "name": "own oak", "group": "species", "source": "test"} | {"specific_gravity": 0.6},
    )
    screw = {"sort": "wood screw", "hole": "existing", "trace": "an old hole used again", "grips": "own oak"}
    screw |= {"diameter_mm": 5, "penetration_mm": 40}
    surveyed.fixing(fitting, hold=book.write("hold", hold | {"load_limit_n": 150}), **screw)
    surveyed.fixing(fitting, mark="D1.2", x_mm=1400, **screw)
    clamp = {"torque_nm": 3, "diameter_mm": 8, "nut_factor": 0.2, "grade": "8.8", "bolts": 2, "friction_faces": 2}
    clamp |= {"friction": 0.3, "jaw_mm2": 3600, "bears_on": "Lime plaster"}
    surveyed.fixing(fitting, mark="D1.3", x_mm=1700, **clamp)
    surveyed.fixing(fitting, mark="D1.4", x_mm=1900, **clamp)
    book.write("room", {"light_category": "low", "light_hours": 1600}, surveyed.room)
    lit = {"room": surveyed.room, "quantity": "illuminance", "value": 120, "unit": "lx", "at": "2026-05-03T10:00+01:00"}
    book.write("reading", lit)


@pytest.mark.parametrize(
    ("check", "unit", "key", "told", "share"),
    [
        ("preload", "N", "most_n", "figure", 1),
        ("clamp", "N", "slip_n", "limit", 0.5),  # half of what it slips at is allowed
        ("clamp", "N/mm²", "pressure_n_mm2", "figure", 1.3),  # a torque may give 30 % more than its nominal tension
        ("lifting", "kg", "guideline_kg", "limit", 1),
        ("light", "lx·h", "exposure_lux_h", "figure", 1),
    ],
)
def test_reckoning_done_again_by_hand_gives_the_figure_of_the_verdict(
    surveyed: Surveyed, desk: Desk, check: str, unit: str, key: str, told: str, share: float
) -> None:
    """As far as the rounding of what is shown goes."""
    loaded(surveyed)
    compared = [
        (getattr(finding.verdict, told), share * result[key])
        for finding, result in again_of(surveyed, desk, check)
        if finding.verdict.unit == unit
    ]
    assert compared
    for shown, again in compared:
        assert shown == pytest.approx(again, rel=0.01, abs=0.1)


def test_order_done_again_by_hand_names_the_same(surveyed: Surveyed, desk: Desk) -> None:
    """The one fitting comes down."""
    loaded(surveyed)
    ((_, order),) = again_of(surveyed, desk, "removal")
    assert order["order"] == ["D1 Rail"]
