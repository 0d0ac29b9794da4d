"""Straight pull on screws, nails and bolts in wood, held against figures reckoned apart from EN 1995-1-1."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import (
    bolt_class,
    nail_pull,
    timber_combined,
    timber_design,
    timber_group,
    timber_pull,
    timber_washer,
    withdrawal,
)
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

ROWS = published.rows("timber_pull_screws.csv")
WORDS = list(Word)
HELD = {
    "thread_mm": 36.0,
    "diameter_mm": 6.0,
    "end_grain": False,
    "count": 1,
    "strength_source": timber_pull.RULE_SOURCE,
}


@pytest.mark.parametrize("row", ROWS)
def test_screw_agrees_with_the_equations(row):
    """Strength, characteristic and lasting resistance of a group are those of the equations."""
    strength = timber_pull.parameter_n_mm2(row["diameter"], 0.7 * row["diameter"], row["thread"], row["density"])
    one = timber_pull.withdrawal_n(strength, row["diameter"], row["thread"], row["angle"])
    group = one * timber_group.group_number(int(row["count"]))
    assert strength / min(1, row["diameter"] / 8) == pytest.approx(row["parameter"], abs=5e-5)  # four decimals
    assert group == pytest.approx(row["characteristic"], abs=0.05)  # one decimal
    assert timber_design.resistance_n(group, 1, "permanent") == pytest.approx(row["lasting"], abs=0.05)


# EN 1995-1-1, equation 8.40a: declared 12 N/mm² at 350 kg/m³, thread 4.5 x 30: worked apart.
@pytest.mark.parametrize(("density", "expected_n"), [(350, 1620.0), (310, 1470.1)])
def test_declared_strength_is_brought_to_the_density(density, expected_n):
    """A maker's declared figure shrinks in lighter wood."""
    strength = timber_pull.declared_n_mm2(12, 350, density)
    assert timber_pull.withdrawal_n(strength, 4.5, 30, 90) == pytest.approx(expected_n, abs=0.05)


# Two codes that do not share a formula: lasting loads allowed on a 4.5 mm screw, 30 mm of thread in softwood.
def test_plain_wood_screw_agrees_roughly_with_the_other_format():
    """A screw nobody declared anything of may carry what American design values allow it, within a fifth."""
    shank, _ = timber_pull.wood_screw_n_mm2(4.5, 350)
    characteristic = timber_pull.withdrawal_n(shank, 4.5, 30, 90)
    lasting_n = timber_design.resistance_n(characteristic, 1, "permanent") / timber_design.PERMANENT_FACTOR
    # specific gravity 0.42 is a mean where 350 kg/m³ is a 5 % value; 0.9 is that code's factor for permanent loads
    assert lasting_n == pytest.approx(0.9 * withdrawal.allowable_n("wood screw", 0.42, 4.5, 30), rel=0.2)


def test_thread_counts_less_its_point_and_from_six_diameters_on():
    """50 mm of a 5 mm thread count as 45 (LVL Handbook Europe, example 9.6); 29 count as nothing."""
    assert timber_pull.counted_thread_mm(50, 5) == 45
    assert timber_pull.counted_thread_mm(30, 5) == 25
    assert timber_pull.counted_thread_mm(29.9, 5) == 0


# k_mod 0.6 over 1.3 of 2606.6 · 2^0.9 / 2 = 1122.5 N for each of two; 490.5 · 1.35 = 662.2 N.
def test_pull_on_each_of_two_screws_is_held_against_half_of_both():
    """The verdict on one screw counts that it is pulled together with another."""
    found = timber_pull.verdict(2606.6, 490.5, 0, 1, **{**HELD, "count": 2})
    assert (found.word, found.figure, found.limit) == (Word.WITHIN, 662.2, 1122.4)
    assert found.source.startswith(timber_pull.RULE_SOURCE)


def test_short_thread_holds_nothing_and_end_grain_is_not_known():
    """Too little thread is over whatever it holds, end grain never better than not known, over stays over."""
    short = timber_pull.verdict(2606.6, 10, 0, 1, **{**HELD, "thread_mm": 35.0})
    assert (short.word, short.limit) == (Word.OVER, 0)
    assert "six diameters" in short.sentence
    assert timber_pull.verdict(2606.6, 10, 0, 1, **{**HELD, "end_grain": True}).word is Word.NOT_KNOWN
    assert timber_pull.verdict(2606.6, 9999, 0, 1, **{**HELD, "end_grain": True}).word is Word.OVER


@given(st.floats(0, 3000), st.floats(0, 3000), st.floats(10, 100), st.booleans(), st.integers(1, 8))
def test_worse_screws_never_get_a_better_word(permanent, people, thread, end_grain, count):
    """Less thread, end grain and more screws that share never improve the word."""

    def rank(thread: float, end_grain: bool, count: int) -> int:
        strength = timber_pull.withdrawal_n(8.575, 5, timber_pull.counted_thread_mm(thread, 5), 90)
        given_ = {
            "thread_mm": thread,
            "diameter_mm": 5.0,
            "end_grain": end_grain,
            "count": count,
            "strength_source": "declared",
        }
        return WORDS.index(timber_pull.verdict(strength, permanent, people, 1, **given_).word)

    base = rank(thread, end_grain, count)
    assert rank(thread * 0.9, end_grain, count) <= base
    assert rank(thread, True, count) <= base
    assert rank(thread, end_grain, count + 1) <= base


# EN 1995-1-1, equations 8.24 to 8.26: density 350, nail 3.1, 45 mm deep, head 6.75: worked apart.
def test_smooth_nail_agrees_with_the_equations():
    """Shank 2.450 and head 8.575 N/mm² give 341.8 N out and 390.7 N through, under a short load."""
    shank, head = nail_pull.strengths_n_mm2(350)
    assert (shank, head) == pytest.approx((2.450, 8.575))
    nail = {"threaded": False, "drying": False}
    assert nail_pull.short_pull_n(shank, head, 3.1, 45, 20, 6.75, **nail) == pytest.approx(341.8, abs=0.05)
    through = nail_pull.short_pull_n(100, head, 3.1, 45, 0, 6.75, **nail)
    assert through == pytest.approx(390.7, abs=0.05)
    assert timber_pull.head_n(head, 6.75) == pytest.approx(390.7, abs=0.05)
    wet = nail_pull.short_pull_n(shank, head, 3.1, 45, 20, 6.75, threaded=False, drying=True)
    assert wet == pytest.approx(341.8 * 2 / 3, abs=0.05)


# EN 1995-1-1, 8.3.2(7): smooth t/4d − 2, threaded t/2d − 3.
@pytest.mark.parametrize(
    ("diameters", "smooth", "threaded"),
    [(5, 0, 0), (6, 0, 0), (7, 0, 0.5), (8, 0, 1), (10, 0.5, 1), (12, 1, 1), (20, 1, 1)],
)
def test_nail_counts_in_full_only_where_it_stands_deep(diameters, smooth, threaded):
    """A smooth nail needs 8 diameters to count and 12 to count in full, a threaded one 6 and 8."""
    assert nail_pull.penetration_share(4 * diameters, 4, threaded=False) == pytest.approx(smooth)
    assert nail_pull.penetration_share(4 * diameters, 4, threaded=True) == pytest.approx(threaded)


def test_smooth_nail_holds_no_lasting_pull_and_no_nail_holds_in_end_grain():
    """A single newton for good is over on a smooth nail; a short pull is not; in end grain any is."""
    smooth = {"threaded": False, "end_grain": False}
    lasting = nail_pull.verdict(341.8, 1, 0, 1, **smooth)
    assert (lasting.word, lasting.limit) == (Word.OVER, 0)
    assert "no lasting pull" in lasting.sentence
    assert nail_pull.verdict(341.8, 0, 100, 1, **smooth).word is Word.WITHIN  # 150 N against 0.9/1.3 of it
    assert nail_pull.verdict(341.8, 50, 0, 1, threaded=True, end_grain=False).word is Word.WITHIN
    assert nail_pull.verdict(341.8, 0, 1, 1, threaded=True, end_grain=True).word is Word.OVER


# Porteous & Kermani (2007), example with a thick plate: 3.37e4 and 1.26e4 N printed; f_c90 2.5 and 4 d inferred.
def test_bolt_under_a_steel_plate_agrees_with_the_printed_example():
    """An M12 of 4.6 breaks at 33 720 N, and its plate sinks into the wood at 12 576 N."""
    washer = timber_washer.plate_as_washer_mm(12, 12)
    under = timber_washer.washer_n(2.5, washer, 12)
    assert washer == 48
    assert under == pytest.approx(12_576, abs=0.5)
    metal = bolt_class.metal("4.6")
    assert timber_washer.bolt_pull_n(12, metal, 1e6) == pytest.approx(33_720)
    assert timber_washer.bolt_pull_n(12, metal, under) == under


# EN 1995-1-1, equations 8.27 and 8.28: worked apart.
@pytest.mark.parametrize(
    ("pull", "shear", "linear", "squares"),
    [(0.5, 0.5, 1.0, 0.5), (0.3, 0.9, 1.2, 0.9), (0.8, 0.2, 1.0, 0.68), (0.6, 0.6, 1.2, 0.72), (0.5, 0.8, 1.3, 0.89)],
)
def test_pull_with_shear_adds_shares_for_smooth_nails_and_squares_for_the_rest(pull, shear, linear, squares):
    """Smooth nails add shares, other fasteners their squares."""
    assert timber_combined.use(pull, shear, "smooth nail", touching=True) == pytest.approx(linear)
    for sort in ("screw", "threaded nail", "bolt"):
        assert timber_combined.use(pull, shear, sort, touching=True) == pytest.approx(squares)
        assert timber_combined.use(pull, shear, sort, touching=False) == pytest.approx(linear)


# R 1000 N each, permanent: design 461.5 N; 200 N · 1.35 = 270 N: share 0.585 each, squares 0.684, sum 1.17.
def test_pull_with_shear_is_held_together():
    """A screw and a smooth nail with the same shares get different words, and no resistance is over without end."""
    loads = ((200.0, 0.0, 1000.0), (200.0, 0.0, 1000.0))
    screw = timber_combined.verdict(*loads, 1, "screw", touching=True)
    assert (screw.word, screw.figure, screw.limit) == (Word.WITHIN, 68.5, 100)
    assert timber_combined.verdict(*loads, 1, "smooth nail", touching=True).word is Word.OVER
    assert timber_combined.verdict(*loads, 1, "screw", touching=False).word is Word.OVER
    nothing = timber_combined.verdict((200.0, 0.0, 0.0), (1.0, 0.0, 1000.0), 1, "smooth nail", touching=True)
    assert (nothing.word, nothing.figure) == (Word.OVER, None)


@given(st.floats(0, 2000), st.floats(0, 2000), st.floats(0, 2000), st.floats(0, 2000))
def test_together_is_never_better_than_either_alone(pull, pull_people, shear, shear_people):
    """A pull with a sideways load never gets a better word than either of them gets."""
    together = timber_combined.verdict(
        (pull, pull_people, 1500), (shear, shear_people, 1200), 1, "smooth nail", touching=True
    ).word
    for permanent, people, holds in ((pull, pull_people, 1500), (shear, shear_people, 1200)):
        alone = timber_design.verdict("x", "The load", holds, permanent, people, 1, "test")
        # 0.2: what rounding a newton's tenth can shift
        if alone.limit - alone.figure < -0.2:
            assert together is Word.OVER


def test_screws_outside_the_rules_are_refused():
    """Thin screws, odd cores, heads and angles outside the rules are refused by name."""
    rule = {"diameter_mm": 8.0, "core_mm": 5.5, "thread_mm": 60.0, "density_kg_m3": 350.0}
    check_limits(timber_pull.parameter_n_mm2, rule, "density_kg_m3", 250, 1000)
    check_limits(timber_pull.parameter_n_mm2, rule, "thread_mm", 1, 1000)
    check_limits(timber_pull.parameter_n_mm2, rule, "core_mm", 4.8, 6)
    for diameter in (5.9, 12.1):
        with refused("out-of-range", "diameter_mm"):
            timber_pull.parameter_n_mm2(diameter, 0.7 * diameter, 60, 350)
    out = {"strength_n_mm2": 10.0, "diameter_mm": 5.0, "thread_mm": 40.0, "angle_deg": 90.0}
    check_limits(timber_pull.withdrawal_n, out, "angle_deg", 30, 90)
    check_limits(timber_pull.withdrawal_n, out, "strength_n_mm2", 0.1, 100)
    check_limits(timber_pull.withdrawal_n, out, "diameter_mm", 2.4, 24)
    check_limits(timber_pull.wood_screw_n_mm2, {"diameter_mm": 5.0, "density_kg_m3": 350.0}, "diameter_mm", 4, 24)
    check_limits(timber_pull.head_n, {"strength_n_mm2": 10.0, "head_mm": 8.0}, "head_mm", 3, 100)
    check_limits(timber_group.group_number, {"count": 2}, "count", 1, 1000)
    check_limits(
        timber_washer.washer_n, {"bearing_n_mm2": 2.5, "washer_mm": 40.0, "bolt_mm": 12.0}, "washer_mm", 13, 300
    )
    check_limits(
        nail_pull.penetration_share,
        {"penetration_mm": 30.0, "diameter_mm": 3.0, "threaded": False},
        "diameter_mm",
        1.5,
        8,
    )
    with refused("not-a-choice", "sort"):
        timber_combined.use(0.1, 0.1, "staple", touching=True)
