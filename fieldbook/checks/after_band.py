"""The time after the thirteen months a humidity band was made of, judged by that band.

A band cannot judge the record it was made from: fourteen readings in a hundred of it lie outside
by the way it is made. It does not cover a room whose heating or use has changed: make a new band.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import NamedTuple

from ..errors import OutOfRange
from .days import in_words
from .humidity_record import DAY_S, longest_step
from .limits import rounded_up, within
from .seasonal_level import LEAST_S, MOST_MISSING, PERCENTILES, Band
from .verdict import FINE, Verdict, Word, at_most, not_known

SOURCE = (
    "EN 15757:2010, band between the 7th and the 93rd percentile (from memory), which 14 % of the room's own past lay "
    "outside; the level of the same day of the year and how time is added up: common practice, no source"
)
YEAR_S = 365 * DAY_S
HOUR_S = 3600.0
MOST_OUTSIDE_PCT = 100.0 - (PERCENTILES[1] - PERCENTILES[0])
UNCERTAINTY_PCT = (0.0, 20.0)
# What a fine word takes, the span that one seasonal level is made over: common practice, no source
LEAST_JUDGED_S = 30 * DAY_S


class After(NamedTuple):
    """What the time after the band was like.

    judged_s        time judged, s, without gaps
    elapsed_s       the same with the gaps, s
    outside_s       of it outside the band, s
    longest_s       the longest time outside on end, s
    longest_from_s  when that began, s since 1970; None where there is none
    """

    judged_s: float
    elapsed_s: float
    outside_s: float
    longest_s: float
    longest_from_s: float | None


def reference_end(seconds: Sequence[float]) -> int:
    """The place of the first reading after the thirteen months the band is made of.

    seconds  times in order, s
    returns  place; readings before it make the band, those from it on are judged

    Source: EN 15757:2010, thirteen months (second hand).
    Raises OutOfRange for a record that is not as long.

    >>> reference_end([day * 86400.0 for day in range(500)])
    395
    """
    if not len(seconds) or seconds[-1] - seconds[0] < LEAST_S:
        days = (seconds[-1] - seconds[0]) / DAY_S if len(seconds) else 0.0
        reason = f"The record spans {days:.0f} days; the band needs thirteen months, {LEAST_S / DAY_S:.0f} days."
        raise OutOfRange(reason, "Go on recording.", field="time", value=days)
    return bisect_right(seconds, seconds[0] + LEAST_S)


def time_after(
    seconds: Sequence[float],
    humidity_pct: Sequence[float],
    found: Band,
    first_judged: int,
    uncertainty_pct: float = 0.0,
) -> After:
    """How long the humidity lay outside the band after the thirteen months it was made of.

    seconds          times in order, s since 1970
    humidity_pct     relative humidity, %, 0 to 100
    found            the band of the readings before first_judged, % RH
    first_judged     place of the first reading that is judged, a count
    uncertainty_pct  of the readings against those of the band, % RH, 0 to 20; 0 for one and the same logger
    returns          times, s; a reading stands until the next, but not across a gap

    Source: SOURCE.
    Raises OutOfRange for another uncertainty.

    >>> band = Band(3600, 0, [50.0] * 8760, -5, 5, -10, 10)
    >>> hours = [hour * 3600.0 for hour in range(8763)]
    >>> time_after(hours, [50] * 8760 + [61, 62, 50], band, 8760).longest_s / 3600
    2.0
    """
    within("uncertainty_pct", uncertainty_pct, *UNCERTAINTY_PCT, "% RH")
    low, high = found.low + uncertainty_pct, found.high - uncertainty_pct
    longest_step_s = longest_step(found.usual_s)
    judged = outside = longest = spell = until = 0.0
    longest_from = since = None
    for place in range(first_judged, len(seconds)):
        now = seconds[place]
        until = seconds[place + 1] if place + 1 < len(seconds) else now + found.usual_s
        stands_s, gap = (until - now, False) if until - now <= longest_step_s else (found.usual_s, True)
        judged += stands_s
        if low <= humidity_pct[place] - _level(seconds, found, now) <= high:
            spell, since = 0.0, None
            continue
        since = now if since is None else since
        spell, outside = spell + stands_s, outside + stands_s
        if spell > longest:
            longest, longest_from = spell, since
        if gap:
            spell, since = 0.0, None
    elapsed = until - seconds[first_judged] if judged else 0.0
    return After(judged, elapsed, outside, longest, longest_from)


def after_band_verdict(after: After, found: Band) -> Verdict:
    """Whether the room keeps to its own past.

    after    the time after the band
    found    the band, % RH
    returns  verdict on the share of that time outside, %, against the 14 % of the past; the longest time outside on
             end stands beside it; a fine one only of a reading an hour on thirty days, of which no more lacks than a
             band bears

    Source: SOURCE.
    Raises nothing.

    >>> band = Band(3600, 0, [], -5, 5, -10, 10)
    >>> str(after_band_verdict(After(360_000.0, 360_000.0, 54_000.0, 21_600.0, 0.0), band).word)
    'over'
    """
    limits = f"{found.low:+.1f} to {found.high:+.1f} % RH about the seasonal level"
    if not after.judged_s:
        sentence = f"The band, {limits}, is made; nothing is recorded after it yet."
        return not_known("humidity", ("time",), sentence, SOURCE, "%")
    longest_h = rounded_up(after.longest_s / HOUR_S)
    began = ""
    if after.longest_from_s is not None:
        began = f", from {in_words(datetime.fromtimestamp(after.longest_from_s, UTC))}"
    judged = _days(after)
    verdict = at_most(
        "humidity",
        f"Time outside {limits}",
        100 * after.outside_s / after.judged_s,
        MOST_OUTSIDE_PCT,
        "%",
        SOURCE,
        after=f"The longest on end was {longest_h:.10g} h{began}.",
        working=(("Time judged", judged), ("Longest on end", f"{longest_h:.10g} h")),
    )
    lacks = after.judged_s < LEAST_JUDGED_S or after.judged_s < (1 - MOST_MISSING) * after.elapsed_s
    if verdict.word not in FINE or not (lacks or found.usual_s > HOUR_S):
        return verdict
    needed = f"To say that it is kept to takes {LEAST_JUDGED_S / DAY_S:.0f} days, at most {MOST_MISSING:.0%} missing"
    often = f"a reading every {rounded_up(found.usual_s / HOUR_S):g} h"
    sentence = f"Recorded after the band, {limits}: {judged}, {often}. {needed}, a reading an hour. {verdict.sentence}"
    return replace(verdict, word=Word.NOT_KNOWN, sentence=sentence, missing=("time",))


def _days(after: After) -> str:
    judged, elapsed = (round(seconds / DAY_S) for seconds in (after.judged_s, after.elapsed_s))
    return f"{judged} of {elapsed} days" if judged != elapsed else "1 day" if judged == 1 else f"{judged} days"


def _level(seconds: Sequence[float], found: Band, now: float) -> float:
    """The seasonal level of the same day of the year, of the reading nearest to it on or before."""
    start = seconds[found.first]
    end = found.first + len(found.level)
    then = start + (now - start) % YEAR_S
    place = bisect_left(seconds, then, found.first, end)
    return found.level[min(place, end - 1) - found.first]
