"""What is due on a site: overdue first, room by room along the walls, done and not done, and clocks that run ahead."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from fieldbook.findings.due import DATED, all_due, dated_ahead, done_on, due_on, room_of, state, stopping
from tests.cases.shared import cases, site_of_cases

DUE = cases("due")
SITE = site_of_cases(DUE["items"])
TODAY = date.fromisoformat(DUE["today"])


def test_what_is_due_is_what_the_phone_says():
    """The whole list in its order: state, day, sort, words, who, where, and why it was not done."""
    told = [
        [state(one, TODAY), str(one.on or ""), one.sort, one.what, one.by, one.about.called if one.about else ""]
        + [room.called if (room := room_of(SITE, one.about)) else "", one.why_not]
        for one in due_on(SITE, TODAY)
    ]
    assert told == DUE["due"]
    assert [one.id for one in dated_ahead(SITE, TODAY)] == DUE["ahead"]
    assert stopping(SITE, TODAY) == DUE["open"]


def test_a_visit_counts_as_care_only_where_its_words_name_the_task():
    """In any case and across lines, but not by a part of a word, nor before its day."""
    tasks = {one.what: one for one in SITE.all("task")}
    assert [str(on) for on in done_on(SITE, tasks["Wash the sill"], TODAY)] == ["2026-11-20"]
    assert [str(on) for on in done_on(SITE, tasks["Dust"], TODAY)] == ["2026-11-20"]  # its own entry, not “Dustcloths”
    assert done_on(SITE, tasks["Oil the hinge"], TODAY) == []
    assert done_on(SITE, tasks["Wash the sill"], date(2026, 11, 19)) == []


def test_each_is_known_by_one_name_for_good():
    """No two entries of a diary share an id, and the day alone changes none of them."""
    uids = [one.uid for one in all_due(SITE, TODAY)]
    assert len(set(uids)) == len(uids)
    assert set(uids) <= {one.uid for one in all_due(SITE, date(2029, 2, 28))}


@given(st.dates(date(2026, 1, 1), date(2040, 12, 31)))
def test_nothing_overdue_stands_behind_what_is_not(today):
    """On whatever day it is asked, and what is dated after that day hides nothing."""
    found = due_on(SITE, today)
    late = [state(one, today) == "overdue" for one in found]
    assert late == sorted(late, reverse=True)
    ahead = {one.id for one in dated_ahead(SITE, today)}
    left = (_not_looked_at(one) if one["id"] in ahead else one for one in DUE["items"])
    without = site_of_cases([one for one in left if one])
    assert [(one.uid, one.on) for one in due_on(without, today)] == [(one.uid, one.on) for one in found]


def _not_looked_at(one):
    """What was done ahead is not there yet; a patch is, and nobody has looked at it, and so is what is up or down."""
    if one["kind"] not in DATED:
        return one
    return one | {"values": one["values"] | {"looked_on": None}} if one["kind"] == "patch" else None
