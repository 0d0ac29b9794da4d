"""Rectangles cut out of stock of several sizes, some of it there already, by straight cuts from edge to edge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import islice, product
from typing import NamedTuple

from .guillotine import LOOKS, NOISE_MM, PartToPlace, Place, Rest, Rule, best_fit, split, tries_of

TRIES_HIGH = 300


class Size(NamedTuple):
    """Stock of one size, one kerf on its length and width, mm; a length is 1 mm wide.

    first  whether it is used before anything else: offcuts
    many   how many there are; None: as many as it takes
    worth  what one counts when it is opened: 0 where it is there already
    """

    length: float
    width: float
    first: bool
    many: int | None
    worth: float

    @property
    def area(self) -> float:
        return self.length * self.width

    def holds(self, blank: PartToPlace) -> list[tuple[float, float, bool]]:
        """The ways in which a part lies in it."""
        return [way for way in blank.ways if way[0] <= self.length + NOISE_MM and way[1] <= self.width + NOISE_MM]


class Laid(NamedTuple):
    """Which size each piece of stock is, by its place in the list; where the parts lie in them; and what is left."""

    opened: list[int]
    places: list[Place]
    rests: list[Rest]


def least_laid(blanks: Sequence[PartToPlace], sizes: Sequence[Size], least_worth: float) -> Laid | None:
    """The parts laid out with as little worth as a number of tries finds.

    blanks       parts, 1 or more
    sizes        what there is and what can be had
    least_worth  in the unit of the worths, no unit here; below it there is no use in looking further
    returns      the layout; among those of one worth the one with the least area opened, first of what is had besides,
                 then of what is there, then the one with the largest rest. None where what there is does not suffice

    Source: guillotine cutting by best fit, common practice, no source: offcuts lie open from the start, a piece that is
    there is begun when nothing open takes a part, and other stock when none of those does; the orders of
    `guillotine.tries_of`, each with every size preferred, then each piece exchanged for the least that holds as much.

    >>> blank = PartToPlace(0, ((60, 1, False),))
    >>> least_laid([blank, blank], [Size(70, 1, True, 1, 0), Size(100, 1, False, None, 5)], 0).opened
    [0, 1]
    """
    best: Laid | None = None
    least: tuple[float, ...] = (math.inf,)
    for laid in _tried(blanks, sizes):
        if laid is not None and (rank := _rank(laid, sizes)) < least:
            best, least = laid, rank
            if rank[0] <= least_worth and not rank[2]:
                break
    return best


def _tried(blanks: Sequence[PartToPlace], sizes: Sequence[Size]) -> Iterator[Laid | None]:
    """Several orders, each with every way to choose among what is there and what can be had."""
    places = range(len(sizes))
    there = sorted((at for at in places if not sizes[at].worth and not sizes[at].first), key=lambda at: sizes[at].area)
    had = sorted((at for at in places if sizes[at].worth), key=lambda at: (sizes[at].worth, sizes[at].area))
    by_area = sorted(had, key=lambda at: (sizes[at].worth / sizes[at].area, sizes[at].area))
    preferred = {(one, *(other for other in by_area if other != one)): None for one in had} | {tuple(had): None}
    choices = list(product((there, there[::-1]) if len(there) > 1 else (there,), preferred))
    tries = max(1, min(TRIES_HIGH, LOOKS // len(blanks) ** 2) // len(choices))
    for order, rule in islice(tries_of(blanks), tries):
        for own, other in choices:
            laid = _laid(order, [*own, *other], sizes, rule)
            yield laid and _exchanged(laid, blanks, sizes, rule)


def _laid(order: Sequence[PartToPlace], opening: Sequence[int], sizes: Sequence[Size], rule: Rule) -> Laid | None:
    """The parts in this order, each into the rest it fits best, offcuts among them; else into what is opened next."""
    opened = [at for at, size in enumerate(sizes) if size.first for _ in range(size.many or 1)]
    rests = [Rest(number, 0.0, 0.0, sizes[at].length, sizes[at].width) for number, at in enumerate(opened)]
    places: list[Place] = []
    for blank in order:
        found = best_fit(blank, rests, rule)
        if found is None:
            fresh = next((at for at in opening if sizes[at].holds(blank) and _more(at, opened, sizes)), None)
            if fresh is None:
                return None
            rests.append(Rest(len(opened), 0.0, 0.0, sizes[fresh].length, sizes[fresh].width))
            opened.append(fresh)
            long, wide, turned = sizes[fresh].holds(blank)[-1 if rule.last_way else 0]
            found = len(rests) - 1, turned, long, wide
        at, turned, long, wide = found
        rest = rests.pop(at)
        places.append(Place(blank.part, rest.stock, rest.x, rest.y, turned))
        rests += split(rest, long, wide, rule.long_split)
    return Laid(opened, places, rests)


def _more(at: int, opened: Sequence[int], sizes: Sequence[Size]) -> bool:
    many = sizes[at].many
    return many is None or opened.count(at) < many


def _exchanged(laid: Laid, blanks: Sequence[PartToPlace], sizes: Sequence[Size], rule: Rule) -> Laid:
    """The same with each piece that has a worth exchanged for the least that holds its parts as well."""
    by_part = {blank.part: blank for blank in blanks}
    by_worth = sorted((at for at, size in enumerate(sizes) if size.worth), key=lambda at: sizes[at].worth)
    for number, at in enumerate(laid.opened):
        order = [by_part[place.part] for place in laid.places if place.stock == number]
        for other in by_worth:
            if sizes[other].worth >= sizes[at].worth:
                break
            alone = _more(other, laid.opened, sizes) and _laid(order, [0], [sizes[other]._replace(many=1)], rule)
            if alone:
                laid = _with(laid, number, other, alone)
                break
    return laid


def _with(laid: Laid, number: int, size: int, alone: Laid) -> Laid:
    """A piece of stock replaced by one of another size, with the places and rests it has there."""
    return Laid(
        [size if place == number else at for place, at in enumerate(laid.opened)],
        [*(one for one in laid.places if one.stock != number), *(one._replace(stock=number) for one in alone.places)],
        [*(one for one in laid.rests if one.stock != number), *(one._replace(stock=number) for one in alone.rests)],
    )


def _rank(laid: Laid, sizes: Sequence[Size]) -> tuple[float, ...]:
    """Worth; area had, begun; the largest rest with a minus sign: least is best."""
    had = [sizes[at] for at in laid.opened if sizes[at].worth]
    begun = [sizes[at] for at in laid.opened if not sizes[at].worth and not sizes[at].first]
    return (
        round(math.fsum(size.worth for size in had), 6),
        math.fsum(size.area for size in had),
        math.fsum(size.area for size in begun),
        -max((rest.length * rest.width for rest in laid.rests), default=0.0),
    )
