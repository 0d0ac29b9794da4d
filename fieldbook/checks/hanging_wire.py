"""What a wire, cord or strap that does not hang plumb pulls with: its tension, and how hard it pulls to the side.

It does not cover a wire that runs over a hook without being made fast there, nor the strength of wire and knots.
"""

from __future__ import annotations

import math

from .limits import within

FORCE_HIGH_N = 1e6
# Slings ordinarily lean up to 45° from the plumb; nobody means a wire that lies nearly level to hold anything up.
LEAST_DEG, MOST_DEG = 0.0, 85.0
SLING_DEG = 45.0
SOURCE = (
    "Statics: tension = weight over the cosine of how far it leans from the plumb. Slings lean up to 45° as "
    "they are ordinarily rated, EN 1492-1:2000, from memory"
)


def tension_n(weight_n: float, off_plumb_deg: float) -> float:
    """Tension of a wire that carries a weight, N.

    weight_n       what hangs on it, N, 0 to 1 000 000
    off_plumb_deg  how far it leans from the plumb, °, 0 to 85
    returns        N

    Source: SOURCE. Raises OutOfRange outside the limits.

    >>> round(tension_n(98.1, 45), 1)
    138.7
    """
    within("weight_n", weight_n, 0, FORCE_HIGH_N, "N")
    within("off_plumb_deg", off_plumb_deg, LEAST_DEG, MOST_DEG, "°")
    return weight_n / math.cos(math.radians(off_plumb_deg))


def sideways_n(weight_n: float, off_plumb_deg: float) -> float:
    """How hard such a wire pulls level, away from where its weight hangs, N.

    weight_n       what hangs on it, N, 0 to 1 000 000
    off_plumb_deg  how far it leans from the plumb, °, 0 to 85
    returns        N

    Source: SOURCE. Raises OutOfRange outside the limits.

    >>> round(sideways_n(98.1, 45), 1)
    98.1
    """
    within("weight_n", weight_n, 0, FORCE_HIGH_N, "N")
    within("off_plumb_deg", off_plumb_deg, LEAST_DEG, MOST_DEG, "°")
    return weight_n * math.tan(math.radians(off_plumb_deg))
