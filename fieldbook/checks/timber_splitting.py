"""Whether a member splits along the grain where something hangs on it across the grain, near its edge.

Characteristic value for softwood members. Does not cover hardwood, wood already cracked along the grain, nor
a load near the member's end.
"""

from __future__ import annotations

import math

from .limits import within

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.1.4 (equation 8.4; from memory)"
SIZE_HIGH_MM = 1000.0


def splitting_n(width_mm: float, height_mm: float, furthest_mm: float) -> float:
    """Load across the grain at which a member splits.

    width_mm     thickness of the member along the fastener, as far as that goes in, mm, 5 to 1000
    height_mm    height of the member across the grain, mm, 10 to 1000
    furthest_mm  from the edge it is pulled towards to the fastener furthest from it, mm, 1 to 0.95 of the height
    returns      characteristic resistance to the shear in the member on either side of the load, N; at mid-span each
                 side carries half the load, at an end nearly all

    Source: EN 1995-1-1:2004+A1:2008, equation 8.4 with w = 1.
    Raises OutOfRange outside the limits.

    >>> round(splitting_n(50, 200, 50))
    5715
    """
    within("width_mm", width_mm, 5, SIZE_HIGH_MM, "mm")
    within("height_mm", height_mm, 10, SIZE_HIGH_MM, "mm")
    within("furthest_mm", furthest_mm, 1, 0.95 * height_mm, "mm")
    return 14 * width_mm * math.sqrt(furthest_mm / (1 - furthest_mm / height_mm))
