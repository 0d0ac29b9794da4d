"""Hatching: inside its area, even, and telling one thing forbidden from another without colour."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box, union_all
from shapely.geometry.base import BaseGeometry

from fieldbook.drawing import hatching
from fieldbook.drawing.hatching import FAMILIES, Family, dots_of, families_of, hatched, lines_of
from fieldbook.model.choices import FORBIDDEN
from tests.drawing.drawn import points_of, read
from tests.examples import examples

SQUARE = box(10, 10, 60, 60)
SETS = [set(some) for size in range(1, len(FORBIDDEN) + 1) for some in combinations(FORBIDDEN, size)]


@st.composite
def areas(draw: st.DrawFn) -> Polygon:
    """Star-shaped outlines, convex or not."""
    radii = draw(st.lists(st.floats(2, 60), min_size=3, max_size=9))
    turns = [math.tau * index / len(radii) for index in range(len(radii))]
    return Polygon([(100 + r * math.cos(turn), 100 + r * math.sin(turn)) for r, turn in zip(radii, turns, strict=True)])


def test_each_thing_that_can_be_forbidden_has_its_hatching() -> None:
    """No zone is left blank."""
    assert set(FAMILIES) == set(FORBIDDEN)


@examples(40)
@given(areas(), st.sampled_from(SETS))
def test_hatching_stays_inside_its_area(area: Polygon, forbids: set[str]) -> None:
    """No stroke and no dot leaves the outline, but for the rounding of what is written."""
    allowed = area.buffer(0.01)
    for drawn in hatched(area, forbids):
        path = read(drawn)
        if path.get("stroke-linecap") == "round":
            continue  # dots have a test of their own
        points = points_of(path)
        assert all(allowed.covers(LineString(pair)) for pair in zip(points[::2], points[1::2], strict=True))


@examples(20)
@given(areas())
def test_dots_lie_wholly_inside_their_area(area: Polygon) -> None:
    """A dot is never cut by the outline."""
    (family,) = FAMILIES["heat"]
    assert all(area.buffer(0.001).covers(Point(dot).buffer(hatching.DOT_MM / 2)) for dot in dots_of(area, family))


def test_strokes_lie_at_their_angle_and_spacing() -> None:
    """Drilling is hatched at 45°, rising to the right, 2 mm from stroke to stroke."""
    strokes = lines_of(SQUARE, Family(45, 2))
    directions = {round(math.degrees(math.atan2(-(y1 - y0), x1 - x0)) % 180, 6) for (x0, y0), (x1, y1) in strokes}
    assert directions == {45}
    offsets = sorted({round((x0 + y0) / math.sqrt(2), 6) for (x0, y0), _ in strokes})
    assert {round(after - before, 6) for before, after in zip(offsets, offsets[1:], strict=False)} == {2}


def test_hatching_stops_short_of_letters() -> None:
    """Letters stand on clean paper."""
    letters = (20, 20, 40, 26)
    (drawn,) = hatched(SQUARE, ["drilling"], hatching.letters_free([letters]))
    points = points_of(read(drawn))
    inside = box(*letters).buffer(-0.01)
    assert points
    assert not any(inside.intersects(LineString(pair)) for pair in zip(points[::2], points[1::2], strict=True))


def test_any_two_sets_of_things_forbidden_look_different_without_colour() -> None:
    """Which families of lines and dots are laid over each other tells exactly what is forbidden."""
    seen = {frozenset(families_of(forbids)) for forbids in SETS}
    assert len(seen) == len(SETS)


@pytest.mark.parametrize(("one", "other"), list(combinations(FORBIDDEN, 2)))
def test_patterns_of_two_things_differ_in_print(one: str, other: str) -> None:
    """Drawn one over the other, a good part of the ink of each lies where the other has none."""
    ink = [_ink(FAMILIES[name]) for name in (one, other)]
    for mine, others in (ink, ink[::-1]):
        assert mine.difference(others).area > 0.3 * mine.area


def _ink(families: tuple[Family, ...]) -> BaseGeometry:
    dotted = [family for family in families if family.dash_mm and family.dash_mm[0] == 0]
    dots = [Point(dot).buffer(hatching.DOT_MM / 2) for family in dotted for dot in dots_of(SQUARE, family)]
    ruled = [family for family in families if family not in dotted]
    strokes = [LineString(pair).buffer(0.125) for family in ruled for pair in lines_of(SQUARE, family)]
    return union_all(dots + strokes)
