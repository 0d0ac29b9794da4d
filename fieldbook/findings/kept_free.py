"""The space that a clearance limit keeps free in front of its wall, as what stands out of others has to keep to it.

What must be seen, a way, headroom and a flat limit are leaves that stand still.
"""

from __future__ import annotations

import math
from dataclasses import replace

from ..book.site import Item
from ..checks.clearance import Limit, Stretch, highest
from ..checks.sweep import Leaf
from . import geometry, walls

# What stands farther in front of a wall is walked round: common practice, no source.
FREE_MM = 1_000.0
UNDER_MM = 1e-6  # what ends at the headroom to keep keeps it


def kept_free(wall: Item, limit: Item, face: Item | None = None) -> Limit | None:
    """A limit of a wall as a leaf, in the axes of that wall; None where it keeps nothing free in front of it.

    What bounds a way, headroom or a flat limit at a corner, or across from it, may stand out as far as what lies
    along it may. Raises what `Leaf` raises.
    face  whose things have to keep to it; None: what hangs from the ceiling
    """
    value = geometry.limit_value(limit, wall)
    if value.leaf is not None:
        return value
    across = math.inf if face is None else walls.apart_mm(wall, face)
    if limit.sort == "keep in view":
        # Of walls that look at each other from nearer by, each has half of what is between them.
        return _still(value, (value.band.x_from, value.band.x_to), (0.0, min(FREE_MM, across / 2)))
    begins = value.projection_mm
    if begins is None:
        return None
    left, right = walls.ends(wall)
    along = max(value.band.x_from, left + begins), min(value.band.x_to, right - begins)
    if limit.sort == "route":
        return _still(value, along, (begins, limit.clear_width_mm))
    if limit.sort == "headroom":
        value = _below_headroom(value, left, right)
    return _still(value, along, (begins, min(FREE_MM, across - begins)))


def _below_headroom(value: Limit, left: float, right: float) -> Limit:
    """Headroom as it is at the highest of the floor; its margin is one of height."""
    over = highest(value.below_mm, max(value.band.x_from, left), min(value.band.x_to, right))
    top = min(value.band.z_to, over + value.margin_mm - UNDER_MM)
    return replace(value, band=replace(value.band, z_to=top), margin_mm=0, below_mm=())


def _still(value: Limit, along: tuple[float, float], out: tuple[float, float]) -> Limit | None:
    if along[0] >= along[1] or out[0] >= out[1] or value.band.z_from > value.band.z_to:
        return None
    return replace(value, leaf=Leaf((0.0, 0.0), 0, 0, ((*along, *out),)), projection_mm=None)


def top_mm(wall: Item, limit: Item, free: Limit) -> float | None:
    """How high what a limit keeps free reaches, mm on its wall; None for a leaf of which nobody entered it."""
    if math.isfinite(free.band.z_to):
        return free.band.z_to
    return None if limit.sort == "leaf" else geometry.face_stretch(wall).z_to


def on_other(face: Item, wall: Item, free: Limit) -> Limit:
    """What a limit of one wall keeps free, in the axes of another that stands in the plan as well."""
    if free.leaf is None:
        raise AssertionError("only what is as a leaf comes past another wall")
    level = walls.level_mm(face, wall)
    band = Stretch(z_from=free.band.z_from + level, z_to=free.band.z_to + level)
    return replace(free, name=f"{free.name} of {wall.called}", band=band, leaf=walls.turned(face, wall, free.leaf))
