"""Zones on a floor, as what stands there sees them.

A floor is no face of its own. A zone of a wall that is drawn on below the foot of that lies on the floor, as far out
as it is drawn down: a sheet laid into the corner. What lies in a floor and is drawn nowhere nobody knows of here.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.clearance import highest
from ..checks.keep_off import CLOSE_MM, Outline, area_distance
from ..model.kinds import KINDS
from . import geometry, walls
from .asking import MORE, NEITHER
from .finding import Blank
from .load_paths import ITS_FIXINGS, NEAR_FLOOR_MM, height_above_floor_mm
from .zones_across import seen_on

BEARS = ("contact", "load")
BASE = KINDS["fitting"].by_name["base_mm"]
DRAWN = "Of what its floor hides or is laid with only what is drawn below the foot of a wall is known."
READS = {
    "fitting.support": NEITHER,
    "fitting.base_mm": MORE,
    "fitting.base_out_mm": NEITHER,
    "fitting.base_width_mm": MORE,
}


class AtFoot(NamedTuple):
    """A base held against a zone, both in the axes of the zone's wall.

    missing  the entries on which it rests that it stands there, or how far out it does; () where that is certain
    """

    zone: Item
    act: str
    distance_mm: float
    base: Outline
    missing: tuple[Blank, ...]


def may_stand(site: Site, fitting: Item) -> bool:
    """Whether a fitting stands on the floor, or may, for nobody entered what holds it up."""
    if fitting.support is not None:
        return bool(fitting.support != ITS_FIXINGS)
    height = height_above_floor_mm(site, fitting)
    return height is not None and height <= NEAR_FLOOR_MM and not site.goes_through(fitting)


def at_foot(site: Site, fitting: Item, moves_mm: float) -> Iterator[AtFoot]:
    """The zones of its room's walls at their foot, and below it, that its base is struck by or nearly."""
    face = site[fitting.face]
    if not (walls.is_wall(face) and may_stand(site, fitting)):
        return
    unsure = (Blank(fitting, "support"),) if fitting.support is None else ()
    others = [wall for wall in walls.others(site, face) if walls.placed(wall)] if walls.placed(face) else []
    for wall in (face, *others):
        for zone in site.of(wall, "zone"):
            if act := next((act for act in BEARS if act in zone.forbids), ""):
                yield from _held(face, wall, fitting, moves_mm, AtFoot(zone, act, 0.0, (), unsure))


def _held(face: Item, wall: Item, fitting: Item, moves_mm: float, one: AtFoot) -> Iterator[AtFoot]:
    """A base of unknown depth counts where the least there can be of it is struck, and else is asked for."""
    deep = fitting.base_mm
    sizes = [(deep, ())] if deep is not None else [(BASE.low, ()), (BASE.high, (Blank(fitting, "base_mm"),))]
    there = {"mark": f"{one.zone.called} at the foot of {wall.called}"}
    for deep_mm, blank in sizes:
        if not (base := _base(face, wall, fitting, moves_mm, deep_mm)):
            return
        distance = area_distance(geometry.zone_outline(one.zone), base)
        left = distance - one.zone.margin_mm
        if left < (0 if not blank and len(sizes) > 1 else CLOSE_MM):
            zone = Item(one.zone.kind, one.zone.id, {**one.zone.values, **there})
            yield one._replace(zone=zone, distance_mm=distance, base=base, missing=(*one.missing, *blank))
            return


def _base(face: Item, wall: Item, fitting: Item, moves_mm: float, deep_mm: float) -> Outline:
    """Where a base stands on the floor, in the axes of a wall: as far below its foot as it is out from it."""
    part, back = geometry.fitting_stretch(fitting), fitting.base_out_mm or 0.0
    wide = fitting.width_mm if fitting.base_width_mm is None else min(fitting.base_width_mm, fitting.width_mm)
    middle, half = (part.x_from + part.x_to) / 2, wide / 2 + moves_mm
    left, right, front = middle - half, middle + half, back + deep_mm
    corners = [(left, back), (right, back), (right, front), (left, front)]
    seen = corners if wall.id == face.id else [seen_on(wall, face, x, out) for x, out in corners]
    if max(out for _, out in seen) < 0:  # behind that wall
        return ()
    xs = [x for x, _ in seen]
    foot = highest(geometry.floor_of(wall), min(xs), max(xs))
    return tuple((round(x, 6), round(foot - max(out, 0.0), 6)) for x, out in seen)
