"""How complete a record is, its days, and what timber felt in it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import humidity_record
from fieldbook.checks.humidity_record import Day, by_day, longest_step, moisture_range, spacing
from fieldbook.checks.logger import Log
from tests.checks.refusals import refused

NAN = math.nan


@pytest.mark.parametrize(
    ("usual_s", "longest_s"), [(0, 7200), (600, 7200), (3600, 7200), (3601, 7202), (86_400, 172_800)]
)
def test_gap_is_longer_than_two_hours_and_two_readings(usual_s, longest_s):
    """One missing reading, or the hour lost in spring, is no gap."""
    assert longest_step(usual_s) == longest_s


def test_spacing_of_an_even_record():
    """Nothing is missing where every hour has a reading."""
    found = spacing([hour * 3600.0 for hour in range(48)])
    assert (found.usual_s, found.gaps, found.longest_s, found.missing) == (3600, 0, 3600, 0)


def test_spacing_of_a_record_with_gaps():
    """What is missing of a gap is its length less the usual interval."""
    hours = [0, 1, 2, 5, 6, 8, 9, 10, 20]
    found = spacing([hour * 3600.0 for hour in hours])
    # 2 to 5 and 10 to 20 are gaps of 3 and 10 hours, of which 2 and 9 are missing; 6 to 8 is one missing reading
    assert (found.usual_s, found.gaps, found.longest_s) == (3600, 2, 36_000)
    assert found.missing == pytest.approx(11 / 20)


def test_usual_interval_is_one_that_occurs():
    """Of an even number of steps the lower middle one is taken."""
    assert spacing([0, 600, 1800]).usual_s == 600
    assert spacing([0, 1200, 1800]).usual_s == 600


def test_spacing_of_one_reading():
    """A single reading has no interval and no gap."""
    found = spacing([5.0])
    assert (found.usual_s, found.gaps, found.longest_s, found.missing) == (0, 0, 0, 0)


def test_days_run_from_midnight_to_midnight():
    """Each day has the mean, the extremes and the mean temperature of its own readings."""
    seconds = [86_400 * 10 + hour * 3600.0 for hour in (0, 12, 23.99, 24, 36)]
    log = Log(seconds, [40, 50, 63, 70, 80], [10, NAN, 14, NAN, NAN], 0, 0)
    first, second = by_day(log)
    assert first == Day(864_000, 51, 40, 63, 12)
    assert (second.start_s, second.mean_pct, second.lowest_pct, second.highest_pct) == (950_400, 75, 70, 80)
    assert math.isnan(second.temperature_c)


def test_days_without_a_temperature_column_have_none():
    """Not a number stands for a temperature that was not read."""
    (day,) = by_day(Log([0.0], [40], [], 0, 0))
    assert math.isnan(day.temperature_c)


@given(st.lists(st.tuples(st.integers(0, 10**7), st.floats(0, 100)), min_size=1, max_size=60))
def test_days_hold_every_reading_once(readings):
    """The days' extremes are the record's, and each mean lies between its own."""
    readings.sort()
    days = by_day(Log([float(now) for now, _ in readings], [value for _, value in readings], [], 0, 0))
    assert min(day.lowest_pct for day in days) == min(value for _, value in readings)
    assert max(day.highest_pct for day in days) == max(value for _, value in readings)
    assert all(day.lowest_pct - 1e-9 <= day.mean_pct <= day.highest_pct + 1e-9 for day in days)
    assert [day.start_s for day in days] == sorted({now // 86_400 * 86_400.0 for now, _ in readings})


def day(mean_pct, temperature_c=NAN):
    return Day(0, mean_pct, 0, 100, temperature_c)


# Wood Handbook, FPL-GTR-282 (2021), Equation 4-5, reckoned independently: 20 °C 45 % 8.4852, 65 % 11.9963,
# 15 °C 55 % 10.2269, 10 °C 70 % 13.4257
def test_timber_moves_between_the_driest_and_the_dampest_day():
    """Each day's own mean temperature counts."""
    found = moisture_range([day(65, 20), day(45, 20), day(55, 15)])
    assert found == pytest.approx((8.4852, 11.9963), abs=0.00006)
    found = moisture_range([day(70, 10), day(55, 15), day(65, 20)])
    assert found == pytest.approx((10.2269, 13.4257), abs=0.00006)


def test_temperature_given_fills_days_without_one():
    """The given temperature stands in only where the record has none."""
    found = moisture_range([day(45), day(70, 10)], 20)
    assert found == pytest.approx((8.4852, 13.4257), abs=0.00006)


def test_moisture_content_without_a_temperature_is_not_known():
    """There is no silent default of 20 °C."""
    with refused("missing", "temperature_c"):
        moisture_range([day(65, 20), day(45)])


def test_day_too_damp_for_the_equation_is_refused():
    """Above 95 % the equation says nothing."""
    with refused("out-of-range", "humidity_pct"):
        moisture_range([day(65, 20), day(96, 20)])


def test_day_is_a_day():
    """Twenty-four hours of sixty minutes of sixty seconds."""
    assert humidity_record.DAY_S == 24 * 60 * 60
