"""Distances to keep-off zones, against distances worked by hand and against a plain reckoning of segments."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import keep_off
from fieldbook.checks.keep_off import area_distance, disc_distance, keep_off_verdict, outline_of
from fieldbook.checks.verdict import Word
from fieldbook.errors import FieldbookError
from tests.checks.refusals import check_limits, refused

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


def rectangle(x: float, z: float, width: float, height: float) -> Any:
    """Corners of a rectangle from its lower left one."""
    return (x, z), (x + width, z), (x + width, z + height), (x, z + height)


RECTANGLES = st.builds(rectangle, COORDINATE, COORDINATE, st.floats(1, 2000), st.floats(1, 2000))


@given(RECTANGLES, RECTANGLES)
def test_distance_of_rectangles_equals_what_their_sides_say(one: Any, other: Any) -> None:
    """Without Shapely: apart both ways, the diagonal between corners; apart one way, the gap; else the overlap."""
    (left, low), _, (right, high), _ = one
    (left_too, low_too), _, (right_too, high_too), _ = other
    across, upright = max(left, left_too) - min(right, right_too), max(low, low_too) - min(high, high_too)
    expected = max(across, upright) if min(across, upright) <= 0 else math.hypot(across, upright)
    assert area_distance(one, other) == pytest.approx(expected, abs=1e-9)
    assert area_distance(other, one) == area_distance(one, other)


def test_outline_is_used_from_one_square_millimetre_to_two_thousand_kilometres() -> None:
    """A triangle is an outline, however large or small, as long as it has an area at all."""
    assert disc_distance(rectangle(0, 0, 1, 1), (3, 0.5), 0) == 2
    assert disc_distance(((-1e9, -1e9), (1e9, -1e9), (0, 1e9)), (0, -1e9), 0) == 0
    for beyond in ((1e9 + 1, 0), (0, -1e9 - 1), (math.nan, 0)):
        with refused("out-of-range", "zone_mm"):
            disc_distance(((0, 0), (0, 1), beyond), (0, 0), 0)
        with refused("out-of-range", "point_mm"):
            disc_distance(SQUARE, beyond, 0)


@pytest.mark.parametrize(
    ("outline", "reason"),
    [
        (((0, 0), (1, 0), (1, 0.999), (0, 0.999)), "no area"),
        # three corners in a row, each half-way but for the last binary digit: Shapely finds nothing wrong with them
        (((1.9, 1.6), (2.7, -0.1), (1.1, 3.3)), "no area"),
        (((0.3, 0.5), (-2.2, -0.2), (-4.7, -0.9)), "no area"),
        (((0, 0), (100, 100), (100, 0), (0, 100)), "Self-intersection"),
        (((0, 0), (1, 1)), "2 corners"),
    ],
)
def test_refused_outline_is_told_what_is_wrong_with_it(outline: Any, reason: str) -> None:
    """No area, sides that cross, too few corners: each is said."""
    with refused("unsuitable-shape", "zone_mm") as caught:
        disc_distance(outline, (0, 0), 0)
    assert reason in caught.value.reason


def test_corner_on_a_side_and_a_corner_given_twice_change_nothing() -> None:
    """An outline may be told with more corners than it has."""
    told = ((0, 0), (50, 0), (100, 0), (100, 0), (100, 100), (0, 100), (0, 0))
    assert disc_distance(told, (150, 50), 10) == 40
    assert disc_distance(told, (50, 30), 0) == -30


def test_keep_off_takes_its_limits_and_nothing_beyond() -> None:
    """Radius, margin and depths up to 100 m, none below nothing; a distance that is no number is refused."""
    disc: dict[str, Any] = {"outline_mm": SQUARE, "point_mm": (0, 0), "radius_mm": 0}
    check_limits(disc_distance, disc, "radius_mm", 0, 100_000)
    verdict: dict[str, Any] = {"zone": "K", "distance_mm": 0, "margin_mm": 0}
    check_limits(keep_off_verdict, verdict, "margin_mm", 0, 100_000)
    check_limits(keep_off_verdict, verdict, "distance_mm", -1e9, 1e9)
    deep = verdict | {"distance_mm": -5, "penetration_mm": 10, "safe_depth_mm": 20}
    for field in ("penetration_mm", "safe_depth_mm"):
        check_limits(keep_off_verdict, deep, field, 0, 100_000)


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
    assert [label for label, _ in verdict.working] == ["edge to edge", "margin to keep", "left"]


@pytest.mark.parametrize(
    ("penetration", "word", "left"),
    [(20, Word.WITHIN, 10), (26, Word.CLOSE, 4), (30, Word.CLOSE, 0), (30.1, Word.OVER, -0.1)],
)
def test_verdict_in_a_zone_about_depth_compares_penetration(penetration: float, word: Word, left: float) -> None:
    """Inside a zone about depth, what counts is how deep the fixing goes: 40 mm safe less a margin of 10 mm."""
    verdict = keep_off_verdict("K2", -5, 10, penetration, 40)
    assert (verdict.word, verdict.figure, verdict.limit) == (word, penetration, 30)
    assert verdict.margin == pytest.approx(left)


@pytest.mark.parametrize(
    ("distance", "penetration", "safe", "sentence"),
    [
        (60.55, None, None, "Its edge lies 60.5 mm from K1; 50 mm must be kept: 10.5 mm are left."),
        (50, None, None, "Its edge lies 50 mm from K1; 50 mm must be kept: 0 mm are left."),
        (0, None, None, "Its edge lies 0 mm from K1; 50 mm must be kept: 50 mm too near."),
        (-8, None, None, "Its edge lies 8 mm inside K1; 50 mm must be kept: 58 mm too near."),
        (
            *(-8, 10, 75),
            "It goes 10 mm deep in K1, where 75 mm less a margin of 50 mm may be penetrated: 15 mm are left.",
        ),
        (
            *(-8, 30, 75),
            "It goes 30 mm deep in K1, where 75 mm less a margin of 50 mm may be penetrated: 5 mm too near.",
        ),
    ],
)
def test_sentence_says_where_it_lies_and_what_is_left(
    distance: float, penetration: float | None, safe: float | None, sentence: str
) -> None:
    """Figures in a sentence carry no sign: a word says which way they count."""
    assert keep_off_verdict("K1", distance, 50, penetration, safe).sentence == sentence


def test_working_of_a_verdict_lists_its_figures() -> None:
    """Whoever doubts the answer finds each figure of it, by distance and by depth."""
    beside = keep_off_verdict("K1", 60.55, 50)
    assert beside.working == (("edge to edge", "60.5 mm"), ("margin to keep", "50 mm"), ("left", "10.5 mm"))
    inside = keep_off_verdict("K1", -8, 50, 10, 75.25)
    assert (inside.limit, inside.margin) == (25.2, 15.2)  # 75.25 less 50, rounded down
    assert [figure for _, figure in inside.working] == ["10 mm", "75.25 mm", "50 mm", "15.2 mm"]


def test_depth_counts_only_where_both_depths_are_known_and_only_nearer_than_the_margin() -> None:
    """Without one of the depths, and at the margin exactly, it is the distance that counts."""
    assert keep_off_verdict("K2", -5, 10, None, 40).word is Word.OVER
    assert keep_off_verdict("K2", -5, 10, 5, None).word is Word.OVER
    assert keep_off_verdict("K2", 9.99, 10, 5, 40).word is Word.WITHIN
    at = keep_off_verdict("K2", 10, 10, 500, 40)
    assert (at.word, at.figure) == (Word.CLOSE, 10)


def test_margin_missed_by_less_than_is_told_is_over_all_the_same() -> None:
    """A tenth of a micrometre too near is too near, though nothing of it shows in the figures."""
    verdict = keep_off_verdict("K1", 49.99999999999, 50)
    assert (verdict.word, verdict.figure) == (Word.OVER, 50)


def test_verdict_beside_a_zone_about_depth_is_one_of_distance() -> None:
    """Clear of the zone and its margin, depth does not matter."""
    assert keep_off_verdict("K2", 60, 10, 500, 40).figure == 60


def test_calculate_answers_with_distance_and_margin_left() -> None:
    """Worked by hand: 50 mm from the edge, less 5 mm radius, less 20 mm margin."""
    payload = {"zone_mm": [list(corner) for corner in SQUARE], "margin_mm": 20, "point_mm": [150, 50], "radius_mm": 5}
    answer = calculate("keep-off", payload)
    assert (answer["verdict"]["word"], answer["distance_mm"], answer["margin_left_mm"]) == ("within", 45, 25)


def test_calculate_takes_a_point_and_no_margin_where_they_are_left_out() -> None:
    """Without radius and margin a bare point is held against the zone's edge."""
    payload = {"zone_mm": [list(corner) for corner in SQUARE], "point_mm": [100.5, 50]}
    bare, told = calculate("keep-off", payload), calculate("keep-off", payload | {"radius_mm": 0, "margin_mm": 0})
    for answer in (bare, told):
        assert (answer["verdict"]["word"], answer["distance_mm"], answer["margin_left_mm"]) == ("close", 0.5, 0.5)
    widest = calculate("keep-off", payload | {"radius_mm": 100_000, "margin_mm": 100_000})
    assert widest["margin_left_mm"] == 0.5 - 200_000
    assert calculate("keep-off", payload | {"margin_mm": 1})["verdict"]["word"] == "over"


def test_outline_is_taken_from_any_rows_of_two() -> None:
    """Corners from a book or from JSON become pairs."""
    assert outline_of([[0, 1], [2, 3], (4, 5)]) == ((0, 1), (2, 3), (4, 5))


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
        ({"radius_mm": 100_001}, "out-of-range", "radius_mm"),
        ({"margin_mm": -1}, "out-of-range", "margin_mm"),
        ({"margin_mm": float("inf")}, "out-of-range", "margin_mm"),
        ({"colour": "red"}, "unknown-field", "colour"),
    ],
)
def test_calculate_unsuitable_input_is_refused_by_key(change: dict[str, Any], code: str, field: str) -> None:
    """What cannot be reckoned is refused with the key it is about."""
    payload = {"zone_mm": [list(corner) for corner in SQUARE], "point_mm": [150, 50]} | change
    with pytest.raises(FieldbookError) as refusal:
        calculate("keep-off", payload)
    assert (refusal.value.code, refusal.value.field) == (code, field)
