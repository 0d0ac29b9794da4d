"""What goes right through a wall: the face on its other side, how thick it is, and whether a fixing comes out there."""

from __future__ import annotations

import math
from typing import NamedTuple

from ..book.site import Item, Site
from . import ages, geometry, walls
from .acts import PIERCING
from .asking import NEITHER, Asked

# Half a brick: of what is not entered as thinner no wall is. What is entered of it and comes to less than the second is
# coats and boards, and the rest of the wall is not entered: common practice, no source.
THINNEST_MM, WHOLE_MM = 100.0, 60.0
AT_ONE_PLACE_MM = 5.0  # what setting out on uneven old walls can be trusted to; common practice, no source
THROUGH_HOLES = frozenset({"bolt", "machine screw"})
READS = dict.fromkeys(
    (
        *("face.wall_mm", "face.behind_x_mm", "face.behind_z_mm", "face.layers", "face.floor", "face.left_mm"),
        *("face.bottom_mm", "member.x_mm", "member.z_mm", "member.width_mm", "member.height_mm"),
        *("fixing.x_mm", "fixing.z_mm", "fixing.fitted_x_mm", "fixing.fitted_z_mm", "fixing.fabric", "fixing.hole"),
        *("member.behind_mm", "member.thickness_mm", "fixing.length_mm"),
    ),
    NEITHER,
)


class OtherSide(NamedTuple):
    """The face on the other side of a wall; x there is `x_mm` less x here, z there is `z_mm` more than here.

    said  the face on which it is entered
    x_mm  None where that is not entered
    """

    face: Item
    said: Item
    x_mm: float | None
    z_mm: float

    def at(self, place: tuple[float, float]) -> tuple[float, float] | None:
        """A place here as it is seen from the other side; None where that cannot be told."""
        return None if self.x_mm is None else (self.x_mm - place[0], place[1] + self.z_mm)


def other_side(site: Site, face: Item) -> OtherSide | None:
    """The face on the other side of a wall, whichever of the two names the other; None where none does."""
    there = site.get(face.behind, "face")
    if there is not None and there.id != face.id:
        level = walls.level_mm(there, face) if face.behind_z_mm is None else face.behind_z_mm
        return OtherSide(there, face, face.behind_x_mm, level)
    for one in site.pointing_at(face, "face", "behind"):
        if one.id != face.id:
            level = walls.level_mm(one, face) if one.behind_z_mm is None else -one.behind_z_mm
            return OtherSide(one, one, one.behind_x_mm, level)
    return None


def thickness_mm(site: Site, face: Item) -> float | None:
    """How thick a wall is: as entered on either side, else all its layers; None where neither side says it."""
    other = other_side(site, face)
    sides = [face, *([other.face] if other else [])]
    if said := [one.wall_mm for one in sides if one.wall_mm is not None]:
        return min(said)
    told = (_layers_mm(one) for one in sides)
    return next((thick for thick in told if thick is not None), None)


def _layers_mm(face: Item) -> float | None:
    layers = [thickness for _, thickness, _ in face.layers or ()]
    whole = math.fsum(layers) if None not in layers else 0.0
    return whole if whole >= WHOLE_MM else None


def far_side(site: Site, face: Item, deep_mm: float | None) -> tuple[bool, Item | None]:
    """Whether a hole that is to go so deep comes out behind, and the face there; None where that is not entered."""
    thick = thickness_mm(site, face)
    if deep_mm is None or thick is None or deep_mm < thick:
        return False, None
    other = other_side(site, face)
    return True, other.face if other else None


def comes_out(asked: Asked, fixing: Item) -> bool:
    """Whether a fixing goes through all of a wall. Asks how deep it goes, or how thick that is, where it may.

    Of unknown depth no hole ordinarily goes through half a brick, nor any but a bolt's through more than that; a wall
    of unknown thickness may be as thin.
    """
    if fixing.fabric == "another fitting" or (fixing.hole == "none" and fixing.sort not in PIERCING):
        return False
    site, face = asked.site, asked.site[fixing.face]
    thick = thickness_mm(site, face)
    least = THINNEST_MM if thick is None else thick
    if fixing.penetration_mm is None and _longest_mm(fixing, least) < least:
        return False
    deep: float = asked.need(fixing, "penetration_mm")
    if deep < least or _ends_in_timber(site, face, geometry.place_of(fixing), deep):
        return False
    return deep >= asked.need(face, "wall_mm") if thick is None else True


def _longest_mm(fixing: Item, thick_mm: float) -> float:
    """How deep a fixing of unknown depth may go: as long as it is, and only one with a nut right through."""
    if fixing.length_mm is not None:
        return float(fixing.length_mm)
    return thick_mm if fixing.sort in THROUGH_HOLES else min(thick_mm, THINNEST_MM - 1)


def _ends_in_timber(site: Site, face: Item, at: tuple[float, float], deep_mm: float) -> bool:
    there = (one for one in site.of(face, "member") if ages.covers(one, at))
    return any(deep_mm < (one.behind_mm or 0.0) + (one.thickness_mm or 0.0) for one in there)


def same_as(site: Site, fixing: Item) -> list[Item]:
    """The bolts of the other side that are entered where one comes out, and so are the same."""
    other = other_side(site, site[fixing.face]) if fixing.sort in THROUGH_HOLES and fixing.hole != "none" else None
    at = other.at(geometry.place_of(fixing)) if other else None
    if other is None or at is None:
        return []
    return [one for one in site.fixings_on(other.face) if one.stands and _is_at(one, at, fixing)]


def _is_at(other: Item, at: tuple[float, float], fixing: Item) -> bool:
    through = other.sort in THROUGH_HOLES and other.hole != "none" and other.fabric != "another fitting"
    play = max(AT_ONE_PLACE_MM, ((other.diameter_mm or 0.0) + (fixing.diameter_mm or 0.0)) / 2)
    return through and math.dist(geometry.place_of(other), at) <= play
