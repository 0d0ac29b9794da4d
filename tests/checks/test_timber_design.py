"""The safety format for wood, held against EN 1995-1-1's tables and a printed example."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import timber_creep, timber_design, timber_group, timber_pull
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

TABLE = published.rows("timber_k_mod.csv")
LOADS = st.floats(0, 5000)


@pytest.mark.parametrize("row", TABLE)
@pytest.mark.parametrize("duration", timber_design.DURATIONS)
def test_k_mod_is_that_of_the_table(row, duration):
    """Every service class and duration has the factor printed for it."""
    assert timber_design.k_mod(int(row["service_class"]), duration) == row[duration]


# 8 x 60 screw, 6355.3 N characteristic, partial factor 1.3: worked apart for each k_mod.
@pytest.mark.parametrize(
    ("duration", "expected_n"),
    [("permanent", 2933.2), ("long", 3422.1), ("medium", 3911.0), ("short", 4399.8), ("instantaneous", 5377.6)],
)
def test_resistance_shrinks_with_the_duration(duration, expected_n):
    """The same screw holds less the longer the load stays."""
    assert timber_design.resistance_n(6355.3, 1, duration) == pytest.approx(expected_n, abs=0.05)  # one decimal


# 100 kg for good on two 6 x 36 screws, EN 1995-1-1: worked apart.
def test_lasting_load_is_held_against_the_factor_for_lasting_loads():
    """Two screws use 0.590 of themselves under 100 kg that hang for good, not the 0.393 of a short load."""
    characteristic_n = 2606.6 * timber_group.group_number(2)
    use = timber_design.worst(characteristic_n, 981, 0, 1)
    assert characteristic_n == pytest.approx(4864.1, abs=0.05)
    assert (use.action_n, use.resistance_n) == (pytest.approx(1324.4, abs=0.05), pytest.approx(2245.0, abs=0.05))
    assert use.share == pytest.approx(0.590, abs=0.0005)
    assert use.action_n / timber_design.resistance_n(characteristic_n, 1, "short") == pytest.approx(0.393, abs=0.0005)
    found = timber_design.verdict("pull", "The pull", characteristic_n, 981, 0, 1, "worked apart")
    assert (found.word, found.figure, found.limit) == (Word.WITHIN, 1324.4, 2244.9)  # 1324.35 up, 2244.98 down
    assert ("k_mod", "0.6 (permanent)") in found.working


# LVL Handbook Europe (Finnish Woodworking Industries, 2025), example 9.6: duct of 50 kg/m (0.5 kN/m there) every 2.5 m.
def test_duct_under_joists_agrees_with_the_printed_example():
    """Two screws 5.0 x 50 carry 1.7 kN against 1.9 kN."""
    action = timber_design.action_n(2500 * 0.5, 0, timber_design.CASES[0])
    one = timber_pull.withdrawal_n(10, 5, timber_pull.counted_thread_mm(50, 5), 90)
    resistance = timber_design.resistance_n(one * timber_group.group_number(2), 1, "permanent")
    assert (action / 1000, one / 1000) == (pytest.approx(1.7, abs=0.05), 2.25)
    assert resistance == pytest.approx(1937.8, abs=0.05)
    assert action / resistance == pytest.approx(0.871, abs=0.0005)


@given(st.floats(0, 5000), LOADS, LOADS, st.sampled_from([1, 2, 3]), st.floats(0, 1000))
def test_more_load_or_damper_air_never_gives_a_better_word(characteristic, permanent, people, service_class, more):
    """The word never improves when load is added, the wood is weaker, or the air damper."""
    words = list(Word)

    def rank(*loads: float, klass: int = service_class) -> int:
        return words.index(timber_design.verdict("pull", "The pull", *loads, klass, "test").word)

    base = rank(characteristic, permanent, people)
    assert rank(characteristic, permanent + more, people) <= base
    assert rank(characteristic, permanent, people + more) <= base
    assert rank(max(0, characteristic - more), permanent, people) <= base
    assert rank(characteristic, permanent, people, klass=min(3, service_class + 1)) <= base


def test_relieving_load_is_counted_low():
    """What relieves is counted with 0.9, and alone it leaves nothing to hold."""
    weight, people = timber_design.CASES
    assert timber_design.action_n(-100, 200, people) == pytest.approx(-90 + 300)
    assert timber_design.action_n(-100, 0, weight) == 0


def test_loads_and_classes_outside_the_tables_are_refused():
    """Loads beyond a building's, other classes and durations are refused by name."""
    good = {"permanent_n": 1.0, "people_n": 1.0, "case": timber_design.CASES[1]}
    check_limits(timber_design.action_n, good, "permanent_n", -1e12, 1e12)
    check_limits(timber_design.action_n, good, "people_n", 0, 1e12)
    strong = {"characteristic_n": 1.0, "service_class": 1, "duration": "short"}
    check_limits(timber_design.resistance_n, strong, "characteristic_n", 0, 1e6)
    for service_class in (0, 4, True, "1"):
        with refused("not-a-choice", "service_class"):
            timber_design.k_mod(service_class, "short")
    with refused("not-a-choice", "duration"):
        timber_design.k_mod(1, "for ever")


@pytest.mark.parametrize("row", TABLE)
def test_creep_factor_is_that_of_the_table(row):
    """Solid wood creeps by the factor printed for its service class."""
    assert timber_creep.k_def("solid timber", int(row["service_class"])) == row["k_def"]


# EN 1995-1-1 2.3.2.2 and equation 2.3 on a sag of 1 mm at once: worked apart.
def test_final_sag_agrees_with_worked_figures():
    """A millimetre at once ends as 1.6, 1.8 or 3 mm in solid wood, 2.2 at a joint of it and 2.386 at one to plywood."""
    solid = [timber_creep.final_mm(1, timber_creep.k_def("solid timber", klass)) for klass in (1, 2, 3)]
    assert solid == pytest.approx([1.6, 1.8, 3.0])
    assert timber_creep.final_mm(1, timber_creep.joint_k_def("solid timber", "solid timber", 1)) == pytest.approx(2.2)
    mixed = timber_creep.joint_k_def("solid timber", "plywood", 1)
    assert (mixed, timber_creep.final_mm(1, mixed)) == pytest.approx((1.386, 2.386), abs=0.0005)


def test_board_in_air_it_is_not_made_for_is_refused():
    """A board has no creep factor in a class it is not made for, nor has an unknown material."""
    assert timber_creep.k_def("OSB/3", 2) == 2.25  # Table 3.2, second hand
    with refused("not-a-choice", "service_class"):
        timber_creep.k_def("OSB/2", 2)
    with refused("not-a-choice", "material"):
        timber_creep.k_def("card", 1)
    check_limits(timber_creep.final_mm, {"at_once_mm": 1.0, "factor": 0.6}, "at_once_mm", 0, 1000)
    check_limits(timber_creep.final_mm, {"at_once_mm": 1.0, "factor": 0.6}, "factor", 0, 10)
