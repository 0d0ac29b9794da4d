"""What a leaf passes through, against closed forms, distances worked by hand, and polygon sweeps."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, unary_union
from shapely import box as rectangle

from fieldbook.checks.sweep import Leaf, depth_range, outline
from tests.checks.doors import door, leaves
from tests.checks.refusals import refused


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


@pytest.mark.parametrize(("e", "opens", "area"), [(0, 90, 535_911.5), (12, 110, 866_734.0)])
def test_sweep_outline_has_the_area_of_the_closed_form(e: float, opens: float, area: float) -> None:
    """Swept area = ½ θ [w² + (e + t)² − e²] + w t. Source: closed form.

    Drawn at steps of 0.1° the outer arc loses its slivers, 1e-4 of the area at most.
    """
    w, t = (800, 40) if opens == 90 else (926, 44)
    drawn = unary_union([Polygon(quad) for quad in outline(door(w, t, e, 0, opens), 0.1)]).area
    assert drawn == pytest.approx(area, rel=1e-4)


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


# A box of 400 by 600 mm whose hinge is at the middle of its left edge, turned from 0° to 90°. Its right corners lie
# 500 mm from the hinge at ±36.87° (3-4-5), so that they run from -36.87° to 53.13° and from 36.87° to 126.87°; its
# left corners 300 mm from it, from -90° to 0° and from 90° to 180°. At 0° it covers x 0 to 400 and y -300 to 300, at
# 90° x -300 to 300 and y 0 to 400.
QUARTER = (0, 400, -300, 300)


@pytest.mark.parametrize(
    ("x_from", "x_to", "reached"),
    [
        (-9999, 9999, (-300, 500)),
        (500, 500, (0, 0)),  # the outermost point of the right corner's arc
        (500.001, 600, None),
        (450, 450, (-math.sqrt(500**2 - 450**2), math.sqrt(500**2 - 450**2))),
        (450, 480, (-math.sqrt(500**2 - 450**2), math.sqrt(500**2 - 450**2))),
        (400, 400, (-300, 300)),
        (0, 0, (-300, 500)),
        (-100, -100, (0, math.sqrt(500**2 - 100**2))),
        (-200, -100, (0, math.sqrt(500**2 - 100**2))),
        (-300, -300, (0, 400)),
        (-400, -300, (0, 400)),
        (-400, -300.001, None),
    ],
)
@pytest.mark.parametrize("hinge", [(0, 0), (700, -90)])
def test_quarter_turn_reaches_what_is_worked_by_hand(
    x_from: float, x_to: float, reached: Any, hinge: tuple[float, float]
) -> None:
    """Ends of the swing, arcs of the corners and their outermost points, each where the figures say.

    The same leaf half a turn further on reaches the same with both axes turned about.
    """
    x, y = hinge
    low, high = reached or (0, 0)
    here, opposite = Leaf(hinge, 0, 90, (QUARTER,)), Leaf(hinge, 180, 270, (QUARTER,))
    assert depth_range(here, x + x_from, x + x_to) == (reached and pytest.approx((y + low, y + high), abs=1e-9))
    # half a thousandth more, so that half a turn in floating point still touches what is touched exactly
    there = depth_range(opposite, x - x_to - 5e-4, x - x_from + 5e-4)
    assert there == (reached and pytest.approx((y - high, y - low), abs=1))


def test_arc_reaches_its_lowest_and_highest_points() -> None:
    """A corner 500 mm from its hinge that passes straight below it is 500 mm below it; straight above, above."""
    assert depth_range(Leaf((0, 0), 180, 270, (QUARTER,)), -1, 1)[0] == -500  # type: ignore[index]
    assert depth_range(Leaf((0, 0), 0, 90, (QUARTER,)), -1, 1)[1] == 500  # type: ignore[index]


# A leaf that passes its hinge at a distance of 50 mm: seen from the hinge its near edge always touches a circle of
# 50 mm, at 90° + the turn, as long as the foot of the perpendicular lies on the edge; else its corner is nearest.
@pytest.mark.parametrize(
    ("along", "nearest"),
    [((-300, 300), 50), ((-300, 0.5), 50), ((-0.5, 300), 50), ((0.5, 300), 50.0025), ((-300, -0.5), 50.0025)],
)
@pytest.mark.parametrize("across", [False, True])
def test_edge_that_passes_the_hinge_keeps_to_its_circle(
    along: tuple[float, float], nearest: float, across: bool
) -> None:
    """At x = -25 the circle stands at √(r² − 25²); a corner half a millimetre off has r² = 50² + 0.5²."""
    box = (50, 80, -along[1], -along[0]) if across else (*along, 50, 80)
    turned = 90 if across else 0
    leaf = Leaf((0, 0), turned - 60, turned + 60, (box,))
    reached = depth_range(leaf, -25, -25)
    assert reached is not None
    assert reached[0] == pytest.approx(math.sqrt(nearest**2 - 25**2), abs=1e-5)


def test_edge_stands_as_the_end_of_the_swing_leaves_it() -> None:
    """Turned by no more than 45°, the edge at x = -40 stands at 50 / cos 45° − 40 tan 45°, not on its circle."""
    leaf = Leaf((0, 0), -45, 45, ((-300, 300, 50, 80),))
    reached = depth_range(leaf, -40, -40)
    assert reached is not None
    assert reached[0] == pytest.approx(50 * math.sqrt(2) - 40)


def test_place_touched_by_an_edge_alone_is_reached() -> None:
    """What is touched exactly counts, even where the arc of the corner misses it by a rounding."""
    assert depth_range(Leaf((0, 0), 0, 90, ((0, 307, -20, 0),)), 307, 400)[0] == pytest.approx(-20)  # type: ignore[index]
    assert depth_range(Leaf((0, 0), 0, 0, ((-300, -20, -20, 20),)), -309, -300) == (-20, 20)


def test_arc_is_followed_up_to_the_ends_of_a_stretch() -> None:
    """Where an arc is highest at the end of a stretch, it counts there, whatever the roundings."""
    # the corner lies √(300² + 40²) from the hinge and passes over x = 20 at √(300² + 40² − 20²)
    reached = depth_range(Leaf((0, 0), 0, 120, ((0, 300, -40, 0),)), 20, 25)
    assert reached == pytest.approx((-40, math.sqrt(91_200)))


def test_leaf_with_a_corner_on_its_hinge_is_reckoned() -> None:
    """A corner that does not move draws no arc."""
    assert depth_range(Leaf((0, 0), 0, 0, ((0, 100, 0, 40),)), 0, 10) == (0, 40)


@given(leaves(), st.floats(-500, 500), st.floats(-500, 500), st.floats(-1500, 1500), st.floats(0, 400))
def test_sweep_moves_with_its_hinge(leaf: Leaf, dx: float, dy: float, x: float, wide: float) -> None:
    """A leaf hung elsewhere reaches as far from there; its swing may be told from either end."""
    moved = Leaf((leaf.hinge_mm[0] + dx, leaf.hinge_mm[1] + dy), leaf.to_deg, leaf.from_deg, leaf.boxes_mm)
    there = depth_range(moved, x + dx - 1e-6, x + dx + wide + 1e-6)  # so that touching stays touching
    here = depth_range(leaf, x, x + wide)
    if here is None:
        return
    assert there is not None
    assert there[0] <= here[0] + dy + 1e-6
    assert there[1] >= here[1] + dy - 1e-6


def test_outline_shows_the_leaf_at_even_steps_from_one_end_to_the_other() -> None:
    """At most three degrees lie between two pictures unless another step is asked; both ends are shown."""
    leaf = Leaf((5, 7), 90, 0, ((0, 10, 0, 2), (10, 12, 0, 4)))
    drawn = outline(leaf)
    assert len(drawn) == 2 * 31
    assert drawn[0] == [pytest.approx(corner) for corner in ((5, 7), (15, 7), (15, 9), (5, 9))]
    assert drawn[-1] == [pytest.approx(corner) for corner in ((5, 17), (5, 19), (1, 19), (1, 17))]
    assert drawn[60] == [pytest.approx(corner) for corner in ((5, 7), (5, 17), (3, 17), (3, 7))]
    # 90° by 4° is 22.5: 23 steps
    assert len(outline(leaf, 4)) == 2 * 24
    still = outline(Leaf((0, 0), 30, 30, ((0, 10, 0, 2),)))
    assert len(still) == 2
    assert still[0] == still[1]


@pytest.mark.parametrize(
    ("change", "code", "field"),
    [
        ({"hinge_mm": (100_000.1, 0)}, "out-of-range", "hinge_mm[0]"),
        ({"hinge_mm": (0, -100_000.1)}, "out-of-range", "hinge_mm[1]"),
        ({"from_deg": -720.1, "to_deg": -720}, "out-of-range", "from_deg"),
        ({"from_deg": 720.1, "to_deg": 720}, "out-of-range", "from_deg"),
        ({"from_deg": -720, "to_deg": -720.1}, "out-of-range", "to_deg"),
        ({"from_deg": 720, "to_deg": 720.1}, "out-of-range", "to_deg"),
        ({"to_deg": 360.1}, "out-of-range", "to_deg"),
        ({"to_deg": -360.1}, "out-of-range", "to_deg"),
        ({"boxes_mm": ()}, "unsuitable-shape", "boxes_mm"),
        ({"boxes_mm": ((0, 9, 0, 9), (0, 100_000.1, 0, 9))}, "out-of-range", "boxes_mm"),
        ({"boxes_mm": ((-100_000.1, 9, 0, 9),)}, "out-of-range", "boxes_mm"),
        ({"boxes_mm": ((9, 9, 0, 9),)}, "unsuitable-shape", "boxes_mm"),
        ({"boxes_mm": ((0, 9, 9, 9),)}, "unsuitable-shape", "boxes_mm"),
        ({"boxes_mm": ((9, 0, 0, 9),)}, "unsuitable-shape", "boxes_mm"),
        ({"boxes_mm": ((0, 9, 9, 0),)}, "unsuitable-shape", "boxes_mm"),
    ],
)
def test_figures_that_make_no_leaf_are_refused(change: dict[str, Any], code: str, field: str) -> None:
    """A hinge, a swing or a box that cannot be is refused by its name."""
    good: dict[str, Any] = {"hinge_mm": (0, 0), "from_deg": 0, "to_deg": 90, "boxes_mm": ((0, 9, 0, 9),)}
    with refused(code, field):
        Leaf(**good | change)


def test_refused_swing_is_told_in_degrees() -> None:
    """The refusal says how far the leaf would swing, from either end."""
    for ends in ((-90, 360), (360, -90)):
        with refused("out-of-range", "to_deg") as caught:
            Leaf((0, 0), *ends, ((0, 9, 0, 9),))
        assert " 450°" in caught.value.reason


@pytest.mark.parametrize(
    "change",
    [
        {"hinge_mm": (100_000, -100_000)},
        {"from_deg": 720, "to_deg": 720},
        {"from_deg": -720, "to_deg": -720},
        {"to_deg": 360},
        {"to_deg": -360},
        {"boxes_mm": ((-100_000, 100_000, -100_000, 100_000),)},
    ],
)
def test_leaf_takes_its_limits(change: dict[str, Any]) -> None:
    """The largest figures a leaf may have are taken, once round among them."""
    good: dict[str, Any] = {"hinge_mm": (0, 0), "from_deg": 0, "to_deg": 90, "boxes_mm": ((0, 9, 0, 9),)}
    assert depth_range(Leaf(**good | change), -100_000, 100_000) is not None
