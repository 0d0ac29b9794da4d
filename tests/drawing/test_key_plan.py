"""The key plan shows every room with an outline, at one scale that it states."""

from __future__ import annotations

import re

import pytest

from fieldbook.book.gathering import gather
from fieldbook.drawing.key_plan import APART, key_plan
from tests.drawing.drawn import words_of
from tests.sites import Surveyed

WIDE_MM, NARROW_MM = 4000, 2000
ROOM = [[0, 0], [WIDE_MM, 0], [WIDE_MM, 3000], [0, 3000]]
CLOSET = [[500, 500], [500 + NARROW_MM, 500], [500 + NARROW_MM, 2500], [500, 2500]]


def drawn(surveyed: Surveyed) -> str | None:
    """The key plan of the site on a page."""
    return key_plan(gather(surveyed.book, surveyed.site), paper_width_mm=172, paper_height_mm=110)


def test_rooms_are_drawn_at_the_one_scale_that_is_stated(surveyed: Surveyed) -> None:
    """Widths of two rooms on paper are their widths in the building by the scale in the title."""
    surveyed.book.write("room", {"plan": ROOM}, item=surveyed.room)
    surveyed.book.write("room", {"site": surveyed.site, "mark": "R2", "name": "Closet", "plan": CLOSET})
    drawing = drawn(surveyed) or ""
    scale = int(re.search(r"scale 1:(\d+)", drawing)[1])  # type: ignore[index]
    outlines = [re.findall(r"[\d.]+", path) for path in re.findall(r' d="M([^"]*)Z"', drawing)]
    widths = [
        max(xs) - min(xs) for xs in ([float(x) for x in numbers[::2]] for numbers in outlines if len(numbers) == 8)
    ]
    assert widths[:2] == [pytest.approx(WIDE_MM / scale, abs=0.02), pytest.approx(NARROW_MM / scale, abs=0.02)]


def test_what_is_not_known_of_the_building_is_said(surveyed: Surveyed) -> None:
    """It says that rooms stand apart on the sheet, and which have no outline."""
    surveyed.book.write("room", {"plan": ROOM}, item=surveyed.room)
    surveyed.book.write("room", {"site": surveyed.site, "mark": "R9", "name": "Loft"})
    said = " ".join(words_of(drawn(surveyed) or ""))
    assert APART in said
    assert "No outline was entered of R9." in said


def test_without_any_outline_there_is_none(surveyed: Surveyed) -> None:
    """A site whose rooms were never measured has no key plan, rather than an empty sheet."""
    assert drawn(surveyed) is None
