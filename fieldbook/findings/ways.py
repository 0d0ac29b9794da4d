"""Ways between two walls: what stands out on one side leaves its width to what stands out on the other.

The free width of a way is the least distance between the two, in the plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.clearance import Limit, Stretch, clear_depth
from ..checks.sweep import FARTHEST_MM, Leaf
from . import geometry, walls
from .asking import label_of
from .finding import Blank
from .reach import Reach, reach_of

EDGE_MM = 1e-3  # the breadth of a leaf that sweeps round a corner
FAR_MM = FARTHEST_MM / 4


class _Across(NamedTuple):
    """A way, and a thing that stands out of another wall into it: what it leaves, as it is known and at worst."""

    thing: Item
    way: Item
    wall: Item
    sure: tuple[Limit, ...]
    perhaps: tuple[Limit, ...]
    missing: tuple[Blank, ...]


def limits_across(site: Site, face: Item) -> list[Limit]:
    """What things across each way of a room leave of it before a wall, as far as they stand out for certain."""
    return [limit for one in _across(site, face) for limit in one.sure]


def untold(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """A sentence on what may stand across a way from a part of a wall, and what would tell; "", () if nothing may.

    out_mm  how far something stands out there at most
    """
    for one in _across(site, face):
        depth = clear_depth(one.perhaps, part).depth_mm
        if one.missing and depth is not None and out_mm > depth:
            names = "; ".join(label_of(blank) for blank in one.missing)
            name = f"{geometry.limit_name(one.way)} of {one.wall.called}"
            return f"{one.thing.called} stands across {name} from it. Not entered: {names}.", one.missing
    return _unplaced(site, face, part, out_mm)


def sharing(site: Site, face: Item) -> Iterator[Item]:
    """What stands on the other walls of a room that has ways: what moves on a face may take of what is left to it."""
    if any(True for _ in _ways(site, face)):
        for other in walls.others(site, face):
            yield from (one for one in site.of(other, "fitting") if one.stands)


def _unplaced(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """Where walls do not stand in the plan, each may be across from the other."""
    for wall, way in _ways(site, face):
        if not part.widened(way.margin_mm).meets(_heights(face, wall, way)):
            continue
        left = way.available_mm - way.clear_width_mm - way.margin_mm
        for other in walls.others(site, wall) if wall.id == face.id else (wall,):
            blanks = walls.lacking(face, other)
            mostly = max((reach_of(site, one).high for one in _things(site, wall, way, other)), default=0.0)
            if blanks and out_mm + mostly > left and (mostly or wall.id != face.id):
                name = f"{geometry.limit_name(way)} of {wall.called}"
                return f"{name} may pass between it and another wall: {walls.where(blanks)}", blanks
    return "", ()


def _across(site: Site, face: Item) -> list[_Across]:
    return site.once(("across", face.id), lambda: list(_found(site, face)))


def _found(site: Site, face: Item) -> Iterator[_Across]:
    if not (walls.is_wall(face) and walls.placed(face)):
        return
    for wall, way in _ways(site, face):
        if not walls.placed(wall) or (face.id != wall.id and not walls.facing(wall, face)):
            continue  # what stands at a corner is asked about by what stands across from it
        for other in walls.others(site, face):
            for thing in _things(site, wall, way, other) if walls.placed(other) else ():
                reach = reach_of(site, thing)
                if _is_across(face, wall, way, other, thing, reach):
                    sure, perhaps = (_left_of(face, wall, way, thing, other, out) for out in (reach.low, reach.high))
                    yield _Across(thing, way, wall, sure, perhaps, reach.missing if reach.high > reach.low else ())


def _ways(site: Site, face: Item) -> Iterator[tuple[Item, Item]]:
    """The ways along the walls of a room, each with its wall."""
    for wall in (face, *walls.others(site, face)) if walls.is_wall(face) else ():
        yield from ((wall, limit) for limit in site.of(wall, "limit") if limit.sort == "route")


def _things(site: Site, wall: Item, way: Item, other: Item) -> Iterator[Item]:
    """What stands on a wall at the heights of a way."""
    heights = _heights(other, wall, way)
    for thing in site.of(other, "fitting"):
        if thing.stands and geometry.fitting_stretch(thing).widened(way.margin_mm).meets(heights):
            yield thing


def _heights(face: Item, wall: Item, way: Item) -> Stretch:
    band, level = geometry.band_of(way), walls.level_mm(face, wall)
    return Stretch(z_from=band.z_from + level, z_to=band.z_to + level)


def _is_across(face: Item, wall: Item, way: Item, other: Item, thing: Item, reach: Reach) -> bool:
    """Whether a thing stands on the other side of a way than what stands on a face, and within its length."""
    box = _plan(thing, min(reach.low, FAR_MM))
    corners = [walls.turned(wall, other, Leaf(corner, 0, 0, ((0, 1, 0, 1),))).hinge_mm for corner in box]
    band = geometry.band_of(way)
    if max(x for x, _ in corners) < band.x_from or min(x for x, _ in corners) > band.x_to:
        return False
    outs = [out for _, out in corners]
    if face.id == wall.id:
        return other.id != wall.id and max(outs) > way.available_mm - way.clear_width_mm
    return other.id == wall.id or min(outs) < way.clear_width_mm


def _plan(thing: Item, out_mm: float) -> tuple[tuple[float, float], ...]:
    """The corners of a thing in the plan of its wall, wherever it may be set."""
    left, right = _along(thing)
    return (left, 0.0), (right, 0.0), (right, out_mm), (left, out_mm)


def _along(thing: Item) -> tuple[float, float]:
    part, moves = geometry.fitting_stretch(thing), thing.moves_mm or 0
    return part.x_from - moves, part.x_to + moves


def _left_of(face: Item, wall: Item, way: Item, thing: Item, other: Item, out_mm: float) -> tuple[Limit, ...]:
    """All that is nearer to a thing than a way is to be wide: before it, and round its corners."""
    left, right = _along(thing)
    out, wide = min(out_mm, FAR_MM), way.clear_width_mm
    corner = ((0.0, max(wide, EDGE_MM), -EDGE_MM, 0.0),)
    leaves = (
        Leaf((0.0, 0.0), 0, 0, ((left, right, 0.0, max(out + wide, EDGE_MM)),)),
        Leaf((left, out), 90, 180, corner),
        Leaf((right, out), 0, 90, corner),
    )
    name = f"{geometry.limit_name(way)} of {wall.called}, with {thing.called} across it"
    known = replace(geometry.limit_value(way, wall), name=name, band=_heights(face, wall, way), projection_mm=None)
    return tuple(replace(known, leaf=walls.turned(face, other, leaf)) for leaf in leaves)
