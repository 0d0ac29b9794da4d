"""What range of humidity or warmth a room has shown, and whether enough was recorded to say so.

Thirteen months at an hour carry the band of EN 15757; readings in both halves of the year carry a
range seen; less carries nothing, however often it was measured. It does not foresee a year that is
drier or damper than those recorded.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from typing import NamedTuple

from ..errors import Missing
from .humidity_record import DAY_S, spacing
from .measurement import Reading, span
from .seasonal_level import LEAST_S, MOST_MISSING
from .verdict import Verdict, Word

SOURCE = (
    "Thirteen months at an hour: EN 15757:2010 (second hand); one reading in each half of the year at least: "
    "common practice, no source"
)
HOUR_S = 3600.0
# the months of each half, as they are asked for
HALVES = {"October to March": {10, 11, 12, 1, 2, 3}, "April to September": {4, 5, 6, 7, 8, 9}}

# So far apart two readings stand for two halves of a year, not for one turn from winter to summer.
APART_DAYS, YEAR_DAYS = 60, 365

A_YEAR = "thirteen months at an hour"
BOTH_HALVES = "readings in both halves of the year"


class LoggedRecord(NamedTuple):
    """A logger's record: times in order, s since 1970; values in the quantity's unit; plus or minus in it or None."""

    seconds: Sequence[float]
    values: Sequence[float]
    uncertainty: float | None = None


class Seen(NamedTuple):
    """The range a room has shown, with every reading's uncertainty, in the quantity's unit, and what it rests on."""

    low: float
    high: float
    rests_on: str


def range_seen(quantity: str, readings: Iterable[Reading], records: Iterable[LoggedRecord] = ()) -> Seen:
    """The widest of all that was measured of a quantity, where it was measured through the year.

    quantity  one of measurement.QUANTITIES
    readings  spot readings, in its unit
    records   loggers' records, in its unit
    returns   lowest and highest in its unit, and what they rest on

    Source: SOURCE.
    Raises Missing where no half of the year, or one only, was measured in; NotAChoice for another quantity.

    >>> june, january = Reading(1750000000, 61, 3), Reading(1768500000, 44, 3)
    >>> range_seen("relative humidity", [june, january])
    Seen(low=41, high=64, rests_on='readings in both halves of the year')
    """
    readings, records = list(readings), [record for record in records if len(record.seconds)]
    lacking = halves_lacking([reading.at_s for reading in readings], *(record.seconds for record in records))
    if lacking:
        seen = (
            f"only from {next(half for half in HALVES if half not in lacking)}" if len(lacking) == 1 else "not at all"
        )
        raise Missing(
            f"The {quantity} is known {seen}.",
            f"Take readings of it from {' and from '.join(lacking)}, or leave a logger for a year.",
            field=quantity,
        )
    spans = [span(quantity, reading) for reading in readings]
    for record in records:
        spans += [
            span(quantity, Reading(0, value, record.uncertainty)) for value in (min(record.values), max(record.values))
        ]
    rests_on = A_YEAR if any(is_a_year(record) for record in records) else BOTH_HALVES
    return Seen(min(low for low, _ in spans), max(high for _, high in spans), rests_on)


def halves_lacking(*seconds: Sequence[float]) -> tuple[str, ...]:
    """The halves of the year without any time among these, or with none that lies well apart from those of the other.

    seconds  lists of times, s since 1970
    returns  names out of HALVES, in their order

    Source: October to March and April to September, two months apart: common practice, no source.
    Raises nothing.

    >>> halves_lacking([1750000000.0])
    ('October to March',)
    """
    days = {int(at // DAY_S) for times in seconds for at in times}
    dates = [datetime.fromtimestamp(day * DAY_S, UTC) for day in days]
    of_half = {half: {at.timetuple().tm_yday for at in dates if at.month in its} for half, its in HALVES.items()}
    lacking = tuple(half for half, found in of_half.items() if not found)
    cold, warm = of_half.values()
    if lacking or any(_apart_days(one, other) >= APART_DAYS for one in cold for other in warm):
        return lacking
    # Measured about one turn of the half-years: more is lacking of the half that was seen for less long.
    return (min(of_half, key=lambda half: len(of_half[half])),)


def _apart_days(one: int, other: int) -> int:
    """How far two days of the year lie apart, whichever comes first."""
    return min((one - other) % YEAR_DAYS, (other - one) % YEAR_DAYS)


def is_a_year(record: LoggedRecord) -> bool:
    """Whether a record is long and dense enough for the band of EN 15757.

    record   times, s since 1970
    returns  True for thirteen months with a reading an hour and no more than a tenth missing

    Source: EN 15757:2010 (second hand); the tenth: common practice, no source.
    Raises nothing.

    >>> is_a_year(LoggedRecord([hour * 3600.0 for hour in range(72)], [50.0] * 72))
    False
    """
    if len(record.seconds) < 2 or record.seconds[-1] - record.seconds[0] < LEAST_S:
        return False
    spaced = spacing(record.seconds)
    return spaced.usual_s <= HOUR_S and spaced.missing <= MOST_MISSING


def within_limits_verdict(
    check: str, what: str, seen: Seen, low: float | None, high: float | None, unit: str, source: str
) -> Verdict:
    """Whether a range seen keeps between two limits, uncertainties against them.

    check      the name of the question
    what       the quantity in words, to begin the sentence with
    seen       the range, in unit
    low, high  the limits, in the same unit as the range; None: none on that side
    unit       of all of them
    source     where the limits come from
    returns    verdict on the end that comes nearest to its limit or passes it furthest

    Source: SOURCE; close is within a fifth of the room between the limits: common practice, no source.
    Raises Missing where there is no limit at all.

    >>> str(within_limits_verdict("humidity", "The humidity", Seen(41, 64, A_YEAR), 40, 65, "%", "the keeper").word)
    'close'
    """
    ends = [(seen.low, low, seen.low - low, "down to")] if low is not None else []
    ends += [(seen.high, high, high - seen.high, "up to")] if high is not None else []
    if not ends:
        raise Missing(f"Nobody has set a limit for it: {what}.", "Enter one, and who set it.", field="limit")
    figure, limit, margin, way = min(ends, key=lambda end: end[2])
    room = high - low if low is not None and high is not None else abs(limit)
    word = Word.OVER if margin < 0 else Word.CLOSE if margin < 0.2 * room else Word.WITHIN
    beyond = f"{-margin:.4g} {unit} beyond" if margin < 0 else f"{margin:.4g} {unit} inside"
    sentence = f"{what} goes {way} {figure:.4g} {unit}, {beyond} the limit of {limit:.10g} {unit}."
    working = (("Seen", f"{seen.low:.4g} to {seen.high:.4g} {unit}"), ("It rests on", seen.rests_on))
    return Verdict(check, word, figure, limit, margin, unit, sentence, source, working=working)
