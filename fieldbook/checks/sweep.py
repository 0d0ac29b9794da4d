"""What a hinged leaf passes through as it swings, reckoned exactly.

A leaf is one or more boxes in axes of its own. The boundary of what a box sweeps is made of
its edges at both ends of the swing, of the arcs its corners draw, and of the arcs on which
an edge touches a circle round the hinge; nothing is sampled, so nothing is lost between
samples. Source: plane kinematics; cases worked by hand and with polygon unions in the tests.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from ..errors import OutOfRange, UnsuitableShape
from .limits import within

FARTHEST_MM = 100_000
WIDEST_SWING_DEG = 360
UPWARDS = math.pi / 2

Point = tuple[float, float]


@dataclass(frozen=True)
class Leaf:
    """A leaf in plan axes of a face: x along it, y out of it.

    hinge_mm  (x, y) of the hinge
    from_deg, to_deg  the swing, anticlockwise from +x towards +y; in either order
    boxes_mm  (u0, u1, v0, v1) each: u along the leaf from the hinge, v at 90° anticlockwise from u
    Raises OutOfRange or UnsuitableShape for figures that make no leaf.
    """

    hinge_mm: Point
    from_deg: float
    to_deg: float
    boxes_mm: tuple[tuple[float, float, float, float], ...]

    def __post_init__(self) -> None:
        for name, value in zip(("hinge_mm[0]", "hinge_mm[1]"), self.hinge_mm, strict=True):
            within(name, value, -FARTHEST_MM, FARTHEST_MM, "mm")
        within("from_deg", self.from_deg, -720, 720, "°")
        within("to_deg", self.to_deg, -720, 720, "°")
        if abs(self.to_deg - self.from_deg) > WIDEST_SWING_DEG:
            raise OutOfRange(
                f"The leaf swings {abs(self.to_deg - self.from_deg):g}°, more than once round.",
                "Give the angles between which it really swings.",
                field="to_deg",
                value=self.to_deg,
            )
        if not self.boxes_mm:
            raise UnsuitableShape(
                "The leaf has no boxes.", "Give at least the leaf's own: u0 u1 v0 v1.", field="boxes_mm"
            )
        for box in self.boxes_mm:
            for value in box:
                within("boxes_mm", value, -FARTHEST_MM, FARTHEST_MM, "mm")
            if not (box[0] < box[1] and box[2] < box[3]):
                raise UnsuitableShape(
                    f"The box {list(box)} has no area.",
                    "Give u0 u1 v0 v1 with u0 < u1 and v0 < v1.",
                    field="boxes_mm",
                    value=box,
                )


def depth_range(leaf: Leaf, x_from_mm: float, x_to_mm: float) -> tuple[float, float] | None:
    """Least and greatest y (mm) the sweep reaches for x_from_mm <= x <= x_to_mm; None when it never gets there.

    Source: plane kinematics, exact: the extremes of the sweep's boundary over the stretch.
    """
    reached = [y for curve in _curves(leaf) for y in curve.heights(x_from_mm, x_to_mm)]
    return (min(reached), max(reached)) if reached else None


def outline(leaf: Leaf, step_deg: float = 3) -> list[list[Point]]:
    """The leaf's boxes at steps of the swing, for drawing it; not for reckoning."""
    low, high = sorted((leaf.from_deg, leaf.to_deg))
    steps = max(1, math.ceil((high - low) / step_deg))
    angles = [math.radians(low + (high - low) * step / steps) for step in range(steps + 1)]
    return [
        [_turned(leaf.hinge_mm, corner, angle) for corner in _corners(box)] for angle in angles for box in leaf.boxes_mm
    ]


@dataclass(frozen=True)
class _Edge:
    """A straight piece of the boundary."""

    start: Point
    end: Point

    def heights(self, x_from: float, x_to: float) -> Iterator[float]:
        (x0, y0), (x1, y1) = sorted((self.start, self.end))
        if x1 < x_from or x0 > x_to:
            return
        if x0 == x1:
            yield from (y0, y1)
            return
        for x in (max(x0, x_from), min(x1, x_to)):
            yield y0 + (y1 - y0) * (x - x0) / (x1 - x0)


@dataclass(frozen=True)
class _Arc:
    """A piece of a circle round the hinge, anticlockwise from `start` through `turn` radians."""

    centre: Point
    radius: float
    start: float
    turn: float

    def heights(self, x_from: float, x_to: float) -> Iterator[float]:
        # Its two ends lie on edges, which are looked at as well; so only what is between them counts here.
        angles = [-UPWARDS, UPWARDS] if x_from < self.centre[0] < x_to else []
        for x in (x_from, x_to):
            if self.radius and abs(x - self.centre[0]) <= self.radius:
                half = math.acos((x - self.centre[0]) / self.radius)
                angles += [half, -half]
        for angle in angles:
            if (angle - self.start) % math.tau <= self.turn:
                yield self.centre[1] + self.radius * math.sin(angle)


@lru_cache(maxsize=512)
def _curves(leaf: Leaf) -> tuple[_Edge | _Arc, ...]:
    low, high = (math.radians(angle) for angle in sorted((leaf.from_deg, leaf.to_deg)))
    curves: list[_Edge | _Arc] = []
    for box in leaf.boxes_mm:
        corners = _corners(box)
        for angle in (low, high):
            turned = [_turned(leaf.hinge_mm, corner, angle) for corner in corners]
            curves += [_Edge(*pair) for pair in zip(turned, turned[1:] + turned[:1], strict=True)]
        for u, v in corners + _nearest_on_edges(box):
            curves.append(_Arc(leaf.hinge_mm, math.hypot(u, v), math.atan2(v, u) + low, high - low))
    return tuple(curves)


def _corners(box: tuple[float, float, float, float]) -> list[Point]:
    u0, u1, v0, v1 = box
    return [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]


def _nearest_on_edges(box: tuple[float, float, float, float]) -> list[Point]:
    """The points where an edge comes nearest to the hinge, other than at a corner."""
    u0, u1, v0, v1 = box
    along = [(0.0, v) for v in (v0, v1)] if u0 < 0 < u1 else []
    across = [(u, 0.0) for u in (u0, u1)] if v0 < 0 < v1 else []
    return along + across


def _turned(hinge: Point, corner: Point, angle: float) -> Point:
    cosine, sine = math.cos(angle), math.sin(angle)
    return hinge[0] + corner[0] * cosine - corner[1] * sine, hinge[1] + corner[0] * sine + corner[1] * cosine
