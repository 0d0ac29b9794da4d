"""Pull-out of nails and screws, held against the handbook's equations and printed design values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import withdrawal
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, check_refusals, refused

POUND_N = 4.4482216
INCH_MM = 25.4
SCREW = {"connector": "wood screw", "specific_gravity": 0.48, "diameter_mm": 4.17, "penetration_mm": 25.0}
CONNECTORS = st.sampled_from(sorted(withdrawal.CONNECTORS))
GRAVITIES = st.floats(withdrawal.GRAVITY_LOW, withdrawal.GRAVITY_HIGH)


@pytest.mark.parametrize("row", published.rows("withdrawal_ultimate.csv"))
def test_ultimate_pull_agrees_with_the_handbook_equations(row):
    """Each connector pulls out at the load the handbook's equation gives elsewhere."""
    given_ = (row["connector"], row["specific_gravity"], row["diameter_mm"], row["penetration_mm"])
    # the file's tolerance: its figures are rounded, those of lag screws to whole newtons
    assert withdrawal.ultimate_n(*given_) == pytest.approx(row["ultimate_n"], abs=row["tolerance_n"])


@pytest.mark.parametrize("row", published.rows("withdrawal_nail_per_inch.csv"))
def test_ultimate_pull_of_a_nail_agrees_with_printed_pounds(row):
    """A nail of 0.113 in holds the printed pounds for each inch."""
    found = withdrawal.ultimate_n("nail", row["specific_gravity"], 0.113 * INCH_MM, INCH_MM) / POUND_N
    # 1 lb: printed without decimals
    assert found == pytest.approx(row["load_lb"], abs=1)


@pytest.mark.parametrize("row", published.rows("withdrawal_design_per_inch.csv"))
def test_allowable_pull_agrees_with_printed_design_values(row):
    """Screws may be trusted with the printed pounds for each inch of thread."""
    diameter_mm = row["diameter_in"] * INCH_MM
    found = withdrawal.allowable_n(row["connector"], row["specific_gravity"], diameter_mm, INCH_MM) / POUND_N
    # 1 lb: printed without decimals, one of them cut off instead of rounded
    assert found == pytest.approx(row["load_lb"], abs=1)


# National Design Specification, constant for nails in pounds and inches: 1380 G^2.5 D.
def test_allowable_pull_of_a_nail_agrees_with_the_design_constant():
    """A nail may be trusted with 1380 · G^2.5 · D pounds for each inch."""
    found = withdrawal.allowable_n("nail", 0.5, 0.148 * INCH_MM, INCH_MM) / POUND_N
    assert found == pytest.approx(1380 * 0.5**2.5 * 0.148, rel=5e-4)  # SI constant has four figures


# Ratios of the published constants, pounds and inches: handbook over design specification.
@pytest.mark.parametrize(
    ("connector", "expected"), [("nail", 7850 / 1380), ("wood screw", 15700 / 2850), ("lag screw", 8100 / 1800)]
)
def test_divisor_is_the_ratio_of_the_published_constants(connector, expected):
    """The divisor shown is the handbook's constant over the design constant."""
    assert withdrawal.divisor(connector) == pytest.approx(expected, abs=0.005)


@given(CONNECTORS, GRAVITIES, st.floats(5, 10), st.floats(0, 500))
def test_divisor_turns_the_ultimate_into_the_allowable_pull(connector, gravity, diameter_mm, penetration_mm):
    """Ultimate and allowable pull differ by the divisor shown, whatever the wood."""
    ultimate = withdrawal.ultimate_n(connector, gravity, diameter_mm, penetration_mm)
    allowable = withdrawal.allowable_n(connector, gravity, diameter_mm, penetration_mm)
    assert allowable * withdrawal.divisor(connector) == pytest.approx(ultimate)


@given(CONNECTORS, GRAVITIES, st.floats(5, 9.9), st.floats(1, 250))
def test_pull_grows_with_wood_diameter_and_depth(connector, gravity, diameter_mm, penetration_mm):
    """Denser wood, a thicker shank and more thread never hold less."""
    pull = withdrawal.allowable_n(connector, gravity, diameter_mm, penetration_mm)
    assert withdrawal.allowable_n(connector, min(1, gravity * 1.01), diameter_mm, penetration_mm) >= pull
    assert withdrawal.allowable_n(connector, gravity, diameter_mm * 1.01, penetration_mm) > pull
    assert withdrawal.allowable_n(connector, gravity, diameter_mm, 2 * penetration_mm) == pytest.approx(2 * pull)


@pytest.mark.parametrize(
    ("connector", "low_mm", "high_mm"), [("nail", 1.5, 10), ("wood screw", 2, 10), ("lag screw", 5, 32)]
)
def test_diameter_outside_the_tables_is_refused(connector, low_mm, high_mm):
    """Each connector is reckoned for the diameters of its tables only."""
    good = {**SCREW, "connector": connector}
    check_limits(withdrawal.ultimate_n, good, "diameter_mm", low_mm, high_mm)
    check_limits(withdrawal.allowable_n, good, "diameter_mm", low_mm, high_mm)


def test_wood_and_depth_outside_the_tables_are_refused():
    """Wood lighter or heavier than any in the tables, and a thread deeper than any wall, are refused."""
    check_limits(withdrawal.ultimate_n, SCREW, "specific_gravity", 0.25, 1)
    check_limits(withdrawal.ultimate_n, SCREW, "penetration_mm", 0, 500)
    check_limits(withdrawal.verdict, {**SCREW, "tension_n": 1.0}, "tension_n", 0, 1e6)


def test_unknown_connector_is_refused():
    """A connector without a published equation is refused by name."""
    for method in (withdrawal.ultimate_n, withdrawal.allowable_n):
        with refused("not-a-choice", "connector"):
            method("dowel", 0.5, 6, 30)
    with refused("not-a-choice", "connector"):
        withdrawal.divisor("dowel")


# Allowable 472.0 N: 19.650 · 0.48² · 4.17 · 25, the design equation.
@pytest.mark.parametrize(
    ("tension_n", "word", "margin_n"),
    [(0, Word.WITHIN, 471.9), (377, Word.WITHIN, 94.9), (378, Word.CLOSE, 93.9), (472, Word.OVER, -0.1)],
)
def test_pull_on_a_screw_is_held_against_the_allowable(tension_n, word, margin_n):
    """The verdict rounds the allowance down, says what is left, and turns close within a fifth of it."""
    verdict = withdrawal.verdict(**SCREW, tension_n=tension_n)
    assert (verdict.word, verdict.margin, verdict.limit) == (word, pytest.approx(margin_n), 471.9)
    assert "old fabric" in verdict.sentence
    assert ("divisor", "5.51") in verdict.working


@pytest.mark.parametrize(
    ("short", "full"), [("screw", "wood screw"), ("lag", "coach screw"), ("lag screw", "coach screw")]
)
def test_shorter_words_for_connectors_mean_the_same(short, full):
    """A lag screw is a coach screw, and a screw a wood screw."""
    good = {**SCREW, "diameter_mm": 6.0}
    named, meant = (calculate("withdrawal", {**good, "connector": word}) for word in (short, full))
    assert (named["ultimate_n"], named["divisor"]) == (meant["ultimate_n"], meant["divisor"])


def test_withdrawal_from_the_command_line_gives_both_loads_and_the_divisor():
    """The answer holds ultimate, allowable and divisor, and a verdict when a pull is given."""
    answer = calculate("withdrawal", {**SCREW, "tension_n": 500})
    assert answer["ultimate_n"] == pytest.approx(2600.1, abs=0.05)  # handbook equation
    assert answer["allowable_n"] == pytest.approx(472.0, abs=0.1)  # design specification
    assert answer["divisor"] == pytest.approx(5.51, abs=0.005)
    assert answer["verdict"]["word"] == "over"
    assert "fatigue" in answer["left_out"]
    assert calculate("withdrawal", SCREW)["verdict"] is None


def test_withdrawal_with_bad_input_is_refused():
    """Each number spoilt, missing or unknown is refused by name."""
    check_refusals("withdrawal", SCREW, ("specific_gravity", "diameter_mm", "penetration_mm"))
    with refused("not-a-choice", "connector"):
        calculate("withdrawal", {**SCREW, "connector": ["nail"]})
    with refused("out-of-range", "tension_n"):
        calculate("withdrawal", {**SCREW, "tension_n": -1})


@pytest.mark.parametrize("row", published.rows("withdrawal_design_examples.csv"))
def test_allowable_pull_agrees_with_printed_examples(row):
    """A plain nail and a lag screw may carry the pounds of the printed examples."""
    diameter_mm, penetration_mm = row["diameter_in"] * INCH_MM, row["penetration_in"] * INCH_MM
    found = withdrawal.allowable_n(row["connector"], row["specific_gravity"], diameter_mm, penetration_mm) / POUND_N
    # 5e-4: SI constants have four figures
    assert found == pytest.approx(row["load_lb"], rel=5e-4)
