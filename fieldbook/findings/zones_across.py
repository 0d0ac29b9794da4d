"""Zones of other faces of a room as a face sees them otherwise than round the corner of two walls.

Where a wall and a level ceiling meet, the ceiling is unfolded on top of the wall. And a hole goes on behind the
surface: straight through the stone it may come to what lies in a reveal, or in any wall that runs back from an arris,
long before a tape laid round that would.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.keep_off import Outline
from ..checks.sweep import Leaf
from . import geometry, walls

CORNER_MM = 50.0  # two measured ends lie no farther apart where faces meet: common practice, no source
# How deep services ordinarily lie below a surface, and stone or plaster breaks out behind: common practice, no source.
IN_WALL_MM = 100.0
LEVEL_DEG = 75.0  # so far over leans a ceiling that counts as level here: common practice, no source
LEAST_MM = 1.0  # what lies less behind a face lies in its plane


class Across(NamedTuple):
    """A zone of another face, its outline in the axes of this, and how deep behind this it begins; None: at it."""

    zone: Item
    face: Item
    outline: Outline
    behind_mm: float | None = None


def seen_on(face: Item, own: Item, x_mm: float, out_mm: float = 0.0) -> tuple[float, float]:
    """A place before one face in the axes of another: x, and out of it, or z of a ceiling, mm."""
    return walls.turned(face, own, Leaf((x_mm, out_mm), 0, 0, ((0, 1, 0, 1),))).hinge_mm


def over_the_edge(site: Site, face: Item) -> Iterator[Across]:
    """The zones of ceilings that reach a wall, and of walls that reach a ceiling, where both stand in the plan."""
    for other in site.of(site[face.room], "face") if walls.placed(face) else ():
        wall, ceiling = (other, face) if geometry.overhead(face) else (face, other)
        if other.id != face.id and walls.placed(other) and _meet(site, wall, ceiling):
            top = geometry.face_stretch(wall).z_to
            for zone in site.of(other, "zone"):
                yield from _unfolded(face, other, zone, top, other.id == ceiling.id)


def _meet(site: Site, wall: Item, ceiling: Item) -> bool:
    """Whether a wall goes up to a level ceiling; where its height is not entered, it is taken to."""
    level = ceiling.slope_deg is None or ceiling.slope_deg >= LEVEL_DEG
    if not (walls.is_wall(wall) and geometry.overhead(ceiling) and level):
        return False
    above = geometry.above_floor(site, ceiling)
    height = geometry.face_stretch(wall).z_to - geometry.floor_of(wall)[0][1]
    return above is None or abs(above - height) <= CORNER_MM


def _unfolded(face: Item, other: Item, zone: Item, top_mm: float, overhead: bool) -> Iterator[Across]:
    margin, own = zone.margin_mm, geometry.zone_outline(zone)
    if overhead:
        seen = [seen_on(face, other, x, z) for x, z in own]
        reaches = min(out for _, out in seen) < margin and max(out for _, out in seen) > -CORNER_MM
        outline = [(x, top_mm + out) for x, out in seen]
    else:
        reaches = max(z for _, z in own) + margin > top_mm
        outline = [seen_on(face, other, x, z - top_mm) for x, z in own]
    if reaches and _near(face, outline, margin):
        yield Across(zone, other, tuple((round(x, 6), round(z, 6)) for x, z in outline))


def through_the_stone(site: Site, face: Item) -> Iterator[Across]:
    """The zones of other walls that forbid drilling and lie behind the plane of a wall, as far in as services lie."""
    for wall in walls.others(site, face) if walls.is_wall(face) and walls.placed(face) else ():
        for zone in site.of(wall, "zone") if walls.placed(wall) else ():
            if "drilling" in zone.forbids:
                yield from _in_the_stone(face, wall, zone)


def _in_the_stone(face: Item, wall: Item, zone: Item) -> Iterator[Across]:
    level, xs = walls.level_mm(face, wall), [x for x, _ in zone.outline]
    places = [seen_on(face, wall, x, -deep) for x in (min(xs), max(xs)) for deep in (0.0, IN_WALL_MM)]
    if all(out > -LEAST_MM for _, out in places[::2]):  # its surface does not lie behind
        return
    begins = max(0.0, -max(out for _, out in places))
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    low, high = (pick(z for _, z in zone.outline) + level for pick in (min, max))
    outline = tuple((round(x, 6), round(z, 6)) for x, z in ((left, low), (right, low), (right, high), (left, high)))
    if _near(face, outline, zone.margin_mm):
        yield Across(zone, wall, outline, round(begins, 6))


def _near(face: Item, outline: Outline | list[tuple[float, float]], margin_mm: float) -> bool:
    """Whether an outline comes nearer to a face than a margin."""
    part, xs, zs = geometry.face_stretch(face), [x for x, _ in outline], [z for _, z in outline]
    across = min(xs) - margin_mm < part.x_to and max(xs) + margin_mm > part.x_from
    return across and min(zs) - margin_mm < part.z_to and max(zs) + margin_mm > part.z_from
