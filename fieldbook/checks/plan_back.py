"""Back from the day something must stand: when each stage begins at the latest, and on which days it is worked at.

Work is done on working days, Monday to Friday, so many hours a day; what dries, dries on every day. A stage that is
partly done on a day takes the whole of it. Holidays, and what else is made meanwhile, are not known here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from .limits import within

SOURCE = "Calculated backwards stage by stage, working days Monday to Friday: common practice, no source"
SATURDAY = 5
HOURS_HIGH, DAYS_HIGH, A_DAY_HIGH = 10_000.0, 1_000.0, 24.0


class Stage(NamedTuple):
    """A stage: hours of work, and whole days to wait after it, before the next begins; for drying or delivery."""

    name: str
    work_hours: float
    wait_days: float


class Planned(NamedTuple):
    """When a stage begins at the latest, its last day of work, and the day on which it is ready for the next."""

    name: str
    begins: date
    worked_until: date
    ready: date


def plan_back(stands_on: date, stages: Sequence[Stage], hours_a_day: float) -> list[Planned]:
    """The latest days on which each stage can begin, so that everything stands in time.

    stands_on    the last stage is done, and has waited, by the end of the day before
    stages       in the order they are done; work 0 to 10 000 h, waiting 0 to 1 000 days
    hours_a_day  above 0 to 24 h
    returns      the stages in the same order; one without work has its days where the next begins

    Source: SOURCE.
    Raises OutOfRange outside the bounds.

    >>> [str(one.begins) for one in plan_back(date(2027, 9, 6), [Stage("cut", 10, 0), Stage("coat", 2, 2)], 8)]
    ['2027-09-01', '2027-09-03']
    """
    within("hours_a_day", hours_a_day, 0.1, A_DAY_HIGH, "h")
    planned: list[Planned] = []
    ready = stands_on
    for place, stage in reversed(list(enumerate(stages))):
        within(f"stages[{place}].work_hours", stage.work_hours, 0, HOURS_HIGH, "h")
        wait = math.ceil(within(f"stages[{place}].wait_days", stage.wait_days, 0, DAYS_HIGH, "days"))
        days = math.ceil(round(stage.work_hours / hours_a_day, 9))
        worked = ready - timedelta(days=wait)
        begins, last = _worked_before(worked, days)
        planned.append(Planned(stage.name, begins, last, ready))
        ready = begins
    return planned[::-1]


def _worked_before(day: date, days: int) -> tuple[date, date]:
    """The first and the last of so many working days before a day; the day itself where there is no work."""
    first = last = day
    for number in range(days):
        first -= timedelta(days=1)
        while first.weekday() >= SATURDAY:
            first -= timedelta(days=1)
        last = first if number == 0 else last
    return first, last
