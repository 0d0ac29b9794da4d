"""Movement of wood, sheet goods and other materials, held against published coefficients and cases."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import movement
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, check_refusals, refused

WOOD = {"species": "white oak", "direction": "tangential", "width_mm": 200, "from_pct": 12, "to_pct": 8}
SHEET = {"sheet": "MDF", "length_mm": 1200, "from_pct": 7, "to_pct": 11}
BAR = {"material": "aluminium", "length_mm": 2000, "from_c": 5, "to_c": 30}
MOISTURES = st.floats(*movement.MOISTURE_PCT)


# Coefficients of Wood Handbook, FPL-GTR-190 (2010), Table 13-5, times width and change; exact.
@pytest.mark.parametrize(
    ("species", "width_mm", "from_pct", "to_pct", "tangential_mm", "radial_mm"),
    [
        ("White oak, commercial", 200, 12, 8, -2.920, -1.440),
        ("American beech", 120, 12, 9, -1.5516, -0.6840),
        ("black walnut", 300, 9, 7, -1.644, -1.140),
        ("sugar maple", 57, 8, 11, 0.603630, 0.282150),
    ],
)
def test_wood_moves_by_the_handbook_coefficients(species, width_mm, from_pct, to_pct, tangential_mm, radial_mm):
    """A board shrinks and swells across the grain as the handbook has it, more along the rings than across them."""
    part = {"species": species, "width_mm": width_mm, "from_pct": from_pct, "to_pct": to_pct}
    assert calculate("movement", part | {"direction": "tangential"})["change_mm"] == pytest.approx(tangential_mm)
    assert calculate("movement", part | {"direction": "radial"})["change_mm"] == pytest.approx(radial_mm)


def test_published_case_of_mesquite_comes_out():
    """5 in of mesquite go 0.019 in from 6 to 9 % with 0.00129: a worked case, no published source found."""
    # printed to three decimals of an inch
    assert movement.with_moisture(5 * 25.4, 0.00129, 6, 9) / 25.4 == pytest.approx(0.019, abs=0.0005)


def test_published_case_of_red_alder_comes_out():
    """8 in of red alder go 0.1248 in for 6 % with 0.0026: a worked case, no published source found."""
    # four decimals printed
    assert movement.with_moisture(8 * 25.4, 0.0026, 14, 8) / 25.4 == pytest.approx(-0.1248, abs=0.00005)


def test_european_softwood_follows_the_rule_of_thumb():
    """100 mm shrink 0.25 mm for each percent: DIN EN 1995-1-1/NA:2013, Table NA.7, second hand."""
    part = {"species": "softwood", "direction": "radial", "width_mm": 100, "from_pct": 14, "to_pct": 6}
    assert calculate("movement", part)["change_mm"] == pytest.approx(-8 * 0.25)


def test_european_oak_takes_the_european_table():
    """300 mm of flat-sawn oak from 65 to 45 % humidity at 20 °C: 0.36 % for 1 %, DIN 68100, and Equation 4-5."""
    part = {
        "species": "European oak",
        "direction": "tangential",
        "width_mm": 300,
        "from_pct": 11.9963,
        "to_pct": 8.4852,
    }
    assert calculate("movement", part)["change_mm"] == pytest.approx(-3.7920, abs=0.00006)


@given(st.floats(1, 5000), st.floats(0, 0.01), MOISTURES, MOISTURES)
def test_wood_that_dries_back_is_as_wide_as_before(width_mm, coefficient, one, other):
    """There and back is no change, and equal moisture is none at all."""
    change = movement.with_moisture(width_mm, coefficient, one, other)
    assert movement.with_moisture(width_mm, coefficient, other, one) == pytest.approx(-change)
    assert movement.with_moisture(width_mm, coefficient, one, one) == 0


# definition of linear expansion: 2 m of aluminium with 0.000024 for 1 °C over 25 °C move 1.2 mm
@pytest.mark.parametrize(("from_c", "to_c", "change_mm"), [(5, 30, 1.2), (30, 5, -1.2), (-10, 0, 0.48)])
def test_metal_moves_with_temperature(from_c, to_c, change_mm):
    """Warm is longer, cold is shorter."""
    assert movement.with_warmth(2000, 0.000024, from_c, to_c) == pytest.approx(change_mm)


def test_limits_of_wood_are_those_of_the_coefficients():
    """Outside 6 to 14 % moisture content the movement is not known."""
    good = {"width_mm": 200.0, "coefficient_per_pct": 0.003, "from_pct": 12.0, "to_pct": 8.0}
    check_limits(movement.with_moisture, good, "width_mm", 1, 20_000)
    check_limits(movement.with_moisture, good, "coefficient_per_pct", 0, 0.01)
    check_limits(movement.with_moisture, good, "from_pct", 6, 14)
    check_limits(movement.with_moisture, good, "to_pct", 6, 14)
    for field in ("from_pct", "to_pct"):
        with refused("out-of-range", field) as caught:
            movement.with_moisture(**{**good, field: 20})
        assert "6 to 14 %" in caught.value.remedy


def test_percent_in_place_of_a_fraction_is_refused():
    """0.36 for 1 % is a coefficient in percent, a hundred times too large."""
    with refused("out-of-range", "coefficient_per_pct") as caught:
        movement.with_moisture(200, 0.36, 12, 8)
    assert "fraction" in caught.value.remedy


def test_limits_of_warmth():
    """Building temperatures, lengths up to 100 m."""
    good = {"length_mm": 2000.0, "coefficient_per_c": 0.00002, "from_c": 5.0, "to_c": 30.0}
    check_limits(movement.with_warmth, good, "length_mm", 1, 100_000)
    check_limits(movement.with_warmth, good, "coefficient_per_c", 0, 0.01)
    check_limits(movement.with_warmth, good, "from_c", -40, 80)
    check_limits(movement.with_warmth, good, "to_c", -40, 80)


@pytest.mark.parametrize(
    ("change_mm", "allowance_mm", "word", "figure", "limit", "margin"),
    [
        (-2.92, 3.85, Word.WITHIN, 3.0, 3.85, 0.9),
        (2.92, 3.6, Word.CLOSE, 3.0, 3.6, 0.6),
        (2.92, 3.0, Word.CLOSE, 3.0, 3.0, 0.0),
        (-2.92, 2.95, Word.CLOSE, 2.92, 2.95, 0.0),
        (-2.96, 2.95, Word.OVER, 3.0, 2.95, -0.1),
        (0, 0, Word.WITHIN, 0.0, 0.0, 0.0),
    ],
)
def test_movement_is_held_against_the_gap(change_mm, allowance_mm, word, figure, limit, margin):
    """Shrinking and swelling count alike; movement is shown rounded up, and judged as it is."""
    found = movement.movement_verdict(change_mm, allowance_mm)
    assert found.word == word
    assert (found.figure, found.limit, found.margin) == pytest.approx((figure, limit, margin))
    assert (found.check, found.unit, found.source) == ("movement", "mm", movement.METHOD)
    assert movement.LEFT_OUT in found.sentence


def test_verdict_carries_the_source_and_working_it_is_given():
    """The coefficient's source goes with the answer."""
    found = movement.movement_verdict(1, 2, "a table", (("Width", "200 mm"),))
    assert (found.source, found.working) == ("a table", (("Width", "200 mm"),))


def test_limits_of_the_verdict():
    """A gap is nothing to a metre; a movement no more than that either way."""
    good = {"change_mm": 0.0, "allowance_mm": 5.0}
    check_limits(movement.movement_verdict, good, "change_mm", -1000, 1000)
    check_limits(movement.movement_verdict, good, "allowance_mm", 0, 1000)


def test_calculation_of_wood_gives_the_change_and_its_source():
    """A wooden part needs species, direction, width and two moisture contents."""
    # Wood Handbook, FPL-GTR-190 (2010), Table 13-5: white oak, tangential 0.00365
    answer = calculate("movement", WOOD)
    assert answer["change_mm"] == pytest.approx(-2.92)
    assert answer["source"] == ["Wood Handbook, FPL-GTR-190 (2010), Table 13-5 (read in the source)"]
    assert ["Coefficient", "0.00365 of the size for 1 %"] in answer["working"]


def test_calculation_of_a_sheet_moves_in_its_plane():
    """A board of medium density fibreboard moves 1 mm in a metre from 9 to 12 %, rounded up."""
    # EWPAA, Facts about Particleboard and MDF, p. 37: 1 mm/m from 9 to 12 %, so 0.00034 for 1 %
    answer = calculate("movement", SHEET | {"allowance_mm": 2})
    assert answer["change_mm"] == pytest.approx(1200 * 0.00034 * 4)
    assert (answer["margin_mm"], answer["verdict"]["word"]) == (0.3, "close")
    assert answer["source"][0].startswith("EWPAA")


def test_calculation_of_a_bar_moves_with_warmth():
    """A metal part needs a length and two temperatures."""
    # 0.000024 for 1 °C: Serway and Vuille, College Physics, 9th edition (2012), chapter 10
    answer = calculate("movement", BAR | {"allowance_mm": 1})
    assert answer["change_mm"] == pytest.approx(1.2)
    assert (answer["margin_mm"], answer["verdict"]["word"]) == (-0.2, "over")
    assert answer["source"][0].endswith("(second hand)")


def test_calculation_takes_rows_of_the_sites_own():
    """A species the table lacks can be added with its source."""
    row = {"material": "Pear", "group": "species", "radial_per_pct": 0.0015, "source": "maker's letter"}
    answer = calculate("movement", WOOD | {"species": "pear", "direction": "radial", "own_rows": [row]})
    assert answer["change_mm"] == pytest.approx(-1.2)
    assert answer["source"] == ["maker's letter (the site's own)"]


@pytest.mark.parametrize(("part", "key"), [(WOOD, "species"), (SHEET, "sheet"), (BAR, "material")])
def test_unknown_material_is_refused_by_its_key(part, key):
    """The key the name stands under is named, and what to do."""
    with refused("not-a-choice", key):
        calculate("movement", part | {key: "unobtainium"})


@pytest.mark.parametrize(
    ("part", "key", "other"), [(WOOD, "species", "brass"), (SHEET, "sheet", "brass"), (BAR, "material", "white oak")]
)
def test_material_without_the_figure_wanted_is_refused(part, key, other):
    """Brass has no movement with moisture, and oak none with temperature, in the table."""
    with refused("missing", key):
        calculate("movement", part | {key: other})


def test_part_that_is_none_or_two_of_the_kinds_is_refused():
    """One of species, sheet and material is wanted."""
    with refused("wrong-use", "species") as caught:
        calculate("movement", {"width_mm": 200})
    assert caught.value.reason.startswith("None")
    with refused("wrong-use", "species") as caught:
        calculate("movement", WOOD | {"sheet": "MDF"})
    assert "species and sheet" in caught.value.reason


def test_key_of_another_kind_of_part_is_refused():
    """A length means nothing for a wooden part, nor a width for a bar."""
    with refused("unknown-field", "length_mm"):
        calculate("movement", WOOD | {"length_mm": 100})
    with refused("unknown-field", "width_mm"):
        calculate("movement", BAR | {"width_mm": 100})


def test_direction_other_than_radial_or_tangential_is_refused():
    """Along the grain there is no coefficient."""
    with refused("not-a-choice", "direction"):
        calculate("movement", WOOD | {"direction": "longitudinal"})
    with refused("missing", "direction"):
        calculate("movement", {key: value for key, value in WOOD.items() if key != "direction"})


def test_side_of_a_sheet_has_the_limits_of_a_width():
    """A sheet's side is refused by its own key."""
    for length in (0.9, 20_000.1):
        with refused("out-of-range", "length_mm"):
            calculate("movement", SHEET | {"length_mm": length})


def test_rows_that_are_no_list_are_refused():
    """The site's own rows come as a list."""
    with refused("unsuitable-shape", "own_rows"):
        calculate("movement", WOOD | {"own_rows": {"material": "Pear"}})


@pytest.mark.parametrize("part", [WOOD, SHEET, BAR], ids=["wood", "sheet", "bar"])
def test_bad_input_is_refused(part):
    """Anything but a number within the limits is refused, naming its key."""
    numbers = tuple(key for key, value in part.items() if not isinstance(value, str))
    check_refusals("movement", part, numbers)
    for value, code in ((-0.1, "out-of-range"), (float("nan"), "out-of-range"), ("3", "not-a-number")):
        with refused(code, "allowance_mm"):
            calculate("movement", part | {"allowance_mm": value})
