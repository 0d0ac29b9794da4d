"""Forces on groups of fixings, held against a textbook's bracket, worked brackets, and balance itself."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import fixing_group
from fieldbook.checks.fixing_group import Plate, shear_parts_n, tension_n
from fieldbook.checks.verdict import Word
from fieldbook.errors import Missing
from tests.checks.refusals import NO_FIGURES, check_limits, refused

BRACKET = {
    "fixings_mm": [[-40, 150], [40, 150], [-40, 30], [40, 30]],
    "load_n": [0, -200],
    "at_mm": [0, 90],
    "standoff_mm": 120,
}
ONE = [(0.0, 0.0)]

PLACES = st.floats(-3000, 3000, allow_nan=False).map(lambda number: round(number, 1))
POINTS = st.tuples(PLACES, PLACES)
LOADS = st.floats(-5000, 5000, allow_nan=False).map(lambda number: round(number, 1))
FORCES = st.tuples(LOADS, LOADS)


@st.composite
def groups(draw):
    """Two to twelve fixings not all at one point, and for each how large it is."""
    fixings = draw(st.lists(POINTS, min_size=2, max_size=12))
    assume(len(set(fixings)) > 1)
    sizes = st.lists(st.floats(0.5, 4), min_size=len(fixings), max_size=len(fixings))
    return fixings, draw(st.none() | sizes)


def resultants(fixings, load, at, areas=None):
    return [math.hypot(*part) for part in shear_parts_n(fixings, load, at, areas)]


# Shigley, 9th ed. (2011), example 8-7, p. 457: bolts at ±75, ±60 mm, 16 kN at 425 mm; 21.0 and 14.8 kN as printed.
def test_shear_agrees_with_the_textbook_bracket():
    """The near bolts of the textbook's bracket carry 21.0 kN, the far ones 14.8 kN."""
    bolts = [(75, 60), (75, -60), (-75, 60), (-75, -60)]
    found = resultants(bolts, (0, -16_000), (425, 0))
    # 0.05 kN: printed with one decimal
    assert found == pytest.approx([21_000, 21_000, 14_800, 14_800], abs=50)
    # the same example with four decimals, reckoned apart
    assert found[0] == pytest.approx(20_972.6, abs=0.1)
    assert found[2] == pytest.approx(14_788.8, abs=0.1)
    parts = shear_parts_n(bolts, (0, -16_000), (425, 0))
    assert parts[1] == pytest.approx((-11_056.9, -17_821.1), abs=0.1)


# Elastic vector method, reckoned apart with numpy; the second line also printed as 7.16 kN on an examination page.
@pytest.mark.parametrize(
    ("fixings", "load", "at", "areas", "expected"),
    [
        ([(40, 30), (40, -30), (-40, 30), (-40, -30)], (0, -10_000), (100, 0), None, [7158.9, 7158.9, 3354.1, 3354.1]),
        ([(0, 50), (0, -50)], (0, -200), (60, 0), None, [156.205, 156.205]),
        ([(20, 30), (20, -30), (-20, 30), (-20, -30)], (0, -500), (120, 0), None, [496.381, 496.381, 361.953, 361.953]),
        ([(0, 0), (100, 0), (0, 80)], (0, -240), (150, 20), None, [68.503, 259.866, 136.691]),
        ([(0, 0), (100, 0), (0, 80)], (0, -240), (150, 20), [2, 1, 1], [97.581, 247.776, 146.345]),
    ],
)
def test_shear_agrees_with_worked_groups(fixings, load, at, areas, expected):
    """Groups worked apart come out the same."""
    # 0.1 N for the kilonewton row, whose figures have four decimals in kN; 0.001 N for the others
    tolerance = 0.1 if expected[0] > 1000 else 0.001
    assert resultants(fixings, load, at, areas) == pytest.approx(expected, abs=tolerance)


# Elastic vector method, reckoned apart: 4 at ±30, ±30, (100, -300) N at (90, 50), in no particular order.
def test_shear_agrees_with_a_slanting_load():
    """A load with both parts shares out as worked apart."""
    found = resultants([(-30, -30), (30, -30), (30, 30), (-30, 30)], (100, -300), (90, 50))
    assert sorted(found) == pytest.approx(sorted([261.672, 168.737, 123.040, 234.817]), abs=0.001)


# Elastic vector method by hand: 300 N at x = 400 on fixings at 0, 150 and 300: the first lifts.
def test_shear_of_a_row_overhung_lifts_the_far_fixing():
    """The far fixing of a row is pushed up, the near one down by more than the load."""
    parts = shear_parts_n([(0, 0), (150, 0), (300, 0)], (0, -300), (400, 0))
    assert parts == [(0, pytest.approx(150)), (0, pytest.approx(-100)), (0, pytest.approx(-350))]


@given(groups(), FORCES, POINTS)
@example(([(0.0, 0.0), (0.0, 100.0)], None), (0.0, -1.0), (500.0, 0.0))
def test_shear_balances_the_load_and_its_moment(group, load, at):
    """Whatever the group, what the fixings carry adds up to the load and its turning moment."""
    fixings, areas = group
    parts = shear_parts_n(fixings, load, at, areas)
    assert math.fsum(x for x, _ in parts) == pytest.approx(load[0], abs=1e-6)
    assert math.fsum(z for _, z in parts) == pytest.approx(load[1], abs=1e-6)
    moment = math.fsum(x * pz - z * px for (x, z), (px, pz) in zip(fixings, parts, strict=True))
    # moments run to some 1e7 N·mm, of which 1e-9 is arithmetic
    assert moment == pytest.approx(at[0] * load[1] - at[1] * load[0], rel=1e-9, abs=0.05)


# One-sided contact on ground of 10 000 mm²: ½·b·x² = A·(d − x) and T = M/(d − x/3), worked apart for one fixing;
# the rows of the textbook rule T = M·y/Σy², which holds on unyielding ground and so is the least there can be.
@pytest.mark.parametrize(
    ("heights", "load", "standoff", "rule"),
    [
        ([150, 150, 30, 30], 200, 120, [76.923, 76.923, 15.385, 15.385]),
        ([180, 120, 60], 150, 100, [53.571, 35.714, 17.857]),
        ([280], 100, 150, [53.571]),
        ([250, 250, 80, 80], 30_000, 500, [27_213, 27_213, 8_708, 8_708]),
    ],
)
def test_hardest_pull_is_never_below_the_textbook_rule(heights, load, standoff, rule):
    """The plate presses on a zone rather than its very edge, so the top fixing pulls harder than by the rule."""
    fixings = [(0, height) for height in heights]
    found = tension_n(fixings, (0, -load), (0, 0), standoff, plate_mm=Plate(-50, 0, 50, 300))
    assert rule[0] < max(found) < 2 * rule[0]


def test_pull_of_one_fixing_agrees_with_one_sided_contact():
    """A fixing at 280 mm on soft ground pulls as worked by hand."""
    # 50·x² = 10 000·(280 − x): x = 156.91; T = 15 000 / (280 − 156.91/3)
    (found,) = tension_n([(0, 280)], (0, -100), (0, 0), 150, plate_mm=Plate(-50, 0, 50, 300))
    assert found == pytest.approx(65.877, abs=0.001)


@given(groups(), st.floats(1, 5000), st.floats(0, 500), st.booleans())
def test_tension_takes_up_the_moment_within_the_reach_of_the_group(group, weight, standoff, upwards):
    """Tensions times their distance from the far edge never make less than the moment of a weight or an uplift."""
    fixings, areas = group
    heights = [z for _, z in fixings]
    assume(max(heights) - min(heights) > 1)
    load = (0, weight if upwards else -weight)
    try:
        found = tension_n(fixings, load, (0, 0), standoff, areas=areas)
    except Missing:
        return  # in one slanting row
    edge = max(heights) if upwards else min(heights)
    moment = math.fsum(pull * abs(height - edge) for pull, height in zip(found, heights, strict=True))
    assert moment >= weight * standoff * (1 - 1e-6) - 0.002
    assert min(found) >= 0


@given(groups(), st.floats(0, 500), st.floats(-5000, 5000))
def test_tension_of_a_sideways_load_is_that_of_a_weight_turned(group, standoff, push):
    """A load along x swings the work about a side edge as a weight tips it about a lower or upper one."""
    fixings, areas = group
    assume(len({x for x, _ in fixings}) > 1)
    assume(max(x for x, _ in fixings) - min(x for x, _ in fixings) > 1)
    turned = [(z, x) for x, z in fixings]
    try:
        found = tension_n(fixings, (push, 0), (0, 0), standoff, areas=areas)
    except Missing:
        return  # in one slanting row
    # 1e-5 of the load: balance is found to 1e-8 of it, on ground a thousandth as stiff as the fixings
    noise = 1e-5 * abs(push) * standoff
    assert found == pytest.approx(tension_n(turned, (0, push), (0, 0), standoff, areas=areas), rel=1e-5, abs=noise)


def test_tension_of_a_push_to_the_right_is_on_the_left():
    """A push to the right pulls out the left fixing and presses the right edge on the wall."""
    left, right = tension_n([(0, 0), (100, 0)], (50, 0), (0, 0), 40)
    assert (left, right) == (pytest.approx(20), 0)  # 50 · 40 / 100


def test_tension_of_an_uplift_is_at_the_lower_fixing():
    """A lift pulls out the lower fixing."""
    assert tension_n([(0, 0), (0, 100)], (0, 50), (0, 0), 40) == [pytest.approx(20), 0]  # 50 · 40 / 100


@given(groups(), st.floats(0, 2000))
def test_pull_through_the_middle_is_shared_by_area(group, pull):
    """A pull straight out at the centroid is shared as the areas are."""
    fixings, areas = group
    shares = [area / math.fsum(areas) for area in areas] if areas else [1 / len(fixings)] * len(fixings)
    middle = [math.fsum(share * place[axis] for share, place in zip(shares, fixings, strict=True)) for axis in (0, 1)]
    found = tension_n(fixings, (0, 0), middle, 0, pull, areas=areas, plate_mm=Plate(-4000, -4000, 4000, 4000))
    assert found == pytest.approx([pull * share for share in shares], abs=0.01)


# A pull between two fixings goes to them by the lever rule: 60 N at 80 of 100 mm, 48 and 12 N.
def test_pull_off_the_middle_is_shared_by_the_lever_rule():
    """A pull between two fixings is shared as its distances from them, upwards and sideways alike."""
    assert tension_n([(0, 0), (0, 100)], (0, 0), (0, 80), 0, 60) == [pytest.approx(12), pytest.approx(48)]
    assert tension_n([(0, 0), (0, 100)], (0, 0), (0, 20), 0, 60) == [pytest.approx(48), pytest.approx(12)]
    assert tension_n([(0, 0), (100, 0)], (0, 0), (80, 0), 0, 60) == [pytest.approx(12), pytest.approx(48)]


# Four fixings 120 mm apart: 200 · 120 N·mm would press 100 N at each lower one, of which a pull of 400 N takes 100 N
# away; then nothing presses, and the upper ones carry 100 + 100 N, the lower ones none.
def test_pull_that_lifts_the_plate_is_added_to_the_weight():
    """Where pull keeps the plate from pressing, pull and moment are shared as by springs."""
    both = tension_n(BRACKET["fixings_mm"], (0, -200), (0, 90), 120, 400)
    assert both == pytest.approx([200, 200, 0, 0], abs=1e-4)


def test_plate_reaching_past_the_fixings_lowers_the_tension():
    """Without a plate the work turns about its lower fixings, which gives the larger tension."""
    bare = tension_n(BRACKET["fixings_mm"], (0, -200), (0, 90), 120)
    backed = tension_n(BRACKET["fixings_mm"], (0, -200), (0, 90), 120, plate_mm=Plate(-40, -170, 40, 150))
    assert bare == pytest.approx([100, 100, 0, 0])  # 200 · 120 / 2 / 120
    assert max(backed) < max(bare)


# A heavy shelf on two rows 100 mm apart, 15 kg at 100 mm: 147.15 · 100 / 100 / 2 = 73.6 N; reckoned about the foot
# of its back, 1.8 m below, it would seem to be 4.1 N.
def test_work_on_its_fixings_alone_turns_about_those():
    """What bears at its fixings alone does not turn about its outline."""
    four = [(0, 0), (600, 0), (0, 100), (600, 100)]
    assert max(tension_n(four, (0, -147.15), (300, 50), 100)) == pytest.approx(73.575, abs=0.001)


def test_one_fixing_carries_a_load_through_itself():
    """A single fixing holds what hangs straight from it, with the plate below it to lean on."""
    assert shear_parts_n(ONE, (30, -40), (0, 0)) == [(30, -40)]
    assert tension_n(ONE, (0, -40), (0, 0), 0) == [0]
    # A plate one millimetre wide, soft ground: ½·x² = 10 000·(60 − x), x = 59.82; T = 40 · 30 / (60 − x/3)
    assert tension_n(ONE, (0, -40), (0, 0), 30, plate_mm=Plate(0, -60, 0, 0)) == [pytest.approx(29.955, abs=0.001)]


def test_one_fixing_off_the_load_is_refused():
    """Nothing keeps a single fixing from turning under a load beside it."""
    with refused("unsuitable-shape", "fixings_mm"):
        shear_parts_n([(5, 5), (5, 5)], (0, -40), (20, 0))


def test_row_of_fixings_without_a_plate_is_refused():
    """How hard a row is pulled depends on how far the work reaches past it, so that has to be told."""
    with refused("missing", "plate_mm"):
        tension_n([(0, 0), (100, 0)], (0, -40), (50, 0), 30)
    with refused("missing", "plate_mm"):
        tension_n([(0, 0), (0, 100)], (10, 0), (0, 50), 30)


def test_fixings_close_together_are_still_a_group():
    """Two fixings half a millimetre apart take up a turning moment, with large forces."""
    parts = shear_parts_n([(0, 0), (0.5, 0)], (0, -1), (10, 0))
    assert parts == [(0, pytest.approx(19)), (0, pytest.approx(-20))]  # -0.5 ± 1 · 9.75 / 0.5


@pytest.mark.parametrize("plate", [(-39, 0, 40, 150), (-40, 31, 40, 150), (-40, 0, 39, 150), (-40, 0, 40, 149)])
def test_plate_that_misses_a_fixing_is_refused(plate):
    """A fixing outside the plate on any side is a mistake."""
    with refused("unsuitable-shape", "plate_mm"):
        tension_n(BRACKET["fixings_mm"], (0, -200), (0, 90), 120, plate_mm=Plate(*plate))


def test_five_hundred_fixings_share_the_load():
    """A long list is reckoned like a short one."""
    fixings = [(20 * (number % 50), 30 * (number // 50)) for number in range(500)]
    answer = calculate("fixing-group", {**BRACKET, "fixings_mm": fixings, "load_n": [0, -10_000], "at_mm": [490, 135]})
    assert answer["shear_n"] == pytest.approx([20] * 500)
    moment = math.fsum(pull * z for pull, (_, z) in zip(answer["tension_n"], fixings, strict=True))
    assert moment > 10_000 * 120


# Fixing 2 carries √(30² + 40²) = 50 N.
@pytest.mark.parametrize(
    ("allowed_n", "word"), [(63, Word.WITHIN), (62, Word.CLOSE), (50, Word.CLOSE), (49.9, Word.OVER)]
)
def test_hardest_worked_fixing_is_held_against_the_allowance(allowed_n, word):
    """The verdict is on the resultant of the worst fixing, which it names."""
    verdict = fixing_group.verdict([30, 30, 0], [0, 40, 45], allowed_n)
    assert (verdict.word, verdict.figure) == (word, 50)
    assert "fixing 2 of 3" in verdict.sentence
    assert "old fabric" in verdict.sentence
    assert verdict.working == (("shear", "30.0 N"), ("tension", "40.0 N"))


def test_group_outside_its_range_is_refused():
    """Numbers that no group of fixings has are refused by name."""
    good = {"fixings_mm": [(0, 0), (0, 100)], "load_n": (0, -1), "at_mm": (0, 0), "standoff_mm": 10.0, "pull_n": 0.0}
    check_limits(tension_n, good, "standoff_mm", 0, 10_000)
    check_limits(tension_n, good, "pull_n", 0, 1e6)
    check_limits(lambda allowed_n: fixing_group.verdict([1], [1], allowed_n), {"allowed_n": 1}, "allowed_n", 0, 1e6)
    for field, low, high in (("load_n", -1e6, 1e6), ("at_mm", -100_000, 100_000)):
        for axis in (0, 1):
            for limit, beyond in ((low, low * 1.001), (high, high * 1.001)):
                whole, over = [0.0, 0.0], [0.0, 0.0]
                whole[axis], over[axis] = limit, beyond
                tension_n(**{**good, field: whole, "plate_mm": Plate(-1, -1, 1, 101)})
                with refused("out-of-range", field):
                    tension_n(**{**good, field: over, "plate_mm": Plate(-1, -1, 1, 101)})
    with refused("out-of-range", "fixings_mm"):
        shear_parts_n([], (0, -1), (0, 0))
    with refused("out-of-range", "fixings_mm"):
        shear_parts_n([(0, place) for place in range(10_001)], (0, -1), (0, 0))
    with refused("out-of-range", "fixings_mm[1]"):
        shear_parts_n([(0, 0), (0, 100_001)], (0, -1), (0, 0))
    with refused("out-of-range", "plate_mm"):
        tension_n(**{**good, "plate_mm": Plate(-100_001, 0, 0, 100)})
    with refused("out-of-range", "areas[0]"):
        shear_parts_n([(0, 0), (0, 1)], (0, -1), (0, 0), [0, 1])
    with refused("unsuitable-shape", "areas"):
        shear_parts_n([(0, 0), (0, 1)], (0, -1), (0, 0), [1])
    with refused("out-of-range", "areas[1]"):
        shear_parts_n([(0, 0), (0, 1)], (0, -1), (0, 0), [1, 1_000_001])
    assert shear_parts_n([(0, 0), (0, 1)], (0, -1), (0, 0), [1e-6, 1e6])
    forces = {"shear": 1.0, "tension": 1.0}
    for name in forces:

        def judged(shear, tension):
            return fixing_group.verdict([shear], [tension], 1)

        for value in (-0.1, 100_000_001):
            with refused("out-of-range", f"{name}_n"):
                judged(**{**forces, name: value})
        assert judged(**{**forces, name: 100_000_000}).word == Word.OVER


def test_group_from_the_command_line_gives_shear_and_tension():
    """The answer holds shear and tension of each fixing in order, and a verdict when asked."""
    answer = calculate("fixing-group", {**BRACKET, "plate_mm": [-50, 0, 50, 160], "pull_n": 0})
    assert answer["tension_n"] == tension_n(BRACKET["fixings_mm"], (0, -200), (0, 90), 120, 0, Plate(-50, 0, 50, 160))
    assert answer["shear_n"] == pytest.approx([50] * 4)
    assert answer["shear_parts_n"] == [[0, pytest.approx(-50)]] * 4
    assert answer["verdict"] is None
    assert "fatigue" in answer["left_out"]
    judged = calculate("fixing-group", {**BRACKET, "pull_n": 40, "areas": [1, 1, 1, 1], "allowed_n": 80})
    assert judged["verdict"]["word"] == "over"


def test_group_with_bad_input_is_refused():
    """Numbers that are none, wrong shapes and unknown keys are refused by name and place."""
    for value, code in NO_FIGURES.values():
        if code != "missing":
            with refused(code, "standoff_mm"):
                calculate("fixing-group", {**BRACKET, "standoff_mm": value})
        with refused(code if code != "missing" else "not-a-number", "fixings_mm[1][0]"):
            calculate("fixing-group", {**BRACKET, "fixings_mm": [[0, 0], [value, 1]]})
    for key in BRACKET:
        with refused("missing", key):
            calculate("fixing-group", {**BRACKET, key: None})
    for empty in ([], "text", 3):
        with refused("unsuitable-shape", "fixings_mm"):
            calculate("fixing-group", {**BRACKET, "fixings_mm": empty})
    with refused("not-a-number", "load_n"):
        calculate("fixing-group", {**BRACKET, "load_n": [1, 2, 3]})
    with refused("unknown-field", "friction"):
        calculate("fixing-group", {**BRACKET, "friction": 1})
    with refused("out-of-range", "pull_n"):
        calculate("fixing-group", {**BRACKET, "pull_n": -1})
