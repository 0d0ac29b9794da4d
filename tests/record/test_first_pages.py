"""The pages for a volunteer: what is open, what may be carried, what comes off first."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.limits import rounded_up
from fieldbook.checks.verdict import STOP, UNKNOWN
from fieldbook.findings.reach import reach_of
from fieldbook.record.compile import compile_record
from fieldbook.record.first_pages import A_GLANCE


def test_everything_open_is_told_once_for_each_thing(furnished):
    """Each thing with a finding that stops or is not known has one line, which says how many more there are."""
    record = compile_record(furnished.book, furnished.site)
    open_now = sum(number for word, number in record.counts.items() if word in STOP | UNKNOWN)
    assert sum(1 + matter.more for matter in record.open_matters) == open_now
    subjects = [matter.subject.id for matter in record.open_matters]
    assert len(subjects) == len(set(subjects))
    assert {"D1", "D2"} <= {matter.subject.called for matter in record.open_matters}
    assert all(matter.decides for matter in record.open_matters if "has to decide" not in matter.words)
    for matter in record.open_matters:
        told = "; ".join(matter.decides).split("; ")
        assert len(set(told)) == len(told)


@pytest.mark.parametrize("named", [True, False])
def test_what_comes_off_first_is_what_was_named_or_what_waits_for_nothing(furnished, named):
    """Nobody else's word is put in the keeper's mouth: it says whether somebody named it."""
    furnished.book.write("fitting", {"hangs_on": None}, item=furnished.ids["D2"])
    if named:
        furnished.book.write("fitting", {"goes_first": 1}, item=furnished.ids["D1"])
    first = compile_record(furnished.book, furnished.site).first_off
    assert first.said is named
    assert [step.fitting.called for step in first.steps] == ["D1"]
    assert (first.people, first.minutes, first.tools) == (2, 30, ("spanner 10 mm",))


def test_what_may_lie_on_a_thing_is_its_loaded_mass_less_its_own(furnished):
    """24 kg loaded less 9 kg empty is 15 kg on it; what it is made to carry besides counts too."""
    (rail,) = compile_record(furnished.book, furnished.site).may_carry
    assert (rail.fitting.called, rail.load_kg) == ("D1", 15)
    furnished.book.write("fitting", {"carries_kg": 4}, item=furnished.ids["D1"])
    (rail,) = compile_record(furnished.book, furnished.site).may_carry
    assert rail.load_kg == 19


def test_steps_are_in_order_with_what_is_in_each_hand(furnished):
    """What hangs on it first, its own words, then its fixings; 9 kg by two people is 2.25 kg a hand, told as 2.3."""
    record = compile_record(furnished.book, furnished.site)
    off = next(sheet.off for sheet in record.sheets if sheet.fitting.called == "D1")
    assert [one.called for one in off.before] == ["D2"]
    assert off.stage == 2
    assert off.hand_kg == 2.3
    assert off.steps == ("Undo the clamps from the right.", "D1.1 (spanner 10 mm): Half a turn at a time.")


def test_long_sentence_is_told_by_its_beginning(furnished):
    """On two pages there is room for what is wrong, not for all that a method leaves out."""
    for matter in compile_record(furnished.book, furnished.site).open_matters:
        first, *others = matter.words.split(". ")
        assert first
        assert not others or len(matter.words) < A_GLANCE + 1


def test_front_of_a_fitting_is_that_of_its_finding(furnished):
    """Packers and what is not entered behind it count on both: it stands nowhere less far out."""
    record = compile_record(furnished.book, furnished.site)
    (sheet,) = [one for one in record.sheets if one.fitting.called == "D1"]
    reach = reach_of(gather(furnished.book, furnished.site), sheet.fitting)
    assert sheet.projection_mm == rounded_up(reach.high)
