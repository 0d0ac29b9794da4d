"""The limits in front of a face, and the leaves of other walls among them."""

from __future__ import annotations

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.asked import one
from tests.sites import Surveyed

FLAT = [[x, z, 0] for x in (0, 4000) for z in (0, 3000)]
WALLS = {
    "north": {"start_x_mm": 0, "start_y_mm": 4000, "bearing_deg": 0},
    "east": {"start_x_mm": 5000, "start_y_mm": 4000, "bearing_deg": -90},
}
DOOR = {"hinge_x_mm": 4200, "hinge_y_mm": 40, "swing_from_deg": 180, "swing_to_deg": 0, "boxes": [[0, 700, -40, 0]]}


def round_the_corner(surveyed: Surveyed, out: float, along: float = 100, *, placed: bool = True) -> Finding:
    """A box on the east wall, `along` mm from the corner, beside a door of the north wall; whether it is clear."""
    surveyed.looked()
    if placed:
        surveyed.book.write("face", WALLS["north"], item=surveyed.face)
    east = {"room": surveyed.room, "mark": "R1-E", "name": "East wall", "sort": "wall", "surface": FLAT}
    other = surveyed.book.write("face", east | {"width_mm": 4000, "height_mm": 3000} | WALLS["east"])
    surveyed.limit(margin_mm=10, **DOOR)
    box = {"face": other, "x_mm": along, "width_mm": 300, "build_up": [["box", out, 0]]}
    return one(surveyed, "clearance", surveyed.fitting(**box))


def test_leaf_limits_on_the_next_wall_as_well(surveyed: Surveyed) -> None:
    """The far corner of the leaf turns on √(700² + 40²) = 701.14 mm round (4200, 40).

    At 100 mm from the corner, less the margin of 10, it is 50 mm from the hinge: x = 4200 + √(701.14² − 50²) = 4899.36,
    100.64 mm before the east wall; less the margin 90.6 mm are clear.
    """
    found = round_the_corner(surveyed, 150)
    assert (found.word, found.verdict.limit) == (Word.OVER, pytest.approx(90.6, abs=0.05))
    assert "of R1-N" in found.verdict.sentence
    assert found.against is not None and found.against.called == "L1"


def test_what_the_leaf_does_not_reach_on_the_next_wall_is_free(surveyed: Surveyed) -> None:
    """The leaf reaches 40 + 701.14 mm from the corner, and 10 mm of margin."""
    assert round_the_corner(surveyed, 150, along=752).word is Word.WITHIN


def test_leaf_of_a_wall_that_is_not_in_the_plan_is_asked_about_near_a_corner(surveyed: Surveyed) -> None:
    """It comes within 98.9 mm of the end of its wall, less 10 of margin: past 88 mm nothing is said to be clear."""
    found = round_the_corner(surveyed, 150, placed=False)
    assert (found.word, {blank.field for blank in found.missing}) == (
        Word.NOT_KNOWN,
        {"start_x_mm", "start_y_mm", "bearing_deg"},
    )


@pytest.mark.parametrize(("out", "along"), [(60, 100), (150, 1500)])
def test_leaf_that_comes_to_no_corner_asks_nothing(surveyed: Surveyed, out: float, along: float) -> None:
    """What stands out less than the leaf stays away, or lies farther along than it reaches, is clear."""
    assert round_the_corner(surveyed, out, along, placed=False).word is Word.WITHIN
