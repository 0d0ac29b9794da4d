"""Zones that reach a corner, or go on round it, bear on the next wall as well."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.act_here import Act
from fieldbook.findings.at_point import answer
from tests.findings.asked import TODAY, one
from tests.sites import Surveyed

EAST = {"mark": "R1-E", "name": "East wall", "sort": "wall", "width_mm": 3000, "height_mm": 3000}
NORTH_AT = {"start_x_mm": 0, "start_y_mm": 4000, "bearing_deg": 0}
EAST_AT = {"start_x_mm": 5000, "start_y_mm": 4000, "bearing_deg": -90}
# The left reveal of an opening at x = 2,000 of the north wall runs into it.
REVEAL_AT = {"start_x_mm": 2000, "start_y_mm": 4000, "bearing_deg": 90}


def wall(surveyed: Surveyed, **more: Any) -> str:
    """The wall on the right of the north wall, both in the plan of the room; everything was looked for."""
    surveyed.looked()
    surveyed.book.write("face", NORTH_AT | {"layers": [["brick", 103, "later"]]}, item=surveyed.face)
    return surveyed.book.write("face", EAST | EAST_AT | {"room": surveyed.room} | more)


def strip(left: float, right: float) -> list[list[float]]:
    """An outline from x to x, from 1,000 to 2,000 mm up."""
    return [[left, 1000], [right, 1000], [right, 2000], [left, 2000]]


def at(surveyed: Surveyed, x_mm: float, act: str) -> Act:
    """The answer for an act of 12 mm round a place of the north wall."""
    site = gather(surveyed.book, surveyed.site)
    return next(one for one in answer(site, site[surveyed.face], x_mm, 1500, 12.0, today=TODAY).acts if one.act == act)


def near(surveyed: Surveyed, face: str, x_mm: float) -> Word:
    """What a clamp with a jaw of 12 mm comes to at a place of the north wall, beside a zone of another with 40 mm."""
    surveyed.zone(face=face, outline=strip(15, 400), margin_mm=40)
    rail = surveyed.fitting(x_mm=x_mm - 100, width_mm=200)
    return one(surveyed, "keep-off", surveyed.fixing(rail, x_mm=x_mm, adhesive=0)).word


@pytest.mark.parametrize(("x_mm", "word"), [(4964, Word.OVER), (4963, Word.CLOSE), (4900, Word.WITHIN)])
def test_margin_goes_on_round_the_corner(surveyed: Surveyed, x_mm: float, word: Word) -> None:
    """At x = 4,963 a jaw ends 25 mm before the corner, and the zone 15 behind it begins 40 mm off."""
    assert near(surveyed, wall(surveyed), x_mm) is word


def test_zone_that_is_drawn_beyond_its_wall_lies_on_the_next(surveyed: Surveyed) -> None:
    """An outline from 100 mm before the east wall begins covers the last 100 mm of the north wall."""
    surveyed.zone(face=wall(surveyed), outline=strip(-100, 400), margin_mm=0, forbids=["contact"])
    rail = surveyed.fitting(x_mm=4800, width_mm=200, touches_face=1, gives=["nothing"])
    found = one(surveyed, "keep-off", rail)
    assert (found.word, found.verdict.figure) == (Word.OVER, -80)  # of the rail's 80 mm of height all lie in it
    assert "K1 of R1-E" in found.verdict.sentence
    assert at(surveyed, 4950, "contact").answer == "no"
    assert at(surveyed, 4950, "drilling").answer != "no"


@pytest.mark.parametrize(("x_mm", "word"), [(1960, Word.OVER), (1930, Word.WITHIN), (2400, Word.WITHIN)])
def test_zone_of_a_reveal_bears_on_the_wall_beside_the_opening(surveyed: Surveyed, x_mm: float, word: Word) -> None:
    """The reveal begins at x = 2,000; its zone 15 mm in lies 55 mm from x = 1,960, less 12 of the jaw: 43, in 45."""
    reveal = wall(surveyed, mark="R1-v", sort="reveal", width_mm=300, **REVEAL_AT)
    surveyed.zone(face=reveal, outline=strip(15, 290), margin_mm=45)
    rail = surveyed.fitting(x_mm=x_mm - 100, width_mm=200)
    assert one(surveyed, "keep-off", surveyed.fixing(rail, x_mm=x_mm, adhesive=0)).word is word


@pytest.mark.parametrize(("x_mm", "word"), [(4964, Word.NOT_KNOWN), (36, Word.WITHIN), (2500, Word.WITHIN)])
def test_walls_that_stand_in_no_plan_are_taken_to_meet_at_their_ends(
    surveyed: Surveyed, x_mm: float, word: Word
) -> None:
    """The zone lies at the left end of its wall, which may be the next on the right; on the left it would be far."""
    face = wall(surveyed, start_x_mm=None, start_y_mm=None)
    assert near(surveyed, face, x_mm) is word
    if word is Word.NOT_KNOWN:
        surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
        contact = at(surveyed, x_mm, "contact")
        assert (contact.answer, "K1 of R1-E" in contact.why) == ("not known", True)
        assert at(surveyed, x_mm, "load").answer == "nothing against it"


def test_floor_of_the_next_wall_counts(surveyed: Surveyed) -> None:
    """A floor 600 mm lower under the datum of the east wall lifts its zone to 1,600 up to 2,600 on the north wall."""
    face = wall(surveyed, floor=[[0, -600]])
    surveyed.book.write("face", {"floor": [[0, 0]]}, item=surveyed.face)
    assert near(surveyed, face, 4964) is Word.WITHIN  # at z = 1,540, with 40 of margin and 12 of jaw


CEILING: dict[str, Any] = {"mark": "R1-C", "name": "Ceiling", "sort": "ceiling", "width_mm": 5000, "height_mm": 4000}


def ceiling(surveyed: Surveyed, **more: Any) -> str:
    """The ceiling over the north wall, 3,000 mm up: x as along the wall, z out of it."""
    wall(surveyed)
    return surveyed.book.write("face", CEILING | NORTH_AT | {"above_floor_mm": 3000, "room": surveyed.room} | more)


def clamped(surveyed: Surveyed, face: str, z_mm: float) -> Word:
    """What a clamp with a jaw of 12 mm comes to at x = 1,500 and a z of a face."""
    rail = surveyed.fitting(face=face, x_mm=1400, width_mm=200, z_mm=z_mm - 20)
    return one(surveyed, "keep-off", surveyed.fixing(rail, face=face, x_mm=1500, z_mm=z_mm, adhesive=0)).word


@pytest.mark.parametrize(
    ("z_mm", "more", "word"),
    [
        (2964, {}, Word.OVER),
        (2963, {}, Word.CLOSE),
        (2900, {}, Word.WITHIN),
        (2964, {"above_floor_mm": None}, Word.OVER),
        (2964, {"above_floor_mm": 3100}, Word.WITHIN),  # the wall ends 100 mm below it
        (2964, {"slope_deg": 45}, Word.WITHIN),
        (2964, {"start_x_mm": None, "start_y_mm": None}, Word.WITHIN),
    ],
)
def test_margin_of_a_zone_on_the_ceiling_goes_on_down_the_wall(
    surveyed: Surveyed, z_mm: float, more: dict[str, Any], word: Word
) -> None:
    """At z = 2,963 a jaw of 12 ends 25 mm below the ceiling, where a zone begins 15 mm out: 40 mm, its margin."""
    outline = [[1000, 15], [2000, 15], [2000, 400], [1000, 400]]
    surveyed.zone(face=ceiling(surveyed, **more), outline=outline, margin_mm=40)
    assert clamped(surveyed, surveyed.face, z_mm) is word


@pytest.mark.parametrize(("z_mm", "word"), [(36, Word.OVER), (37, Word.CLOSE), (100, Word.WITHIN)])
def test_margin_of_a_zone_on_the_wall_goes_on_over_the_ceiling(surveyed: Surveyed, z_mm: float, word: Word) -> None:
    """A painted frieze ends 15 mm below the ceiling; at z = 37 a jaw of 12 ends 25 mm out: 40 mm from it."""
    over = ceiling(surveyed)
    surveyed.zone(outline=[[1000, 2800], [2000, 2800], [2000, 2985], [1000, 2985]], margin_mm=40)
    assert clamped(surveyed, over, z_mm) is word


@pytest.mark.parametrize(
    ("x_mm", "deep", "word"),
    [(1960, 60, Word.OVER), (1960, 55, Word.CLOSE), (1960, 20, Word.WITHIN), (1840, 60, Word.WITHIN)],
)
def test_hole_near_an_arris_goes_straight_to_what_lies_in_the_reveal(
    surveyed: Surveyed, x_mm: float, deep: float, word: Word
) -> None:
    """A cable begins 55 mm in on the reveal at x = 2,000, round the arris 95 mm from x = 1,960; straight in, 55.

    Services lie up to 100 mm below the reveal, so from x = 1,900 on: 55 mm beyond a hole of 10 mm at x = 1,840.
    """
    reveal = wall(surveyed, mark="R1-v", sort="reveal", width_mm=300, **REVEAL_AT)
    surveyed.zone(face=reveal, outline=strip(55, 290), margin_mm=0, forbids=["drilling"])
    rail = surveyed.fitting(x_mm=x_mm - 100, width_mm=200)
    hole = {"hole": "new", "sort": "wood screw", "diameter_mm": 10, "penetration_mm": deep, "fabric": "later work"}
    screw = surveyed.fixing(rail, x_mm=x_mm, adhesive=0, trace="a new hole in later work", **hole)
    assert one(surveyed, "keep-off", screw).word is word
