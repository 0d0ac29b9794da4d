"""Hatching that tells in black and white what a keep-off zone forbids.

Real lines, cut to the outline, in a pattern fixed to the sheet: they come out alike wherever they are
shown, and stop short of letters. The patterns are our own; lines at 45° and even spacing as in ISO 128-3
(from memory, not seen in a readable copy). Any set of them laid over each other stays distinct from any other set.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from shapely import LineString, MultiLineString, MultiPoint, box, union_all
from shapely.geometry.base import BaseGeometry

from . import drafting as d

DOT_MM = 0.5
LARGE_MM2 = 2000.0  # of paper: larger areas are hatched half as dense
LEAST_MM = 0.3  # shorter strokes would read as dirt


@dataclass(frozen=True)
class Family:
    """Parallel lines (mm of paper): their angle, anticlockwise from the right, spacing, and what of each is drawn."""

    angle_deg: float
    spacing_mm: float
    dash_mm: tuple[float, float] | None = None


# fmt: off
FAMILIES: dict[str, tuple[Family, ...]] = {
    "drilling": (Family(45, 2),),
    "contact": (Family(45, 4), Family(135, 4)),
    "adhesive": (Family(0, 3),),
    "load": (Family(90, 3),),
    "heat": (Family(0, 2.4, (0, 2.4)),),  # dots
    "light": (Family(150, 2, (1.2, 1.8)),),  # short strokes
}
# fmt: on


def hatched(area: BaseGeometry, forbids: Iterable[str], keep_free: BaseGeometry | None = None) -> list[d.Drawn]:
    """The hatching of an area in paper millimetres, leaving out what is to be kept free for letters."""
    share = 2 if area.area > LARGE_MM2 else 1
    if keep_free is not None:
        area = area.difference(keep_free)
    families = families_of(forbids, share)
    strokes, dots = [], []
    for family in families:
        if family.dash_mm and family.dash_mm[0] == 0:
            dots += dots_of(area, family)
        else:
            strokes += lines_of(area, family)
    drawn = []
    if strokes:
        drawn.append(d.stroke(d.segments(strokes), d.NARROW, d.VERMILION))
    if dots:
        # A dot is a stroke of next to no length with round ends.
        path = "".join(f"M{d.number(x)} {d.number(y)}h0.01" for x, y in dots)
        drawn.append(d.stroke(path, DOT_MM, d.VERMILION, stroke_linecap="round"))
    return drawn


def families_of(forbids: Iterable[str], share: float = 1) -> list[Family]:
    """The families laid over each other for what a zone forbids, with their spacing times a share."""
    names = set(forbids)
    chosen = dict.fromkeys(family for name, families in FAMILIES.items() if name in names for family in families)
    return [replace(family, spacing_mm=family.spacing_mm * share) for family in chosen]


def lines_of(area: BaseGeometry, family: Family) -> list[tuple[d.Point, d.Point]]:
    """The strokes of a family inside an area."""
    if area.is_empty:
        return []
    ruled = MultiLineString(list(_ruled(area.bounds, family)))
    found = []
    for line in _lines(ruled.intersection(area)):
        for start, end in zip(line.coords, line.coords[1:], strict=False):
            if math.dist(start, end) >= LEAST_MM:
                found.append((start[:2], end[:2]))
    return found


def dots_of(area: BaseGeometry, family: Family) -> list[d.Point]:
    """The dots of a family that lie wholly inside an area, in rows that stagger."""
    inner = area.buffer(-DOT_MM / 2)
    if inner.is_empty:
        return []
    left, low, right, high = inner.bounds
    step = family.spacing_mm
    points = [
        ((column + row % 2 / 2) * step, row * step)
        for row in range(math.floor(low / step), math.ceil(high / step) + 1)
        for column in range(math.floor(left / step) - 1, math.ceil(right / step) + 1)
    ]
    inside = MultiPoint(points).intersection(inner)
    return [(point.x, point.y) for point in getattr(inside, "geoms", [inside]) if not point.is_empty]


def letters_free(boxes: Sequence[tuple[float, float, float, float]]) -> BaseGeometry:
    """What hatching leaves free: the boxes of letters, as one area."""
    return union_all([box(*each) for each in boxes])


def _ruled(bounds: tuple[float, float, float, float], family: Family) -> Iterable[LineString]:
    """Lines of a family over a box; on paper y runs down, so an angle anticlockwise has its sine turned."""
    angle = math.radians(family.angle_deg)
    along, across = (math.cos(angle), -math.sin(angle)), (math.sin(angle), math.cos(angle))
    left, top, right, bottom = bounds
    corners = [(x, y) for x in (left, right) for y in (top, bottom)]
    offsets = [x * across[0] + y * across[1] for x, y in corners]
    lengths = [x * along[0] + y * along[1] for x, y in corners]
    for step in range(math.ceil(min(offsets) / family.spacing_mm), math.floor(max(offsets) / family.spacing_mm) + 1):
        base = (across[0] * step * family.spacing_mm, across[1] * step * family.spacing_mm)
        for start, end in _dashes(min(lengths), max(lengths), family.dash_mm, step):
            yield LineString([(base[0] + along[0] * s, base[1] + along[1] * s) for s in (start, end)])


def _dashes(start: float, end: float, dash_mm: tuple[float, float] | None, row: int) -> Iterable[tuple[float, float]]:
    if dash_mm is None:
        yield start, end
        return
    period = sum(dash_mm)
    for at in range(math.floor(start / period), math.ceil(end / period) + 1):
        begin = (at + row % 2 / 2) * period
        yield begin, begin + dash_mm[0]


def _lines(shape: BaseGeometry) -> Iterable[LineString]:
    if isinstance(shape, LineString):
        return [] if shape.is_empty else [shape]
    return [line for part in getattr(shape, "geoms", []) for line in _lines(part)]
