"""What a bolt, machine screw or threaded rod of steel or stainless steel carries, and the plate it goes through.

Design resistances of one bolt in clearance holes, not preloaded. Does not cover fatigue, slotted or oversize holes,
prying (which adds to the pull), threads cut on site, hot-dip galvanised threads, nor bolts of unknown class.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from .bolt_class import Metal, stress_area_mm2
from .limits import within
from .timber_design import CASES, LOAD_HIGH_N, action_n
from .verdict import Verdict, at_most, share_used

SOURCE = "EN 1993-1-8:2005, Table 3.4 (second hand); classes of ISO 898-1 and ISO 3506-1"
LEFT_OUT = "Left out: prying by a plate that bends (it adds to the pull), fatigue, and rust that has eaten the thread."
# EN 1993-1-8 Table 2.1, recommended.
FACTOR = 1.25
SHANK_FACTOR = 0.6
TENSION_FACTOR, COUNTERSUNK_FACTOR = 0.9, 0.63
PLATE_LOW_N_MM2, PLATE_HIGH_N_MM2 = 100.0, 1500.0
THICK_HIGH_MM = 200.0
DISTANCE_HIGH_MM = 1000.0
# Table 3.3: least distances to edge and end, and between bolts along and across the force, in hole diameters.
LEAST_EDGE, LEAST_ALONG, LEAST_ACROSS = 1.2, 2.2, 2.4


def shear_n(diameter_mm: float, of: Metal, in_thread: bool = True) -> float:
    """Shear that one bolt carries in one plane.

    diameter_mm  as for `bolt_class.stress_area_mm2`, mm
    of           its metal
    in_thread    whether the thread lies in the shear plane; if that is not sure, it does
    returns      design resistance, N

    Source: EN 1993-1-8:2005, Table 3.4; EN 1993-1-4 for stainless steel.
    Raises NotAChoice for another diameter.

    >>> from fieldbook.checks.bolt_class import metal
    >>> round(shear_n(20, metal("4.6")))
    47040
    """
    area = stress_area_mm2(diameter_mm) if in_thread else math.pi / 4 * diameter_mm**2
    return (of.thread_factor if in_thread else SHANK_FACTOR) * of.tensile_n_mm2 * area / FACTOR


def tension_n(diameter_mm: float, of: Metal, countersunk: bool) -> float:
    """Pull that one bolt carries.

    diameter_mm  as for `bolt_class.stress_area_mm2`, mm
    of           its metal
    countersunk  whether its head is countersunk
    returns      design resistance, N

    Source: EN 1993-1-8:2005, Table 3.4.
    Raises NotAChoice for another diameter.

    >>> from fieldbook.checks.bolt_class import metal
    >>> round(tension_n(20, metal("4.6"), False))
    70560
    """
    factor = COUNTERSUNK_FACTOR if countersunk else TENSION_FACTOR
    return factor * of.tensile_n_mm2 * stress_area_mm2(diameter_mm) / FACTOR


class Hole(NamedTuple):
    """A hole in a plate, mm: its diameter, from its middle to end and edge, to the next along and across the force.

    along, across  None where there is no other bolt that way
    """

    diameter: float
    end: float
    edge: float
    along: float | None = None
    across: float | None = None


def bearing_n(diameter_mm: float, of: Metal, plate_n_mm2: float, plate_mm: float, hole: Hole) -> float:
    """Shear at which one bolt crushes or tears the plate around its hole.

    diameter_mm  nominal diameter, mm, 3 to 20
    of           the bolt's metal
    plate_n_mm2  tensile strength of the plate, N/mm², 100 to 1500
    plate_mm     thickness of the plate, less half the countersink where there is one, mm, 0.5 to 200
    hole         hole and distances, mm, to 1000; at least 1.2 holes to end and edge, 2.2 and 2.4 to the next
    returns      design resistance of the weakest place (end or inner, edge or inner), N

    Source: EN 1993-1-8:2005, Tables 3.3 and 3.4. The strength multiplied is the plate's, not the bolt's.
    Raises OutOfRange outside the limits, NotAChoice for another diameter.

    >>> from fieldbook.checks.bolt_class import metal
    >>> round(bearing_n(20, metal("4.6"), 360, 8, Hole(22, 26.4, 26.4)))
    30597
    """
    stress_area_mm2(diameter_mm)
    _check_plate(plate_n_mm2, plate_mm)
    _check_hole(diameter_mm, hole)
    along = [hole.end / (3 * hole.diameter), of.tensile_n_mm2 / plate_n_mm2, 1.0]
    across = [2.8 * hole.edge / hole.diameter - 1.7, 2.5]
    if hole.along is not None:
        along.append(hole.along / (3 * hole.diameter) - 0.25)
    if hole.across is not None:
        across.append(1.4 * hole.across / hole.diameter - 1.7)
    return min(across) * min(along) * plate_n_mm2 * diameter_mm * plate_mm / FACTOR


def punching_n(head_mm: float, plate_n_mm2: float, plate_mm: float) -> float:
    """Pull at which head or nut is drawn through the plate.

    head_mm      mean of the head's or nut's width across flats and across corners, the smaller of the two, mm, 3 to 100
    plate_n_mm2  tensile strength of the plate, N/mm², 100 to 1500
    plate_mm     thickness of the plate, mm, 0.5 to 200
    returns      design resistance, N

    Source: EN 1993-1-8:2005, Table 3.4.
    Raises OutOfRange outside the limits.

    >>> round(punching_n(30, 360, 8))
    130288
    """
    within("head_mm", head_mm, 3, 100, "mm")
    _check_plate(plate_n_mm2, plate_mm)
    return 0.6 * math.pi * head_mm * plate_mm * plate_n_mm2 / FACTOR


def use(shear_share: float, tension_share: float) -> float:
    """How much of a bolt is used by shear and pull together; the pull alone may not pass 1 either.

    shear_share    shear over shear resistance, a fraction, 0 or more
    tension_share  pull over tension resistance, a fraction, 0 or more
    returns        fraction; 1 is all of it

    Source: EN 1993-1-8:2005, Table 3.4, combined shear and tension.
    Raises OutOfRange outside the limits.

    >>> round(use(0.6, 0.6), 4)
    1.0286
    """
    within("shear_share", shear_share, 0, math.inf, "")
    within("tension_share", tension_share, 0, math.inf, "")
    return max(shear_share + tension_share / 1.4, tension_share)


def verdict(
    check: str,
    what: str,
    permanent_n: float,
    people_n: float,
    resistance_n: float,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a bolt or its plate holds what acts on it in one way.

    check, what            as for `at_most`
    permanent_n, people_n  load for good, and what people add, N, as for `timber_design.action_n`
    resistance_n           design resistance, N, 0 to 1 000 000
    working                what led to the resistance, such as the bolt's class and how sure that is
    returns                verdict, N

    Source: EN 1993-1-8:2005, Table 3.4, against the actions of EN 1990:2002, equation 6.10.
    Raises OutOfRange outside the limits.

    >>> verdict("shear", "The shear on the bolt", 500, 300, 3859).word.value
    'within'
    """
    within("resistance_n", resistance_n, 0, LOAD_HIGH_N, "N")
    return at_most(
        check,
        f"{what}, raised by partial factors,",
        _worst_action_n(permanent_n, people_n),
        resistance_n,
        "N",
        SOURCE,
        standing=LEFT_OUT,
        working=(*working, ("hangs for good", f"{permanent_n:.10g} N"), ("people add", f"{people_n:.10g} N")),
    )


def verdict_on_both(
    shear_loads_n: tuple[float, float],
    tension_loads_n: tuple[float, float],
    shear_holds_n: float,
    tension_holds_n: float,
) -> Verdict:
    """Whether a bolt holds shear and pull at once.

    shear_loads_n    shear for good, and what people add, N
    tension_loads_n  pull for good, and what people add, N
    shear_holds_n    design resistance to shear, N, 0.1 to 1 000 000
    tension_holds_n  design resistance to pull, N, 0.1 to 1 000 000
    returns          verdict, %: use of the bolt

    Source: EN 1993-1-8:2005, Table 3.4, combined shear and tension.
    Raises OutOfRange outside the limits.

    >>> verdict_on_both((500, 0), (800, 0), 3859, 5789).word.value
    'within'
    """
    within("shear_holds_n", shear_holds_n, 0.1, LOAD_HIGH_N, "N")
    within("tension_holds_n", tension_holds_n, 0.1, LOAD_HIGH_N, "N")
    shear, tension = (
        _worst_action_n(*shear_loads_n) / shear_holds_n,
        _worst_action_n(*tension_loads_n) / tension_holds_n,
    )
    return share_used(
        "pull with shear",
        "What pull and shear together use of the bolt",
        use(shear, tension),
        SOURCE,
        beyond="Pull and shear together are many times what the bolt holds. Take a thicker one, or more of them.",
        standing=LEFT_OUT,
        working=(("share of the shear", f"{shear:.3f}"), ("share of the pull", f"{tension:.3f}")),
    )


def _worst_action_n(permanent_n: float, people_n: float) -> float:
    return max(action_n(permanent_n, people_n, case) for case in CASES)


def _check_plate(plate_n_mm2: float, plate_mm: float) -> None:
    within("plate_n_mm2", plate_n_mm2, PLATE_LOW_N_MM2, PLATE_HIGH_N_MM2, "N/mm²")
    within("plate_mm", plate_mm, 0.5, THICK_HIGH_MM, "mm")


def _check_hole(diameter_mm: float, hole: Hole) -> None:
    wide = within("hole.diameter", hole.diameter, diameter_mm, diameter_mm + 3, "mm")
    for name, least in (("end", LEAST_EDGE), ("edge", LEAST_EDGE), ("along", LEAST_ALONG), ("across", LEAST_ACROSS)):
        distance = getattr(hole, name)
        if distance is not None:
            within(
                f"hole.{name}", distance, round(least * wide, 9), DISTANCE_HIGH_MM, "mm", "Move the hole further in."
            )
