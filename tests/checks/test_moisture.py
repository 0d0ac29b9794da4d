"""Equilibrium moisture content of timber, held against the Wood Handbook."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import moisture
from tests.checks import published
from tests.checks.refusals import check_limits, check_refusals, refused

TEMPERATURES = st.floats(*moisture.TEMPERATURE_C)
HUMIDITIES = st.floats(*moisture.HUMIDITY_PCT)

# Wood Handbook, FPL-GTR-282 (2021), Equation 4-5 in °C, reckoned independently with numpy 2.4.6. Four decimals are
# given; public copies with a slipped digit in K or K1 differ by 0.05 to 0.10, so only a narrow tolerance finds them.
EQUATION = [
    *((20, humidity, content) for humidity, content in ((30, 6.1882), (40, 7.7224), (45, 8.4852), (50, 9.2711))),
    *((20, humidity, content) for humidity, content in ((55, 10.1013), (60, 10.9998), (65, 11.9963), (70, 13.1291))),
    *((20, humidity, content) for humidity, content in ((75, 14.4509), (80, 16.0371), (85, 18.0024), (90, 20.5311))),
    *((20, 95, 23.9415), (5, 85, 18.4695), (2, 83, 17.6584), (10, 70, 13.4257), (15, 55, 10.2269)),
]


@pytest.mark.parametrize(
    "row", published.rows("moisture_table_4_2.csv"), ids=lambda row: f"{row['temperature_c']} {row['humidity_pct']}"
)
def test_moisture_content_agrees_with_the_handbook(row):
    """The equation gives what the handbook's table prints and what its form in °F gives."""
    found = moisture.equilibrium(row["temperature_c"], row["humidity_pct"])
    # The table prints one decimal, and its temperatures are whole °F turned into °C with one decimal.
    assert found == pytest.approx(row["table_pct"], abs=0.055)
    # The two forms' constants are rounded separately.
    assert found == pytest.approx(row["fahrenheit_pct"], abs=0.015)


@pytest.mark.parametrize(("temperature_c", "humidity_pct", "content_pct"), EQUATION)
def test_moisture_content_agrees_with_the_equation(temperature_c, humidity_pct, content_pct):
    """Each constant of the equation is right in its last digit."""
    assert moisture.equilibrium(temperature_c, humidity_pct) == pytest.approx(content_pct, abs=0.00006)


# The same equation solved by bisection elsewhere, three decimals.
@pytest.mark.parametrize(
    ("content_pct", "humidity_pct"), [(8, 41.829), (10, 54.408), (12, 65.018), (16, 79.894), (20, 89.059)]
)
def test_humidity_for_a_moisture_content_is_the_inverse(content_pct, humidity_pct):
    """The humidity that keeps wood at a moisture content is the one the equation gives it for."""
    assert moisture.humidity_for(20, content_pct) == pytest.approx(humidity_pct, abs=0.0006)


@given(TEMPERATURES, HUMIDITIES)
def test_humidity_comes_back_from_the_moisture_content(temperature_c, humidity_pct):
    """There and back again is the same humidity, anywhere in the range."""
    content = moisture.equilibrium(temperature_c, humidity_pct)
    assert moisture.humidity_for(temperature_c, content) == pytest.approx(humidity_pct, abs=1e-6)


@given(TEMPERATURES, HUMIDITIES, HUMIDITIES)
def test_damper_air_makes_wood_no_drier(temperature_c, one, other):
    """Moisture content rises with humidity at every temperature."""
    low, high = sorted((one, other))
    assert moisture.equilibrium(temperature_c, low) <= moisture.equilibrium(temperature_c, high)


def test_limits_are_those_of_table_4_2():
    """The method answers over the range of the table it stands for, and nowhere else."""
    good = {"temperature_c": 20.0, "humidity_pct": 50.0}
    check_limits(moisture.equilibrium, good, "temperature_c", -1.1, 132.2)
    check_limits(moisture.equilibrium, good, "humidity_pct", 5, 95)


def test_moisture_content_that_no_humidity_gives_is_refused():
    """Wood wetter or drier than air makes it has no humidity."""
    least, most = moisture.equilibrium(20, 5), moisture.equilibrium(20, 95)
    check_limits(
        moisture.humidity_for,
        {"temperature_c": 20.0, "moisture_content_pct": 10.0},
        "moisture_content_pct",
        least,
        most,
    )


def test_fraction_in_place_of_percent_is_refused_with_a_hint():
    """0.65 is taken for a slip of 65, not for bone-dry air."""
    with refused("out-of-range", "humidity_pct") as caught:
        moisture.equilibrium(20, 0.65)
    assert "65, not 0.65" in caught.value.remedy


def test_calculation_gives_the_moisture_content():
    """Temperature and humidity give one figure."""
    # Equation 4-5, as above
    answer = calculate("moisture", {"temperature_c": 20, "humidity_pct": 65})
    assert answer["moisture_content_pct"] == pytest.approx(11.9963, abs=0.00006)
    assert "humidity_pct" not in answer


def test_calculation_gives_the_humidity_for_a_moisture_content():
    """Temperature and moisture content give the humidity."""
    answer = calculate("moisture", {"temperature_c": 20, "moisture_content_pct": 12})
    assert answer["humidity_pct"] == pytest.approx(65.018, abs=0.0006)
    assert "moisture_content_pct" not in answer


def test_calculation_with_both_humidity_and_moisture_content_is_refused():
    """One is reckoned from the other, so both cannot be given."""
    with refused("wrong-use", "humidity_pct"):
        calculate("moisture", {"temperature_c": 20, "humidity_pct": 65, "moisture_content_pct": 12})


def test_bad_input_is_refused():
    """Anything but a number within the limits is refused, naming its key."""
    check_refusals("moisture", {"temperature_c": 20, "humidity_pct": 65}, ("temperature_c", "humidity_pct"))
