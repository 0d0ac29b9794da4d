"""The year's care in the record: what was done, what is overdue, and the months ahead."""

from __future__ import annotations

from datetime import date

import pytest

from fieldbook.book.gathering import gather
from fieldbook.record.care import Care, care_of
from tests.sites import Surveyed


def care(surveyed: Surveyed, today: date) -> Care:
    """The care of the surveyed site."""
    return care_of(gather(surveyed.book, surveyed.site), today)


def task(surveyed: Surveyed, what: str, first_on: str | None, every_months: int | None) -> str:
    """A task of the site."""
    values = {"site": surveyed.site, "what": what, "first_on": first_on, "every_months": every_months}
    return surveyed.book.write("task", values)


def done(surveyed: Surveyed, task: str, on: str, **more: str) -> None:
    """A task that was done."""
    values = {"site": surveyed.site, "what": "care", "sort": "care", "task": task, "on": on, "outcome": "done"}
    surveyed.book.write("work", values | more)


def test_calendar_shows_twelve_months_from_the_edition_on(surveyed: Surveyed) -> None:
    """What was done last, what is overdue and why, and by day and month what is ahead; what was done once is gone."""
    linings = task(surveyed, "linings", "2025-11-30", 3)
    late, once = task(surveyed, "late", "2026-01-05", None), task(surveyed, "once", "2026-01-05", None)
    task(surveyed, "unset", None, 6)
    done(surveyed, linings, "2025-12-02")
    done(surveyed, late, "2026-01-07", outcome="not done", reason="no ladder")
    done(surveyed, once, "2026-01-07")
    found = care(surveyed, date(2026, 2, 10))
    assert [month.isoformat() for month in found.months][::11] == ["2026-02-01", "2027-01-01"]
    rows = {row.task.what: row for row in found.rows}
    assert list(rows) == ["late", "linings", "unset"]
    assert (rows["linings"].done, rows["linings"].since) == (date(2025, 12, 2), None)
    due = {number: days for number, days in enumerate(rows["linings"].months) if days}
    assert due == {0: (28,), 3: (30,), 6: (30,), 9: (30,)}
    assert (rows["late"].since, rows["late"].why_not) == (date(2026, 1, 5), "no ladder")
    assert (rows["unset"].done, any(rows["unset"].months)) == (None, False)
    assert [(one.on, one.what) for one in found.coming] == [(date(2026, 1, 5), "late"), (date(2026, 2, 28), "linings")]


@pytest.mark.parametrize(("today", "due"), [("2028-02-28", 29), ("2027-02-10", 28)])
def test_thirty_first_falls_on_the_last_of_february(surveyed: Surveyed, today: str, due: int) -> None:
    """In a leap year on the 29th, else on the 28th."""
    look = task(surveyed, "look", "2026-08-31", 6)
    day = date.fromisoformat(today)
    done(surveyed, look, f"{day.year - 1}-08-31")
    assert care(surveyed, day).rows[0].months[0] == (due,)


def test_what_is_due_alike_of_several_things_is_told_once(surveyed: Surveyed) -> None:
    """Nuts looked at on one day by one role are one line with all their marks; another day stands by itself."""
    rail = surveyed.fitting(state="fitted")
    for number, on in ((1, "2026-06-01"), (2, "2026-06-01"), (3, "2026-06-01"), (10, "2026-07-01")):
        surveyed.fixing(rail, mark=f"D1.{number}", state="fitted", fitted_by="joiner", looked_at_on=on)
    told = [(one.on, one.what) for one in care(surveyed, date(2026, 2, 10)).others if one.sort == "tightness"]
    assert told == [
        (date(2026, 6, 1), "Look whether each of D1.1 to D1.3 is tight"),
        (date(2026, 7, 1), "Look whether D1.10 is tight"),
    ]
