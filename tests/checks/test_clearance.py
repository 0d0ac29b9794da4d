"""Clear depth in front of a face, against closed forms and against polygon sweeps."""

from __future__ import annotations

import csv
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, unary_union
from shapely import box as rectangle

from fieldbook.checks import clearance
from fieldbook.checks.clearance import (
    Limit,
    Stretch,
    calculate,
    clear_depth,
    height_at,
    highest,
    leaf_clear_depth,
    projection_verdict,
    route_projection,
)
from fieldbook.checks.sweep import Leaf, depth_range, outline
from fieldbook.checks.verdict import Word
from fieldbook.errors import FieldbookError

CASES = Path(__file__).parent / "data" / "door_swing_cases.csv"
EXACT = 0.0001  # the printed digits of the cases


def door(w: float, t: float, e: float, p: float, opens: float) -> Leaf:
    """A leaf w wide and t thick, its room face e behind the pin, the pin p in front of the wall."""
    return Leaf((0, p), 0, opens, ((0, w, -(e + t), -e),))


def cases() -> list[dict[str, str]]:
    """The rows of the published cases."""
    with CASES.open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


@pytest.mark.parametrize("row", cases(), ids=lambda row: f"{row['open_deg']}-{row['s_from_pin_mm']}")
def test_clear_depth_beside_a_door_equals_the_closed_form(row: dict[str, str]) -> None:
    """c(s) = p + e / cos φ + s tan φ with φ = 180° − θ; unlimited beyond s_max. Source: the data file."""
    names = ("leaf_w_mm", "leaf_t_mm", "face_setback_e_mm", "pin_standoff_p_mm", "open_deg")
    leaf = door(*(float(row[name]) for name in names))
    found = leaf_clear_depth(leaf, -(s := float(row["s_from_pin_mm"])), -s)
    expected = float(row["clear_closed_mm"])
    if math.isinf(expected):
        assert found is None
    else:
        assert found == pytest.approx(expected, abs=EXACT)


@pytest.mark.parametrize(
    ("leaf", "at", "tip"),
    [
        # Handle tip: s = h cos φ + (k − e) sin φ; y = p + h sin φ + (e − k) cos φ (closed form, worked by hand).
        (Leaf((0, 12), 0, 180, ((739.999, 740.001, 49.999, 50.001),)), 740.0, -38.0),
        (Leaf((0, 12), 0, 160, ((739.999, 740.001, 49.999, 50.001),)), 712.4735, 218.1103),
        (Leaf((0, 10), 0, 110, ((865.999, 866.001, 42.999, 43.001),)), 336.5962, 809.0669),
    ],
)
def test_handle_of_a_leaf_comes_as_near_as_the_closed_form_says(leaf: Leaf, at: float, tip: float) -> None:
    """The tip of a handle is where the closed form puts it; a handle that strikes the wall comes out negative."""
    reached = depth_range(leaf, -at - 0.01, -at + 0.01)
    assert reached is not None
    assert reached[0] == pytest.approx(tip, abs=0.02)  # the box is 0.002 mm wide and the stretch 0.02 mm


def test_leaf_at_right_angles_leaves_the_hinge_side_free() -> None:
    """At 90° the leaf lies from x = e to e + t and reaches y = w + p; nothing is over the wall beside it."""
    leaf = door(926, 44, 12, 10, 90)
    assert leaf_clear_depth(leaf, -5_000, -60) is None
    assert depth_range(leaf, 12, 56)[1] == pytest.approx(936, abs=1)  # type: ignore[index]


@pytest.mark.parametrize(("e", "opens", "area"), [(0, 90, 535_911.5), (12, 110, 866_734.0)])
def test_sweep_outline_has_the_area_of_the_closed_form(e: float, opens: float, area: float) -> None:
    """Swept area = ½ θ [w² + (e + t)² − e²] + w t. Source: closed form.

    Drawn at steps of 0.1° the outer arc loses its slivers, 1e-4 of the area at most.
    """
    w, t = (800, 40) if opens == 90 else (926, 44)
    drawn = unary_union([Polygon(quad) for quad in outline(door(w, t, e, 0, opens), 0.1)]).area
    assert drawn == pytest.approx(area, rel=1e-4)


LENGTH = st.floats(-400, 900).map(lambda value: round(value, 2))


@st.composite
def leaves(draw: st.DrawFn) -> Leaf:
    """Any leaf: hinge on either side of the face, one or two boxes anywhere round it, any swing."""
    boxes = []
    for _ in range(draw(st.integers(1, 2))):
        u, v = draw(LENGTH), draw(LENGTH)
        boxes.append((u, u + draw(st.floats(5, 900)), v, v + draw(st.floats(5, 200))))
    start = draw(st.floats(-180, 180))
    hinge = (draw(st.floats(-50, 50)), draw(st.floats(-50, 50)))
    return Leaf(hinge, start, start + draw(st.floats(1, 350)), tuple(boxes))


@given(leaves(), st.floats(-1500, 1500), st.floats(0, 400))
def test_sweep_never_promises_more_room_than_there_is(leaf: Leaf, x: float, wide: float) -> None:
    """No position of the leaf reaches below what is said to be clear (positions laid out with Shapely)."""
    swept = unary_union([Polygon(quad) for quad in outline(leaf, 2)])
    met = swept.intersection(rectangle(x, -9_999, x + wide + 1e-6, 9_999))
    reached = depth_range(leaf, x, x + wide + 1e-6)
    if met.is_empty:
        return
    assert reached is not None
    assert reached[0] <= met.bounds[1] + 1e-6
    assert reached[1] >= met.bounds[3] - 1e-6


@given(leaves(), st.floats(-1500, 1500))
def test_sweep_is_reached_where_it_says(leaf: Leaf, x: float) -> None:
    """What is said to be reached lies on some position of the leaf, so no room is given away."""
    reached = depth_range(leaf, x, x)
    if reached is None:
        return
    for y in reached:
        path = seen_from_the_leaf(leaf, (x, y))
        # The path is drawn in chords of at most 0.09°, which stand off the arc by less than 0.001 mm.
        assert min(path.distance(rectangle(u0, v0, u1, v1)) for u0, u1, v0, v1 in leaf.boxes_mm) < 0.01


def seen_from_the_leaf(leaf: Leaf, point: tuple[float, float]) -> LineString:
    """The path of a fixed point in the leaf's own axes as the leaf swings: an arc about its hinge."""
    dx, dy = point[0] - leaf.hinge_mm[0], point[1] - leaf.hinge_mm[1]
    low, high = sorted((leaf.from_deg, leaf.to_deg))
    turns = [math.radians(low + (high - low) * step / 4_000) for step in range(4_001)]
    return LineString([(dx * math.cos(t) + dy * math.sin(t), dy * math.cos(t) - dx * math.sin(t)) for t in turns])


@given(leaves(), st.floats(-1000, 1000), st.floats(0, 300), st.floats(0, 300))
def test_clear_depth_over_a_wider_stretch_is_never_more(leaf: Leaf, x: float, wide: float, wider: float) -> None:
    """Looking at more of the face can only find less room."""
    near, far = leaf_clear_depth(leaf, x, x + wide), leaf_clear_depth(leaf, x - wider, x + wide + wider)
    assert near is None or (far is not None and far <= near + 1e-9)


def test_margin_is_taken_off_the_clear_depth_and_kept_beside_the_leaf() -> None:
    """The margin lessens the depth, and a stretch just beside the sweep is limited by it as well."""
    leaf = door(800, 40, 10, 12, 160)
    limit = Limit("L1", Stretch(), 20, leaf)
    at = clear_depth([limit], Stretch(-500, -500, 0, 0)).depth_mm
    assert at is not None
    assert at < 204.6269 - 20  # the stretch is widened by the margin too, where the leaf is nearer
    assert at == pytest.approx(leaf_clear_depth(leaf, -520, -480, 20))
    beside = Stretch(-765, -760, 0, 0)  # the sweep ends at s = 748.33
    assert clear_depth([limit], beside).depth_mm is not None
    assert clear_depth([Limit("L1", Stretch(), 0, leaf)], beside).depth_mm is None


def test_band_of_a_leaf_ends_a_margin_above_it() -> None:
    """Something a margin above the leaf's band is free of it."""
    limit = Limit("L1", Stretch(z_from=0, z_to=2000), 20, door(800, 40, 10, 12, 160))
    assert clear_depth([limit], Stretch(-500, -400, 2019, 2100)).limited_by is limit
    assert clear_depth([limit], Stretch(-500, -400, 2021, 2100)).limited_by is None


def test_route_leaves_what_the_width_to_keep_leaves() -> None:
    """1,350 mm today less 1,200 mm to keep leaves 150 mm (subtraction; the width is the site's own)."""
    assert route_projection(1350, 1200) == 150
    limit = Limit("R", Stretch(x_from=0, x_to=1000), 30, projection_mm=150)
    assert clear_depth([limit], Stretch(500, 600, 0, 10)).depth_mm == 120
    assert clear_depth([limit], Stretch(1001, 1100, 0, 10)).depth_mm is None


# ADA Standards (2010) 307.2: leading edges above 685 and not above 2,030 mm may project 100 mm. Printed boundary
# cases; the band and the projection are entered as the limit's own figures, the band open at its lower edge.
@pytest.mark.parametrize(
    ("edge", "projection", "word"),
    [
        (685, 150, Word.WITHIN),
        (686, 150, Word.OVER),
        (686, 100, Word.CLOSE),
        (2030, 101, Word.OVER),
        (2031, 300, Word.WITHIN),
    ],
)
def test_projection_over_a_band_of_heights_follows_the_published_cases(
    edge: float, projection: float, word: Word
) -> None:
    """A flat limit over a band gives the published answer at each edge of the band."""
    limit = Limit("protruding objects", Stretch(z_from=685.001, z_to=2030), 0, projection_mm=100)
    assert projection_verdict(projection, [limit], Stretch(0, 10, edge, edge)).word is word


def test_headroom_follows_a_sloping_floor() -> None:
    """Below the headroom over the highest floor there, only the stated projection is allowed; the margin is height."""
    floor = ((0.0, 0.0), (1000.0, 100.0))
    limit = Limit("headroom", Stretch(), 10, projection_mm=50, below_mm=tuple((x, z + 2000) for x, z in floor))
    assert clear_depth([limit], Stretch(0, 500, 2059, 2200)).depth_mm == 50
    assert clear_depth([limit], Stretch(0, 500, 2060, 2200)).depth_mm is None
    assert clear_depth([limit], Stretch(900, 2000, 2109, 2200)).depth_mm == 50


def test_height_of_a_profile_is_interpolated_and_level_beyond() -> None:
    """Between surveyed points the floor is straight, beyond them level."""
    profile = ((0.0, 10.0), (100.0, 30.0), (200.0, 0.0))
    assert [height_at(profile, x) for x in (-5, 0, 50, 150, 200, 999)] == [10, 10, 20, 15, 0, 0]
    assert highest(profile, 50, 150) == 30
    assert highest(profile, 120, 150) == 24


def test_projection_verdict_gives_figure_limit_margin_and_source() -> None:
    """The figure is rounded up, the limit down, and the margin is between them."""
    limit = Limit("L1 (door)", Stretch(), 0, projection_mm=140.97)
    verdict = projection_verdict(35.01, [limit], Stretch(0, 1, 0, 1))
    assert (verdict.word, verdict.figure, verdict.limit, verdict.margin, verdict.unit) == (
        Word.WITHIN,
        35.1,
        140.9,
        105.8,
        "mm",
    )
    assert "L1 (door)" in verdict.sentence
    assert verdict.source == clearance.SOURCE
    assert [figure for _, figure in verdict.working] == ["35.1 mm", "140.9 mm", "105.8 mm"]


@pytest.mark.parametrize(
    ("projection", "word"),
    [(90, Word.WITHIN), (95, Word.WITHIN), (95.1, Word.CLOSE), (100, Word.CLOSE), (100.1, Word.OVER)],
)
def test_projection_verdict_is_close_within_five_millimetres(projection: float, word: Word) -> None:
    """Five millimetres is what setting out on old walls can be trusted to (common practice, no source)."""
    limit = Limit("flat", Stretch(), 0, projection_mm=100)
    assert projection_verdict(projection, [limit], Stretch(0, 1, 0, 1)).word is word


def test_projection_verdict_without_limits_is_within_and_without_figure_not_known() -> None:
    """Where nothing limits the depth anything goes; where the projection is not entered nothing is known."""
    free = projection_verdict(500, [], Stretch(0, 1, 0, 1))
    assert (free.word, free.limit, free.margin) == (Word.WITHIN, None, None)
    unknown = projection_verdict(None, [], Stretch(0, 1, 0, 1))
    assert (unknown.word, unknown.missing) == (Word.NOT_KNOWN, ("projection",))


def leaf_payload(**more: Any) -> dict[str, Any]:
    """What the calculation takes for the door of the cases, opened to 160°."""
    return {"hinge_mm": [0, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]} | more


def test_calculate_gives_clear_depths_and_null_beyond_the_sweep() -> None:
    """The calculation answers each x, and null where the sweep never comes. Source: the data file."""
    found = calculate({"leaf": leaf_payload(), "margin_mm": 4, "x_mm": [-500, -760]})
    assert found["clear_mm"][0] == pytest.approx(200.6269, abs=0.001)
    assert found["clear_mm"][1] is None


def test_calculate_turns_either_way_round_alike() -> None:
    """The swing may be given from open to closed."""
    there = calculate({"leaf": leaf_payload(), "x_mm": [-500]})
    assert calculate({"leaf": leaf_payload(from_deg=160, to_deg=0), "x_mm": [-500]}) == there


@pytest.mark.parametrize(
    ("payload", "code", "field"),
    [
        ({}, "missing", "leaf"),
        ({"leaf": leaf_payload()}, "missing", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": [float("nan")]}, "out-of-range", "x_mm[0]"),
        ({"leaf": leaf_payload(), "x_mm": [2e5]}, "out-of-range", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": []}, "unsuitable-shape", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": [0], "margin_mm": -1}, "out-of-range", "margin_mm"),
        ({"leaf": leaf_payload(), "x_mm": [0], "margin": 1}, "unknown-field", "margin"),
        ({"leaf": leaf_payload(boxes_mm=[]), "x_mm": [0]}, "unsuitable-shape", "boxes_mm"),
        ({"leaf": leaf_payload(boxes_mm=[[0, 0, 1, 2]]), "x_mm": [0]}, "unsuitable-shape", "boxes_mm"),
        ({"leaf": leaf_payload(boxes_mm=[[0, 9, 2, 1]]), "x_mm": [0]}, "unsuitable-shape", "boxes_mm"),
        ({"leaf": leaf_payload(to_deg=400), "x_mm": [0]}, "out-of-range", "to_deg"),
        ({"leaf": leaf_payload(to_deg=float("inf")), "x_mm": [0]}, "out-of-range", "to_deg"),
        ({"leaf": leaf_payload(hinge_mm=[0]), "x_mm": [0]}, "not-a-number", "hinge_mm"),
        ({"leaf": leaf_payload(hinge_mm=[0, 2e6]), "x_mm": [0]}, "out-of-range", "hinge_mm[1]"),
        ([], "unsuitable-shape", None),
    ],
)
def test_calculate_unsuitable_input_is_refused_by_key(payload: Any, code: str, field: str | None) -> None:
    """What cannot be reckoned is refused with the key it is about."""
    with pytest.raises(FieldbookError) as refusal:
        calculate(payload)
    assert (refusal.value.code, refusal.value.field) == (code, field)
