"""What each fixing of a group carries.

The fitting is taken as a rigid plate on a wall. In the plane the load is shared and its turning is taken
up about the centroid (elastic vector method). Out of the plane the plate settles between fixings that only
pull and a wall that only presses, on hard ground and on soft, and the greater pull counts. Does not cover a
plate or a wall that bends, prying, nor fixings of which some have play.

Axes of the face: x to the right, z up, forces with the same signs; a weight is a negative z force.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..errors import Missing, UnsuitableShape
from .cautions import LEFT_OUT_OF_LOADS
from .limits import within
from .plate_contact import FIRMNESS, PAD_MM2, SOFT_MM2, Bed, Spring, pulls_n
from .verdict import Verdict, at_most

SOURCE = (
    "Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-12 and equation 8-57 (shear); rigid plate "
    "with one-sided contact, EN 1992-4:2018, 6.2.1 (tension)"
)
FIXINGS_HIGH = 10_000
PLACE_HIGH_MM = 100_000.0
LOAD_HIGH_N = 1e6
STANDOFF_HIGH_MM = 10_000.0
# A turning moment below this is arithmetic noise, N·mm.
NEGLIGIBLE_NMM = 1e-3

Point = Sequence[float]


class Plate(NamedTuple):
    """Outline of what bears on the wall, mm in the axes of the face."""

    left: float
    bottom: float
    right: float
    top: float


def shear_parts_n(
    fixings_mm: Sequence[Point], load_n: Point, at_mm: Point, areas: Sequence[float] | None = None
) -> list[tuple[float, float]]:
    """What each fixing carries in the plane of the wall, as x and z parts.

    fixings_mm  (x, z) of each fixing, mm, -100 000 to 100 000; 1 to 10 000 fixings
    load_n      (Fx, Fz), N, -1 000 000 to 1 000 000 each
    at_mm       (x, z) where the load acts, mm, -100 000 to 100 000
    areas       how large each fixing is against the others, no unit, above 0; None: all alike
    returns     (Fx, Fz) carried by each fixing, N; together they equal the load and its moment

    Source: Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-12, equation 8-57.
    Raises OutOfRange outside the limits, UnsuitableShape where all fixings are at one point and the load turns it.

    >>> shear_parts_n([(0, 50), (0, -50)], (0, -200), (60, 0))
    [(120.0, -100.0), (-120.0, -100.0)]
    """
    _check_load(load_n, at_mm)
    return shared_n(fixings_mm, load_n, at_mm[0] * load_n[1] - at_mm[1] * load_n[0], areas)


def shared_n(
    fixings_mm: Sequence[Point], load_n: Point, turn_nmm: float, areas: Sequence[float] | None = None
) -> list[tuple[float, float]]:
    """What each fixing carries of a load in the plane of the wall and of its moment, as x and z parts.

    fixings_mm  (x, z) of each fixing, mm
    load_n      (Fx, Fz), N
    turn_nmm    moment of the load about x = 0, z = 0, N·mm, x towards z
    areas       how large each fixing is against the others, no unit; limits as for `shear_parts_n`
    returns     (Fx, Fz) carried by each fixing, N; together they equal the load and its moment

    Source: Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-12, equation 8-57.
    Raises OutOfRange outside the limits, UnsuitableShape where all fixings are at one point and the load turns it.

    >>> shared_n([(0, 50), (0, -50)], (0, -200), -12_000)
    [(120.0, -100.0), (-120.0, -100.0)]
    """
    shares = _shares(fixings_mm, areas)
    centre_x, centre_z = _centroid(fixings_mm, shares)
    moment = turn_nmm - centre_x * load_n[1] + centre_z * load_n[0]
    arms = [(x - centre_x, z - centre_z) for x, z in fixings_mm]
    polar = sum(share * (x * x + z * z) for share, (x, z) in zip(shares, arms, strict=True))
    if abs(moment) <= NEGLIGIBLE_NMM:
        turn = 0.0
    elif polar > 0:
        turn = moment / polar
    else:
        raise UnsuitableShape(
            "All fixings are at one point, and the load does not act through it: nothing keeps the work from turning.",
            "Add a fixing at another place, or let the load act through this one.",
            field="fixings_mm",
            value=list(fixings_mm[0]),
        )
    return [
        (share * (load_n[0] - turn * z), share * (load_n[1] + turn * x))
        for share, (x, z) in zip(shares, arms, strict=True)
    ]


def tension_n(
    fixings_mm: Sequence[Point],
    load_n: Point,
    at_mm: Point,
    standoff_mm: float,
    pull_n: float = 0.0,
    plate_mm: Plate | None = None,
    areas: Sequence[float] | None = None,
) -> list[float]:
    """What pulls each fixing out of the wall.

    fixings_mm   (x, z) of each fixing, mm, -100 000 to 100 000; 1 to 10 000 fixings
    load_n       (Fx, Fz), N, -1 000 000 to 1 000 000 each
    at_mm        (x, z) where load and pull act, mm, -100 000 to 100 000
    standoff_mm  how far out of the wall the load acts, mm, 0 to 10 000
    pull_n       pull straight out of the wall, as by a person, N, 0 to 1 000 000
    plate_mm     left, bottom, right and top of what bears on the wall, mm; None: it bears at its fixings alone,
                 which gives the larger tensions
    areas        how large each fixing is against the others, no unit, above 0; None: all alike
    returns      tension of each fixing, N: the greater of that on hard ground and on soft

    Source: EN 1992-4:2018, 6.2.1, clause from memory: rigid plate with one-sided contact. The usual rule, that it
    pivots on its edge, T = M·y/Σy², holds on unyielding ground only.
    Raises OutOfRange outside the limits, Missing where the fixings stand in one row and the plate is not given,
    UnsuitableShape for a plate that does not reach all fixings or that nothing keeps from turning.

    >>> [round(pull, 3) for pull in tension_n([(0, 280)], (0, -100), (0, 0), 150, plate_mm=Plate(-50, 0, 50, 300))]
    [65.877]
    """
    _shares(fixings_mm, areas)
    _check_load(load_n, at_mm)
    within("standoff_mm", standoff_mm, 0, STANDOFF_HIGH_MM, "mm")
    within("pull_n", pull_n, 0, LOAD_HIGH_N, "N")
    moments = pull_n * at_mm[0] - load_n[0] * standoff_mm, pull_n * at_mm[1] - load_n[1] * standoff_mm
    springs = [Spring(x, z, size) for (x, z), size in zip(fixings_mm, areas or [1.0] * len(fixings_mm), strict=True)]
    firm = sum(spring.stiffness for spring in springs) / len(springs) / SOFT_MM2
    pads = [Spring(x, z, firm * PAD_MM2) for x, z in fixings_mm] if plate_mm is None else ()
    bed = None if plate_mm is None else Bed(_outline(fixings_mm, plate_mm), firm)
    try:
        return pulls_n(springs, (pull_n, *moments), pads, bed, FIRMNESS)
    except UnsuitableShape:
        if plate_mm is not None:
            raise
        raise Missing(
            "The fixings stand in one row, so how far the fitting reaches past them decides what pulls them out.",
            "Give plate_mm: left, bottom, right and top of what bears on the wall.",
            field="plate_mm",
        ) from None


def verdict(shear_n: Sequence[float], tension_n: Sequence[float], allowed_n: float) -> Verdict:
    """Whether the hardest worked fixing of a group stays within what one fixing may carry.

    shear_n    shear of each fixing, N, 0 to 100 000 000
    tension_n  tension of each fixing, N, 0 to 100 000 000, in the same order
    allowed_n  what one fixing may carry in any direction, N, 0 to 1 000 000
    returns    verdict, N, on the resultant of shear and tension

    Source: as for `shear_parts_n` and `tension_n`.
    Raises OutOfRange outside the limits.

    >>> verdict([30, 0], [40, 20], 45).word.value
    'over'
    """
    within("allowed_n", allowed_n, 0, LOAD_HIGH_N, "N")
    whole = [
        math.hypot(within("shear_n", shear, 0, 1e8, "N"), within("tension_n", tension, 0, 1e8, "N"))
        for shear, tension in zip(shear_n, tension_n, strict=True)
    ]
    worst = max(range(len(whole)), key=whole.__getitem__)
    return at_most(
        "fixing-group",
        f"The force on fixing {worst + 1} of {len(whole)}, the hardest worked,",
        whole[worst],
        allowed_n,
        "N",
        SOURCE,
        standing=LEFT_OUT_OF_LOADS,
        working=(("shear", f"{shear_n[worst]:.1f} N"), ("tension", f"{tension_n[worst]:.1f} N")),
    )


def _shares(fixings_mm: Sequence[Point], areas: Sequence[float] | None) -> list[float]:
    """Each fixing's part of the whole area; refuses places and areas that cannot be."""
    within("fixings_mm", len(fixings_mm), 1, FIXINGS_HIGH, "fixings")
    for place, point in enumerate(fixings_mm):
        for number in point:
            within(f"fixings_mm[{place}]", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    if areas is None:
        return [1 / len(fixings_mm)] * len(fixings_mm)
    if len(areas) != len(fixings_mm):
        raise UnsuitableShape(
            f"There are {len(areas)} areas for {len(fixings_mm)} fixings.",
            "Give one area for each fixing, or none.",
            field="areas",
            value=len(areas),
        )
    whole = sum(within(f"areas[{place}]", area, 1e-6, 1e6, "") for place, area in enumerate(areas))
    return [area / whole for area in areas]


def _check_load(load_n: Point, at_mm: Point) -> None:
    for number in load_n:
        within("load_n", number, -LOAD_HIGH_N, LOAD_HIGH_N, "N")
    for number in at_mm:
        within("at_mm", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")


def _centroid(fixings_mm: Sequence[Point], shares: Sequence[float]) -> tuple[float, float]:
    pairs = list(zip(shares, fixings_mm, strict=True))
    return sum(share * x for share, (x, _) in pairs), sum(share * z for share, (_, z) in pairs)


def _outline(fixings_mm: Sequence[Point], plate: Plate) -> list[tuple[float, float]]:
    for edge in plate:
        within("plate_mm", edge, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    xs, zs = [x for x, _ in fixings_mm], [z for _, z in fixings_mm]
    inside = plate.left <= min(xs) and plate.bottom <= min(zs) and max(xs) <= plate.right and max(zs) <= plate.top
    if not inside:
        raise UnsuitableShape(
            "A fixing lies outside the plate.",
            "Give the plate as left, bottom, right, top in the axes of the fixings.",
            field="plate_mm",
            value=list(plate),
        )
    # What bears along a line is a millimetre wide.
    wide, high = (0.5 if plate.left == plate.right else 0.0), (0.5 if plate.bottom == plate.top else 0.0)
    left, right, bottom, top = plate.left - wide, plate.right + wide, plate.bottom - high, plate.top + high
    return [(left, bottom), (right, bottom), (right, top), (left, top)]
