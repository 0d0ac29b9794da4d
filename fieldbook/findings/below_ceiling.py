"""What hangs from a ceiling or soffit against what must stay free in front of the walls of its room."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..book.site import Item, Site
from ..checks.clearance import Limit, Stretch, swings_below
from . import geometry, walls
from .finding import Blank
from .kept_free import kept_free, top_mm

# A way is asked about by the headroom over it; a flat limit is about what stands out of its wall.
SORTS = frozenset({"leaf", "keep in view", "headroom"})


def limits_below(site: Site, face: Item) -> Iterator[Limit]:
    """Leaves, signs and headroom of the walls, as what may hang down over them. Raises what `Leaf` raises."""
    above = geometry.above_floor(site, face)
    for wall, limit, free in _in_front_of_walls(site, face):
        top = top_mm(wall, limit, free)
        if above is not None and top is not None and walls.placed(face) and walls.placed(wall):
            yield _seen_from_below(face, wall, free, above - _over_floor(wall, top))


def untold(site: Site, face: Item, part: Stretch, out_mm: float) -> tuple[str, tuple[Blank, ...]]:
    """A sentence on what may be in the way of something that hangs so far down, and what would tell; "", () if none."""
    above = geometry.above_floor(site, face)
    if above is None:
        return "", ()
    for wall, limit, free in _in_front_of_walls(site, face):
        top = top_mm(wall, limit, free)
        most = geometry.face_stretch(wall).z_to if top is None else top + free.margin_mm
        if above - out_mm >= _over_floor(wall, most):
            continue
        name = f"{geometry.limit_name(limit)} of {wall.called}"
        if blanks := walls.lacking(face, wall):
            return f"{name} may be below it: {walls.where(blanks)}", blanks
        if top is None and swings_below(_seen_from_below(face, wall, free, 0.0), part):
            return f"{name} swings below it, and up to which z it reaches is not entered.", (Blank(limit, "z_to_mm"),)
    return "", ()


def _in_front_of_walls(site: Site, face: Item) -> Iterator[tuple[Item, Item, Limit]]:
    for wall in walls.others(site, face) if geometry.overhead(face) else ():
        for limit in site.of(wall, "limit"):
            if limit.sort in SORTS and (free := kept_free(wall, limit)):
                yield wall, limit, free


def _over_floor(wall: Item, z_mm: float) -> float:
    return z_mm - geometry.floor_of(wall)[0][1]


def _seen_from_below(face: Item, wall: Item, free: Limit, left_mm: float) -> Limit:
    if free.leaf is None:
        raise AssertionError("what a wall keeps free is as a leaf")
    leaf = walls.turned(face, wall, free.leaf)
    name = f"{free.name} of {wall.called}"
    return replace(free, name=name, band=Stretch(), leaf=leaf, projection_mm=left_mm)
