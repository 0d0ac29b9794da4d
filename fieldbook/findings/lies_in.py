"""What carries a fixing on its face: the hold, board or timber named with it, and those that lie where it is.

A hook in an old hole hangs on the joist the hole is in, whoever entered which: what is named and what its place shows
count alike. A board or timber that is named stands for all there, for whoever names it has looked.
"""

from __future__ import annotations

from ..book.cells import cells_in
from ..book.site import Item, Site
from . import geometry
from .acts import makes_hole
from .fixing_loads import holds
from .grounds import OWN_WORK
from .rulings import AT_HOLD_MM, hold_at


def lies_in(site: Site, fixing: Item) -> list[Item]:
    """The holds, boards and timbers that carry a fixing; none where it joins two fittings and none is named."""
    hold, member = site.get(fixing.hold, "hold"), site.get(fixing.member, "member")
    if fixing.fabric != OWN_WORK:
        hold = hold or _hold_there(site, fixing)
        if member is None:
            return [*([hold] if hold else []), *_members_there(site, fixing, hold)]
    return [one for one in (hold, member) if one is not None]


def lying_in(site: Site, carrier: Item) -> list[Item]:
    """The fixings that a hold, board or timber carries, and that stand."""
    if carrier.kind == "hold":
        left, right, bottom, top = carrier.x_mm, carrier.x_mm, carrier.z_mm, carrier.z_mm
        play = max((carrier.diameter_mm or 0.0) / 2, AT_HOLD_MM)
        cells = cells_in(carrier.face, left - play, right + play, bottom - play, top + play)
    else:
        part = geometry.member_stretch(carrier)
        cells = cells_in(carrier.face, part.x_from, part.x_to, part.z_from, part.z_to)
    there = (one for one in site.standing_in("fixing", cells) if carrier in lies_in(site, one))
    return list(dict.fromkeys([*site.let_into(carrier), *there]))


def _hold_there(site: Site, fixing: Item) -> Item | None:
    """The hold that a fixing which makes no hole of its own is at."""
    if makes_hole(site, fixing) or not holds(fixing):
        return None
    return hold_at(site, site[fixing.face], geometry.place_of(fixing))


def _members_there(site: Site, fixing: Item, hold: Item | None) -> list[Item]:
    x, z = geometry.place_of(fixing)
    there = site.of(site[fixing.face], "member")
    return [
        one
        for one in there
        if one.x_mm <= x <= one.x_mm + one.width_mm
        and one.z_mm <= z <= one.z_mm + one.height_mm
        and _reaches(fixing, hold, one.behind_mm or 0.0)
    ]


def _reaches(fixing: Item, hold: Item | None, behind_mm: float) -> bool:
    """Whether a fixing, or the hold it uses, may go as far in as a timber; what presses on a face presses on all."""
    if behind_mm == 0 or not holds(fixing):
        return True
    if fixing.hole == "none" and hold is None:
        return False
    depth, there = fixing.penetration_mm, hold.depth_mm if hold is not None else 0.0
    return depth is None and hold is None or there is None or max(depth or 0.0, there) > behind_mm
