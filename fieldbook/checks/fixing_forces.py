"""What each fixing carries under loads in space: shear along the face, and pull out of it.

The fitting is taken as rigid. Shear and turning in the plane of the face are shared elastically; pull comes from
the balance of the plate between fixings that only pull and what it bears on, which only presses. Does not cover
a fitting or a face that bends, prying of a thin lug, fixings with play, nor friction.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ..errors import Missing, UnsuitableShape
from .face_load import PLACE_HIGH_MM, Resultant
from .fixing_group import shared_n
from .limits import within
from .plate_contact import FIRMNESS, PAD_MM2, SOFT_MM2, Bed, Spring, pulls_n

SOURCE = (
    "Rigid plate with one-sided contact, EN 1992-4:2018, 6.2.1 (pull); Shigley, Mechanical Engineering Design, "
    "9th ed. (2011), section 8-12 and equation 8-57 (shear)"
)
FIXINGS_HIGH = 1_000
# Fixings nearer to a line than this stand in it, as they were set out: common practice, no source.
IN_LINE_MM = 25.0
SOFTNESS_LOW_MM2, SOFTNESS_HIGH_MM2 = 100.0, 1_000_000.0


class Fixing(NamedTuple):
    """One fixing of a group.

    x_mm, z_mm  its place on the face, mm
    size        how stiff it is against the others, no unit, above 0
    holds       False for a wedge or a prop, which only presses: it takes no share of shear or pull, and is counted on
                to slacken no other fixing's unless the others cannot do without it
    """

    x_mm: float
    z_mm: float
    size: float = 1.0
    holds: bool = True


Point = Sequence[float]


class Contact(NamedTuple):
    """What the fitting bears on. With neither outline nor pads it bears at its fixings alone.

    outline_mm  (x, z) corners of an area that lies on the face, mm; at least 3, or none
    pads_mm     (x, z) of packers and feet, mm
    pad_mm2     how large each of these is, mm², and so what it bears on at a fixing; its width counts only where
                pads without any would not balance the load
    """

    outline_mm: Sequence[Point] = ()
    pads_mm: Sequence[Point] = ()
    pad_mm2: float = PAD_MM2


class Carried(NamedTuple):
    """What one fixing carries: parts of its shear along the face, and its pull out of the face, N."""

    x_n: float
    z_n: float
    pull_n: float

    @property
    def shear_n(self) -> float:
        """Shear along the face, N."""
        return math.hypot(self.x_n, self.z_n)

    @property
    def force_n(self) -> float:
        """Shear and pull together, N."""
        return math.hypot(self.x_n, self.z_n, self.pull_n)


NOTHING = Carried(0.0, 0.0, 0.0)


def carried(
    fixings: Sequence[Fixing], load: Resultant, contact: Contact, softness_mm2: float | None = None
) -> list[Carried]:
    """What each fixing of a group carries.

    fixings       1 to 1 000, mm
    load          what the loads come to, N and N·mm
    contact       what the fitting bears on, mm
    softness_mm2  stiffness of a fixing over the bedding of what it bears on, mm², 100 to 1 000 000: stress area times
                  modulus of the fixing over modulus of the ground; None: for each fixing the worse of hard ground, 10,
                  and soft, 10 000
    returns       one for each fixing, N; all zero for one that only presses

    Source: EN 1992-4:2018, 6.2.1, clause from memory (pull); Shigley, Mechanical Engineering Design, 9th ed. (2011),
    section 8-12 (shear).
    Raises OutOfRange outside the limits; Missing where nothing holds; UnsuitableShape where nothing balances the load.

    >>> overhead = Resultant(0, 0, 588.6, 0, 0, 0)
    >>> [round(each.pull_n, 6) for each in carried([Fixing(-200, 0), Fixing(200, 0)], overhead, Contact())]
    [294.3, 294.3]
    """
    held = holding(fixings)
    places = [(fixing.x_mm, fixing.z_mm) for fixing in held]
    shear = shared_n(places, (load.x_n, load.z_n), load.turn_nmm, [fixing.size for fixing in held])
    pull = _pulls_n(fixings, held, load, contact, softness_mm2)
    found = iter([Carried(x, z, out) for (x, z), out in zip(shear, pull, strict=True)])
    return [next(found) if fixing.holds else NOTHING for fixing in fixings]


def worst(cases: Iterable[Sequence[Carried]]) -> list[Carried]:
    """The greatest shear and the greatest pull of each fixing over several cases, such as each of people's pulls.

    cases    what each fixing carries in each case, N, in the same order
    returns  one for each fixing, N; shear and pull may come from different cases, which is on the safe side

    Source: envelope of load cases.

    >>> worst([[Carried(0, -50, 20)], [Carried(30, -30, 80)]])
    [Carried(x_n=0, z_n=-50, pull_n=80)]
    """
    found = []
    for each in zip(*cases, strict=True):
        sheared = max(each, key=lambda case: case.shear_n)
        found.append(Carried(sheared.x_n, sheared.z_n, max(case.pull_n for case in each)))
    return found


def holding(fixings: Sequence[Fixing]) -> list[Fixing]:
    """The fixings that take shear and pull.

    fixings  1 to 1 000, mm
    returns  those of them that do not only press

    Source: statics.
    Raises OutOfRange outside the limits; Missing where nothing holds.

    >>> holding([Fixing(0, 0), Fixing(80, 0, holds=False)])
    [Fixing(x_mm=0, z_mm=0, size=1.0, holds=True)]
    """
    within("fixings", len(fixings), 1, FIXINGS_HIGH, "fixings")
    for place, fixing in enumerate(fixings):
        for number in (fixing.x_mm, fixing.z_mm):
            within(f"fixings[{place}]", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
        within(f"fixings[{place}].size", fixing.size, 1e-6, 1e6, "")
    held = [fixing for fixing in fixings if fixing.holds]
    if not held:
        raise Missing(
            "Nothing here holds: wedges and props only press.",
            "Add a fixing that holds, or show by an engineer that pressure alone keeps it.",
            field="fixings",
        )
    return held


def _pulls_n(
    fixings: Sequence[Fixing], held: Sequence[Fixing], load: Resultant, contact: Contact, softness_mm2: float | None
) -> list[float]:
    """Pulls with what only presses in its place, and where the rest balances without it the worse of both."""
    _check(contact)
    pads = list(contact.pads_mm)
    if not pads and not contact.outline_mm:
        pads = [(fixing.x_mm, fixing.z_mm) for fixing in held]
    pressing = [(fixing.x_mm, fixing.z_mm) for fixing in fixings if not fixing.holds]
    if not pressing:
        return _on_pads_n(held, load, contact, pads, softness_mm2)
    found = _on_pads_n(held, load, contact, [*pads, *pressing], softness_mm2)
    if not contact.outline_mm and _in_line([*((fixing.x_mm, fixing.z_mm) for fixing in held), *pads]):
        return found
    try:
        without = _balanced_n(held, load, contact, pads, softness_mm2)
    except UnsuitableShape:
        return found
    return [max(both) for both in zip(found, without, strict=True)]


def _in_line(points: Sequence[Point]) -> bool:
    """Whether points lie on one line but for how they were set out: what tips about it is held by nothing else."""
    first, last = min(points, key=tuple), max(points, key=tuple)
    if last[0] - first[0] < max(point[1] for point in points) - min(point[1] for point in points):
        first, last = (pick(points, key=lambda point: point[1]) for pick in (min, max))
    along, up = last[0] - first[0], last[1] - first[1]
    length = math.hypot(along, up) or 1.0
    off = (abs(along * (z - first[1]) - up * (x - first[0])) / length for x, z in points)
    return max(off) < IN_LINE_MM


def _on_pads_n(
    held: Sequence[Fixing], load: Resultant, contact: Contact, pads: Sequence[Point], softness_mm2: float | None
) -> list[float]:
    """Pulls with pads as points, or over their width where points do not balance the load."""
    try:
        return _balanced_n(held, load, contact, pads, softness_mm2)
    except UnsuitableShape:
        half = contact.pad_mm2**0.5 / 2
        corners = [(x + i, z + j) for x, z in pads for i in (-half, half) for j in (-half, half)]
        return _balanced_n(held, load, contact, corners, softness_mm2, 0.25)


def _balanced_n(
    held: Sequence[Fixing],
    load: Resultant,
    contact: Contact,
    pads: Sequence[Point],
    softness_mm2: float | None,
    part_of_pad: float = 1.0,
) -> list[float]:
    if softness_mm2 is None:
        softness_mm2, firmness = SOFT_MM2, FIRMNESS
    else:
        within("softness_mm2", softness_mm2, SOFTNESS_LOW_MM2, SOFTNESS_HIGH_MM2, "mm²")
        firmness = (1.0,)
    # The fixings' stiffness is counted as 1 for the mean size, so the bedding's is the inverse of the softness.
    mean = sum(fixing.size for fixing in held) / len(held)
    return pulls_n(
        [Spring(fixing.x_mm, fixing.z_mm, fixing.size / mean) for fixing in held],
        (load.out_n, load.right_nmm, load.top_nmm),
        [Spring(x, z, part_of_pad * contact.pad_mm2 / softness_mm2) for x, z in pads],
        Bed(contact.outline_mm, 1 / softness_mm2) if contact.outline_mm else None,
        firmness,
    )


def _check(contact: Contact) -> None:
    within("pad_mm2", contact.pad_mm2, 1, 1e6, "mm²")
    for number in (number for point in (*contact.pads_mm, *contact.outline_mm) for number in point):
        within("contact", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    if contact.outline_mm and len(contact.outline_mm) < 3:
        raise UnsuitableShape(
            "The outline of what bears on the face has fewer than three corners.",
            "Give its corners in turn, or pads.",
            field="outline_mm",
            value=len(contact.outline_mm),
        )
