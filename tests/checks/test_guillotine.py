"""Cutting from edge to edge: each rule by itself, worked by hand, and whole layouts against every way there is.

The best of many tries hides a fault in one of them, so the steps of a try are held by themselves.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, islice, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.cutting_bound import least_stock
from fieldbook.checks.guillotine import (
    NOISE_MM,
    PartToPlace,
    Place,
    Rest,
    Rule,
    _placed,
    fewest_sheets,
    split,
    tries_of,
)
from tests.examples import examples

PLAIN = Rule(by_area=True, long_split=True, last_way=False)


def blank(part: int, *sizes: tuple[float, float]) -> PartToPlace:
    """A part and the ways it may lie, the second of them turned."""
    return PartToPlace(part, tuple((long, wide, bool(turned)) for turned, (long, wide) in enumerate(sizes)))


def either(part: int, long: float, wide: float) -> PartToPlace:
    """A part that may lie along or across."""
    return blank(part, (long, wide), (wide, long))


# A part of 40 by 30 in the corner of a rest of 100 by 60 leaves 60 beside it and 30 above it: strips of 60 x 60 and
# 100 x 30, the one beside the larger. Of 30 by 40 in 60 by 100: 30 x 100 and 60 x 60, the one above the larger.
@pytest.mark.parametrize(
    ("rest", "part", "long_split", "left"),
    [
        ((100, 60), (40, 30), True, {(50, 20, 60, 60), (10, 50, 40, 30)}),
        ((100, 60), (40, 30), False, {(50, 20, 60, 30), (10, 50, 100, 30)}),
        ((60, 100), (30, 40), True, {(40, 20, 30, 40), (10, 60, 60, 60)}),
        ((60, 100), (30, 40), False, {(40, 20, 30, 100), (10, 60, 30, 60)}),
        ((100, 100), (50, 50), True, {(60, 20, 50, 50), (10, 70, 100, 50)}),  # alike: the one above counts as larger
        ((100, 60), (100, 30), True, {(10, 50, 100, 30)}),
        ((100, 60), (40, 60), True, {(50, 20, 60, 60)}),
        ((100, 60), (100, 60), True, set()),
        ((2 * NOISE_MM, 5), (NOISE_MM, 5), True, set()),
        ((4 * NOISE_MM, 5), (2 * NOISE_MM, 5), True, {(10 + 2 * NOISE_MM, 20, 2 * NOISE_MM, 5)}),
    ],
)
def test_rest_is_parted_by_one_cut(rest, part, long_split, left):
    """What a part leaves is two rectangles that fill the rest; what is not more than noise is none."""
    found = split(Rest(7, 10, 20, *rest), *part, long_split)
    assert {tuple(other)[1:] for other in found} == left
    assert {other.stock for other in found} <= {7}


@given(st.integers(1, 99), st.integers(1, 99), st.booleans())
def test_strips_of_a_rest_add_up(long, wide, long_split):
    """The part and its two strips have the area of the rest between them."""
    strips = split(Rest(1, 0, 0, 100, 100), long, wide, long_split)
    assert sum(strip.length * strip.width for strip in strips) + long * wide == 100 * 100


# A part of 60 by 60 in a sheet of 100 by 100 leaves 40 by 60 beside it and 100 by 40 above. One of 30 by 40 fits both:
# the one beside has less area (2400 against 4000), the one above is just as wide. 30 by 40 beside at (60, 0) leaves
# 10 by 40 and 40 by 20 there; above at (0, 60) it leaves 70 by 40.
@pytest.mark.parametrize(
    ("by_area", "second", "largest"), [(True, (60, 0, False), 4000), (False, (0, 60, False), 2800)]
)
def test_part_goes_into_the_rest_it_fits_best(by_area, second, largest):
    """By area the smaller rest is taken, by edges the one whose edge it fits."""
    order = [blank(0, (60, 60)), blank(1, (30, 40))]
    sheets, rest, places = _placed(order, 100, 100, PLAIN._replace(by_area=by_area))
    assert (sheets, -rest) == (1, largest)
    assert places == [Place(0, 1, 0, 0, False), Place(1, 1, *second)]


def test_part_goes_where_it_fits_one_edge_lengthwise_too():
    """By edges a part as long as the rest beside goes there, and one as wide as the rest above goes above."""
    edges = PLAIN._replace(by_area=False)
    for size, place in (((40, 30), (60, 0)), ((30, 40), (0, 60))):
        assert _placed([blank(0, (60, 60)), blank(1, size)], 100, 100, edges)[2][1][2:4] == place


def test_part_is_turned_where_it_fits_a_rest_only_so():
    """A part of 90 by 35 that may be turned lies along above; one of 35 by 90 is turned for it."""
    square = blank(0, (60, 60))
    assert _placed([square, either(1, 90, 35)], 100, 100, PLAIN)[2][1] == Place(1, 1, 0, 60, False)
    assert _placed([square, either(1, 35, 90)], 100, 100, PLAIN)[2][1] == Place(1, 1, 0, 60, True)


def test_part_that_fits_both_ways_alike_is_not_turned():
    """Of two equally good ways the first rest is taken, and in it the part as it was told."""
    assert _placed([blank(0, (60, 60)), either(1, 20, 30)], 100, 100, PLAIN)[2][1] == Place(1, 1, 60, 0, False)


def test_new_sheet_is_begun_when_nothing_fits():
    """The first part of a sheet lies in its corner, by the first or the last of its ways as the rule says."""
    order = [either(0, 60, 90), blank(1, (50, 50)), either(2, 40, 80)]
    sheets, _, places = _placed(order, 100, 100, PLAIN)
    # 0 leaves 40 x 100 and 60 x 10: 1 fits neither, 2 fits beside 0
    assert sheets == 2
    assert places == [Place(0, 1, 0, 0, False), Place(1, 2, 0, 0, False), Place(2, 1, 60, 0, False)]
    # turned, 0 is 90 by 60 and leaves 10 x 60 and 100 x 40: 2 lies turned above it
    sheets, _, places = _placed(order, 100, 100, PLAIN._replace(last_way=True))
    assert sheets == 2
    assert places == [Place(0, 1, 0, 0, True), Place(1, 2, 0, 0, False), Place(2, 1, 0, 60, True)]


@pytest.mark.parametrize(("over", "sheets"), [(0, 1), (NOISE_MM, 1), (2 * NOISE_MM, 2)])
@pytest.mark.parametrize("across", [False, True])
def test_rest_takes_what_is_larger_only_by_noise(over, sheets, across):
    """Sums of lengths may be off in the last digits; more than that does not fit."""
    sizes = [(60, 100), (40 + over, 100)]
    order = [blank(part, size[::-1] if across else size) for part, size in enumerate(sizes)]
    assert _placed(order, 100, 100, PLAIN)[0] == sheets


def test_largest_rest_is_told_over_all_sheets():
    """What is left in one piece is the largest of all rests; nothing, where nothing is left."""
    assert _placed([blank(0, (60, 60)), blank(1, (70, 70))], 100, 100, PLAIN)[:2] == (2, -4000)
    assert _placed([blank(0, (100, 100))], 100, 100, PLAIN)[:2] == (1, 0)


# Four parts that come in another order by each measure: area 2500, 1800, 2460, 2440; longest side 50, 90, 82, 61;
# length 50, 90, 30, 61; width 50, 20, 82, 40; both sides together 100, 110, 112, 101.
def test_plain_orders_come_first_with_every_rule():
    """Largest first, by five measures, each with both measures of fit and both ways to part."""
    blanks = [blank(0, (50, 50)), blank(1, (90, 20)), blank(2, (30, 82)), blank(3, (61, 40))]
    rules = [Rule(*rule, False) for rule in product((True, False), repeat=2)]
    found = [([part for part, _ in order], rule) for order, rule in islice(tries_of(blanks), 20)]
    orders = [[0, 2, 3, 1], [1, 2, 3, 0], [1, 3, 0, 2], [2, 0, 3, 1], [2, 1, 3, 0]]
    assert found == list(product(orders, rules))


def test_parts_that_lie_across_are_put_in_order_by_their_sides_alone():
    """That a part lies turned adds nothing to its size: 50 and 50 are less than 60 and 40.5."""
    blanks = [PartToPlace(0, ((50, 50, True),)), blank(1, (60, 40.5))]
    order, _ = list(islice(tries_of(blanks), 17))[16]
    assert [part for part, _ in order] == [1, 0]


def test_sheets_are_begun_both_ways_where_a_part_may_be_turned():
    """With a part that may lie two ways every rule is tried with either way to begin a sheet."""
    blanks = [blank(0, (50, 50)), either(1, 90, 20)]
    rules = [rule for _, rule in islice(tries_of(blanks), 8)]
    assert rules == [Rule(*rule) for rule in product((True, False), (True, False), (False, True))]


# Fractional parts of 1, 2, 3, ... times the golden section: .618 .236 .854 .472 .090 .708 .326 .944 .562 .180 (Knuth,
# The Art of Computer Programming, volume 3, section 6.4, on their even spread; the figures are worked by hand).
def test_disturbed_orders_follow_multiples_of_the_golden_section():
    """Among parts alike, the order is that of the fractional parts; the next try goes on with twice as much."""
    ten = [blank(part, (10, 10)) for part in range(10)]
    order, rule = list(islice(tries_of(ten), 21))[20]
    assert [part for part, _ in order] == [7, 2, 5, 0, 8, 3, 6, 1, 9, 4]
    assert rule == PLAIN
    tries = list(islice(tries_of(ten[:5]), 26))
    # multiples 2, 4, 6, 8, 10
    assert [part for part, _ in tries[21][0]] == [3, 2, 1, 0, 4]
    assert [rule[:2] for _, rule in tries[20:]] == [
        *((True, True), (True, False), (False, True), (False, False)),
        *((True, True), (True, False)),
    ]


# The weights of the first disturbed order are 0.6 + 0.8 x .6180 = 1.0944 and 0.6 + 0.8 x .2361 = 0.7889: their ratio
# is 1.3873, so that the second part comes first as soon as it is larger by that.
@pytest.mark.parametrize(("area", "order"), [(138, [0, 1]), (139, [1, 0])])
def test_disturbed_order_keeps_what_is_much_larger_in_front(area, order):
    """The disturbance turns parts of nearly equal area round, and no others."""
    found, _ = list(islice(tries_of([blank(0, (10, 10)), blank(1, (10, area / 10))]), 21))[20]
    assert [part for part, _ in found] == order


# 50 by 10 in the corner and 20 by 20 above it leave at most 80 by 90; 20 by 20 in the corner and 50 by 10 beside it
# leave the strip of 100 by 80 above both.
def test_bound_that_is_reached_ends_the_search_and_else_the_largest_rest_is_kept():
    """Where the bound is reached, the first layout is kept; where it is out of reach, that with the largest rest."""
    blanks = [blank(0, (50, 10)), blank(1, (20, 20))]
    assert fewest_sheets(blanks, 100, 100, 1) == (1, [Place(0, 1, 0, 0, False), Place(1, 1, 0, 10, False)])
    assert fewest_sheets(blanks, 100, 100, 0) == (1, [Place(1, 1, 0, 0, False), Place(0, 1, 20, 0, False)])


def test_long_lists_are_tried_once_at_least():
    """However many parts there are, there is an answer."""
    found, places = fewest_sheets([blank(part, (100, 100)) for part in range(1_500)], 100, 100, 0)
    assert (found, len(places)) == (1_500, 1_500)


def test_sheets_of_no_layout_are_never_fewer_than_its_parts_need():
    """Parts that fill a sheet each take one each, and all of them have a place."""
    sheets, places = fewest_sheets([blank(0, (90, 90)), blank(1, (80, 80))], 100, 100, 2)
    assert sheets == 2
    assert {place.part: place.stock for place in places} == {0: 1, 1: 2}


def parted(parts: tuple[int, ...]) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Every way to part some parts in two."""
    for size in range(1, len(parts)):
        for one in combinations(parts, size):
            yield one, tuple(part for part in parts if part not in one)


def fewest_of_all(blanks: Sequence[PartToPlace], length: float, width: float) -> int:
    """The least number of sheets over every way to cut: each cut lies where some parts, one behind the other, end."""

    def ends(parts: tuple[int, ...], axis: int) -> set[float]:
        sums = {0.0}
        for part in parts:
            sums |= {total + way[axis] for total in sums for way in blanks[part].ways}
        return sums

    @cache
    def comes_out(parts: tuple[int, ...], length: float, width: float) -> bool:
        if len(parts) == 1:
            return any(way[0] <= length and way[1] <= width for way in blanks[parts[0]].ways)
        return any(
            any(comes_out(one, cut, width) and comes_out(other, length - cut, width) for cut in ends(one, 0))
            or any(comes_out(one, length, cut) and comes_out(other, length, width - cut) for cut in ends(one, 1))
            for one, other in parted(parts)
        )

    def fewest(parts: tuple[int, ...]) -> int:
        if comes_out(parts, length, width):
            return 1
        return min(fewest(one) + fewest(other) for one, other in parted(parts))

    return fewest(tuple(range(len(blanks))))


SIDES = st.integers(10, 100)
SIZES = st.tuples(SIDES, SIDES, st.booleans())


def blanks_of(sizes: Sequence[tuple[int, int, bool]]) -> list[PartToPlace]:
    """Parts of these sizes, of which some may be turned."""
    return [
        either(part, long, wide) if turns else blank(part, (long, wide))
        for part, (long, wide, turns) in enumerate(sizes)
    ]


@examples(50)
@given(st.lists(SIZES, min_size=2, max_size=2))
def test_two_parts_are_laid_out_in_as_few_sheets_as_there_can_be(sizes):
    """Two parts come out of one sheet whenever any cut parts them: one lies in the corner, the other in a strip."""
    blanks = blanks_of(sizes)
    assert fewest_sheets(blanks, 100, 100, 1)[0] == fewest_of_all(blanks, 100, 100)


@examples(30)
@given(st.lists(SIZES, min_size=3, max_size=4))
def test_no_layout_claims_fewer_sheets_than_there_can_be(sizes):
    """The optimum over every way to cut lies between the bound and what is found."""
    blanks = blanks_of(sizes)
    optimum = fewest_of_all(blanks, 100, 100)
    at_least = least_stock([[way[:2] for way in blank.ways] for blank in blanks], 100, 100)
    assert at_least <= optimum <= fewest_sheets(blanks, 100, 100, at_least)[0]


def test_few_small_lists_are_laid_out_in_more_sheets_than_need_be():
    """Of a hundred lists of three parts, the same every time, one at most takes a sheet more than it could."""
    rng = random.Random(1851)
    more = 0
    for _ in range(100):
        blanks = blanks_of([(rng.randint(10, 100), rng.randint(10, 100), rng.random() < 0.5) for _ in range(3)])
        more += fewest_sheets(blanks, 100, 100, 1)[0] - fewest_of_all(blanks, 100, 100)
    assert more <= 1
