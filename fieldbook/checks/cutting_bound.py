"""A number of sheets or lengths that no layout can do with less than."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .guillotine import NOISE_MM

# What sums may be off by as a share of a sheet; it makes the bound smaller, never larger.
SHARE_NOISE = 1e-6

Ways = Sequence[tuple[float, float]]


def least_stock(parts: Sequence[Ways], length_mm: float, width_mm: float) -> int:
    """Sheets of one size that parts need at the least.

    parts      for each part the ways it may lie, (length, width), mm
    length_mm  length of a sheet, mm
    width_mm   width of a sheet, mm
    returns    number of sheets

    Source: the area of all parts; and, for parts wider than half a sheet however they lie, which can only follow one
    another, the bound of Martello and Toth for lengths, the same across.

    >>> least_stock([[(60, 60)], [(60, 60)]], 100, 100)
    2
    """
    area = math.fsum(ways[0][0] * ways[0][1] for ways in parts)
    wide = [
        min(length for length, _ in ways) for ways in parts if min(width for _, width in ways) > width_mm / 2 + NOISE_MM
    ]
    long = [
        min(width for _, width in ways)
        for ways in parts
        if min(length for length, _ in ways) > length_mm / 2 + NOISE_MM
    ]
    return max(
        math.ceil(area / (length_mm * width_mm) - SHARE_NOISE),
        least_lengths(wide, length_mm),
        least_lengths(long, width_mm),
    )


def least_lengths(parts_mm: Sequence[float], length_mm: float) -> int:
    """Lengths of one size that parts need at the least.

    parts_mm   lengths of the parts, mm
    length_mm  what they are cut from, mm
    returns    number of lengths

    Source: Martello and Toth, Knapsack Problems (1990), chapter 8, lower bound L2 for bin packing; and counting: of
    parts at least as long as one, no more come out of a length than of that one by itself.

    >>> least_lengths([6, 6, 6, 4], 10)
    3
    >>> least_lengths([4, 4, 4, 4, 4], 10)
    3
    """
    half = length_mm / 2 + NOISE_MM
    over_half = [part for part in parts_mm if part > half]
    best = 0
    for least in set(parts_mm):
        # Parts over half a length lie in a length each; those of them that leave less than `least` leave nothing.
        left = math.fsum(length_mm - part for part in over_half if part <= length_mm - least + NOISE_MM)
        small = math.fsum(part for part in parts_mm if least <= part <= half)
        with_small = len(over_half) + max(0, math.ceil((small - left) / length_mm - SHARE_NOISE))
        alike, fit = sum(part >= least for part in parts_mm), max(1, int((length_mm + NOISE_MM) / least))
        best = max(best, with_small, math.ceil(alike / fit))
    return best
