"""What a nail, screw or bolt carries sideways where wood meets wood, or a steel plate meets wood.

The parts touch: across a gap the metal bends, which is `timber_gap`. One shear plane; characteristic values for
one fastener. Does not cover two shear planes, splitting of a member pulled across the grain near its edge,
boards and panels as the part in front, nor wood that is wet or decayed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from . import timber_design
from .limits import within
from .timber_dowel import BOLT_HIGH_MM, LENGTH_HIGH_MM, THINNEST_MM, sort_named
from .verdict import Verdict

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.2.2 (equation 8.6) and 8.2.3 (equations 8.9, 8.10; second hand)"
LEFT_OUT = (
    "Left out: splitting of a member pulled across its grain near an edge, decay, and the shear of a part in front "
    "that is thinner than it looks. Edge, end and spacing are a question of their own."
)
EMBEDMENT_HIGH_N_MM2 = 200.0
MOMENT_HIGH_NMM = 1e7


class WoodPart(NamedTuple):
    """One wooden part: its embedment strength, N/mm², and how much of the fastener stands in it, mm."""

    embedment_n_mm2: float
    length_mm: float


class Mode(NamedTuple):
    """One way of giving, in words; the load it takes, N; whether it bends or tilts, and so pulls as a rope does."""

    name: str
    load_n: float
    bends: bool


def wood_to_wood(first: WoodPart, second: WoodPart, diameter_mm: float, moment_nmm: float) -> tuple[Mode, ...]:
    """The six ways in which one fastener between two wooden parts gives.

    first        the part under the head
    second       the part that holds the point; both 0.1 to 200 N/mm² and 1 to 1000 mm
    diameter_mm  of the shank, or the effective one of a screw, mm, 1.5 to 30
    moment_nmm   yield moment, N·mm, 1 to 10 000 000
    returns      modes in the order of the equation, characteristic loads in N

    Source: EN 1995-1-1:2004+A1:2008, equation 8.6, after Johansen.
    Raises OutOfRange outside the limits.

    >>> modes = wood_to_wood(WoodPart(20.4396, 20), WoodPart(20.4396, 45), 3.1, 3410.46)
    >>> [round(mode.load_n) for mode in modes]
    [1267, 2851, 959, 607, 1076, 756]
    """
    for which, part in (("first", first), ("second", second)):
        _check_part(which, part)
    _check_metal(diameter_mm, moment_nmm)
    (f1, t1), (f2, t2) = first, second
    b, t, one = f2 / f1, t2 / t1, f1 * t1 * diameter_mm
    tilt = math.sqrt(b + 2 * b**2 * (1 + t + t**2) + b**3 * t**2) - b * (1 + t)
    near = math.sqrt(2 * b * (1 + b) + 4 * b * (2 + b) * moment_nmm / (f1 * diameter_mm * t1**2)) - b
    far = math.sqrt(2 * b**2 * (1 + b) + 4 * b * (1 + 2 * b) * moment_nmm / (f1 * diameter_mm * t2**2)) - b
    twice = math.sqrt(2 * b / (1 + b)) * math.sqrt(2 * moment_nmm * f1 * diameter_mm)
    return (
        Mode("the first part crushes", one, False),
        Mode("the second part crushes", f2 * t2 * diameter_mm, False),
        Mode("the fastener tilts", one / (1 + b) * tilt, True),
        Mode("the fastener bends in the second part", 1.05 * one / (2 + b) * near, True),
        Mode("the fastener bends in the first part", 1.05 * f1 * t2 * diameter_mm / (1 + 2 * b) * far, True),
        Mode("the fastener bends in both parts", 1.15 * twice, True),
    )


def thin_plate(wood: WoodPart, diameter_mm: float, moment_nmm: float) -> tuple[Mode, ...]:
    """How one fastener through a thin steel plate (up to half its diameter) gives.

    wood         the part behind the plate, 0.1 to 200 N/mm² and 1 to 1000 mm
    diameter_mm  as for `wood_to_wood`, mm, 1.5 to 30
    moment_nmm   as for `wood_to_wood`, N·mm
    returns      modes, characteristic loads in N

    Source: EN 1995-1-1:2004+A1:2008, equation 8.9.
    Raises OutOfRange outside the limits.

    >>> [round(mode.load_n, 1) for mode in thin_plate(WoodPart(19.6752, 40), 3.52, 4745.52)]
    [1108.1, 932.4]
    """
    _check_part("wood", wood)
    _check_metal(diameter_mm, moment_nmm)
    hardness = wood.embedment_n_mm2 * diameter_mm
    return (
        Mode("the fastener tilts", 0.4 * hardness * wood.length_mm, False),
        Mode("the fastener bends in the wood", 1.15 * math.sqrt(2 * moment_nmm * hardness), True),
    )


def thick_plate(wood: WoodPart, diameter_mm: float, moment_nmm: float) -> tuple[Mode, ...]:
    """How one fastener through a thick steel plate (at least its diameter, in a close hole) gives.

    wood         the part behind the plate, 0.1 to 200 N/mm² and 1 to 1000 mm
    diameter_mm  as for `wood_to_wood`, mm, 1.5 to 30
    moment_nmm   as for `wood_to_wood`, N·mm
    returns      modes, characteristic loads in N

    Source: EN 1995-1-1:2004+A1:2008, equation 8.10; a hole wider by a tenth of the diameter makes the plate thin.
    Raises OutOfRange outside the limits.

    >>> [round(mode.load_n, 1) for mode in thick_plate(WoodPart(19.6752, 40), 3.52, 4745.52)]
    [2770.3, 1311.8, 1318.6]
    """
    _check_part("wood", wood)
    _check_metal(diameter_mm, moment_nmm)
    hardness = wood.embedment_n_mm2 * diameter_mm
    crush = hardness * wood.length_mm
    root = math.sqrt(2 + 4 * moment_nmm / (hardness * wood.length_mm**2)) - 1
    return (
        Mode("the wood crushes", crush, False),
        Mode("the fastener bends at the plate", crush * root, True),
        Mode("the fastener bends at the plate and in the wood", 2.3 * math.sqrt(moment_nmm * hardness), True),
    )


def weakest(modes: Sequence[Mode], sort: str, axial_n: float = 0.0) -> Mode:
    """The way that gives first, with the rope effect counted where it may be.

    modes    from `wood_to_wood`, `thin_plate` or `thick_plate`
    sort     one of `timber_dowel.SORTS`
    axial_n  characteristic pull the fastener holds, N, 0 to 1 000 000; 0 where it is not known or already used
    returns  the mode, its load raised by a quarter of the pull, but by no more than the sort's share of itself, N

    Source: EN 1995-1-1:2004+A1:2008, 8.2.2(2): nails 15 %, square 25 %, other nails 50 %, screws 100 %, bolts 25 %.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> weakest(wood_to_wood(WoodPart(25.83, 50), WoodPart(25.83, 50), 10, 47772.9), "bolt").name
    'the fastener tilts'
    """
    within("axial_n", axial_n, 0, timber_design.LOAD_HIGH_N, "N")
    share = sort_named(sort).rope_share
    return min(
        (mode._replace(load_n=mode.load_n + mode.bends * min(axial_n / 4, share * mode.load_n)) for mode in modes),
        key=lambda mode: mode.load_n,
    )


def plate_to_wood(
    wood: WoodPart, diameter_mm: float, moment_nmm: float, plate_mm: float, sort: str, axial_n: float = 0.0
) -> Mode:
    """The way in which one fastener through a steel plate of any thickness gives first.

    wood         as for `thin_plate`
    diameter_mm  as for `wood_to_wood`, mm, 1.5 to 30
    moment_nmm   as for `wood_to_wood`, N·mm
    plate_mm     thickness of the plate, mm, 0.5 to 100
    sort         one of `timber_dowel.SORTS`
    axial_n      as for `weakest`, N
    returns      the mode, characteristic load in N; between thin and thick on the straight line between the two

    Source: EN 1995-1-1:2004+A1:2008, 8.2.3(1).
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> round(plate_to_wood(WoodPart(19.6752, 40), 3.52, 4745.52, 2.64, "screw").load_n, 1)
    1122.1
    """
    within("plate_mm", plate_mm, 0.5, 100, "mm")
    thin = weakest(thin_plate(wood, diameter_mm, moment_nmm), sort, axial_n)
    thick = weakest(thick_plate(wood, diameter_mm, moment_nmm), sort, axial_n)
    between = min(1.0, max(0.0, 2 * plate_mm / diameter_mm - 1))
    nearer = thick if between == 1 else thin
    return nearer._replace(load_n=thin.load_n + between * (thick.load_n - thin.load_n))


def verdict(
    mode: Mode,
    permanent_n: float,
    people_n: float,
    service_class: int,
    *,
    gap_mm: float,
    lacking_mm: float,
    end_grain: bool,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a fastener holds what pushes it sideways, where the parts touch.

    mode                   the weakest, its load in N
    permanent_n, people_n  sideways load on it for good, and what people add, N, 0 to 1 000 000
    service_class          as for `timber_design.k_mod`, no unit
    gap_mm                 plaster, packers or air between the parts, mm, 0 to 1000
    lacking_mm             how much is missing of `timber_dowel.least_embedment_mm`, mm, 0 to 1000
    end_grain              whether it stands in end grain
    working                what led to the mode, for whoever does it again
    returns                verdict, N; across a gap, too short or in end grain never better than not known

    Source: EN 1995-1-1:2004+A1:2008, 8.2.2, 8.2.3 and 2.4.3.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> tilts = Mode("the fastener tilts", 600, True)
    >>> verdict(tilts, 100, 50, 1, gap_mm=0, lacking_mm=0, end_grain=False).word.value
    'within'
    """
    within("gap_mm", gap_mm, 0, LENGTH_HIGH_MM, "mm")
    answer = timber_design.verdict(
        "shear",
        "The sideways load on the fastener",
        mode.load_n,
        permanent_n,
        people_n,
        service_class,
        SOURCE,
        after=f"It would give where {mode.name}.",
        standing=LEFT_OUT,
        working=(*working, ("gives first", mode.name)),
    )
    between = (
        f"The rules on sideways load hold for parts that touch; here {gap_mm:g} mm lie between them, and the fastener "
        "bends across. It has to be calculated as one that stands out over a gap."
    )
    reasons = ((("gap_mm", between),) if gap_mm > 0 else ()) + outside_the_rules(lacking_mm, end_grain)
    return timber_design.not_better_than_not_known(answer, reasons)


def outside_the_rules(lacking_mm: float, end_grain: bool) -> tuple[tuple[str, str], ...]:
    """Why the rules on sideways load do not hold for a fastener.

    lacking_mm  how much is missing of `timber_dowel.least_embedment_mm`, mm, 0 to 1000
    end_grain   whether it stands in end grain
    returns     (input, sentence) pairs; none where the rules hold

    Source: EN 1995-1-1:2004+A1:2008, 8.3.1.2 and 8.7.2(3).
    Raises OutOfRange outside the limits.

    >>> outside_the_rules(0, False)
    ()
    """
    within("lacking_mm", lacking_mm, 0, LENGTH_HIGH_MM, "mm")
    short = f"The fastener stands {lacking_mm:g} mm less deep in the wood than the rules ask for. Use a longer one."
    grain = "In end grain no rule gives a sideways load to rely on. Fix into side grain."
    return tuple(
        reason
        for reason, there in ((("lacking_mm", short), lacking_mm > 0), (("end_grain", grain), end_grain))
        if there
    )


def _check_part(which: str, part: WoodPart) -> None:
    within(f"{which}.embedment_n_mm2", part.embedment_n_mm2, 0.1, EMBEDMENT_HIGH_N_MM2, "N/mm²")
    within(f"{which}.length_mm", part.length_mm, 1, LENGTH_HIGH_MM, "mm")


def _check_metal(diameter_mm: float, moment_nmm: float) -> None:
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("moment_nmm", moment_nmm, 1, MOMENT_HIGH_NMM, "N·mm")
