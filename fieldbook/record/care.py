"""When care falls due: the tasks of a site over the months that follow an edition."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from ..book.site import Item

MONTHS_SHOWN = 12


@dataclass(frozen=True)
class Due:
    """A task and a day it falls due."""

    on: date
    task: Item


@dataclass(frozen=True)
class Row:
    """A task over the months shown: the days it falls due in each, and the last day it did before; None for none."""

    task: Item
    before: date | None
    months: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Care:
    """The care of a site in the months from a day on.

    months  the first day of each month shown
    rows    the tasks, those due first in front; one without a first day falls due in no month
    coming  what falls due, day by day, each task once
    """

    months: tuple[date, ...]
    rows: tuple[Row, ...]
    coming: tuple[Due, ...]


def care_from(tasks: Iterable[Item], today: date) -> Care:
    """What falls due in the twelve months from a day on, and what came round before it."""
    months = tuple(months_after(today.replace(day=1), number) for number in range(MONTHS_SHOWN))
    until = months_after(months[-1], 1)
    rows, coming = [], []
    for task in tasks:
        first = date.fromisoformat(task.first_on) if task.first_on else None
        days = list(days_due(first, task.every_months, until)) if first else []
        ahead = [day for day in days if day >= today]
        before = next((day for day in reversed(days) if day < today), None)
        by_month = (tuple(day.day for day in ahead if (day.year, day.month) == (one.year, one.month)) for one in months)
        rows.append((ahead[:1] or [until], Row(task, before, tuple(by_month))))
        coming += [Due(day, task) for day in ahead[:1]]
    rows.sort(key=lambda pair: pair[0])
    return Care(months, tuple(row for _, row in rows), tuple(sorted(coming, key=lambda due: due.on)))


def days_due(first: date, every_months: int | None, until: date) -> Iterator[date]:
    """The days a task falls due before another day; one that does not come round falls due once.

    Each is counted from the first, so that the 31st comes back after a shorter month.

    >>> [str(day) for day in days_due(date(2027, 8, 31), 6, date(2028, 9, 1))]
    ['2027-08-31', '2028-02-29', '2028-08-31']
    """
    number = 0
    while (day := months_after(first, number * (every_months or 0))) < until:
        yield day
        if not every_months:
            return
        number += 1


def months_after(day: date, months: int) -> date:
    """The same day of a later month, or the last day of a month that is too short for it."""
    years, month = divmod(day.month - 1 + months, 12)
    year, month = day.year + years, month + 1
    return date(year, month, min(day.day, monthrange(year, month)[1]))
