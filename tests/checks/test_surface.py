"""How proud a face stands between its readings: held against a reference library, refused where nothing was measured.

Reference: SciPy's LinearNDInterpolator, which interpolates in Delaunay triangles as well.
"""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import LinearNDInterpolator

from fieldbook.checks.surface import REACH_MM, proud_mm
from fieldbook.errors import FieldbookError

# One triangle of readings, by hand: its middle is the mean of its corners.
CORNERS = [(0, 0, 3), (900, 0, 0), (0, 900, 6)]
coordinates = st.integers(0, 3000)


def test_reading_itself_and_the_middle_of_a_triangle_are_as_by_hand() -> None:
    """At a corner its reading; in the middle the mean of three; half-way along an edge the mean of two."""
    assert proud_mm(CORNERS, 0, 900) == pytest.approx(6)
    assert proud_mm(CORNERS, 300, 300) == pytest.approx(3)
    assert proud_mm(CORNERS, 450, 0) == pytest.approx(1.5)


def test_scattered_readings_agree_with_the_reference_library() -> None:
    """A hundred random readings, at two hundred places between them; the triangles are the same."""
    chance = Random(7)
    readings = [(chance.uniform(0, 4000), chance.uniform(0, 2500), chance.gauss(0, 8)) for _ in range(100)]
    reference = LinearNDInterpolator([reading[:2] for reading in readings], [reading[2] for reading in readings])
    compared = 0
    for _ in range(200):
        x, z = chance.uniform(0, 4000), chance.uniform(0, 2500)
        expected = float(reference(x, z))
        if expected == expected:  # inside what was measured
            assert proud_mm(readings, x, z) == pytest.approx(expected, abs=1e-6)
            compared += 1
    assert compared > 150


@given(
    st.lists(st.tuples(coordinates, coordinates), min_size=3, max_size=12, unique=True),
    st.tuples(*[st.floats(-0.02, 0.02)] * 2, st.floats(-20, 20)),
    st.integers(0, 11),
    st.floats(0, 1),
)
def test_plane_comes_out_as_the_plane_it_is(
    places: list[tuple[int, int]], plane: tuple[float, float, float], start: int, share: float
) -> None:
    """Wherever the readings lie on a plane, so does every place between two of them."""
    a, b, c = plane
    readings = [(x, z, a * x + b * z + c) for x, z in places]
    (x0, z0), (x1, z1) = places[start % len(places)], places[(start + 1) % len(places)]
    x, z = x0 + share * (x1 - x0), z0 + share * (z1 - z0)
    assert proud_mm(readings, x, z) == pytest.approx(a * x + b * z + c, abs=1e-4)


def test_line_of_readings_is_read_along_it_and_a_little_beside() -> None:
    """A single level line holds for what lies within reach of it."""
    line = [(0, 1000, 0), (1000, 1000, 10), (3000, 1000, 0)]
    assert proud_mm(line, 500, 1000) == pytest.approx(5)
    assert proud_mm(line, 2000, 1000 + REACH_MM) == pytest.approx(5)


def test_single_reading_holds_within_reach() -> None:
    """And repeated readings of one place are averaged."""
    assert proud_mm([(100, 100, 4)], 150, 100) == 4
    assert proud_mm([(100, 100, 4), (100, 100, 6)], 100, 100) == 5


@pytest.mark.parametrize(("x", "z"), [(-200, 0), (1100, 0), (500, 500 + 200)])
def test_place_beside_what_was_measured_is_refused(x: float, z: float) -> None:
    """No figure is made up beyond the readings."""
    with pytest.raises(FieldbookError) as refusal:
        proud_mm([(0, 0, 3), (900, 0, 0), (0, 900, 6)], x, z)
    assert (refusal.value.code, refusal.value.field) == ("out-of-range", "surface")


@pytest.mark.parametrize("odd", [float("nan"), float("inf"), "a metre", None])
def test_place_or_reading_that_is_no_number_is_refused(odd: object) -> None:
    """Neither where it is asked for nor among the readings."""
    for readings, x in ((CORNERS, odd), ([(0, 0, odd), *CORNERS[1:]], 100)):
        with pytest.raises(FieldbookError) as refusal:
            proud_mm(readings, x, 100)  # type: ignore[arg-type]
        assert refusal.value.field in {"x_mm", "readings_mm"}


def test_face_without_readings_is_missing_them() -> None:
    """Nothing is taken for flat."""
    with pytest.raises(FieldbookError) as refusal:
        proud_mm([], 0, 0)
    assert (refusal.value.code, refusal.value.field) == ("missing", "surface")
