"""Openings as measured, held against right triangles."""

from __future__ import annotations

import math
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.opening import angles_deg, from_corners, from_tape, out_of_square_mm
from tests.checks.refusals import refused

SQUARE = ((0, 0), (400, 0), (400, 300), (0, 300))
OFFS = st.floats(-40, 40)


@st.composite
def measured(draw):
    """Corners of an opening somewhat out of square, from the lower left."""
    width, height = draw(st.floats(300, 3000)), draw(st.floats(300, 3000))
    return [(x + draw(OFFS), z + draw(OFFS)) for x, z in ((0, 0), (width, 0), (width, height), (0, height))]


def tape(corners):
    """Sides and diagonals between corners, as a tape would find them."""
    sides = [math.dist(corners[start], corners[end]) for start, end in ((0, 1), (1, 2), (3, 2), (0, 3))]
    return sides, [math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])]


# Right triangle of 300, 400 and 500.
def test_opening_from_sides_and_diagonals_is_the_right_triangle_twice():
    """Sides of 400 and 300 with diagonals of 500 make a true rectangle."""
    found = from_tape((400, 300, 400, 300), (500, 500))
    assert [part for corner in found.corners_mm for part in corner] == pytest.approx([0, 0, 400, 0, 400, 300, 0, 300])
    assert found.misfit_mm == pytest.approx(0)
    assert out_of_square_mm(found) == pytest.approx(0)
    assert angles_deg(found.corners_mm) == pytest.approx([90] * 4)


@given(measured())
def test_opening_from_a_tape_has_the_sides_that_were_measured(corners):
    """Whatever the opening, its shape is found again from its sides and diagonals."""
    sides, diagonals = tape(corners)
    found = from_tape(sides, diagonals)
    assert tape(found.corners_mm)[0] == pytest.approx(sides)
    assert tape(found.corners_mm)[1] == pytest.approx(diagonals)
    assert found.misfit_mm == pytest.approx(0, abs=1e-6)
    assert out_of_square_mm(found) == pytest.approx(abs(diagonals[0] - diagonals[1]), abs=1e-6)


@given(measured())
def test_corners_come_into_order_whichever_way_they_are_given(corners):
    """The corners run anticlockwise from the lower left, in whatever order they were measured."""
    first = from_corners(corners).corners_mm
    assert first == tuple(corners)
    assert all(from_corners(order).corners_mm == first for order in permutations(corners))


def test_corners_far_from_the_datum_come_into_order_too():
    """Where the opening lies on the face does not matter."""
    for shift in ((5_000, 7_000), (-5_000, 7_000), (-5_000, -7_000), (5_000, -7_000)):
        corners = tuple((x + shift[0], z + shift[1]) for x, z in SQUARE)
        assert from_corners([corners[at] for at in (2, 0, 3, 1)]).corners_mm == corners


@given(measured())
def test_angles_add_up_to_a_full_turn(corners):
    """The four angles of an opening make 360 degrees."""
    assert math.fsum(angles_deg(corners)) == pytest.approx(360)


def test_misfit_is_how_much_longer_the_top_was_measured():
    """The sixth measure shows what the tape lost; too much of it is refused."""
    assert from_tape((400, 300, 401.9, 300), (500, 500)).misfit_mm == pytest.approx(1.9)
    assert from_tape((400, 300, 398.1, 300), (500, 500)).misfit_mm == pytest.approx(-1.9)
    for top in (402.1, 397.9):  # half a per cent of the top
        with refused("unsuitable-shape", "sides_mm"):
            from_tape((400, 300, top, 300), (500, 500))


@pytest.mark.parametrize("diagonals", [(500, 710), (500, 90), (710, 500)])
def test_measures_that_cannot_meet_are_refused(diagonals):
    """Three lengths that make no triangle were measured or entered wrongly."""
    with refused("unsuitable-shape", "diagonals_mm"):
        from_tape((400, 300, 400, 300), diagonals)


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (400, 0), (100, 100), (0, 400)],
        [(0, 0), (200, 0), (400, 0), (0, 400)],
        [(0, 0), (400, 0), (400, 0), (0, 400)],
        [(0, 0), (400, 0), (401, 9), (0, 400)],
    ],
)
def test_corners_without_four_corners_outwards_are_refused(corners):
    """A corner that points inwards, or lies on a side, on another corner or hardly off it, makes no opening."""
    with refused("unsuitable-shape", "corners_mm"):
        from_corners(corners)


def test_opening_outside_its_range_is_refused():
    """Sides, diagonals and places that cannot be are refused by name and place."""
    for place in range(4):
        for value in (9.9, 50_000.1, float("nan")):
            sides = [400.0, 300, 400, 300]
            sides[place] = value
            with refused("out-of-range", f"sides_mm[{place}]"):
                from_tape(sides, (500, 500))
    for place in range(2):
        for value in (9.9, 100_000.1):
            diagonals = [500.0, 500]
            diagonals[place] = value
            with refused("out-of-range", f"diagonals_mm[{place}]"):
                from_tape((400, 300, 400, 300), diagonals)
    for sides in ((400, 300, 400), (400, 300, 400, 300, 400)):
        with refused("out-of-range", "sides_mm"):
            from_tape(sides, (500, 500))
    for diagonals in ((500,), (500, 500, 500)):
        with refused("out-of-range", "diagonals_mm"):
            from_tape((400, 300, 400, 300), diagonals)
    for corners in (SQUARE[:3], (*SQUARE, (200, 400))):
        with refused("out-of-range", "corners_mm"):
            from_corners(corners)
    with refused("out-of-range", "corners_mm[2]"):
        from_corners([*SQUARE[:2], (400, 100_001), SQUARE[3]])
    assert from_corners([(-100_000, -100_000), (100_000, -100_000), (100_000, 100_000), (-100_000, 100_000)])
    assert from_tape((50_000, 50_000, 50_000, 50_000), (50_000 * math.sqrt(2),) * 2)
    assert from_tape((10, 10, 10, 10), (10 * math.sqrt(2),) * 2)
    assert from_corners([(0, 0), (10, 0), (10, 10), (0, 10)])


def test_corner_that_hardly_stands_out_is_refused_as_a_corner():
    """Measures that meet half a millimetre above the bottom do meet; the corner they make points inwards."""
    corners = [(0, 0), (400, 0), (390, 0.5), (0, 300)]
    with refused("unsuitable-shape", "corners_mm"):
        from_tape(*tape(corners))
