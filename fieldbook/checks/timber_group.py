"""How many of several fasteners in wood count, since they never share a load quite alike.

Does not cover fasteners of different sorts in one joint.
"""

from __future__ import annotations

from itertools import pairwise

from .limits import within
from .timber_dowel import BOLT_HIGH_MM, LENGTH_HIGH_MM, NAIL_HIGH_MM, THINNEST_MM

SOURCE = "EN 1995-1-1:2004+A1:2008, equations 8.17, 8.34, 8.41 and Table 8.1 (second hand and, in part, from memory)"
GROUP_EXPONENT = 0.9
GROUP_HIGH = 1000
# Table 8.1: exponent of the number in a row along the grain, by spacing in diameters (from memory).
ROW_EXPONENTS = ((4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0))
ROW_HIGH = 100


def group_number(count: int) -> float:
    """How many screws count, of several that are pulled together.

    count    number of screws, 1 to 1000
    returns  effective number, no unit

    Source: EN 1995-1-1:2004+A1:2008, equation 8.41: n to the power of 0.9.
    Raises OutOfRange outside the limits.

    >>> round(group_number(4), 4)
    3.4822
    """
    return float(within("count", count, 1, GROUP_HIGH, "") ** GROUP_EXPONENT)


def row_number(count: int, spacing_mm: float, diameter_mm: float, predrilled: bool) -> float:
    """How many nails or thin screws count, of a row along the grain that is loaded along it.

    count        number of fasteners in the row, 1 to 100
    spacing_mm   from one to the next along the grain, mm, 0 to 1000
    diameter_mm  nominal diameter, mm, 1.5 to 8
    predrilled   whether holes were drilled for them
    returns      effective number, no unit

    Source: EN 1995-1-1:2004+A1:2008, equation 8.17 and Table 8.1 (from memory).
    Raises OutOfRange outside the limits, and below 7 diameters (4 where predrilled).

    >>> round(row_number(4, 50, 5, False), 2)
    3.25
    """
    within("count", count, 1, ROW_HIGH, "")
    within("diameter_mm", diameter_mm, THINNEST_MM, NAIL_HIGH_MM, "mm")
    least = 0 if count == 1 else ROW_EXPONENTS[0 if predrilled else 1][0] * diameter_mm
    spaced = within("spacing_mm", spacing_mm, least, LENGTH_HIGH_MM, "mm") / diameter_mm
    if count == 1 or spaced >= ROW_EXPONENTS[-1][0]:
        return float(count)
    (near, low), (far, high) = next(steps for steps in pairwise(ROW_EXPONENTS) if spaced <= steps[1][0])
    return float(count ** (low + (high - low) * (spaced - near) / (far - near)))


def bolt_row_number(count: int, spacing_mm: float, diameter_mm: float) -> float:
    """How many bolts or thick screws count, of a row along the grain that is loaded along it.

    count        number of bolts in the row, 1 to 100
    spacing_mm   from one to the next along the grain, mm, 1 to 1000
    diameter_mm  nominal diameter, mm, 1.5 to 30
    returns      effective number, no unit; across the grain all count

    Source: EN 1995-1-1:2004+A1:2008, equation 8.34 (from memory).
    Raises OutOfRange outside the limits.

    >>> round(bolt_row_number(3, 65, 10), 2)
    2.26
    """
    within("count", count, 1, ROW_HIGH, "")
    within("spacing_mm", spacing_mm, 1, LENGTH_HIGH_MM, "mm")
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    return float(min(count, count**0.9 * (spacing_mm / (13 * diameter_mm)) ** 0.25)) if count > 1 else 1.0
