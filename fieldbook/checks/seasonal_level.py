"""The seasonal level of a room's humidity, and the band that its swings about the level keep within.

Source: EN 15757:2010. That it needs thirteen months and a reading an hour was read in an
open-access paper of 2023; the window, the percentiles and the rule of ±10 % RH are from memory,
not seen in a readable copy. It does not say what band a collection bears; it says what the
room's own past has been.
"""

from __future__ import annotations

import statistics
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from ..errors import OutOfRange
from .humidity_record import DAY_S, longest_step, spacing

SOURCE = (
    "EN 15757:2010 (window, percentiles and ±10 % RH from memory, not seen in a readable copy); "
    "percentiles between readings by linear interpolation"
)

# thirty days, centred: a trailing window would call every change of season a swing
HALF_WINDOW_S = 15 * DAY_S
# a year of readings with fifteen days before and after: thirteen months
LEAST_S = 394 * DAY_S
PERCENTILES = (7, 93)
# a band narrower than this on either side may be widened to it
LEAST_DEPARTURE_PCT = 10.0
# share of the record that may be missing before the band is not known: common practice, no source
MOST_MISSING = 0.1


@dataclass(frozen=True)
class Band:
    """The seasonal level and the band around it; everything in % RH, times in s.

    usual_s           usual time between readings
    first             place of the first reading that has a level
    level             seasonal level of that reading and those after it
    percentile_low    departure from the level that 7 % of the readings lie below
    percentile_high   departure that 7 % lie above
    low, high         the band's departures, at least ±10
    """

    usual_s: float
    first: int
    level: Sequence[float]
    percentile_low: float
    percentile_high: float
    low: float
    high: float


@dataclass(frozen=True)
class Outside:
    """Readings outside the band: how many, the longest time on end in s, and when it began."""

    readings: int
    longest_s: float
    longest_from_s: float | None


def seasonal_level(seconds: Sequence[float], humidity_pct: Sequence[float]) -> tuple[int, array[float]]:
    """Mean of the thirty days around each reading, for readings with fifteen days on either side.

    seconds       times in order, s
    humidity_pct  relative humidity, %, 0 to 100
    returns       place of the first reading that has a level, and the levels from there on, %

    Source: EN 15757:2010, centred moving average of 30 days; a reading exactly 15 days away counts.
    Raises nothing; a record under thirty days gives no levels.

    >>> seasonal_level([day * 86400 for day in range(31)], [50.0] * 31)
    (15, array('d', [50.0]))
    """
    sums = array("d", accumulate(humidity_pct, initial=0.0))
    first = next((at for at, now in enumerate(seconds) if now - HALF_WINDOW_S >= seconds[0]), len(seconds))
    level = array("d")
    low = high = 0
    for now in seconds[first:]:
        if now + HALF_WINDOW_S > seconds[-1]:
            break
        while seconds[low] < now - HALF_WINDOW_S:
            low += 1
        while high < len(seconds) and seconds[high] <= now + HALF_WINDOW_S:
            high += 1
        level.append((sums[high] - sums[low]) / (high - low))
    return first, level


def band(seconds: Sequence[float], humidity_pct: Sequence[float]) -> Band:
    """The band that the room's swings about its seasonal level have kept within.

    seconds       times in order, s
    humidity_pct  relative humidity, %, 0 to 100
    returns       levels and departures, % RH

    Source: EN 15757:2010; 7th and 93rd percentile of reading less level, each widened to 10 % RH if
    it is less; linear interpolation between readings. Departs from the standard in taking a record
    with fewer than one reading an hour: the caller says so.
    Raises OutOfRange for less than 394 days, or with more than a tenth of the time missing.

    >>> band([0.0, 86400.0], [50.0, 51.0])
    Traceback (most recent call last):
    ...
    fieldbook.errors.OutOfRange: The record spans 1 days; the band needs thirteen months, 394 days. Go on recording.
    """
    span = seconds[-1] - seconds[0]
    if span < LEAST_S:
        raise OutOfRange(
            f"The record spans {span / DAY_S:.0f} days; the band needs thirteen months, {LEAST_S / DAY_S:.0f} days.",
            "Go on recording.",
            field="time",
            value=span / DAY_S,
        )
    spaced = spacing(seconds)
    if spaced.missing > MOST_MISSING:
        raise OutOfRange(
            f"{spaced.missing:.0%} of the record is missing; the band bears {MOST_MISSING:.0%}.",
            "Go on recording.",
            field="time",
            value=spaced.missing,
        )
    first, level = seasonal_level(seconds, humidity_pct)
    departures = [humidity_pct[first + place] - mean for place, mean in enumerate(level)]
    cuts = statistics.quantiles(departures, n=100, method="inclusive")
    low, high = (cuts[percentile - 1] for percentile in PERCENTILES)
    widened = min(low, -LEAST_DEPARTURE_PCT), max(high, LEAST_DEPARTURE_PCT)
    return Band(spaced.usual_s, first, level, low, high, *widened)


def outside(
    seconds: Sequence[float], humidity_pct: Sequence[float], found: Band, low_pct: float, high_pct: float
) -> Outside:
    """Readings that depart further from the seasonal level than a band allows, and the longest time on end.

    seconds       times in order, s
    humidity_pct  relative humidity, %, 0 to 100
    found         the seasonal level
    low_pct       departure allowed downwards, % RH, -100 to 0
    high_pct      departure allowed upwards, % RH, 0 to 100
    returns       count and s; a time on end counts one interval for its last reading, and ends at a gap

    Source: EN 15757:2010 for the band; how times are added up is common practice, no source.
    Raises nothing.

    >>> outside([0, 3600], [50, 70], Band(3600, 0, [50, 55], -10, 10, -10, 10), -10, 10).readings
    1
    """
    longest_step_s = longest_step(found.usual_s)
    count, longest = 0, 0.0
    longest_from: float | None = None
    since: float | None = None
    last = 0.0
    for place, mean in enumerate(found.level, found.first):
        if low_pct <= humidity_pct[place] - mean <= high_pct:
            since = None
            continue
        now = seconds[place]
        count += 1
        if since is None or now - last > longest_step_s:
            since = now
        last = now
        if now - since + found.usual_s > longest:
            longest, longest_from = now - since + found.usual_s, since
    return Outside(count, longest, longest_from)
