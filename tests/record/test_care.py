"""When care falls due: months of any length, days that have passed, tasks without a first day."""

from __future__ import annotations

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.book.site import Item
from fieldbook.record.care import care_from, days_due, months_after

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


def task(what: str, first_on: str | None, every_months: int | None) -> Item:
    """A task as the book holds it."""
    return Item("task", what, {"what": what, "first_on": first_on, "every_months": every_months})


@given(DAYS, st.integers(0, 600))
def test_months_are_counted_as_an_independent_library_counts_them(day, months):
    """The same day of a later month, or its last: python-dateutil's relativedelta says the same."""
    assert months_after(day, months) == day + relativedelta(months=months)


@given(DAYS, st.integers(1, 60), DAYS)
def test_days_come_back_at_their_distance(first, every, until):
    """Each day due is so many months after the first, in order, and all before the end are there."""
    days = list(days_due(first, every, until))
    assert days == [months_after(first, number * every) for number in range(len(days))]
    assert all(day < until for day in days)
    assert months_after(first, len(days) * every) >= until


def test_calendar_shows_twelve_months_from_the_edition_on():
    """What came round before is told by its last day, what is ahead by day and month; the rest falls due in none."""
    tasks = [task("linings", "2025-11-30", 3), task("once", "2026-01-05", None), task("unset", None, 6)]
    care = care_from(tasks, date(2026, 2, 10))
    assert [month.isoformat() for month in care.months][::11] == ["2026-02-01", "2027-01-01"]
    rows = {row.task.what: row for row in care.rows}
    assert list(rows) == ["linings", "once", "unset"]
    linings = rows["linings"]
    assert linings.before == date(2025, 11, 30)
    due = {number: days for number, days in enumerate(linings.months) if days}
    assert due == {0: (28,), 3: (30,), 6: (30,), 9: (30,)}
    assert (rows["once"].before, any(rows["once"].months)) == (date(2026, 1, 5), False)
    assert (rows["unset"].before, any(rows["unset"].months)) == (None, False)
    assert [(due.on, due.task.what) for due in care.coming] == [(date(2026, 2, 28), "linings")]


@pytest.mark.parametrize(("today", "due"), [("2028-02-28", 29), ("2027-02-10", 28)])
def test_thirty_first_falls_on_the_last_of_february(today, due):
    """In a leap year on the 29th, else on the 28th."""
    care = care_from([task("look", "2026-08-31", 6)], date.fromisoformat(today))
    assert care.rows[0].months[0] == (due,)
