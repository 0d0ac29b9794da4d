"""What standing things put on a floor, and how hard a crowd leans."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from fieldbook.checks.floor_load import (
    CATEGORIES,
    area_load_kn_m2,
    foot_load_kn,
    level_push,
    line_load_kn_m,
    verdict,
)
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, refused

TABLE = [(0, 0), (1000, 0), (1000, 600), (0, 600)]
PLACES = st.floats(-900, 900).map(lambda number: round(number, 1))


# By hand: 300 kg on 1.2 × 0.5 m, 2.943 kN on 0.6 m², and on 1.2 m.
def test_weight_is_spread_over_area_and_length():
    """A cabinet's load is its weight over what it stands on."""
    assert area_load_kn_m2(300, 1200, 500) == pytest.approx(4.905)
    assert line_load_kn_m(300, 1200) == pytest.approx(2.4525)


# By hand: a table rocks on one diagonal and halves its weight there; a tripod shares by its levers.
def test_foot_is_pressed_hardest_where_the_thing_rocks():
    """Four feet on an uneven floor are at worst two."""
    assert foot_load_kn(120, (500, 300), TABLE) == pytest.approx(120 * 9.81 / 2000)
    assert foot_load_kn(90, (0, 0), [(0, 200), (-150, -100), (150, -100)]) == pytest.approx(90 * 9.81 / 3000)
    assert foot_load_kn(90, (0, 0), [(0, 0)]) == pytest.approx(90 * 9.81 / 1000)
    assert foot_load_kn(90, (100, 0), [(0, 0), (400, 0)]) == pytest.approx(0.75 * 90 * 9.81 / 1000)


@settings(max_examples=30)
@given(st.lists(st.tuples(PLACES, PLACES), min_size=3, max_size=5, unique=True), st.tuples(PLACES, PLACES))
def test_hardest_pressed_foot_agrees_with_a_linear_program(feet, centre):
    """No presses under the feet that balance the weight press any one harder, and some press one as hard."""
    rows = [[1.0] * len(feet), [foot[0] / 100 for foot in feet], [foot[1] / 100 for foot in feet]]
    wanted = [1.0, centre[0] / 100, centre[1] / 100]
    found = [
        linprog([-float(place == at) for place in range(len(feet))], A_eq=rows, b_eq=wanted) for at in range(len(feet))
    ]
    assume(all(each.status == 0 for each in found))
    most = max(-each.fun for each in found)
    assume(most > 1e-6)
    # 1e-4: feet a hundredth of a millimetre out of line count as in line
    assert foot_load_kn(1000 / 9.81, centre, feet) == pytest.approx(most, abs=1e-4)


# EN 1991-1-1:2002, Tables 6.2 and 6.12, recommended values from memory; 6.4 takes the push at 1.2 m at most.
def test_crowd_leans_with_the_highest_figure_of_its_category():
    """A thing 900 mm wide in an exhibition room is leaned on with 0.9 kN, at its top or at 1.2 m."""
    assert level_push("C3", 900, 1500) == (900, 1200)
    assert level_push("C5", 500, 800) == (2500, 800)
    assert (CATEGORIES["C3"].area_kn_m2, CATEGORIES["C3"].point_kn) == (5.0, 4.0)
    with refused("not-a-choice", "category"):
        level_push("Z9", 900, 800)


def test_load_is_held_against_what_the_floor_may_carry():
    """The load is shown rounded up to a hundredth, the limit as it was stated."""
    held = verdict("The load on the floor", 4.901, 5.009, "kN/m²")
    assert (held.word, held.figure, held.limit, held.unit) == (Word.CLOSE, 4.91, 5.009, "kN/m²")
    assert verdict("The load on one foot", 1.2, 1.1, "kN").word is Word.OVER
    assert verdict("The load on the floor", 1.2, 2.5, "kN/m²").word is Word.WITHIN
    assert "engineer" in held.sentence


def test_floor_loads_outside_their_range_are_refused():
    """Numbers that nothing on a floor has are refused by name."""
    area = {"mass_kg": 1, "wide_mm": 100, "deep_mm": 100}
    check_limits(area_load_kn_m2, area, "mass_kg", 0, 100_000)
    check_limits(area_load_kn_m2, area, "wide_mm", 5, 100_000)
    check_limits(area_load_kn_m2, area, "deep_mm", 5, 100_000)
    check_limits(line_load_kn_m, {"mass_kg": 1, "length_mm": 100}, "mass_kg", 0, 100_000)
    check_limits(line_load_kn_m, {"mass_kg": 1, "length_mm": 100}, "length_mm", 10, 100_000)
    push = {"category": "C1", "wide_mm": 100, "height_mm": 100}
    check_limits(level_push, push, "wide_mm", 1, 100_000)
    check_limits(level_push, push, "height_mm", 1, 100_000)
    held = {"what": "It", "figure": 1, "limit": 1, "unit": "kN"}
    check_limits(verdict, held, "figure", 0, 1e6)
    check_limits(verdict, held, "limit", 0, 1e6)
    with refused("out-of-range", "mass_kg"):
        foot_load_kn(-1, (500, 300), TABLE)
    with refused("out-of-range", "feet_mm"):
        foot_load_kn(1, (500, 300), [])
    with refused("out-of-range", "feet_mm"):
        foot_load_kn(1, (500, float("nan")), TABLE)
    with refused("unsuitable-shape", "centre_mm"):
        foot_load_kn(1, (500, -300), TABLE)
