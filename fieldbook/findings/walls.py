"""How the walls of a room stand to each other in its plan, and to its ceiling.

Seen from above, out of a wall is a quarter turn clockwise from its x; so is z of a ceiling, which is seen from below.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..book.site import Item, Site
from ..book.wording import joined
from ..checks.sweep import Leaf
from . import geometry
from .finding import Blank

IN_PLAN = ("start_x_mm", "start_y_mm", "bearing_deg")
FACING_DEG = 45.0  # what is turned farther from looking at a wall does not stand across from it


def is_wall(face: Item) -> bool:
    """Whether z on a face is a height, and what stands on it stands out sideways."""
    return geometry.is_upright(face) and not geometry.overhead(face)


def placed(face: Item) -> bool:
    """Whether a face stands in the plan of its room."""
    return all(face.values[name] is not None for name in IN_PLAN)


def others(site: Site, face: Item) -> Iterator[Item]:
    """The other walls of a face's room."""
    return (one for one in site.of(site[face.room], "face") if one.id != face.id and is_wall(one))


def lacking(*faces: Item) -> tuple[Blank, ...]:
    """What is not entered of where faces stand in the plan."""
    return tuple(Blank(one, name) for one in faces for name in IN_PLAN if one.values[name] is None)


def where(blanks: tuple[Blank, ...]) -> str:
    """That it is not entered where faces stand, as the end of a sentence."""
    walls = joined(sorted({blank.item.called for blank in blanks}))
    return f"where {walls} stand{'s' if ' ' not in walls else ''} in the plan of the room is not entered."


def ends(face: Item) -> tuple[float, float]:
    """From which x to which a face reaches, mm."""
    part = geometry.face_stretch(face)
    return part.x_from, part.x_to


def level_mm(face: Item, own: Item) -> float:
    """What a height on one wall is more on another, by the floor at the left end of both, mm."""
    return geometry.floor_of(face)[0][1] - geometry.floor_of(own)[0][1]


def turned(face: Item, own: Item, leaf: Leaf) -> Leaf:
    """A leaf of one wall in the axes of another, or of the ceiling: x, and out of it, or its z."""
    bearing, other = math.radians(own.bearing_deg), math.radians(face.bearing_deg)
    x, out = leaf.hinge_mm
    east = own.start_x_mm + x * math.cos(bearing) + out * math.sin(bearing) - face.start_x_mm
    north = own.start_y_mm + x * math.sin(bearing) - out * math.cos(bearing) - face.start_y_mm
    hinge = east * math.cos(other) + north * math.sin(other), east * math.sin(other) - north * math.cos(other)
    by = (face.bearing_deg - own.bearing_deg + 180) % 360 - 180
    return Leaf(hinge, leaf.from_deg + by, leaf.to_deg + by, leaf.boxes_mm)


def facing(face: Item, other: Item) -> bool:
    """Whether two walls that stand in the plan look at each other."""
    turn = (face.bearing_deg - other.bearing_deg) % 360
    return abs(turn - 180) <= FACING_DEG


def apart_mm(face: Item, other: Item) -> float:
    """How far in front of a face another that looks at it stands at its nearest end, mm; infinite for any other."""
    if not (placed(face) and placed(other) and facing(face, other)):
        return math.inf
    out = min(turned(face, other, Leaf((x, 0.0), 0, 0, ((0, 1, 0, 1),))).hinge_mm[1] for x in ends(other))
    return out if out > 0 else math.inf
