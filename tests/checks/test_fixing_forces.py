"""What each fixing carries of loads in space: figures by hand, balance, and which way is worse."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fieldbook.checks.face_load import Force, people, resultant, weight
from fieldbook.checks.fixing_forces import Carried, Contact, Fixing, carried, holding, worst
from tests.checks.refusals import refused

SHARES = st.floats(0.05, 0.95)
SHELF = [(0, 0), (800, 0), (800, 300), (0, 300)]
FOUR = [Fixing(100, 250), Fixing(700, 250), Fixing(100, 50), Fixing(700, 50)]


@st.composite
def works(draw):
    """A rectangular work with fixings, a weight in front of it, and a lean of the face."""
    wide, high = draw(st.floats(80, 2000)), draw(st.floats(80, 1500))
    places = draw(st.lists(st.tuples(SHARES, SHARES), min_size=1, max_size=6))
    fixings = [Fixing(x * wide, z * high) for x, z in places]
    assume(len({(round(each.x_mm), round(each.z_mm)) for each in fixings}) > 1)
    centre = (draw(SHARES) * wide, draw(SHARES) * high, draw(st.floats(5, 400)))
    outline = [(0, 0), (wide, 0), (wide, high), (0, high)]
    return fixings, outline, draw(st.floats(0.5, 80)), centre, draw(st.sampled_from([0, 0, 20, 60, 90]))


# 60 kg · 9.81 / 2 = 294.3 N each, straight out; not 12.7 N as if they hung on a wall.
def test_weight_overhead_pulls_its_screws_straight_out():
    """Two screws in a ceiling carry half the weight each as pull, and no shear."""
    load = resultant([weight(60, (0, 0, 150), 90)])
    for each in carried([Fixing(-200, 0), Fixing(200, 0)], load, Contact()):
        assert (each.pull_n, each.shear_n) == pytest.approx((294.3, 0))


# By hand on a soffit at 60° from plumb: 40 kg · 9.81 = 392.4 N, of which sin 60° pulls out and cos 60° runs down.
def test_weight_on_a_raking_soffit_is_parted_by_its_lean():
    """Shear and pull on a soffit are the parts of the weight along and out of it."""
    four = [Fixing(x, z) for x in (-150, 150) for z in (-150, 150)]
    load = resultant([weight(40, (0, 0, 0), 60)])
    for each in carried(four, load, Contact()):
        assert each.pull_n == pytest.approx(392.4 * math.sin(math.radians(60)) / 4)
        assert each.shear_n == pytest.approx(392.4 * math.cos(math.radians(60)) / 4)


# 15 kg · 9.81 at 100 mm on two rows 100 mm apart: 147.15 · 100 / 100 / 2 = 73.6 N; about the foot of a back that hangs
# 1.8 m below, on hard ground, 147.15 · 100 / 1800 / 2 = 4.1 N.
def test_work_on_packers_turns_about_its_packers():
    """Blocks between work and wall carry the pressure, however far the work hangs below them."""
    four = [Fixing(x, z) for x in (0, 600) for z in (0, 100)]
    load = resultant([weight(15, (300, 50, 100))])
    for contact in (Contact(), Contact(pads_mm=[(0, 0), (600, 0)])):
        assert max(each.pull_n for each in carried(four, load, contact)) == pytest.approx(73.575, abs=0.001)
    backed = Contact([(0, -1750), (600, -1750), (600, 150), (0, 150)])
    assert max(each.pull_n for each in carried(four, load, backed, 100)) < 6


# Prying by hand, T = F·(1 + a/b): 120 N at 20 mm outside the screw, toe 20 mm beyond it; 30 and 15 mm; 10 and 30 mm.
@pytest.mark.parametrize(("outside", "beyond", "factor"), [(20, 20, 2), (30, 15, 3), (10, 30, 4 / 3)])
def test_pull_beside_a_fixing_pries_about_the_toe(outside, beyond, factor):
    """A pull beside a fixing is levered up by what bears on the other side."""
    load = resultant([Force(0, 0, 120, 0, outside, 0)])
    (each,) = carried([Fixing(0, 0)], load, Contact(pads_mm=[(0, -beyond)]))
    assert each.pull_n == pytest.approx(120 * factor)


def test_wedge_takes_no_share_and_makes_nobodys_smaller():
    """A wedge among the fixings leaves nobody with less than without it."""
    load = resultant([weight(20, (400, 150, 120))])
    alone = carried(FOUR, load, Contact(SHELF))
    wedged = carried([*FOUR, Fixing(400, 20, holds=False)], load, Contact(SHELF))
    assert wedged[-1] == Carried(0, 0, 0)
    assert [each.shear_n for each in wedged[:-1]] == pytest.approx([each.shear_n for each in alone])
    for before, after in zip(alone, wedged, strict=False):
        assert after.pull_n >= before.pull_n - 1e-6
    # By hand: a row of two that leans on wedges 200 mm below, 20 kg at 120 mm: 196.2 · 120 / 200 / 2 each
    row = [*FOUR[:2], Fixing(100, 50, holds=False), Fixing(700, 50, holds=False)]
    assert [each.pull_n for each in carried(row, load, Contact())] == pytest.approx([58.86, 58.86, 0, 0])
    with refused("missing", "fixings"):
        holding([Fixing(0, 0, holds=False)])


@given(works())
def test_shear_and_pull_balance_the_loads(work):
    """Shear adds up to the load along the face and its turning; pull and pressure within the outline to the rest."""
    fixings, outline, mass, centre, slope = work
    load = resultant([weight(mass, centre, slope)])
    found = carried(fixings, load, Contact(outline), 5_000)
    noise = 1e-6 * mass * 9.81
    assert math.fsum(each.x_n for each in found) == pytest.approx(load.x_n, abs=noise)
    assert math.fsum(each.z_n for each in found) == pytest.approx(load.z_n, abs=noise)
    turn = math.fsum(
        fixing.x_mm * each.z_n - fixing.z_mm * each.x_n for fixing, each in zip(fixings, found, strict=True)
    )
    assert turn == pytest.approx(load.turn_nmm, abs=noise * 2000)
    pressure = math.fsum(each.pull_n for each in found) - load.out_n
    wide, high = outline[2]
    over = math.fsum(fixing.z_mm * each.pull_n for fixing, each in zip(fixings, found, strict=True)) - load.top_nmm
    assert pressure >= -noise
    assert -noise * high <= over <= (pressure + noise) * high


@given(works(), st.floats(1, 4))
def test_more_of_the_same_load_is_never_less_pull_or_shear(work, factor):
    """A heavier thing at the same place pulls and shears every fixing at least as hard."""
    fixings, outline, mass, centre, slope = work
    light, heavy = (
        carried(fixings, resultant([weight(mass * part, centre, slope)]), Contact(outline)) for part in (1, factor)
    )
    for before, after in zip(light, heavy, strict=True):
        assert after.pull_n >= before.pull_n - 1e-5 * mass * 9.81
        assert after.shear_n >= before.shear_n - 1e-9


@given(works(), st.floats(0, 300))
def test_further_out_is_never_less_pull_on_the_hardest_pulled(work, further):
    """A centre of mass further out of a plumb wall never eases the hardest pulled fixing."""
    fixings, outline, mass, (x, z, out), _ = work
    near, far = (
        carried(fixings, resultant([weight(mass, (x, z, standoff))]), Contact(outline), 10_000)
        for standoff in (out, out + further)
    )
    assert max(each.pull_n for each in far) >= max(each.pull_n for each in near) - 1e-5 * mass * 9.81


@given(works(), SHARES, SHARES)
def test_nobody_pulls_harder_elsewhere_than_at_a_corner(work, across, up):
    """No fixing is pulled harder by a person at any point of the outline than by the worst corner."""
    fixings, outline, mass, centre, slope = work
    wide, high = outline[2]
    always = weight(mass, centre, slope)
    cases = [
        carried(fixings, resultant([always, pull]), Contact(outline), 10_000) for pull in people(outline, 0, 400, 0)
    ]
    corner = max(each.pull_n for each in worst(cases))
    inside = carried(
        fixings, resultant([always, Force(0, 0, 400, across * wide, up * high, 0)]), Contact(outline), 10_000
    )
    assert max(each.pull_n for each in inside) <= corner * (1 + 1e-5) + 1e-3


def test_worst_of_cases_takes_shear_and_pull_each_where_they_are_greatest():
    """The case of most shear and the case of most pull may be different ones."""
    cases = [[Carried(0, -50, 20), Carried(3, 4, 0)], [Carried(30, -30, 80), Carried(0, 0, 1)]]
    assert worst(cases) == [Carried(0, -50, 80), Carried(3, 4, 1)]
    assert worst([[Carried(3, 4, 12)]])[0].force_n == 13


def test_unknown_ground_is_the_worse_of_soft_and_firm():
    """Where nobody knows how the ground gives, each fixing counts at its worst."""
    load = resultant([weight(20, (400, 150, 120)), Force(0, 0, 150, 700, 50, 0)])
    unknown = carried(FOUR, load, Contact(SHELF))
    for softness in (100, 333.3, 10_000):
        for worst_of, each in zip(unknown, carried(FOUR, load, Contact(SHELF), softness), strict=True):
            # 3 % of the hardest pulled: what lies between the two kinds of ground that are tried
            assert worst_of.pull_n >= each.pull_n - 0.03 * max(pulled.pull_n for pulled in unknown)
    assert max(each.pull_n for each in unknown) == pytest.approx(
        max(each.pull_n for each in carried(FOUR, load, Contact(SHELF), 10_000)), rel=1e-6
    )


# By hand: 20 kg at 120 mm turn a row of two about the lower edge of its spacers of 80 mm², √80/2 = 4.47 mm below.
def test_row_that_bears_on_its_spacers_turns_about_their_edge():
    """One row with only its own spacers to lean on is pulled very hard, and so is a pair a little out of line."""
    load = resultant([weight(20, (400, 150, 120))])
    for each in carried(FOUR[:2], load, Contact()):
        assert each.pull_n == pytest.approx(196.2 * 120 / 4.472 / 2, rel=0.001)
    upright = [Fixing(400, 250), Fixing(401, 50)]
    above, below = carried(upright, load, Contact())
    # 117.7 N for a pair in line; 1 mm in 200 out of it is taken up on the width of the spacers
    assert 117 < above.pull_n < 190
    assert below.pull_n < 60


def test_load_that_nothing_balances_is_refused():
    """A work that can only fall is told as that."""
    load = resultant([weight(20, (400, 150, 120))])
    with refused("unsuitable-shape", "fixings"):
        carried(FOUR[:2], load, Contact(pads_mm=[(400, 290)]))
    with refused("unsuitable-shape", "fixings_mm"):
        carried([Fixing(0, 0)], load, Contact(SHELF))


def test_groups_outside_their_range_are_refused():
    """Numbers that no group has are refused by name."""
    load = resultant([])
    assert carried(FOUR, load, Contact()) == [Carried(0, 0, 0)] * 4
    with refused("out-of-range", "fixings"):
        carried([], load, Contact())
    with refused("out-of-range", "fixings"):
        carried([Fixing(x, 0) for x in range(1001)], load, Contact())
    with refused("out-of-range", "fixings[1]"):
        carried([Fixing(0, 0), Fixing(0, 100_001)], load, Contact())
    with refused("out-of-range", "fixings[0].size"):
        carried([Fixing(0, 0, 0)], load, Contact())
    for softness in (99, 1_000_001, float("nan")):
        with refused("out-of-range", "softness_mm2"):
            carried(FOUR, load, Contact(), softness)
    with refused("out-of-range", "pad_mm2"):
        carried(FOUR, load, Contact(pad_mm2=0))
    with refused("unsuitable-shape", "outline_mm"):
        carried(FOUR, load, Contact([(0, 0), (1, 1)]))
    with refused("out-of-range", "contact"):
        carried(FOUR, load, Contact(pads_mm=[(0, float("inf"))]))


def test_row_set_out_a_millimetre_off_its_line_leans_on_its_props():
    """Four clamps in a row at 1,165 mm, feet at 5 mm: 250 N at 2,080 mm pull 250 × 2,075/1,160 = 447 N, not tons."""
    clamps = [Fixing(x, z) for x, z in ((37, 1165), (901, 1166), (1775, 1164), (2642, 1165))]
    props = [Fixing(x, 5, holds=False) for x in (36, 2640)]
    load = resultant([Force(0, 0, 250, 1340, 2080, 48)])
    pulls = [each.pull_n for each in carried([*clamps, *props], load, Contact())]
    assert sum(pulls) == pytest.approx(250 * 2075 / 1160, rel=0.05)
