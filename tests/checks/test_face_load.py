"""Loads on faces that lean: the way weights pull, and what forces come to."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.face_load import Force, down, people, resultant, weight
from tests.checks.refusals import check_limits, refused

FORCES = st.floats(-5000, 5000, allow_nan=False)
PLACES = st.floats(-3000, 3000, allow_nan=False)


# By geometry: on a plumb wall a weight pulls down the face; on a ceiling straight out of it; on a sill it presses.
@pytest.mark.parametrize(
    ("slope", "z", "out"),
    [(0, -1, 0), (90, 0, 1), (-90, 0, -1), (30, -math.sqrt(3) / 2, 0.5), (-45, -math.sqrt(0.5), -math.sqrt(0.5))],
)
def test_weight_pulls_where_it_pulls(slope, z, out):
    """The lean of a face decides how much of a weight runs down it and how much pulls out of it."""
    assert down(slope) == pytest.approx((0, z, out))


@given(st.floats(-90, 90))
def test_weight_is_neither_lost_nor_made_by_a_lean(slope):
    """Whatever the lean, the parts of a weight make the weight."""
    assert math.hypot(*weight(25, (0, 0, 0), slope)[:3]) == pytest.approx(25 * 9.81)


# 60 kg · 9.81 m/s² by hand.
def test_sixty_kilograms_overhead_pull_straight_out():
    """On a ceiling the whole weight pulls out, without a lever arm along the face."""
    whole = resultant([weight(60, (500, 300, 200), 90)])
    assert whole == pytest.approx((0, 0, 588.6, 0, 588.6 * 500, 588.6 * 300))


# Bracket by hand: 20 kg at 150 mm out of a plumb wall tip it with 196.2 · 150 N·mm.
def test_weight_on_a_plumb_wall_tips_by_its_standoff():
    """On a plumb wall a weight runs down the face and draws the top out."""
    assert resultant([weight(20, (400, 100, 150))]) == pytest.approx((0, -196.2, 0, -196.2 * 400, 0, 196.2 * 150))


@given(st.lists(st.tuples(FORCES, FORCES, FORCES, PLACES, PLACES, PLACES), max_size=5))
def test_resultant_is_the_sum_of_cross_products(forces):
    """Forces and moments agree with vectors in space."""
    found = resultant(Force(*force) for force in forces)
    whole = np.array([force[:3] for force in forces]).reshape(-1, 3).sum(axis=0)
    # In a right-handed frame of x, z and out the moment of r × F about x draws the top out, and so on.
    moments = np.cross([force[3:] for force in forces], [force[:3] for force in forces]) if forces else np.zeros((0, 3))
    top, right, turn = moments.sum(axis=0)
    assert found == pytest.approx((*whole, turn, -right, top), rel=1e-9, abs=0.01)


def test_people_pull_at_every_corner_one_at_a_time():
    """People pull out at each corner, and down on the front edge at both its ends, at each corner where it leans."""
    shelf = [(0, 0), (800, 0), (800, 300), (0, 300)]
    pulls = people(shelf, 250, 400, 700)
    assert pulls[:4] == [Force(0, 0, 400, x, z, 250) for x, z in shelf]
    assert [(pull.z_n, pull.out_n, pull.x_mm, pull.out_mm) for pull in pulls[4:]] == [
        (-700, 0, x, 250) for x in (0, 800)
    ]
    assert len(people(shelf, 250, 400, 700, 30)) == 8
    assert people(shelf, 250, 0, 0) == []
    assert {force.out_n for force in people(shelf, 250, 0, 700, 90)} == {700}


def test_loads_outside_their_range_are_refused():
    """Numbers that no load has are refused by name."""
    check_limits(lambda slope_deg: down(slope_deg), {"slope_deg": 0}, "slope_deg", -90, 90)
    check_limits(lambda mass_kg: weight(mass_kg, (0, 0, 0)), {"mass_kg": 1}, "mass_kg", 0, 100_000)
    good = {"outline_mm": [(0, 0)], "front_mm": 1, "pull_n": 1, "push_down_n": 1}
    check_limits(people, good, "front_mm", 0, 100_000)
    check_limits(people, good, "pull_n", 0, 1e6)
    check_limits(people, good, "push_down_n", 0, 1e6)
    for place in range(3):
        at = [0.0, 0.0, 0.0]
        at[place] = 100_001
        with refused("out-of-range", "at_mm"):
            weight(1, at)
        force = [0.0] * 6
        force[place] = -1_000_001
        with refused("out-of-range", "forces"):
            resultant([Force(*force)])
    with refused("out-of-range", "at_mm"):
        resultant([Force(0, 0, float("nan"), 0, 0, 0)._replace(out_n=0, x_mm=float("nan"))])
