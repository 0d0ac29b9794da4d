"""Readings: their units, their uncertainty against a limit, and the light, ultraviolet and fading of a room."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.light import (
    exposure,
    fading_verdict,
    light_limit_verdict,
    ultraviolet_verdict,
    years_to_noticeable_fade,
)
from fieldbook.checks.measurement import QUANTITIES, Reading, checked, highest_verdict, span
from fieldbook.checks.verdict import Word
from fieldbook.model.kinds import KINDS
from fieldbook.model.possible import MEASURED
from tests.checks.refusals import refused

ORDER = list(Word)


def test_every_quantity_of_the_form_has_its_unit():
    """And every unit of the form is that of a quantity."""
    fields = KINDS["reading"].by_name
    assert set(QUANTITIES) == set(fields["quantity"].choices)
    assert {quantity.unit for quantity in QUANTITIES.values()} == set(fields["unit"].choices)


def test_reading_is_refused_where_it_is_entered_by_the_same_units_and_bounds():
    """What a form refuses is what no question would reckon with."""
    assert {name: one[:3] for name, one in QUANTITIES.items()} == MEASURED


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_reading_in_another_unit_is_refused(quantity):
    """50 % of light or 20 lx of warmth is a slip of the list."""
    its = QUANTITIES[quantity]
    assert checked(quantity, its.unit, Reading(0, 12, 1)).value == 12
    for other in {another.unit for another in QUANTITIES.values()} - {its.unit}:
        with refused("not-a-choice", "unit"):
            checked(quantity, other, Reading(0, 12, 1))
    for value in (its.low - 0.001 * max(1, abs(its.low)), its.high * 1.001, float("nan")):
        with refused("out-of-range", "value"):
            checked(quantity, its.unit, Reading(0, value))
    with refused("out-of-range", "uncertainty"):
        checked(quantity, its.unit, Reading(0, 12, -1))


def test_other_quantity_is_refused():
    """The list is that of the form."""
    with refused("not-a-choice", "quantity"):
        span("noise", Reading(0, 60))


@given(st.floats(0, 100), st.none() | st.floats(0, 50), st.floats(0, 50))
def test_less_sure_reading_never_means_a_narrower_span(value, uncertainty, more):
    """None entered counts as the least favourable ordinary uncertainty, and never leaves what can be."""
    low, high = span("relative humidity", Reading(0, value, uncertainty))
    assert 0 <= low <= value <= high <= 100
    if uncertainty is not None:
        wider = span("relative humidity", Reading(0, value, uncertainty + more))
        assert wider[0] <= low
        assert wider[1] >= high
    if uncertainty is None:
        assert (low, high) == (max(0, value - 5), min(100, value + 5))


# Arithmetic: 44 + 2 = 46 of 50; 48 + 2 = 50 of 50; 48 + 3 = 51; 40 with a tenth taken is 44.
@pytest.mark.parametrize(
    ("readings", "limit", "word", "figure"),
    [
        ([Reading(0, 36, 2)], 50, Word.WITHIN, 38),
        ([Reading(0, 44, 2)], 50, Word.CLOSE, 46),
        ([Reading(0, 48, 2)], 50, Word.CLOSE, 50),
        ([Reading(0, 48, 3)], 50, Word.OVER, 51),
        ([Reading(0, 40)], 50, Word.CLOSE, 44),
        ([Reading(0, 45, 0), Reading(9, 43, 8)], 50, Word.OVER, 51),
        ([Reading(0, 48, 3)], None, Word.NOT_KNOWN, 51),
        ([], 50, Word.NOT_KNOWN, None),
    ],
)
def test_light_is_held_against_the_limit_of_the_room(readings, limit, word, figure):
    """The uncertainty counts against the limit, and the reading that may mean most counts."""
    found = light_limit_verdict(readings, limit)
    assert (found.word, found.figure, found.unit) == (word, pytest.approx(figure) if figure else None, "lx")
    assert found.limit == (limit if found.word is not Word.NOT_KNOWN else None)


# 75 µW/lm older museum practice, 10 µW/lm newer: second hand.
@pytest.mark.parametrize(
    ("value", "uncertainty", "limit", "word"),
    [
        (55, 4, 75, Word.WITHIN),
        (70, 4, 75, Word.CLOSE),
        (70, 6, 75, Word.OVER),
        (70, None, 75, Word.OVER),
        (8, 1, 10, Word.CLOSE),
        (12, 0, None, Word.NOT_KNOWN),
    ],
)
def test_ultraviolet_is_held_against_its_limit(value, uncertainty, limit, word):
    """In µW/lm, whatever the illuminance."""
    found = ultraviolet_verdict([Reading(0, value, uncertainty)], limit)
    assert (found.word, found.unit) == (word, "µW/lm")
    assert found.figure is not None


@given(st.floats(0, 1000), st.floats(0, 100), st.floats(0.1, 1000), st.floats(0, 100))
def test_more_light_or_less_sure_never_gives_a_better_word(value, uncertainty, limit, more):
    """And a lower limit never does."""
    now = ORDER.index(highest_verdict("light", "illuminance", [Reading(0, value, uncertainty)], limit, "").word)
    for readings, against in (
        ([Reading(0, value + more, uncertainty)], limit),
        ([Reading(0, value, uncertainty + more)], limit),
        ([Reading(0, value, uncertainty), Reading(1, more, 0)], limit),
        ([Reading(0, value, uncertainty)], limit / (1 + more)),
    ):
        assert ORDER.index(highest_verdict("light", "illuminance", readings, against, "").word) <= now


# 3 Mlx·h of blue wool 3 behind a filter, 50 lx for 2400 h a year: 25 years (doses of CIE 157 from memory).
@pytest.mark.parametrize(
    ("stands", "word"),
    [(10, Word.WITHIN), (16, Word.WITHIN), (17, Word.CLOSE), (25, Word.CLOSE), (26, Word.OVER), (None, Word.NOT_KNOWN)],
)
def test_fading_is_held_against_the_years_the_display_stands(stands, word):
    """Without them it is not known, with the figure all the same."""
    years = years_to_noticeable_fade(exposure(50, 2400), 3, True)
    found = fading_verdict(years, stands)
    assert (found.word, found.figure, found.limit, found.unit) == (word, 25, stands, "years")
    assert found.missing == (("stands_years",) if stands is None else ())


def test_finish_no_light_falls_on_does_not_fade():
    """The method knows no end in the dark."""
    assert fading_verdict(None, 100).word is Word.WITHIN
    with refused("out-of-range", "stands_years"):
        fading_verdict(25, -1)


@given(st.floats(0.1, 1e4), st.floats(0, 500), st.floats(0, 500))
def test_longer_display_never_gives_a_better_word(years, stands, more):
    """And a finish that lasts longer never a worse one."""
    now = ORDER.index(fading_verdict(years, stands).word)
    assert ORDER.index(fading_verdict(years, stands + more).word) <= now
    assert ORDER.index(fading_verdict(years + more, stands).word) >= now
