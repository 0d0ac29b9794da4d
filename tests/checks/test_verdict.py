"""Verdicts round towards safety and say the word that goes with the margin."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.verdict import Word, at_most, share_used

AMOUNTS = st.floats(0, 1e6)


@pytest.mark.parametrize(
    ("figure", "limit", "word", "margin"),
    [
        (0, 0, Word.WITHIN, 0),
        (79.9, 100, Word.WITHIN, 20.1),
        (80, 100, Word.WITHIN, 20),
        (80.01, 100, Word.CLOSE, 19.9),
        (100, 100, Word.CLOSE, 0),
        (100, 100.09, Word.CLOSE, 0),
        (100.01, 100.09, Word.CLOSE, 0),  # 0.08 left: shown as less, but not called over
        (150, 100, Word.OVER, -50),
    ],
)
def test_figure_is_held_against_its_limit(figure, limit, word, margin):
    """The word goes by the figures themselves, close within a fifth of the limit, over beyond it."""
    verdict = at_most("check", "The load", figure, limit, "N", "source")
    assert (verdict.word, verdict.margin) == (word, pytest.approx(margin))


def test_close_may_be_told_in_the_unit():
    """Where what is close does not depend on the limit, it is told."""
    assert at_most("check", "It", 95, 100, "mm", "source", close=5).word == Word.WITHIN
    assert at_most("check", "It", 95.1, 100, "mm", "source", close=5).word == Word.CLOSE


@pytest.mark.parametrize(
    ("figure", "sentence"),
    [
        (20, "The load is 20 N, 80 N below the limit of 100 N. Mind this."),
        (100, "The load is 100 N, 0 N below the limit of 100 N. Mind this."),
        (120.04, "The load is 120.1 N, 20.1 N above the limit of 100 N. Mind this."),
    ],
)
def test_sentence_says_how_much_is_left_or_missing(figure, sentence):
    """The sentence holds figure, margin and limit, and what the method leaves out."""
    assert at_most("check", "The load", figure, 100, "N", "source", after="Mind this.").sentence == sentence


def test_what_nothing_holds_is_said_without_a_limit_of_none():
    """Against no resistance there is nothing to be above; a load of nothing is held by nothing."""
    said = at_most("check", "The pull", 12, 0, "N", "source", after="Mind this.").sentence
    assert said == "The pull is 12 N; nothing that may be relied on holds it. Mind this."
    assert "above the limit of 0 mm" in at_most("check", "It", 12, 0, "mm", "source").sentence
    assert "0 N below the limit of 0 N" in at_most("check", "It", 0, 0, "N", "source").sentence


@pytest.mark.parametrize("use", [100.0, 1e7, math.inf])
def test_an_endless_share_is_said_in_words(use):
    """Where next to nothing holds there is no figure, no less is it over, and it comes before what has one."""
    said = share_used("check", "What is used", use, "source", beyond="Nothing holds it.", after="Mind this.")
    assert (said.word, said.figure, said.sentence) == (Word.OVER, None, "Nothing holds it. Mind this.")
    told = share_used("check", "What is used", 99.9, "source", beyond="Nothing holds it.")
    assert told.figure == 9990
    assert said.left < told.left


def test_large_figures_are_not_shortened():
    """A figure of seven places is told in full, for a shortened one could be less."""
    assert "1234567.9 N" in at_most("check", "The load", 1_234_567.89, 2e6, "N", "source").sentence


@given(AMOUNTS, AMOUNTS, st.sampled_from([0.001, 0.1, 1]))
def test_rounding_never_turns_over_into_within(figure, limit, step):
    """What is over is over after rounding too, and what is shown adds up."""
    verdict = at_most("check", "The load", figure, limit, "N", "source", step=step)
    # 1e-9 of a step is arithmetic, not a quantity
    assert verdict.figure >= figure - step * 1e-6
    assert verdict.limit <= limit + step * 1e-6
    assert verdict.margin <= limit - figure + step * 1e-6
    if figure > limit + step * 1e-6:
        assert verdict.word == Word.OVER


def test_verdict_becomes_plain_values():
    """A verdict goes into JSON whole."""
    verdict = at_most("check", "The load", 1, 2, "N", "source", working=(("width", "3 mm"),))
    plain = json.loads(json.dumps(verdict.as_dict()))
    assert plain["word"] == "within"
    assert plain["working"] == [["width", "3 mm"]]
    assert (plain["check"], plain["unit"], plain["source"], plain["missing"]) == ("check", "N", "source", [])


def test_limit_is_quoted_as_it_was_entered():
    """A limit of 12.25 kg is not cut to 12.2; one that was reckoned, 64 kg / 3, is told to a tenth."""
    assert "the limit of 12.25 kg" in at_most("check", "It", 1, 12.25, "kg", "source").sentence
    assert at_most("check", "It", 1, 64 / 3, "kg", "source").limit == 21.3
