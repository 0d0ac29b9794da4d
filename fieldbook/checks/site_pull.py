"""Pulling fixings on the spot: how many, how hard, and what it shows.

A proof pull shows how that fixing was put in, on that day. It does not give the strength of fabric nobody has
opened, and where something gives way slowly (wood, glue) it does not settle what hangs for good. Does not cover
who may do it: whoever tests should know BS 8539.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import mean, stdev
from typing import NamedTuple

from ..errors import NotAChoice, OutOfRange, shown
from .days import in_words
from .limits import rounded_up, within
from .verdict import Verdict, Word, at_most, not_known

SOURCE = "BS 8539:2012, Annex B.3 (second hand, an anchor maker's technical page)"
COUNT_HIGH = 100_000
LOAD_HIGH_N = 1e6
# share of the anchors pulled: factor on the characteristic action; never fewer than three in an area.
PLANS = {2.5: 1.5, 5.0: 1.25}
LEAST_PULLED, LEAST_AFTER_FAILURE, SHARE_AFTER_FAILURE = 3, 6, 5.0
LEAST_FAILURES = 5
# One supplier's published guide; the divisor of BS 8539 itself was not readable.
MEAN_DIVISOR = 4.0
# k for a 5 % value at 90 % confidence from so many tests (non-central t; ETAG 001 has 3.40 and 2.57 for 5 and 10).
TOLERANCE = {5: 3.400, 6: 3.092, 7: 2.894, 8: 2.754, 9: 2.650, 10: 2.568}
ON_THE_DAY = (
    "It shows how this fixing was put in, on that day; it does not give the strength of fabric nobody has opened."
)


class PullPlan(NamedTuple):
    """How many fixings of one area to pull, and to how much, N."""

    count: int  # type: ignore[assignment]  # over a tuple's own, which nobody asks
    load_n: float


def plan(count: int, action_n: float, share_pct: float, failed: int) -> PullPlan:
    """How many fixings of one area are pulled to prove them, and to what load.

    count      number of fixings in the area, 1 to 100 000
    action_n   what one carries at the worst, without partial factors, N, 0 to 1 000 000
    share_pct  share pulled, %, 2.5 or 5
    failed     number of them that gave way so far, 0 to 100 000
    returns    how many and to how many N: at least 3; after one failure at least 5 % and 6; after more, every one

    Source: BS 8539:2012, Annex B.3: 2.5 % at 1.5 times the action, 5 % at 1.25 times.
    Raises OutOfRange outside the limits, NotAChoice for another share.

    >>> plan(80, 400, 2.5, 0)
    PullPlan(count=3, load_n=600.0)
    """
    within("count", count, 1, COUNT_HIGH, "")
    within("action_n", action_n, 0, LOAD_HIGH_N, "N")
    within("failed", failed, 0, COUNT_HIGH, "")
    factor = _factor(share_pct)
    share, least = (share_pct, LEAST_PULLED) if failed == 0 else (SHARE_AFTER_FAILURE, LEAST_AFTER_FAILURE)
    # a share of a whole number is reckoned in hundredths: 5 % of 200 is 10 and no hair more
    pulled = count if failed > 1 else max(least, math.ceil(round(share * count / 100, 6)))
    return PullPlan(min(pulled, count), factor * action_n)


class Failures(NamedTuple):
    """What tests to failure say, N: their mean, least, spread, a quarter of the mean, and the 5 % value."""

    mean_n: float
    least_n: float
    spread_n: float
    quarter_n: float
    low_n: float


def failures(loads_n: Sequence[float]) -> Failures:
    """What five or more fixings pulled until they gave way say about the rest.

    loads_n  the loads at which they gave way, N, 0 to 1 000 000; 5 or more
    returns  N; the 5 % value is not below 0

    Source: a quarter of the mean: one supplier's published guide, not BS 8539. 5 % value: mean less k spreads, k by
    the non-central t distribution at 90 % confidence, as in ETAG 001 (from memory); beyond ten tests k stays as at ten.
    Raises OutOfRange outside the limits.

    >>> round(failures([2100, 2600, 1800, 3000, 2500]).quarter_n)
    600
    """
    if len(loads_n) < LEAST_FAILURES:
        raise OutOfRange(
            f"There are {len(loads_n)} tests; fewer than {LEAST_FAILURES} say nothing about the rest.",
            "Test more, in the same fabric, where it may be done.",
            field="loads_n",
            value=len(loads_n),
        )
    for load_n in loads_n:
        within("loads_n", load_n, 0, LOAD_HIGH_N, "N")
    middle, spread = mean(loads_n), stdev(loads_n)
    low = max(0.0, middle - TOLERANCE[min(len(loads_n), max(TOLERANCE))] * spread)
    return Failures(middle, min(loads_n), spread, middle / MEAN_DIVISOR, low)


def verdict(
    permanent_n: float,
    people_n: float,
    *,
    pulled_n: float,
    held: bool,
    on: str,
    by: str,
    gives_slowly: bool,
    share_pct: float = 2.5,
) -> Verdict:
    """What a pull on this very fixing shows.

    permanent_n, people_n  pull on it for good, and what people add, without partial factors, N, 0 to 1 000 000
    pulled_n               load it was pulled with, N, 0 to 1 000 000
    held                   whether it held without moving
    on, by                 the day, and who pulled it; "" where nobody wrote it down
    gives_slowly           whether it is held by wood or glue, which let go in time under less than they bear at once
    share_pct              share of the fixings pulled, %, 2.5 or 5
    returns                verdict, N: what it carries against the load pulled over 1.5 (1.25); over where it gave way;
                           not known without day and person, where it was not pulled hard enough, and for what hangs
                           for good on wood or glue

    Source: BS 8539:2012, Annex B.3; that lasting loads are not settled: EN 1995-1-1:2004+A1:2008, 3.1.3.
    Raises OutOfRange outside the limits, NotAChoice for another share.

    >>> verdict(200, 0, pulled_n=600, held=True, on="2026-05-04", by="fitter", gives_slowly=False).word.value
    'within'
    """
    carries = within("permanent_n", permanent_n, 0, LOAD_HIGH_N, "N") + within(
        "people_n", people_n, 0, LOAD_HIGH_N, "N"
    )
    within("pulled_n", pulled_n, 0, LOAD_HIGH_N, "N")
    factor = _factor(share_pct)
    noted = on.strip() and by.strip()
    when = f"on {in_words(on)} ({by})" if noted else "on a day nobody wrote down, or by nobody named"
    if not held:
        sentence = f"It gave way or moved at {pulled_n:g} N {when}: find the cause, and pull more of them."
        return Verdict("site pull", Word.OVER, carries, 0.0, -carries, "N", sentence, SOURCE)
    missing, why = _not_shown(permanent_n, carries, pulled_n, factor, on, by, gives_slowly)
    if missing:
        return not_known("site pull", missing, f"It held {pulled_n:g} N {when}. {why}", SOURCE, "N")
    return at_most(
        "site pull",
        "What the fixing carries",
        carries,
        pulled_n / factor,
        "N",
        SOURCE,
        after=f"Pulled with {pulled_n:g} N {when}. {ON_THE_DAY}",
        working=(("pulled with", f"{pulled_n:g} N"), ("over what it carries, at least", f"{factor:g} times")),
    )


def _not_shown(
    permanent_n: float, carries_n: float, pulled_n: float, factor: float, on: str, by: str, gives_slowly: bool
) -> tuple[tuple[str, ...], str]:
    """The inputs for want of which a pull that held shows nothing, and why."""
    missing = tuple(name for name, text in (("on", on), ("by", by)) if not text.strip())
    if missing:
        return missing, "A pull without a day and a name shows nothing. Enter when it was pulled, and by whom."
    if carries_n > pulled_n / factor:
        needed_n = rounded_up(carries_n * factor, 1)
        return ("pulled_n",), f"It carries {carries_n:g} N: pull it with {needed_n:g} N, where the keeper agrees to it."
    if gives_slowly and permanent_n > 0:
        return ("permanent_n",), (
            "Wood and glue let go in time under less than they bear for a minute, so this does not settle the "
            f"{permanent_n:g} N that hang for good: calculate it, or have it stated."
        )
    return (), ""


def _factor(share_pct: float) -> float:
    if share_pct not in PLANS:
        known = "Pull 2.5 % or 5 %."
        raise NotAChoice(f"share_pct is {shown(share_pct)} %.", known, field="share_pct", value=share_pct)
    return PLANS[share_pct]
