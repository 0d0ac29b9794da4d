"""The zones that bear on a face: its own, and those of the next walls, which reach round the corner or end beside it.

Two walls that meet are unfolded, as a sheet that is laid round the corner: what lies 20 mm before it on one wall and
30 mm behind it on the other is 50 mm apart. Where they do not both stand in the plan of their room, they are taken
to meet at their ends.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.keep_off import Outline
from ..checks.sweep import Leaf
from . import geometry, walls
from .asking import NEITHER
from .finding import Blank

# Two measured ends lie no farther apart where walls meet: common practice, no source.
CORNER_MM = 50.0
READS = dict.fromkeys(
    (
        *("face.start_x_mm", "face.start_y_mm", "face.bearing_deg", "face.floor", "face.sort", "face.slope_deg"),
        *("face.left_mm", "face.bottom_mm", "face.width_mm"),
    ),
    NEITHER,
)


class Zone(NamedTuple):
    """A zone with what it forbids, its outline, and the rectangle round it: left, bottom, right, top.

    missing  the entries on which it rests that it lies there at all; () where that is certain
    """

    item: Item
    forbids: frozenset[str]
    outline: Outline
    round: tuple[float, float, float, float]
    missing: tuple[Blank, ...] = ()


def zones_of(site: Site, face: Item) -> list[Zone]:
    """The zones that bear on a face, in its axes, made once a site."""
    return site.once(("zones", face.id), lambda: [*_own(site, face), *_of_next_walls(site, face)])


def _own(site: Site, face: Item) -> Iterator[Zone]:
    return (_zone(zone, geometry.zone_outline(zone)) for zone in site.of(face, "zone"))


def _of_next_walls(site: Site, face: Item) -> Iterator[Zone]:
    """Those that come nearer to the end of their wall than their margin, or go beyond it."""
    for wall in walls.others(site, face) if walls.is_wall(face) else ():
        if zones := site.of(wall, "zone"):
            missing = walls.lacking(face, wall)
            shifts = dict.fromkeys(_at_their_ends(face, wall) if missing else _corners(face, wall))
            for zone in zones:
                yield from _shifted(face, wall, zone, shifts, missing)


def _shifted(face: Item, wall: Item, zone: Item, shifts: Iterable[float], missing: tuple[Blank, ...]) -> Iterator[Zone]:
    own, level = geometry.zone_outline(zone), walls.level_mm(face, wall)
    for shift in shifts:
        if _comes_near(face, own, shift, zone.margin_mm):
            moved = tuple((round(x + shift, 6), round(z + level, 6)) for x, z in own)
            there = {"outline": moved, "mark": f"{zone.called} of {wall.called}"}
            yield _zone(Item(zone.kind, zone.id, {**zone.values, **there}), moved, missing)


def _zone(zone: Item, outline: Outline, missing: tuple[Blank, ...] = ()) -> Zone:
    xs, zs = zip(*outline, strict=True)
    return Zone(zone, frozenset(zone.forbids), outline, (min(xs), min(zs), max(xs), max(zs)), missing)


def _comes_near(face: Item, outline: Outline, shift_mm: float, margin_mm: float) -> bool:
    left, right = walls.ends(face)
    xs = [x + shift_mm for x, _ in outline]
    return min(xs) - margin_mm < right and max(xs) + margin_mm > left


def _at_their_ends(face: Item, wall: Item) -> Iterator[float]:
    """How far a wall is shifted to lie beside a face, if it is the next on its left, and if it is on its right, mm."""
    (left, right), (its_left, its_right) = walls.ends(face), walls.ends(wall)
    yield left - its_right
    yield right - its_left


def _corners(face: Item, wall: Item) -> Iterator[float]:
    """The same at each corner where two walls meet in the plan: at their ends, or where one ends amid the other."""
    (left, right), (its_left, its_right) = walls.ends(face), walls.ends(wall)
    for end in (left, right):
        x, out = _seen_on(wall, face, end)
        before, after = x - its_left, its_right - x
        if abs(out) <= CORNER_MM and (before if end == left else after) > CORNER_MM and min(before, after) > -CORNER_MM:
            yield round(end - x, 6)
    for end in (its_left, its_right):
        x, out = _seen_on(face, wall, end)
        before, after = x - left, right - x
        beside = before if end == its_left else after
        if abs(out) <= CORNER_MM and beside > CORNER_MM and min(before, after) > -CORNER_MM:
            yield round(x - end, 6)


def _seen_on(face: Item, own: Item, x_mm: float) -> tuple[float, float]:
    """A place of one wall in the axes of another: x, and out of it, mm."""
    return walls.turned(face, own, Leaf((x_mm, 0.0), 0, 0, ((0, 1, 0, 1),))).hinge_mm
