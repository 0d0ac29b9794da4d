"""Levelling, held against a printed field-book page and instrument makers' checks."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import level
from fieldbook.checks.verdict import Word
from tests.checks.refusals import NO_FIGURES, check_limits, refused

ROUND = [[("A", 1320), ("B", 1355)], [("B", 1290), ("A", 1256)]]
ROWS = [
    {"setup": 1, "point": "A", "reading_mm": 1320},
    {"setup": 1, "point": "B", "reading_mm": 1355},
    {"setup": 2, "point": "B", "reading_mm": 1290},
    {"setup": 2, "point": "A", "reading_mm": 1256},
]

# A surveying school's page on the collimation method: readings in mm, and heights in mm as it books and corrects
# them. It runs from one bench mark at 106.366 m to another at 105.263 m and misses it by -0.042 m in six set-ups,
# 0.007 m each. To make a round of it, the last reading is less by the difference of the marks: 484 - 1103 = -619.
PAGE = [
    [("BM1", 1216), ("a", 25), ("b", 1555), ("bd1", 2508)],
    [("bd1", 1386), ("c", 3625), ("bd2", 1196)],
    [("bd2", 1235), ("d", 3566)],
    [("d", 3655), ("e", 506)],
    [("e", 2126), ("f", 2605), ("g", 1094), ("h", 3628)],
    [("h", 1125), ("i", 1394), ("BM1", -619)],
]
PAGE_HEIGHTS = {
    **{"BM1": 106_366, "a": 107_564, "b": 106_034, "bd1": 105_081, "c": 102_849, "bd2": 105_278, "d": 102_954},
    **{"e": 106_110, "f": 105_638, "g": 107_149, "h": 104_615, "i": 104_353},
}


def test_levels_agree_with_the_printed_page():
    """The heights and the closing error of the printed page come out, corrections and all."""
    found = level.levels(PAGE)
    assert found.closing_error_mm == pytest.approx(-42)
    assert {point: height + 106_366 for point, height in found.floor_mm.items()} == pytest.approx(PAGE_HEIGHTS)
    assert found.repeats_mm == {}


@given(
    st.lists(st.integers(-300, 300), min_size=2, max_size=8),
    st.lists(st.integers(500, 2500), min_size=8, max_size=8),
)
def test_round_without_error_finds_the_floor(heights, instruments):
    """Readings made from a known floor give that floor, close to nothing, and mark a level line."""
    points = [f"P{number}" for number in range(len(heights))]
    ends = [*range(1, len(heights)), 0]
    setups = [
        [(points[start], instruments[start] - heights[start]), (points[end], instruments[start] - heights[end])]
        for start, end in enumerate(ends)
    ]
    found = level.levels(setups)
    floor = {point: height - heights[0] for point, height in zip(points, heights, strict=True)}
    assert found.closing_error_mm == pytest.approx(0)
    assert found.floor_mm == pytest.approx(floor)
    marks = level.marks_mm(found.floor_mm, 1500)
    assert {point: marks[point] + found.floor_mm[point] for point in points} == pytest.approx(
        dict.fromkeys(points, 1500)
    )


@given(st.floats(-50, 50))
def test_error_in_one_reading_is_the_closing_error(error_mm):
    """A staff read wrong by so much leaves so much at the end, and each set-up bears its part of it."""
    found = level.levels([ROUND[0], [("B", 1290), ("A", 1255 - error_mm)]])
    assert found.closing_error_mm == pytest.approx(error_mm, abs=1e-9)
    assert found.floor_mm["B"] == pytest.approx(-35 - error_mm / 2)
    assert found.floor_mm["A"] == 0


def test_open_line_has_no_closing_error():
    """A line that does not come back is not known to close, and is left as read."""
    found = level.levels([ROUND[0], [("B", 1290), ("C", 1256)]])
    assert found.closing_error_mm is None
    assert found.floor_mm == {"A": 0, "B": -35, "C": -1}


def test_single_setup_gives_the_floor_as_read():
    """From one set-up, as with a laser, more reading is a lower floor."""
    found = level.levels([[("door", 1320), ("window", 1302), ("stove", 1331)]])
    assert found == ({"door": 0, "window": 18, "stove": -11}, None, {})


def test_point_read_again_is_told_with_its_difference():
    """A point read from a second set-up shows how far the two disagree, and keeps its first height."""
    setups = [[("A", 1320), ("B", 1355), ("C", 1300)], [("B", 1290), ("C", 1233)]]
    found = level.levels(setups)
    assert found.repeats_mm == {"C": 2}
    assert found.floor_mm["C"] == 20
    assert found.closing_error_mm is None


def test_start_read_again_on_the_way_does_not_close_the_round():
    """Only the last set-up closes the round; the start read before that is a point like another."""
    setups = [*ROUND, [("A", 1400), ("C", 1410)]]
    found = level.levels(setups)
    assert found.closing_error_mm is None
    assert found.repeats_mm == {"A": -1}
    assert found.floor_mm == {"A": 0, "B": -35, "C": -10}


# Check between two walls, common practice, no source: twice distance times tolerance. 5 m ± 0.3 and
# ± 0.2; 30 m ± 0.05 mm/m; plumb over 2.5 m ± 0.3.
@pytest.mark.parametrize(
    ("distance_m", "tolerance", "expected_mm"), [(5, 0.3, 3.0), (5, 0.2, 2.0), (30, 0.05, 3.0), (2.5, 0.3, 1.5)]
)
def test_allowed_difference_agrees_with_the_makers(distance_m, tolerance, expected_mm):
    """Two opposite readings may differ by twice the tolerance."""
    assert level.allowed_difference_mm(distance_m, tolerance) == pytest.approx(expected_mm)


@pytest.mark.parametrize(
    ("error_mm", "word"),
    [(2.4, Word.WITHIN), (-2.4, Word.WITHIN), (2.5, Word.CLOSE), (-3, Word.CLOSE), (3.1, Word.OVER), (-3.1, Word.OVER)],
)
def test_closing_error_is_held_against_the_instrument(error_mm, word):
    """Error either way is held against what the instrument allows over the distance: 3 mm here."""
    verdict = level.verdict(error_mm, 5, 0.3)
    assert (verdict.word, verdict.limit) == (word, 3)
    assert verdict.working == (("distance out", "5 m"), ("instrument", "± 0.3 mm/m"))


# 2 x 0.7 x 0.36 = 0.504 mm may be left over.
@pytest.mark.parametrize(
    ("error_mm", "figure", "margin", "word"),
    [
        (0.21, 0.3, 0.2, Word.WITHIN),
        (0.41, 0.5, 0, Word.CLOSE),
        (0.501, 0.501, 0, Word.CLOSE),  # 0.6 would be past the limit that it keeps
        (0.505, 0.6, -0.1, Word.OVER),
        (0.5, 0.5, 0, Word.CLOSE),
    ],
)
def test_closing_error_is_rounded_up_and_what_it_may_be_down(error_mm, figure, margin, word):
    """What a round is off by is told larger, either way, and the limit is the limit."""
    for error in (error_mm, -error_mm):
        verdict = level.verdict(error, 0.7, 0.36)
        assert (verdict.figure, verdict.limit, verdict.word) == (figure, 0.504, word)
        assert verdict.margin == pytest.approx(margin)


def test_refused_setup_is_told_by_its_number_and_points():
    """The refusal says which set-up, and what it reads or where it begins."""
    for setup, told in (([("A", 1), ("B", 2), ("A", 3)], "Set-up 1 reads A, B, A."), ([], "Set-up 1 reads nothing.")):
        with refused("unsuitable-shape", "readings") as caught:
            level.levels([setup])
        assert caught.value.reason == told
    with refused("unsuitable-shape", "readings") as caught:
        level.levels([ROUND[0], [("C", 1290), ("A", 1256)]])
    assert "Set-up 2 begins on C," in caught.value.reason


@pytest.mark.parametrize(
    ("setups", "value"),
    [
        ([[("A", 1000)]], 1),
        ([[]], 1),
        ([[("A", 1000), ("B", 1), ("A", 1001)]], 1),
        ([ROUND[0], [("C", 1290), ("A", 1256)]], "C"),
        ([ROUND[0], [("B", 1290)]], 2),
    ],
)
def test_setup_that_cannot_be_joined_is_refused(setups, value):
    """A set-up needs two points, each once, the first of them known."""
    with refused("unsuitable-shape", "readings") as caught:
        level.levels(setups)
    assert caught.value.value == value


def test_level_outside_its_range_is_refused():
    """Readings, lines and instruments that cannot be are refused by name."""
    level.levels([[("A", -20_000), ("B", 20_000)]])
    for reading in (-20_001, 20_001):
        with refused("out-of-range", "the reading of B"):
            level.levels([[("A", 0), ("B", reading)]])
    with refused("out-of-range", "setups"):
        level.levels([])
    with refused("out-of-range", "setups"):
        level.levels([[("A", 0), ("B", 0)]] * 1001)
    check_limits(lambda line_mm: level.marks_mm({"A": 0}, line_mm), {"line_mm": 1.0}, "line_mm", 0, 100_000)
    allowed = {"distance_m": 1.0, "tolerance_mm_per_m": 1.0}
    check_limits(level.allowed_difference_mm, allowed, "distance_m", 0, 1000)
    check_limits(level.allowed_difference_mm, allowed, "tolerance_mm_per_m", 0, 10)
    good = {"closing_error_mm": 0.0, **allowed}
    check_limits(level.verdict, good, "closing_error_mm", -100_000, 100_000)


def test_level_from_the_command_line_gives_marks_and_closing_error():
    """The answer holds floor, marks and closing error, and a verdict with the instrument."""
    answer = calculate("level", {"readings": ROWS, "line_mm": 1400, "distance_m": 5, "tolerance_mm_per_m": 0.05})
    assert answer["closing_error_mm"] == pytest.approx(-1)  # 1320 - 1355 + 1290 - 1256
    assert answer["mark_mm"] == {"A": 1400, "B": pytest.approx(1434.5)}
    assert answer["verdict"]["word"] == "over"
    bare = calculate("level", {"readings": ROWS[:2]})
    assert "mark_mm" not in bare
    assert bare["verdict"] is None
    assert calculate("level", {"readings": ROWS[:2], "distance_m": 5, "tolerance_mm_per_m": 1})["verdict"] is None
    with refused("missing", "tolerance_mm_per_m"):
        calculate("level", {"readings": ROWS, "distance_m": 5})


def test_level_with_bad_input_is_refused():
    """A reading's numbers and names are refused by their place in the list."""
    for value, code in NO_FIGURES.values():
        with refused(code, "readings[1].reading_mm"):
            calculate("level", {"readings": [ROWS[0], {**ROWS[1], "reading_mm": value}]})
    for value in (-20_001, 20_001):
        with refused("out-of-range", "readings[1].reading_mm"):
            calculate("level", {"readings": [ROWS[0], {**ROWS[1], "reading_mm": value}]})
    for value, code in ((0, "out-of-range"), (1001, "out-of-range"), (1.5, "not-a-number")):
        with refused(code, "readings[1].setup"):
            calculate("level", {"readings": [ROWS[0], {**ROWS[1], "setup": value}]})
    with refused("missing", "readings[0].point"):
        calculate("level", {"readings": [{**ROWS[0], "point": ""}]})
    with refused("missing", "readings"):
        calculate("level", {"line_mm": 1})
