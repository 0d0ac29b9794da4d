"""Things on two walls of a room in one another's place, over a corner or below the ceiling."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.asked import one
from tests.findings.test_ways import EVEN
from tests.sites import Surveyed

NORTH = {"start_x_mm": 0, "start_y_mm": 4000, "bearing_deg": 0, "surface": EVEN}
EAST = {"start_x_mm": 5000, "start_y_mm": 4000, "bearing_deg": -90, "surface": EVEN}
TALL = {"z_mm": 1000, "height_mm": 500}


def corner(surveyed: Surveyed, first: dict[str, Any], second: dict[str, Any], *, planned: bool = True) -> list[Word]:
    """The words on a case on the north wall, which ends at x 5,000, and on one on the east wall, which begins there."""
    if planned:
        surveyed.book.write("face", NORTH, item=surveyed.face)
    else:
        surveyed.book.write("face", {"surface": EVEN}, item=surveyed.face)
    named = {"room": surveyed.room, "mark": "R1-E", "name": "East wall", "sort": "wall", "width_mm": 4000}
    plan = EAST if planned else {"surface": EVEN}
    east = surveyed.book.write("face", named | {"height_mm": 3000} | plan)
    cases = [
        surveyed.fitting(**TALL | {"x_mm": 4500, "width_mm": 500, "build_up": [["case", 300, 0]]} | first),
        surveyed.fitting(
            **TALL | {"mark": "D2", "face": east, "x_mm": 0, "width_mm": 600, "build_up": [["case", 250, 0]]} | second
        ),
    ]
    return [one(surveyed, "place", case).word for case in cases]


@pytest.mark.parametrize(
    ("first", "second", "word"),
    [
        ({}, {}, Word.OVER),
        ({"width_mm": 250}, {}, Word.WITHIN),  # ends at x 4,750, where the other's front is: 5,000 less 250
        ({"width_mm": 251}, {}, Word.OVER),
        ({}, {"x_mm": 300}, Word.WITHIN),  # begins where the front of the first is
        ({}, {"z_mm": 1500}, Word.WITHIN),  # stands on top
        ({"build_up": [["counter", 1500, 0]]}, {"x_mm": 1400}, Word.OVER),  # 1,500 out, and the other from 1,400 on
        ({"build_up": [["counter", 1500, 0]]}, {"x_mm": 1500}, Word.WITHIN),
        ({"until_phase": "2"}, {"phase": "2"}, Word.WITHIN),
        ({"width_mm": 240, "build_up": [["case", 300, None]]}, {"build_up": [["case", 250, None]]}, Word.WITHIN),
        ({"width_mm": 249.7}, {"build_up": [["case", 250, None]]}, Word.NOT_KNOWN),  # 250 or 251, and 0.7 in it
    ],
)
def test_two_cases_in_one_corner_stand_in_one_place(
    surveyed: Surveyed, first: dict[str, Any], second: dict[str, Any], word: Word
) -> None:
    """One stands out 300 mm to the end of its wall, the other 250 mm from the beginning of the next."""
    assert corner(surveyed, first, second) == [word, word]


def test_how_far_one_stands_into_the_other_is_the_least_way_out(surveyed: Surveyed) -> None:
    """They share 250 mm along the north wall, 300 out of it and 500 of height."""
    corner(surveyed, {}, {})
    (first,) = surveyed.book.items("fitting")[:1]
    found = one(surveyed, "place", first["id"])
    assert (found.verdict.figure, found.against and found.against.mark) == (250, "D2")


@pytest.mark.parametrize(
    ("first", "second", "word"),
    [
        ({}, {}, Word.NOT_KNOWN),
        ({"x_mm": 4200}, {}, Word.WITHIN),  # it ends 300 mm from the end of its wall, and 250 come out of the other
        ({}, {"x_mm": 1600}, Word.WITHIN),
        ({}, {"z_mm": 1500}, Word.WITHIN),
    ],
)
def test_walls_that_are_in_no_plan_are_taken_to_meet_at_their_ends(
    surveyed: Surveyed, first: dict[str, Any], second: dict[str, Any], word: Word
) -> None:
    """Where the walls stand is asked for only where the things come near enough to both ends."""
    assert corner(surveyed, first, second, planned=False) == [word, word]


@pytest.mark.parametrize(
    ("out", "at", "word"),
    [
        (700, (4500, 0), Word.OVER),  # 2,600 less 700 is 1,900, below the top of the press at 2,000
        (600, (4500, 0), Word.WITHIN),
        (700, (4500, 300), Word.WITHIN),  # in front of the press, which stands out 300
        (700, (4500, 299), Word.OVER),
        (700, (3800, 0), Word.WITHIN),  # beside it
    ],
)
def test_what_hangs_from_the_ceiling_leaves_its_place_to_what_stands_below(
    surveyed: Surveyed, out: float, at: tuple[float, float], word: Word
) -> None:
    """A press 2,000 mm high and 300 deep at x 4,500 of a wall, and a lamp 200 mm square under a ceiling at 2,600."""
    surveyed.book.write("face", NORTH, item=surveyed.face)
    size = {"width_mm": 5000, "height_mm": 4000, "above_floor_mm": 2600}
    named = {"room": surveyed.room, "mark": "R1-T", "name": "Ceiling", "sort": "ceiling"}
    level = [[x, z, 0] for x in (0, 5000) for z in (0, 4000)]
    ceiling = surveyed.book.write("face", named | size | NORTH | {"surface": level})
    press = {"x_mm": 4500, "z_mm": 0, "width_mm": 500, "height_mm": 2000, "build_up": [["press", 300, 0]]}
    lamp = {"face": ceiling, "x_mm": at[0], "z_mm": at[1], "width_mm": 200, "height_mm": 200}
    things = surveyed.fitting(**press), surveyed.fitting(mark="D2", **lamp, build_up=[["lamp", out, 0]])
    assert [one(surveyed, "place", thing).word for thing in things] == [word, word]
