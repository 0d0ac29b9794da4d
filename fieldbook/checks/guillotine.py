"""Rectangles cut out of sheets by straight cuts from edge to edge."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import count, islice, product
from operator import itemgetter
from typing import NamedTuple

# Looks at a rest for a part, over all tries together; keeps long lists from taking minutes.
LOOKS = 2_000_000
TRIES_HIGH = 400
GOLDEN = (math.sqrt(5) - 1) / 2
# What sums of lengths may be off by, mm.
NOISE_MM = 1e-6


# How a part may lie: length and width with the saw cut at two of its edges, mm, and whether it is turned.
Way = tuple[float, float, bool]


class PartToPlace(NamedTuple):
    """A part, by its place in the list, and the ways it may lie."""

    part: int
    ways: tuple[Way, ...]

    @property
    def area(self) -> float:
        return self.ways[0][0] * self.ways[0][1]


class Place(NamedTuple):
    """Lower left corner of a part within the trimmed edges."""

    part: int
    stock: int
    x: float
    y: float
    turned: bool


class Rest(NamedTuple):
    """A rectangle still free, the saw cut at its far edges included."""

    stock: int
    x: float
    y: float
    length: float
    width: float


class Rule(NamedTuple):
    """How one try goes about it.

    by_area     a part goes into the rest of least area; else into the one that is least longer or wider than the part
    long_split  of the strips beside and above a part the larger keeps the corner between them; else the smaller
    last_way    a new sheet is begun with the last of the ways a part may lie; else with the first
    """

    by_area: bool
    long_split: bool
    last_way: bool


def fewest_sheets(
    blanks: Sequence[PartToPlace], length_mm: float, width_mm: float, at_least: int
) -> tuple[int, list[Place]]:
    """As few sheets as a number of tries finds, and where each part lies in them.

    blanks     parts, each of which fits into a sheet one way at least, 1 or more
    length_mm  length of a sheet, mm
    width_mm   width of a sheet, mm
    at_least   number of sheets below which there is no use in looking further
    returns    number of sheets, and the places of the parts; among layouts of as many sheets the one with the
               largest rest in one piece

    Source: guillotine cutting by best fit, common practice, no source: each part goes into the corner of the rest it
    fits best, which is parted in two by one cut; five orders, two measures of fit and two ways to part, then disturbed
    orders, the same every time.

    >>> fewest_sheets([PartToPlace(0, ((60, 60, False),)), PartToPlace(1, ((40, 60, False),))], 100, 100, 1)[0]
    1
    """
    tries = max(1, min(TRIES_HIGH, LOOKS // len(blanks) ** 2))
    layouts = (_placed(order, length_mm, width_mm, rule) for order, rule in islice(tries_of(blanks), tries))
    best = next(layouts)
    while best[0] > at_least and (found := next(layouts, None)):
        best = min(best, found, key=itemgetter(0, 1))
    return best[0], best[2]


def tries_of(blanks: Sequence[PartToPlace]) -> Iterator[tuple[list[PartToPlace], Rule]]:
    """Orders of the parts with a rule each: the plain orders first, then the order by area, disturbed; without end.

    Source: as for `fewest_sheets`.
    """
    sizes: tuple[Callable[[PartToPlace], float], ...] = (
        lambda blank: blank.area,
        lambda blank: max(blank.ways[0][:2]),
        lambda blank: blank.ways[0][0],
        lambda blank: blank.ways[0][1],
        lambda blank: sum(blank.ways[0][:2]),
    )
    turnable = any(len(blank.ways) > 1 for blank in blanks)
    rules = [Rule(*rule) for rule in product((True, False), (True, False), (False, True) if turnable else (False,))]
    for size, rule in product(sizes, rules):
        yield sorted(blanks, key=size, reverse=True), rule
    for turn in count():
        # Multiples of the golden section spread evenly and are the same every time, as chance would not be.
        weights = [
            blank.area * (0.6 + 0.8 * ((turn + 1) * (place + 1) * GOLDEN % 1)) for place, blank in enumerate(blanks)
        ]
        order = sorted(range(len(blanks)), key=weights.__getitem__, reverse=True)
        yield [blanks[place] for place in order], rules[turn % len(rules)]


def _placed(order: Sequence[PartToPlace], length: float, width: float, rule: Rule) -> tuple[int, float, list[Place]]:
    """How many sheets an order takes, the largest rest with a minus sign, and where each part lies."""
    rests: list[Rest] = []
    places: list[Place] = []
    sheets = 0
    for blank in order:
        if found := best_fit(blank, rests, rule):
            at, turned, long, wide = found
            rest = rests.pop(at)
        else:
            sheets += 1
            rest = Rest(sheets, 0.0, 0.0, length, width)
            long, wide, turned = blank.ways[-1 if rule.last_way else 0]
        places.append(Place(blank.part, rest.stock, rest.x, rest.y, turned))
        rests += split(rest, long, wide, rule.long_split)
    return sheets, -max((rest.length * rest.width for rest in rests), default=0.0), places


def best_fit(blank: PartToPlace, rests: Sequence[Rest], rule: Rule) -> tuple[int, bool, float, float] | None:
    """The rest a part fits best, by its place in the list, whether the part is turned, its length and width, mm.

    Source: as for `fewest_sheets`.

    >>> rests = [Rest(1, 0, 0, 90, 90), Rest(1, 0, 0, 40, 40)]
    >>> best_fit(PartToPlace(0, ((30, 40, False),)), rests, Rule(True, True, False))
    (1, False, 30, 40)
    """
    fits = [
        (
            rest.length * rest.width if rule.by_area else min(rest.length - long, rest.width - wide),
            at,
            turned,
            long,
            wide,
        )
        for at, rest in enumerate(rests)
        for long, wide, turned in blank.ways
        if long <= rest.length + NOISE_MM and wide <= rest.width + NOISE_MM
    ]
    return min(fits)[1:] if fits else None


def split(rest: Rest, long: float, wide: float, long_split: bool) -> list[Rest]:
    """What is left of a rest beside and above a part in its corner, parted by one cut from edge to edge.

    long  length of the part, saw cut included, mm
    wide  its width, mm

    Source: as for `fewest_sheets`.
    """
    stock, x, y = rest.stock, rest.x, rest.y
    beside, above = rest.length - long, rest.width - wide
    if (beside * rest.width > above * rest.length) == long_split:
        rests = [Rest(stock, x + long, y, beside, rest.width), Rest(stock, x, y + wide, long, above)]
    else:
        rests = [Rest(stock, x + long, y, beside, wide), Rest(stock, x, y + wide, rest.length, above)]
    return [rest for rest in rests if min(rest.length, rest.width) > NOISE_MM]
