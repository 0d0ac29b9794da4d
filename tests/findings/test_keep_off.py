"""What keeps off what is forbidden: the worst of all zones, and nothing recorded is not nothing there."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.asked import one
from tests.sites import SQUARE, Surveyed

DRILLED = {"hole": "new", "trace": "a new hole in old fabric"}


@pytest.fixture
def wide(surveyed: Surveyed) -> str:
    """A fitting over the left half of the face, so that fixings may lie near the zone at the datum."""
    return surveyed.fitting(x_mm=0, z_mm=0, width_mm=2000, height_mm=1600, touches_face=0, gives=["nothing"])


@pytest.mark.parametrize(
    ("forbids", "fixing", "word"),
    [
        (["contact"], {}, Word.OVER),
        (["drilling"], {}, Word.WITHIN),
        (["drilling"], DRILLED | {"diameter_mm": 6}, Word.OVER),
        (["drilling"], {"hole": "existing"}, Word.WITHIN),
        (["drilling"], {"sort": "wood screw", "diameter_mm": 4}, Word.OVER),  # it has a point, whatever is ticked
        (["load"], {}, Word.OVER),  # whatever bears is seen, ticked or not
        (["load"], {"carries_load": 0}, Word.OVER),
        (["adhesive"], {"sort": "adhesive pad"}, Word.OVER),
        (["adhesive"], {"adhesive": 1}, Word.OVER),
        (["adhesive"], {"adhesive": 0}, Word.WITHIN),
        (["adhesive"], {}, Word.NOT_KNOWN),
        (["heat", "light"], {}, Word.WITHIN),
    ],
)
def test_zones_see_whatever_bears_or_touches(
    surveyed: Surveyed, wide: str, forbids: list[str], fixing: dict[str, Any], word: Word
) -> None:
    """A fixing in a zone is over for what it does there, and not known for what nobody entered."""
    surveyed.looked()
    surveyed.zone(forbids=forbids)
    found = one(surveyed, "keep-off", surveyed.fixing(wide, x_mm=50, z_mm=50, **fixing))
    assert found.word is word
    if word is Word.NOT_KNOWN:
        assert [blank.field for blank in found.missing] == ["adhesive"]


def test_heat_goes_through_the_fixings_of_a_lamp(surveyed: Surveyed) -> None:
    """What gives light warms: its fixings and its front are both held against a zone without heat."""
    surveyed.looked()
    surveyed.zone(forbids=["heat"])
    lamp = surveyed.fitting(x_mm=70, z_mm=0, gives=["light"], touches_face=0)
    assert one(surveyed, "keep-off", lamp).word is Word.OVER
    assert one(surveyed, "keep-off", surveyed.fixing(lamp, x_mm=80, z_mm=50, adhesive=0)).word is Word.OVER
    rail = surveyed.fitting(x_mm=70, z_mm=200, touches_face=0)
    assert [blank.field for blank in one(surveyed, "keep-off", rail).missing] == []  # 100 mm off: it would not matter


def test_fixing_too_near_a_zone_is_over_with_who_said_so(surveyed: Surveyed, wide: str) -> None:
    """The jaw's edge lies 120 − 100 − 12 = 8 mm from the zone, 20 mm must be kept: 12 mm too near."""
    surveyed.looked()
    zone = surveyed.zone(said_by="the conservator")
    found = one(surveyed, "keep-off", surveyed.fixing(wide, x_mm=120, z_mm=50))
    assert (found.against and found.against.id, found.word) == (zone, Word.OVER)
    assert (found.verdict.figure, found.verdict.limit, found.verdict.margin) == (8, 20, -12)
    assert "said by the conservator" in found.verdict.sentence
    assert found.again is not None
    assert found.again.payload["radius_mm"] == 12


def test_as_fitted_place_is_what_is_held_against_the_zone(surveyed: Surveyed, wide: str) -> None:
    """A fixing planned clear of a zone but fitted too near is over."""
    surveyed.looked()
    surveyed.zone()
    fixing = surveyed.fixing(wide, x_mm=900, fitted_x_mm=120, fitted_z_mm=50)
    assert one(surveyed, "keep-off", fixing).word is Word.OVER


def test_overlapping_zones_all_hold(surveyed: Surveyed, wide: str) -> None:
    """40 mm less 10 may be penetrated in the one, 30 less 10 in the other: 25 mm is too deep by 5."""
    surveyed.looked()
    surveyed.zone(mark="K1", forbids=["drilling"], safe_depth_mm=40, margin_mm=10)
    deeper = surveyed.zone(mark="K2", forbids=["drilling"], safe_depth_mm=30, margin_mm=10)
    fixing = surveyed.fixing(wide, x_mm=50, z_mm=50, diameter_mm=6, penetration_mm=25, **DRILLED)
    found = one(surveyed, "keep-off", fixing)
    assert (found.word, found.verdict.margin, found.against and found.against.id) == (Word.OVER, -5, deeper)


def test_depth_that_may_be_penetrated_answers_for_drilling_alone(surveyed: Surveyed, wide: str) -> None:
    """A hole of 25 mm keeps 5 of 30 over a pipe; where contact is forbidden as well its plate is 50 + 12 mm inside."""
    surveyed.looked()
    pipe = surveyed.zone(forbids=["drilling"], safe_depth_mm=40, margin_mm=10)
    fixing = surveyed.fixing(wide, x_mm=50, z_mm=50, diameter_mm=6, penetration_mm=25, **DRILLED)
    found = one(surveyed, "keep-off", fixing)
    assert (found.word, found.verdict.margin) == (Word.WITHIN, 5)
    surveyed.book.write("zone", {"forbids": ["drilling", "contact"]}, item=pipe)
    found = one(surveyed, "keep-off", fixing)
    assert (found.word, found.verdict.figure) == (Word.OVER, -62)
    assert "No contact" in found.verdict.sentence


def test_only_the_hole_counts_where_only_drilling_is_forbidden(surveyed: Surveyed, wide: str) -> None:
    """A plate may cover the zone's margin as long as its hole keeps it: 130 − 100 − 3 = 27 mm."""
    surveyed.looked()
    surveyed.zone(forbids=["drilling"])
    fixing = surveyed.fixing(wide, x_mm=130, z_mm=50, diameter_mm=6, contact_radius_mm=40, **DRILLED)
    assert one(surveyed, "keep-off", fixing).verdict.figure == 27


def test_width_of_a_hole_is_asked_for_only_where_it_matters(surveyed: Surveyed, wide: str) -> None:
    """Of unknown width it may be 25 mm wide: 130 − 100 − 12.5 = 17.5 is too near for 20 mm, 17.5 + 10 is not."""
    surveyed.looked()
    surveyed.zone(forbids=["drilling"])
    near, far = (surveyed.fixing(wide, x_mm=x, z_mm=50, contact_radius_mm=5, **DRILLED) for x in (130, 140))
    assert [blank.field for blank in one(surveyed, "keep-off", near).missing] == ["diameter_mm"]
    assert one(surveyed, "keep-off", far).word is Word.WITHIN


def test_depth_of_a_hole_in_a_zone_about_depth_is_asked_for(surveyed: Surveyed, wide: str) -> None:
    """What is not entered is named, and no default stands in for it."""
    surveyed.looked()
    surveyed.zone(forbids=["drilling"], safe_depth_mm=40)
    fixing = surveyed.fixing(wide, x_mm=50, z_mm=50, diameter_mm=6, **DRILLED)
    assert [blank.field for blank in one(surveyed, "keep-off", fixing).missing] == ["penetration_mm"]


def test_no_zone_counts_as_none_only_where_somebody_looked(surveyed: Surveyed, wide: str) -> None:
    """Without a zone nothing is known until the room says who looked, how and when; a far zone changes nothing."""
    fixing = surveyed.fixing(wide, adhesive=0)
    found = one(surveyed, "keep-off", fixing)
    assert (found.word, found.missing[0].item.id, found.missing[0].field) == (
        Word.NOT_KNOWN,
        surveyed.face,
        "looked_for",
    )
    surveyed.zone()
    assert one(surveyed, "keep-off", fixing).word is Word.NOT_KNOWN
    surveyed.looked("keep-off zones")
    found = one(surveyed, "keep-off", fixing)
    assert found.word is Word.WITHIN
    assert "the surveyor" in found.assumed[0]


def test_front_that_touches_is_seen_unless_it_is_said_not_to(surveyed: Surveyed) -> None:
    """It overlaps the zone by 30 mm; whether it bears on the face is asked for."""
    surveyed.looked()
    surveyed.zone(outline=SQUARE)
    blank, touching, proud = (
        surveyed.fitting(mark=f"D{at}", x_mm=70, z_mm=0, gives=["nothing"], touches_face=touches, support="its fixings")
        for at, touches in enumerate((None, 1, 0))
    )
    assert [gap.field for gap in one(surveyed, "keep-off", blank).missing] == ["touches_face"]
    assert (one(surveyed, "keep-off", touching).word, one(surveyed, "keep-off", touching).verdict.figure) == (
        Word.OVER,
        -30,
    )
    assert one(surveyed, "keep-off", proud).word is Word.WITHIN


@pytest.mark.parametrize("carries", [None, 0, 1])
def test_what_is_said_to_carry_nothing_still_bears_on_its_zone(
    surveyed: Surveyed, wide: str, carries: int | None
) -> None:
    """At x = 30, z = 50 its edge lies 30 + 12 = 42 mm inside a square of 100, of which 20 mm more are to be kept."""
    surveyed.looked()
    surveyed.zone(forbids=["load"])
    found = one(surveyed, "keep-off", surveyed.fixing(wide, x_mm=30, z_mm=50, carries_load=carries))
    assert (found.word, found.verdict.figure, found.verdict.margin) == (Word.OVER, -42, -62)


@pytest.mark.parametrize(("moves", "left"), [(None, 280), (100, 180), (300, -20)])
def test_what_can_be_shifted_keeps_off_wherever_it_may_be_set(
    surveyed: Surveyed, moves: float | None, left: float
) -> None:
    """The rail ends at x 2,000, and 20 mm are kept to a zone that begins at 2,300: shifted by 300 mm it lies at it."""
    surveyed.looked()
    surveyed.zone(outline=[[2300, 1400], [2400, 1400], [2400, 1700], [2300, 1700]])
    found = one(surveyed, "keep-off", surveyed.fitting(touches_face=1, gives=["nothing"], moves_mm=moves))
    assert (found.word, found.verdict.margin) == (Word.OVER if left < 0 else Word.WITHIN, left)
