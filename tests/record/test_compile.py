"""A site compiled into one structure that every output renders."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.errors import UnknownItem
from fieldbook.model.choices import DAMAGE
from fieldbook.model.kinds import KINDS
from fieldbook.record.compile import compile_record
from fieldbook.record.environment import ON_LOADS
from tests.record.furnished import CLOSE_MARK, OVER_MARK
from tests.sites import survey


def test_record_counts_what_is_there(furnished):
    """Fittings and fixings are counted by state, and traces by what is left."""
    record = compile_record(furnished.book, furnished.site)
    assert record.fittings == {"planned": 1, "fitted": 1, "taken down": 0}
    assert record.fixings == {"planned": 1, "fitted": 2, "taken down": 0}
    left = {line.trace: (line.states["fitted"], line.states["planned"], line.marks) for line in record.traces}
    assert left["a mark that cleans off"] == (2, 0, ("D1.1", "D1.2"))
    assert left["a new hole in old fabric"] == (0, 1, ("D1.3",))
    assert left["none"] == (0, 0, ())


@pytest.mark.parametrize("said", [DAMAGE, "a damage that was not foretold"], ids=["today's word", "the former word"])
def test_what_was_found_counts_and_what_nobody_expected_stands_by_itself(furnished, said):
    """Of what is gone the record counts what was seen on the wall, not what had been expected."""
    gone = {"state": "taken down", "taken_down_on": "2026-05-30", "trace_found": said}
    furnished.book.write("fixing", gone, furnished.ids["D1.1"])
    traces = compile_record(furnished.book, furnished.site).traces
    left = {line.trace: (line.states["taken down"], line.marks) for line in traces}
    assert left[DAMAGE] == (1, ("D1.1",))
    assert left["a mark that cleans off"] == (0, ("D1.2",))


def test_record_tells_what_is_over_and_close(furnished):
    """Each verdict that is not within is told, the worst first, and stands on the sheet of its fitting as well."""
    record = compile_record(furnished.book, furnished.site)
    words = {(answer.about, answer.verdict.check): answer.verdict.word for answer in record.answers}
    assert words[OVER_MARK, "keep-off"] is Word.OVER
    assert words[CLOSE_MARK, "keep-off"] is Word.CLOSE
    rail = next(sheet for sheet in record.sheets if sheet.fitting.called == "D1")
    assert rail.answers[0].verdict.word is Word.OVER
    assert {answer.verdict for answer in rail.open_answers} <= {answer.verdict for answer in rail.answers}
    fine = {Word.WITHIN, Word.AGREED, Word.DOES_NOT_APPLY}
    told = sum(answer.alike for answer in record.answers if answer.verdict.word not in fine)
    assert told == sum(number for word, number in record.counts.items() if word not in fine)


def test_every_source_a_verdict_names_is_listed(furnished):
    """A reader finds the source of each verdict under its number, and no number that has none."""
    record = compile_record(furnished.book, furnished.site)
    answers = [*record.answers, *(answer for sheet in record.sheets for answer in sheet.answers)]
    assert all(record.source_number(words) for words in {answer.verdict.source for answer in answers} - {""})
    assert all(source.words for source in record.sources)
    assert [source.number for source in record.sources] == list(range(1, len(record.sources) + 1))


def test_money_is_left_out_unless_asked_for(furnished):
    """Costs are shown on request only."""
    assert compile_record(furnished.book, furnished.site).costs is None
    record = compile_record(furnished.book, furnished.site, costs=True)
    assert [cost.what for cost in record.costs] == ["Ash, planed"]
    assert [(sum_.currency, sum_.paid, sum_.expected) for sum_ in record.money] == [("EUR", 146.5, 0)]


def test_fixings_that_come_off_alike_are_told_once(furnished):
    """What two fixings have in common about their removal stands in one row under both marks."""
    furnished.book.write("fixing", {"removal_tool": "spanner 10 mm", "removal": "Half a turn at a time."},
                         item=furnished.ids["D1.2"])  # fmt: skip
    (sheet, _) = compile_record(furnished.book, furnished.site).sheets
    told = {row.marks: (row.tool, row.trace, row.consent) for row in sheet.takedowns}
    assert told["D1.1, D1.2"] == ("spanner 10 mm", "a mark that cleans off", "A1")


def test_trace_without_agreement_is_told(furnished):
    """A new hole nobody agreed to is named; an agreement that said no is shown as a no."""
    refused = {"site": furnished.site, "reference": "A2", "items": [furnished.ids["D1.3"]], "answer": "no"}
    furnished.book.write("agreement", refused | {"words": "No hole.", "said_by": "adviser", "on": "2026-05-01"})
    record = compile_record(furnished.book, furnished.site)
    assert "Refused: D1.3." in record.consent
    assert [row.consent for row in record.sheets[0].takedowns if row.marks == "D1.3"] == ["A2 (no)"]


@pytest.mark.parametrize(
    ("more", "standing", "shown"),
    [
        ({"conditions_met": "yes"}, "", "A1"),
        ({"conditions_met": "not yet"}, "not agreed: its conditions are not met", "A1 (not agreed)"),
        ({"until": "2026-04-30"}, "not agreed: it has ended", "A1 (not agreed)"),
        ({"conditions_met": None}, "not known: whether its conditions are met is not entered", "A1 (not known)"),
    ],
)
def test_yes_that_counts_no_more_is_shown_as_that(furnished, more, standing, shown):
    """In the list of agreements and beside what it is about, as the finding has it."""
    furnished.book.write("agreement", more, item=furnished.ids["A1"])
    record = compile_record(furnished.book, furnished.site)
    assert record.standing[furnished.ids["A1"]] == standing
    assert [row.consent for row in record.sheets[0].takedowns if row.marks == "D1.1"] == [shown]


def test_made_up_site_enters_nothing_that_is_no_longer_asked(furnished):
    """Tests stand on what people can enter now."""
    retired = [(kind, field.name) for kind in KINDS for field in KINDS[kind].fields if field.retired]
    assert [(kind, name) for kind, name in retired for one in furnished.book.items(kind) if one[name] is not None] == []


def test_each_photograph_stands_in_one_place_under_one_number(furnished):
    """Every photograph is shown once and numbered in the order it is shown in."""
    record = compile_record(furnished.book, furnished.site)
    shown = [one.id for kept in record.photographs.values() for one in kept]
    assert sorted(shown) == sorted(one["id"] for one in furnished.book.items("photograph"))
    assert sorted(record.numbers.values()) == list(range(1, len(shown) + 1))
    assert [one.purpose for one in record.photographs[furnished.ids["R1-N"]]] == ["datum"]


def test_photograph_of_something_withdrawn_stands_at_the_end(furnished):
    """A photograph whose subject was withdrawn is kept, among those that belong nowhere else."""
    furnished.book.withdraw(furnished.ids["D1"])
    record = compile_record(furnished.book, furnished.site)
    assert len(record.photographs[""]) == 2


def test_readings_are_summed_up(furnished):
    """Readings of one quantity become one line with their number, their ends and the latest."""
    record = compile_record(furnished.book, furnished.site)
    (line,) = record.rooms[0].readings
    assert (line.quantity, line.number, line.lowest, line.highest) == ("air temperature", 2, 4.5, 14)
    assert line.latest.value == 14
    assert line.instruments == ("logger 2",)


def test_record_of_an_empty_site_is_made_all_the_same(surveyed):
    """A site with nothing fitted still has a record that says so."""
    record = compile_record(surveyed.book, surveyed.site)
    assert record.sheets == ()
    assert {answer.verdict.word for answer in record.answers} <= {Word.WITHIN}
    assert record.removal.steps == ()


def test_record_holds_nothing_of_another_site(furnished):
    """Two sites in one book do not meet in a record."""
    other = survey(furnished.book)
    record = compile_record(furnished.book, furnished.site)
    assert other.room not in record.titles
    assert [room.room.called for room in record.rooms] == ["R1", "R2"]


def test_date_given_is_the_date_of_the_edition(furnished):
    """The date of an edition can be set from outside."""
    record = compile_record(furnished.book, furnished.site, now=datetime(2026, 6, 1, 12, tzinfo=UTC))
    assert record.edition.made_at == "2026-06-01T12:00:00+00:00"


def test_record_of_what_is_no_site_is_refused(furnished):
    """A record is of a site, not of a room."""
    with pytest.raises(UnknownItem):
        compile_record(furnished.book, furnished.ids["R1"])


def test_what_an_engineer_decides_on_has_a_statement_of_its_loads(furnished):
    """24 kg at the height of heads goes to an engineer; what is down does not, and no finding on lifting is a load."""
    record = compile_record(furnished.book, furnished.site)
    rail = next(sheet for sheet in record.for_an_engineer if sheet.fitting.called == "D1")
    asked = {answer.question for answer in rail.answers}
    assert "specialist" in asked & ON_LOADS
    assert "lifting" not in ON_LOADS
    furnished.book.write("fitting", {"state": "taken down"}, item=furnished.ids["D1"])
    gone = compile_record(furnished.book, furnished.site)
    assert "D1" not in {sheet.fitting.called for sheet in gone.for_an_engineer}
