"""Plates between fixings that only pull and ground that only presses, held against closed forms and other solvers."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, example, given, reject
from hypothesis import strategies as st
from scipy.optimize import linprog, minimize

from fieldbook.checks.plate_contact import FIRMNESS, SOFT_MM2, Bed, Spring, pulls_n
from fieldbook.errors import UnsuitableShape
from tests.checks.refusals import refused

SIZES = st.floats(60, 2500).map(lambda number: round(number, 1))
SHARES = st.floats(0.03, 0.97)


def rectangle(wide, high):
    return [(0, 0), (wide, 0), (wide, high), (0, high)]


@st.composite
def plates(draw, most=6):
    """A rectangle with fixings inside it, and a load that tips, pulls or presses it."""
    wide, high = draw(SIZES), draw(SIZES)
    places = draw(st.lists(st.tuples(SHARES, SHARES), min_size=1, max_size=most))
    fixings = [Spring(round(x * wide, 2), round(z * high, 2), draw(st.floats(0.5, 2))) for x, z in places]
    out = draw(st.sampled_from([0.0, 0.0, 300.0, -150.0]))
    x, z = draw(SHARES) * wide, draw(SHARES) * high
    tip, swing = draw(st.integers(-600, 600)) * 100.0, draw(st.sampled_from([0.0, 8_000.0, -20_000.0]))
    load = (out, out * x + swing, out * z + tip)
    assume(max(abs(part) for part in load) > 1)
    return fixings, rectangle(wide, high), load


# ½·k_c·b·x² = k_f·(d − x), T = M/(d − x/3): cracked-section algebra for one fixing, worked apart; two rows and a
# straight pull by a separate solver.
@pytest.mark.parametrize(
    ("wide", "high", "heights", "stiffness", "bedding", "out", "moment", "expected"),
    [
        (100, 150, [150], 10_000, 10, 0, 30_000, [222.59]),
        (100, 150, [150], 10_000, 1, 0, 30_000, [257.14]),
        (100, 150, [150], 10_000, 100, 0, 30_000, [207.54]),
        (60, 80, [80], 4_000, 5, 0, 12_000, [175.39]),
        (100, 150, [130, 20], 10_000, 10, 0, 30_000, [258.59, 0]),
        (100, 150, [130, 20], 10_000, 10, 200, 30_000, [358.23, 0]),
    ],
)
def test_pulls_agree_with_worked_plates(wide, high, heights, stiffness, bedding, out, moment, expected):
    """Plates worked apart pull on their fixings as worked."""
    fixings = [Spring(wide / 2, height, stiffness) for height in heights]
    load = (out, out * wide / 2, moment + out * high / 2)
    # 0.01 N: worked with two decimals
    assert pulls_n(fixings, load, bed=Bed(rectangle(wide, high), bedding)) == pytest.approx(expected, abs=0.01)


# Hibbeler, Mechanics of Materials, transformed-section example (attribution from memory): cracked beam 12 in wide, bars
# 16 in deep, two of 1 in, E 29 000 and 3600 ksi, 60 kip·ft: neutral axis at 4.85 in, bars 31.87 ksi.
def test_cracked_concrete_beam_is_the_same_algebra():
    """A reinforced beam's bars pull as the textbook's transformed section says."""
    bars, ratio = math.pi / 2, 29_000 / 3_600
    fixing = Spring(6, 16, ratio * bars)
    (pull,) = pulls_n([fixing], (0, 0, 60 * 12), bed=Bed(rectangle(12, 16), 1))
    # 0.01 ksi: printed with two decimals
    assert pull / bars == pytest.approx(31.87, abs=0.01)


# AISC Design Guide 1, 2nd ed. (2006), example B.5.2: 90 kip down, 720 kip·in, plate 14 × 14 in, bolts 1.5 in from the
# edge; with a pressure of 3.06 ksi at the edge it finds 5.28 in of contact and 23.1 kip in the bolts.
def test_pull_of_the_design_guides_base_plate_balances_its_contact():
    """With the bedding that gives the guide's edge pressure, the bolts pull as in the guide."""
    length, edge = 5.2817, 3.06
    off = edge / length  # inches drawn out per inch, for a bedding of 1 kip/in³
    pull = length * edge * 14 / 2 - 90
    bolts = pull / (off * (12.5 - length))
    (found,) = pulls_n([Spring(7, 12.5, bolts)], (-90, -90 * 7, 720 - 90 * 7), bed=Bed(rectangle(14, 14), 1))
    assert found == pytest.approx(23.13, abs=0.01)


# Rigid plate on its very edge, T = M·y/Σy²; the last row from a textbook bracket (Khurmi & Gupta, A Textbook of Machine
# Design, ch. 11, attribution from memory), whose equivalent tension ½·[T + √(T² + 4·S²)] with S = 7.5 kN is 29.143 kN.
@pytest.mark.parametrize(
    ("heights", "moment", "expected"),
    [
        ([150, 150, 30, 30], 24_000, [76.923, 76.923, 15.385, 15.385]),
        ([180, 120, 60], 15_000, [53.571, 35.714, 17.857]),
        ([280], 15_000, [53.571]),
        ([250, 250, 80, 80], 15_000_000, [27_213, 27_213, 8_708, 8_708]),
    ],
)
def test_textbook_rule_is_the_limit_on_unyielding_ground(heights, moment, expected):
    """The firmer the ground, the nearer the plate comes to turning about its very edge."""
    fixings = [Spring(30 + 40 * (place % 2), height, 1) for place, height in enumerate(heights)]
    if len(heights) % 2:
        fixings = [Spring(50, height, 1) for height in heights]
    found = pulls_n(fixings, (0, 0, moment), bed=Bed(rectangle(100, 300), 10))
    # 1 % of the greatest: the ground is firm, not unyielding
    assert found == pytest.approx(expected, abs=0.01 * expected[0])
    assert found[0] > expected[0]
    if expected[0] > 1000:
        assert (found[0] + math.sqrt(found[0] ** 2 + 4 * 7500**2)) / 2 == pytest.approx(29_143, rel=0.01)


def solved_apart(fixings, cells, load):
    """The same plate by another method: least energy over many small pads, by a general minimiser with its gradient."""
    points = np.array([(1, x, z) for x, z, _ in (*fixings, *cells)])
    scale = np.abs(points).max(axis=0)
    points = points / scale
    load = np.array(load) / scale
    size = np.abs(load).max()
    stiffness = np.array([k for _, _, k in (*fixings, *cells)])
    draws = np.arange(len(points)) < len(fixings)
    whole = points.T @ (stiffness[:, None] * points)
    lower = np.linalg.cholesky(whole)  # makes the search round

    def energy(place):
        off = points @ np.linalg.solve(lower.T, place)
        off = np.where(draws, np.maximum(off, 0), np.minimum(off, 0))
        wanted = np.linalg.solve(lower, load / size)
        force = np.linalg.solve(lower, points.T @ (stiffness * off))
        return stiffness @ off**2 / 2 - wanted @ place, force - wanted

    found = minimize(energy, np.zeros(3), jac=True, method="BFGS", options={"gtol": 1e-9, "maxiter": 2000})
    off = points[: len(fixings)] @ np.linalg.solve(lower.T, found.x)
    return size * stiffness[: len(fixings)] * np.maximum(off, 0)


@pytest.mark.parametrize("load", [(0, 0, 30_000), (120, 9_000, 31_000), (-60, 8_000, 12_000), (0, -9_000, 18_000)])
@pytest.mark.parametrize("softness", [300, 10_000])
def test_pulls_agree_with_another_solver(load, softness):
    """A fine net of small pads, settled by a general minimiser, gives the same pulls."""
    fixings = [Spring(30, 120, 1), Spring(150, 95, 1.5), Spring(60, 25, 1), Spring(170, 30, 1)]
    wide, high, net = 200, 140, 80
    cells = [
        Spring((i + 0.5) * wide / net, (j + 0.5) * high / net, wide * high / net**2 / softness)
        for i in range(net)
        for j in range(net)
    ]
    found = pulls_n(fixings, load, bed=Bed(rectangle(wide, high), 1 / softness))
    # 1 % of the greatest: the net is a hundred and fortieth of the plate
    assert found == pytest.approx(solved_apart(fixings, cells, load), abs=0.01 * max(found))
    assert pulls_n(fixings, load, pads=cells) == pytest.approx(
        solved_apart(fixings, cells, load), abs=1e-4 * max(found)
    )


def greatest_pull_by_plastic_sharing(fixings, corners, load):
    """The least that the greatest pull can be by any pulls and pressures whatever; None where none balance the load."""
    points = [*fixings, *corners]
    rows = [[(1 if place < len(fixings) else -1) * part for place, part in enumerate(parts)] for parts in lines(points)]
    size = max(abs(part) for part in load)
    rows = [[*row, 0] for row in rows]
    below = [[float(place == at) for place in range(len(points))] + [-1.0] for at in range(len(fixings))]
    found = linprog(
        [0.0] * len(points) + [1.0],
        A_ub=below,
        b_ub=[0.0] * len(fixings),
        A_eq=rows,
        b_eq=[load[0] / size, load[1] / size / 1000, load[2] / size / 1000],
    )
    return found.fun * size if found.status == 0 else None


def lines(points):
    return [1.0 for _ in points], [point[0] / 1000 for point in points], [point[1] / 1000 for point in points]


def pulls_if_balanced(*plate: Any, **ground: Any) -> Any:
    """The pulls on a plate; one in some ten thousand that could just balance is refused, which is the safe side."""
    try:
        return pulls_n(*plate, **ground)
    except UnsuitableShape:
        reject()


@given(plates())
def test_greatest_pull_is_never_below_the_least_possible(plate):
    """No sharing of the load whatever has a lower greatest pull than the least that balance allows."""
    fixings, corners, load = plate
    least = greatest_pull_by_plastic_sharing(fixings, corners, load)
    found = pulls_if_balanced(fixings, load, bed=Bed(corners, 1 / SOFT_MM2))
    assert max(found) >= least - 1e-6 * max(1, least)


@given(plates(), st.sampled_from(FIRMNESS))
def test_pulls_can_be_balanced_by_pressure_alone(plate, firmness):
    """What the fixings do not carry of the load is pressure inside the outline, to a millionth of the load."""
    fixings, corners, load = plate
    found = pulls_if_balanced(fixings, load, bed=Bed(corners, firmness / SOFT_MM2))
    pressure = math.fsum(found) - load[0]
    middle_x = math.fsum(pull * fixing.x_mm for pull, fixing in zip(found, fixings, strict=True)) - load[1]
    middle_z = math.fsum(pull * fixing.z_mm for pull, fixing in zip(found, fixings, strict=True)) - load[2]
    (_, _), (wide, _), (_, high), _ = corners
    noise = 1e-6 * max(abs(load[0]), abs(load[1]) / wide, abs(load[2]) / high)
    assert pressure >= -noise
    assert -noise * wide <= middle_x <= pressure * wide + noise * wide
    assert -noise * high <= middle_z <= pressure * high + noise * high
    if pressure <= noise:
        assert abs(middle_x) <= noise * wide
        assert abs(middle_z) <= noise * high


@given(plates(), st.floats(1, 50))
def test_pulls_grow_with_the_load(plate, factor):
    """A load so many times as large pulls so many times as hard."""
    fixings, corners, load = plate
    once = pulls_if_balanced(fixings, load, bed=Bed(corners, 1 / SOFT_MM2))
    more = pulls_if_balanced(fixings, tuple(factor * part for part in load), bed=Bed(corners, 1 / SOFT_MM2))
    assert more == pytest.approx([factor * pull for pull in once], rel=1e-4, abs=1e-5 * factor * max(once))


@given(plates(most=4))
def test_plate_is_refused_only_where_nothing_can_balance_it(plate):
    """A plate that bears at its fixings alone is refused only where no pulls and pressures there balance the load."""
    fixings, _, load = plate
    pads = [Spring(x, z, 0.04) for x, z, _ in fixings]
    least = greatest_pull_by_plastic_sharing(fixings, [(x, z) for x, z, _ in fixings], load)
    try:
        found = pulls_n(fixings, load, pads)
    except UnsuitableShape:
        # Fixings so nearly in one row that the greatest pull runs into thousands of times the load
        assert least is None or least > 1000 * max(abs(load[0]), 1)
    else:
        assert least is not None
        assert max(found) >= least * (1 - 1e-6) - 1e-6


def test_ground_from_soft_to_firm_gives_each_fixing_its_worst():
    """Of several grounds each fixing gets its greatest pull."""
    fixings = [Spring(50, 130, 1), Spring(50, 20, 1)]
    bed = Bed(rectangle(100, 150), 1 / SOFT_MM2)
    apart = [pulls_n(fixings, (0, 0, 30_000), bed=bed, firmness=(factor,)) for factor in FIRMNESS]
    together = pulls_n(fixings, (0, 0, 30_000), bed=bed, firmness=FIRMNESS)
    assert together == pytest.approx([max(each) for each in zip(*apart, strict=True)], rel=1e-5)
    assert together[0] == pytest.approx(apart[0][0], rel=1e-6)
    assert together[1] == pytest.approx(apart[-1][1], rel=1e-5)


def test_outline_may_run_either_way_round_and_have_a_notch():
    """An outline is the same area from whichever corner and in whichever turn it is given."""
    notched = [(0, 0), (100, 0), (100, 150), (60, 150), (60, 60), (40, 60), (40, 150), (0, 150)]
    fixings = [Spring(20, 140, 1), Spring(80, 140, 1)]
    one, other = (pulls_n(fixings, (0, 5_000, 30_000), bed=Bed(each, 1e-3)) for each in (notched, notched[::-1]))
    assert one == pytest.approx(other, rel=1e-6)
    halves = [[(0, 0), (40, 0), (40, 60), (0, 60)]]
    assert one != pytest.approx(pulls_n(fixings, (0, 5_000, 30_000), bed=Bed(halves[0], 1e-3)), rel=1e-3)


# By hand: one fixing on the right edge of a plate, 300 mm up, that tips with 24 000 N·mm: the corner below takes 80 N.
def test_fixing_on_the_very_edge_turns_about_the_corner_below():
    """Where only pressure on the very edge balances, the edge's corners press."""
    (pull,) = pulls_n([Spring(400, 300, 1)], (0, 0, 24_000), bed=Bed(rectangle(400, 500), 1 / SOFT_MM2))
    assert pull == pytest.approx(80, rel=1e-3)


def test_plate_pressed_on_pulls_nothing():
    """A push inside the outline leaves the fixings idle."""
    assert pulls_n([Spring(50, 50, 1)], (-80, -4_000, -3_000), bed=Bed(rectangle(100, 100), 1e-3)) == [0]
    assert pulls_n([Spring(50, 50, 1)], (0, 0, 0), bed=Bed(rectangle(100, 100), 1e-3)) == [0]


@pytest.mark.parametrize(
    ("fixings", "load", "pads"),
    [
        ([(0, 0)], (0, 0, 900), []),
        ([(0, 0), (80, 0)], (0, 0, 900), [(0, 0), (80, 0)]),
        ([(0, 0), (80, 0)], (40, 1_600, 900), []),
        ([(0, 90), (80, 90)], (0, 0, -900), [(0, 0), (80, 0)]),
        ([(0, 0)], (-10, 0, 0), []),
    ],
)
def test_load_that_nothing_balances_is_refused(fixings, load, pads):
    """One fixing, one row and a load the wrong way are told as what they are."""
    with refused("unsuitable-shape", "fixings"):
        pulls_n([Spring(x, z, 1) for x, z in fixings], load, [Spring(x, z, 0.04) for x, z in pads])


@given(
    turned=st.floats(0, 2 * math.pi),
    apart_mm=st.floats(50, 900),
    pad_mm2=st.sampled_from((30.0, 80.0, 300.0)),
    moment_nmm=st.floats(1e3, 3e5),
    out_n=st.sampled_from((0.0, 89.3, 300.0)),
)
@example(turned=0.28, apart_mm=738, pad_mm2=30.0, moment_nmm=266774, out_n=0.0)
@example(turned=5.57, apart_mm=602, pad_mm2=30.0, moment_nmm=31917, out_n=0.0)
def test_two_fixings_alone_hold_by_the_width_of_their_pads(turned, apart_mm, pad_mm2, moment_nmm, out_n):
    """What tips about the line through them is held, however hard: by at least the moment over half a pad's width.

    Worked by hand: no corner of a square pad lies farther from that line than half its side times |cos| + |sin|.
    """
    along, up = math.cos(turned), math.sin(turned)
    fixings = [Spring(300 + along * apart_mm * end, 200 + up * apart_mm * end, 1.0) for end in (0, 1)]
    half = pad_mm2**0.5 / 2
    pads = [
        Spring(fixing.x_mm + i, fixing.z_mm + j, pad_mm2 / 4 / SOFT_MM2)
        for fixing in fixings
        for i in (-half, half)
        for j in (-half, half)
    ]
    middle_x, middle_z = (sum(fixing[axis] for fixing in fixings) / 2 for axis in (0, 1))
    load = (out_n, out_n * middle_x - up * moment_nmm, out_n * middle_z + along * moment_nmm)
    pulls = pulls_n(fixings, load, pads, firmness=FIRMNESS)
    least = moment_nmm / (half * (abs(along) + abs(up)))
    assert sum(pulls) >= least * (1 - 1e-6)
