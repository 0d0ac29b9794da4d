"""The limits in front of a face, and the leaves of other walls among them."""

from __future__ import annotations

from typing import Any

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


def round_the_corner(
    surveyed: Surveyed, out: float, along: float = 100, *, placed: bool = True, **limit: Any
) -> Finding:
    """A box on the east wall, `along` mm from the corner, beside a limit of the north wall; whether it is clear."""
    surveyed.looked()
    if placed:
        surveyed.book.write("face", WALLS["north"], item=surveyed.face)
    east = {"room": surveyed.room, "mark": "R1-E", "name": "East wall", "sort": "wall", "surface": FLAT}
    other = surveyed.book.write("face", east | {"width_mm": 4000, "height_mm": 3000} | WALLS["east"])
    surveyed.limit(**{"margin_mm": 10} | (limit or DOOR))
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


SIGN = {"sort": "keep in view", "margin_mm": 20, "x_from_mm": 4000, "x_to_mm": 4500, "z_from_mm": 1400, "z_to_mm": 1800}
WAY = {"sort": "route", "margin_mm": 0, "available_mm": 1600, "clear_width_mm": 1200}


@pytest.mark.parametrize(
    ("out", "along", "word", "limit"),
    [
        (479, 100, Word.CLOSE, 480),  # 5,000 less 4,500 and the margin of 20 are 480 mm
        (1200, 100, Word.OVER, 480),
        (1200, 699, Word.OVER, 480),  # from 699 mm in front of the sign on
        (1200, 1001, Word.WITHIN, None),  # farther in front than 1,000 mm
    ],
)
def test_sign_is_hidden_by_what_stands_out_of_the_next_wall(
    surveyed: Surveyed, out: float, along: float, word: Word, limit: float | None
) -> None:
    """A case on the east wall comes before the sign as soon as it stands out past the sign's nearer edge."""
    found = round_the_corner(surveyed, out, along, **SIGN)
    assert (found.word, found.verdict.limit) == (word, limit)


@pytest.mark.parametrize(
    ("out", "along", "word", "limit"),
    [
        (400, 300, Word.CLOSE, 400),  # 1,600 less 1,200 may stand out at the end of the way as beside it
        (1200, 300, Word.OVER, 400),
        (1200, 99, Word.WITHIN, None),  # it ends 399 mm before the wall: 1,201 are left
        (1200, 1201, Word.WITHIN, None),  # 1,201 mm are left between it and the wall
    ],
)
def test_way_along_one_wall_is_kept_free_of_what_stands_out_of_the_next(
    surveyed: Surveyed, out: float, along: float, word: Word, limit: float | None
) -> None:
    """A case 300 mm wide leaves neither side of it the width to keep when it stands between 400 and 1,200 mm."""
    found = round_the_corner(surveyed, out, along, **WAY)
    assert (found.word, found.verdict.limit) == (word, limit)


def test_sign_of_a_wall_that_is_not_in_the_plan_is_asked_about_near_a_corner(surveyed: Surveyed) -> None:
    """It lies 480 mm from the end of its wall, less than the case stands out."""
    found = round_the_corner(surveyed, 1200, placed=False, **SIGN)
    assert found.word is Word.NOT_KNOWN
    assert "may reach to where it stands out" in found.verdict.sentence


AT_THE_CORNER = {"margin_mm": 0, "projection_mm": 60, "x_from_mm": 4000}


@pytest.mark.parametrize(
    "sort", [{"sort": "flat"}, {"sort": "headroom", "headroom_mm": 2000}], ids=lambda one: one["sort"]
)
@pytest.mark.parametrize(
    ("out", "along", "more", "word", "limit"),
    [
        (150, 100, {}, Word.OVER, 60),  # it comes 150 mm in front of a part that ends at the corner, as do 60 at most
        (50, 100, {}, Word.WITHIN, 60),
        (150, 1001, {}, Word.WITHIN, None),  # farther in front of that part than 1,000 mm
        (150, 100, {"x_to_mm": 4800}, Word.WITHIN, 200),  # 5,000 less 4,800
        (150, 100, {"z_to_mm": 1400}, Word.WITHIN, None),  # it begins at 1,500
    ],
)
def test_flat_limit_and_headroom_of_one_wall_keep_back_what_stands_out_of_the_next(
    surveyed: Surveyed,
    sort: dict[str, Any],
    out: float,
    along: float,
    more: dict[str, Any],
    word: Word,
    limit: float | None,
) -> None:
    """A box at 1,500 mm on the east wall is in front of the north wall's end as well."""
    found = round_the_corner(surveyed, out, along, **sort | AT_THE_CORNER | more)
    assert (found.word, found.verdict.limit) == (word, limit)


def test_headroom_of_one_wall_is_kept_by_what_hangs_as_high_on_the_next(surveyed: Surveyed) -> None:
    """1,500 mm of headroom and a box whose underside is at 1,500 mm."""
    found = round_the_corner(surveyed, 150, 100, sort="headroom", headroom_mm=1500, **AT_THE_CORNER)
    assert found.word is Word.WITHIN


@pytest.mark.parametrize(("out", "word", "limit"), [(100, Word.WITHIN, 450), (500, Word.OVER, 450)])
def test_walls_that_face_each_other_share_what_is_before_a_sign(
    surveyed: Surveyed, out: float, word: Word, limit: float
) -> None:
    """In a passage of 900 mm a sign on one wall leaves the other half of it: 450 mm."""
    surveyed.looked()
    surveyed.book.write("face", WALLS["north"], item=surveyed.face)
    place = {"start_x_mm": 5000, "start_y_mm": 3100, "bearing_deg": 180, "surface": FLAT}
    south = {"room": surveyed.room, "mark": "R1-S", "name": "South wall", "sort": "wall", "height_mm": 3000}
    other = surveyed.book.write("face", south | place | {"width_mm": 5000})
    surveyed.limit(**SIGN | {"margin_mm": 0})
    box = surveyed.fitting(face=other, x_mm=600, width_mm=300, build_up=[["box", out, 0]])
    found = one(surveyed, "clearance", box)
    assert (found.word, found.verdict.limit) == (word, limit)
