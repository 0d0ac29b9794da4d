"""The band of EN 15757, held against the standard's method reckoned independently."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import seasonal_level
from fieldbook.checks.seasonal_level import Band, band, outside
from tests.checks import published
from tests.checks.refusals import refused

DAY_S = 86_400.0
DAILY = [row["humidity_pct"] for row in published.rows("humidity_daily.csv")]
DAYS = [day * DAY_S for day in range(len(DAILY))]


def level_at(day):
    first, level = seasonal_level.seasonal_level(DAYS, DAILY)
    return level[day - first]


# centred mean of 31 daily values, 15 on each side: reckoned independently with numpy 2.4.6, six decimals
@pytest.mark.parametrize(("day", "level"), [(15, 52.781935), (100, 59.890968), (200, 46.780968), (379, 52.617419)])
def test_level_is_the_centred_mean_of_thirty_days(day, level):
    """Fifteen days on either side count, and the day itself."""
    assert level_at(day) == pytest.approx(level, abs=6e-7)


def test_level_begins_and_ends_fifteen_days_inside_the_record():
    """The first and last fifteen days have no level."""
    first, level = seasonal_level.seasonal_level(DAYS, DAILY)
    assert (first, len(level)) == (15, 365)
    assert seasonal_level.seasonal_level(DAYS[:30], DAILY[:30]) == (15, seasonal_level.array("d"))
    assert seasonal_level.seasonal_level(DAYS[:5], DAILY[:5]) == (5, seasonal_level.array("d"))


# 7th and 93rd percentile of the same record's departures, linear interpolation (numpy's default), six decimals;
# Hazen's rule would give -3.644081, a trailing window -5.1319
def test_band_is_the_percentiles_of_the_departures():
    """Percentiles lie between readings by linear interpolation."""
    found = band(DAYS, DAILY)
    assert found.percentile_low == pytest.approx(-3.637561, abs=6e-7)
    assert found.percentile_high == pytest.approx(3.687587, abs=6e-7)
    assert found.usual_s == DAY_S


def test_narrow_band_is_widened_to_ten_percent():
    """Swings within ±10 % RH of the season are taken as borne."""
    found = band(DAYS, DAILY)
    assert (found.low, found.high) == (-10, 10)


def test_wide_band_stays_as_wide_as_it_is():
    """Each side is widened by itself."""
    swings = [50.0 + (40 if day % 8 == 0 else -20 if day % 8 == 4 else 0) for day in range(400)]
    found = band([day * DAY_S for day in range(400)], swings)
    assert (found.low, found.high) == (found.percentile_low, found.percentile_high)
    assert found.low < -10
    assert found.high > 10


# extremes of the departures, reckoned independently, four decimals
def test_extremes_of_the_departures_agree():
    """The greatest swings down and up are those of the record."""
    first, level = seasonal_level.seasonal_level(DAYS, DAILY)
    departures = [DAILY[first + place] - mean for place, mean in enumerate(level)]
    assert min(departures) == pytest.approx(-8.7371, abs=0.00006)
    assert max(departures) == pytest.approx(9.5013, abs=0.00006)


def test_readings_outside_the_percentiles_are_counted():
    """Seven in a hundred lie below and seven above."""
    found = band(DAYS, DAILY)
    # reckoned independently: 52 of 365
    assert outside(DAYS, DAILY, found, found.percentile_low, found.percentile_high).readings == 52


@given(
    st.lists(
        st.tuples(st.integers(0, 90 * 24), st.floats(0, 100)), min_size=2, max_size=80, unique_by=lambda row: row[0]
    )
)
def test_level_agrees_with_the_plain_definition(readings):
    """Whatever the gaps, the level is the mean within fifteen days, for readings that have both sides."""
    readings.sort()
    seconds = np.array([hour * 3600.0 for hour, _ in readings])
    humidity = np.array([value for _, value in readings])
    window = 15 * DAY_S
    full = (seconds - window >= seconds[0]) & (seconds + window <= seconds[-1])
    expected = [humidity[np.abs(seconds - now) <= window].mean() for now in seconds[full]]
    first, level = seasonal_level.seasonal_level(seconds.tolist(), humidity.tolist())
    assert list(level) == pytest.approx(expected, abs=1e-9)
    if len(level):
        assert full[first]
        assert not full[:first].any()


def hourly(days, shape=lambda hour: 50.0):
    hours = range(int(days * 24))
    return [hour * 3600.0 for hour in hours], [shape(hour) for hour in hours]


def test_band_of_an_hourly_record_agrees_with_numpy():
    """Thousands of readings, a season, a day and noise: the percentiles are numpy's."""
    noise = np.random.default_rng(15757).normal(0, 5, 24 * 400)
    seconds, humidity = hourly(400, lambda hour: 50 + 8 * np.sin(hour / 1394) + noise[hour])
    found = band(seconds, humidity)
    values = np.array(humidity)
    level = np.convolve(values, np.ones(721) / 721, "valid")
    expected = np.percentile(values[360:-360] - level, [7, 93])
    assert (found.percentile_low, found.percentile_high) == pytest.approx(tuple(expected), abs=1e-9)
    assert list(found.level) == pytest.approx(list(level), abs=1e-9)


def test_record_shorter_than_thirteen_months_has_no_band():
    """394 days from the first reading to the last give a year with fifteen days on either side."""
    later = [now + 19_000 * DAY_S for now in DAYS]
    assert len(band(later[:395], DAILY[:395]).level) == 365
    with refused("out-of-range", "time") as caught:
        band(later[:394], DAILY[:394])
    assert "393 days" in caught.value.reason
    assert "394 days" in caught.value.reason
    assert caught.value.value == 393


def test_record_with_more_than_a_tenth_missing_has_no_band():
    """A gap of two hundred days in two thousand is borne, a longer one is not."""
    seconds = [day * DAY_S for day in range(2001) if not 900 <= day < 1100]
    assert band(seconds, [50.0] * len(seconds)).percentile_low == 0
    seconds = [day * DAY_S for day in range(2001) if not 900 <= day < 1101]
    with refused("out-of-range", "time") as caught:
        band(seconds, [50.0] * len(seconds))
    assert caught.value.reason.startswith("10% of the record")
    assert caught.value.value == pytest.approx(201 / 2000)


def runs(departures, hours=None):
    """What lies outside ±10 of a level of 50, for departures at the hours given."""
    hours = range(len(departures)) if hours is None else hours
    found = Band(3600.0, 0, [50.0] * len(departures), 0, 0, -10, 10)
    return outside([hour * 3600.0 for hour in hours], [50.0 + by for by in departures], found, -10, 10)


def test_longest_time_outside_counts_its_last_reading_for_an_interval():
    """Three hourly readings on end outside are three hours."""
    found = runs([0, 11, 0, 11, 12, -11, 0, 11, 11])
    assert (found.readings, found.longest_s, found.longest_from_s) == (6, 3 * 3600, 3 * 3600)


def test_reading_on_the_limit_is_inside():
    """The limits themselves belong to the band."""
    assert runs([10, -10]).readings == 0
    assert runs([10.001, -10.001]).readings == 2


def test_first_of_equally_long_times_outside_is_told():
    """When it began is when it first was so long."""
    assert runs([11, 0, 11, 0]).longest_from_s == 0


def test_time_outside_ends_at_a_gap():
    """What happened in a gap is not known, so it does not count as outside."""
    found = runs([11, 11, 11, 11], [0, 1, 4, 5])
    assert (found.readings, found.longest_s, found.longest_from_s) == (4, 2 * 3600, 0)
    # one missing reading is no gap
    assert runs([11, 11, 11, 11], [0, 1, 3, 4]).longest_s == 5 * 3600


def test_nothing_outside_has_no_time_and_no_beginning():
    """A quiet record has no longest time outside."""
    found = runs([0, 0])
    assert (found.readings, found.longest_s, found.longest_from_s) == (0, 0, None)


def test_only_readings_with_a_level_are_held_against_the_band():
    """Readings before the first level are not judged."""
    found = Band(3600.0, 2, [50.0, 40.0], 0, 0, -10, 10)
    beyond = outside([0, 3600, 7200, 10800], [0.0, 0.0, 50.0, 51.0], found, -10, 10)
    assert (beyond.readings, beyond.longest_from_s) == (1, 10800)
