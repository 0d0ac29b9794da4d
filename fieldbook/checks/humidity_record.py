"""A room's humidity record: how complete it is, what each day was like, and what timber in it felt.

It does not mend a record: gaps stay gaps, and are counted.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from ..errors import Missing
from . import moisture
from .logger import Log

DAY_S = 86_400.0
# a gap is longer than this, and than two usual intervals
LONGEST_STEP_S = 7200.0


@dataclass(frozen=True)
class Spacing:
    """How often there is a reading, and how much is missing.

    usual_s    usual time between readings, s
    gaps       how many gaps longer than two hours and two readings
    longest_s  the longest time between two readings, s
    missing    share of the record's time that lies in gaps
    """

    usual_s: float
    gaps: int
    longest_s: float
    missing: float


@dataclass(frozen=True)
class Day:
    """One day of a record.

    start_s        midnight it begins at, by the logger's clock, s
    mean_pct       mean humidity, %; lowest_pct and highest_pct likewise
    temperature_c  mean temperature, °C; not a number where there is none
    """

    start_s: float
    mean_pct: float
    lowest_pct: float
    highest_pct: float
    temperature_c: float


def longest_step(usual_s: float) -> float:
    """The longest time between two readings that is not yet a gap.

    usual_s  usual time between readings, s, 0 or more
    returns  s; so long that one missing reading, or the hour lost in spring, is no gap

    Source: common practice, no source.
    Raises nothing.

    >>> longest_step(600)
    7200.0
    """
    return max(LONGEST_STEP_S, 2 * usual_s)


def spacing(seconds: Sequence[float]) -> Spacing:
    """How often there is a reading, and what is missing.

    seconds  times in order, s
    returns  spacing, s and a share from 0 to 1

    Source: common practice, no source: a gap is more than two hours and more than two usual intervals.
    Raises nothing; a single reading has no gaps.

    >>> spacing([0, 3600, 7200, 36000]).gaps
    1
    """
    steps = [after - before for before, after in pairwise(seconds)] or [0.0]
    usual = statistics.median_low(steps)
    gaps = [step for step in steps if step > longest_step(usual)]
    span = seconds[-1] - seconds[0]
    return Spacing(usual, len(gaps), max(steps), sum(gap - usual for gap in gaps) / span if gaps else 0.0)


def by_day(log: Log) -> list[Day]:
    """Each day's mean, lowest and highest humidity and mean temperature, for plots and for slow materials.

    log      a logger's readings, s, % and °C
    returns  days in order

    Source: arithmetic mean of the readings between midnight and midnight by the logger's clock.
    Raises nothing.

    >>> by_day(Log([0, 3600], [50, 60], [20, 20], 0, 0))
    [Day(start_s=0.0, mean_pct=55.0, lowest_pct=50, highest_pct=60, temperature_c=20.0)]
    """
    days = []
    for day, places in groupby(range(len(log.seconds)), lambda place: log.seconds[place] // DAY_S):
        at = list(places)
        readings = [log.humidity_pct[place] for place in at]
        warmth = [log.temperature_c[place] for place in at] if log.temperature_c else []
        warmth = [reading for reading in warmth if not math.isnan(reading)]
        mean_c = sum(warmth) / len(warmth) if warmth else math.nan
        days.append(Day(day * DAY_S, sum(readings) / len(readings), min(readings), max(readings), mean_c))
    return days


def moisture_range(days: Sequence[Day], temperature_c: float | None = None) -> tuple[float, float]:
    """Lowest and highest moisture content that timber would come to in the room's driest and dampest day.

    days           as by_day gives them
    temperature_c  air temperature for days without one, °C, -1.1 to 132.2
    returns        moisture contents, %; further apart than any part reaches that needs more than a day to respond

    Source: moisture.equilibrium for each day's means; the day as the span is common practice, no source.
    Raises Missing without a temperature, OutOfRange for a day outside what the equation covers.

    >>> [round(share, 1) for share in moisture_range([Day(0, 45, 40, 50, 20), Day(86400, 65, 60, 70, 20)])]
    [8.5, 12.0]
    """
    contents = [moisture.equilibrium(_temperature(day, temperature_c), day.mean_pct) for day in days]
    return min(contents), max(contents)


def _temperature(day: Day, temperature_c: float | None) -> float:
    if not math.isnan(day.temperature_c):
        return day.temperature_c
    if temperature_c is None:
        raise Missing(
            "The moisture content of timber is not known: a day has no temperature.",
            "Name the temperature column, or give temperature_c.",
            field="temperature_c",
        )
    return temperature_c
