"""A fastener across a gap, held against printed examples without one and against statics with one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import timber_gap, timber_shear
from fieldbook.checks.timber_shear import Mode, WoodPart
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

POUND_N, INCH_MM = 4.4482216, 25.4
PSI_N_MM2 = POUND_N / INCH_MM**2
# Order of the file against that of `between_woods`, where the side is the first part and the main member the second.
ORDER = ("is", "im", "ii", "iiim", "iiis", "iv")

WOODS = st.builds(WoodPart, st.floats(5, 40), st.floats(10, 100))
METALS = st.tuples(st.floats(2, 12), st.floats(1e3, 1e5))
GAPS = st.floats(0, 200)
SOUND = {"diameter_mm": 4.0, "lacking_mm": 0.0, "end_grain": False}


@pytest.mark.parametrize("row", published.rows("timber_yield_nds.csv"), ids=lambda row: row["case"])
def test_without_a_gap_the_ways_are_those_of_the_printed_examples(row):
    """With no gap, every way of giving is that of the yield equations in the printed examples."""
    diameter, bearing = row["diameter"] * INCH_MM, row["bearing"] * PSI_N_MM2
    moment = row["bending"] * PSI_N_MM2 * diameter**3 / 6
    side, main = WoodPart(bearing, row["side"] * INCH_MM), WoodPart(bearing, row["main"] * INCH_MM)
    found = [mode.load_n / POUND_N / row["rd"] for mode in timber_gap.between_woods(side, main, diameter, moment, 0)]
    for load, way in zip(found, ORDER, strict=True):
        if row[way] != "-":
            assert load == pytest.approx(row[way], rel=1e-3)  # printed to four figures
    assert min(found) == pytest.approx(row["least"], rel=1e-3)


@given(WOODS, WOODS, METALS)
def test_without_a_gap_they_are_the_touching_rules_less_their_rises(first, second, metal):
    """With no gap the ways are those for parts that touch, less the 5 and 15 % that rule adds."""
    touching = [mode.load_n for mode in timber_shear.wood_to_wood(first, second, *metal)]
    crush_1, crush_2, tilt, in_first, in_second, both = (
        mode.load_n for mode in timber_gap.between_woods(first, second, *metal, 0)
    )
    # 1e-6: the equation of the standard loses digits where a stout fastener meets soft wood
    assert [crush_1, crush_2, tilt, 1.05 * in_second, 1.05 * in_first, 1.15 * both] == pytest.approx(touching, rel=1e-6)


def turning_nmm(part: WoodPart, diameter_mm: float, load_n: float) -> float:
    """Moment at the face of a part a stiff fastener turns in: it bears one way near the face, the other way behind."""
    hardness = part.embedment_n_mm2 * diameter_mm
    near = (load_n / hardness + part.length_mm) / 2
    return hardness * (part.length_mm - near) * (part.length_mm + near) / 2 - hardness * near**2 / 2


def yielding_nmm(part: WoodPart, diameter_mm: float, load_n: float, moment_nmm: float) -> float:
    """Moment at the face of a part in which the metal yields, where no shear is left."""
    return moment_nmm - load_n * load_n / (part.embedment_n_mm2 * diameter_mm) / 2


@given(WOODS, WOODS, METALS, GAPS)
def test_across_a_gap_forces_and_moments_are_in_equilibrium(first, second, metal, gap_mm):
    """Each way's load balances bearing on either side of the gap and the moments in the metal."""
    _, _, *bending = (mode.load_n for mode in timber_gap.between_woods(first, second, *metal, gap_mm))
    for load_n, yields in zip(bending, ((False, False), (True, False), (False, True), (True, True)), strict=True):
        moments = [
            yielding_nmm(part, metal[0], load_n, metal[1]) if it_yields else turning_nmm(part, metal[0], load_n)
            for part, it_yields in zip((first, second), yields, strict=True)
        ]
        # 1e-9 of the moments that cancel each other
        assert sum(moments) == pytest.approx(load_n * gap_mm, rel=1e-9, abs=1e-9 * (metal[1] + load_n * 100))


@given(WOODS, METALS, GAPS)
def test_standing_out_of_wood_forces_and_moments_are_in_equilibrium(wood, metal, arm_mm):
    """A load at the free end balances bearing in the wood and the moment in the metal."""
    tilts, bends = (mode.load_n for mode in timber_gap.standing_out(wood, *metal, arm_mm))
    close = {"rel": 1e-9, "abs": 1e-9 * (metal[1] + tilts * 100)}
    assert turning_nmm(wood, metal[0], tilts) == pytest.approx(tilts * arm_mm, **close)
    assert yielding_nmm(wood, metal[0], bends, metal[1]) == pytest.approx(bends * arm_mm, **close)


@given(WOODS, WOODS, METALS, GAPS, st.floats(0.1, 100))
def test_wider_gap_never_carries_more(first, second, metal, gap_mm, more):
    """Every way of giving carries less the wider the gap."""
    near = timber_gap.between_woods(first, second, *metal, gap_mm)
    far = timber_gap.between_woods(first, second, *metal, gap_mm + more)
    assert all(wide.load_n <= narrow.load_n for narrow, wide in zip(near, far, strict=True))
    assert all(
        wide.load_n < narrow.load_n
        for narrow, wide in zip(
            timber_gap.standing_out(first, *metal, gap_mm),
            timber_gap.standing_out(first, *metal, gap_mm + more),
            strict=True,
        )
    )


def test_screw_through_plaster_carries_a_fraction_of_one_that_touches():
    """Over 25 mm of plaster a thin screw carries less than half of what it carries on bare boards."""
    # by statics: 4 mm in wood of 20 N/mm², moment 6000 N·mm: P²/80 + 25 P = 12 000
    bends = timber_gap.between_woods(WoodPart(20, 30), WoodPart(20, 30), 4, 6000, 25)[-1].load_n
    assert bends**2 / 80 + 25 * bends == pytest.approx(12_000)
    assert bends < 0.5 * timber_gap.between_woods(WoodPart(20, 30), WoodPart(20, 30), 4, 6000, 0)[-1].load_n


# 0.6 / 1.3 of 300 N: 138.4 N.
def test_sideways_load_over_a_gap_is_held_against_the_bending_of_the_fastener():
    """The verdict is on factored load, says the gap, and what is left out."""
    mode = Mode("the fastener bends in both parts", 300, True)
    found = timber_gap.verdict(mode, 60, 0, 1, gap_mm=25, **SOUND)
    assert (found.word, found.limit, found.figure) == (Word.WITHIN, 138.4, 81.0)
    assert "25 mm" in found.sentence
    assert "sags" in found.sentence


def test_gap_of_more_than_ten_diameters_is_over_or_not_known():
    """Beyond ten diameters sag decides: never within, but over stays over."""
    mode = Mode("the fastener bends in both parts", 300, True)
    assert timber_gap.verdict(mode, 60, 0, 1, gap_mm=41, **SOUND).word is Word.NOT_KNOWN
    assert timber_gap.verdict(mode, 60, 0, 1, gap_mm=25, **{**SOUND, "lacking_mm": 2}).word is Word.NOT_KNOWN
    assert timber_gap.verdict(mode, 600, 0, 1, gap_mm=41, **SOUND).word is Word.OVER


def test_gap_and_metal_outside_the_range_are_refused():
    """A gap wider than any packing, and a part without length, are refused by name."""
    good = {
        "first": WoodPart(20, 30),
        "second": WoodPart(20, 30),
        "diameter_mm": 4.0,
        "moment_nmm": 6000.0,
        "gap_mm": 5.0,
    }
    check_limits(timber_gap.between_woods, good, "gap_mm", 0, 5000)
    check_limits(timber_gap.between_woods, good, "diameter_mm", 1.5, 30)
    check_limits(timber_gap.between_woods, good, "moment_nmm", 1, 1e7)
    with refused("out-of-range", "wood.length_mm"):
        timber_gap.standing_out(WoodPart(20, 0), 4, 6000, 20)
