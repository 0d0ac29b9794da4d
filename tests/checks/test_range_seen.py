"""What range a room has shown, and what it rests on: thirteen months, both halves of the year, or nothing."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.measurement import Reading
from fieldbook.checks.range_seen import (
    A_YEAR,
    BOTH_HALVES,
    LoggedRecord,
    Seen,
    halves_lacking,
    is_a_year,
    range_seen,
    within_limits_verdict,
)
from fieldbook.checks.verdict import Word
from tests.checks.refusals import refused

RH = "relative humidity"
HOUR_S, DAY_S = 3600.0, 86_400.0
ORDER = list(Word)


def at(year: int, month: int, day: int = 15) -> float:
    return datetime(year, month, day, 12, tzinfo=UTC).timestamp()


def logged(start: float, days: int, low: float, high: float, every_s: float = HOUR_S) -> LoggedRecord:
    """A record that swings between two values."""
    count = int(days * DAY_S / every_s) + 1
    return LoggedRecord(
        [start + every_s * place for place in range(count)], [low if place % 2 else high for place in range(count)], 2
    )


@pytest.mark.parametrize("month", range(1, 13))
def test_each_month_belongs_to_one_half(month):
    """October to March, April to September."""
    lacking = halves_lacking([at(2026, month)])
    assert lacking == (("April to September",) if month in (10, 11, 12, 1, 2, 3) else ("October to March",))


def test_readings_in_both_halves_make_a_range_seen():
    """Lowest and highest with their uncertainties; none entered counts as ±5 %."""
    seen = range_seen(RH, [Reading(at(2025, 7), 66, 3), Reading(at(2026, 1), 48)])
    assert seen == Seen(43, 69, BOTH_HALVES)


def test_less_than_both_halves_is_not_known():
    """What is lacking is named; ten readings of one summer carry no year."""
    with refused("missing", RH) as caught:
        range_seen(RH, [Reading(at(2025, 7, day), 60, 2) for day in range(1, 11)])
    assert "October to March" in caught.value.remedy
    with refused("missing", RH) as caught:
        range_seen(RH, [])
    assert "October to March and from April to September" in caught.value.remedy


def test_three_days_of_a_logger_never_replace_a_year():
    """However many readings it took."""
    with refused("missing", RH):
        range_seen(RH, [], [logged(at(2026, 1), 3, 45, 55, every_s=60)])
    assert not is_a_year(logged(at(2026, 1), 3, 45, 55, every_s=60))


def test_logger_and_readings_together_make_the_widest():
    """Three days of January and one reading in July are both halves; the widest of both counts."""
    seen = range_seen(RH, [Reading(at(2025, 7), 71, 3)], [logged(at(2026, 1), 3, 45, 55)])
    assert seen == Seen(43, 74, BOTH_HALVES)
    year = logged(at(2025, 1), 395, 40, 60)
    assert range_seen(RH, [Reading(at(2025, 7), 30, 3)], [year]) == Seen(27, 62, A_YEAR)
    assert range_seen(RH, [], [year]) == Seen(38, 62, A_YEAR)


# EN 15757:2010: thirteen months, a reading an hour.
@pytest.mark.parametrize(
    ("days", "every_s", "enough"), [(394, HOUR_S, True), (393, HOUR_S, False), (394, 1800, True), (394, 7200, False)]
)
def test_thirteen_months_at_an_hour_carry_the_band(days, every_s, enough):
    """A day less or a reading in two hours does not."""
    assert is_a_year(logged(at(2025, 1), days, 45, 55, every_s)) is enough


def test_record_with_a_large_gap_is_no_year():
    """More than a tenth may not be missing."""
    whole = logged(at(2025, 1), 400, 45, 55)
    kept = [place for place in range(len(whole.seconds)) if not 2000 < place < 3000]
    gap = LoggedRecord([whole.seconds[place] for place in kept], [whole.values[place] for place in kept], 2)
    assert is_a_year(whole)
    assert not is_a_year(gap)
    assert range_seen(RH, [], [gap]).rests_on == BOTH_HALVES


@pytest.mark.parametrize(
    ("low", "high", "word", "margin"),
    [
        (30, 75, Word.WITHIN, 11),
        (40, 75, Word.CLOSE, 1),
        (30, 65, Word.CLOSE, 1),
        (42, 75, Word.OVER, -1),
        (30, 60, Word.OVER, -4),
        (None, 75, Word.CLOSE, 11),
        (45, None, Word.OVER, -4),
    ],
)
def test_range_is_held_against_the_limits_of_the_room(low, high, word, margin):
    """The end that is worse off counts."""
    found = within_limits_verdict("humidity", "The humidity", Seen(41, 64, BOTH_HALVES), low, high, "%", "the keeper")
    assert (found.word, found.margin) == (word, margin)
    assert (BOTH_HALVES in dict(found.working).values()) and found.limit in (low, high)


def test_room_without_limits_is_asked_for_them():
    """Nobody's limit is no limit kept."""
    with refused("missing", "limit"):
        within_limits_verdict("humidity", "The humidity", Seen(41, 64, A_YEAR), None, None, "%", "")


@given(st.floats(0, 50), st.floats(50, 100), st.floats(0, 50), st.floats(50, 100), st.floats(0, 20))
def test_wider_range_never_gives_a_better_word(low, high, limit_low, limit_high, more):
    """On either side."""

    def word(seen):
        return ORDER.index(within_limits_verdict("humidity", "", seen, limit_low, limit_high, "%", "").word)

    now = word(Seen(low, high, A_YEAR))
    assert word(Seen(low - more, high, A_YEAR)) <= now
    assert word(Seen(low, high + more, A_YEAR)) <= now


@pytest.mark.parametrize(
    ("first", "last", "lacking"),
    [
        (at(2026, 3, 31), at(2026, 4, 1), ("October to March",)),
        (at(2026, 9, 20), at(2026, 11, 18), ("October to March",)),
        (at(2026, 9, 20), at(2026, 11, 20), ()),
        (at(2025, 12, 15), at(2026, 6, 1), ()),
    ],
)
def test_two_days_beside_the_turn_of_the_half_years_are_not_both_halves(first, last, lacking):
    """From the last of March to the first of April is a day; 20 September to 18 November 59 days, to the 20th 61."""
    assert halves_lacking([first, last]) == lacking
