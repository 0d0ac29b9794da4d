"""Damp air, held against the Magnus form as published and against PsychroLib."""

from __future__ import annotations

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import air
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, check_refusals, refused

TABLE = published.rows("air_psychrometrics.csv")
TEMPERATURES = st.floats(*air.TEMPERATURE_C)
HUMIDITIES = st.floats(*air.HUMIDITY_PCT)

psychrolib.SetUnitSystem(psychrolib.SI)


def named(row):
    return f"{row['temperature_c']:g} °C {row['humidity_pct']:g} %"


@pytest.mark.parametrize("row", TABLE, ids=named)
def test_air_agrees_with_the_published_constants(row):
    """Pressure, dew point and water content come out as the same constants give them elsewhere."""
    temperature_c, humidity_pct = row["temperature_c"], row["humidity_pct"]
    # the tables have four decimals
    assert air.vapour_pressure(temperature_c) == pytest.approx(row["vapour_pressure_hpa"], abs=0.00006)
    assert air.dew_point(temperature_c, humidity_pct) == pytest.approx(row["dew_point_c"], abs=0.00006)
    found = air.absolute_humidity(temperature_c, humidity_pct)
    assert found == pytest.approx(row["absolute_humidity_g_m3"], abs=0.00006)


@pytest.mark.parametrize("row", [row for row in TABLE if row["dew_point_c"] > 0], ids=named)
def test_dew_point_agrees_with_other_methods(row):
    """Other constants and another library lie within what methods differ by, above freezing."""
    found = air.dew_point(row["temperature_c"], row["humidity_pct"])
    # 0.05 K: the greatest difference between the sets of constants in use
    assert found == pytest.approx(row["dew_point_alduchov_c"], abs=0.05)
    assert found == pytest.approx(row["dew_point_psychrolib_c"], abs=0.05)


@given(st.floats(10, 40), st.floats(60, 100))
def test_dew_point_agrees_with_the_library_anywhere_above_freezing(temperature_c, humidity_pct):
    """Whatever the air, the library's dew point is within 0.05 K."""
    found = psychrolib.GetTDewPointFromRelHum(temperature_c, humidity_pct / 100)
    assert air.dew_point(temperature_c, humidity_pct) == pytest.approx(found, abs=0.05)


@given(TEMPERATURES, HUMIDITIES)
def test_air_at_its_dew_point_is_saturated(temperature_c, humidity_pct):
    """The pressure at the dew point is the pressure in the air."""
    dew_c = air.dew_point(temperature_c, humidity_pct)
    if dew_c >= air.TEMPERATURE_C[0]:
        pressure = air.vapour_pressure(temperature_c) * humidity_pct / 100
        assert air.vapour_pressure(dew_c) == pytest.approx(pressure, rel=1e-9)


@given(TEMPERATURES, HUMIDITIES)
def test_dew_point_is_never_above_the_air(temperature_c, humidity_pct):
    """Air condenses at its own temperature at most."""
    assert air.dew_point(temperature_c, humidity_pct) <= temperature_c + 1e-9


@given(TEMPERATURES, HUMIDITIES)
def test_surface_as_warm_as_the_air_has_the_humidity_of_the_air(temperature_c, humidity_pct):
    """Nothing changes where nothing is colder."""
    assert air.surface_humidity(temperature_c, humidity_pct, temperature_c) == pytest.approx(humidity_pct)


# Same vapour pressure at the surface, Sonntag's constants, reckoned independently to three decimals; and PsychroLib,
# which another formula keeps within 0.1.
@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "surface_c", "expected_pct", "psychrolib_pct"),
    [
        (20, 60, 14, 87.730, 87.778),
        (20, 60, 15, 82.246, 82.282),
        (20, 60, 12, 99.970, 100.049),
        (18, 65, 12, 95.604, 95.665),
        (16, 75, 13, 91.025, 91.055),
    ],
)
def test_humidity_at_a_colder_surface_agrees(temperature_c, humidity_pct, surface_c, expected_pct, psychrolib_pct):
    """The colder the surface, the damper the air against it."""
    found = air.surface_humidity(temperature_c, humidity_pct, surface_c)
    assert found == pytest.approx(expected_pct, abs=0.0006)
    assert found == pytest.approx(psychrolib_pct, abs=0.1)


# Lowest surface temperature that keeps 80 %: reckoned independently to four decimals from the same constants.
@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "surface_c"),
    [(20, 50, 12.6172), (20, 60, 15.4314), (20, 70, 17.8595), (18, 65, 14.7364)],
)
def test_surface_is_close_below_the_temperature_that_keeps_eighty_percent(temperature_c, humidity_pct, surface_c):
    """80 % at the surface divides dry from close (BS 5250:2002, Annex D)."""
    assert air.condensation_verdict(temperature_c, humidity_pct, surface_c + 0.0001).word == Word.WITHIN
    assert air.condensation_verdict(temperature_c, humidity_pct, surface_c - 0.0001).word == Word.CLOSE


def test_limits_are_those_of_the_constants():
    """Outside -45 to 60 °C and 1 to 100 % there is no answer."""
    good = {"temperature_c": 20.0, "humidity_pct": 50.0}
    check_limits(air.vapour_pressure, {"temperature_c": 20.0}, "temperature_c", -45, 60)
    for method in (air.dew_point, air.absolute_humidity):
        check_limits(method, good, "temperature_c", -45, 60)
        check_limits(method, good, "humidity_pct", 1, 100)
    for method in (air.surface_humidity, air.condensation_verdict):
        check_limits(method, good | {"surface_c": 12.0}, "temperature_c", -45, 60)
        check_limits(method, good | {"surface_c": 12.0}, "humidity_pct", 1, 100)
        check_limits(method, good | {"surface_c": 12.0}, "surface_c", -45, 60)


def test_fraction_in_place_of_percent_is_refused_with_a_hint():
    """0.65 is taken for a slip of 65."""
    with refused("out-of-range", "humidity_pct") as caught:
        air.dew_point(20, 0.65)
    assert "65, not 0.65" in caught.value.remedy


def test_surface_above_the_dew_point_has_a_margin_rounded_down():
    """The dew point is shown too high and the margin too small rather than the other way."""
    # Sonntag, 20 °C 65 %: dew point 13.2174 °C; at 15 °C 65 x 23.326 / 17.0167 = 89.0998 %
    found = air.condensation_verdict(20, 65, 15.06)
    assert (found.limit, found.margin) == (15.0, 1.8)
    found = air.condensation_verdict(20, 65, 15)
    assert found.check == "air"
    assert found.word == Word.CLOSE
    assert (found.figure, found.limit, found.margin, found.unit) == (13.3, 15.0, 1.7, "°C")
    assert "1.7 K above the dew point of 13.3 °C" in found.sentence
    assert "80 %" in found.sentence
    assert "Sonntag" in found.source
    assert "BS 5250" in found.source
    assert [figure for _, figure in found.working] == ["20 °C", "65 %", "15 °C", "13.3 °C", "89.1 %"]
    assert all(label for label, _ in found.working)


def test_warm_surface_stays_dry():
    """A surface well above the dew point is within."""
    found = air.condensation_verdict(20, 50, 18)
    # dew point 9.2552 °C (Sonntag, 20 °C 50 %)
    assert (found.word, found.figure, found.limit, found.margin) == (Word.WITHIN, 9.3, 18.0, 8.7)
    assert "stays dry" in found.sentence


def test_surface_below_the_dew_point_is_over():
    """A surface colder than the dew point sweats."""
    found = air.condensation_verdict(20, 65, 10)
    # dew point 13.2174 °C (Sonntag, 20 °C 65 %)
    assert (found.word, found.figure, found.limit, found.margin) == (Word.OVER, 13.3, 10.0, -3.3)
    assert "3.3 K below the dew point" in found.sentence
    assert "condenses" in found.sentence


@pytest.mark.parametrize(("surface_c", "word"), [(13.3173, Word.OVER), (13.3175, Word.CLOSE)])
def test_surface_a_hair_above_the_dew_point_counts_as_wet(surface_c, word):
    """Formulas differ by 0.05 K, so less than a tenth of a degree is no margin."""
    # dew point 13.2174 °C
    found = air.condensation_verdict(20, 65, surface_c)
    assert found.word == word
    assert "above the dew point" in found.sentence


def test_calculation_without_a_surface_gives_the_air_alone():
    """Dew point and water content need no surface."""
    # Sonntag, 20 °C 50 %
    answer = calculate("air", {"temperature_c": 20, "humidity_pct": 50})
    assert answer == {
        "dew_point_c": pytest.approx(9.2552, abs=0.00006),
        "absolute_humidity_g_m3": pytest.approx(8.6208, abs=0.00006),
        "verdict": None,
        "working": [["Air temperature", "20 °C"], ["Relative humidity", "50 %"]],
        "source": [air.SOURCE],
    }


def test_calculation_with_a_surface_gives_its_margin():
    """A surface adds its margin, the humidity there and the verdict."""
    # Sonntag, 18 °C 55 %: dew point 8.8190 °C, 8.4286 g/m³; surface humidity from e_s 20.5913 hPa and 12.2603 hPa
    answer = calculate("air", {"temperature_c": 18, "humidity_pct": 55, "surface_c": 10})
    assert answer.pop("verdict")["word"] == "close"
    assert {key: value for key, value in answer.items() if key not in {"working", "source"}} == {
        "dew_point_c": pytest.approx(8.8190, abs=0.00006),
        "absolute_humidity_g_m3": pytest.approx(8.4286, abs=0.00006),
        "margin_c": pytest.approx(1.1810, abs=0.00006),
        "surface_humidity_pct": pytest.approx(55 * 20.5913 / 12.2603, abs=0.001),
    }


def test_bad_input_is_refused():
    """Anything but a number within the limits is refused, naming its key."""
    good = {"temperature_c": 20, "humidity_pct": 65}
    check_refusals("air", good, ("temperature_c", "humidity_pct"))
    for value, code in ((float("nan"), "out-of-range"), (-46, "out-of-range"), ("cold", "not-a-number")):
        with refused(code, "surface_c"):
            calculate("air", good | {"surface_c": value})
