"""What stands on a floor keeps off the zones that go on there from the foot of a wall."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings.on_floor import DRAWN
from tests.findings.asked import one
from tests.sites import Surveyed

STANDS: dict[str, Any] = {"support": "the floor", "x_mm": 1000, "z_mm": 0, "width_mm": 600, "height_mm": 900}
BASE: dict[str, Any] = {"base_mm": 400, "base_out_mm": 0, "touches_face": 0, "gives": ["nothing"]}
# Heating pipes, from 150 to 250 mm out from the wall, over all of it.
PIPES = [[0, -250], [5000, -250], [5000, -150], [0, -150]]


def standing(surveyed: Surveyed, **more: Any) -> str:
    """A case on the floor, 600 mm wide from x = 1,000, its base 400 mm deep at the wall."""
    looked = [["keep-off zones", "fitter", "asked the keeper", "2026-05-04"]]
    surveyed.book.write("face", {"looked_for": looked}, item=surveyed.face)
    return surveyed.fitting(**STANDS | BASE | more)


def pipes(surveyed: Surveyed, **more: Any) -> str:
    """What is laid in the floor, drawn below the foot of the wall as far down as it lies out."""
    return surveyed.zone(**{"outline": PIPES, "forbids": ["load"], "margin_mm": 20, "mark": "K1"} | more)


@pytest.mark.parametrize(
    ("base", "word"),
    [
        ({}, Word.OVER),  # over them
        ({"base_mm": 125}, Word.WITHIN),  # ends 25 mm before
        ({"base_mm": 135}, Word.OVER),  # 15 mm before, of the 20 to be kept
        ({"base_out_mm": 275}, Word.WITHIN),  # begins 25 mm behind
        ({"base_mm": None}, Word.NOT_KNOWN),
        ({"support": None}, Word.NOT_KNOWN),
        ({"support": "its fixings"}, Word.WITHIN),
        ({"support": None, "z_mm": 300}, Word.WITHIN),  # too high to stand there
    ],
)
def test_base_keeps_off_what_is_drawn_on_the_floor(surveyed: Surveyed, base: dict[str, Any], word: Word) -> None:
    """Pipes 150 to 250 mm out, of which 20 mm are to be kept."""
    pipes(surveyed)
    found = one(surveyed, "keep-off", standing(surveyed, **base))
    assert found.word is word
    if word is Word.OVER:
        assert found.against is not None
        assert "K1 at the foot of" in found.verdict.sentence
    if word is Word.NOT_KNOWN:
        assert [blank.field for blank in found.missing] == [next(iter(base))]


def test_what_stands_says_that_of_its_floor_only_the_drawn_is_known(surveyed: Surveyed) -> None:
    """Nothing is drawn there: that is no word on what the floor hides, and it is said so."""
    assert DRAWN in one(surveyed, "keep-off", standing(surveyed)).verdict.sentence
    assert DRAWN not in one(surveyed, "keep-off", standing(surveyed, support="its fixings")).verdict.sentence


def test_zone_that_only_forbids_holes_is_stood_on(surveyed: Surveyed) -> None:
    """Nothing is drilled by what stands."""
    pipes(surveyed, forbids=["drilling"])
    assert one(surveyed, "keep-off", standing(surveyed)).word is Word.WITHIN


def test_zone_on_the_floor_from_the_next_wall_is_kept_off(surveyed: Surveyed) -> None:
    """The wall on the right begins at x = 5,000 of this one; its pipes run 150 to 250 mm before it.

    A case from 4,500 to 4,740 ends 260 mm before that wall, 10 mm from them; one that ends at 4,600 is 150 mm off.
    """
    plan = {"sort": "wall", "slope_deg": None, "start_x_mm": 0, "start_y_mm": 4000, "bearing_deg": 0}
    surveyed.book.write("face", plan, item=surveyed.face)
    about = {"room": surveyed.room, "mark": "R1-E", "name": "East", "width_mm": 4000, "height_mm": 3000}
    east = surveyed.book.write("face", plan | about | {"start_x_mm": 5000, "bearing_deg": 270})
    pipes(surveyed, face=east)
    found = one(surveyed, "keep-off", standing(surveyed, x_mm=4500, width_mm=240))
    assert (found.word, found.verdict.figure) == (Word.OVER, 10)
    assert "K1 at the foot of R1-E" in found.verdict.sentence
    assert one(surveyed, "keep-off", standing(surveyed, x_mm=4360, width_mm=240, mark="D2")).word is Word.WITHIN
