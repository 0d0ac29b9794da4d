"""The table of materials, held against the tables it was taken from."""

from __future__ import annotations

import csv
import re

import pytest

from fieldbook.checks import materials
from fieldbook.checks.material_rows import ASKED, COLUMNS, GROUPS, NO_SOURCE, PROPERTIES, STATUSES, TABLE, table_rows
from fieldbook.errors import FieldbookError, Refused
from fieldbook.model.kinds import KINDS
from tests.checks import published
from tests.checks.refusals import refused

PEAR = {"material": "Pear", "group": "species", "radial_per_pct": 0.0015, "source": "maker's letter"}


def values(name, *wanted):
    material = materials.lookup(name)
    return tuple(material.figure(key).value for key in wanted)


@pytest.mark.parametrize("row", published.rows("movement_table_13_5.csv"), ids=lambda row: row["species"])
def test_american_species_has_the_handbook_coefficients(row):
    """Every species of the handbook's table has its radial and tangential coefficient, and how sure they are."""
    assert values(row["species"], "radial_per_pct", "tangential_per_pct") == (row["radial"], row["tangential"])
    figure = materials.lookup(row["species"]).figure("radial_per_pct")
    assert (figure.status, figure.unit, figure.own) == (row["status"], "1/%", False)
    assert "Wood Handbook" in figure.source


@pytest.mark.parametrize("row", published.rows("movement_din_68100.csv"), ids=lambda row: row["species"])
def test_european_species_has_its_differential_shrinkage(row):
    """The European table counts in percent, the table of materials in fractions: a hundred times less."""
    found = values(row["species"], "radial_per_pct", "tangential_per_pct")
    assert found == pytest.approx((row["radial_pct"] / 100, row["tangential_pct"] / 100))
    assert "DIN 68100" in materials.lookup(row["species"]).figure("radial_per_pct").source


# Wood Handbook, Table 5-3b, specific gravity at 12 %: second hand, from two public tables citing it.
@pytest.mark.parametrize(
    ("species", "gravity"),
    [
        ("white oak", 0.68),
        ("sugar maple", 0.63),
        ("red oak", 0.63),
        ("American beech", 0.64),
        ("white ash", 0.60),
        ("yellow birch", 0.62),
        ("Douglas-fir, coast type", 0.48),
        ("Sitka spruce", 0.40),
        ("ponderosa pine", 0.40),
        ("western hemlock", 0.45),
        ("Engelmann spruce", 0.35),
        ("black walnut", 0.55),
        ("eastern white pine", 0.35),
        ("western larch", 0.52),
        ("black cherry", 0.50),
        ("red alder", 0.41),
    ],
)
def test_species_has_its_specific_gravity(species, gravity):
    """The withdrawal of screws takes the specific gravity from here."""
    assert values(species, "specific_gravity") == (gravity,)


# From the sources named in the table; where a source gives a range, expansion at its upper end, friction at its lower.
@pytest.mark.parametrize(
    ("material", "key", "value"),
    [
        ("aluminium", "thermal_per_c", 24e-6),
        ("brass", "thermal_per_c", 19e-6),
        ("bronze", "thermal_per_c", 19e-6),
        ("copper", "thermal_per_c", 17e-6),
        ("lead", "thermal_per_c", 29e-6),
        ("steel", "thermal_per_c", 12e-6),
        ("stainless steel", "thermal_per_c", 16e-6),
        ("cast iron", "thermal_per_c", 12e-6),
        ("glass", "thermal_per_c", 9e-6),
        ("acrylic", "thermal_per_c", 90e-6),
        ("polycarbonate", "thermal_per_c", 0.000038 * 1.8),
        ("PVC", "thermal_per_c", 100e-6),
        ("HDPE", "thermal_per_c", 162e-6),
        ("ABS", "thermal_per_c", 108e-6),
        ("GRP", "thermal_per_c", 35e-6),
        ("MDF", "in_plane_per_pct", 0.00034),
        ("chipboard", "in_plane_per_pct", 0.00034),
        ("OSB", "in_plane_per_pct", 0.0004),
        ("plywood", "in_plane_per_pct", 0.0002),
        ("wood on metal", "friction", 0.2),
        ("leather on metal", "friction", 0.4),
        ("rubber on steel", "friction", 0.6),
        ("aluminium on steel", "friction", 0.47),
        ("brass on steel", "friction", 0.44),
        ("wood on wood", "friction", 0.2),
        ("cast iron on oak", "friction", 0.42),
        ("C16", "bearing_n_mm2", 2.2),
        ("C24", "bearing_n_mm2", 2.5),
        ("lime plaster", "bearing_n_mm2", 0.4),
        ("rubble stone", "bearing_n_mm2", 1.0),
        ("brick", "bearing_n_mm2", 2.6),
        ("sandstone", "bearing_n_mm2", 2.0),
        ("granite", "bearing_n_mm2", 5.8),
        ("glass", "density_kg_m3", 2650),
        ("stainless steel", "density_kg_m3", 8030),
    ],
)
def test_other_material_has_its_published_figure(material, key, value):
    """Metals, plastics, sheet goods, friction pairs and substrates carry what their sources say."""
    assert values(material, key) == pytest.approx((value,))


# EN 338:2016, f_c,90,k and rho_k: second hand, two transcriptions agree; the edition of 2003 was a third higher.
@pytest.mark.parametrize(
    ("name", "bearing", "density"),
    [
        ("C14", 2.0, 290),
        ("C16", 2.2, 310),
        ("C24", 2.5, 350),
        ("C30", 2.7, 380),
        ("D18", 4.8, 475),
        ("D24", 4.9, 485),
        ("D30", 5.3, 530),
        ("D40", 5.5, 550),
        ("D70", 12.0, 800),
    ],
)
def test_strength_class_has_its_bearing_and_its_density(name, bearing, density):
    """Screws, nails and bolts in wood take the characteristic density, jaws the strength across the grain."""
    assert values(name, "bearing_n_mm2", "characteristic_density_kg_m3") == (bearing, density)


@pytest.mark.parametrize(
    ("name", "lowest"),
    [("oak", "D18"), ("chestnut", "D18"), ("ash", "D18"), ("larch", "C14"), ("Scots pine", "C14"), ("deal", "C14")],
)
def test_wood_of_no_known_grade_has_the_lowest_class(name, lowest):
    """Nobody graded an old board, so the careful end stands until somebody does."""
    wanted = ("bearing_n_mm2", "characteristic_density_kg_m3")
    assert values(name, *wanted) == values(lowest, *wanted)


# EN 1991-1-1:2002, Table A.4, upper ends in kN/m³.
@pytest.mark.parametrize(
    ("name", "weight_kn_m3"),
    [("aluminium", 27.0), ("brass", 85.0), ("bronze", 85.0), ("copper", 89.0), ("lead", 114.0), ("steel", 78.5),
     ("cast iron", 72.5), ("wrought iron", 76.0)],
)  # fmt: skip
def test_metal_weighs_what_the_heavy_end_says(name, weight_kn_m3):
    """A mass reckoned from a density is never too small."""
    (density,) = values(name, "density_kg_m3")
    assert 0 <= density - weight_kn_m3 / 9.81 * 1000 < 1


@pytest.mark.parametrize("name", ["felt", "cork", "leather", "rubber", "felt on plaster", "leather on painted wood"])
def test_lining_nobody_published_a_figure_for_is_asked_for(name):
    """It is known by name, and what is missing is asked for in the words of the form."""
    with refused("missing", "lining") as caught:
        materials.lookup(name, field="lining").figure("friction", field="lining")
    assert "“Friction”" in caught.value.remedy
    assert "sample" in caught.value.remedy


def test_all_that_a_strength_needs_is_asked_for_at_once():
    """Two figures that are missing are two findings of one refusal."""
    with pytest.raises(Refused) as caught:
        materials.lookup("lead").needed(("friction", "bearing_n_mm2"), field="bears_on")
    assert [finding.field for finding in caught.value.findings] == ["bears_on", "bears_on"]
    assert "Bearing strength" in caught.value.findings[1].remedy
    assert "N/mm²" in caught.value.findings[1].remedy
    with refused("missing", "grips"):
        materials.lookup("lime plaster").needed(("bearing_n_mm2", "friction"), field="grips")
    (bearing, density) = materials.lookup("oak").needed(("bearing_n_mm2", "characteristic_density_kg_m3"))
    assert (bearing.value, density.value) == (4.8, 475)


def test_what_is_asked_for_bears_the_labels_of_the_form():
    """A person finds the field under the name the refusal gives it, with the same unit and bounds."""
    fields = KINDS["material"].by_name
    assert {key: label for key, (label, _) in ASKED.items()} == {key: fields[key].label for key in PROPERTIES}
    assert {key: (fields[key].unit, fields[key].low, fields[key].high) for key in PROPERTIES} == PROPERTIES


# What no reader can find again.
UNTRACEABLE = re.compile(
    r"public table|makers? note|maker's|trade (?:page|body|association)|^common practice|textbook|glossary"
)


def test_no_row_names_a_source_nobody_can_find():
    """A source is a title with edition, year or number, or it is said that none was found."""
    for row in table_rows():
        assert not UNTRACEABLE.search(row["source"]), row["source"]
        assert row["source"] == NO_SOURCE or re.search(r"[0-9]", row["source"]), row["source"]
        assert row["source"] != NO_SOURCE or row["status"] == "memory"


def test_every_row_names_a_known_group_a_source_and_its_status():
    """No figure stands in the table without saying where it comes from and how sure it is."""
    for row in table_rows():
        assert row["group"] in GROUPS
        assert row["source"]
        assert row["status"] in STATUSES
        assert row["source"] == NO_SOURCE or any(row[key] is not None for key in PROPERTIES)


def test_every_figure_lies_within_the_bounds_of_its_property():
    """A slip of units in the table is caught by the same bounds as in a row of the site's own."""
    for row in table_rows():
        for key, (_, low, high) in PROPERTIES.items():
            assert row[key] is None or low <= row[key] <= high


def test_no_name_stands_for_two_materials():
    """A name leads to one material only."""
    owners = {}
    for row in table_rows():
        for name in row["names"]:
            assert owners.setdefault(name, row["material"]) == row["material"]


def test_table_has_the_columns_own_rows_have():
    """A site's own rows are filled in like the table."""
    with TABLE.open(encoding="utf-8", newline="") as lines:
        header = next(csv.reader(line for line in lines if not line.startswith("#")))
    assert tuple(header) == COLUMNS


@pytest.mark.parametrize(
    "name", ["Oak, white", "white oak", "WHITE OAK", "  oak white ", "White oak, commercial", "commercial white-oak"]
)
def test_name_is_found_in_any_order_and_case(name):
    """The handbook turns names round; people do not."""
    assert materials.lookup(name).name == "White oak, commercial"


@pytest.mark.parametrize(
    ("name", "official"),
    [
        ("oak", "Oak, European"),
        ("Eiche", "Oak, European"),
        ("European oak", "Oak, European"),
        ("Scots pine", "Pine, Scots"),
        ("Norway spruce", "Spruce, European"),
        ("MDF", "Medium density fibreboard"),
    ],
)
def test_other_names_lead_to_the_material(name, official):
    """Names of the trade and of the source's language are known."""
    assert materials.lookup(name).name == official


def test_figures_of_several_sources_are_of_one_material():
    """Movement from one table and specific gravity from another stand together, each with its source."""
    beech = materials.lookup("American beech")
    assert beech.group == "species"
    assert beech.figure("tangential_per_pct").source != beech.figure("specific_gravity").source


def test_unknown_name_is_refused_with_the_nearest():
    """What shares a word is offered."""
    with refused("not-a-choice", "material") as caught:
        materials.lookup("purple oak")
    assert "Oak, European" in caught.value.remedy
    assert "Hackberry" not in caught.value.remedy
    with refused("not-a-choice", "species") as caught:
        materials.lookup("unobtainium", field="species")
    assert "row of your own" in caught.value.remedy


@pytest.mark.parametrize("name", ["", "  ", ",", None, 3, ["oak"]])
def test_name_that_is_none_is_refused(name):
    """Nothing, or something that is no text, is no material."""
    with refused("not-a-choice", "material"):
        materials.lookup(name)


def test_figure_a_material_does_not_have_is_missing():
    """What the table lacks is not known, and the remedy is a row of one's own."""
    with refused("missing", "sheet") as caught:
        materials.lookup("lead").figure("friction", field="sheet")
    assert caught.value.value == "Lead"
    with refused("missing", "material"):
        materials.lookup("lead").figure("friction")


def test_source_is_cited_with_how_it_came_from_there():
    """Read, second hand or from memory stands behind each source; where there is none, that is all that is said."""
    radial = materials.lookup("white oak").figure("radial_per_pct")
    assert radial.cited() == "Wood Handbook, FPL-GTR-190 (2010), Table 13-5 (read in the source)"
    assert materials.lookup("C24").figure("bearing_n_mm2").cited().endswith("(second hand)")
    assert materials.lookup("PVC").figure("thermal_per_c").cited() == NO_SOURCE
    assert materials.lookup("lime plaster").figure("bearing_n_mm2").cited().endswith("(from memory)")


def test_own_row_adds_a_material_and_is_marked():
    """A site's own figure says that it is."""
    figure = materials.lookup("pear", [PEAR]).figure("radial_per_pct")
    assert (figure.value, figure.own, figure.status, figure.source) == (
        0.0015,
        True,
        "the site's own",
        "maker's letter",
    )
    assert materials.lookup("pear", [PEAR]).group == "species"
    with pytest.raises(FieldbookError):
        materials.lookup("pear")


def test_own_row_goes_before_the_table_and_leaves_the_rest():
    """An own figure replaces the table's, another figure of the material stays."""
    own = {
        "material": "white oak",
        "group": "species",
        "radial_per_pct": "0.002",
        "source": "measured here",
    }
    found = materials.lookup("white oak", [own])
    assert (found.figure("radial_per_pct").value, found.figure("radial_per_pct").own) == (0.002, True)
    assert (found.figure("tangential_per_pct").value, found.figure("tangential_per_pct").own) == (0.00365, False)


def test_known_materials_of_a_site_answer_like_a_lookup():
    """Made once with the site's rows, it gives the same material each time, and refuses in the asked field."""
    known = materials.Known([PEAR])
    assert known.lookup("pear") == materials.lookup("pear", [PEAR])
    assert known.lookup("PEAR") is known.lookup("pear")
    assert known.lookup("white oak") == materials.lookup("white oak")
    for _ in range(2):
        with refused("not-a-choice", "grips"):
            known.lookup("unobtainium", "grips")


def test_later_own_row_wins():
    """Of two own rows for one figure the later stands."""
    later = PEAR | {"radial_per_pct": 0.0016}
    assert materials.lookup("Pear", [PEAR, later]).figure("radial_per_pct").value == 0.0016


def test_own_row_may_have_other_names():
    """Names after a semicolon lead to the own material too."""
    row = PEAR | {"also_called": "pearwood; Birne", "status": "ignored", "friction": None, "density_kg_m3": ""}
    assert materials.lookup("birne", [row]).name == "Pear"
    assert set(materials.lookup("pearwood", [row]).figures) == {"radial_per_pct"}


@pytest.mark.parametrize(
    ("row", "code", "field"),
    [
        ("no row", "unknown-field", "own_rows[0]"),
        (PEAR | {"hardness": 3}, "unknown-field", "own_rows[0].hardness"),
        (PEAR | {"material": ""}, "missing", "own_rows[0].material"),
        (PEAR | {"material": 3}, "unsuitable-text", "own_rows[0].material"),
        (PEAR | {"source": None}, "missing", "own_rows[0].source"),
        ({key: value for key, value in PEAR.items() if key != "group"}, "missing", "own_rows[0].group"),
        (PEAR | {"group": "fruit"}, "not-a-choice", "own_rows[0].group"),
        (PEAR | {"radial_per_pct": None}, "missing", "own_rows[0]"),
        (PEAR | {"radial_per_pct": 0.15}, "out-of-range", "own_rows[0].radial_per_pct"),
        (PEAR | {"radial_per_pct": float("nan")}, "out-of-range", "own_rows[0].radial_per_pct"),
        (PEAR | {"radial_per_pct": "much"}, "not-a-number", "own_rows[0].radial_per_pct"),
        (PEAR | {"radial_per_pct": "nan"}, "out-of-range", "own_rows[0].radial_per_pct"),
        (PEAR | {"radial_per_pct": True}, "not-a-number", "own_rows[0].radial_per_pct"),
        (PEAR | {"radial_per_pct": [0.0015]}, "not-a-number", "own_rows[0].radial_per_pct"),
        (PEAR | {"also_called": 3}, "unsuitable-text", "own_rows[0].also_called"),
    ],
)
def test_bad_own_row_is_refused_by_row_and_column(row, code, field):
    """A slip in an own row is named where it stands."""
    with refused(code, field):
        materials.lookup("white oak", [row])
    if isinstance(row, dict):
        with refused(code, field.replace("[0]", "[1]")):
            materials.names("species", [PEAR, row])


# What is met in buildings, with room to spare: common practice, no source.
BOUNDS = {
    "radial_per_pct": (0.0001, 0.01),
    "tangential_per_pct": (0.0001, 0.01),
    "in_plane_per_pct": (0.00001, 0.01),
    "specific_gravity": (0.05, 1.5),
    "density_kg_m3": (10, 25_000),
    "characteristic_density_kg_m3": (100, 1500),
    "thermal_per_c": (0.0000001, 0.001),
    "friction": (0.01, 2),
    "bearing_n_mm2": (0.01, 1000),
}


@pytest.mark.parametrize("key", PROPERTIES)
def test_figure_of_an_own_row_has_bounds(key):
    """A slip of units lands beyond the bounds; the bounds themselves are taken."""
    row = {"material": "Pear", "group": "species", "source": "maker's letter"}
    for bound, beyond in zip(BOUNDS[key], (0.999, 1.001), strict=True):
        assert materials.lookup("pear", [row | {key: bound}]).figure(key).value == bound
        with refused("out-of-range", f"own_rows[0].{key}"):
            materials.lookup("pear", [row | {key: bound * beyond}])


def test_names_of_a_group_are_sorted_without_doubles():
    """A list to choose from has each name once."""
    found = materials.names("species", [PEAR])
    assert found == sorted(set(found))
    assert "Pear" in found
    assert "White oak, commercial" in found
    assert "Steel" not in found
    assert "Pear" not in materials.names("species")
    with refused("not-a-choice", "group"):
        materials.names("fruit")
