"""The resting plane in whole numbers, held against SciPy's linear programming."""

from __future__ import annotations

import pytest
from hypothesis import given
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
