"""What a long rail's fixings carry, held against tables of continuous beams and a stiffness method."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fieldbook.checks.face_load import Force, resultant
from fieldbook.checks.fixing_forces import Contact, Fixing, carried
from fieldbook.checks.rail import continuous_shares, jointed_shares, rail_carried
from tests.checks.refusals import refused


@st.composite
def beams(draw):
    """Two to eight supports, and a load on the beam or past an end of it."""
    gaps = draw(st.lists(st.floats(20, 1500), min_size=1, max_size=7))
    supports = [0.0]
    for gap in gaps:
        supports.append(supports[-1] + gap)
    return supports, draw(st.floats(-300, supports[-1] + 300))


# Lindeburg, Civil Engineering Reference Manual, 15th ed.: two equal spans, P in the middle of each: 5/16, 11/8, 5/16.
def test_two_equal_spans_agree_with_the_manual():
    """Loads in the middle of two spans press the middle support with eleven eighths of one of them."""
    both = [continuous_shares([0, 500, 1000], at) for at in (250, 750)]
    assert [sum(each) for each in zip(*both, strict=True)] == pytest.approx([5 / 16, 11 / 8, 5 / 16])


# Hicks, Civil Engineering Formulas, Table 2.1: uniform load on equal spans, reactions 3/8, 10/8; 4/10, 11/10; 11/28,
# 32/28, 26/28 of the load on one span (sums of the shears left and right of each support).
@pytest.mark.parametrize(
    ("spans", "expected"),
    [(2, [3 / 8, 10 / 8]), (3, [4 / 10, 11 / 10]), (4, [11 / 28, 32 / 28, 26 / 28])],
)
def test_equal_spans_under_even_load_agree_with_the_table(spans, expected):
    """Many small loads along equal spans add up to the table's reactions."""
    supports, parts = [1000 * number for number in range(spans + 1)], 400
    whole = np.zeros(spans + 1)
    for number in range(spans * parts):
        whole += continuous_shares(supports, (number + 0.5) * 1000 / parts)
    # 1e-4: the load comes in 400 parts a span
    assert whole[: len(expected)] / parts == pytest.approx(expected, abs=1e-4)


def by_stiffness(supports, at):
    """The same beam by another method: bending stiffness of its pieces, supports held by very stiff springs."""
    nodes = sorted({*supports, at})
    size = 2 * len(nodes)
    stiffness, load = np.zeros((size, size)), np.zeros(size)
    for place, (left, right) in enumerate(zip(nodes, nodes[1:], strict=False)):
        h = (right - left) / 1000
        piece = [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h]]
        piece += [[-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
        stiffness[2 * place : 2 * place + 4, 2 * place : 2 * place + 4] += np.array(piece) / h**3
    load[2 * nodes.index(at)] = 1
    held = [2 * nodes.index(support) for support in supports]
    free = [place for place in range(size) if place not in held]
    moved = np.zeros(size)
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], load[free])
    return load[held] - (stiffness @ moved)[held] if at not in supports else load[held]


@given(beams())
def test_continuous_beam_agrees_with_a_stiffness_method(beam):
    """Three moments and bending stiffness give the same shares, overhangs among them."""
    supports, at = beam
    assume(min(abs(at - support) for support in supports) > 1)
    expected = by_stiffness(supports, at)
    # A held place gives the force on the beam; the support gets the opposite.
    assert continuous_shares(supports, at) == pytest.approx(list(expected), rel=1e-5, abs=1e-5 * max(abs(expected)))


@given(beams())
def test_shares_balance_the_load(beam):
    """Shares add up to the load and its moment, jointed or continuous."""
    supports, at = beam
    for shares in (jointed_shares(supports, at), continuous_shares(supports, at)):
        assert math.fsum(shares) == pytest.approx(1, abs=1e-9)
        place = math.fsum(share * support for share, support in zip(shares, supports, strict=True))
        assert place == pytest.approx(at, abs=1e-6 * max(1, abs(at)) * max(1, *map(abs, shares)))


def test_load_on_a_support_is_on_that_alone():
    """A load straight over a support goes there, and one past the end lifts the next."""
    assert jointed_shares([0, 400, 800], 400) == [0, 1, 0]
    assert continuous_shares([0, 400, 800], 400) == pytest.approx([0, 1, 0])
    assert jointed_shares([0, 400], 500) == [-0.25, 1.25]
    assert continuous_shares([0, 400], 500) == pytest.approx([-0.25, 1.25])


ROW = [Fixing(x, 50) for x in (0, 400, 800, 1200)]
BACK = Contact([(-20, 0), (1220, 0), (1220, 80), (-20, 80)])


# By hand: 12 kg over the second of four screws: rigid 0.25 + 0.1 = 0.3, jointed and continuous the whole.
def test_thing_over_a_fixing_hangs_on_that_one():
    """A supple rail hands a load to the fixing it hangs under."""
    found = rail_carried(ROW, [Force(0, -117.72, 0, 400, 0, 60)], BACK)
    rigid = carried(ROW, resultant([Force(0, -117.72, 0, 400, 0, 60)]), BACK)
    assert found[1].shear_n == pytest.approx(117.72)
    assert rigid[1].shear_n < 80
    assert found[1].pull_n > 2 * rigid[1].pull_n
    for each, other in zip(found, rigid, strict=True):
        assert each.shear_n >= other.shear_n - 1e-9
        assert each.pull_n >= other.pull_n - 1e-9


def test_one_fixing_of_a_rail_pulls_as_a_plate_of_its_own():
    """What a load does to the one fixing it hangs under is what it does to a bracket of the rail's section."""
    found = rail_carried(ROW, [Force(0, -117.72, 0, 400, 0, 60)], BACK, 5_000)
    strip = Contact([(200, 0), (600, 0), (600, 80), (200, 80)])
    (alone,) = carried([Fixing(400, 50)], resultant([Force(0, -117.72, 0, 400, 0, 60)]), strip, 5_000)
    assert found[1].pull_n == pytest.approx(alone.pull_n)


# Three supports, loads in the middle of both spans: 11/8 of one load on the middle (the manual), not 1 as if jointed.
def test_rail_that_runs_through_presses_its_middle_harder():
    """A continuous rail's middle fixing carries more than its neighbours' halves."""
    loads = [Force(0, -100, 0, x, 0, 40) for x in (200, 600)]
    found = rail_carried(ROW[:3], loads, Contact([(0, 0), (800, 0), (800, 80), (0, 80)]))
    assert found[1].shear_n == pytest.approx(137.5)


def test_things_hung_from_a_ceiling_rail_pull_their_nearest_fixing():
    """On a ceiling the whole share is straight pull."""
    found = rail_carried(ROW, [Force(0, 0, 200, 1200, 50, 90)], Contact())
    assert found[3].pull_n == pytest.approx(200)
    assert found[3].shear_n == pytest.approx(0)


def test_rail_of_two_rows_shares_within_each_column():
    """Fixings above one another share what comes to their place along the rail."""
    pairs = [Fixing(x, z) for x in (0, 500, 1000) for z in (0, 60)]
    found = rail_carried(pairs, [Force(0, -90, 0, 500, 30, 50)], Contact())
    assert [each.shear_n for each in found[2:4]] == pytest.approx([45, 45])
    assert found[3].pull_n == pytest.approx(90 * 50 / 60)  # turns about the lower one
    wedged = rail_carried([*pairs, Fixing(250, 20, holds=False)], [Force(0, -90, 0, 500, 30, 50)], Contact())
    assert wedged[-1].force_n == 0


def test_short_piece_with_one_column_is_a_plate():
    """What has only one place along it is no rail."""
    pair = [Fixing(0, 0), Fixing(0.5, 60)]
    load = [Force(0, -90, 0, 0.25, 30, 50)]
    assert rail_carried(pair, load, Contact()) == carried(pair, resultant(load), Contact())


def test_what_presses_or_lifts_is_not_counted_on_locally():
    """A push on the rail does not slacken the fixing it happens to be near."""
    tug, push = Force(0, 0, 150, 400, 50, 0), Force(0, 0, -150, 420, 50, 0)
    assert rail_carried(ROW, [tug, push], BACK)[1].pull_n == pytest.approx(rail_carried(ROW, [tug], BACK)[1].pull_n)


def test_beams_outside_their_range_are_refused():
    """Supports that are no row of supports are refused by name."""
    for shares in (jointed_shares, continuous_shares):
        with refused("out-of-range", "supports_mm"):
            shares([0], 0)
        with refused("unsuitable-shape", "supports_mm[1]"):
            shares([0, 0], 0)
        with refused("out-of-range", "supports_mm[1]"):
            shares([0, 100_001], 0)
        with refused("out-of-range", "at_mm"):
            shares([0, 1], float("nan"))
    with refused("missing", "fixings"):
        rail_carried([Fixing(0, 0, holds=False)], [], Contact())
    with refused("unsuitable-shape", "fixings"):
        rail_carried(ROW, [Force(0, -90, 0, 500, 30, 50)], Contact(pads_mm=[(500, 70)]))


def test_rows_set_out_a_millimetre_apart_share_as_those_that_stand_above_one_another():
    """Eight screws of two rows, each a little beside the one below it, carry what they would in line, and not tons."""
    case = Force(0, -188, 40, 410, 300, 92)
    true = [Fixing(x, z) for z in (110, 600) for x in (60, 300, 540, 760)]
    measured = [
        fixing._replace(x_mm=fixing.x_mm + off) for fixing, off in zip(true, (1, 3, -2, 2, 2, -1, 3, -2), strict=True)
    ]
    outline = Contact([(0, 0), (820, 0), (820, 620), (0, 620)])
    for one, other in zip(rail_carried(measured, [case], outline), rail_carried(true, [case], outline), strict=True):
        assert one.force_n == pytest.approx(other.force_n, rel=0.05, abs=2)


def test_weight_along_a_rail_turns_no_single_fixing():
    """A channel upright on a wall, its pads a millimetre off its middle: a seventh of 70 N along it is on each pad."""
    row = [Fixing(x, 1.0) for x in range(0, 1400, 200)]
    pads = Contact([(0, -30), (1200, -30), (1200, 30), (0, 30)])
    for each in rail_carried(row, [Force(-70, 0, 0, 600, 0, 8)], pads):
        assert each.shear_n == pytest.approx(10, rel=0.05)
