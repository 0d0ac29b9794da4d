"""The bow of a face: level lines of readings, exaggerated, with packers."""

from __future__ import annotations

import pytest

from fieldbook.drawing.bow import bow, rows_of
from tests.drawing.drawn import SVG, Wall, paths_of, points_of, read, words_of

SURFACE = [[0, 300, 0], [2000, 320, -6], [4000, 310, 4], [0, 2000, 2], [4000, 2000, -2]]


@pytest.fixture
def bowed() -> Wall:
    """A wall with readings at two levels."""
    wall = Wall()
    wall.change(wall.face, surface=SURFACE)
    return wall


def test_readings_at_about_one_height_are_one_line(bowed: Wall) -> None:
    """Highest first, each from left to right."""
    rows = rows_of(bowed.face, [])
    assert [(row.z_mm, row.readings) for row in rows] == [
        (2000, ((0, 2), (4000, -2))),
        (310, ((0, 0), (2000, -6), (4000, 4))),
    ]


def test_bow_is_exaggerated_twenty_times_and_says_so(bowed: Wall) -> None:
    """At 1:50 along, 6 mm back are 2.4 mm on paper: 6 × 20 / 50."""
    drawing = bow(bowed.site, bowed.face)
    lines = [path for path in read(drawing).iter(f"{SVG}path") if path.get("stroke-width") == "0.5"]
    left, middle, right = points_of(lines[1])
    assert middle[1] - left[1] == pytest.approx(-2.4, abs=0.011)  # back is up the sheet
    assert right[1] - left[1] == pytest.approx(1.6, abs=0.011)
    assert right[0] - left[0] == pytest.approx(80, abs=0.011)
    assert "Bow, depths ×20, scale 1:50" in words_of(drawing)
    assert any("Depths are drawn ×20" in words for words in words_of(drawing))


def test_figures_of_readings_carry_their_sign(bowed: Wall) -> None:
    """Proud is plus, back is minus, flush is nothing."""
    assert {"-6", "+4", "+2", "-2", "0"} <= set(words_of(bow(bowed.site, bowed.face)))


def test_packer_reaches_from_the_surface_to_the_fitting(bowed: Wall) -> None:
    """12 mm of packers are 4.8 mm long on paper, and stand at the level nearest to the fixing."""
    fixing = bowed.fixing(bowed.fitting(), x_mm=2000, z_mm=500, packers_mm=12)
    drawing = bow(bowed.site, bowed.face)
    (packer,) = paths_of(drawing, fixing)
    assert float(packer.get("d", "").split("v")[1].split("h")[0]) == pytest.approx(4.8, abs=0.011)
    assert "D1.1 12" in words_of(drawing)


def test_great_bow_is_exaggerated_less_and_says_how_much(bowed: Wall) -> None:
    """What would not fit the paper is drawn as large as fits."""
    bowed.change(bowed.face, surface=[[0, 300, -150], [4000, 300, 150]])
    drawing = bow(bowed.site, bowed.face, paper_height_mm=80)
    assert "Bow, depths ×5, scale 1:50" in words_of(drawing)
    assert float(read(drawing).get("height", "").removesuffix("mm")) <= 80


def test_face_without_readings_says_so() -> None:
    """No flatness is made up."""
    wall = Wall()
    wall.fixing(wall.fitting(), packers_mm=12)
    assert words_of(bow(wall.site, wall.face)) == ["No surface readings are entered for this face."]
