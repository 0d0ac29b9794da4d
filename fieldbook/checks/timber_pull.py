"""What pulls a screw straight out of wood, or its head through the part in front.

Characteristic values in the format of EN 1995-1-1. Only thread in the wood that holds counts, at an angle of
30° to 90° to the grain. Does not cover screws in end grain, plugs, boards and panels, nor wood that is wet or decayed.
"""

from __future__ import annotations

import math

from . import timber_design
from .limits import within
from .timber_dowel import DENSITY_HIGH, DENSITY_LOW, LENGTH_HIGH_MM, STRENGTH_HIGH_N_MM2, STRENGTH_LOW_N_MM2
from .timber_group import group_number
from .verdict import Verdict

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.7.2 (equations 8.38, 8.41; second hand)"
RULE_SOURCE = "EN 1995-1-1:2004+A1:2008, equations 8.39 and 8.40 (second hand)"
WOOD_SCREW_SOURCE = "DIN EN 1995-1-1/NA, to 8.7.2: wood screws with thread to DIN 7998 (from memory)"
LEFT_OUT = (
    "Left out: decay, cracks along the grain, wood pulled off in a block, and a screw turned over when it was driven. "
    "Edge, end and spacing are a question of their own."
)
# Least thread in the wood that holds, in diameters (8.7.2(3)); least angle to the grain (8.7.2(2)).
LEAST_THREAD = 6.0
LEAST_ANGLE_DEG = 30.0
DIAMETER_LOW_MM, DIAMETER_HIGH_MM = 2.4, 24.0
# Range of equation 8.39: diameter over the thread, mm, and core over thread.
RULE_LOW_MM, RULE_HIGH_MM = 6.0, 12.0
RULE_CORE_LOW, RULE_CORE_HIGH = 0.6, 0.75
# Thinnest and densest the figure for plain wood screws is given for.
WOOD_SCREW_LOW_MM, WOOD_SCREW_DENSITY_HIGH = 4.0, 500.0
PARAMETER_HIGH_N_MM2 = 100.0


def parameter_n_mm2(diameter_mm: float, core_mm: float, thread_mm: float, density_kg_m3: float) -> float:
    """What a screw of usual shape takes to pull out, for each square of its diameter and length of thread.

    diameter_mm    over the thread, mm, 6 to 12
    core_mm        in the root of the thread, mm, 0.6 to 0.75 of the diameter
    thread_mm      thread in the wood that holds, mm, 1 to 1000
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000
    returns        characteristic withdrawal strength across the grain, N/mm²; already with k_d (8.40)

    Source: EN 1995-1-1:2004+A1:2008, equations 8.39 and 8.40.
    Raises OutOfRange outside the limits: for another screw its maker's declared figure is needed.

    >>> round(parameter_n_mm2(8, 5.5, 60, 350), 4)
    13.2403
    """
    hint = "For another screw use the figure its maker declares by EN 14592, or that of plain wood screws."
    within("diameter_mm", diameter_mm, RULE_LOW_MM, RULE_HIGH_MM, "mm", hint)
    within("core_mm", core_mm, RULE_CORE_LOW * diameter_mm, RULE_CORE_HIGH * diameter_mm, "mm", hint)
    within("thread_mm", thread_mm, 1, LENGTH_HIGH_MM, "mm")
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
    return 0.52 * diameter_mm**-0.5 * thread_mm**-0.1 * density_kg_m3**0.8 * min(diameter_mm / 8, 1.0)


def declared_n_mm2(declared: float, declared_density_kg_m3: float, density_kg_m3: float) -> float:
    """A declared strength (withdrawal or head) brought to wood of another density.

    declared                characteristic withdrawal or head strength by the maker, N/mm², 0.1 to 100
    declared_density_kg_m3  density it is declared for, kg/m³, 250 to 1000
    density_kg_m3           characteristic density of this wood, kg/m³, 250 to 1000
    returns                 N/mm²

    Source: EN 1995-1-1:2004+A1:2008, equations 8.40a and 8.40b.
    Raises OutOfRange outside the limits.

    >>> round(declared_n_mm2(12, 350, 310) * 4.5 * 30, 1)
    1470.1
    """
    within("declared", declared, 0.1, PARAMETER_HIGH_N_MM2, "N/mm²")
    within("declared_density_kg_m3", declared_density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
    return float(declared * (density_kg_m3 / declared_density_kg_m3) ** 0.8)


def wood_screw_n_mm2(diameter_mm: float, density_kg_m3: float) -> tuple[float, float]:
    """Withdrawal and head strength of a plain wood screw of which nobody declared anything.

    diameter_mm    over the thread, mm, 4 to 24
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000; counted as 500 above that
    returns        characteristic strength of the thread and of the head, N/mm²

    Source: DIN EN 1995-1-1/NA, to 8.7.2: 70·10⁻⁶ ρ² and 60·10⁻⁶ ρ², thread to DIN 7998 (from memory).
    Raises OutOfRange outside the limits.

    >>> [round(strength, 3) for strength in wood_screw_n_mm2(4.5, 350)]
    [8.575, 7.35]
    """
    within("diameter_mm", diameter_mm, WOOD_SCREW_LOW_MM, DIAMETER_HIGH_MM, "mm")
    counted = min(WOOD_SCREW_DENSITY_HIGH, within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³"))
    return 70e-6 * counted**2, 60e-6 * counted**2


def counted_thread_mm(thread_mm: float, diameter_mm: float) -> float:
    """The length of thread that counts: less the point, and nothing where too little stands in the wood.

    thread_mm    thread in the wood that holds, point and all, mm, 0 to 1000
    diameter_mm  over the thread, mm, 2.4 to 24
    returns      mm; 0 below six diameters

    Source: EN 1995-1-1:2004+A1:2008, 8.7.2(3) for the six diameters. Departs from the amended rule in taking off one
    diameter for the point, as the rule before it and the LVL Handbook Europe (2025), example 9.6, do: the safe side.
    Raises OutOfRange outside the limits.

    >>> counted_thread_mm(50, 5), counted_thread_mm(29, 5)
    (45.0, 0.0)
    """
    within("thread_mm", thread_mm, 0, LENGTH_HIGH_MM, "mm")
    within("diameter_mm", diameter_mm, DIAMETER_LOW_MM, DIAMETER_HIGH_MM, "mm")
    return float(thread_mm - diameter_mm) if thread_mm >= LEAST_THREAD * diameter_mm else 0.0


def too_short(thread_mm: float, diameter_mm: float) -> str:
    """Why a screw holds no pull, and what to do; "" where enough of its thread stands in the wood.

    thread_mm, diameter_mm  as for `counted_thread_mm`, mm
    returns                 sentences

    Source: as for `counted_thread_mm`.
    Raises OutOfRange outside the limits.

    >>> too_short(50, 5)
    ''
    """
    if counted_thread_mm(thread_mm, diameter_mm):
        return ""
    least = LEAST_THREAD * diameter_mm
    stands = f"{thread_mm:g} mm of thread stand in the wood that holds"
    return f"{stands}; below {least:g} mm (six diameters) they count for nothing. Use a longer screw."


def withdrawal_n(strength_n_mm2: float, diameter_mm: float, thread_mm: float, angle_deg: float) -> float:
    """Pull that draws one screw out of the wood.

    strength_n_mm2  characteristic withdrawal strength, N/mm², 0.1 to 100
    diameter_mm     over the thread, mm, 2.4 to 24
    thread_mm       length of thread that counts, mm, 0 to 1000
    angle_deg       between the screw and the grain, degrees, 30 to 90
    returns         characteristic resistance, N

    Source: EN 1995-1-1:2004+A1:2008, equations 8.38 and 8.40a.
    Raises OutOfRange outside the limits: nearer to the grain than 30° is end grain.

    >>> round(withdrawal_n(13.2403, 8, 60, 45), 1)
    5777.6
    """
    within("strength_n_mm2", strength_n_mm2, 0.1, PARAMETER_HIGH_N_MM2, "N/mm²")
    within("diameter_mm", diameter_mm, DIAMETER_LOW_MM, DIAMETER_HIGH_MM, "mm")
    within("thread_mm", thread_mm, 0, LENGTH_HIGH_MM, "mm")
    within(
        "angle_deg", angle_deg, LEAST_ANGLE_DEG, 90, "°", "A screw in end grain holds no pull that can be relied on."
    )
    turned = math.radians(angle_deg)
    return strength_n_mm2 * diameter_mm * thread_mm / (1.2 * math.cos(turned) ** 2 + math.sin(turned) ** 2)


def head_n(strength_n_mm2: float, head_mm: float) -> float:
    """Pull that draws the head, or its washer, through the wooden part in front.

    strength_n_mm2  characteristic head strength, N/mm², 0.1 to 100
    head_mm         diameter of the head or washer, mm, 3 to 100
    returns         characteristic resistance, N

    Source: EN 1995-1-1:2004+A1:2008, equation 8.40b.
    Raises OutOfRange outside the limits.

    >>> round(head_n(8.575, 6.75), 1)
    390.7
    """
    within("strength_n_mm2", strength_n_mm2, 0.1, PARAMETER_HIGH_N_MM2, "N/mm²")
    within("head_mm", head_mm, 3, 100, "mm")
    return strength_n_mm2 * head_mm**2


def core_n(root_mm: float, strength_n_mm2: float) -> float:
    """Pull at which the screw itself breaks, where its maker declares none.

    root_mm         diameter of the core in the thread, mm, 1 to 24
    strength_n_mm2  tensile strength of the metal, N/mm², 300 to 1500
    returns         characteristic resistance, N

    Source: EN 1993-1-8:2005, Table 3.4 (0.9 of strength times area), on the area of the core.
    Raises OutOfRange outside the limits.

    >>> round(core_n(3.2, 400))
    2895
    """
    within("root_mm", root_mm, 1, DIAMETER_HIGH_MM, "mm")
    within("strength_n_mm2", strength_n_mm2, STRENGTH_LOW_N_MM2, STRENGTH_HIGH_N_MM2, "N/mm²")
    return 0.9 * strength_n_mm2 * math.pi / 4 * root_mm**2


def verdict(
    characteristic_n: float,
    permanent_n: float,
    people_n: float,
    service_class: int,
    *,
    thread_mm: float,
    diameter_mm: float,
    end_grain: bool,
    count: int,
    strength_source: str,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a screw holds the pull on it.

    characteristic_n       least of withdrawal, head and metal of one screw, N, 0 to 1 000 000
    permanent_n, people_n  pull on this screw for good, and what people add, N
    service_class          as for `timber_design.k_mod`, no unit
    thread_mm              thread in the wood that holds, mm, 0 to 1000
    diameter_mm            over the thread, mm, 2.4 to 24
    end_grain              whether it stands nearer to the grain than 30°
    count                  number of screws pulled together, 1 to 1000
    strength_source        where the withdrawal strength comes from: RULE_SOURCE, WOOD_SCREW_SOURCE, or who declares it
    working                what led to the resistance, for whoever does it again
    returns                verdict, N; below six diameters of thread against no resistance; in end grain never better
                           than not known

    Source: EN 1995-1-1:2004+A1:2008, 8.7.2 and 2.4.3.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> verdict(2606.6, 490.5, 0, 1, thread_mm=36, diameter_mm=6, end_grain=False, count=2,
    ...         strength_source=RULE_SOURCE).word.value
    'within'
    """
    short = too_short(thread_mm, diameter_mm)
    answer = timber_design.verdict(
        "pull",
        "The pull on the screw",
        0.0 if short else characteristic_n * group_number(count) / count,
        permanent_n,
        people_n,
        service_class,
        f"{strength_source}; {SOURCE}",
        after=short,
        standing=LEFT_OUT,
        working=(*working, ("thread in the wood that holds", f"{thread_mm:g} mm"), ("pulled together", f"{count}")),
    )
    sentence = "A screw in end grain holds no lasting pull by any published rule. Fix into side grain, or hang it."
    return timber_design.not_better_than_not_known(answer, (("end_grain", sentence),) if end_grain else ())
