"""Where the weight of a fitting goes, and what acts on its fixings: its own weight, all it carries, and people.

Weight goes through what a fitting hangs on or is fixed to. Each part keeps its own place; on another face it is
brought into the axes of the face of what carries it, never averaged.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks import face_load
from ..checks.cautions import OVERHEAD_UNDERSIDE_MM
from ..checks.clearance import highest
from ..checks.face_load import GRAVITY_M_S2, Force
from ..checks.limits import rounded_up
from ..errors import UnsuitableShape
from . import geometry
from .asking import Asked, NotEntered
from .finding import Blank
from .reach import carriers_of

OVERHEAD_SORTS = {"ceiling", "soffit"}
# From this lean on z is no height, and what lets go falls on whoever stands below: common practice, no source.
OVERHEAD_DEG = 15.0
# What ends higher than this above the floor does not stand on it: common practice, no source.
NEAR_FLOOR_MM = 100.0
NOT_REACHED = (
    "0 N is entered, yet people can lean or climb on it: enter how hard they may pull, or that nobody reaches it."
)
ITS_FIXINGS, THE_FLOOR, BOTH = "its fixings", "the floor", "the floor and its fixings"


class Weight(NamedTuple):
    """One part of what a fitting carries: itself or something that hangs on it; kg and mm on its own face."""

    part: Item
    mass_kg: float
    at_mm: tuple[float, float, float]

    @property
    def force_n(self) -> float:
        """The weight as a force."""
        return self.mass_kg * GRAVITY_M_S2


class Burden(NamedTuple):
    """What acts on the fixings of a fitting, in the axes of its face.

    lasting  weights that hang for good
    people   what people do, each of them by itself: a pull on one part at its worst place, and on the others amid
    """

    lasting: tuple[Force, ...]
    people: tuple[tuple[Force, ...], ...]


def carried(site: Site, fitting: Item) -> list[Item]:
    """A fitting and all whose weight goes through it, each once.

    Raises UnsuitableShape where the weight would go round in a circle.
    """
    found = {fitting.id: fitting}
    waiting = [fitting]
    while waiting:
        for other in site.hung_on(waiting.pop()):
            if other.id == fitting.id:
                raise UnsuitableShape(
                    f"The weight of {fitting.called} goes round in a circle: it hangs on what hangs on it.",
                    "Say which of them carries the other.",
                    field="hangs_on",
                    value=fitting.called,
                )
            if other.id not in found:
                found[other.id] = other
                waiting.append(other)
    return list(found.values())


def own_weight(asked: Asked, fitting: Item) -> Weight:
    """What a fitting weighs by itself, loaded. Its centre is in the middle of its front view unless entered."""
    part = geometry.fitting_stretch(fitting)
    x = (part.x_from + part.x_to) / 2 if fitting.centre_x_mm is None else fitting.centre_x_mm
    z = (part.z_from + part.z_to) / 2 if fitting.centre_z_mm is None else fitting.centre_z_mm
    return Weight(fitting, asked.need(fitting, "mass_loaded_kg"), (x, z, _out_mm(asked, fitting)))


def mass_kg(asked: Asked, fitting: Item) -> float:
    """What a fitting and all it carries weigh, loaded."""
    return sum(asked.need(part, "mass_loaded_kg") for part in carried(asked.site, fitting))


def weights(asked: Asked, fitting: Item) -> list[Weight]:
    """What a fitting's support carries, part by part, the fitting itself first."""
    return [own_weight(asked, part) for part in carried(asked.site, fitting)]


def burden(asked: Asked, fitting: Item) -> Burden:
    """What acts on a fitting's fixings."""
    return asked.once(("burden", fitting.id), lambda: _burden(asked, fitting))


def slope_deg(asked: Asked, face: Item) -> float:
    """How far a face leans over. One that is not entered is upright for a wall, overhead for a ceiling or soffit."""
    if face.slope_deg is not None:
        return face.slope_deg
    if face.sort == "other":
        return asked.need(face, "slope_deg")
    return 90.0 if face.sort in OVERHEAD_SORTS else 0.0


def height_above_floor_mm(site: Site, fitting: Item) -> float | None:
    """How far the lower edge of a fitting is above the highest floor below it; None overhead, where z is no height."""
    face = site[fitting.face]
    if face.sort in OVERHEAD_SORTS:
        return None
    part = geometry.fitting_stretch(fitting)
    return part.z_from - highest(geometry.floor_of(face), part.x_from, part.x_to)


def is_overhead(asked: Asked, fitting: Item) -> bool:
    """Whether it falls on heads when it lets go."""
    if slope_deg(asked, asked.site[fitting.face]) >= OVERHEAD_DEG:
        return True
    height = height_above_floor_mm(asked.site, fitting)
    return height is None or height >= OVERHEAD_UNDERSIDE_MM


def support_of(asked: Asked, fitting: Item) -> str:
    """What holds a fitting up. What ends well above the floor, or has another to hang on, cannot stand on it."""
    if fitting.support == ITS_FIXINGS:
        return ITS_FIXINGS
    return asked.once(("support", fitting.id), lambda: _support(asked, fitting))


def _support(asked: Asked, fitting: Item) -> str:
    height = height_above_floor_mm(asked.site, fitting)
    reaches_it = height is not None and height <= NEAR_FLOOR_MM
    if fitting.support is None and (not reaches_it or asked.site.goes_through(fitting)):
        return ITS_FIXINGS
    if fitting.support is not None and not reaches_it:
        where = "overhead" if height is None else f"{rounded_up(height):g} mm above the floor"
        raise UnsuitableShape(
            f"{fitting.called} is said to be held up by {fitting.support}, yet its lower edge is {where}.",
            "Correct its height or its size, or what holds it up.",
            field="support",
            value=fitting.support,
        )
    return asked.need(fitting, "support")


def people_pull_n(asked: Asked, fitting: Item) -> float:
    """How hard people pull at a fitting. Where nobody can lean or climb and no pull is entered, nobody does."""
    if fitting.pull_n:
        return fitting.pull_n
    if not asked.need(fitting, "climbable"):
        return 0.0
    if fitting.pull_n is None:
        return asked.need(fitting, "pull_n")
    if (taken := asked.taken.get((fitting.id, "pull_n"))) is not None:
        return float(taken)
    raise NotEntered(Blank(fitting, "pull_n"), None, "", NOT_REACHED)


def front_mm(asked: Asked, fitting: Item, above: frozenset[str] = frozenset()) -> float:
    """How far the front edge of a fitting stands out of its face, what it hangs on counted.

    above  what hangs on it, so that a ring of carriers ends
    """
    deep = geometry.projection_of(fitting)
    own: float = asked.need(fitting, "build_up") if deep is None else deep
    carriers = [one for one in carriers_of(asked.site, fitting) if one.id not in above]
    return own + max((front_mm(asked, one, above | {fitting.id}) for one in carriers), default=0.0)


def _out_mm(asked: Asked, fitting: Item) -> float:
    """How far out its centre of mass is: entered, or anywhere between its face and its front."""
    if fitting.centre_out_mm is not None:
        return fitting.centre_out_mm
    deep = None if geometry.projection_of(fitting) is None else front_mm(asked, fitting)
    out: float = asked.need(fitting, "centre_out_mm", tried=() if deep is None else (deep, deep / 2, 0.0))
    return out


def _burden(asked: Asked, fitting: Item) -> Burden:
    face = asked.site[fitting.face]
    parts = carried(asked.site, fitting)
    on_floor = support_of(asked, fitting) != ITS_FIXINGS
    lasting = [] if on_floor else [_weight(asked, own_weight(asked, part), face) for part in parts]
    pulls = [(part, people_pull_n(asked, part)) for part in parts]
    pulled = [(part, pull) for part, pull in pulls if pull]
    amid = {part.id: [_onto(asked, force, part, face) for force in _amid(asked, part, pull)] for part, pull in pulled}
    people = []
    for part, pull in pulled:
        for way, force in _at_corners(asked, part, pull):
            others = [forces[way] for other, forces in amid.items() if other != part.id]
            people.append((_onto(asked, force, part, face), *others))
    return Burden(tuple(lasting), tuple(people))


def _weight(asked: Asked, weight: Weight, face: Item) -> Force:
    """A weight in the axes of a face: at its own place, down as the face of the carrier has it."""
    if weight.part.face == face.id:
        return face_load.weight(weight.mass_kg, weight.at_mm, slope_deg(asked, face))
    return face_load.weight(weight.mass_kg, place_on(asked, weight.at_mm, asked.site[weight.part.face], face))


def _amid(asked: Asked, part: Item, pull: float) -> tuple[Force, Force]:
    """A pull straight out and one down, in the middle of the front."""
    middle = geometry.fitting_stretch(part)
    at = ((middle.x_from + middle.x_to) / 2, (middle.z_from + middle.z_to) / 2)
    out, down = face_load.people([at], front_mm(asked, part), pull, pull, slope_deg(asked, asked.site[part.face]))
    return out, down


def _at_corners(asked: Asked, part: Item, pull: float) -> Iterator[tuple[int, Force]]:
    """Pulls at the corners of the front edge: 0 for those straight out, 1 for those down."""
    slope = slope_deg(asked, asked.site[part.face])
    corners = geometry.fitting_outline(part)
    found = face_load.people(corners, front_mm(asked, part), pull, pull, slope)
    half = len(corners)
    # On an upright face it is all one at which height of the front edge somebody hangs.
    downwards = found[half : half + 2] if slope == 0 else found[half:]
    yield from ((0, force) for force in found[:half])
    yield from ((1, force) for force in downwards)


def _onto(asked: Asked, force: Force, part: Item, face: Item) -> Force:
    """A force on a part in the axes of the face of what carries it."""
    if part.face == face.id:
        return force
    own = asked.site[part.face]
    x, z, out = place_on(asked, (force.x_mm, force.z_mm, force.out_mm), own, face)
    turned = _frame(asked, own)[1] - _frame(asked, face)[1]
    along, across = force.x_n, -force.out_n
    return Force(
        along * math.cos(turned) - across * math.sin(turned),
        force.z_n,
        -(along * math.sin(turned) + across * math.cos(turned)),
        x,
        z,
        out,
    )


def place_on(asked: Asked, at_mm: tuple[float, float, float], own: Item, face: Item) -> tuple[float, float, float]:
    """A place on one upright face as x, z and out of another, by where both stand in the plan of their room."""
    if own.id == face.id:
        return at_mm
    leaning = next((one for one in (own, face) if slope_deg(asked, one) != 0), None)
    if own.room != face.room or leaning:
        raise UnsuitableShape(
            f"What hangs on {own.called} is carried on {face.called}: how it pulls there is not calculated across "
            f"{'a face that leans' if leaning else 'rooms'}.",
            "Enter both on one face, or have an engineer decide.",
            field="face",
            value=own.called,
        )
    x, z, out = at_mm
    (own_x, own_y), bearing = _frame(asked, own)
    (start_x, start_y), other = _frame(asked, face)
    # Seen from above, out of a face is a quarter turn clockwise from its x.
    east = own_x + x * math.cos(bearing) + out * math.sin(bearing) - start_x
    north = own_y + x * math.sin(bearing) - out * math.cos(bearing) - start_y
    level = geometry.floor_of(face)[0][1] - geometry.floor_of(own)[0][1]
    along = east * math.cos(other) + north * math.sin(other)
    return along, z + level, east * math.sin(other) - north * math.cos(other)


def _frame(asked: Asked, face: Item) -> tuple[tuple[float, float], float]:
    start = asked.need(face, "start_x_mm"), asked.need(face, "start_y_mm")
    return start, math.radians(asked.need(face, "bearing_deg"))
