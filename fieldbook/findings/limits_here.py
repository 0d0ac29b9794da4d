"""The clearance limits that hold in front of a face: its own, and the leaves of other walls that come past it.

Where two walls of a room stand in its plan, a leaf of one is turned into the axes of the other: it limits wherever its
sweep passes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from ..book.site import Item, Site
from ..book.wording import joined
from ..checks.clearance import Limit, Stretch
from ..checks.sweep import Leaf, outline
from . import geometry
from .finding import Blank

IN_PLAN = ("start_x_mm", "start_y_mm", "bearing_deg")


def limits_of(site: Site, face: Item) -> tuple[Limit, ...]:
    """All clearance limits in front of a face as the check takes them, made once a site. Raises what `Leaf` raises."""

    def made() -> tuple[Limit, ...]:
        above = geometry.above_floor(site, face)
        own = (geometry.limit_value(limit, face, above) for limit in site.of(face, "limit"))
        return (*own, *_of_other_walls(site, face))

    return site.once(("limits", face.id), made)


def unplaced(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """A sentence on a leaf of another wall that may come past a part of this one, and what would tell; "", () if none.

    Where walls do not both stand in the plan they are taken to meet at a corner: a leaf has to come as near to an end
    of its wall as something stands out, and that to lie as near to an end of this one as the leaf reaches.
    part    of the face, mm
    out_mm  how far something stands out there at most
    """
    if not _is_wall(face):
        return "", ()
    left, right = _ends(face)
    along = min(part.x_from - left, right - part.x_to)
    for other, limit in _leaves(site, face):
        blanks = tuple(Blank(one, name) for one in (face, other) for name in IN_PLAN if one.values[name] is None)
        if blanks and _may_meet(other, geometry.limit_value(limit, other), along, out_mm):
            walls = joined(sorted({blank.item.called for blank in blanks}))
            name = geometry.limit_name(limit)
            where = f"where {walls} stand{'s' if ' ' not in walls else ''} in the plan of the room is not entered"
            return f"{name} of {other.called} may swing past it: {where}.", blanks
    return "", ()


def _ends(face: Item) -> tuple[float, float]:
    left = face.left_mm or 0
    return left, left + face.width_mm


def _may_meet(other: Item, limit: Limit, along_mm: float, out_mm: float) -> bool:
    if limit.leaf is None:
        return False
    left, right = _ends(other)
    x_from, x_to, out = _swept(limit.leaf)
    near = min(x_from - left, right - x_to) - limit.margin_mm
    return near < out_mm and along_mm - limit.margin_mm < out


@lru_cache(maxsize=1024)
def _swept(leaf: Leaf) -> tuple[float, float, float]:
    """From where to where along its wall a leaf gets, and how far out of it, mm."""
    xs, ys = zip(*(point for box in outline(leaf) for point in box), strict=True)
    return min(xs), max(xs), max(ys)


def _of_other_walls(site: Site, face: Item) -> Iterator[Limit]:
    if not (_is_wall(face) and _placed(face)):
        return
    for other, limit in _leaves(site, face):
        if _placed(other):
            yield _seen_from(face, other, geometry.limit_value(limit, other))


def _leaves(site: Site, face: Item) -> Iterator[tuple[Item, Item]]:
    for other in site.of(site[face.room], "face"):
        if other.id != face.id and _is_wall(other):
            yield from ((other, limit) for limit in site.of(other, "limit") if limit.sort == "leaf")


def _is_wall(face: Item) -> bool:
    return geometry.is_upright(face) and not geometry.overhead(face)


def _placed(face: Item) -> bool:
    return all(face.values[name] is not None for name in IN_PLAN)


def _seen_from(face: Item, own: Item, limit: Limit) -> Limit:
    """A leaf of one wall in the axes of another: seen from above, out of a face is a quarter turn clockwise from x."""
    leaf = limit.leaf
    if leaf is None:
        raise AssertionError("only leaves come past another wall")
    bearing, other = math.radians(own.bearing_deg), math.radians(face.bearing_deg)
    x, out = leaf.hinge_mm
    east = own.start_x_mm + x * math.cos(bearing) + out * math.sin(bearing) - face.start_x_mm
    north = own.start_y_mm + x * math.sin(bearing) - out * math.cos(bearing) - face.start_y_mm
    hinge = east * math.cos(other) + north * math.sin(other), east * math.sin(other) - north * math.cos(other)
    turned = (face.bearing_deg - own.bearing_deg + 180) % 360 - 180
    level = geometry.floor_of(face)[0][1] - geometry.floor_of(own)[0][1]
    band = Stretch(z_from=limit.band.z_from + level, z_to=limit.band.z_to + level)
    swung = Leaf(hinge, leaf.from_deg + turned, leaf.to_deg + turned, leaf.boxes_mm)
    return replace(limit, name=f"{limit.name} of {own.called}", band=band, leaf=swung)
