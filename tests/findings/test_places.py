"""All findings of a site: who is held against what, and what comes first."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.site import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, about, appraise, counts, worst
from tests.sites import SQUARE, Surveyed


def findings(surveyed: Surveyed, check: str) -> list[Finding]:
    """The findings of one check on the surveyed site."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.check == check]


@pytest.mark.parametrize(
    ("forbids", "fixing", "held"),
    [
        (["contact"], {}, True),
        (["drilling"], {}, False),
        (["drilling"], {"hole": "new", "trace": "a new hole in old fabric", "diameter_mm": 6}, True),
        (["drilling"], {"hole": "existing"}, False),
        (["load"], {}, False),
        (["load"], {"carries_load": 1}, True),
        (["adhesive"], {"sort": "adhesive pad"}, True),
        (["adhesive"], {"adhesive": 1}, True),
        (["heat", "light"], {}, False),
        (["contact"], {"state": "taken down"}, False),
        (["contact"], {"fabric": "another fitting"}, False),
    ],
)
def test_fixing_is_held_against_zones_that_forbid_what_it_does(
    surveyed: Surveyed, forbids: list[str], fixing: dict[str, Any], held: bool
) -> None:
    """A zone concerns a fixing only through what it forbids there."""
    surveyed.zone(forbids=forbids)
    surveyed.fixing(surveyed.fitting(), x_mm=50, z_mm=50, **fixing)
    assert bool(findings(surveyed, "keep-off")) is held


def test_fixing_too_near_a_zone_is_over_and_comes_first(surveyed: Surveyed) -> None:
    """The jaw's edge lies 8 mm from the zone, 20 mm must be kept: 12 mm too near."""
    zone = surveyed.zone()
    fitting = surveyed.fitting()
    near, far = surveyed.fixing(fitting, x_mm=120, z_mm=50), surveyed.fixing(fitting, x_mm=900)
    first, *rest = findings(surveyed, "keep-off")
    assert (first.subject.id, first.against and first.against.id) == (near, zone)
    assert (first.verdict.word, first.verdict.figure, first.verdict.margin) == (Word.OVER, 8, -12)
    assert [(one.subject.id, one.verdict.word) for one in rest] == [(far, Word.WITHIN)]


def test_as_fitted_place_is_what_is_held_against_the_zone(surveyed: Surveyed) -> None:
    """A fixing planned clear of a zone but fitted too near is over."""
    surveyed.zone()
    surveyed.fixing(surveyed.fitting(), x_mm=900, fitted_x_mm=120, fitted_z_mm=50)
    assert [one.verdict.word for one in findings(surveyed, "keep-off")] == [Word.OVER]


def test_only_the_hole_counts_where_only_drilling_is_forbidden(surveyed: Surveyed) -> None:
    """A plate may cover the zone's margin as long as its hole keeps it: 130 − 100 − 3 = 27 mm."""
    surveyed.zone(forbids=["drilling"])
    drilled = {"hole": "new", "trace": "a new hole in old fabric", "contact_radius_mm": 40}
    surveyed.fixing(surveyed.fitting(), x_mm=130, z_mm=50, diameter_mm=6, **drilled)
    assert [one.verdict.figure for one in findings(surveyed, "keep-off")] == [27]


def test_missing_diameter_or_depth_is_not_known_and_named(surveyed: Surveyed) -> None:
    """What is not entered is named, and no default stands in for it."""
    surveyed.zone(forbids=["drilling"])
    surveyed.zone(mark="K2", forbids=["contact"], safe_depth_mm=40)
    surveyed.fixing(surveyed.fitting(), x_mm=50, z_mm=50, hole="new", trace="a new hole in old fabric")
    found = findings(surveyed, "keep-off")
    assert {(one.verdict.word, one.verdict.missing) for one in found} == {
        (Word.NOT_KNOWN, ("diameter_mm",)),
        (Word.NOT_KNOWN, ("penetration_mm",)),
    }


def test_zone_about_depth_allows_what_stays_shallow(surveyed: Surveyed) -> None:
    """A pipe 40 mm deep with a margin of 10 mm leaves 30 mm: 25 mm is within, 35 mm over."""
    surveyed.zone(forbids=["drilling"], safe_depth_mm=40, margin_mm=10)
    drilled = {"hole": "new", "trace": "a new hole in old fabric", "diameter_mm": 6, "x_mm": 50, "z_mm": 50}
    fitting = surveyed.fitting()
    surveyed.fixing(fitting, penetration_mm=25, **drilled)
    surveyed.fixing(fitting, penetration_mm=35, **drilled)
    assert [(one.verdict.word, one.verdict.margin) for one in findings(surveyed, "keep-off")] == [
        (Word.OVER, -5),
        (Word.WITHIN, 5),
    ]


def test_fitting_that_gives_light_is_held_against_a_zone_that_forbids_it(surveyed: Surveyed) -> None:
    """A lamp's whole front counts, not only its fixings: it overlaps the zone by 30 mm."""
    surveyed.zone(forbids=["light"], outline=SQUARE)
    surveyed.fitting(x_mm=70, z_mm=0, gives=["light"])
    (found,) = findings(surveyed, "keep-off")
    assert (found.verdict.word, found.verdict.figure) == (Word.OVER, -30)


def test_fitting_is_held_against_the_door_that_swings_before_it(surveyed: Surveyed) -> None:
    """Published case: hinge at x = 1,000, opens to 160°, at s = 500 mm 204.6 mm are clear (check of `clearance`)."""
    limit = surveyed.limit()
    fitting = surveyed.fitting(x_mm=300, width_mm=200, build_up=[["case", 200, 2]])
    (found,) = findings(surveyed, "clearance")
    assert (found.subject.id, found.against and found.against.id) == (fitting, limit)
    assert (found.verdict.word, found.verdict.limit, found.verdict.margin) == (Word.CLOSE, 204.6, 2.6)


def test_fixing_that_stands_out_by_itself_is_held_too(surveyed: Surveyed) -> None:
    """A knob that stands out by itself is held against the clear depth; what lies inside its fitting is not asked."""
    surveyed.limit(sort="flat", projection_mm=50)
    fitting = surveyed.fitting()
    surveyed.fixing(fitting)
    knob = surveyed.fixing(fitting, stands_out_mm=60)
    outside = surveyed.fixing(fitting, x_mm=4000)
    words = {one.subject.id: one.verdict.word for one in findings(surveyed, "clearance")}
    assert words == {fitting: Word.WITHIN, knob: Word.OVER, outside: Word.NOT_KNOWN}


def test_summary_counts_words_and_finds_the_worst(surveyed: Surveyed) -> None:
    """A site's page shows how many of each, and an item's own findings."""
    surveyed.zone()
    fitting = surveyed.fitting()
    near = surveyed.fixing(fitting, x_mm=120, z_mm=50)
    surveyed.fixing(fitting, x_mm=900)
    site = gather(surveyed.book, surveyed.site)
    found = [one for one in appraise(site) if one.verdict.check == "keep-off"]
    assert {word: number for word, number in counts(found).items() if number} == {Word.OVER: 1, Word.WITHIN: 1}
    assert worst(about(found, site[near])) is Word.OVER
    assert worst([]) is None


@pytest.mark.parametrize("measured", [{"fitted_x_mm": 120}, {"fitted_z_mm": 50}])
def test_half_measured_place_does_not_count(surveyed: Surveyed, measured: dict[str, Any]) -> None:
    """One figure of two makes no place: the planned one is held against the zone until the other is there."""
    surveyed.zone()
    fixing = surveyed.fixing(surveyed.fitting(), x_mm=900, z_mm=50, state="fitted", **measured)
    assert [one.verdict.word for one in findings(surveyed, "keep-off")] == [Word.WITHIN]
    surveyed.book.write("fixing", {"fitted_x_mm": 120, "fitted_z_mm": 50}, fixing)
    assert [one.verdict.word for one in findings(surveyed, "keep-off")] == [Word.OVER]
