"""Packers, held against worked lines and planes and against SciPy's linear programming."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import combinations_with_replacement

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import packers
from fieldbook.checks.packers import from_box, packers_mm
from tests.checks.refusals import check_limits, check_refusals, refused
from tests.examples import examples

# Gap from a straightedge to the wall, x every 300 mm: more gap is less proud.
GAPS_MM = [6.0, 3.5, 1.0, 2.0, 4.5, 8.0, 7.0]
WALL = [(300 * place, 0, -gap) for place, gap in enumerate(GAPS_MM)]
GOOD = {"points_mm": [[0, 0, 4], [300, 0, 1], [600, 0, 0]], "plane": "plumb", "least_mm": 0.0}

TENTHS = st.integers(-400, 400).map(lambda tenths: tenths / 10)
PLACES = st.integers(0, 4000)
POINTS = st.lists(st.tuples(PLACES, PLACES, TENTHS), min_size=1, max_size=12)
PLANES = st.sampled_from(packers.PLANES)
LEAST = st.integers(0, 50).map(lambda tenths: tenths / 10)
STOCK = st.lists(st.integers(2, 60).map(lambda steps: steps / 10), min_size=1, max_size=5)


def by_library(points, plane):
    """Least sum of packers, and the least largest packer at that sum, by SciPy."""
    xs, zs, proud = np.array(points, float).T
    tilts = np.column_stack([np.ones_like(xs), xs] + ([zs] if plane == "free" else []))
    count, size = tilts.shape
    free = [(None, None)] * (size + 1)
    least_sum = linprog(tilts.sum(axis=0), A_ub=-tilts, b_ub=-proud, bounds=free[:-1])
    sums = [np.append(tilts.sum(axis=0), 0)]
    above, below = np.column_stack([-tilts, np.zeros(count)]), np.column_stack([tilts, -np.ones(count)])
    # 1e-7 mm of room in the sum, which the library needs to find anything at all
    bounds = np.concatenate([-proud, proud, [least_sum.fun + 1e-7]])
    least_largest = linprog([0] * size + [1], A_ub=np.vstack([above, below, sums]), b_ub=bounds, bounds=free)
    return least_sum.fun - proud.sum(), least_largest.fun


# Batten on high spots, smallest total shim: line of slope 1/300 through -1, reckoned apart with SciPy: sum 18.
def test_packers_agree_with_the_worked_line():
    """The wall worked apart needs the packers worked apart, in either plane."""
    expected = [7, 3.5, 0, 0, 1.5, 4, 2]
    assert packers_mm(WALL, "plumb") == expected
    assert packers_mm(WALL, "free") == expected
    assert math.fsum(expected) == 18


# By hand: gaps 5, 2, 4 at z 0 and 9, 4, 6 at z 900. The plane rests on the two points at x = 600 and may still
# turn about them, with packers 3-d, 0, 2+d below and 5-d, 0, 2+d above: the thickest is least, 3.5, at d = 1.5.
def test_packers_agree_with_the_worked_plane():
    """The wall of two rows worked apart needs the packers worked apart."""
    gaps = {(0, 0): 5, (600, 0): 2, (1200, 0): 4, (0, 900): 9, (600, 900): 4, (1200, 900): 6}
    points = [(x, z, -gap) for (x, z), gap in gaps.items()]
    found = packers_mm(points, "free")
    assert found == [1.5, 0, 3.5, 3.5, 0, 3.5]


@given(POINTS, PLANES)
@example([(0, 0, 0.0), (600, 0, 5.0), (0, 900, 3.0), (600, 900, 0.0)], "free")
@example([(0, 0, 1.0), (0, 500, 2.0), (0, 900, 3.0)], "plumb")
@example([(0, 0, 1.0), (100, 100, 2.0), (300, 300, 0.0)], "free")
def test_packers_are_the_least_the_library_finds(points, plane):
    """No plane needs less in sum, nor, at that sum, a thinner thickest packer."""
    found = packers_mm(points, plane)
    least_sum, least_largest = by_library(points, plane)
    # 1e-4: what the room in the library's sum lets the largest packer change by
    assert math.fsum(found) == pytest.approx(least_sum, abs=1e-6)
    assert max(found) == pytest.approx(least_largest, abs=1e-4)


@given(POINTS, PLANES, LEAST)
def test_packers_are_never_below_the_least_and_touch_somewhere(points, plane, least_mm):
    """Every packer is at least the thinnest wanted, and one is just that."""
    found = packers_mm(points, plane, least_mm)
    assert min(found) == pytest.approx(least_mm, abs=1e-12)


@given(POINTS, PLANES, LEAST)
def test_packers_bring_the_wall_to_one_plane(points, plane, least_mm):
    """The fronts of all packers lie in one plane, upright where plumb was asked."""
    found = packers_mm(points, plane, least_mm)
    xs, zs, proud = np.array(points, float).T
    tilts = np.column_stack([np.ones_like(xs), xs] + ([zs] if plane == "free" else []))
    fronts = proud + np.array(found)
    fit = np.linalg.lstsq(tilts, fronts, rcond=None)[0]
    assert np.abs(tilts @ fit - fronts).max() < 1e-6


@given(POINTS, PLANES)
def test_packers_do_not_change_with_where_the_wall_is_measured_from(points, plane):
    """Another datum, and a wall measured from further away, need the same packers."""
    moved = [(x + 750, z - 1200, proud + 33.3) for x, z, proud in points]
    assert packers_mm(moved, plane) == pytest.approx(packers_mm(points, plane), abs=1e-9)


def test_packers_of_one_point_are_the_least_wanted():
    """A single fixing needs no packer but the one that is wanted anyway."""
    assert packers_mm([(10, 20, 30)], "free") == [0]
    assert packers_mm([(10, 20, 30)], "plumb", 2) == [2]


def test_packers_of_four_corners_share_the_twist():
    """A twisted opening rests on two corners; the tie is settled for the thinner thickest packer."""
    assert packers_mm([(0, 0, 0), (600, 0, 5), (0, 900, 3), (600, 900, 0)], "free") == [4, 0, 0, 4]


def test_packers_for_five_hundred_points_are_found():
    """A wall of 500 points is answered, and agrees with the library."""
    points = [(40 * (n % 25), 60 * (n // 25), ((n * 7919) % 211) / 10) for n in range(500)]
    assert math.fsum(packers_mm(points, "free")) == pytest.approx(by_library(points, "free")[0], abs=1e-6)


def nearest_sum(wanted, stock, least):
    """How far off the nearest sum of thicknesses is, by trying all of up to 12 mm, in whole hundredths."""
    sums = {0}
    for thickness in {round(100 * piece) for piece in stock}:
        for total in sorted(sums):
            sums.update(range(total, 1201, thickness))
    return min(abs(Fraction(total, 100) - wanted) for total in sums if total >= least)


@given(
    st.lists(st.tuples(PLACES, st.just(0), st.integers(-80, 80).map(lambda n: n / 10)), min_size=1, max_size=5), STOCK
)
def test_pieces_from_the_box_are_the_nearest_there_are(points, stock):
    """No other stack from the box comes nearer to what the plane wants."""
    exact = packers_mm(points, "plumb")
    stacks, off = from_box(points, "plumb", stock)
    sums = [sum(Fraction(str(piece)) for piece in stack) for stack in stacks]
    for total, wanted in zip(sums, exact, strict=True):
        if wanted < 5:
            assert float(abs(total - Fraction(wanted))) == pytest.approx(
                float(nearest_sum(Fraction(wanted), stock, 0)), abs=1e-9
            )
    assert off == pytest.approx(
        max(abs(float(total) - wanted) for total, wanted in zip(sums, exact, strict=True)), abs=1e-9
    )
    assert {piece for stack in stacks for piece in stack} <= set(stock)


@given(POINTS, PLANES, STOCK, LEAST)
def test_pieces_from_the_box_are_never_thinner_than_the_least(points, plane, stock, least_mm):
    """Every stack reaches the thinnest packer wanted."""
    stacks, _ = from_box(points, plane, stock, least_mm)
    assert all(math.fsum(stack) >= least_mm - 1e-9 for stack in stacks)


def test_box_prefers_few_pieces_and_then_the_thinner_stack():
    """Equally near stacks are told apart by the number of pieces, then by thickness; the thickest piece comes first."""
    points = [(0, 0, 10), (300, 0, 0), (600, 0, 10)]
    assert from_box(points, "plumb", [1, 2, 3, 5])[0] == [[], [5, 5], []]
    # 3.5 wanted: 3 is one piece, 4 are two
    assert from_box([(0, 0, 3.5), (300, 0, 0), (600, 0, 3.5)], "plumb", [1, 2, 3])[0][1] == [3]
    # 2.5 wanted: 2 and 3 are one piece each
    assert from_box([(0, 0, 2.5), (300, 0, 0), (600, 0, 2.5)], "plumb", [2, 3])[0][1] == [2]
    # 2.5 wanted: 2 are two pieces, 3 is one
    assert from_box([(0, 0, 2.5), (300, 0, 0), (600, 0, 2.5)], "plumb", [1, 3])[0][1] == [3]
    # 8 of 6, 5 and 2: 6 and 2
    assert from_box([(0, 0, 8), (300, 0, 0), (600, 0, 8)], "plumb", [2, 5, 6])[0][1] == [6, 2]


@examples(30)
@given(st.lists(st.integers(1, 12), min_size=1, max_size=4, unique=True), st.integers(1, 24))
@example([1, 3, 4], 6)  # 3 and 3, not 4 and 1 and 1
def test_stack_has_as_few_pieces_as_any_of_its_height(stock, wanted):
    """Of all stacks as high as the one that is taken, none has fewer pieces (by trying them all)."""
    stack = from_box([(0, 0, wanted), (300, 0, 0), (600, 0, wanted)], "plumb", stock)[0][1]
    fewest = next(
        count
        for count in range(25)
        if any(sum(pieces) == sum(stack) for pieces in combinations_with_replacement(stock, count))
    )
    assert len(stack) == fewest


# By hand: on a wall that leans in by 10 mm over 1000 mm of height, points at the bottom are 10 mm prouder than those
# on top. Upright work needs 10 mm behind each point on top; work that may lean lies on the wall.
def test_upright_work_on_a_leaning_wall_needs_packers_where_leaning_work_needs_none():
    """Plumb keeps the work upright at the cost of packers; free lets it lean with the wall."""
    points = [(0, 0, 10), (800, 0, 10), (0, 1000, 0), (800, 1000, 0)]
    assert packers_mm(points, "plumb") == [0, 0, 10, 10]
    assert packers_mm(points, "free") == [0, 0, 0, 0]
    assert from_box(points, "plumb", [2, 5])[0] == [[], [], [5, 5], [5, 5]]
    assert from_box(points, "free", [2, 5])[0] == [[], [], [], []]


@examples(30)
@given(POINTS)
def test_work_that_may_lean_never_needs_more_than_upright_work(points):
    """Every upright plane may be taken by work that may lean, so its packers come to no more."""
    assert math.fsum(packers_mm(points, "free")) <= math.fsum(packers_mm(points, "plumb")) + 1e-9


@examples(30)
@given(POINTS, st.integers(-200, 200).map(lambda slope: slope / 1000))
def test_wall_that_turns_away_is_followed_and_one_that_leans_only_by_free_work(points, slope):
    """A wall turned as seen from above needs the same packers either way; a leaning one only where work may lean."""
    turned = [(x, z, proud + slope * x) for x, z, proud in points]
    leaning = [(x, z, proud + slope * z) for x, z, proud in points]
    for plane in packers.PLANES:
        assert packers_mm(turned, plane) == pytest.approx(packers_mm(points, plane), abs=1e-6)
    assert packers_mm(leaning, "free") == pytest.approx(packers_mm(points, "free"), abs=1e-6)


def test_box_without_a_piece_thin_enough_moves_the_plane_out():
    """Where the thinnest stack is thicker than the least wanted, the plane starts from that stack."""
    stacks, off = from_box([(0, 0, 0), (300, 0, 0)], "plumb", [5], 2)
    assert (stacks, off) == ([[5], [5]], 0)


def test_work_left_off_the_plane_is_told():
    """The largest difference between stack and plane is given."""
    answer = calculate(
        "packers", {"points_mm": [list(point) for point in WALL], "plane": "plumb", "stock_mm": [1, 2, 5]}
    )
    assert answer["packers_mm"] == [7, 3, 0, 0, 1, 4, 2]
    assert answer["made_of"] == [[5, 2], [2, 1], [], [], [1], [2, 2], [2]]
    assert answer["out_of_plane_mm"] == 0.5


def test_packers_from_the_command_line_are_exact_without_a_box():
    """Without stock the packers are exact and nothing is left off the plane."""
    answer = calculate("packers", GOOD)
    assert answer["packers_mm"] == [0, 1, 0]
    assert answer["out_of_plane_mm"] == 0
    assert "made_of" not in answer
    assert calculate("packers", {**GOOD, "least_mm": None})["packers_mm"] == [0, 1, 0]


def test_packers_outside_their_range_are_refused():
    """Walls, packers and boxes that cannot be are refused by name and place."""
    points = [(0, 0, 0), (1, 0, 0)]
    good = {"points_mm": points, "plane": "plumb", "least_mm": 0.0}
    check_limits(packers_mm, good, "least_mm", 0, 500)
    for axis in range(3):
        limit, beyond = [0.0] * 3, [0.0] * 3
        limit[axis], beyond[axis] = 100_000, 100_001
        packers_mm([*points, limit, [-part for part in limit]], "free")
        with refused("out-of-range", "points_mm[2]"):
            packers_mm([*points, beyond], "free")
    with refused("out-of-range", "points_mm"):
        packers_mm([], "free")
    with refused("out-of-range", "points_mm"):
        packers_mm([(0, 0, 0)] * 2001, "free")
    with refused("not-a-choice", "plane"):
        packers_mm(points, "level")
    with refused("out-of-range", "packers_mm"):
        from_box([(0, 0, 0), (1, 0, 501), (2, 0, 0), (3, 0, 501)], "plumb", [5])


@pytest.mark.parametrize(
    ("stock", "field"),
    [([0.09], "stock_mm[0]"), ([1, 100.1], "stock_mm[1]"), ([1.005], "stock_mm[0]"), ([1] * 51, "stock_mm")],
)
def test_box_that_cannot_be_is_refused(stock, field):
    """Thicknesses too thin, too thick or too fine, and too many of them, are refused."""
    with refused("out-of-range", field):
        from_box([(0, 0, 0)], "plumb", stock)
    assert from_box([(0, 0, 0)], "plumb", [0.1, 100, 1.01])[1] == 0


def test_packers_with_bad_input_are_refused():
    """Numbers that are none, wrong shapes and unknown keys are refused by name."""
    check_refusals("packers", GOOD, ())
    with refused("out-of-range", "least_mm"):
        calculate("packers", {**GOOD, "least_mm": float("nan")})
    with refused("missing", "points_mm"):
        calculate("packers", {"plane": "free"})
    with refused("missing", "plane"):
        calculate("packers", {"points_mm": [[0, 0, 0]]})
    with refused("out-of-range", "points_mm[0][2]"):
        calculate("packers", {**GOOD, "points_mm": [[0, 0, float("nan")]]})
    with refused("not-a-number", "points_mm[0]"):
        calculate("packers", {**GOOD, "points_mm": [[0, 0]]})
    with refused("not-a-choice", "plane"):
        calculate("packers", {**GOOD, "plane": "level"})
    for stock in ([], "box"):
        with refused("unsuitable-shape", "stock_mm"):
            calculate("packers", {**GOOD, "stock_mm": stock})
