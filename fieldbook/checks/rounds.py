"""Days on which something comes round, and which round is the next after what was done.

A round is counted from the first day, so that care keeps to its season: what is done late or early counts for the
round it lies nearest to. Source: common practice, no source; calendar: proleptic Gregorian, as Python's datetime.
"""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import takewhile

SOURCE = "Rounds are counted from the first day: common practice, no source"


def months_after(day: date, months: int) -> date:
    """The same day of a later month, or the last day of a month that is too short for it.

    day      a day
    months   how many months later, 0 upwards
    returns  a day

    Source: SOURCE.

    >>> str(months_after(date(2027, 8, 31), 6))
    '2028-02-29'
    """
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))


def days_due(first: date, every_months: int | None, until: date) -> Iterator[date]:
    """The days something falls due before another day; what does not come round falls due once.

    first, until  days
    every_months  months between two rounds, 1 upwards; None: it does not come round
    returns       days, each counted from the first, so that the 31st comes back after a shorter month

    Source: SOURCE.

    >>> [str(day) for day in days_due(date(2027, 8, 31), 6, date(2028, 9, 1))]
    ['2027-08-31', '2028-02-29', '2028-08-31']
    """
    number = 0
    while (day := months_after(first, number * (every_months or 0))) < until:
        yield day
        if not every_months:
            return
        number += 1


def next_round(first: date | None, every_months: int | None, done: Iterable[date]) -> date | None:
    """The day of the round that comes after what was done.

    first         the first day; None: nobody has said, and what was done last is counted from
    every_months  months between two rounds, 1 upwards; None: it does not come round
    done          days on which it was done
    returns       a day; None where nothing is to be done any more, or no day can be told

    Source: SOURCE.

    >>> str(next_round(date(2026, 5, 1), 6, [date(2026, 10, 20)]))  # ten days early, for the round of November
    '2027-05-01'
    """
    last = max(done, default=None)
    if last is None or first is None:
        return first if last is None else months_after(last, every_months) if every_months else None
    if not every_months:
        return None
    reached = ((last.year - first.year) * 12 + last.month - first.month) // every_months
    for number in range(max(reached - 1, 0), max(reached, 0) + 3):
        day = months_after(first, number * every_months)
        half = (months_after(first, (number + 1) * every_months) - day) // 2
        if last < day - timedelta(days=half.days):
            return day
    raise AssertionError(f"no round lies after {last}")


def missed(due: date, every_months: int | None, today: date) -> int:
    """How many rounds have come by a day since one that was not done.

    due, today    days
    every_months  months between two rounds, 1 upwards; None: it does not come round
    returns       0 where it is not due yet

    Source: SOURCE.

    >>> missed(date(2026, 5, 1), 6, date(2027, 11, 1))
    4
    """
    return sum(1 for _ in takewhile(lambda day: day <= today, days_due(due, every_months, today + timedelta(days=1))))
