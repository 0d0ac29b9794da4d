"""The zones that bear on a face: its own, those of the next walls, and for holes those of the other side.

Two walls that meet are unfolded, as a sheet that is laid round the corner: what lies 20 mm before it on one wall and
30 mm behind it on the other is 50 mm apart. So are a wall and the ceiling, and a hole also goes straight. Where two
walls do not both stand in the plan of their room, they are taken to meet at their ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

from ..book.cells import CELL_MM
from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..checks.keep_off import CLOSE_MM, Outline
from . import geometry, through, walls
from .asking import NEITHER
from .finding import Blank
from .through import other_side, thickness_mm
from .zones_across import CORNER_MM, IN_WALL_MM, over_the_edge, seen_on, through_the_stone

READS = through.READS | dict.fromkeys(
    (
        *("face.start_x_mm", "face.start_y_mm", "face.bearing_deg", "face.floor", "face.sort", "face.slope_deg"),
        *("face.left_mm", "face.bottom_mm", "face.width_mm", "face.height_mm"),
        *("face.above_floor_mm", "room.ceiling_mm"),
    ),
    NEITHER,
)


class Zone(NamedTuple):
    """A zone with what it forbids, its outline, and the rectangle round it: left, bottom, right, top.

    missing  the entries on which it rests that it lies there at all; () where that is certain
    own      whether it is one of the face itself; any other counts only where it is struck, or nearly
    """

    item: Item
    forbids: frozenset[str]
    outline: Outline
    round: tuple[float, float, float, float]
    missing: tuple[Blank, ...] = ()
    own: bool = True

    def counts(self, left_mm: float) -> bool:
        """Whether it is told of where so much is left to it beyond its margin, mm."""
        return self.own or left_mm < CLOSE_MM


def zones_of(site: Site, face: Item) -> list[Zone]:
    """The zones that bear on a face, in its axes."""

    return [*own_zones(site, face), *_zones_beside(site, face)]


def zones_near(site: Site, face: Item, x_from: float, x_to: float) -> list[Zone]:
    """Those of them that count for what lies between two x: few of the next walls' do, and few changes to them."""
    columns: frozenset[int] = site.told_once(("columns of zones beside", face.id), partial(_columns, face=face.id))
    near = columns and not columns.isdisjoint(range(_column(x_from), _column(x_to) + 1))
    return zones_of(site, face) if near else own_zones(site, face)


def own_zones(site: Site, face: Item) -> list[Zone]:
    """The zones that are drawn on a face."""
    return site.once(
        ("zones", face.id), lambda: [_zone(one, geometry.zone_outline(one)) for one in site.of(face, "zone")]
    )


def _zones_beside(site: Site, face: Item) -> tuple[Zone, ...]:
    zones: tuple[Zone, ...] = site.told_once(("zones beside", face.id), partial(_beside, face=face.id))
    return zones


def _columns(site: Site, face: str) -> frozenset[int]:
    """The columns of half a metre in which zones of other walls count."""
    return frozenset(
        column
        for one in _zones_beside(site, site[face])
        for column in range(_column(one.round[0] - _out(one)), _column(one.round[2] + _out(one)) + 1)
    )


def _out(zone: Zone) -> float:
    return float(zone.item.margin_mm) + CLOSE_MM


def _column(x_mm: float) -> int:
    return math.floor(x_mm / CELL_MM)


def _beside(site: Site, face: str) -> tuple[Zone, ...]:
    own = site[face]
    found = (*_of_next_walls(site, own), *_drilled_from_behind(site, own), *_across(site, own))
    return tuple(one._replace(own=False) for one in found)


def _across(site: Site, face: Item) -> Iterator[Zone]:
    """Those that go on over the edge of a ceiling, and those that a hole comes to straight through the stone."""
    for one in over_the_edge(site, face):
        yield _seen(one.zone, one.face, one.outline)
    for one in through_the_stone(site, face):
        seen = _seen(one.zone, one.face, one.outline)
        there = Item(seen.item.kind, seen.item.id, {**seen.item.values, "safe_depth_mm": one.behind_mm})
        yield seen._replace(item=there, forbids=frozenset({"drilling"}))


def behind(site: Site, face: Item) -> list[Zone]:
    """The zones of the other side of a wall, in the axes of this; over all its width where x there is not known."""
    return site.once(("behind", face.id), lambda: list(_behind(site, face)))


def _behind(site: Site, face: Item) -> Iterator[Zone]:
    if (other := other_side(site, face)) is None:
        return
    for zone in site.of(other.face, "zone"):
        own = geometry.zone_outline(zone)
        if other.x_mm is None:
            (left, right), zs = walls.ends(face), [z - other.z_mm for _, z in own]
            part = Stretch(left, right, min(zs), max(zs))
            yield _seen(zone, other.face, geometry.stretch_outline(part), (Blank(other.said, "behind_x_mm"),))
        else:
            moved = tuple((round(other.x_mm - x, 6), round(z - other.z_mm, 6)) for x, z in own)
            yield _seen(zone, other.face, moved)


def _drilled_from_behind(site: Site, face: Item) -> Iterator[Zone]:
    """Those that forbid drilling: a hole from here keeps off what lies in the wall, or breaks out, before them."""
    thick = thickness_mm(site, face)
    for one in behind(site, face):
        if "drilling" in one.forbids:
            safe = None if thick is None else max(thick - IN_WALL_MM, 0.0) + one.item.margin_mm
            zone = Item(one.item.kind, one.item.id, {**one.item.values, "safe_depth_mm": safe})
            missing = (*one.missing, *((Blank(face, "wall_mm"),) if thick is None else ()))
            yield one._replace(item=zone, forbids=frozenset({"drilling"}), missing=missing)


def _of_next_walls(site: Site, face: Item) -> Iterator[Zone]:
    """Those that come nearer to the end of their wall than their margin, or go beyond it."""
    for wall in walls.others(site, face) if walls.is_wall(face) else ():
        missing = walls.lacking(face, wall)
        if zones := _at_an_end(site, wall) if missing else site.of(wall, "zone"):
            shifts = dict.fromkeys(_at_their_ends(face, wall) if missing else _corners(face, wall))
            for zone in zones:
                yield from _shifted(face, wall, zone, shifts, missing)


def _at_an_end(site: Site, wall: Item) -> tuple[Item, ...]:
    """The zones of a wall that bear on what lies beyond its ends, asked of so much that most changes leave them."""
    zones: tuple[Item, ...] = site.told_once(("zones at an end", wall.id), partial(_ending, wall=wall.id))
    return zones


def _ending(site: Site, wall: str) -> tuple[Item, ...]:
    left, right = walls.ends(site[wall])
    return tuple(
        zone
        for zone in site.of(site[wall], "zone")
        if min(x for x, _ in zone.outline) - zone.margin_mm < left
        or max(x for x, _ in zone.outline) + zone.margin_mm > right
    )


def _shifted(face: Item, wall: Item, zone: Item, shifts: Iterable[float], missing: tuple[Blank, ...]) -> Iterator[Zone]:
    own, level = geometry.zone_outline(zone), walls.level_mm(face, wall)
    for shift in shifts:
        if _comes_near(face, own, shift, zone.margin_mm):
            moved = tuple((round(x + shift, 6), round(z + level, 6)) for x, z in own)
            yield _seen(zone, wall, moved, missing)


def _seen(zone: Item, wall: Item, outline: Outline, missing: tuple[Blank, ...] = ()) -> Zone:
    """A zone of another wall in the axes of a face."""
    there = {"outline": outline, "mark": f"{zone.called} of {wall.called}"}
    return _zone(Item(zone.kind, zone.id, {**zone.values, **there}), outline, missing)


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
        x, out = seen_on(wall, face, end)
        before, after = x - its_left, its_right - x
        if abs(out) <= CORNER_MM and (before if end == left else after) > CORNER_MM and min(before, after) > -CORNER_MM:
            yield round(end - x, 6)
    for end in (its_left, its_right):
        x, out = seen_on(face, wall, end)
        before, after = x - left, right - x
        beside = before if end == its_left else after
        if abs(out) <= CORNER_MM and beside > CORNER_MM and min(before, after) > -CORNER_MM:
            yield round(x - end, 6)
