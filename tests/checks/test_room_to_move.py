"""Where a thing may stand, and how much more it may carry, by questions whose answers are known."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.room_to_move import intervals, most
from tests.checks.refusals import refused

EDGES = st.floats(0, 500).map(lambda number: round(number, 2))


def test_line_without_a_break_is_halved_until_it_changes():
    """A single change of answer is found to the millimetre, the yes side rounded inwards."""
    assert intervals(lambda x: x <= 431.7, 0, 2000) == [(0, 431)]
    assert intervals(lambda x: x > 431.7, 0, 2000) == [(432, 2000)]
    assert intervals(lambda x: x >= 431, 0, 2000) == [(431, 2000)]


def test_line_of_one_answer_is_whole_or_nothing():
    """Always yes gives the whole line in whole millimetres, always no gives nothing, and so does a line backwards."""
    assert intervals(lambda _: True, 0.4, 99.6) == [(1, 99)]
    assert intervals(lambda _: False, 0, 100) == []
    assert intervals(lambda _: True, 100, 0) == []
    assert intervals(lambda _: True, 7, 7) == [(7, 7)]
    assert intervals(lambda _: True, 7.2, 7.8) == []


def test_gap_narrower_than_a_millimetre_parts_a_stretch():
    """What fails between two whole millimetres is not stepped over."""
    assert intervals(lambda x: not 100.2 < x < 100.6, 0, 300, [100.2, 100.6]) == [(0, 100), (101, 300)]
    assert intervals(lambda x: x != 150.5, 0, 300, [150.5]) == [(0, 150), (151, 300)]
    assert intervals(lambda x: x != 150, 0, 300, [150]) == [(0, 149), (151, 300)]
    assert intervals(lambda x: x == 150, 0, 300, [150]) == [(150, 150)]


def test_places_where_the_answer_only_touches_are_kept():
    """A zone may be touched: its edges hold, its inside does not."""
    assert intervals(lambda x: x <= 100 or x >= 200, 0, 300, [100, 200]) == [(0, 100), (200, 300)]


@given(st.lists(st.tuples(EDGES, EDGES), max_size=5), st.floats(0, 100), st.floats(300, 500))
def test_every_millimetre_is_answered_as_if_it_were_asked(zones, start, end):
    """Stretches hold exactly those whole millimetres that hold, and never run across one of the zones."""
    zones = [tuple(sorted(zone)) for zone in zones]

    def holds(x):
        return not any(low < x < high for low, high in zones)

    found = intervals(holds, start, end, [edge for zone in zones for edge in zone])
    inside = {x for low, high in found for x in range(low, high + 1)}
    assert inside == {x for x in range(math.ceil(start), math.floor(end) + 1) if holds(x)}
    for low, high in found:
        assert all(
            not (low < inner_high and inner_low < high) or inner_low == inner_high for inner_low, inner_high in zones
        )
    assert found == sorted(found)


@given(st.floats(0, 500), st.floats(0, 400), st.floats(50, 300))
def test_change_between_breaks_is_found_to_the_millimetre(limit, start, more):
    """Between breaks the answer may change once, anywhere."""
    found = intervals(lambda x: x < limit, start, start + more, [start + more / 3, start + more / 2])
    asked = [x for x in range(math.ceil(start), math.floor(start + more) + 1) if x < limit]
    assert [x for low, high in found for x in range(low, high + 1)] == asked


@given(st.floats(0, 900), st.sampled_from([0.1, 0.5, 1, 0.001]))
def test_greatest_mass_is_the_last_step_that_holds(limit, step):
    """The greatest mass holds, and the next step does not."""
    found = most(lambda mass: mass <= limit, 1000, step)
    assert found <= limit < found + step * (1 + 1e-6) + 1e-6


def test_greatest_mass_at_the_ends():
    """Never more than is asked about, and nothing where nothing holds."""
    assert most(lambda _: True, 40) == 40
    assert most(lambda _: False) is None
    assert most(lambda mass: mass == 0) == 0
    assert most(lambda _: True, 0) == 0


def test_question_is_asked_seldom():
    """A line of a few breaks is settled in a few dozen questions."""
    asked = []
    intervals(lambda x: asked.append(x) or x < 3333.3, 0, 8000, [1000, 2000, 5000])
    assert len(asked) < 50


def test_lines_and_masses_outside_their_range_are_refused():
    """Numbers that no line and no mass has are refused by name."""
    with refused("out-of-range", "from_mm"):
        intervals(lambda _: True, float("nan"), 1)
    with refused("out-of-range", "to_mm"):
        intervals(lambda _: True, 0, 100_001)
    with refused("out-of-range", "high_kg"):
        most(lambda _: True, -1)
    with refused("out-of-range", "step_kg"):
        most(lambda _: True, 10, 0)
    with pytest.raises(ZeroDivisionError):
        intervals(lambda _: 1 / 0, 0, 1)
