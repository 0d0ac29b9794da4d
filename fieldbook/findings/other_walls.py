"""Whether a thing stands in the place of one on another wall of its room, over a corner, or on its ceiling.

Each is a box: what it covers of its face, as far as it stands out. Where the walls do not stand in the plan of the
room, they are taken to meet at their ends, and what hangs from the ceiling to hang anywhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..checks.keep_off import Outline, area_distance
from ..checks.sweep import Leaf
from . import geometry, walls
from .asking import NEITHER
from .finding import Blank
from .kept_free import FREE_MM
from .reach import Reach, reach_of

Part = tuple[Item, Stretch]
"""A face, and what of it is covered."""
LEAST_MM = 1.0  # what is told to stand out less is as good as in the wall
READS = dict.fromkeys(
    (
        *("face.start_x_mm", "face.start_y_mm", "face.bearing_deg", "face.floor", "face.surface", "face.sort"),
        *("face.slope_deg", "face.above_floor_mm", "room.ceiling_mm", "fitting.build_up", "fixing.packers_mm"),
        *("fixing.fabric", "fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm"),
    ),
    NEITHER,
)


class Covered(NamedTuple):
    """A fitting by its id, with what it covers of its face, and how far it stands out."""

    id: str
    part: Stretch
    reach: Reach


class Neighbour(NamedTuple):
    """A thing on another wall, or the ceiling, and how far into its place another stands, mm.

    missing  the entries on which it rests that they meet at all; () where that is certain
    """

    other: Item
    by_mm: float
    missing: tuple[Blank, ...] = ()


def met(site: Site, fitting: Item) -> Iterator[Neighbour]:
    """What of the things on the other faces of its room a fitting meets, or may meet."""
    face = site[fitting.face]
    own = Covered(fitting.id, geometry.fitting_stretch(fitting), reach_of(site, fitting))
    for other in _others(site, face):
        lacking = walls.lacking(face, other)
        if lacking and _from_corner(face, own, other) <= 0:
            continue
        for across in site.told_once(("covered", other.id), partial(_covered, face=other.id)):
            if found := _meets(site, (face, own), (other, across), lacking):
                yield found


def _covered(site: Site, face: str) -> list[Covered]:
    """What stands on a face, asked of so much that most of what changes there leaves it as it is."""
    return [
        Covered(one.id, geometry.fitting_stretch(one), reach_of(site, one))
        for one in site.of(site[face], "fitting")
        if one.stands
    ]


def _others(site: Site, face: Item) -> Iterator[Item]:
    """The faces of the room that stand otherwise: other walls, and the ceiling for a wall."""
    if not (walls.is_wall(face) or geometry.overhead(face)):
        return
    for one in site.of(site[face.room], "face"):
        if one.id != face.id and (walls.is_wall(one) or (geometry.overhead(one) and not geometry.overhead(face))):
            yield one


def _meets(
    site: Site, one: tuple[Item, Covered], across: tuple[Item, Covered], lacking: tuple[Blank, ...]
) -> Neighbour | None:
    (face, thing), (other_face, other) = one, across
    own, its = (face, thing.part), (other_face, other.part)
    perhaps = _into(site, own, its, _at_most(thing.reach), _at_most(other.reach), bool(lacking))
    if perhaps <= 0:
        return None
    if not lacking and (sure := _into(site, own, its, thing.reach.low, other.reach.low)) > 0:
        return Neighbour(site[other.id], sure)
    missing = lacking or (*thing.reach.missing, *other.reach.missing)
    return Neighbour(site[other.id], perhaps, missing) if missing else None


def _at_most(reach: Reach) -> float:
    """How far it stands out at most; where that is anything, as far as way is kept free for."""
    return min(reach.high, max(reach.low, FREE_MM))


def _into(site: Site, own: Part, across: Part, out: float, other_out: float, unplaced: bool = False) -> float:
    """How far one stands into the other where they stand out so far, mm; 0 or less where they do not meet.

    unplaced  whether it is not entered where one of their faces stands in the plan
    """
    shared = _share(_heights(site, *own, out), _heights(site, *across, other_out))
    if shared <= 0:
        return shared
    if unplaced:
        return min(shared, _at_the_ends(own, across, out, other_out))
    seen_on = next((face for face, _ in (across, own) if geometry.overhead(face)), own[0])
    boxes = [_box(seen_on, *one, max(far, LEAST_MM)) for one, far in ((own, out), (across, other_out))]
    spans = [[(min(axis), max(axis)) for axis in zip(*box, strict=True)] for box in boxes]
    near = min(_share(one, other) for one, other in zip(*spans, strict=True))
    return min(shared, -area_distance(*boxes)) if near > 0 else near


def _at_the_ends(own: Part, across: Part, out: float, other_out: float) -> float:
    """How far each of two comes at most into the other, if their walls meet at the ends that are nearest to them."""
    if geometry.overhead(own[0]) or geometry.overhead(across[0]):
        return math.inf
    return min(other_out - _from_end(*own), out - _from_end(*across))


def _from_corner(face: Item, thing: Covered, other: Item) -> float:
    """How far a thing comes at most into another wall of which nobody entered where it stands, whatever is there."""
    if geometry.overhead(face) or geometry.overhead(other):
        return math.inf
    return _at_most(thing.reach) - _from_end(face, thing.part)


def _from_end(face: Item, part: Stretch) -> float:
    left, right = walls.ends(face)
    return min(part.x_from - left, right - part.x_to)


def _heights(site: Site, face: Item, part: Stretch, out: float) -> tuple[float, float]:
    """From which height above the floor to which a fitting reaches; none where that of a ceiling is not entered."""
    if geometry.overhead(face):
        above = geometry.above_floor(site, face)
        return (math.inf, -math.inf) if above is None else (above - out, above)
    floor = geometry.floor_of(face)[0][1]
    return part.z_from - floor, part.z_to - floor


def _share(one: tuple[float, float], other: tuple[float, float]) -> float:
    return min(one[1], other[1]) - max(one[0], other[0])


def _box(seen_on: Item, face: Item, part: Stretch, out: float) -> Outline:
    """A fitting seen from above, in the axes of a wall or the ceiling."""
    if geometry.overhead(face):
        return geometry.stretch_outline(part)
    corners = ((part.x_from, 0.0), (part.x_to, 0.0), (part.x_to, out), (part.x_from, out))
    if seen_on.id == face.id:
        return corners
    turned = (walls.turned(seen_on, face, Leaf(corner, 0, 0, ((0, 1, 0, 1),))).hinge_mm for corner in corners)
    return tuple((round(x, 6), round(out, 6)) for x, out in turned)
