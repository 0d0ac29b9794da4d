"""Ways between two walls, and what stands out of both into them."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.at_point import answer
from fieldbook.findings.room_to_move import room_to_move
from tests.findings.asked import TODAY, one
from tests.sites import Surveyed

NORTH = {"start_x_mm": 0, "start_y_mm": 1600, "bearing_deg": 0, "surface": [[0, 0, 0], [5000, 3000, 0]]}
SOUTH = {"start_x_mm": 5000, "start_y_mm": 0, "bearing_deg": 180, "surface": [[0, 0, 0], [5000, 3000, 0]]}
WAY = {"sort": "route", "name": "Way", "margin_mm": 0, "available_mm": 1600, "clear_width_mm": 1200}
CASE = {"x_mm": 1000, "width_mm": 1000, "z_mm": 0, "height_mm": 1000}


@pytest.fixture
def passage(surveyed: Surveyed) -> tuple[Surveyed, str]:
    """A passage of 1,600 mm between two walls of 5 m, of which 1,200 mm are to stay free; and its south wall."""
    surveyed.looked()
    surveyed.book.write("face", {**NORTH, "surface": EVEN}, item=surveyed.face)
    size = {"width_mm": 5000, "height_mm": 3000, "surface": EVEN}
    named = {"room": surveyed.room, "mark": "R1-S", "name": "South wall", "sort": "wall"}
    south = surveyed.book.write("face", named | SOUTH | size)
    surveyed.limit(**WAY)
    return surveyed, south


EVEN = [[x, z, 0] for x in (0, 5000) for z in (0, 3000)]


def both(passage: tuple[Surveyed, str], north: float | None, south: float, **at: Any) -> tuple[Any, Any]:
    """The answers for a case on either wall, which stand out so far; the south wall's x runs the other way."""
    surveyed, other = passage
    layers = [["case", north, 0]] if north is not None else None
    here = surveyed.fitting(**CASE, build_up=layers)
    there = surveyed.fitting(mark="D2", face=other, **{**CASE, "x_mm": 3000} | at, build_up=[["case", south, 0]])
    return one(surveyed, "clearance", here), one(surveyed, "clearance", there)


@pytest.mark.parametrize(
    ("north", "south", "word", "left"),
    [
        (150, 200, Word.WITHIN, 200),  # 1,600 less 200 and 1,200 are 200 mm for the case on the north wall
        (197, 200, Word.CLOSE, 200),
        (250, 200, Word.OVER, 200),
        (250, 390, Word.OVER, 10),
    ],
)
def test_what_stands_across_a_way_takes_of_its_width(
    passage: tuple[Surveyed, str], north: float, south: float, word: Word, left: float
) -> None:
    """Each alone leaves 1,200 mm; both together 1,600 less what they stand out."""
    here, there = both(passage, north, south)
    assert (here.word, here.verdict.limit) == (word, pytest.approx(left, abs=0.01))
    assert there.verdict.limit == pytest.approx(400 - north, abs=0.01)
    assert (there.word is Word.OVER) == (word is Word.OVER)


def test_width_is_kept_round_the_corners_of_both(passage: tuple[Surveyed, str]) -> None:
    """The south case begins 720 mm beside the north one: 1,600 less 300 less √(1,200² - 720²) = 960 are 340 mm."""
    here, there = both(passage, 350, 300, x_mm=5000 - 2720 - 1000)
    assert (here.word, here.verdict.limit) == (Word.OVER, pytest.approx(340, abs=0.01))
    assert "with D2 across it" in here.verdict.sentence
    assert (there.word, there.verdict.limit) == (Word.OVER, pytest.approx(290, abs=0.01))


@pytest.mark.parametrize(
    "at",
    [{"x_mm": 5000 - 3200 - 1000}, {"z_mm": 2100, "height_mm": 300}],
    ids=["1,200 mm along", "above the way"],
)
def test_what_is_farther_along_or_above_takes_nothing(passage: tuple[Surveyed, str], at: dict[str, Any]) -> None:
    """A way of 2,000 mm height, and cases that are as far apart along it as it is wide."""
    surveyed, _ = passage
    way = gather(surveyed.book, surveyed.site).all("limit")[0]
    surveyed.book.write("limit", {"z_to_mm": 2000}, item=way.id)
    assert both(passage, 350, 390, **at)[0].verdict.limit == 400


def test_case_across_of_unknown_depth_is_asked_for(passage: tuple[Surveyed, str]) -> None:
    """How far the north one stands out is not entered: the south one may be too much."""
    there = both(passage, None, 100)[1]
    assert (there.word, [blank.field for blank in there.missing]) == (Word.NOT_KNOWN, ["build_up"])


@pytest.mark.parametrize(("south", "word"), [(100, Word.WITHIN), (260, Word.NOT_KNOWN)])
def test_walls_that_are_not_in_the_plan_may_be_across_from_each_other(
    passage: tuple[Surveyed, str], south: float, word: Word
) -> None:
    """150 and 100 mm leave the width wherever they are; 150 and 260 do not if they are across from each other."""
    surveyed, other = passage
    surveyed.book.write("face", {"start_x_mm": None, "start_y_mm": None}, item=other)
    here, there = both(passage, 150, south)
    assert (here.word, there.word) == (word, word)


def test_answer_at_a_point_counts_what_stands_across(passage: tuple[Surveyed, str]) -> None:
    """Opposite a case of 300 mm, 1,600 less 300 and 1,200 are clear: 100 mm."""
    surveyed, other = passage
    surveyed.fitting(face=other, **{**CASE, "x_mm": 3000}, build_up=[["case", 300, 0]])
    site = gather(surveyed.book, surveyed.site)
    said = answer(site, site[surveyed.face], 1500, 500, 20, today=TODAY)
    assert said.clear_mm == pytest.approx(100, abs=0.01)


@pytest.mark.parametrize(
    ("low", "top", "word"),
    [(2050, 2000, Word.NOT_KNOWN), (1950, 2000, Word.OVER), (2310, None, Word.OVER), (2310, 2000, Word.WITHIN)],
)
def test_headroom_is_asked_of_what_stands_out_over_a_way(
    passage: tuple[Surveyed, str], low: float, top: float | None, word: Word
) -> None:
    """A bracket of 500 mm over a way kept free up to 2,000 mm hangs lower than anybody asks for, 2,300 mm."""
    surveyed, _ = passage
    way = gather(surveyed.book, surveyed.site).all("limit")[0]
    surveyed.book.write("limit", {"z_to_mm": top}, item=way.id)
    bracket = {"x_mm": 1000, "width_mm": 200, "z_mm": low, "height_mm": 200, "build_up": [["bracket", 500, 0]]}
    found = one(surveyed, "clearance", surveyed.fitting(**bracket))
    assert found.word is word


def test_range_of_a_thing_at_a_corner_sees_what_stands_across_the_way(passage: tuple[Surveyed, str]) -> None:
    """1,600 less 1,200 and the 100 of the case across it are 300 mm, 200 of them its own width: it may begin at 100."""
    surveyed, south = passage
    named = {"room": surveyed.room, "mark": "R1-E", "name": "East wall", "sort": "wall", "surface": EVEN}
    there = {"start_x_mm": 5000, "start_y_mm": 1600, "bearing_deg": 270, "width_mm": 1600, "height_mm": 3000}
    east = surveyed.book.write("face", named | there)
    standing = {"z_mm": 0, "height_mm": 1000}
    surveyed.fitting(mark="D2", face=south, x_mm=0, width_mm=400, **standing, build_up=[["case", 100, 0]])
    at_end = {"x_mm": 60, "width_mm": 200, "moves_mm": 60, "build_up": [["case", 300, 0]]}
    case = surveyed.fitting(face=east, **standing, **at_end)
    site = gather(surveyed.book, surveyed.site)
    room = room_to_move(site, site[case], TODAY)
    assert room.along_mm[0][1] == pytest.approx(100, abs=6)
    assert room.set_by == "clearance of D2"
