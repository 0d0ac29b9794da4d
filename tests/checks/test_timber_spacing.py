"""Edge, end and spacing in wood, held against printed tables after EN 1995-1-1."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import timber_spacing
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_limits, refused

WORDS = list(Word)
NAMES = timber_spacing.Distances._fields


@pytest.mark.parametrize("row", published.rows("timber_spacing_nails.csv"))
def test_nails_and_thin_screws_keep_the_printed_distances(row):
    """Each distance is the printed number of diameters, for its density, drilling and thickness of shank."""
    for sort, diameter in (("smooth nail", 6 if row["thick"] else 4), ("screw", 5 if row["thick"] else 4.5)):
        found = timber_spacing.required_mm(
            sort, diameter, row["density"], row["angle"], predrilled=bool(row["predrilled"])
        )
        assert found == pytest.approx(tuple(row[name] * diameter for name in NAMES))


@pytest.mark.parametrize("row", published.rows("timber_spacing_bolts.csv"))
def test_bolts_keep_the_printed_distances(row):
    """The worst angle of each distance is that of the printed table of sizes, for bolts and for thick screws."""
    for sort in ("bolt", "screw"):
        angles = [timber_spacing.required_mm(sort, row["diameter"], 350, deg, predrilled=True) for deg in (0, 90)]
        along, across, loaded_end, _, loaded_edge, unloaded_edge = map(max, zip(*angles, strict=True))
        # the table prints the unloaded end of a load along the grain
        found = (along, across, loaded_end, angles[0].unloaded_end, loaded_edge, unloaded_edge)
        assert found == pytest.approx(tuple(row[name] for name in NAMES))


# LVL Handbook Europe (2025), Table 5.1, wide face, for a screw of 5 mm; thickness 12 d from EN 1995-1-1 8.7.2(2).
def test_pulled_screw_keeps_the_printed_distances():
    """A 5 mm screw that is pulled stands 35 and 25 mm from the next, 50 from the end, 20 from the edge, in 60 mm."""
    expected = {"along": 35, "across": 25, "end": 50, "edge": 20, "thickness": 60}
    assert timber_spacing.required_for_pull_mm(5) == expected


# EN 1995-1-1, 8.3.1.4: the spacing of nails at a steel plate, 0.7 of the table's.
def test_steel_plate_lets_nails_stand_closer_to_each_other_alone():
    """Behind a steel plate the spacing shrinks to 0.7, the edges stay."""
    wood = timber_spacing.required_mm("smooth nail", 4, 350, 30, predrilled=False)
    plate = timber_spacing.required_mm("smooth nail", 4, 350, 30, predrilled=False, steel_plate=True)
    assert plate[:2] == pytest.approx((0.7 * wood.along, 0.7 * wood.across))
    assert plate[2:] == wood[2:]


# EN 1995-1-1, equations 8.18 and 8.19: worked apart for 4 mm (7 d and 14 d govern) and 6 mm at 350 kg/m³.
@pytest.mark.parametrize(
    ("diameter", "splits", "expected_mm"),
    [(4, False, 28), (4, True, 56), (6, False, 42), (6, True, 84), (8, False, 64.75)],
)
def test_undrilled_wood_must_be_thick_enough(diameter, splits, expected_mm):
    """The least thickness grows with the nail, and doubles where the wood splits easily."""
    assert timber_spacing.least_thickness_mm(diameter, 350, splits) == pytest.approx(expected_mm)


# EN 1995-1-1, 8.3.1.1(2) and 10.4.5(2), from memory.
@pytest.mark.parametrize(
    ("sort", "diameter", "density", "wood", "drilled"),
    [
        ("smooth nail", 4, 350, "softwood", False),
        ("smooth nail", 6.1, 350, "softwood", True),
        ("smooth nail", 4, 501, "hardwood", True),
        ("screw", 6, 350, "softwood", False),
        ("screw", 4, 450, "hardwood", True),
        ("bolt", 8, 350, "softwood", True),
    ],
)
def test_hard_wood_and_thick_shanks_are_drilled(sort, diameter, density, wood, drilled):
    """Dense wood, thick shanks, bolts, and every screw in hardwood need a hole."""
    assert timber_spacing.needs_drilling(sort, diameter, density, wood) is drilled


def test_shortest_distance_decides():
    """The verdict is on the distance that falls shortest, with what is left of it."""
    required = timber_spacing.required_mm("screw", 5, 350, 0, predrilled=False)._asdict()
    found = timber_spacing.verdict(required, {"loaded_end": 80.0, "unloaded_edge": 20.0})
    assert (found.word, found.figure, found.limit, found.margin) == (Word.OVER, 20, 25, -5)
    assert timber_spacing.verdict(required, {"loaded_end": 80.0}).word is Word.WITHIN
    assert timber_spacing.verdict(required, {"loaded_end": 77.0}).word is Word.CLOSE


def test_distance_nobody_measured_is_not_known_with_what_it_must_be():
    """An unmeasured edge is asked for with its figure, unless another distance is over already."""
    required = {"loaded_end": 75.0, "unloaded_edge": 25.0}
    found = timber_spacing.verdict(required, {"loaded_end": 100.0, "unloaded_edge": None})
    assert (found.word, found.missing) == (Word.NOT_KNOWN, ("unloaded_edge",))
    assert "25 mm" in found.sentence
    assert timber_spacing.verdict(required, {"loaded_end": 10.0, "unloaded_edge": None}).word is Word.OVER
    assert timber_spacing.verdict(required, {}).word is Word.NOT_KNOWN
    with refused("not-a-choice", "measured"):
        timber_spacing.verdict(required, {"top": 5.0})


@given(st.floats(0, 90), st.floats(1.5, 8), st.floats(250, 500), st.booleans())
def test_denser_wood_or_no_hole_never_lets_a_nail_nearer(angle, diameter, density, steel_plate):
    """Denser wood and leaving out the hole never shorten a distance to end or edge."""
    given_ = {"predrilled": False, "steel_plate": steel_plate}
    drilled = timber_spacing.required_mm(
        "smooth nail", diameter, density, angle, predrilled=True, steel_plate=steel_plate
    )
    light = timber_spacing.required_mm("smooth nail", diameter, density, angle, **given_)
    dense = timber_spacing.required_mm("smooth nail", diameter, 500, angle, **given_)
    assert all(near <= far for near, far in zip(light, dense, strict=True))
    assert all(near <= far + 1e-9 for near, far in zip(drilled[2:], light[2:], strict=True))


@given(st.floats(0, 200), st.floats(0, 200), st.floats(0, 100))
def test_nearer_edge_never_gets_a_better_word(end, edge, nearer):
    """Moving a hole nearer to edge or end never improves the word."""
    required = {"loaded_end": 75.0, "unloaded_edge": 25.0}

    def rank(end: float, edge: float) -> int:
        return WORDS.index(timber_spacing.verdict(required, {"loaded_end": end, "unloaded_edge": edge}).word)

    assert rank(max(0, end - nearer), edge) <= rank(end, edge)
    assert rank(end, max(0, edge - nearer)) <= rank(end, edge)


def test_undrilled_dense_wood_and_odd_sizes_are_refused():
    """Wood above 500 kg/m³ without a hole, and sizes outside the tables, are refused."""
    good = {"sort": "smooth nail", "diameter_mm": 4.0, "density_kg_m3": 350.0, "angle_deg": 0.0, "predrilled": True}
    check_limits(timber_spacing.required_mm, good, "diameter_mm", 1.5, 30)
    check_limits(timber_spacing.required_mm, good, "density_kg_m3", 250, 1000)
    check_limits(timber_spacing.required_mm, good, "angle_deg", 0, 90)
    check_limits(timber_spacing.required_mm, {**good, "predrilled": False}, "density_kg_m3", 250, 500)
    for sort in ("dowel", "staple"):
        with refused("not-a-choice", "sort"):
            timber_spacing.required_mm(sort, 4, 350, 0, predrilled=True)
    with refused("not-a-choice", "wood"):
        timber_spacing.needs_drilling("screw", 4, 350, "cork")
