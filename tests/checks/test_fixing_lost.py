"""One fixing lost, and how many must be in before anyone lets go."""

from __future__ import annotations

import math

import pytest

from fieldbook.checks.face_load import Resultant, resultant, weight
from fieldbook.checks.fixing_forces import Contact, Fixing, carried
from fieldbook.checks.fixing_lost import least_number, one_lost
from tests.checks.refusals import refused

SQUARE = [Fixing(x, z) for x in (-200, 200) for z in (-200, 200)]


SIDEWAYS = Resultant(0, 0, 60, 0, 0, 0)


def overhead(mass_kg, at=(0, 0, 100)):
    return lambda group: carried(group, resultant([weight(mass_kg, at, 90)]), Contact())


def pull_of(limit_n):
    return lambda _place, each: each.pull_n / limit_n


# By hand: 40 kg · 9.81 = 392.4 N on four; with one gone the two beside it take half each, the one opposite none.
def test_rest_of_four_overhead_takes_the_load_on_its_diagonal():
    """With one of four gone the neighbours take half the weight each."""
    found = one_lost(SQUARE, overhead(40), pull_of(200))
    assert [each.use for each in found] == pytest.approx([392.4 / 2 / 200] * 4)
    assert {each.fixing for each in found} == {0, 1, 2, 3}
    for each in found:
        beside = {(0, 1), (0, 2), (1, 3), (2, 3)}
        assert tuple(sorted((each.fixing, each.hardest))) in beside
        assert each.why == ""


def test_rest_that_falls_is_said_to_fall():
    """Where the rest does not hold at all, the answer says so and why."""
    for group in ([Fixing(0, 0)], [Fixing(0, 0), Fixing(90, 0, holds=False)]):
        (lost,) = one_lost(group, overhead(10), pull_of(1000))
        assert (lost.hardest, lost.use) == (None, math.inf)
        assert lost.why
    packed = Contact(pads_mm=[(0, 0)])
    for lost in one_lost(SQUARE[:2], lambda group: carried(group, SIDEWAYS, packed), pull_of(1000)):
        assert (lost.hardest, lost.use) == (None, math.inf)
        assert "balances" in lost.why


# By hand: 98.1 N at 200 mm from the one screw left, which leans on the edge of its spacer, 4.47 mm beyond.
def test_one_of_two_overhead_is_pulled_very_hard_by_the_rest_of_the_load():
    """With one of two gone the other is levered on its own spacer."""
    for lost in one_lost([Fixing(-200, 0), Fixing(200, 0)], overhead(10), pull_of(1000)):
        assert lost.hardest == 1 - lost.fixing
        assert lost.use == pytest.approx(98.1 * (200 + 4.472) / 4.472 / 1000, rel=0.001)


def test_wedge_is_not_among_what_can_be_lost():
    """Only what holds can let go; its number stays that of the whole list."""
    group = [Fixing(0, 0, holds=False), *SQUARE]
    lost = one_lost(group, overhead(40), pull_of(200))
    assert {each.fixing for each in lost} == {1, 2, 3, 4}
    assert all(each.hardest != 0 for each in lost)
    with refused("missing", "fixings"):
        one_lost([Fixing(0, 0, holds=False)], overhead(1), pull_of(1))


def test_worst_loss_stands_first():
    """The loss that leaves the rest hardest worked heads the list."""
    found = one_lost([*SQUARE, Fixing(0, 0)], overhead(40, (60, 90, 100)), pull_of(200))
    assert [each.use for each in found] == sorted((each.use for each in found), reverse=True)
    assert found[0].use > found[-1].use


def test_number_of_fixings_before_letting_go():
    """Counted in the order they go in: as many as hold the thing, and never one alone overhead or above 25 kg."""
    line = [Fixing(0, 0), Fixing(-200, 0), Fixing(200, 0)]
    hung = overhead(8, (0, 0, 50))
    assert least_number(line, hung, pull_of(100), 8, False) == 1
    assert least_number(line, hung, pull_of(100), 25, False) == 1
    assert least_number(line, hung, pull_of(100), 25.1, False) == 2
    assert least_number(line, hung, pull_of(100), 8, True) == 2
    assert least_number(line[::-1], hung, pull_of(100), 8, False) == 2  # the first alone hangs askew
    assert least_number([Fixing(9, 9, holds=False), *line], hung, pull_of(100), 8, True) == 3
    assert least_number(line, hung, pull_of(5), 8, False) is None
    with refused("out-of-range", "mass_kg"):
        least_number(line, hung, pull_of(5), -1, False)
