"""Back from the day something must stand, against working it forwards day by day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.plan_back import Stage, plan_back
from fieldbook.errors import OutOfRange

DAYS = st.dates(date(2024, 1, 1), date(2040, 12, 31))
STAGES = st.lists(st.builds(Stage, st.just("cut"), st.integers(0, 60), st.integers(0, 9)), min_size=1, max_size=5)


def done_on(begins: date, stages: list[Stage], hours_a_day: float) -> date:
    """The day from which all is ready, worked forwards: each stage in whole days of its own, waiting after it."""
    day = begins
    for stage in stages:
        left = stage.work_hours
        while left > 0:
            if day.weekday() < 5:
                left -= hours_a_day
            day += timedelta(days=1)
        day += timedelta(days=stage.wait_days)
    return day


@given(DAYS, STAGES, st.sampled_from([1, 4, 7, 8]))
def test_begun_on_the_day_it_stands_in_time_and_a_working_day_later_it_does_not(stands_on, stages, hours):
    """No earlier than it must be: forwards from there it is ready by the day, and the next working day is late."""
    planned = plan_back(stands_on, stages, hours)
    begins = planned[0].begins
    assert done_on(begins, stages, hours) <= stands_on
    if any(stage.work_hours for stage in stages):
        later = begins + timedelta(days=1)
        while later.weekday() >= 5:
            later += timedelta(days=1)
        assert stages[0].work_hours == 0 or done_on(later, stages, hours) > stands_on


@given(DAYS, STAGES)
def test_stages_follow_each_other(stands_on, stages):
    """Each is ready where the next begins, nobody works at weekends, and the last is ready on the day."""
    planned = plan_back(stands_on, stages, 8)
    assert planned[-1].ready == stands_on
    for one, following in zip(planned, planned[1:], strict=False):
        assert one.begins <= one.worked_until <= one.ready == following.begins
    assert all(one.begins.weekday() < 5 for one, stage in zip(planned, stages, strict=True) if stage.work_hours)


def test_what_is_no_day_of_work_is_refused():
    """No hours a day, and more than a day has, are told."""
    for hours in (0, 25):
        with pytest.raises(OutOfRange):
            plan_back(date(2027, 9, 6), [Stage("cut", 1, 0)], hours)
