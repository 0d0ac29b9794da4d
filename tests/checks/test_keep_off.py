"""Distances to keep-off zones, against distances worked by hand and against a plain reckoning of segments."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon

from fieldbook.checks import keep_off
from fieldbook.checks.keep_off import area_distance, calculate, disc_distance, keep_off_verdict
from fieldbook.checks.verdict import Word
from fieldbook.errors import FieldbookError

SQUARE = ((0, 0), (100, 0), (100, 100), (0, 100))
ELL = ((0, 0), (100, 0), (100, 40), (40, 40), (40, 100), (0, 100))


@pytest.mark.parametrize(
    ("outline", "point", "radius", "distance"),
    [
        # Worked by hand from the coordinates.
        (SQUARE, (150, 50), 10, 40),
        (SQUARE, (103, 104), 0, 5),  # 3-4-5 from the corner
        (SQUARE, (50, 50), 0, -50),
        (SQUARE, (90, 50), 5, -15),
        (SQUARE, (100, 50), 5, -5),  # on the edge: the disc reaches in by its radius
        (ELL, (70, 70), 0, 30),  # in the notch of an L
        (ELL, (20, 80), 3, -23),
    ],
)
def test_distance_of_a_disc_equals_what_is_worked_by_hand(
    outline: Any, point: tuple[float, float], radius: float, distance: float
) -> None:
    """Edge to edge, negative inside."""
    assert disc_distance(outline, point, radius) == pytest.approx(distance, abs=1e-9)


COORDINATE = st.floats(-3000, 3000)


@given(st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=7), COORDINATE, COORDINATE)
def test_distance_equals_the_least_over_all_sides(corners: list[tuple[float, float]], x: float, z: float) -> None:
    """Without Shapely: the nearest point of each side by projection, inside by counting crossings."""
    shape = Polygon(corners)
    assume(shape.is_valid and shape.area > 1)
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    away = min(_to_side(x, z, *side) for side in sides)
    assume(away > 1e-6)
    expected = -away if sum(_crosses(x, z, *side) for side in sides) % 2 else away
    assert disc_distance(tuple(corners), (x, z), 0) == pytest.approx(expected, abs=1e-6)


def _to_side(x: float, z: float, start: tuple[float, float], end: tuple[float, float]) -> float:
    dx, dz = end[0] - start[0], end[1] - start[1]
    length = dx * dx + dz * dz
    along = max(0.0, min(1.0, ((x - start[0]) * dx + (z - start[1]) * dz) / length)) if length else 0.0
    return math.hypot(x - start[0] - along * dx, z - start[1] - along * dz)


def _crosses(x: float, z: float, start: tuple[float, float], end: tuple[float, float]) -> bool:
    if (start[1] > z) == (end[1] > z):
        return False
    return x < start[0] + (z - start[1]) * (end[0] - start[0]) / (end[1] - start[1])


@given(COORDINATE, COORDINATE, st.floats(0, 500), st.floats(0, 500))
def test_distance_shrinks_by_exactly_what_the_radius_grows(x: float, z: float, radius: float, more: float) -> None:
    """A wider washer comes nearer by as much."""
    assert disc_distance(SQUARE, (x, z), radius + more) == pytest.approx(disc_distance(SQUARE, (x, z), radius) - more)


@pytest.mark.parametrize(
    ("footprint", "distance"),
    [
        (((110, 0), (200, 0), (200, 50), (110, 50)), 10),
        (((103, 104), (200, 104), (200, 200), (103, 200)), 5),
        (((100, 0), (200, 0), (200, 50), (100, 50)), 0),
        (((95, 0), (200, 0), (200, 50), (95, 50)), -5),
        (((40, 40), (60, 40), (60, 45), (40, 45)), -5),
    ],
)
def test_distance_of_an_area_equals_what_is_worked_by_hand(footprint: Any, distance: float) -> None:
    """Apart: the gap; overlapping: less the lesser extent of the overlap."""
    assert area_distance(SQUARE, footprint) == pytest.approx(distance, abs=1e-9)


@pytest.mark.parametrize(
    ("distance", "margin", "word", "left"),
    [
        (60, 50, Word.WITHIN, 10),
        (55, 50, Word.WITHIN, 5),
        (54.9, 50, Word.CLOSE, 4.9),
        (50, 50, Word.CLOSE, 0),
        (49.99, 50, Word.OVER, -0.1),
        (-8, 0, Word.OVER, -8),
        (0, 0, Word.CLOSE, 0),
    ],
)
def test_verdict_compares_distance_with_margin(distance: float, margin: float, word: Word, left: float) -> None:
    """Over below the margin, close within five millimetres of it (common practice, no source)."""
    verdict = keep_off_verdict("K1", distance, margin)
    assert (verdict.word, verdict.limit, verdict.unit, verdict.source) == (word, margin, "mm", keep_off.SOURCE)
    assert verdict.margin == pytest.approx(left)
    assert "K1" in verdict.sentence
    assert len(verdict.working) == 3


@pytest.mark.parametrize(
    ("penetration", "word", "left"),
    [(20, Word.WITHIN, 10), (26, Word.CLOSE, 4), (30, Word.CLOSE, 0), (30.1, Word.OVER, -0.1)],
)
def test_verdict_in_a_zone_about_depth_compares_penetration(penetration: float, word: Word, left: float) -> None:
    """Inside a zone about depth, what counts is how deep the fixing goes: 40 mm safe less a margin of 10 mm."""
    verdict = keep_off_verdict("K2", -5, 10, penetration, 40)
    assert (verdict.word, verdict.figure, verdict.limit) == (word, penetration, 30)
    assert verdict.margin == pytest.approx(left)


def test_verdict_beside_a_zone_about_depth_is_one_of_distance() -> None:
    """Clear of the zone and its margin, depth does not matter."""
    assert keep_off_verdict("K2", 60, 10, 500, 40).figure == 60


def test_calculate_answers_with_distance_and_margin_left() -> None:
    """Worked by hand: 50 mm from the edge, less 5 mm radius, less 20 mm margin."""
    payload = {"zone_mm": [list(corner) for corner in SQUARE], "margin_mm": 20, "point_mm": [150, 50], "radius_mm": 5}
    assert calculate(payload) == {"verdict": "within", "distance_mm": 45, "margin_left_mm": 25}


@pytest.mark.parametrize(
    ("change", "code", "field"),
    [
        ({"zone_mm": None}, "missing", "zone_mm"),
        ({"zone_mm": [[0, 0], [1, 1]]}, "unsuitable-shape", "zone_mm"),
        ({"zone_mm": [[0, 0], [100, 100], [100, 0], [0, 100]]}, "unsuitable-shape", "zone_mm"),
        ({"zone_mm": [[0, 0], [10, 10], [20, 20]]}, "unsuitable-shape", "zone_mm"),
        ({"zone_mm": [[0, 0], [10, float("nan")], [20, 0]]}, "out-of-range", "zone_mm[1][1]"),
        ({"point_mm": [0]}, "not-a-number", "point_mm"),
        ({"point_mm": [0, "left"]}, "not-a-number", "point_mm[1]"),
        ({"radius_mm": -1}, "out-of-range", "radius_mm"),
        ({"margin_mm": float("inf")}, "out-of-range", "margin_mm"),
        ({"colour": "red"}, "unknown-field", "colour"),
    ],
)
def test_calculate_unsuitable_input_is_refused_by_key(change: dict[str, Any], code: str, field: str) -> None:
    """What cannot be reckoned is refused with the key it is about."""
    payload = {"zone_mm": [list(corner) for corner in SQUARE], "point_mm": [150, 50]} | change
    with pytest.raises(FieldbookError) as refusal:
        calculate(payload)
    assert (refusal.value.code, refusal.value.field) == (code, field)
