"""The lifting equation, held against worked lifts and the manual's own example."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.lifting_equation import Multipliers, multipliers, recommended_kg
from tests.checks import published
from tests.checks.refusals import check_limits, refused

POUND_KG = 0.45359237
INCH_CM = 2.54
LIFT = {
    **{"horizontal_cm": 40.0, "vertical_cm": 75.0, "distance_cm": 60.0},
    **{"asymmetry_deg": 0.0, "frequency_multiplier": 1.0},
}


@pytest.mark.parametrize("row", published.rows("lifting_equation.csv"))
def test_recommended_mass_agrees_with_worked_lifts(row):
    """Lifts worked apart come out the same."""
    factors = multipliers(
        row["horizontal_cm"],
        row["vertical_cm"],
        row["distance_cm"],
        row["asymmetry_deg"],
        row["frequency"],
        row["coupling"],
    )
    assert recommended_kg(factors) == pytest.approx(row["recommended_kg"], abs=0.001)  # four decimals at most


# NIOSH 94-110, punch press example: 23 in, 15 in (then 63 in), 48 in, fair; 16.3 and 14.5 lb with factors rounded to
# two decimals: from memory, not seen in a readable copy. Unrounded inch form: 16.03 and 14.31 lb, reckoned apart.
@pytest.mark.parametrize(("vertical_in", "exact_lb", "printed_lb"), [(15, 16.03, 16.3), (63, 14.31, 14.5)])
def test_recommended_mass_agrees_with_the_manual_within_its_rounding(vertical_in, exact_lb, printed_lb):
    """The metric form lies within what the two forms differ by, and near the printed value."""
    factors = multipliers(23 * INCH_CM, vertical_in * INCH_CM, 48 * INCH_CM, coupling="fair")
    found_lb = recommended_kg(factors) / POUND_KG
    # 3.5 %: 10 in are 25.4 cm, 30 in are 76.2 cm, 51 lb are 23.1 kg
    assert found_lb == pytest.approx(exact_lb, rel=0.035)
    # 5 %: two decimals of four factors, and inches for centimetres
    assert found_lb == pytest.approx(printed_lb, rel=0.05)


# NIOSH 94-110: limits of each factor, beyond which it is 0 (or 1 for shorter reaches and rises than 25 cm).
@pytest.mark.parametrize(
    ("key", "value", "factor", "expected"),
    [
        ("horizontal_cm", 10, "horizontal", 1),
        ("horizontal_cm", 25, "horizontal", 1),
        ("horizontal_cm", 50, "horizontal", 0.5),
        ("horizontal_cm", 63, "horizontal", 25 / 63),
        ("horizontal_cm", 63.1, "horizontal", 0),
        ("vertical_cm", 0, "vertical", 0.775),
        ("vertical_cm", 175, "vertical", 0.7),
        ("vertical_cm", 175.1, "vertical", 0),
        ("distance_cm", 0, "distance", 1),
        ("distance_cm", 25, "distance", 1),
        ("distance_cm", 175, "distance", 0.82 + 4.5 / 175),
        ("distance_cm", 175.1, "distance", 0),
        ("asymmetry_deg", 135, "asymmetry", 0.568),
        ("asymmetry_deg", 135.1, "asymmetry", 0),
        ("frequency_multiplier", 0.84, "frequency", 0.84),
    ],
)
def test_factor_at_its_limits_is_as_published(key, value, factor, expected):
    """Each factor holds up to its limit and is nothing beyond."""
    assert getattr(multipliers(**{**LIFT, key: value}), factor) == pytest.approx(expected)


# NIOSH 94-110, coupling: good 1; fair 0.95 below 75 cm, else 1; poor 0.90.
@pytest.mark.parametrize(
    ("coupling", "vertical_cm", "expected"),
    [("good", 50, 1), ("fair", 74.9, 0.95), ("fair", 75, 1), ("poor", 50, 0.9), ("poor", 100, 0.9)],
)
def test_coupling_factor_is_as_published(coupling, vertical_cm, expected):
    """Handles count for everything low down, and for less high up."""
    assert multipliers(**{**LIFT, "vertical_cm": vertical_cm}, coupling=coupling).coupling == expected


@given(st.floats(0, 200), st.floats(0, 300), st.floats(0, 300), st.floats(0, 180), st.floats(0, 1))
def test_factors_are_shares(horizontal_cm, vertical_cm, distance_cm, asymmetry_deg, frequency):
    """Whatever the lift, every factor lies from 0 to 1 and the mass from 0 to 23 kg."""
    factors = multipliers(horizontal_cm, vertical_cm, distance_cm, asymmetry_deg, frequency)
    assert all(0 <= factor <= 1 + 1e-12 for factor in factors)
    assert 0 <= recommended_kg(factors) <= 23 + 1e-9


def test_recommended_mass_is_the_load_constant_times_all_factors():
    """Each of the six factors takes its part of 23 kg."""
    factors = Multipliers(0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
    assert recommended_kg(factors) == pytest.approx(23 * math.prod(factors))


# NIOSH 94-110: 23 kg for the standard lift, straight ahead, now and then, with handles.
def test_standard_lift_takes_the_whole_load_constant():
    """What is not told of a lift takes nothing off."""
    assert recommended_kg(multipliers(25, 75, 25)) == 23


def test_lift_outside_the_equation_is_refused():
    """Measurements that no lift has are refused by name."""
    for key, high in (("horizontal_cm", 200), ("vertical_cm", 300), ("distance_cm", 300), ("asymmetry_deg", 180)):
        check_limits(multipliers, LIFT, key, 0, high)
    check_limits(multipliers, LIFT, "frequency_multiplier", 0, 1)
    with refused("not-a-choice", "coupling"):
        multipliers(**LIFT, coupling="sticky")
