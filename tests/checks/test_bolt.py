"""Bolts and plates of steel and stainless steel, held against EN 1993-1-8 and ISO tables."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import bolt, bolt_class
from fieldbook.checks.bolt import Hole
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

TABLES = ("threads.csv", "bolt_classes.csv")
DATA = Path(bolt_class.__file__).parent / "data"
METAL = bolt_class.metal("4.6")


@pytest.mark.parametrize(
    "row", published.rows("bolt_design.csv"), ids=lambda row: f"M{row['diameter']:g} {row['metal']}"
)
def test_shear_and_pull_agree_with_the_table(row):
    """One bolt carries the shear and the pull of the table's formulas."""
    metal = bolt_class.metal(str(row["metal"]))
    assert bolt_class.stress_area_mm2(row["diameter"]) == row["stress_area"]
    assert bolt.shear_n(row["diameter"], metal) == pytest.approx(row["shear"], abs=0.5)  # printed to 1 N
    assert bolt.tension_n(row["diameter"], metal, countersunk=False) == pytest.approx(row["pull"], abs=0.5)


@pytest.mark.parametrize("row", published.rows("bolt_strengths.csv"), ids=lambda row: str(row["metal"]))
def test_classes_have_the_printed_strengths(row):
    """Each class has the tensile and yield strength printed for it."""
    metal = bolt_class.metal(str(row["metal"]))
    assert (metal.name, metal.tensile_n_mm2, metal.yield_n_mm2) == (str(row["metal"]), row["tensile"], row["yield"])


# Public table after BS EN ISO 898-1: minimum tensile strengths; 8.8 is that up to M16.
@pytest.mark.parametrize(("named", "least"), [("4.8", 420), ("5.8", 520), ("6.8", 600), ("8.8", 800)])
def test_strength_reckoned_with_is_never_above_the_least_there_is(named, least):
    """The nominal strength used is at most the minimum the standard asks of the bolt."""
    assert bolt_class.metal(named).tensile_n_mm2 <= least


@pytest.mark.parametrize("row", published.rows("bolt_yield_loads.csv"), ids=lambda row: f"M{row['diameter']:g}")
def test_stainless_bolt_begins_to_stretch_at_the_printed_load(row):
    """A2-70 begins to stretch for good at the load of the table."""
    found = bolt_class.yield_load_n(row["diameter"], bolt_class.metal("A2-70"))
    assert found == pytest.approx(row["load"], rel=0.007)  # the table rounds its areas


def test_stress_areas_follow_the_formula_of_the_standard():
    """Each area is π/4 (d − 0.9382 P)², to the three figures the standard prints."""
    for row in published.rows(str(DATA / "threads.csv")):
        formula = math.pi / 4 * (row["diameter_mm"] - 0.9382 * row["pitch_mm"]) ** 2
        assert row["stress_area_mm2"] == pytest.approx(formula, rel=0.0045)  # three figures, 115 the coarsest


@pytest.mark.parametrize("name", TABLES)
def test_tables_of_bolts_name_their_source(name):
    """Each table says where it comes from, how it was typed, and how sure it is."""
    text = (DATA / name).read_text(encoding="utf-8")
    assert all(heading in text for heading in published.HEADINGS)


# Published worksheet on Table 3.4: d0 22, e1 = e2 26.4, p1 48.4, p2 52.8, t 8, plate 360 N/mm². It prints 33.997 and
# 41.079 kN, because it multiplies by the bolt's strength; with the plate's, as the table says, 30.597 and 36.972.
def test_bearing_is_on_the_strength_of_the_plate():
    """An M20 tears the plate's end at 30 597 N and its inner part at 36 972 N."""
    assert bolt.bearing_n(20, METAL, 360, 8, Hole(22, 26.4, 26.4)) == pytest.approx(30_597, abs=0.5)
    inner = bolt.bearing_n(20, METAL, 360, 8, Hole(22, 66, 26.4, along=48.4, across=52.8))
    assert inner == pytest.approx(36_972, abs=0.5)
    assert bolt.bearing_n(20, METAL, 360, 8, Hole(22, 26.4, 26.4, 48.4, 52.8)) == pytest.approx(30_597, abs=0.5)


def test_punching_agrees_with_the_worksheet():
    """A head of 30 mm is drawn through 8 mm of plate at 130 288 N."""
    assert bolt.punching_n(30, 360, 8) == pytest.approx(130_288, abs=0.5)


# EN 1993-1-8, Table 3.4: v + t/1.4, worked apart.
@pytest.mark.parametrize(
    ("shear", "pull", "expected"), [(0.6, 0.6, 1.0286), (0.5, 0.5, 0.8571), (0.9, 0.3, 1.1143), (0.0, 1.2, 1.2)]
)
def test_shear_with_pull_agrees_with_worked_figures(shear, pull, expected):
    """Shear counts in full and pull over 1.4, and pull alone may not pass 1."""
    assert bolt.use(shear, pull) == pytest.approx(expected, abs=5e-5)


def test_countersunk_head_and_shank_change_what_a_bolt_carries():
    """A countersunk head carries 0.63 of strength instead of 0.9; a plain shank its whole area at 0.6 of any class."""
    strong = bolt_class.metal("10.9")
    assert bolt.tension_n(8, METAL, countersunk=True) == pytest.approx(
        0.7 * bolt.tension_n(8, METAL, countersunk=False)
    )
    assert bolt.shear_n(8, strong, in_thread=False) == pytest.approx(0.6 * 1000 * math.pi * 16 / 1.25)
    assert bolt.shear_n(8, strong) == pytest.approx(0.5 * 1000 * 36.6 / 1.25)


# M6 of 4.6: 3859 N shear, 5789 N pull; 1.35 · 500 + 1.5 · 300 = 1125 N.
def test_bolt_is_held_against_factored_loads():
    """Loads for good and by people are raised by their factors, one way and both at once."""
    shear, pull = bolt.shear_n(6, METAL), bolt.tension_n(6, METAL, countersunk=False)
    found = bolt.verdict("shear", "The shear on the bolt", 500, 300, shear)
    assert (found.word, found.figure, found.limit) == (Word.WITHIN, 1125, 3859.2)
    both = bolt.verdict_on_both((500, 300), (2000, 1000), shear, pull)
    # 1125/3859.2 + (2700 + 1500)/5788.8/1.4 = 0.8098
    assert (both.word, both.figure) == (Word.CLOSE, 81.0)
    assert bolt.verdict_on_both((3000, 0), (2000, 0), shear, pull).word is Word.OVER


@given(st.floats(0, 9000), st.floats(0, 9000), st.floats(0, 9000), st.floats(0, 2000))
def test_more_load_on_a_bolt_never_gets_a_better_word(permanent, people, pull, more):
    """Adding to any of the loads never improves the word."""
    words = list(Word)

    def rank(shear: float, by_people: float, pulled: float) -> int:
        return words.index(bolt.verdict_on_both((shear, by_people), (pulled, 0), 7027, 10541).word)

    base = rank(permanent, people, pull)
    assert rank(permanent + more, people, pull) <= base
    assert rank(permanent, people + more, pull) <= base
    assert rank(permanent, people, pull + more) <= base


@pytest.mark.parametrize("named", ["", "70", "A2-60", "A6-70", "A2", "B2-70", "8.9", None, 8.8, "x" * 99])
def test_unknown_class_is_refused(named):
    """A class that is not among those with a figure is refused by name, not guessed."""
    with refused("not-a-choice", "metal"):
        bolt_class.metal(named)


def test_bolts_and_plates_outside_the_tables_are_refused():
    """Sizes without a stress area, holes too near an edge and odd plates are refused."""
    with refused("not-a-choice", "diameter_mm"):
        bolt_class.stress_area_mm2(7)
    plate = {"head_mm": 10.0, "plate_n_mm2": 360.0, "plate_mm": 3.0}
    check_limits(bolt.punching_n, plate, "plate_mm", 0.5, 200)
    check_limits(bolt.punching_n, plate, "plate_n_mm2", 100, 1500)
    check_limits(bolt.punching_n, plate, "head_mm", 3, 100)
    for name, hole in (
        ("end", Hole(9, 10, 20)),
        ("edge", Hole(9, 20, 10)),
        ("along", Hole(9, 20, 20, along=15)),
        ("across", Hole(9, 20, 20, across=20)),
        ("diameter", Hole(14, 20, 20)),
    ):
        with refused("out-of-range", f"hole.{name}"):
            bolt.bearing_n(8, METAL, 360, 3, hole)
