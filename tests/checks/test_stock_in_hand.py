"""Cutting out of stock of several sizes: by hand, and lengths against every way there is.

Expected values: worked by hand beside each case, or by trying every way to share the parts out among the stock.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Sequence
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.cutting import Part, Stock, layout
from fieldbook.checks.guillotine import PartToPlace
from fieldbook.checks.several_sizes import Size, least_laid
from fieldbook.checks.stock_in_hand import IN_HAND, OFFCUT, TO_BUY, CutFrom, Offer, cut_from
from tests.checks.refusals import refused
from tests.examples import examples

KERF_MM = 3.0


def taken(found: CutFrom) -> list[tuple[str, float, int]]:
    """Source, length and number of what is cut."""
    return [(one.offer.source, one.offer.length_mm, one.needed) for one in found.taken]


def test_offcuts_come_first_then_what_is_in_hand() -> None:
    """Of battens of 900, 900, 700 and 600: 900 from the offcut of 910, 900 and 700 from 1610, and 600 is bought.

    By hand: 900 + 3 + 700 = 1603 of 1610; 600 is left, and fits the shorter of the two that can be bought.
    """
    parts = [Part("long", 900, count=2), Part("middle", 700), Part("short", 600)]
    offers = [
        Offer(TO_BUY, 2400, None, None, 9),
        Offer(TO_BUY, 1200, None, None, 5),
        Offer(IN_HAND, 1610, None, 1),
        Offer(OFFCUT, 910, None, 1),
    ]
    found = cut_from(parts, offers, KERF_MM)
    assert taken(found) == [(TO_BUY, 1200, 1), (IN_HAND, 1610, 1), (OFFCUT, 910, 1)]
    assert (found.price, found.at_least) == (5, None)
    assert {one.offer.length_mm: [left.length_mm for left in one.left] for one in found.taken} == {
        1200: [1200 - 600 - 3],
        1610: [1610 - 900 - 700 - 2 * 3],
        910: [910 - 900 - 3],
    }


@pytest.mark.parametrize(("price", "sizes"), [(9.9, [2400]), (10.1, [1200])])
def test_least_price_decides_what_is_bought(price: float, sizes: list[float]) -> None:
    """Two of 1000 come out of one of 2400 or of two of 1200 at 5 each: the dearer is left."""
    offers = [Offer(TO_BUY, 2400, None, None, price), Offer(TO_BUY, 1200, None, None, 5)]
    found = cut_from([Part("a", 1000, count=2)], offers, KERF_MM)
    assert [one.offer.length_mm for one in found.taken] == sizes
    assert found.price == min(price, 10)


def test_least_stock_is_bought_where_a_price_is_not_known() -> None:
    """Two of 1000 out of 2400 waste less than out of two of 1500; no price is told."""
    offers = [Offer(TO_BUY, 1500, None, None, 1), Offer(TO_BUY, 2400, None)]
    found = cut_from([Part("a", 1000, count=2)], offers, KERF_MM)
    assert (taken(found), found.price, found.least_price) == ([(TO_BUY, 2400, 1)], None, None)


def test_no_more_is_bought_than_can_be_had() -> None:
    """Of the cheap ones there are two; the third part comes out of the dear one, and with none of it nothing does."""
    offers = [Offer(TO_BUY, 1000, None, 2, 2), Offer(TO_BUY, 1100, None, None, 7)]
    found = cut_from([Part("a", 800, count=3)], offers, KERF_MM)
    assert (taken(found), found.price) == ([(TO_BUY, 1000, 2), (TO_BUY, 1100, 1)], 11)
    with refused("out-of-range", "offers"):
        cut_from([Part("a", 800, count=3)], offers[:1], KERF_MM)


def test_what_is_given_costs_nothing_and_is_opened_last() -> None:
    """A price of 0 is a price, and no piece of it is begun while one in hand takes the part."""
    offers = [Offer(TO_BUY, 1000, None, None, 0), Offer(IN_HAND, 1000, None, 1)]
    found = cut_from([Part("a", 800, count=2)], offers, KERF_MM)
    assert (taken(found), found.price, found.least_price) == ([(TO_BUY, 1000, 1), (IN_HAND, 1000, 1)], 0, 0)


def test_sheets_in_hand_are_used_before_one_is_bought() -> None:
    """Boards of 500 by 300: two lie in the offcut of 620 by 505 when turned, and with their grain along only one."""
    offers = [Offer(OFFCUT, 620, 505, 1), Offer(TO_BUY, 1220, 610, None, 20)]
    either = cut_from([Part("board", 500, 300, "any", 2)], offers, KERF_MM)
    assert (taken(either), either.price) == ([(OFFCUT, 620, 1)], 0)
    along = cut_from([Part("board", 500, 300, "along", 2)], offers, KERF_MM)
    assert (taken(along), along.price) == ([(OFFCUT, 620, 1), (TO_BUY, 1220, 1)], 20)
    lefts = [(left.length_mm, left.width_mm) for left in along.taken[0].left]
    assert sorted(lefts) in ([(117, 300), (620, 202)], [(117, 505), (500, 202)])


def every_way(parts: Sequence[float], offers: Sequence[Offer]) -> float:
    """The least price for lengths: every set of parts in every piece that is there, the rest parted in every way."""
    whole = (1 << len(parts)) - 1
    long = [sum(part + KERF_MM for at, part in enumerate(parts) if mask >> at & 1) for mask in range(whole + 1)]

    def holds(offer: Offer, mask: int) -> bool:
        return long[mask] <= offer.length_mm + KERF_MM

    buying = [offer for offer in offers if offer.source == TO_BUY]
    one = [
        min((offer.price or 0 for offer in buying if holds(offer, mask)), default=math.inf) for mask in range(whole + 1)
    ]
    best = [0.0] + [math.inf] * whole
    for mask in range(1, whole + 1):
        some = mask
        while some:
            best[mask] = min(best[mask], best[mask ^ some] + one[some])
            some = (some - 1) & mask
    covered = {0}
    for offer in offers:
        for _ in range(offer.many or 0):
            covered |= {
                mask | some for mask in covered for some in range(whole + 1) if not mask & some and holds(offer, some)
            }
    return min(best[whole ^ mask] for mask in covered)


@pytest.mark.parametrize("seed", range(40))
def test_lengths_cost_as_little_as_the_best_of_every_way(seed: int) -> None:
    """Up to six parts, offcuts, a piece in hand, up to three sizes to buy: nothing costs less, and the bound holds."""
    chance = random.Random(seed)
    lengths = [chance.randint(20, 120) * 10.0 for _ in range(chance.randint(2, 6))]
    offers = [Offer(OFFCUT, chance.randint(30, 130) * 10, None, 1) for _ in range(chance.randint(0, 2))]
    offers += [Offer(IN_HAND, chance.randint(100, 200) * 10, None, 1) for _ in range(chance.randint(0, 1))]
    sizes = chance.sample([1800, 2400, 3000], chance.randint(1, 3))
    offers += [Offer(TO_BUY, size, None, None, size * chance.randint(4, 7) / 1000) for size in sizes]
    found = cut_from([Part(f"P{at}", long) for at, long in enumerate(lengths)], offers, KERF_MM)
    assert found.price is not None
    assert found.least_price is not None
    best = every_way(lengths, offers)
    assert found.price == pytest.approx(best)
    assert found.least_price <= best + 1e-9


SIDES = st.integers(5, 60).map(lambda side: side * 10)
PARTS = st.lists(st.tuples(SIDES, SIDES, st.sampled_from(["along", "any"]), st.integers(1, 3)), min_size=1, max_size=5)
THERE = st.lists(st.tuples(st.sampled_from([OFFCUT, IN_HAND]), SIDES, SIDES, st.integers(1, 2)), max_size=3)


@examples(60)
@given(PARTS, THERE)
def test_every_part_lies_in_its_sheet_a_kerf_from_the_others(parts, there) -> None:
    """All parts are cut, none twice; no more is taken than there is; what is left over overlaps no part."""
    wanted = [Part(f"P{at}", *sides, grain, count) for at, (*sides, grain, count) in enumerate(parts)]
    offers = [Offer(*one) for one in there] + [Offer(TO_BUY, 700, 650, None, 3), Offer(TO_BUY, 1300, 650, None, 5)]
    found = cut_from(wanted, offers, KERF_MM)
    assert Counter(piece.part for one in found.taken for piece in one.pieces) == {one.name: one.count for one in wanted}
    for one in found.taken:
        assert one.offer.many is None or one.needed <= one.offer.many
        assert {piece.stock for piece in one.pieces} == set(range(1, one.needed + 1))
        for piece in one.pieces:
            assert 0 <= piece.x_mm <= one.offer.length_mm - piece.length_mm + 1e-6
            assert 0 <= piece.y_mm <= one.offer.width_mm - piece.width_mm + 1e-6
        for first, second in combinations(one.pieces, 2):
            beside = max(first.x_mm, second.x_mm) - min(first.x_mm + first.length_mm, second.x_mm + second.length_mm)
            above = max(first.y_mm, second.y_mm) - min(first.y_mm + first.width_mm, second.y_mm + second.width_mm)
            assert first.stock != second.stock or max(beside, above) >= KERF_MM - 1e-6
        whole = one.needed * one.offer.length_mm * one.offer.width_mm
        left = sum(rest.length_mm * rest.width_mm for rest in one.left)
        assert one.used_share * whole + left <= whole + 1e-6
    bought = sum(one.needed * one.offer.price for one in found.taken if one.offer.source == TO_BUY)
    assert found.price == pytest.approx(bought)
    assert found.least_price <= bought + 1e-9


@pytest.mark.parametrize(("part", "count"), [(Part("a", 900, 300), 9), (Part("b", 798, 400, "any"), 11)])
def test_one_size_takes_as_many_as_its_own_layout(part: Part, count: int) -> None:
    """Where only one size can be bought, number and bound are those of a layout of that size."""
    alone = layout([part._replace(count=count)], Stock(2440, 1220, KERF_MM))
    found = cut_from([part._replace(count=count)], [Offer(TO_BUY, 2440, 1220)], KERF_MM)
    assert ([one.needed for one in found.taken], found.at_least) == ([alone.needed], alone.at_least)


def test_smaller_stock_takes_the_place_of_what_is_hardly_filled() -> None:
    """The first part begins the long piece; alone in it, it is exchanged for the short one that costs less."""
    blank = PartToPlace(0, ((60, 1, False),))
    laid = least_laid([blank], [Size(200, 1, False, None, 9), Size(61, 1, False, None, 4)], 0)
    assert laid is not None
    assert laid.opened == [1]
    assert [(rest.length, rest.stock) for rest in laid.rests] == [(1, 0)]
    assert least_laid([blank, blank], [Size(61, 1, False, 1, 4)], 0) is None


def test_stock_outside_its_range_is_refused() -> None:
    """Sizes, counts and prices that cannot be, parts that fit nowhere, and stock of another sort, by name and place."""
    part, offer = Part("a", 500, 100), Offer(TO_BUY, 1000, 500)
    for field, wrong in (("length_mm", 0.9), ("width_mm", 50_000.1), ("many", 0), ("many", 501), ("price", -1)):
        with refused("out-of-range", f"offers[1].{field}"):
            cut_from([part], [offer, offer._replace(**{field: wrong})], KERF_MM)
    for kerf in (-0.1, 50.1):
        with refused("out-of-range", "kerf_mm"):
            cut_from([part], [offer], kerf)
    with refused("out-of-range", "offers"):
        cut_from([part], [], KERF_MM)
    with refused("out-of-range", "parts"):
        cut_from([part._replace(count=501)], [offer], KERF_MM)
    with refused("out-of-range", "parts[0].length_mm"):
        cut_from([part._replace(length_mm=1001)], [offer, Offer(OFFCUT, 300, 300, 1)], KERF_MM)
    with refused("unsuitable-shape", "parts[0].width_mm"):
        cut_from([part], [Offer(OFFCUT, 1000, None, 1)], KERF_MM)
