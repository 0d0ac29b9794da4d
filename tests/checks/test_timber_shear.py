"""Sideways load in wood, held against figures reckoned apart from EN 1995-1-1's equations."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import timber_dowel, timber_group, timber_shear, timber_splitting
from fieldbook.checks.timber_shear import Mode, WoodPart
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

ROWS = published.rows("timber_shear_modes.csv")
SOUND = {"gap_mm": 0.0, "lacking_mm": 0.0, "end_grain": False}


def modes(row):
    """The ways of giving of a row, from the row's own embedment strength and yield moment."""
    wood, metal = WoodPart(row["embedment_1"], row["t1"]), (row["diameter"], row["moment"])
    if row["joint"] == "woods":
        return timber_shear.wood_to_wood(wood, WoodPart(row["embedment_2"], row["t2"]), *metal)
    return (timber_shear.thin_plate if row["joint"] == "thin" else timber_shear.thick_plate)(wood, *metal)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_every_way_of_giving_agrees_with_the_equations(row):
    """Each way of giving, and the one that comes first, is that of the equation in the standard."""
    expected = [row[letter] for letter in "abcdef" if row[letter] != "-"]
    # 1e-4: embedment strength and moment are given to six figures, loads to 0.1 N or 1 N
    assert [mode.load_n for mode in modes(row)] == pytest.approx(expected, rel=1e-4)
    assert timber_shear.weakest(modes(row), row["sort"]).load_n == pytest.approx(row["least"], rel=1e-4)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_strengths_of_wood_and_metal_agree_with_the_equations(row):
    """Embedment strength and yield moment follow from density, diameter and metal."""
    metal, wood = row["diameter"], (row["sort"], row["diameter"], row["density"])
    assert timber_dowel.yield_moment_nmm(metal, row["strength"]) == pytest.approx(row["moment"], rel=1e-5)
    for angle, expected in ((0, row["embedment_1"]), (row["angle"], row["embedment_2"])):
        if expected != "-":
            found = timber_dowel.embedment_n_mm2(*wood, angle, "softwood", bool(row["predrilled"]))
            assert found == pytest.approx(expected, rel=1e-5)  # six figures


# EN 1995-1-1, equations 8.31 to 8.33 for oak of 530 kg/m³ and a bolt of 10 mm: worked apart.
def test_oak_bears_nearly_alike_along_and_across_the_grain():
    """A bolt of 10 mm meets 39.114 N/mm² along the grain of oak, and 37.251 across it."""
    assert timber_dowel.bolt_embedment_n_mm2(10, 530, 0, "hardwood") == pytest.approx(39.114, abs=0.0005)
    assert timber_dowel.bolt_embedment_n_mm2(10, 530, 90, "hardwood") == pytest.approx(37.251, abs=0.0005)


def test_thread_in_the_holding_member_makes_a_screw_thinner():
    """A screw counts with its shank where four diameters of it stand in the wood that holds, else with 1.1 cores."""
    assert timber_dowel.effective_diameter_mm(5, 3.2, 20) == 5
    assert timber_dowel.effective_diameter_mm(5, 3.2, 19.9) == pytest.approx(3.52)  # 1.1 · 3.2, 8.7.1(3)
    assert timber_dowel.effective_diameter_mm(8, 5.6, 0) == pytest.approx(6.16)


def test_square_nail_yields_later():
    """A square nail has one and a half times the moment of a round one (8.14)."""
    round_nail = timber_dowel.yield_moment_nmm(4, 600)
    assert timber_dowel.yield_moment_nmm(4, 600, square=True) == pytest.approx(1.5 * round_nail)


# 8.2.2(2): shares of the Johansen part the rope effect may add.
@pytest.mark.parametrize(
    ("sort", "share"),
    [
        ("smooth nail", 0.15),
        ("square nail", 0.25),
        ("threaded nail", 0.5),
        ("screw", 1.0),
        ("bolt", 0.25),
        ("dowel", 0.0),
    ],
)
def test_rope_effect_is_limited_by_the_sort_of_fastener(sort, share):
    """A quarter of the pull adds to the ways that bend, never more than the sort's share, and nothing to crushing."""
    bending, crushing = Mode("bends", 1000, True), Mode("crushes", 1200, False)
    assert timber_shear.weakest([bending], sort, 1e5).load_n == pytest.approx(1000 * (1 + share))
    assert timber_shear.weakest([bending], sort, 40).load_n == pytest.approx(1000 + (10 if share else 0))
    assert timber_shear.weakest([bending, crushing], sort, 1e5).load_n <= 1200
    assert timber_shear.weakest([bending], sort).load_n == 1000


def test_plate_between_thin_and_thick_lies_on_the_line_between():
    """Half a diameter is thin, a whole one thick, and half-way holds half-way."""
    wood = (WoodPart(19.6752, 40), 3.52, 4745.52)
    loads = [timber_shear.plate_to_wood(*wood, mm, "screw").load_n for mm in (0.5, 1.76, 2.64, 3.52, 10)]
    thin, thick = 932.4, 1311.8  # the rows of the file
    assert loads == pytest.approx([thin, thin, (thin + thick) / 2, thick, thick], rel=1e-4)


# EN 1995-1-1, Table 8.1 and equation 8.34 (from memory).
def test_row_along_the_grain_counts_less_than_its_number():
    """Four nails at 7, 10 and 14 diameters count as 4^0.7, 4^0.85 and 4, and bolts by the root of their spacing."""
    found = [timber_group.row_number(4, spaced * 4, 4, predrilled=False) for spaced in (7, 10, 14, 20)]
    assert found == pytest.approx([4**0.7, 4**0.85, 4, 4])
    assert timber_group.row_number(4, 16, 4, predrilled=True) == pytest.approx(2)
    assert timber_group.row_number(1, 0, 4, predrilled=False) == 1
    assert timber_group.bolt_row_number(4, 130, 10) == pytest.approx(4**0.9)
    assert timber_group.bolt_row_number(1, 10, 10) == 1
    with refused("out-of-range", "spacing_mm"):
        timber_group.row_number(4, 27, 4, predrilled=False)


# 0.6 / 1.3 of 607.4 N: 280.3 N against 1.35 times the load.
@pytest.mark.parametrize(("permanent_n", "word"), [(160, Word.WITHIN), (200, Word.CLOSE), (208, Word.OVER)])
def test_sideways_load_is_held_against_the_lasting_resistance(permanent_n, word):
    """The verdict is on factored load and lasting resistance, and says which way gives first."""
    nail = timber_shear.weakest(modes(ROWS[0]), "smooth nail")
    found = timber_shear.verdict(nail, permanent_n, 0, 1, **SOUND)
    assert (found.word, found.limit) == (word, 280.3)
    assert "bends in the second part" in found.sentence


def test_gap_short_fastener_and_end_grain_are_not_known_to_the_rules():
    """Plaster between the parts, too little in the wood, or end grain: not known, unless it is over even without."""
    mode = Mode("bends", 600, True)
    for field, worse in (("gap_mm", 3), ("lacking_mm", 1), ("end_grain", True)):
        spoilt = timber_shear.verdict(mode, 50, 0, 1, **{**SOUND, field: worse})
        assert (spoilt.word, spoilt.missing) == (Word.NOT_KNOWN, (field,))
        assert timber_shear.verdict(mode, 5000, 0, 1, **{**SOUND, field: worse}).word is Word.OVER


def test_least_embedment_is_told_by_sort():
    """Smooth nails stand 8 diameters in the wood, threaded ones and screws 6; a bolt goes through."""
    found = [timber_dowel.least_embedment_mm(sort, 4) for sort in ("smooth nail", "threaded nail", "screw", "bolt")]
    assert found == [32, 24, 24, 0]


@given(st.floats(10, 40), st.floats(10, 40), st.floats(5, 100), st.floats(5, 100), st.floats(2, 12), st.floats(1, 2))
def test_harder_wood_or_deeper_fastener_never_carries_less(f1, f2, t1, t2, diameter, more):
    """Denser wood, more of the fastener in it and a stronger metal never lower the weakest way."""
    moment = timber_dowel.yield_moment_nmm(diameter, 500)

    def least(f1: float, f2: float, t1: float, t2: float, moment: float) -> float:
        return min(
            mode.load_n for mode in timber_shear.wood_to_wood(WoodPart(f1, t1), WoodPart(f2, t2), diameter, moment)
        )

    base = least(f1, f2, t1, t2, moment) * (1 - 1e-9)
    assert least(f1 * more, f2, t1, t2, moment) >= base
    assert least(f1, f2 * more, t1, t2, moment) >= base
    assert least(f1, f2, t1 * more, t2, moment) >= base
    assert least(f1, f2, t1, t2 * more, moment) >= base
    assert least(f1, f2, t1, t2, moment * more) >= base
    assert least(f1, f2, t1, t2, moment) == pytest.approx(least(f2, f1, t2, t1, moment))


def test_wood_and_metal_outside_the_rules_are_refused():
    """Thinner, denser, weaker than the rules were made for: refused by name."""
    nail = {"diameter_mm": 3.0, "density_kg_m3": 350.0, "predrilled": False}
    check_limits(timber_dowel.nail_embedment_n_mm2, nail, "diameter_mm", 1.5, 8)
    check_limits(timber_dowel.nail_embedment_n_mm2, nail, "density_kg_m3", 250, 500)
    check_limits(timber_dowel.nail_embedment_n_mm2, {**nail, "predrilled": True}, "density_kg_m3", 250, 1000)
    bolt = {"diameter_mm": 10.0, "density_kg_m3": 350.0, "angle_deg": 0.0, "wood": "softwood"}
    check_limits(timber_dowel.bolt_embedment_n_mm2, bolt, "angle_deg", 0, 90)
    check_limits(timber_dowel.bolt_embedment_n_mm2, bolt, "diameter_mm", 1.5, 30)
    check_limits(
        timber_dowel.yield_moment_nmm, {"diameter_mm": 4.0, "strength_n_mm2": 600.0}, "strength_n_mm2", 300, 1500
    )
    with refused("not-a-choice", "wood"):
        timber_dowel.bolt_embedment_n_mm2(10, 350, 0, "chipboard")
    with refused("not-a-choice", "sort"):
        timber_dowel.embedment_n_mm2("staple", 2, 350, 0, "softwood", False)
    with refused("out-of-range", "first.length_mm"):
        timber_shear.wood_to_wood(WoodPart(20, 0), WoodPart(20, 40), 4, 5000)
    with refused("out-of-range", "wood.embedment_n_mm2"):
        timber_shear.thin_plate(WoodPart(float("nan"), 40), 4, 5000)
    plate = {"wood": WoodPart(20, 40), "diameter_mm": 4.0, "moment_nmm": 5000.0, "plate_mm": 3.0, "sort": "screw"}
    check_limits(timber_shear.plate_to_wood, plate, "plate_mm", 0.5, 100)
    check_limits(timber_shear.plate_to_wood, {**plate, "axial_n": 0.0}, "axial_n", 0, 1e6)


# EN 1995-1-1, equation 8.4: 14 · 20 · √(30 / (1 − 30/150)) = 1714.6, worked apart.
def test_board_splits_at_the_load_of_the_equation():
    """A board 20 thick and 150 high, held 30 from its edge, splits at 1714.6 N; further in it holds more."""
    assert timber_splitting.splitting_n(20, 150, 30) == pytest.approx(1714.6, abs=0.05)
    assert timber_splitting.splitting_n(20, 150, 60) > timber_splitting.splitting_n(20, 150, 30)
    good = {"width_mm": 20.0, "height_mm": 150.0, "furthest_mm": 30.0}
    check_limits(timber_splitting.splitting_n, good, "width_mm", 5, 1000)
    check_limits(timber_splitting.splitting_n, good, "furthest_mm", 1, 142.5)
