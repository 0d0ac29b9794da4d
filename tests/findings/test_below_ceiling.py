"""What hangs from a ceiling in front of the walls of its room."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.asked import one
from tests.findings.test_limits_here import DOOR, SIGN, WALLS
from tests.sites import Surveyed

LEVEL = [[x, z, 0] for x in (0, 5000) for z in (0, 4000)]
HEADROOM = {
    "sort": "headroom",
    "name": "Headroom",
    "mark": "L2",
    "headroom_mm": 1700,
    "projection_mm": 0,
    "margin_mm": 0,
}


def hung(surveyed: Surveyed, out: float, at: tuple[float, float], *, placed: bool = True, **limit: Any) -> Finding:
    """A lamp 200 mm square under a ceiling at 2,600 mm, `at` x and z of it, in front of a limit of the north wall.

    The ceiling begins where the north wall does; its z runs into the room. 1,700 mm of headroom are set for it.
    """
    surveyed.looked()
    surveyed.book.write("face", WALLS["north"], item=surveyed.face)
    size = {"width_mm": 5000, "height_mm": 4000, "above_floor_mm": 2600, "surface": LEVEL}
    named = {"room": surveyed.room, "mark": "R1-T", "name": "Ceiling", "sort": "ceiling"}
    ceiling = surveyed.book.write("face", named | size | (WALLS["north"] if placed else {}))
    surveyed.limit(**HEADROOM, face=ceiling)
    surveyed.limit(**{"margin_mm": 10} | limit)
    place = {"face": ceiling, "x_mm": at[0], "z_mm": at[1], "width_mm": 200, "height_mm": 200}
    return one(surveyed, "clearance", surveyed.fitting(**place, build_up=[["lamp", out, 0]]))


@pytest.mark.parametrize(
    ("out", "at", "word", "limit"),
    [
        (700, (4100, 500), Word.WITHIN, 780),  # 2,600 less 1,800 and the margin of 20 above the sign
        (800, (4100, 500), Word.OVER, 780),
        (800, (4100, 1001), Word.WITHIN, 900),  # farther in front than 1,000 mm: 2,600 less 1,700 of headroom
        (800, (3779, 500), Word.WITHIN, 900),  # it ends 1 mm beside the sign and its margin
        (800, (3781, 500), Word.OVER, 780),
    ],
)
def test_sign_is_hidden_by_what_hangs_from_the_ceiling(
    surveyed: Surveyed, out: float, at: tuple[float, float], word: Word, limit: float
) -> None:
    """A lamp in front of a sign hangs no lower than its upper edge."""
    found = hung(surveyed, out, at, **SIGN)
    assert (found.word, found.verdict.limit) == (word, limit)


@pytest.mark.parametrize(
    ("at", "word", "limit"),
    [
        ((4100, 300), Word.OVER, 590),  # 2,600 less 2,000 and the margin of 10
        ((4740, 560), Word.WITHIN, 900),  # √(540² + 520²) = 749.7 mm from the hinge: beyond √(700² + 40²) + 10
        ((4600, 400), Word.OVER, 590),  # √(400² + 360²) = 538 mm from it
    ],
)
def test_door_swings_below_what_hangs_from_the_ceiling(
    surveyed: Surveyed, at: tuple[float, float], word: Word, limit: float
) -> None:
    """A lamp of 700 mm is struck by a leaf of 2,000 mm height where that passes."""
    found = hung(surveyed, 700, at, **DOOR, z_to_mm=2000)
    assert (found.word, found.verdict.limit) == (word, limit)


def test_height_of_a_door_below_is_asked_for(surveyed: Surveyed) -> None:
    """How high the leaf is is not entered, and it passes below."""
    found = hung(surveyed, 700, (4100, 300), **DOOR)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["z_to_mm"])


@pytest.mark.parametrize(("out", "word"), [(700, Word.WITHIN), (800, Word.NOT_KNOWN)])
def test_ceiling_that_is_not_in_the_plan_is_asked_about_where_something_hangs_low_enough(
    surveyed: Surveyed, out: float, word: Word
) -> None:
    """1,900 mm above the floor is above the sign, wherever it hangs; 1,800 are not above the sign and its margin."""
    assert hung(surveyed, out, (4100, 500), placed=False, **SIGN).word is word


@pytest.mark.parametrize(("z", "word", "limit"), [(100, Word.OVER, 500), (1001, Word.WITHIN, 900)])
def test_headroom_of_a_wall_is_kept_by_what_hangs_before_it(
    surveyed: Surveyed, z: float, word: Word, limit: float
) -> None:
    """2,100 mm over the floor in front of the wall, of a ceiling at 2,600: 500 mm."""
    wall = {"sort": "headroom", "headroom_mm": 2100, "projection_mm": 60, "margin_mm": 0}
    found = hung(surveyed, 600, (2000, z), **wall)
    assert (found.word, found.verdict.limit) == (word, pytest.approx(limit, abs=0.001))
