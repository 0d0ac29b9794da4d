"""What pulls a nail out of wood, or its head through the part in front.

A smooth nail holds no lasting pull, whatever its length, and none at all in end grain. Characteristic values in the
format of EN 1995-1-1, side grain. Does not cover cut or wrought nails, which no rule is published for.
"""

from __future__ import annotations

from . import timber_design
from .limits import within
from .timber_dowel import DENSITY_HIGH, DENSITY_LOW, LENGTH_HIGH_MM, NAIL_HIGH_MM, THINNEST_MM
from .verdict import Verdict

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.3.2 (equations 8.23 to 8.26; second hand and, in part, from memory)"
NO_LASTING_PULL = "A smooth nail holds no lasting pull: as the wood dries and swells it lets go. Use a screw."
NO_END_GRAIN = "A nail in end grain holds no pull that can be relied on. Use a screw in side grain, or hang it."
LEFT_OUT = "Left out: decay, cracks along the grain, and a nail that was drawn and driven again."
# Wood near its fibre saturation point that will dry under load (8.3.2(8)).
DRYING_SHARE = 2 / 3
# (least, full) penetration in diameters: nothing counts below the first, all from the second on (8.3.2(7)).
SMOOTH_PENETRATION, THREADED_PENETRATION = (8.0, 12.0), (6.0, 8.0)


def strengths_n_mm2(density_kg_m3: float) -> tuple[float, float]:
    """Withdrawal and head strength of a smooth nail.

    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000
    returns        characteristic strength of shank and head, N/mm²

    Source: EN 1995-1-1:2004+A1:2008, equations 8.25 and 8.26.
    Raises OutOfRange outside the limits.

    >>> [round(strength, 3) for strength in strengths_n_mm2(350)]
    [2.45, 8.575]
    """
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
    return 20e-6 * density_kg_m3**2, 70e-6 * density_kg_m3**2


def penetration_share(penetration_mm: float, diameter_mm: float, threaded: bool) -> float:
    """How much of its strength a nail has that stands no deeper than this.

    penetration_mm  of a smooth nail its point side, of a threaded one its thread there, mm, 0 to 1000
    diameter_mm     of the shank, mm, 1.5 to 8
    threaded        whether the shank is threaded or ringed
    returns         fraction, 0 to 1: smooth 0 below 8 diameters and 1 from 12 on, threaded 6 and 8

    Source: EN 1995-1-1:2004+A1:2008, 8.3.2(7).
    Raises OutOfRange outside the limits.

    >>> penetration_share(31, 3.1, False)
    0.5
    """
    within("penetration_mm", penetration_mm, 0, LENGTH_HIGH_MM, "mm")
    within("diameter_mm", diameter_mm, THINNEST_MM, NAIL_HIGH_MM, "mm")
    least, full = THREADED_PENETRATION if threaded else SMOOTH_PENETRATION
    return min(1.0, max(0.0, (penetration_mm / diameter_mm - least) / (full - least)))


def short_pull_n(
    shank_n_mm2: float,
    head_n_mm2: float,
    diameter_mm: float,
    penetration_mm: float,
    front_mm: float,
    head_mm: float,
    *,
    threaded: bool,
    drying: bool,
) -> float:
    """Pull that draws a nail out, or its head through: for a smooth nail under a short load alone.

    shank_n_mm2     characteristic withdrawal strength, N/mm², 0.1 to 100
    head_n_mm2      characteristic head strength, N/mm², 0.1 to 100
    diameter_mm     of the shank, mm, 1.5 to 8
    penetration_mm  as for `penetration_share`, mm
    front_mm        thickness of the part under the head, mm, 0 to 1000
    head_mm         diameter of the head, mm, 0 to 50; 0 for a headless nail
    threaded        whether the shank is threaded or ringed
    drying          whether the wood was wet when nailed and will dry under load
    returns         characteristic resistance, N

    Source: EN 1995-1-1:2004+A1:2008, equations 8.23 (threaded), 8.24 (smooth), 8.3.2(7) and (8).
    Raises OutOfRange outside the limits.

    >>> round(short_pull_n(2.45, 8.575, 3.1, 45, 20, 6.75, threaded=False, drying=False), 1)
    341.8
    """
    within("shank_n_mm2", shank_n_mm2, 0.1, 100, "N/mm²")
    within("head_n_mm2", head_n_mm2, 0.1, 100, "N/mm²")
    within("front_mm", front_mm, 0, LENGTH_HIGH_MM, "mm")
    within("head_mm", head_mm, 0, 50, "mm")
    out = shank_n_mm2 * diameter_mm * penetration_mm * penetration_share(penetration_mm, diameter_mm, threaded)
    along_front = 0.0 if threaded else shank_n_mm2 * diameter_mm * front_mm
    return min(out, along_front + head_n_mm2 * head_mm**2) * (DRYING_SHARE if drying else 1.0)


def verdict(
    short_n: float,
    permanent_n: float,
    people_n: float,
    service_class: int,
    *,
    threaded: bool,
    end_grain: bool,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a nail holds the pull on it.

    short_n                from `short_pull_n`, N, 0 to 1 000 000
    permanent_n, people_n  pull on it for good, and what people add, N
    service_class          as for `timber_design.k_mod`, no unit
    threaded               whether the shank is threaded or ringed
    end_grain              whether it stands in end grain
    working                what led to the resistance, for whoever does it again
    returns                verdict, N; a smooth nail under a lasting pull, and any in end grain, against no resistance

    Source: EN 1995-1-1:2004+A1:2008, 8.3.2(1) and (2), 2.4.3.
    Raises OutOfRange outside the limits, NotAChoice for another class.

    >>> verdict(341.8, 1, 0, 1, threaded=False, end_grain=False).word.value
    'over'
    """
    lasting = not threaded and permanent_n > 0
    reason = NO_END_GRAIN if end_grain else NO_LASTING_PULL if lasting else ""
    return timber_design.verdict(
        "pull",
        "The pull on the nail",
        0.0 if reason else short_n,
        permanent_n,
        people_n,
        service_class,
        SOURCE,
        after=reason,
        standing=LEFT_OUT,
        working=working,
    )
