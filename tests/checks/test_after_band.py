"""The time after a humidity band, judged by share and by the longest time on end, not by one reading."""

from __future__ import annotations

import math
from array import array
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.after_band import After, after_band_verdict, reference_end, time_after
from fieldbook.checks.seasonal_level import Band, band
from fieldbook.checks.verdict import Word
from tests.checks.refusals import refused

HOUR_S, DAY_S = 3600.0, 86_400.0
FLAT = Band(HOUR_S, 0, array("d", [50.0] * 8760), -6, 6, -10, 10)


def humidity(after: list[float]) -> tuple[list[float], list[float]]:
    """A year at 50 %, and what came after it."""
    count = 8760 + len(after)
    return [hour * HOUR_S for hour in range(count)], [50.0] * 8760 + after


def test_thirteen_months_make_the_band_and_the_rest_is_judged():
    """394 days from the first reading."""
    seconds = [day * DAY_S for day in range(500)]
    assert seconds[reference_end(seconds) - 1] == 394 * DAY_S
    with refused("out-of-range", "time"):
        reference_end(seconds[:394])
    with refused("out-of-range", "time"):
        reference_end([])


# Worked by hand: 1,000 hours, of them 140 outside in spells of 90 and 50.
def test_share_and_longest_spell_are_told():
    """140 of 1,000 hours are as much as the past had; one more is over."""
    after = [50.0] * 400 + [61.0] * 90 + [50.0] * 200 + [38.0] * 50 + [50.0] * 260
    found = time_after(*humidity(after), FLAT, 8760)
    assert found == After(1000 * HOUR_S, 1000 * HOUR_S, 140 * HOUR_S, 90 * HOUR_S, (8760 + 400) * HOUR_S)
    verdict = after_band_verdict(found, FLAT)
    assert (verdict.word, verdict.figure, verdict.limit, verdict.unit) == (Word.CLOSE, 14, 14, "%")
    assert "90 h" in verdict.sentence
    more = time_after(*humidity([*after[:-1], 61.0]), FLAT, 8760)
    assert after_band_verdict(more, FLAT).word is Word.OVER


def test_one_reading_outside_is_not_over():
    """An hour in eight hundred lies well within what the room is used to."""
    found = after_band_verdict(time_after(*humidity([50.0] * 799 + [70.0]), FLAT, 8760), FLAT)
    assert (found.word, found.figure) == (Word.WITHIN, 0.2)


def test_very_edge_of_the_band_is_inside():
    """And the uncertainty of another logger narrows it."""
    edge = humidity([60.0, 40.0])
    assert time_after(*edge, FLAT, 8760).outside_s == 0
    assert time_after(*edge, FLAT, 8760, uncertainty_pct=1).outside_s == 2 * HOUR_S
    with refused("out-of-range", "uncertainty_pct"):
        time_after(*edge, FLAT, 8760, uncertainty_pct=21)


def test_gap_is_not_judged_and_ends_a_spell():
    """A reading before a gap stands for one interval only."""
    seconds, values = humidity([61.0, 61.0, 61.0, 61.0])
    seconds[-2:] = [seconds[-3] + 50 * HOUR_S, seconds[-3] + 51 * HOUR_S]
    found = time_after(seconds, values, FLAT, 8760)
    assert found == After(4 * HOUR_S, 53 * HOUR_S, 4 * HOUR_S, 2 * HOUR_S, 8760 * HOUR_S)


def test_nothing_after_the_band_is_not_known():
    """The thirteen months themselves are not judged by what was made of them."""
    found = after_band_verdict(time_after(*humidity([]), FLAT, 8760), FLAT)
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("time",))


# 30 days are 720 hours; of 1,000 hours a tenth is 100.
@pytest.mark.parametrize(
    ("hours", "gap", "word"),
    [(719, 0, Word.NOT_KNOWN), (720, 0, Word.WITHIN), (900, 99, Word.WITHIN), (900, 101, Word.NOT_KNOWN)],
)
def test_little_of_the_time_after_says_nothing_good_of_it(hours: int, gap: int, word: Word) -> None:
    """A dry hour is no year; what is over in it is over all the same."""
    seconds, values = humidity([50.0] * hours)
    seconds[-10:] = [second + gap * HOUR_S for second in seconds[-10:]]
    assert after_band_verdict(time_after(seconds, values, FLAT, 8760), FLAT).word is word
    assert after_band_verdict(time_after(seconds, [70.0] * len(values), FLAT, 8760), FLAT).word is Word.OVER


def test_reading_a_day_says_nothing_good_of_the_swings_between():
    """Of two rooms read at noon alone the calm and the restless look alike; what is outside even so stays over."""
    band = replace(FLAT, usual_s=24 * HOUR_S)
    calm = after_band_verdict(After(720 * HOUR_S, 720 * HOUR_S, 0, 0, None), band)
    assert (calm.word, calm.missing) == (Word.NOT_KNOWN, ("time",))
    assert "30 days, a reading every 24 h" in calm.sentence
    assert after_band_verdict(After(720 * HOUR_S, 720 * HOUR_S, 200 * HOUR_S, 0, None), band).word is Word.OVER


def test_later_year_is_held_against_the_same_season():
    """A yearly wave of ±12 % that comes again is no swing; the same damp half a year off its season is."""
    seconds = [hour * HOUR_S for hour in range(24 * 760)]
    wave = [55 + 12 * math.sin(2 * math.pi * at / (365 * DAY_S)) for at in seconds]
    first = reference_end(seconds)
    found = band(seconds[:first], wave[:first])
    assert time_after(seconds, wave, found, first).outside_s == 0
    turned = wave[:first] + [110 - value for value in wave[first:]]
    after = time_after(seconds, turned, found, first)
    assert after.outside_s > 0.6 * after.judged_s
    assert after_band_verdict(after, found).word is Word.OVER


@given(st.lists(st.floats(0, 100), min_size=1, max_size=60), st.integers(0, 59), st.floats(0, 20))
def test_less_sure_logger_never_gives_a_better_word(after, place, uncertainty):
    """And one more reading far outside never less time outside."""
    seconds, values = humidity(after)
    now = time_after(seconds, values, FLAT, 8760)
    unsure = time_after(seconds, values, FLAT, 8760, uncertainty)
    assert unsure.outside_s >= now.outside_s
    assert unsure.longest_s >= now.longest_s
    values[8760 + place % len(after)] = 99.0
    worse = time_after(seconds, values, FLAT, 8760)
    assert worse.outside_s >= now.outside_s
    assert worse.longest_s >= now.longest_s
    assert list(Word).index(after_band_verdict(worse, FLAT).word) <= list(Word).index(
        after_band_verdict(now, FLAT).word
    )
