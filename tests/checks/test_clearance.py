"""Clear depth in front of a face, against closed forms and against figures worked by hand."""

from __future__ import annotations

import csv
import math
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import clearance
from fieldbook.checks.clearance import (
    Limit,
    Stretch,
    clear_depth,
    height_at,
    highest,
    leaf_clear_depth,
    projection_verdict,
    route_projection,
)
from fieldbook.checks.sweep import Leaf, depth_range
from fieldbook.checks.verdict import Word
from fieldbook.errors import FieldbookError
from tests.checks.doors import door, leaves
from tests.checks.refusals import check_limits, refused

CASES = Path(__file__).parent / "data" / "door_swing_cases.csv"
EXACT = 0.0001  # the printed digits of the cases


def cases() -> list[dict[str, str]]:
    """The rows of the published cases."""
    with CASES.open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


@pytest.mark.parametrize("row", cases(), ids=lambda row: f"{row['open_deg']}-{row['s_from_pin_mm']}")
def test_clear_depth_beside_a_door_equals_the_closed_form(row: dict[str, str]) -> None:
    """c(s) = p + e / cos φ + s tan φ with φ = 180° − θ; unlimited beyond s_max. Source: the data file."""
    names = ("leaf_w_mm", "leaf_t_mm", "face_setback_e_mm", "pin_standoff_p_mm", "open_deg")
    leaf = door(*(float(row[name]) for name in names))
    found = leaf_clear_depth(leaf, -(s := float(row["s_from_pin_mm"])), -s)
    expected = float(row["clear_closed_mm"])
    if math.isinf(expected):
        assert found is None
    else:
        assert found == pytest.approx(expected, abs=EXACT)


def test_leaf_at_right_angles_leaves_the_hinge_side_free() -> None:
    """At 90° the leaf lies from x = e to e + t and reaches y = w + p; nothing is over the wall beside it."""
    leaf = door(926, 44, 12, 10, 90)
    assert leaf_clear_depth(leaf, -5_000, -60) is None
    assert depth_range(leaf, 12, 56)[1] == pytest.approx(936, abs=1)  # type: ignore[index]


@given(leaves(), st.floats(-1000, 1000), st.floats(0, 300), st.floats(0, 300))
def test_clear_depth_over_a_wider_stretch_is_never_more(leaf: Leaf, x: float, wide: float, wider: float) -> None:
    """Looking at more of the face can only find less room."""
    near, far = leaf_clear_depth(leaf, x, x + wide), leaf_clear_depth(leaf, x - wider, x + wide + wider)
    assert near is None or (far is not None and far <= near + 1e-9)


def test_margin_is_taken_off_the_clear_depth_and_kept_beside_the_leaf() -> None:
    """The margin lessens the depth, and a stretch just beside the sweep is limited by it as well."""
    leaf = door(800, 40, 10, 12, 160)
    limit = Limit("L1", Stretch(), 20, leaf)
    at = clear_depth([limit], Stretch(-500, -500, 0, 0)).depth_mm
    assert at is not None
    assert at < 204.6269 - 20  # the stretch is widened by the margin too, where the leaf is nearer
    assert at == pytest.approx(leaf_clear_depth(leaf, -520, -480, 20))
    beside = Stretch(-765, -760, 0, 0)  # the sweep ends at s = 748.33
    assert clear_depth([limit], beside).depth_mm is not None
    assert clear_depth([Limit("L1", Stretch(), 0, leaf)], beside).depth_mm is None


def test_band_of_a_leaf_ends_a_margin_above_it() -> None:
    """Something a margin above the leaf's band is free of it."""
    limit = Limit("L1", Stretch(z_from=0, z_to=2000), 20, door(800, 40, 10, 12, 160))
    assert clear_depth([limit], Stretch(-500, -400, 2019, 2100)).limited_by is limit
    assert clear_depth([limit], Stretch(-500, -400, 2021, 2100)).limited_by is None


def test_route_leaves_what_the_width_to_keep_leaves() -> None:
    """1,350 mm today less 1,200 mm to keep leaves 150 mm (subtraction; the width is the site's own)."""
    assert route_projection(1350, 1200) == 150
    limit = Limit("R", Stretch(x_from=0, x_to=1000), 30, projection_mm=150)
    assert clear_depth([limit], Stretch(500, 600, 0, 10)).depth_mm == 120
    assert clear_depth([limit], Stretch(1001, 1100, 0, 10)).depth_mm is None


# ADA Standards (2010) 307.2: leading edges above 685 and not above 2,030 mm may project 100 mm. Printed boundary
# cases; the band and the projection are entered as the limit's own figures, the band open at its lower edge.
@pytest.mark.parametrize(
    ("edge", "projection", "word"),
    [
        (685, 150, Word.WITHIN),
        (686, 150, Word.OVER),
        (686, 100, Word.CLOSE),
        (2030, 101, Word.OVER),
        (2031, 300, Word.WITHIN),
    ],
)
def test_projection_over_a_band_of_heights_follows_the_published_cases(
    edge: float, projection: float, word: Word
) -> None:
    """A flat limit over a band gives the published answer at each edge of the band."""
    limit = Limit("protruding objects", Stretch(z_from=685.001, z_to=2030), 0, projection_mm=100)
    assert projection_verdict(projection, [limit], Stretch(0, 10, edge, edge)).word is word


def test_headroom_follows_a_sloping_floor() -> None:
    """Below the headroom over the highest floor there, only the stated projection is allowed; the margin is height."""
    floor = ((0.0, 0.0), (1000.0, 100.0))
    limit = Limit("headroom", Stretch(), 10, projection_mm=50, below_mm=tuple((x, z + 2000) for x, z in floor))
    assert clear_depth([limit], Stretch(0, 500, 2059, 2200)).depth_mm == 50
    assert clear_depth([limit], Stretch(0, 500, 2060, 2200)).depth_mm is None
    assert clear_depth([limit], Stretch(900, 2000, 2109, 2200)).depth_mm == 50


def test_height_of_a_profile_is_interpolated_and_level_beyond() -> None:
    """Between surveyed points the floor is straight, beyond them level."""
    profile = ((0.0, 10.0), (100.0, 30.0), (200.0, 0.0))
    assert [height_at(profile, x) for x in (-5, 0, 50, 150, 200, 999)] == [10, 10, 20, 15, 0, 0]
    assert highest(profile, 50, 150) == 30
    assert highest(profile, 120, 150) == 24


def test_height_at_a_step_is_that_on_its_left_and_the_highest_is_its_top() -> None:
    """Where two points stand one above the other, both count for the highest, wherever the stretch ends."""
    step = ((0.0, 10.0), (100.0, 20.0), (100.0, 60.0), (200.0, 60.0))
    assert [height_at(step, x) for x in (99, 100, 101)] == [19.9, 20, 60]
    assert [highest(step, *part) for part in ((100, 100), (90, 100), (100, 110), (90, 99), (101, 110))] == [
        *(60, 60, 60),
        *(19.9, 60),
    ]
    first = ((0.0, 10.0), (0.0, 30.0), (100.0, 40.0))
    assert [height_at(first, x) for x in (-1, 0, 50)] == [10, 10, 35]
    assert (highest(first, -9, -1), highest(first, 0, 0)) == (10, 30)


def test_headroom_looks_at_the_floor_within_its_own_band() -> None:
    """A floor that is higher beside the band does not raise what must stay free in it."""
    below = ((0.0, 2000.0), (400.0, 2000.0), (600.0, 2200.0), (800.0, 2000.0))  # 2100 at 500 and at 700
    limit = Limit("headroom", Stretch(x_from=200, x_to=500), 0, projection_mm=50, below_mm=below)
    assert clear_depth([limit], Stretch(0, 900, 2099, 2200)).depth_mm == 50
    assert clear_depth([limit], Stretch(0, 900, 2100, 2200)).depth_mm is None
    limit = Limit("headroom", Stretch(x_from=700, x_to=900), 0, projection_mm=50, below_mm=below)
    assert clear_depth([limit], Stretch(0, 1000, 2099, 2200)).depth_mm == 50
    assert clear_depth([limit], Stretch(0, 1000, 2100, 2200)).depth_mm is None


HERE = Stretch(0, 10, 20, 30)


@pytest.mark.parametrize(
    ("other", "met"),
    [
        (Stretch(10, 40, 30, 40), True),  # a corner is a point of both
        (Stretch(-40, 0, -40, 20), True),
        (Stretch(10.1, 40, 20, 30), False),
        (Stretch(-40, -0.1, 20, 30), False),
        (Stretch(0, 10, 30.1, 40), False),
        (Stretch(0, 10, 0, 19.9), False),
        (Stretch(), True),
    ],
)
def test_stretches_meet_when_they_share_a_point(other: Stretch, met: bool) -> None:
    """Touching is meeting, whichever of the two is asked."""
    assert (HERE.meets(other), other.meets(HERE)) == (met, met)


def test_stretch_is_widened_all_round() -> None:
    """The margin is added on each side."""
    assert HERE.widened(3) == Stretch(-3, 13, 17, 33)


def test_leaf_that_stays_behind_the_face_limits_nothing() -> None:
    """A leaf flush with the face leaves it free; half a millimetre in front of it, and what lies behind counts too."""
    behind = Leaf((0, 0), 0, 0, ((0, 100, -40, 0),))
    assert leaf_clear_depth(behind, 0, 100) is None
    assert leaf_clear_depth(Leaf((0, 0.5), 0, 0, ((0, 100, -40, 0),)), 0, 100) == -39.5


def test_clear_depth_takes_its_limits_and_nothing_beyond() -> None:
    """Places up to 100 m and margins up to 5 m are answered, a stretch that runs backwards is not."""
    leaf = door(800, 40, 10, 12, 160)
    assert leaf_clear_depth(leaf, -100_000, 100_000, 5_000) is not None
    assert leaf_clear_depth(leaf, 5, 5) is not None
    for part in ((-100_000.1, 0), (0, 100_000.1), (5, 4.9)):
        with refused("out-of-range", "x_mm"):
            leaf_clear_depth(leaf, *part)
    for margin in (-0.1, 5_000.1):
        with refused("out-of-range", "margin_mm"):
            leaf_clear_depth(leaf, 0, 0, margin)
    for field in ("available_mm", "clear_width_mm"):
        check_limits(route_projection, {"available_mm": 1350, "clear_width_mm": 1200}, field, 0, 100_000)
    assert route_projection(1000, 1200) == -200


def test_stretch_without_ends_looks_at_the_whole_sweep() -> None:
    """Over the whole face a leaf leaves what it leaves where it comes nearest, less its margin."""
    # A box of 400 by 600 about the hinge line, turned a quarter: it reaches 300 mm behind its hinge, as by hand.
    limit = Limit("L1", Stretch(), 20, Leaf((0, 1000), 0, 90, ((0, 400, -300, 300),)))
    assert clear_depth([limit], Stretch()).depth_mm == pytest.approx(680)


def test_first_of_two_equal_limits_is_named() -> None:
    """The least counts; of two alike, the one that stands first; one that states nothing does not limit."""
    flat = {name: Limit(name, Stretch(), 0, projection_mm=depth) for name, depth in (("A", 90), ("B", 80), ("C", 80))}
    found = clear_depth([flat["A"], flat["B"], flat["C"]], HERE)
    assert (found.depth_mm, found.limited_by) == (80, flat["B"])
    assert clear_depth([flat["C"], flat["B"]], HERE).limited_by is flat["C"]
    nothing = clear_depth([Limit("D", Stretch(), 5)], HERE)
    assert (nothing.depth_mm, nothing.limited_by) == (None, None)


@pytest.mark.parametrize(
    ("projection", "end"),
    [(93.5, "6.5 mm are left."), (100, "0 mm are left."), (100.5, "0.5 mm too much."), (102, "2 mm too much.")],
)
def test_sentence_says_how_much_is_left_or_too_much(projection: float, end: str) -> None:
    """What is left, or how much too far it stands out, is told without a sign."""
    limit = Limit("flat", Stretch(), 0, projection_mm=100)
    sentence = projection_verdict(projection, [limit], HERE).sentence
    assert sentence.endswith(f": {end}")


def test_projection_verdict_gives_figure_limit_margin_and_source() -> None:
    """The figure is rounded up, what is left of 140.97 - 35.01 = 105.96 down, and the limit is told as it is."""
    limit = Limit("L1 (door)", Stretch(), 0, projection_mm=140.97)
    verdict = projection_verdict(35.01, [limit], Stretch(0, 1, 0, 1))
    assert (verdict.word, verdict.figure, verdict.limit, verdict.margin, verdict.unit) == (
        Word.WITHIN,
        35.1,
        140.97,
        105.9,
        "mm",
    )
    assert "L1 (door)" in verdict.sentence
    assert verdict.source == clearance.SOURCE
    assert [figure for _, figure in verdict.working] == ["35.1 mm", "140.97 mm", "105.9 mm"]


@pytest.mark.parametrize(
    ("projection", "word"),
    [(90, Word.WITHIN), (95, Word.WITHIN), (95.1, Word.CLOSE), (100, Word.CLOSE), (100.1, Word.OVER)],
)
def test_projection_verdict_is_close_within_five_millimetres(projection: float, word: Word) -> None:
    """Five millimetres is what setting out on old walls can be trusted to (common practice, no source)."""
    limit = Limit("flat", Stretch(), 0, projection_mm=100)
    assert projection_verdict(projection, [limit], Stretch(0, 1, 0, 1)).word is word


def test_projection_verdict_without_limits_is_within_and_without_figure_not_known() -> None:
    """Where nothing limits the depth anything goes; where the projection is not entered nothing is known."""
    free = projection_verdict(500, [], Stretch(0, 1, 0, 1))
    assert (free.word, free.figure, free.limit, free.margin) == (Word.WITHIN, 500, None, None)
    unknown = projection_verdict(None, [], Stretch(0, 1, 0, 1))
    assert (unknown.word, unknown.missing) == (Word.NOT_KNOWN, ("projection",))


def leaf_payload(**more: Any) -> dict[str, Any]:
    """What the calculation takes for the door of the cases, opened to 160°."""
    return {"hinge_mm": [0, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]} | more


def test_calculate_gives_clear_depths_and_null_beyond_the_sweep() -> None:
    """The calculation answers each x, and null where the sweep never comes. Source: the data file."""
    found = calculate("clearance", {"leaf": leaf_payload(), "margin_mm": 4, "x_mm": [-500, -760]})
    assert found["clear_mm"] == [200.626, None]  # 204.6269 less 4, rounded down


def test_calculate_keeps_no_margin_unless_one_is_given() -> None:
    """Left out, the margin is nothing; the clear depth is that of the data file, rounded down."""
    assert calculate("clearance", {"leaf": leaf_payload(), "x_mm": [-500]})["clear_mm"] == [204.626]
    assert calculate("clearance", {"leaf": leaf_payload(), "margin_mm": 0, "x_mm": [-500]})["clear_mm"] == [204.626]


def test_calculate_takes_a_hundred_boxes_and_no_more() -> None:
    """A leaf may be given in up to a hundred boxes."""
    assert calculate("clearance", {"leaf": leaf_payload(boxes_mm=[[0, 800, -50, -10]] * 100), "x_mm": [-500]})
    with refused("unsuitable-shape", "leaf.boxes_mm"):
        calculate("clearance", {"leaf": leaf_payload(boxes_mm=[[0, 800, -50, -10]] * 101), "x_mm": [-500]})


def test_calculate_turns_either_way_round_alike() -> None:
    """The swing may be given from open to closed."""
    there = calculate("clearance", {"leaf": leaf_payload(), "x_mm": [-500]})["clear_mm"]
    assert calculate("clearance", {"leaf": leaf_payload(from_deg=160, to_deg=0), "x_mm": [-500]})["clear_mm"] == there


@pytest.mark.parametrize(
    ("payload", "code", "field"),
    [
        ({}, "missing", "leaf"),
        ({"leaf": leaf_payload()}, "missing", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": [float("nan")]}, "out-of-range", "x_mm[0]"),
        ({"leaf": leaf_payload(), "x_mm": [2e5]}, "out-of-range", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": []}, "unsuitable-shape", "x_mm"),
        ({"leaf": leaf_payload(), "x_mm": [0], "margin_mm": -1}, "out-of-range", "margin_mm"),
        ({"leaf": leaf_payload(), "x_mm": [0], "margin_mm": 5001}, "out-of-range", "margin_mm"),
        ({"leaf": leaf_payload(), "x_mm": [0], "margin": 1}, "unknown-field", "margin"),
        ({"leaf": leaf_payload(boxes_mm=[]), "x_mm": [0]}, "unsuitable-shape", "leaf.boxes_mm"),
        ({"leaf": leaf_payload(boxes_mm=[[0, 0, 1, 2]]), "x_mm": [0]}, "unsuitable-shape", "leaf.boxes_mm"),
        ({"leaf": leaf_payload(boxes_mm=[[0, 9, 2, 1]]), "x_mm": [0]}, "unsuitable-shape", "leaf.boxes_mm"),
        ({"leaf": leaf_payload(to_deg=400), "x_mm": [0]}, "out-of-range", "leaf.to_deg"),
        ({"leaf": leaf_payload(to_deg=float("inf")), "x_mm": [0]}, "out-of-range", "leaf.to_deg"),
        ({"leaf": leaf_payload(hinge_mm=[0]), "x_mm": [0]}, "not-a-number", "leaf.hinge_mm"),
        ({"leaf": leaf_payload(hinge_mm=[0, 2e6]), "x_mm": [0]}, "out-of-range", "leaf.hinge_mm[1]"),
        ([], "unsuitable-shape", None),
    ],
)
def test_calculate_unsuitable_input_is_refused_by_key(payload: Any, code: str, field: str | None) -> None:
    """What cannot be reckoned is refused with the key it is about."""
    with pytest.raises(FieldbookError) as refusal:
        calculate("clearance", payload)
    assert (refusal.value.code, refusal.value.field) == (code, field)
