"""What each fixing of a fitting carries: shear along the face and pull out of it, for good and with people."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.face_load import Force, resultant
from ..checks.fixing_forces import Carried, Contact, Fixing, carried, worst
from ..checks.rail import columns_of, rail_carried
from ..errors import Missing
from . import geometry
from .asking import Asked
from .load_paths import BOTH, ITS_FIXINGS, THE_FLOOR, Burden, burden, support_of
from .toppling import head_pulls

# What creeps or slides under what hangs for good, so that others come to carry its share: G. Spicer, Magnetic Mounting
# Systems for Museums (2019), for magnets; for pads common practice, no source.
GIVE_WAY = frozenset({"adhesive pad", "magnet"})
SOFT = 0.001  # how stiff these are against the rest
# What is driven in gives way the less the thicker it is: slip modulus in proportion to the diameter, EN 1995-1-1:2004,
# table 7.1, from memory; from the thinnest to the thickest that is ordinary where it is not entered.
DRIVEN = frozenset({"wood screw", "coach screw", "machine screw", "bolt", "nail"})
ORDINARY_MM = (3.0, 12.0)  # common practice, no source
PRESS_ONLY = frozenset({"wedge", "prop", "weight"})
MIXED = 2
# A row of as many fixings is looked at as a rail as well, which bends between them.
RAIL_FIXINGS = 3
# Places are taken from the corner of the fitting, so that things alike are calculated once; mm.
STEP = 6
NEGLIGIBLE_N = 0.05


class Share(NamedTuple):
    """What one fixing carries, N: for good, and what people add at the worst."""

    fixing: Item
    shear_n: float
    people_shear_n: float
    pull_n: float
    people_pull_n: float

    @property
    def whole_shear_n(self) -> float:
        """Shear along the face, people's with it."""
        return self.shear_n + self.people_shear_n

    @property
    def whole_pull_n(self) -> float:
        """Pull out of the face, people's with it."""
        return self.pull_n + self.people_pull_n

    @property
    def force_n(self) -> float:
        """Shear and pull together, people's with them."""
        return math.hypot(self.whole_shear_n, self.whole_pull_n)


class Group(NamedTuple):
    """The fixings of a fitting as plain values, from its corner: what they are, and what it bears on."""

    fixings: tuple[Fixing, ...]
    outline_mm: tuple[tuple[float, float], ...]
    bears: bool | None
    pad_mm2: float


def standing(site: Site, fitting: Item) -> list[Item]:
    """The fixings of a fitting that are up or to go up."""
    return [fixing for fixing in site.of(fitting, "fixing") if fixing.stands]


def holds(fixing: Item) -> bool:
    """Whether it takes shear and pull; wedges, props and weights take pressure alone."""
    return fixing.sort not in PRESS_ONLY


def bearers(site: Site, fitting: Item) -> list[Item]:
    """The fixings on a fitting's own face that carry it, or press: all but those said to carry nothing."""
    own = [fixing for fixing in standing(site, fitting) if fixing.face == fitting.face]
    return [fixing for fixing in own if fixing.carries_load != 0 or not holds(fixing)]


def shares(asked: Asked, fitting: Item) -> dict[str, Share]:
    """What each fixing of a fitting carries, by its id.

    A fixing of which nothing is said carries its share, as the field says of itself.
    Raises Missing where nothing holds it, and what the statics raise.
    """
    return asked.once(("shares", fitting.id), lambda: _shares(asked, fitting))


def group_of(asked: Asked, fitting: Item, fixings: Sequence[Item]) -> Group:
    """Some fixings of a fitting with what it bears on."""
    left, bottom = fitting.x_mm, fitting.z_mm
    places = [geometry.place_of(fixing) for fixing in fixings]
    group = tuple(
        Fixing(round(x - left, STEP), round(z - bottom, STEP), stiff, holds(fixing))
        for (x, z), fixing, stiff in zip(places, fixings, _stiff(asked, fixings), strict=True)
    )
    corners = tuple((round(x - left, STEP), round(z - bottom, STEP)) for x, z in geometry.fitting_outline(fitting))
    # A square of which the radius is half the diagonal.
    pad = 2 * min(fixing.contact_radius_mm for fixing in fixings) ** 2
    bears = None if fitting.touches_face is None else bool(fitting.touches_face)
    return Group(group, corners, bears, max(1.0, pad))


def _stiff(asked: Asked, fixings: Sequence[Item]) -> list[float]:
    """How stiff each of some fixings is against the stiffest."""
    driven = [fixing for fixing in fixings if fixing.sort in DRIVEN]
    if len(driven) < MIXED:
        driven = []
    across = {fixing.id: asked.need(fixing, "diameter_mm", tried=ORDINARY_MM) for fixing in driven}
    widest = max(across.values(), default=0.0) or 1.0
    return [SOFT if one.sort in GIVE_WAY else across.get(one.id, widest) / widest or SOFT for one in fixings]


def burden_of(asked: Asked, fitting: Item) -> Burden:
    """What acts on a fitting's fixings, from the corner of the fitting."""
    whole = burden(asked, fitting)
    lasting = (*whole.lasting, *_tipping(asked, fitting))
    return Burden(
        tuple(_from_corner(force, fitting) for force in lasting),
        tuple(tuple(_from_corner(force, fitting) for force in case) for case in whole.people),
    )


def _tipping(asked: Asked, fitting: Item) -> Iterator[Force]:
    """What tips a fitting that stands on the floor and is kept from it by its fixings alone."""
    heights = [geometry.place_of(one)[1] for one in bearers(asked.site, fitting) if holds(one)]
    if heights and support_of(asked, fitting) == BOTH:
        yield from head_pulls(asked, fitting, max(heights))


def _shares(asked: Asked, fitting: Item) -> dict[str, Share]:
    own = bearers(asked.site, fitting)
    support = support_of(asked, fitting)
    if support == THE_FLOOR:
        return {fixing.id: Share(fixing, 0.0, 0.0, 0.0, 0.0) for fixing in own}
    if not own:
        raise asked.lack(fitting, "fixing", f"the fixings that carry {fitting.called}")
    parts = spread(group_of(asked, fitting, own), burden_of(asked, fitting))
    return {fixing.id: Share(fixing, *each) for fixing, each in zip(own, parts, strict=True)}


@lru_cache(maxsize=16_384)
def spread(group: Group, acting: Burden) -> tuple[tuple[float, float, float, float], ...]:
    """Shear for good, what people add to it, pull for good, what people add to it, N, for each fixing of a group.

    People come to what is loaded and to what stands empty: a load that may be lifted off relieves nobody's pull.
    """
    lasting = lasting_on(group, acting)
    cases = [forces for case in acting.people for forces in ((*acting.lasting, *case), case)]
    with_people = worst([lasting, *(_carried(group, forces) for forces in cases)])
    return tuple(
        (
            round(one.shear_n, STEP),
            round(both.shear_n - one.shear_n, STEP),
            round(one.pull_n, STEP),
            round(both.pull_n - one.pull_n, STEP),
        )
        for one, both in zip(lasting, with_people, strict=True)
    )


def at_once_n(asked: Asked, fitting: Item) -> float:
    """What all fixings of a fitting carry at the same time, added as if they pulled one way, N, at its worst case.

    Less than what each of them carries at its own worst: nobody pulls at every corner at once, and where one fixing
    of a row takes all, the others take nothing.
    """
    group, acting = group_of(asked, fitting, bearers(asked.site, fitting)), burden_of(asked, fitting)
    cases = [acting.lasting, *(forces for case in acting.people for forces in ((*acting.lasting, *case), case))]
    loads = [resultant(forces) for forces in cases]
    return max(
        sum(each.force_n for each in carried(one.fixings, load, contact))
        for load in loads
        for one in _stiffnesses(group)
        for contact in _contacts(group)
    )


def lasting_on(group: Group, acting: Burden) -> list[Carried]:
    """What each fixing of a group carries for good."""
    return _carried(group, acting.lasting)


def _carried(group: Group, forces: Sequence[Force]) -> list[Carried]:
    """The worse of all being alike in stiffness and some giving way more; likewise of bearing on the face and not."""
    return worst([_on(one, forces, contact) for one in _stiffnesses(group) for contact in _contacts(group)])


def _stiffnesses(group: Group) -> list[Group]:
    alike = group._replace(fixings=tuple(fixing._replace(size=1.0) for fixing in group.fixings))
    return [alike, group] if len({fixing.size for fixing in group.fixings}) > 1 else [alike]


def _contacts(group: Group) -> list[Contact]:
    contacts = []
    if group.bears is not False:
        contacts.append(Contact(group.outline_mm, (), group.pad_mm2))
    if not group.bears:
        contacts.append(Contact((), (), group.pad_mm2))
    return contacts


def _on(group: Group, forces: Sequence[Force], contact: Contact) -> list[Carried]:
    turned = [fixing._replace(x_mm=fixing.z_mm, z_mm=fixing.x_mm) for fixing in group.fixings]
    wide, high = len(columns_of(group.fixings)), len(columns_of(turned))
    if max(wide, high) < RAIL_FIXINGS:
        return carried(group.fixings, resultant(forces), contact)
    if wide >= high:
        return rail_carried(group.fixings, forces, contact)
    outline = tuple((z, x) for x, z in contact.outline_mm)
    found = rail_carried(turned, [_turned(force) for force in forces], contact._replace(outline_mm=outline))
    return [Carried(each.z_n, each.x_n, each.pull_n) for each in found]


def _turned(force: Force) -> Force:
    """A force with x and z exchanged, for a rail that runs up the face."""
    return Force(force.z_n, force.x_n, force.out_n, force.z_mm, force.x_mm, force.out_mm)


def _from_corner(force: Force, fitting: Item) -> Force:
    return force._replace(
        x_mm=round(force.x_mm - fitting.x_mm, STEP),
        z_mm=round(force.z_mm - fitting.z_mm, STEP),
        out_mm=round(force.out_mm, STEP),
    )


def carries(asked: Asked, fixing: Item) -> Share | None:
    """What a fixing carries; None where it is said to carry nothing, or takes no share.

    Raises Missing where it stands on another face than its fitting, and what `shares` raises.
    """
    fitting = asked.site[fixing.fitting]
    if support_of(asked, fitting) == ITS_FIXINGS and fixing.carries_load == 0:
        return None
    if fixing.face != fitting.face and holds(fixing):
        raise Missing(
            f"{fixing.called} stands on another face than {fitting.called}; its share of the load is not calculated.",
            "Have an engineer decide, or enter that it carries no load.",
            field="face",
        )
    return shares(asked, fitting).get(fixing.id)
