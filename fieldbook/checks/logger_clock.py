"""The clock of a humidity logger: how it writes times, and what it does in autumn.

Clocks are put back for winter at most once in half a year: from there on an hour is added, so
that time never runs backwards; in spring that leaves one empty hour. Times that carry an
offset need none of this.

Source: ISO 8601; other ways of writing dates are common practice, no source.
"""

from __future__ import annotations

import re
from array import array
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from itertools import pairwise
from typing import Any

from ..errors import Missing, NotAChoice, UnsuitableText, shown

HOUR_S = 3600.0
# clocks go back once a year; twice within this many seconds is a muddled file
LEAST_BETWEEN_CHANGES_S = 180 * 86_400.0

DATE_ORDERS = ("day first", "month first")
TIME_OF_DAY = r"(?:[ T,]+(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?\s*([ap]m)?)?"
YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})" + TIME_OF_DAY, re.IGNORECASE)
YEAR_LAST = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})" + TIME_OF_DAY, re.IGNORECASE)


class Clock:
    """Turns a logger's times into seconds since 1970; the first one settles how they are written.

    date_order    "day first" or "month first", needed for dates like 03/04/2024
    knows_offset  whether times carry an offset from UTC, so that they never go back
    """

    def __init__(self, date_order: str | None):
        if date_order not in (None, *DATE_ORDERS):
            choices = f"Choose one of: {', '.join(DATE_ORDERS)}."
            raise NotAChoice(f"date_order is {shown(date_order)}.", choices, field="date_order", value=date_order)
        self._order = date_order
        self._parse: Callable[[str], datetime] | None = None
        self.knows_offset = False

    def __call__(self, text: str) -> float:
        try:
            parse = self._parse or self._settle(text)
            return (parse(text.strip()) - self._epoch).total_seconds()
        except (ValueError, TypeError):
            raise UnsuitableText(
                f"“{shown(text)}” is not a time written like the first one.",
                "Give date and time in one way, such as 2024-03-31 14:00, all with an offset or none.",
                field="time",
                value=text,
            ) from None

    def _settle(self, text: str) -> Callable[[str], datetime]:
        parse = self._iso
        try:
            moment = datetime.fromisoformat(text.strip())
        except ValueError:
            parse = self._written
            moment = parse(text.strip())
        self.knows_offset = moment.tzinfo is not None
        self._epoch = datetime(1970, 1, 1, tzinfo=UTC if self.knows_offset else None)
        self._parse = parse
        return parse

    def _iso(self, text: str) -> datetime:
        """ISO 8601, and its neighbours: a logger may write 9:00 where it wrote 10:00 before."""
        try:
            return datetime.fromisoformat(text)
        except ValueError:
            return self._written(text)

    def _written(self, text: str) -> datetime:
        """A date written otherwise: year first, or day or month first; dots mean day first."""
        found = YEAR_FIRST.fullmatch(text)
        if found:
            year, _, month, day, *time_of_day = found.groups()
        else:
            found = YEAR_LAST.fullmatch(text)
            if not found:
                raise ValueError(text)
            first, mark, second, year, *time_of_day = found.groups()
            day, month = (second, first) if self._month_first(mark, text) else (first, second)
            year = year if len(year) == 4 else f"20{year}"
        hour, minute, second, half = time_of_day
        return datetime(int(year), int(month), int(day), _hours(hour, half), int(minute or 0), int(second or 0))

    def _month_first(self, mark: str, text: str) -> bool:
        if self._order is None and mark != ".":
            raise Missing(
                f"“{shown(text)}” may begin with the day or the month.",
                f"Give date_order: {' or '.join(DATE_ORDERS)}.",
                field="date_order",
                value=text,
            )
        return self._order == DATE_ORDERS[1]


def _hours(hour: str | None, half: str | None) -> int:
    hours = int(hour or 0)
    if half is None:
        return hours
    if not 1 <= hours <= 12:
        raise ValueError(hour)
    return hours % 12 + (12 if half.casefold() == "pm" else 0)


def put_in_order(seconds: array[float], others: Sequence[array[Any]], knows_offset: bool) -> tuple[int | None, int]:
    """Turn a record that begins with the newest round, and take out what clock changes did; all in place.

    seconds       times, s; a change of the clock adds an hour to those after it
    others        columns that go with them, of any unit
    knows_offset  whether the times carry an offset, so that they never go back
    returns       the place where time runs backwards otherwise, or None; how often the clock was put back

    Source: common practice, no source; backwards is by more than an hour, or twice within 180 days.
    Raises nothing.

    >>> times = array("d", [0, 3000, 600])
    >>> put_in_order(times, (), False), list(times)
    ((None, 1), [0.0, 3000.0, 4200.0])
    """
    if seconds[0] > seconds[-1]:
        for column in (seconds, *others):
            column.reverse()
    if all(before <= after for before, after in pairwise(seconds)):
        return None, 0
    changes: list[float] = []
    for place in range(1, len(seconds)):
        now, before = seconds[place] + HOUR_S * len(changes), seconds[place - 1]
        if now < before:
            too_soon = bool(changes) and now - changes[-1] < LEAST_BETWEEN_CHANGES_S
            if knows_offset or too_soon or before - now > HOUR_S:
                return place, len(changes)
            changes.append(now)
            now += HOUR_S
        seconds[place] = now
    return None, len(changes)
