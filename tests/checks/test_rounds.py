"""Days that come round: months of any length, leap days, rounds that were missed, and what counts for which."""

from __future__ import annotations

from datetime import date, timedelta

from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.rounds import days_due, missed, months_after, next_round
from tests.cases.shared import cases

DAYS = st.dates(date(1990, 1, 1), date(2090, 12, 31))


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


@given(DAYS, st.integers(1, 60), DAYS)
def test_next_round_is_one_of_the_rounds_and_nearer_than_two(first, every, done):
    """It lies after what was done, at most a round and a half away, and is the first where nothing counts for it."""
    after = next_round(first, every, [done])
    assert after in set(days_due(first, every, after + timedelta(days=1)))
    assert after > done
    if after != first:
        assert after <= months_after(done, every) + timedelta(days=(months_after(done, every) - done).days // 2 + 4)


@given(DAYS, st.integers(1, 60), st.lists(DAYS, min_size=1, max_size=4))
def test_more_done_never_brings_a_round_back(first, every, done):
    """Only the last counts, in whatever order they were entered."""
    assert next_round(first, every, done) == next_round(first, every, [max(done)]) >= next_round(first, every, done[:1])


def test_rounds_are_those_of_the_phone():
    """Each case of the shared file: the day that comes next, and how many rounds were missed."""
    for case in cases("rounds"):
        day = [date.fromisoformat(one) for one in case["done"]]
        first = date.fromisoformat(case["first"]) if case["first"] else None
        due = next_round(first, case["every"], day)
        assert (due.isoformat() if due else None) == case["due"], case["what"]
        today = date.fromisoformat(case["today"])
        assert (missed(due, case["every"], today) if due else 0) == case["missed"], case["what"]
