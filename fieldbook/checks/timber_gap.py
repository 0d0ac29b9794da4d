"""What a screw or bolt carries sideways across a gap: plaster, packers or air between the wood and what it holds.

The metal bends over the gap and bears on the wood at its ends until it yields. Plaster and packers are taken to
give it no support. No friction, no rope effect. Does not cover how far it sags, brittle (hardened) screws that
break before they bend, nor a gap of more than ten diameters, where sag decides and not strength.
"""

from __future__ import annotations

import math

from . import timber_design
from .limits import within
from .timber_dowel import BOLT_HIGH_MM, LENGTH_HIGH_MM, THINNEST_MM
from .timber_shear import EMBEDMENT_HIGH_N_MM2, MOMENT_HIGH_NMM, Mode, WoodPart, outside_the_rules
from .verdict import Verdict

SOURCE = (
    "American Wood Council, Technical Report 12, General Dowel Equations for Calculating Lateral Connection Values "
    "(2014), single shear with gap (equations from memory, derived again by statics), with the embedment strength and "
    "yield moment of EN 1995-1-1"
)
# As far as what is in front, packers and half of the part that is held can be entered: over stays over.
GAP_HIGH_MM = 5000.0
# Gap over diameter, up to which strength and not sag is taken to decide: common practice, no source.
SLENDER = 10.0
LEFT_OUT = (
    "Left out: how far the fastener sags; support from plaster or packers, which is not counted; a hardened screw that "
    "breaks before it bends; decay."
)


def between_woods(
    first: WoodPart, second: WoodPart, diameter_mm: float, moment_nmm: float, gap_mm: float
) -> tuple[Mode, ...]:
    """How one fastener through two wooden parts with a gap between them gives.

    first        the part under the head
    second       the part that holds the point; both 0.1 to 200 N/mm² and 1 to 1000 mm
    diameter_mm  effective diameter, of the thread where that lies in the gap, mm, 1.5 to 30
    moment_nmm   yield moment, N·mm, 1 to 10 000 000
    gap_mm       between the two woods, mm, 0 to 5000
    returns      modes, characteristic loads in N; each is the load at which its mechanism stands in equilibrium

    Source: American Wood Council, Technical Report 12 (2014), general dowel equations, solid members, single shear.
    Raises OutOfRange outside the limits.

    >>> modes = between_woods(WoodPart(20, 30), WoodPart(20, 30), 4, 6000, 20)
    >>> round(min(mode.load_n for mode in modes), 1)
    464.9
    """
    _check(first, diameter_mm, moment_nmm, gap_mm, "first")
    _check(second, diameter_mm, moment_nmm, gap_mm, "second")
    q1, l1, q2, l2 = first[0] * diameter_mm, first[1], second[0] * diameter_mm, second[1]
    tilts = _root(1 / (4 * q1) + 1 / (4 * q2), l1 / 2 + gap_mm + l2 / 2, -q1 * l1**2 / 4 - q2 * l2**2 / 4)
    in_first = _root(1 / (2 * q1) + 1 / (4 * q2), gap_mm + l2 / 2, -moment_nmm - q2 * l2**2 / 4)
    in_second = _root(1 / (4 * q1) + 1 / (2 * q2), l1 / 2 + gap_mm, -q1 * l1**2 / 4 - moment_nmm)
    in_both = _root(1 / (2 * q1) + 1 / (2 * q2), gap_mm, -2 * moment_nmm)
    return (
        Mode("the first part crushes", q1 * l1, False),
        Mode("the second part crushes", q2 * l2, False),
        Mode("the fastener tilts", tilts, True),
        Mode("the fastener bends in the first part", in_first, True),
        Mode("the fastener bends in the second part", in_second, True),
        Mode("the fastener bends in both parts", in_both, True),
    )


def standing_out(wood: WoodPart, diameter_mm: float, moment_nmm: float, arm_mm: float) -> tuple[Mode, ...]:
    """How one fastener that stands out of wood, and is loaded at its free end, gives.

    wood         the part that holds it, 0.1 to 200 N/mm² and 1 to 1000 mm
    diameter_mm  as for `between_woods`, mm, 1.5 to 30
    moment_nmm   as for `between_woods`, N·mm
    arm_mm       from the wood to where the load hangs, mm, 0 to 5000
    returns      modes, characteristic loads in N; no plate, hook or eye is counted on to hold the head straight

    Source: statics of the same mechanisms as Technical Report 12, with a head that is free to turn.
    Raises OutOfRange outside the limits.

    >>> [round(mode.load_n, 1) for mode in standing_out(WoodPart(20, 30), 4, 6000, 20)]
    [492.6, 276.2]
    """
    _check(wood, diameter_mm, moment_nmm, arm_mm, "wood")
    hardness, length = wood.embedment_n_mm2 * diameter_mm, wood.length_mm
    return (
        Mode("the fastener tilts", _root(1 / (4 * hardness), arm_mm + length / 2, -hardness * length**2 / 4), True),
        Mode("the fastener bends in the wood", _root(1 / (2 * hardness), arm_mm, -moment_nmm), True),
    )


def verdict(
    mode: Mode,
    permanent_n: float,
    people_n: float,
    service_class: int,
    *,
    gap_mm: float,
    diameter_mm: float,
    lacking_mm: float,
    end_grain: bool,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a fastener across a gap holds what pushes it sideways.

    mode                   the weakest of `between_woods` or `standing_out`, its load in N
    permanent_n, people_n  sideways load on it for good, and what people add, N, 0 to 1 000 000
    service_class          as for `timber_design.k_mod`, no unit
    gap_mm                 gap or arm, mm, 0 to 5000
    diameter_mm            effective diameter, mm, 1.5 to 30
    lacking_mm, end_grain  as for `timber_shear.verdict`, mm
    working                what led to the mode, for whoever does it again
    returns                verdict, N; over a gap of more than ten diameters, too short or in end grain never better
                           than not known

    Source: Technical Report 12 (2014) for the mechanisms, EN 1995-1-1 for strengths and safety.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> bends = Mode("the fastener bends in the wood", 274, True)
    >>> verdict(bends, 40, 0, 1, gap_mm=20, diameter_mm=4, lacking_mm=0, end_grain=False).word.value
    'within'
    """
    within("gap_mm", gap_mm, 0, GAP_HIGH_MM, "mm")
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    answer = timber_design.verdict(
        "shear over a gap",
        f"The sideways load on the fastener, which stands {gap_mm:g} mm out of the wood",
        mode.load_n,
        permanent_n,
        people_n,
        service_class,
        SOURCE,
        after=f"It would give where {mode.name}.",
        standing=LEFT_OUT,
        working=(*working, ("gap", f"{gap_mm:g} mm"), ("gives first", mode.name)),
    )
    slender = (
        f"The fastener stands {gap_mm:g} mm out of the wood, more than {SLENDER:g} times its {diameter_mm:g} mm. It "
        "would sag before it yields, and no published rule says how far is fit. Bring the wood nearer, or use a "
        "thicker one."
    )
    reasons = (("gap_mm", slender),) if gap_mm > SLENDER * diameter_mm else ()
    return timber_design.not_better_than_not_known(answer, reasons + outside_the_rules(lacking_mm, end_grain))


def _root(a: float, b: float, c: float) -> float:
    """The positive root of a P² + b P + c = 0 for c below 0, written so that a large b costs no digits."""
    return -2 * c / (b + math.sqrt(b**2 - 4 * a * c))


def _check(part: WoodPart, diameter_mm: float, moment_nmm: float, gap_mm: float, which: str) -> None:
    within(f"{which}.embedment_n_mm2", part.embedment_n_mm2, 0.1, EMBEDMENT_HIGH_N_MM2, "N/mm²")
    within(f"{which}.length_mm", part.length_mm, 1, LENGTH_HIGH_MM, "mm")
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("moment_nmm", moment_nmm, 1, MOMENT_HIGH_NMM, "N·mm")
    within("gap_mm", gap_mm, 0, GAP_HIGH_MM, "mm")
