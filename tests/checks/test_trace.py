"""What is left behind, counted, and held against the consents."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import trace
from fieldbook.checks.trace import Left
from fieldbook.checks.verdict import Word
from fieldbook.model import choices
from tests.checks.refusals import refused

FIXINGS = st.lists(
    st.builds(
        Left,
        st.uuids().map(str),
        st.sampled_from(trace.TRACES),
        st.sampled_from(choices.FABRICS),
        st.sampled_from(["", "A1", "A2"]),
    ),
    max_size=40,
)


def test_traces_and_fabrics_are_those_a_fixing_can_have():
    """The words are the same here and where a fixing is described."""
    assert trace.TRACES == choices.TRACES
    assert trace.OWN_WORK in choices.FABRICS


@given(FIXINGS)
def test_counts_leave_no_fixing_out(fixings):
    """Every fixing is counted once, in the row of its trace and fabric."""
    table = trace.counts(fixings)
    assert {(row.trace, row.fabric): row.count for row in table} == Counter(
        (fixing.trace, fixing.fabric) for fixing in fixings
    )
    assert [trace.TRACES.index(row.trace) for row in table] == sorted(
        (trace.TRACES.index(row.trace) for row in table), reverse=True
    )
    assert [(row.trace, row.fabric) for row in table] == sorted(
        ((row.trace, row.fabric) for row in table), key=lambda key: (-trace.TRACES.index(key[0]), key[1])
    )


@given(FIXINGS)
def test_uncovered_are_exactly_those_without_a_consent(fixings):
    """A trace in the building without a consent is named, and no other."""
    uncovered = [name for row in trace.counts(fixings) for name in row.uncovered]
    expected = {
        fixing.name
        for fixing in fixings
        if fixing.trace != "none" and fixing.fabric != "another fitting" and not fixing.consent
    }
    assert set(uncovered) == expected
    verdict = trace.verdict(fixings)
    assert (verdict.word == Word.OVER) == bool(expected)
    assert all(name in verdict.sentence for name in expected)
    assert verdict.figure == len(expected) == -verdict.margin
    assert verdict.limit == 0


def test_consents_of_a_row_are_named_once_in_order():
    """A row names each of its consents once."""
    fixings = [
        Left(name, "an old hole used again", "old fabric", consent)
        for name, consent in zip("abcd", ("A2", "A1", "A2", ""), strict=True)
    ]
    assert trace.counts(fixings) == [("an old hole used again", "old fabric", 4, ("A1", "A2"), ("d",))]


@pytest.mark.parametrize(
    ("fixings", "word", "sentence"),
    [
        ([], Word.WITHIN, "Nothing is left behind in the building."),
        ([Left("F1", "none", "old fabric")], Word.WITHIN, "Nothing is left behind in the building."),
        (
            [Left("F1", "an old hole used again", "another fitting")],
            Word.WITHIN,
            "Nothing is left behind in the building.",
        ),
        (
            [Left("F1", "a mark that cleans off", "old fabric", "A1")],
            Word.WITHIN,
            "Every mark left is covered by a consent (1).",
        ),
        (
            [Left("F1", "a mark that cleans off", "old fabric"), Left("F2", "a new hole in old fabric", "old fabric")],
            Word.OVER,
            "2 of 2 marks are covered by no consent: F2, F1.",
        ),
    ],
)
def test_verdict_says_what_is_covered(fixings, word, sentence):
    """The verdict counts what is left in the building and names what nobody agreed to, the heaviest first."""
    verdict = trace.verdict(fixings)
    assert (verdict.word, verdict.sentence) == (word, sentence)


def test_trace_from_the_command_line_counts_by_kind_and_fabric():
    """The answer holds counts by trace and by fabric, and the fixings no consent covers."""
    rows = [
        {"name": "F1", "trace": "a mark that cleans off", "fabric": "old fabric", "consent": "A1"},
        {"name": "F2", "trace": "a new hole in later work", "fabric": "later work"},
        {"name": "F3", "trace": "none", "fabric": "old fabric"},
    ]
    answer = calculate("trace", {"fixings": rows})
    assert answer["by_trace"] == {
        "none": 1,
        "a mark that cleans off": 1,
        "an old hole used again": 0,
        "a new hole in later work": 1,
        "a new hole in old fabric": 0,
    }
    assert list(answer["by_fabric"].items()) == [("later work", 1), ("old fabric", 1)]
    assert answer["uncovered"] == ["F2"]
    assert answer["verdict"]["word"] == "over"
    assert answer["counts"][0]["trace"] == "a new hole in later work"


def test_trace_of_nothing_is_nothing():
    """No fixing leaves no trace."""
    answer = calculate("trace", {"fixings": []})
    assert (answer["counts"], answer["uncovered"], answer["verdict"]["word"]) == ([], [], "within")


def test_trace_with_bad_input_is_refused():
    """Words that are none, and fixings without a name, are refused by their place."""
    good = {"name": "F1", "trace": "none", "fabric": "old fabric"}
    with refused("not-a-choice", "fixings[0].trace"):
        calculate("trace", {"fixings": [{**good, "trace": "a scratch"}]})
    with refused("not-a-choice", "fixings[1].trace"):
        trace.counts([Left("F1", "none", "old fabric"), Left("F2", "a scratch", "old fabric")])
    for key in good:
        with refused("missing", f"fixings[0].{key}"):
            calculate("trace", {"fixings": [{**good, key: None}]})
    with refused("unsuitable-text", "fixings[0].consent"):
        calculate("trace", {"fixings": [{**good, "consent": "A\n1"}]})
    with refused("missing", "fixings"):
        calculate("trace", {})
    with refused("out-of-range", "fixings"):
        trace.counts([Left("F", "none", "old fabric")] * 100_001)
