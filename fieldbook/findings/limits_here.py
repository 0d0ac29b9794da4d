"""The clearance limits that hold in front of a face: its own, and those of other walls that come past it.

Where two walls of a room stand in its plan, a leaf of one is turned into the axes of the other: it limits wherever its
sweep passes. So is what must be seen, with the space straight in front of it, and a way, with the width it needs:
as leaves that stand still.
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

# What stands farther in front of a sign or a call point is walked round: common practice, no source.
SEEN_FROM_MM = 1_000.0
IN_PLAN = ("start_x_mm", "start_y_mm", "bearing_deg")


def limits_of(site: Site, face: Item) -> tuple[Limit, ...]:
    """All clearance limits in front of a face as the check takes them, made once a site. Raises what `Leaf` raises."""

    def made() -> tuple[Limit, ...]:
        above = geometry.above_floor(site, face)
        own = (geometry.limit_value(limit, face, above) for limit in site.of(face, "limit"))
        return (*own, *_of_other_walls(site, face))

    return site.once(("limits", face.id), made)


def unplaced(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """A sentence on a limit of another wall that may come past a part of this one, and what would tell; "", () if none.

    Where walls do not both stand in the plan they are taken to meet at a corner: a leaf has to come as near to an end
    of its wall as something stands out, and that to lie as near to an end of this one as the leaf reaches.
    part    of the face, mm
    out_mm  how far something stands out there at most
    """
    if not _is_wall(face):
        return "", ()
    left, right = _ends(face)
    along = min(part.x_from - left, right - part.x_to)
    for other, limit, value in _coming_past(site, face):
        blanks = tuple(Blank(one, name) for one in (face, other) for name in IN_PLAN if one.values[name] is None)
        if blanks and _may_meet(other, value, along, out_mm):
            walls = joined(sorted({blank.item.called for blank in blanks}))
            name = geometry.limit_name(limit)
            where = f"where {walls} stand{'s' if ' ' not in walls else ''} in the plan of the room is not entered"
            passes = "may swing past it" if limit.sort == "leaf" else "may reach to where it stands out"
            return f"{name} of {other.called} {passes}: {where}.", blanks
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
    for other, _, value in _coming_past(site, face):
        if _placed(other):
            yield _seen_from(face, other, value)


def _coming_past(site: Site, face: Item) -> Iterator[tuple[Item, Item, Limit]]:
    """The limits of the room's other walls that may come past a face, each with its wall and as a leaf."""
    for other in site.of(site[face.room], "face"):
        if other.id == face.id or not _is_wall(other):
            continue
        for limit in site.of(other, "limit"):
            value = geometry.limit_value(limit, other)
            if limit.sort != "leaf":
                box = _kept_free(other, limit, value)
                value = replace(value, leaf=Leaf((0.0, 0.0), 0, 0, (box,)) if box else None, projection_mm=None)
            if value.leaf is not None:
                yield other, limit, value


def _kept_free(wall: Item, limit: Item, value: Limit) -> tuple[float, float, float, float] | None:
    """From where to where along a wall and out of it a limit keeps free what stands out of other walls; None: nowhere.

    A way keeps free what is short of its width on either side; what bounds it at a corner may stand out as far as
    what lies along it may.
    """
    if limit.sort == "keep in view":
        return _box(value.band.x_from, value.band.x_to, 0.0, SEEN_FROM_MM)
    if limit.sort != "route":
        return None
    beside = limit.available_mm - limit.clear_width_mm
    left, right = _ends(wall)
    along = max(value.band.x_from, left + beside), min(value.band.x_to, right - beside)
    return _box(*along, beside, limit.clear_width_mm)


def _box(x_from: float, x_to: float, out_from: float, out_to: float) -> tuple[float, float, float, float] | None:
    return (x_from, x_to, out_from, out_to) if x_from < x_to and out_from < out_to else None


def _is_wall(face: Item) -> bool:
    return geometry.is_upright(face) and not geometry.overhead(face)


def _placed(face: Item) -> bool:
    return all(face.values[name] is not None for name in IN_PLAN)


def _seen_from(face: Item, own: Item, limit: Limit) -> Limit:
    """A leaf of one wall in the axes of another: seen from above, out of a face is a quarter turn clockwise from x."""
    leaf = limit.leaf
    if leaf is None:
        raise AssertionError("only what is as a leaf comes past another wall")
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
