"""The largest panel, held against a search by SciPy and against Shapely's polygons."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog, minimize_scalar
from shapely import Polygon

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks.fit_panel import Panel, _narrowed, gaps_mm, largest_panel
from fieldbook.checks.opening import from_corners
from tests.checks.refusals import check_limits, refused
from tests.examples import examples

OFFS = st.floats(-60, 60)
GAPS = st.integers(0, 200).map(lambda tenths: tenths / 10)
RECTANGLE = ((0, 0), (600, 0), (600, 900), (0, 900))
TAPE = {"sides_mm": [400, 300, 400, 300], "diagonals_mm": [500, 500], "gap_mm": 2}


@st.composite
def openings(draw):
    """An opening somewhat out of square."""
    width, height = draw(st.floats(300, 3000)), draw(st.floats(300, 3000))
    return from_corners(
        [(x + draw(OFFS), z + draw(OFFS)) for x, z in ((0, 0), (width, 0), (width, height), (0, height))]
    )


def largest_by_library(opening, gap_mm, turn):
    """The largest area at one turn: for each proportion a linear program, the proportion narrowed by SciPy."""
    corners = np.array(opening.corners_mm)
    along = np.roll(corners, -1, axis=0) - corners
    normals = np.column_stack([-along[:, 1], along[:, 0]]) / np.hypot(*along.T)[:, None]
    reaches = (normals * corners).sum(axis=1) + gap_mm
    right, up = np.array([math.cos(turn), math.sin(turn)]), np.array([-math.sin(turn), math.cos(turn)])

    def lost(log_proportion):
        proportion = math.exp(log_proportion)
        half = (np.abs(normals @ right) * proportion + np.abs(normals @ up)) / 2
        found = linprog(
            [0, 0, -1], A_ub=np.column_stack([-normals, half]), b_ub=-reaches, bounds=[(None, None)] * 2 + [(0, None)]
        )
        return -(found.x[2] ** 2) * proportion if found.success else 0

    return -minimize_scalar(lost, bounds=(-3, 3), method="bounded", options={"xatol": 1e-4}).fun


@examples(6)
@given(openings(), GAPS)
def test_panel_is_as_large_as_the_library_finds(opening, gap_mm):
    """No turn tried by the library makes room for a larger panel, and at ours it finds the same."""
    panel = largest_panel(opening, gap_mm)
    area = panel.width_mm * panel.height_mm
    # 1e-4 of the area: what the library narrows the proportion to
    assert largest_by_library(opening, gap_mm, math.radians(panel.turned_deg)) == pytest.approx(area, rel=1e-4)
    for degrees in (-45, -20, 20, *(panel.turned_deg + off for off in (-1, -0.05, 0.05, 1))):
        assert largest_by_library(opening, gap_mm, math.radians(degrees)) <= area * (1 + 1e-6)


@examples(50)
@given(openings(), GAPS)
def test_panel_is_a_true_rectangle_that_keeps_its_gap(opening, gap_mm):
    """Sides and diagonals of the panel are true, and it lies inside the opening less the gap."""
    panel = largest_panel(opening, gap_mm)
    lower_left, lower_right, upper_right, upper_left = panel.corners_mm
    assert math.dist(lower_left, lower_right) == pytest.approx(panel.width_mm)
    assert math.dist(lower_left, upper_left) == pytest.approx(panel.height_mm)
    assert math.dist(lower_left, upper_right) == pytest.approx(math.dist(lower_right, upper_left))
    room = Polygon(opening.corners_mm).buffer(-gap_mm, join_style="mitre")
    # a hundredth of a millimetre of the saw's own
    assert room.buffer(0.01, join_style="mitre").contains(Polygon(panel.corners_mm))
    assert all(least >= gap_mm - 1e-4 and most >= least for least, most in gaps_mm(opening, panel))


@examples(30)
@given(openings(), st.floats(-40, 40), st.floats(-5000, 5000))
def test_panel_does_not_change_with_the_axes(opening, degrees, shift):
    """An opening measured from another datum, or turned, takes a panel of the same area."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    moved = from_corners([(cos * x - sin * z + shift, sin * x + cos * z) for x, z in opening.corners_mm])
    first, second = largest_panel(opening, 3), largest_panel(moved, 3)
    # 1e-6 of the area: the turn is narrowed to a millionth of a degree, from other beginnings
    assert second.width_mm * second.height_mm == pytest.approx(first.width_mm * first.height_mm, rel=1e-5)


# By hand: a true rectangle of 600 by 900 takes one smaller by twice the gap each way.
@pytest.mark.parametrize("gap_mm", [0, 3, 20])
def test_panel_of_a_true_opening_is_smaller_by_two_gaps(gap_mm):
    """A true opening takes a panel of its own size less the gap on each side."""
    opening = from_corners(RECTANGLE)
    panel = largest_panel(opening, gap_mm)
    assert (panel.width_mm, panel.height_mm) == (pytest.approx(600 - 2 * gap_mm), pytest.approx(900 - 2 * gap_mm))
    assert panel.turned_deg == pytest.approx(0, abs=1e-6)
    assert gaps_mm(opening, panel) == [(pytest.approx(gap_mm), pytest.approx(gap_mm))] * 4


# By hand: right trapezium, top from 0 to 580 and bottom from 0 to 600: standing true, a panel of full height is 580
# wide; turned along the leaning side nothing is gained. Its right edge stands off the leaning side, whose normal is
# (900, 20) / √(900² + 20²), by nothing at the top and by 20 · 900 / √(900² + 20²) = 19.995 at the bottom.
def test_panel_of_a_leaning_side_stands_true():
    """One leaning side takes off what it leans, and the gap beside it is a wedge."""
    opening = from_corners([(0, 0), (600, 0), (580, 900), (0, 900)])
    panel = largest_panel(opening, 0)
    assert panel.turned_deg == pytest.approx(0, abs=1e-6)
    assert panel.corners_mm == tuple(
        pytest.approx(corner, abs=1e-6) for corner in ((0, 0), (580, 0), (580, 900), (0, 900))
    )
    wedge = pytest.approx((0, 18_000 / math.hypot(900, 20)), abs=1e-6)
    still = pytest.approx((0, 0), abs=1e-6)
    assert gaps_mm(opening, panel) == [still, wedge, still, still]


# By hand: an opening that is nearly a triangle, bottom 1200, top 20, height 600. A panel on its bottom of height h is
# 1200 - 1180 h / 600 wide; its area is greatest where the width is half the bottom: 600, h = 600² / 1180 = 305.08.
def test_panel_under_a_narrow_top_is_half_as_wide_as_the_bottom():
    """Where no two bounds meet the best, the panel takes half of the one that counts."""
    panel = largest_panel(from_corners([(0, 0), (1200, 0), (610, 600), (590, 600)]), 0)
    assert (panel.width_mm, panel.height_mm) == (pytest.approx(600), pytest.approx(360_000 / 1180))
    assert panel.corners_mm[0] == pytest.approx((300, 0), abs=1e-6)
    assert panel.corners_mm[2] == pytest.approx((900, 360_000 / 1180))


# By hand: the same cut off at a height of 304.8, just below that: 1200 - 1180 · 304.8 / 600 = 600.56 wide there.
def test_panel_under_a_top_just_too_low_for_that_is_as_high_as_there_is_room():
    """A third of a millimetre too high is too high, even for a larger area."""
    panel = largest_panel(from_corners([(0, 0), (1200, 0), (900.28, 304.8), (299.72, 304.8)]), 0)
    assert (panel.width_mm, panel.height_mm) == (pytest.approx(600.56, abs=1e-5), pytest.approx(304.8, abs=1e-5))


# By hand: of all rectangles on one diagonal the square is the largest, with d² / 2. In this opening the diagonal from
# (460, 60) to (50, 510) is the shorter, d² = 410² + 450² = 370 600, and the square on it goes in. It is turned by
# what its diagonal is off 135°.
def test_panel_on_the_shorter_diagonal_is_a_square():
    """The best turn lies along no side here: it is found between them."""
    opening = from_corners([(-10, 10), (460, 60), (500, 550), (50, 510)])
    panel = largest_panel(opening, 0)
    assert panel.width_mm * panel.height_mm == pytest.approx(185_300, rel=1e-9)
    # the area is flat about its peak: the turn is only as near as the root of what arithmetic is off by
    assert panel.width_mm == pytest.approx(math.sqrt(185_300), abs=1e-4)
    assert panel.turned_deg == pytest.approx(math.degrees(math.atan2(450, -410)) - 135, abs=1e-5)
    assert panel.corners_mm[1] == pytest.approx((460, 60), abs=1e-6)
    assert panel.corners_mm[3] == pytest.approx((50, 510), abs=1e-6)


@pytest.mark.parametrize("degrees", [-40, 40])
def test_panel_is_found_between_sides_however_the_opening_hangs(degrees):
    """The same opening turned by 40° takes the same panel turned as much further, told from -45° to 45°."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    corners = [(cos * x - sin * z, sin * x + cos * z) for x, z in ((-10, 10), (460, 60), (500, 550), (50, 510))]
    panel = largest_panel(from_corners(corners), 0)
    assert panel.width_mm * panel.height_mm == pytest.approx(185_300, rel=1e-9)
    assert panel.turned_deg == pytest.approx(math.degrees(math.atan2(450, -410)) - 135 + degrees, abs=1e-5)


@pytest.mark.parametrize("top", [0.1, 0.37, 0.9])
def test_peak_is_narrowed_down(top):
    """The place of a peak is found to less than a hundred-millionth of where it was looked for."""
    assert _narrowed(lambda at: -abs(at - top), 0, 1) == pytest.approx(top, abs=1e-8)


# By hand: a panel of 50 by 100 turned by atan(3/4), from (100, 50) by (40, 30) along and (-60, 80) up.
def test_gaps_are_told_side_by_side():
    """For each side, bottom, right, top, left, the two corners nearest to it: the nearer and the farther."""
    turned = Panel(50, 100, math.degrees(math.atan2(3, 4)), ((100, 50), (140, 80), (80, 160), (40, 130)))
    found = gaps_mm(from_corners(RECTANGLE), turned)
    assert found == [pytest.approx(gap) for gap in ((50, 80), (460, 500), (740, 770), (40, 80))]


def test_panel_is_cornered_from_its_lower_left():
    """Corners run anticlockwise from the lower left, and the panel lies in the middle of what it leaves."""
    panel = largest_panel(from_corners([(10, 20), (610, 20), (610, 920), (10, 920)]), 5)
    expected = ((15, 25), (605, 25), (605, 915), (15, 915))
    assert panel.corners_mm == tuple(pytest.approx(corner, abs=1e-6) for corner in expected)


def test_panel_in_a_turned_opening_turns_with_it():
    """An opening that hangs by 2 degrees takes a panel turned by 2 degrees."""
    cos, sin = math.cos(math.radians(2)), math.sin(math.radians(2))
    panel = largest_panel(from_corners([(cos * x - sin * z, sin * x + cos * z) for x, z in RECTANGLE]), 5)
    assert panel.turned_deg == pytest.approx(2, abs=1e-5)
    assert (panel.width_mm, panel.height_mm) == (pytest.approx(590, abs=1e-3), pytest.approx(890, abs=1e-3))


def test_gap_that_leaves_nothing_is_refused():
    """A gap as wide as half of the opening leaves no panel."""
    opening = from_corners(RECTANGLE)
    assert largest_panel(opening, 299.9).width_mm == pytest.approx(0.2, abs=1e-3)
    lying = from_corners([(0, 0), (900, 0), (900, 600), (0, 600)])
    assert largest_panel(lying, 299.9).height_mm == pytest.approx(0.2, abs=1e-3)
    for gap_mm in (300, 301, 1000):
        with refused("out-of-range", "gap_mm"):
            largest_panel(opening, gap_mm)
    wide = from_corners([(0, 0), (9000, 0), (9000, 9000), (0, 9000)])
    check_limits(largest_panel, {"opening": wide, "gap_mm": 1.0}, "gap_mm", 0, 1000)


def test_refused_gap_is_told():
    """The refusal names the gap, also where only the narrow end of an opening is used up."""
    for corners, gap_mm in ((RECTANGLE, 300.5), (((0, 0), (4000, 0), (4000, 30), (0, 40)), 20)):
        with refused("out-of-range", "gap_mm") as caught:
            largest_panel(from_corners(corners), gap_mm)
        assert f"{gap_mm:g} mm" in caught.value.reason
        assert caught.value.value == gap_mm


def test_panel_from_the_command_line_says_how_far_out_of_square():
    """The answer holds the panel and the opening's angles and diagonals, from corners or from a tape."""
    answer = calculate("fit-panel", TAPE)
    assert (answer["width_mm"], answer["height_mm"]) == (pytest.approx(396), pytest.approx(296))
    assert answer["out_of_square_mm"] == pytest.approx(0)
    assert answer["angles_deg"] == pytest.approx([90] * 4)
    assert answer["misfit_mm"] == pytest.approx(0)
    assert answer["gaps_mm"] == [[pytest.approx(2), pytest.approx(2)]] * 4
    corners = calculate("fit-panel", {"corners_mm": [[0, 0], [400, 0], [412, 300], [12, 300]], "gap_mm": 0})
    # diagonals √(412² + 300²) and √(388² + 300²)
    assert corners["out_of_square_mm"] == pytest.approx(math.hypot(412, 300) - math.hypot(388, 300))
    assert corners["angles_deg"][0] == pytest.approx(math.degrees(math.atan2(300, 12)))
    assert corners["misfit_mm"] is None
    assert len(corners["panel_mm"]) == 4
    assert corners["opening_mm"] == [[0, 0], [400, 0], [412, 300], [12, 300]]


def test_panel_with_bad_input_is_refused():
    """Wrong numbers, shapes and keys are refused by name."""
    with refused("out-of-range", "gap_mm"):
        calculate("fit-panel", {**TAPE, "gap_mm": float("nan")})
    for key in TAPE:
        with refused("missing", key):
            calculate("fit-panel", {**TAPE, key: None})
    with refused("out-of-range", "sides_mm[1]"):
        calculate("fit-panel", {**TAPE, "sides_mm": [400, float("inf"), 400, 300]})
    for count in (3, 5):
        with refused("unsuitable-shape", "corners_mm"):
            calculate("fit-panel", {"corners_mm": [[0, place] for place in range(count)], "gap_mm": 1})
    with refused("unsuitable-shape", "corners_mm"):
        calculate("fit-panel", {"corners_mm": [[0, 0], [1, 1], [2, 2], [3, 3]], "gap_mm": 1})
