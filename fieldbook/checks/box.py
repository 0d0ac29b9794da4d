"""The packers in the box: which thicknesses their sums come to, and with how few pieces."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction

from ..errors import OutOfRange
from .limits import within

STOCK_LOW_MM, STOCK_HIGH_MM = 0.1, 100.0
STOCK_KINDS_HIGH = 50
# Thicknesses in the box are told to hundredths of a millimetre.
STEPS_PER_MM = 100


class Box:
    """Thicknesses of which there are always enough, and every sum of them up to a height.

    stock_mm  thicknesses, mm, 0.1 to 100 in hundredths, 1 to 50 of them
    up_to_mm  height up to which the nearest sum has to be found, mm
    """

    def __init__(self, stock_mm: Sequence[float], up_to_mm: Fraction | float):
        within("stock_mm", len(stock_mm), 1, STOCK_KINDS_HIGH, "thicknesses")
        steps = sorted({_steps(place, thickness) for place, thickness in enumerate(stock_mm)}, reverse=True)
        # All sums are multiples of `step`, which keeps the table short.
        step = math.gcd(*steps)
        self._step_mm = Fraction(step, STEPS_PER_MM)
        self._pieces = [thickness // step for thickness in steps]
        self._fewest = self._sums_up_to(math.ceil(up_to_mm / self._step_mm) + self._pieces[-1])
        self._sums = list(self._fewest)

    def thinnest_mm(self, least_mm: Fraction) -> Fraction:
        """The thinnest sum that is not below a thickness, mm; nothing at all counts as 0."""
        return self._sums[self._place_of(least_mm)] * self._step_mm

    def nearest_mm(self, wanted_mm: Fraction, least_mm: Fraction) -> list[Fraction]:
        """Pieces, mm, thickest first, whose sum comes nearest and is not below the least.

        Among equally near sums the one with the fewest pieces, then the thinner.
        """
        wanted = wanted_mm / self._step_mm
        first = self._place_of(least_mm)
        above = max(self._place_of(wanted_mm), first)
        near = self._sums[max(above - 1, first) : above + 1]
        total = min(near, key=lambda total: (abs(total - wanted), self._fewest[total][0], total))
        pieces = []
        while total:
            piece = self._fewest[total][1]
            pieces.append(piece * self._step_mm)
            total -= piece
        return sorted(pieces, reverse=True)

    def _place_of(self, thickness_mm: Fraction) -> int:
        return bisect_left(self._sums, thickness_mm / self._step_mm)

    def _sums_up_to(self, highest: int) -> dict[int, tuple[int, int]]:
        """For each sum that can be made: the fewest pieces, and the thickest piece of such a stack."""
        fewest = {0: (0, 0)}
        for total in range(1, highest + 1):
            stacks = [(fewest[total - piece][0] + 1, -piece) for piece in self._pieces if total - piece in fewest]
            if stacks:
                count, piece = min(stacks)
                fewest[total] = (count, -piece)
        return fewest


def _steps(place: int, thickness_mm: float) -> int:
    name = f"stock_mm[{place}]"
    steps = within(name, thickness_mm, STOCK_LOW_MM, STOCK_HIGH_MM, "mm") * STEPS_PER_MM
    if abs(steps - round(steps)) > 1e-6:
        raise OutOfRange(
            f"is {thickness_mm:g} mm, finer than a hundredth of a millimetre.",
            "Give thicknesses to two places.",
            field=name,
            value=thickness_mm,
            about=name,
        )
    return round(steps)
