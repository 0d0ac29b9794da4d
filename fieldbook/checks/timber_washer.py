"""What a bolt through wood holds in straight pull: the wood under its washer, and the bolt itself.

Characteristic values. Does not cover wood that is wet or decayed, nor a washer that overhangs an edge.
"""

from __future__ import annotations

import math

from .bolt_class import Metal, stress_area_mm2
from .limits import within

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.5.2 and 10.4.3 (read in Porteous & Kermani, Structural Timber Design, 2007)"
WASHER_HIGH_MM = 300.0


def washer_n(bearing_n_mm2: float, washer_mm: float, bolt_mm: float) -> float:
    """Pull at which the washer sinks into the wood.

    bearing_n_mm2  characteristic compressive strength of the wood across its grain, N/mm², 0.5 to 30
    washer_mm      outer diameter of the washer, mm, from the hole's to 300
    bolt_mm        diameter of the bolt, mm, 3 to 30; the hole is 1 mm wider
    returns        characteristic resistance, N

    Source: EN 1995-1-1:2004+A1:2008, 8.5.2(2): three times the strength on the contact area.
    Raises OutOfRange outside the limits.

    >>> round(washer_n(2.5, 48, 12))
    12576
    """
    within("bearing_n_mm2", bearing_n_mm2, 0.5, 30, "N/mm²")
    within("bolt_mm", bolt_mm, 3, 30, "mm")
    within("washer_mm", washer_mm, bolt_mm + 1, WASHER_HIGH_MM, "mm")
    return 3 * bearing_n_mm2 * math.pi / 4 * (washer_mm**2 - (bolt_mm + 1) ** 2)


def plate_as_washer_mm(plate_mm: float, bolt_mm: float) -> float:
    """Diameter of the washer that a steel plate stands for.

    plate_mm  thickness of the plate, mm, 0.5 to 100
    bolt_mm   diameter of the bolt, mm, 3 to 30
    returns   mm

    Source: EN 1995-1-1:2004+A1:2008, 8.5.2(3): the smaller of 12 thicknesses and 4 diameters.
    Raises OutOfRange outside the limits.

    >>> plate_as_washer_mm(6, 12)
    48
    """
    within("plate_mm", plate_mm, 0.5, 100, "mm")
    within("bolt_mm", bolt_mm, 3, 30, "mm")
    return min(12 * plate_mm, 4 * bolt_mm)


def bolt_pull_n(diameter_mm: float, of: Metal, under_washer_n: float) -> float:
    """Pull that a bolt through wood holds, for a straight pull and for the rope effect.

    diameter_mm     nominal diameter, mm, as for `bolt_class.stress_area_mm2`
    of              its metal
    under_washer_n  from `washer_n`, of the weaker side, N, 0 to 1 000 000
    returns         characteristic resistance, N

    Source: EN 1995-1-1:2004+A1:2008, 8.5.2(1).
    Raises OutOfRange outside the limits, NotAChoice for another diameter.

    >>> from fieldbook.checks.bolt_class import metal
    >>> bolt_pull_n(12, metal("4.6"), 1e6)
    33720.0
    """
    within("under_washer_n", under_washer_n, 0, 1e6, "N")
    return min(of.tensile_n_mm2 * stress_area_mm2(diameter_mm), under_washer_n)
