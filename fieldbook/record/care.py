"""When care falls due: the tasks of a site over the months that follow an edition."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from ..book.site import Item, Site, by_mark
from ..book.wording import marks
from ..checks.rounds import days_due, months_after
from ..findings.due import Due, done_on, due_on

MONTHS_SHOWN = 12


MOST_COMING = 8


@dataclass(frozen=True)
class Row:
    """A task over the months shown.

    done     when it was last done; None where that is not entered
    since    the day since which it is overdue; `why_not` why it was not done
    months   the days it falls due in each
    """

    task: Item
    done: date | None
    since: date | None
    why_not: str
    months: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Care:
    """The care of a site in the months from a day on.

    months  the first day of each month shown
    rows    the tasks that are still to be done, those overdue first
    coming  what is overdue or comes next, day by day; what is due alike of several things is one in both lists
    others  what else is due before the end of these months: visits, agreements, patches, nuts, what was found
    """

    months: tuple[date, ...]
    rows: tuple[Row, ...]
    coming: tuple[Due, ...]
    others: tuple[Due, ...]


def care_of(site: Site, today: date) -> Care:
    """What falls due in the twelve months from a day on, what is overdue, and when each was last done."""
    months = tuple(months_after(today.replace(day=1), number) for number in range(MONTHS_SHOWN))
    until = months_after(months[-1], 1)
    found = due_on(site, today)
    rows = []
    for one in (one for one in found if one.sort == "care"):
        first = date.fromisoformat(one.item.first_on) if one.item.first_on else one.on
        days = list(days_due(first, one.every, until)) if first and one.on else []
        ahead = [day for day in days if day >= max(today, one.on or today)]
        by_month = tuple(
            tuple(day.day for day in ahead if (day.year, day.month) == (of.year, of.month)) for of in months
        )
        done = max(done_on(site, one.item, today), default=None)
        rows.append(Row(one.item, done, one.on if one.on and one.on < today else None, one.why_not, by_month))
    rows.sort(key=lambda row: (row.since is None, row.since or until))
    others = tuple(_together(one for one in found if one.sort != "care" and one.on and one.on < until))
    coming = sorted(_together(one for one in found if one.on), key=lambda one: one.on or until)
    return Care(months, tuple(rows), tuple(coming[:MOST_COMING]), others)


def _together(found: Iterable[Due]) -> list[Due]:
    """What is due on one day by one role in the same words, but for the mark of its thing, once for all of them."""
    alike: dict[tuple[Any, ...], list[Due]] = defaultdict(list)
    for one in found:
        words = _named(one).sub("", one.what) if one.about else one.what
        alone = one.uid if words == one.what else ""
        alike[one.on, one.sort, one.by, one.every, words, alone].append(one)
    return [_for_all(group) for group in alike.values()]


def _named(one: Due) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w.]){re.escape(one.about.called if one.about else '')}(?![\w.]*\w)")


def _for_all(group: list[Due]) -> Due:
    first = group[0]
    if len(group) == 1:
        return first
    named = sorted((one.about for one in group if one.about), key=by_mark)
    words = f"each of {marks([item.called for item in named])}"
    return first._replace(what=_named(first).sub(lambda _: words, first.what, 1), about=None)
