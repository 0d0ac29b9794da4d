"""Where a thing may stand along a line, and how much more it may carry, with every answer staying as good.

Both ask a question that somebody else answers; nothing here knows what it is about.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from itertools import groupby
from operator import itemgetter

from .limits import within

PLACE_HIGH_MM = 100_000.0
MASS_HIGH_KG = 100_000.0


def intervals(
    holds: Callable[[float], bool], from_mm: float, to_mm: float, breaks_mm: Iterable[float] = ()
) -> list[tuple[int, int]]:
    """Where along a line a question is answered yes, to a whole millimetre.

    holds           the question, for a place in mm; between two neighbouring breaks its answer may change once
    from_mm, to_mm  ends of the line, mm, -100 000 to 100 000; nothing lies between ends the wrong way round
    breaks_mm       places at which the answer may change in any way, such as edges of zones, limits and boards, mm
    returns         stretches from and to which it holds, mm, in order; both ends hold, and so does all between

    Source: bisection between breaks.
    Raises OutOfRange outside the limits.

    >>> intervals(lambda x: not 300.4 < x < 512, 0, 900, [300.4, 512])
    [(0, 300), (512, 900)]
    """
    within("from_mm", from_mm, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    within("to_mm", to_mm, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    edges = sorted({from_mm, to_mm, *(place for place in breaks_mm if from_mm < place < to_mm)})
    if from_mm > to_mm:
        return []
    asked = {place: holds(place) for place in edges}
    for left, right in zip(edges, edges[1:], strict=False):
        asked |= _between(holds, left, right)
    return list(_stretches(sorted(asked.items())))


def most(holds: Callable[[float], bool], high_kg: float = MASS_HIGH_KG, step_kg: float = 0.1) -> float | None:
    """The greatest mass for which a question is answered yes.

    holds    the question, for a mass in kg; once no, it stays no for all that is more
    high_kg  the most that is asked about, kg, 0 to 100 000
    step_kg  what the answer is a whole number of, kg, 0.001 to 1 000
    returns  mass, kg, rounded down; None where not even nothing will do

    Source: bisection.
    Raises OutOfRange outside the limits.

    >>> most(lambda mass_kg: mass_kg <= 12.345)
    12.3
    """
    within("high_kg", high_kg, 0, MASS_HIGH_KG, "kg")
    within("step_kg", step_kg, 0.001, 1000, "kg")
    if not holds(0.0):
        return None
    low, high = 0, math.floor(round(high_kg / step_kg, 6))
    while low < high:
        middle = (low + high + 1) // 2
        if holds(round(middle * step_kg, 6)):
            low = middle
        else:
            high = middle - 1
    return round(low * step_kg, 6)


def _between(holds: Callable[[float], bool], left: float, right: float) -> dict[float, bool]:
    """Answers between two breaks: close to either, and on both sides of where they change, if they do."""
    low, high = math.floor(left) + 1, math.ceil(right) - 1
    if low > high:  # no whole millimetre lies between
        return {(left + right) / 2: holds((left + right) / 2)}
    asked = {place: holds(place) for place in ((left + low) / 2, low, high, (high + right) / 2)}
    good, bad = (low, high) if asked[low] else (high, low)
    if asked[low] != asked[high]:
        while abs(good - bad) > 1:
            middle = (good + bad) // 2
            good, bad = (middle, bad) if holds(middle) else (good, middle)
        asked |= {good: True, bad: False}
    return asked


def _stretches(asked: Iterable[tuple[float, bool]]) -> Iterator[tuple[int, int]]:
    """Runs of places that hold, in whole millimetres, inwards."""
    for good, run in groupby(asked, key=itemgetter(1)):
        places = [place for place, _ in run]
        first, last = math.ceil(places[0]), math.floor(places[-1])
        if good and first <= last:
            yield first, last
