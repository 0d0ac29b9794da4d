"""The plane a flat thing takes when it rests on the high spots of a surface, in whole numbers.

Measured points tie all the time (the four corners of a panel always do), and a tie decided by rounding
errors gives other packers on another day. Whole numbers decide it the same way every time.
"""

from __future__ import annotations

import operator
from collections.abc import Sequence
from fractions import Fraction

Row = Sequence[int]


def gaps(places: Sequence[Row], heights: Row) -> list[Fraction]:
    """The gaps under the plane that rests on the points: least in sum, and among such, least in the largest.

    places   for each point a 1 and its coordinates along which the plane may tilt, in whole steps of a length
    heights  how far each point stands out, in the same steps, mm or a part of it
    returns  one gap a point, in the same steps, none below 0

    Source: linear programming; the second plane keeps the sum of the first.

    >>> [float(gap) for gap in gaps([(1, 0), (1, 300), (1, 600)], (0, 1, 1))]
    [0.5, 0.0, 0.5]
    """
    sums = [sum(column) for column in zip(*places, strict=True)]
    lowest, scale = least(sums, places, heights)
    rows = [(*place, 0) for place in places] + [(*(-part for part in place), 1) for place in places]
    rows.append((*(-part * scale for part in sums), 0))
    bounds = (*heights, *(-height for height in heights), -_product(lowest, sums))
    plane, scale = least([*(0 for _ in sums), 1], rows, bounds)
    return [
        Fraction(_product(plane[:-1], place), scale) - height for place, height in zip(places, heights, strict=True)
    ]


def least(costs: Row, rows: Sequence[Row], bounds: Row) -> tuple[list[int], int]:
    """Numbers of least cost for which every row's product with them is at least its bound.

    costs    cost of each number, no unit
    rows     as many parts in each as there are costs, no unit; some sum of all rows, each taken a positive number
             of times, must give the costs
    bounds   one for each row, no unit
    returns  the numbers times a scale, and the scale, no unit; 0 for what the rows leave open

    Source: simplex method on the dual program with the smallest-index rule of Bland (1977), Mathematics of
    Operations Research 2, which cannot go round in circles; pivots without fractions after Bareiss (1968),
    Mathematics of Computation 22.

    >>> least([3], [(2,), (1,)], (8, 5))
    ([5], 1)
    """
    size, count = len(costs), len(rows)
    # The basis holds rows; at first only stand-ins, numbered past the rows, which are got rid of before all else.
    basis = [count + at for at in range(size)]
    inverse = [[(1 if costs[at] >= 0 else -1) * (at == column) for column in range(size)] for at in range(size)]
    weights, scale = [abs(cost) for cost in costs], 1
    while True:
        columns = list(zip(*inverse, strict=True))
        stand_in = [int(row >= count) for row in basis]
        worth = [bounds[row] if row < count else 0 for row in basis]
        left = [_product(stand_in, column) for column in columns]
        numbers = [_product(worth, column) for column in columns]
        for entering, row in enumerate(rows):
            helps = _product(left, row)
            if helps > 0 or (helps == 0 and bounds[entering] * scale > _product(numbers, row)):
                break
        else:
            return numbers, scale
        steps = [_product(line, rows[entering]) for line in inverse]
        _, _, leaving = min((Fraction(weights[at], steps[at]), basis[at], at) for at in range(size) if steps[at] > 0)
        basis[leaving] = entering
        for at in range(size):
            if at != leaving:
                inverse[at] = [
                    (part * steps[leaving] - new * steps[at]) // scale
                    for part, new in zip(inverse[at], inverse[leaving], strict=True)
                ]
                weights[at] = (weights[at] * steps[leaving] - weights[leaving] * steps[at]) // scale
        scale = steps[leaving]


def _product(left: Row, right: Row) -> int:
    return sum(map(operator.mul, left, right))
