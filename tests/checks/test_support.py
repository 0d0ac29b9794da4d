"""The resting plane in whole numbers, held against SciPy's linear programming."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from fieldbook.checks import support

WHOLE = st.integers(-50, 50)


@st.composite
def programs(draw):
    """Rows, bounds and costs of a program that has an answer: the costs are a positive sum of all rows."""
    size = draw(st.integers(1, 4))
    rows = draw(st.lists(st.lists(WHOLE, min_size=size, max_size=size), min_size=1, max_size=9))
    times = draw(st.lists(st.integers(1, 5), min_size=len(rows), max_size=len(rows)))
    bounds = draw(st.lists(WHOLE, min_size=len(rows), max_size=len(rows)))
    costs = [sum(time * row[at] for time, row in zip(times, rows, strict=True)) for at in range(size)]
    return costs, rows, bounds


@given(programs())
def test_least_cost_is_what_the_library_finds(program):
    """Where the library finds numbers that keep all bounds, ours keep them too and cost the same."""
    costs, rows, bounds = program
    library = linprog(
        costs, A_ub=[[-part for part in row] for row in rows], b_ub=[-bound for bound in bounds], bounds=(None, None)
    )
    if library.status != 0:  # no numbers keep all bounds
        return
    numbers, scale = support.least(costs, rows, bounds)
    assert scale > 0
    assert all(sum(map(int.__mul__, row, numbers)) >= bound * scale for row, bound in zip(rows, bounds, strict=True))
    assert sum(map(int.__mul__, costs, numbers)) / scale == pytest.approx(library.fun, abs=1e-6)


# By hand: heights 0, 1, 1 at 0, 300, 600. The plane rests on the middle point and may turn about it with the same sum
# of gaps, 1; the larger of the two is least where both are a half.
def test_gaps_of_three_points_are_as_by_hand():
    """The plane rests on the middle point and shares what is left."""
    assert [float(gap) for gap in support.gaps([(1, 0), (1, 300), (1, 600)], (0, 1, 1))] == [0.5, 0, 0.5]


# By hand, two numbers: both at least 3 and 4; their sum at least 9 as well; the second paid for with less than nothing
# but held down by the first: second <= first - 1, first <= 6.
@pytest.mark.parametrize(
    ("costs", "rows", "bounds", "expected"),
    [
        ([1, 2], [(1, 0), (0, 1)], (3, 4), (3, 4)),
        ([2, 3], [(1, 0), (0, 1), (1, 1)], (3, 4, 9), (5, 4)),
        ([-1, -1], [(1, -1), (-1, 0)], (1, -6), (6, 5)),
        ([0, -1], [(1, -1), (-1, 0)], (1, -6), (6, 5)),
        ([4], [(2,), (1,), (1,)], (7, 3, 2), (Fraction(7, 2),)),
        ([1, 1], [(1, 1)], (5,), (5, 0)),  # nothing asks for the second by itself
    ],
)
def test_least_numbers_are_as_by_hand(costs, rows, bounds, expected):
    """Whole, halved and negative costs alike; what the rows leave open is nothing."""
    numbers, scale = support.least(costs, rows, bounds)
    assert tuple(Fraction(number, scale) for number in numbers) == expected


def lines_of_least_sum(points):
    """The lines through two points that clear all others with the least sum of gaps, and that sum; exactly."""
    found = {}
    for (x0, y0), (x1, y1) in combinations(points, 2):
        if x0 == x1:
            continue
        slope = Fraction(y1 - y0, x1 - x0)
        gaps = tuple(y0 + slope * (x - x0) - y for x, y in points)
        if min(gaps) >= 0:
            found[gaps] = sum(gaps)
    least = min(found.values())
    return [gaps for gaps, total in found.items() if total == least], least


def least_largest(lines):
    """The least of the largest gaps over all lines between those given, which share a point; exactly.

    Between two of them each gap changes evenly, so the largest is least at an end or where two gaps are alike.
    """
    best = min(max(gaps) for gaps in lines)
    for one, other in combinations(lines, 2):
        changes = [(a, b - a) for a, b in zip(one, other, strict=True)]
        shares = {Fraction(c - a, da - dc) for (a, da), (c, dc) in combinations(changes, 2) if da != dc}
        for share in shares:
            if 0 <= share <= 1:
                best = min(best, max(a + da * share for a, da in changes))
    return best


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 9)), min_size=2, max_size=6))
@example([(0, 0), (1, 1), (2, 1)])
@example([(0, 3), (4, 0), (8, 5), (12, 3)])
@example([(0, 0), (3, 6), (9, 2), (12, 0)])
def test_gaps_under_a_line_are_the_least_of_all_lines(points):
    """Held against every line through two points: no less in sum, and at that sum no less in the largest; exactly."""
    assume(len({x for x, _ in points}) > 1)
    lines, least = lines_of_least_sum(points)
    found = support.gaps([(1, x) for x, _ in points], [y for _, y in points])
    assert (sum(found), max(found)) == (least, least_largest(lines))
    assert min(found) == 0


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 9)), min_size=2, max_size=6), st.integers(-50, 50))
def test_gaps_do_not_change_with_where_they_are_measured_from(points, shift):
    """Another datum along the line, heights from another plane, and the line seen from behind need the same gaps."""
    places, heights = [(1, x) for x, _ in points], [y for _, y in points]
    found = support.gaps(places, heights)
    for moved in ([(1, x + shift) for x, _ in points], [(1, -x) for x, _ in points]):
        other = support.gaps(moved, [y + shift for y in heights])
        assert (sum(other), max(other)) == (sum(found), max(found))
