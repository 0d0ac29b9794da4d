"""The clearance limits that hold in front of a face: its own, and those of other walls that come past it.

Where two walls of a room stand in its plan, a leaf of one is turned into the axes of the other: it limits wherever its
sweep passes. So is all else that a limit keeps free in front of its wall, and what a thing across a way leaves of that.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ..book.site import Item, Site
from ..checks.clearance import Limit, Stretch
from ..checks.sweep import Leaf, outline
from . import below_ceiling, geometry, walls, ways
from .finding import Blank
from .kept_free import kept_free, on_other


def limits_of(site: Site, face: Item) -> tuple[Limit, ...]:
    """All clearance limits in front of a face as the check takes them, made once a site. Raises what `Leaf` raises."""

    def made() -> tuple[Limit, ...]:
        above = geometry.above_floor(site, face)
        own = (geometry.limit_value(limit, face, above) for limit in site.of(face, "limit"))
        past = (on_other(face, wall, free) for wall, _, free in _placed(site, face))
        return (*own, *past, *ways.limits_across(site, face), *below_ceiling.limits_below(site, face))

    return site.once(("limits", face.id), made)


def untold(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """A sentence on a limit that may bear on a part of a face, and what would tell; "", () if none.

    part    of the face, mm
    out_mm  how far something stands out there at most
    """
    for asks in (_past_corners, ways.untold, below_ceiling.untold):
        sentence, blanks = asks(site, face, part, out_mm)
        if blanks:
            return sentence, blanks
    return "", ()


def _past_corners(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """What may come past from walls that do not both stand in the plan, which are taken to meet at a corner.

    It has to come as near to an end of its wall as something stands out, and that to lie as near to an end of this
    one as it reaches.
    """
    left, right = walls.ends(face)
    along = min(part.x_from - left, right - part.x_to)
    for wall, limit, free in _coming_past(site, face):
        blanks = walls.lacking(face, wall)
        if blanks and _at_its_heights(face, wall, free, part) and _may_meet(wall, free, along, out_mm):
            name = geometry.limit_name(limit)
            passes = "may swing past it" if limit.sort == "leaf" else "may reach to where it stands out"
            return f"{name} of {wall.called} {passes}: {walls.where(blanks)}", blanks
    return "", ()


def _placed(site: Site, face: Item) -> Iterator[tuple[Item, Item, Limit]]:
    if walls.placed(face):
        yield from (one for one in _coming_past(site, face) if walls.placed(one[0]))


def _coming_past(site: Site, face: Item) -> Iterator[tuple[Item, Item, Limit]]:
    """The limits of the room's other walls that may come past a face, each with its wall and as a leaf."""
    for wall in walls.others(site, face) if walls.is_wall(face) else ():
        for limit in site.of(wall, "limit"):
            if (free := kept_free(wall, limit, face)) is not None:
                yield wall, limit, free


def _at_its_heights(face: Item, wall: Item, free: Limit, part: Stretch) -> bool:
    level = walls.level_mm(face, wall)
    return part.widened(free.margin_mm).meets(Stretch(z_from=free.band.z_from + level, z_to=free.band.z_to + level))


def _may_meet(wall: Item, free: Limit, along_mm: float, out_mm: float) -> bool:
    if free.leaf is None:
        return False
    left, right = walls.ends(wall)
    x_from, x_to, out = _swept(free.leaf)
    near = min(x_from - left, right - x_to) - free.margin_mm
    return near < out_mm and along_mm - free.margin_mm < out


@lru_cache(maxsize=1024)
def _swept(leaf: Leaf) -> tuple[float, float, float]:
    """From where to where along its wall a leaf gets, and how far out of it, mm."""
    xs, ys = zip(*(point for box in outline(leaf) for point in box), strict=True)
    return min(xs), max(xs), max(ys)
