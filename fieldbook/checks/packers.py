"""Packers behind each fixing, so that flat work stands plumb or flat on a wall that is neither.

The work's back is a plane that touches or clears every point of the wall and stands out as little as it
can: least sum of packers, and among such planes the one whose thickest packer is least. Does not cover
work that bends to the wall, nor high spots between the points measured.

Axes of the face: x to the right, z up, proud out of the wall towards the viewer. A gap measured from a
straightedge is the other way round: more gap is less proud.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from ..errors import NotAChoice
from . import support
from .box import Box
from .limits import within

SOURCE = "Plane of least total gap in front of the measured points, by linear programming in whole numbers"
PLANES = ("plumb", "free")
POINTS_HIGH = 2000
PLACE_HIGH_MM = 100_000.0
PACKER_HIGH_MM = 500.0

Point = Sequence[float]


def packers_mm(points_mm: Sequence[Point], plane: str, least_mm: float = 0.0) -> list[float]:
    """How thick the packer behind each point has to be.

    points_mm  (x, z, proud) of each point, mm, -100 000 to 100 000; 1 to 2000 points
    plane      "plumb": upright, but may turn as seen from above; "free": may lean as well
    least_mm   thinnest packer wanted anywhere, mm, 0 to 500
    returns    mm, none below least_mm and at least one equal to it

    Source: linear programming: least sum of packers, then least largest packer. Where all points are on one
    line, the tilt across it is left open; it does not change the packers.
    Raises OutOfRange outside the limits, NotAChoice for another plane.

    >>> packers_mm([(0, 0, 4), (300, 0, 1), (600, 0, 0)], "plumb")
    [0.0, 1.0, 0.0]
    """
    return [float(packer) for packer in _exact(points_mm, plane, _fraction(_least(least_mm)))]


def from_box(
    points_mm: Sequence[Point], plane: str, stock_mm: Sequence[float], least_mm: float = 0.0
) -> tuple[list[list[float]], float]:
    """The packers made of pieces from the box, and how far they leave the work off the plane.

    points_mm  (x, z, proud) of each point, mm, -100 000 to 100 000; 1 to 2000 points
    plane      "plumb" or "free", as for `packers_mm`
    stock_mm   thicknesses in the box, mm, 0.1 to 100 in hundredths, 1 to 50; each may be used again and again
    least_mm   thinnest packer wanted anywhere, mm, 0 to 500; the plane keeps the thinnest stack that is not below it
    returns    pieces behind each point, mm, thickest first, the stack nearest to the packer the plane wants (then
               the fewest pieces, then the thinnest), and the largest difference between the two, mm

    Source: as for `packers_mm`; all sums of the thicknesses.
    Raises OutOfRange outside the limits, and for a packer above 500 mm; NotAChoice for another plane.

    >>> from_box([(0, 0, 4.5), (300, 0, 1), (600, 0, 0)], "plumb", [0.5, 1, 2])
    ([[], [1.0], []], 0.25)
    """
    least = _fraction(_least(least_mm))
    floor = Box(stock_mm, least).thinnest_mm(least)
    wanted = _exact(points_mm, plane, floor)
    thickest = within("packers_mm", float(max(wanted)), 0, PACKER_HIGH_MM, "mm")
    box = Box(stock_mm, math.ceil(thickest))
    stacks = [box.nearest_mm(packer, floor) for packer in wanted]
    off = max(abs(sum(stack) - packer) for stack, packer in zip(stacks, wanted, strict=True))
    return [[float(piece) for piece in stack] for stack in stacks], float(off)


def _least(least_mm: float) -> float:
    return within("least_mm", least_mm, 0, PACKER_HIGH_MM, "mm")


def _fraction(value_mm: float) -> Fraction:
    """The decimal number as it was written, not the binary one nearest to it: 0.1 is a tenth."""
    return Fraction(repr(float(value_mm)))


def _exact(points_mm: Sequence[Point], plane: str, least_mm: Fraction) -> list[Fraction]:
    if plane not in PLANES:
        raise NotAChoice(
            f"is {plane}.", f"Choose one of: {', '.join(PLANES)}.", field="plane", value=plane, about="plane"
        )
    within("points_mm", len(points_mm), 1, POINTS_HIGH, "points")
    numbers = [
        _fraction(within(f"points_mm[{place}]", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm"))
        for place, point in enumerate(points_mm)
        for number in point
    ]
    scale = math.lcm(*(number.denominator for number in numbers))
    steps = [int(number * scale) for number in numbers]
    across, up, proud = steps[0::3], steps[1::3], steps[2::3]
    tilts = [across] if plane == "plumb" else [across, up]
    gaps = support.gaps([(1, *tilt) for tilt in zip(*tilts, strict=True)], proud)
    return [gap / scale + least_mm for gap in gaps]
