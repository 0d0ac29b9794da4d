"""Things that stand by their own weight: tipping and sliding by hand and by a linear program."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import linprog

from fieldbook.checks.standing import Edge, Push, StandingPart, sliding_n, sliding_verdict, tipping, tipping_verdict
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, refused

PLINTH = [(0, 0), (400, 0), (400, 300), (0, 300)]
PLACES = st.floats(-1500, 1500).map(lambda number: round(number, 1))


# EN 1990:2002, Table A1.2(A), as printed in Steel Buildings in Europe, part 3, Table 3.1: 0.90, 1.10, 1.50.
def test_case_pushed_at_its_top_is_held_by_its_weight():
    """A case of 60 kg on a plinth 300 mm deep, pushed with 80 N at 1.1 m, just stays up."""
    edge = tipping(PLINTH, [StandingPart(60, 200, 150, 600)], [Push(80, 1100)])
    assert edge.tipping_nmm == pytest.approx(1.5 * 80 * 1100)  # 132 000
    assert edge.steadying_nmm == pytest.approx(0.9 * 60 * 9.81 * 150)  # 79 461
    assert edge.use == pytest.approx(1.661, abs=0.001)
    assert {y for _, y in edge.along_mm} in ({0}, {300})
    assert tipping_verdict(edge).word is Word.OVER


# By hand: an arm of 12 kg reaches 300 mm past the edge: 1.1 · 12 · 9.81 · 300 against 0.9 · 40 · 9.81 · 150.
def test_part_past_the_edge_tips():
    """What overhangs the base tips at its greatest, what stands over it steadies at its least."""
    edge = tipping(PLINTH, [StandingPart(40, 200, 150, 300), StandingPart(12, 200, -300, 900)])
    assert edge.use == pytest.approx(1.1 * 12 * 300 / (0.9 * 40 * 150))
    assert {y for _, y in edge.along_mm} == {0}


# By hand: 700 N on the front, 100 mm past the edge: 1.5 · 700 · 100; on the plinth it is not counted on to steady.
def test_weight_of_people_counts_only_where_it_tips():
    """Somebody who steps on the overhang tips it, somebody who sits on its middle does not steady it."""
    edge = tipping(PLINTH, [StandingPart(60, 200, 150, 600)], [Push(down_n=700, x_mm=200, y_mm=-100)])
    assert edge.use == pytest.approx(1.5 * 700 * 100 / (0.9 * 60 * 9.81 * 150))
    sat_on = tipping(PLINTH, [StandingPart(60, 200, 150, 600)], [Push(down_n=700, x_mm=200, y_mm=150)])
    assert sat_on.use == 0


# By hand: a floor that falls 20 mm in a metre brings a centre 1 m up 20 mm nearer to the edge.
def test_floor_that_falls_brings_the_centre_nearer_the_edge():
    """The fall of the floor counts in the worst direction."""
    level, falling = (tipping(PLINTH, [StandingPart(60, 200, 150, 1000)], [Push(30, 900)], fall) for fall in (0, 20))
    assert falling.steadying_nmm == pytest.approx(level.steadying_nmm * 130 / 150)
    toppling = tipping(PLINTH, [StandingPart(60, 200, 150, 2000)], [], 100)
    assert toppling.use == math.inf
    assert tipping_verdict(toppling).word is Word.OVER


def least_press_over_base(feet, parts, push, direction, factors):
    """Whether presses under the feet can balance factored weights and one push: a linear program, not edges."""
    steady, tip = factors
    weights = [(factor * part.mass_kg * 9.81, part) for part, factor in parts]
    whole = sum(weight for weight, _ in weights)
    x = sum(weight * part.x_mm for weight, part in weights) + tip * push.level_n * push.height_mm * direction[0]
    y = sum(weight * part.y_mm for weight, part in weights) + tip * push.level_n * push.height_mm * direction[1]
    rows = [[1.0] * len(feet), [foot[0] for foot in feet], [foot[1] for foot in feet]]
    return linprog([0.0] * len(feet), A_eq=rows, b_eq=[whole, x, y]).status == 0


@given(
    st.lists(st.tuples(PLACES, PLACES), min_size=3, max_size=6),
    st.tuples(PLACES, PLACES, st.integers(0, 2000)),
    st.integers(0, 300),
    st.integers(0, 2000),
)
def test_what_stays_up_by_its_edges_stays_up_by_its_feet(feet, centre, level, height):
    """Over every edge a use of at most one, and presses under the feet that balance the push, are the same thing."""
    spans = [
        abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) for a in feet for b in feet for c in feet
    ]
    assume(max(spans) > 10_000)
    part, push = StandingPart(40, *centre), Push(level, height)
    edge = tipping(feet, [part], [push])
    assume(abs(edge.use - 1) > 1e-3)
    # The push that tips over this edge stands square to it, away from the base.
    (x1, y1), (x2, y2) = edge.along_mm
    length = math.hypot(x2 - x1, y2 - y1)
    away = ((y2 - y1) / length, (x1 - x2) / length)
    holds = least_press_over_base(feet, [(part, 0.9)], push, away, (0.9, 1.5))
    # Centres nearer to the edge than a hundredth of a millimetre stand on it.
    if edge.steadying_nmm > 4:
        assert holds == (edge.use < 1)
    elif edge.tipping_nmm > 4:
        assert not holds


@given(st.floats(1, 200), st.floats(0, 400), st.floats(0, 1500), st.floats(1, 2))
def test_worse_never_tips_less(mass, level, height, factor):
    """A harder push, a higher one, a steeper floor and a lighter thing never bring it further from tipping."""
    part = StandingPart(mass, 150, 140, 500)
    use = tipping(PLINTH, [part], [Push(level, height)], 5).use
    for worse in (
        tipping(PLINTH, [part], [Push(level * factor, height)], 5),
        tipping(PLINTH, [part], [Push(level, height * factor)], 5),
        tipping(PLINTH, [part], [Push(level, height)], 5 * factor),
        tipping(PLINTH, [part._replace(mass_kg=mass / factor)], [Push(level, height)], 5),
        tipping(PLINTH, [part], [Push(level, height), Push(level / 2, height)], 5),
    ):
        assert worse.use >= use - 1e-12


# By hand: 1.5 · 60 N against 0.3 · 0.9 · 50 · 9.81 N.
def test_push_along_the_floor_is_held_by_friction():
    """A push is taken at half as much again, the weight at nine tenths."""
    pushed, held = sliding_n([StandingPart(30, 0, 0, 0), StandingPart(20, 9, 9, 9)], [Push(60), Push(20)], 0.3)
    assert (pushed, held) == pytest.approx((90, 0.3 * 0.9 * 50 * 9.81))
    assert sliding_verdict(pushed, held).word is Word.WITHIN
    assert sliding_verdict(150, held).word is Word.OVER
    assert sliding_verdict(1, 0).word is Word.OVER
    # A fall of 10 mm in a metre pushes with a hundredth of the weight, at eleven tenths.
    assert sliding_n([StandingPart(50, 0, 0, 0)], [], 0.3, 10)[0] == pytest.approx(1.1 * 0.01 * 50 * 9.81)


def test_what_nothing_steadies_is_told_in_words():
    """A centre of mass beyond the base is steadied by nothing: it tips over, and no share is told."""
    beyond = tipping_verdict(tipping(PLINTH, [StandingPart(60, 200, -150, 600)]))
    assert (beyond.word, beyond.figure) == (Word.OVER, None)
    assert beyond.sentence.startswith("It tips over. Nothing steadies it: make its base wider or heavier")
    assert sliding_verdict(1, 0).sentence.startswith("It slides: next to nothing holds it")


def test_verdict_on_tipping_shows_its_moments():
    """The share of the steadying moment that is used, with both moments as working."""
    verdict = tipping_verdict(Edge(((0, 0), (1, 0)), 50_000, 100_000))
    assert (verdict.word, verdict.figure, verdict.limit, verdict.unit) == (Word.WITHIN, 50, 100, "%")
    assert verdict.working == (("tipping moment", "50000 N·mm"), ("steadying moment", "100000 N·mm"))


def test_standing_things_outside_their_range_are_refused():
    """Numbers that no standing thing has are refused by name."""
    part = [StandingPart(10, 200, 150, 500)]
    with refused("unsuitable-shape", "feet_mm"):
        tipping([(0, 0), (100, 0), (200, 0)], part)
    with refused("out-of-range", "feet_mm"):
        tipping([], part)
    with refused("out-of-range", "feet_mm[1]"):
        tipping([(0, 0), (0, 100_001), (1, 1)], part)
    with refused("out-of-range", "parts"):
        tipping(PLINTH, [])
    for name in ("mass_kg", "x_mm", "y_mm", "height_mm"):
        with refused("out-of-range", f"parts[0].{name}"):
            tipping(PLINTH, [part[0]._replace(**{name: float("nan")})])
    for name in Push._fields:
        with refused("out-of-range", f"pushes[0].{name}"):
            tipping(PLINTH, part, [Push()._replace(**{name: 1e7})])
    check_limits(lambda fall_mm_m: tipping(PLINTH, part, [], fall_mm_m), {"fall_mm_m": 0}, "fall_mm_m", 0, 100)
    check_limits(lambda fall_mm_m: sliding_n(part, [], 0.3, fall_mm_m), {"fall_mm_m": 0}, "fall_mm_m", 0, 100)
    check_limits(lambda friction: sliding_n(part, [], friction), {"friction": 0.2}, "friction", 1e-6, 1)
    for name in ("pushed_n", "held_n"):
        check_limits(sliding_verdict, {"pushed_n": 1, "held_n": 1}, name, 0, 1e9)
