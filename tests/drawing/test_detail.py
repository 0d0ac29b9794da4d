"""A fitting on its part of the face, large enough to set it out from."""

from __future__ import annotations

import pytest

from fieldbook.drawing.detail import detail
from tests.drawing.drawn import Wall, face_place, of_item, read, symbol_at, words_of


@pytest.fixture
def rail() -> Wall:
    """A wall with a rail on two fixings, a zone beside it and one far away."""
    wall = Wall()
    fitting = wall.fitting()
    wall.fixing(fitting, mark="D1.1", x_mm=2100)
    wall.fixing(fitting, mark="D1.2", x_mm=2900)
    wall.zone(mark="K1", outline=[[3020, 1500], [3200, 1500], [3200, 1600], [3020, 1600]])
    wall.zone(mark="K2", outline=[[0, 0], [100, 0], [100, 100], [0, 100]])
    return wall


def test_detail_is_larger_than_the_elevation_and_true(rail: Wall) -> None:
    """At 1:10 each fixing is read back where it is."""
    (fitting,) = rail.site.all("fitting")
    drawing = detail(rail.site, fitting, [])
    assert read(drawing).get("data-scale") == "10"
    for fixing in rail.site.all("fixing"):
        assert face_place(drawing, *symbol_at(drawing, fixing)) == pytest.approx((fixing.x_mm, fixing.z_mm), abs=0.2)


def test_each_fixing_is_dimensioned_from_the_datum(rail: Wall) -> None:
    """Its x and its height stand along the sides, with the fitting's own edges and size."""
    (fitting,) = rail.site.all("fitting")
    assert {"2000", "2100", "2900", "3000", "1500", "1540", "1580", "1000", "80"} <= set(
        words_of(detail(rail.site, fitting, []))
    )


def test_detail_shows_what_lies_near_and_leaves_out_what_does_not(rail: Wall) -> None:
    """The zone beside the rail is on it, the one at the other end of the wall is not."""
    (fitting,) = rail.site.all("fitting")
    near, far = rail.site.all("zone")
    drawing = detail(rail.site, fitting, [])
    assert of_item(drawing, near)
    assert not of_item(drawing, far)


def test_fitting_without_fixings_is_still_drawn() -> None:
    """It has its place and size."""
    wall = Wall()
    fitting = wall.fitting()
    assert {"2000", "3000"} <= set(words_of(detail(wall.site, fitting, [])))


@pytest.mark.parametrize(("width", "height"), [(3900, 2500), (20, 2500), (30, 30)])
def test_detail_fits_its_paper(width: float, height: float) -> None:
    """Whatever the shape of the fitting."""
    wall = Wall()
    fitting = wall.fitting(x_mm=50, z_mm=50, width_mm=width, height_mm=height)
    root = read(detail(wall.site, fitting, [], paper_width_mm=172, paper_height_mm=110))
    assert float(root.get("height", "").removesuffix("mm")) <= 110


def test_own_fixings_are_lettered_where_those_of_others_crowd_round() -> None:
    """On the small paper beside a photograph, among twelve fixings of another fitting, which bear no marks there."""
    wall = Wall()
    panel = wall.fitting(mark="D2", x_mm=2000, z_mm=1200, width_mm=900, height_mm=700)
    own = [(f"D2.{at}", 2050 + 400 * (at % 3), 1250 if at < 3 else 1850) for at in range(6)]
    for mark, x, z in own:
        wall.fixing(panel, mark=mark, x_mm=x, z_mm=z)
    frame = wall.fitting(mark="D1", x_mm=1950, z_mm=1150, width_mm=1000, height_mm=800)
    for at in range(12):
        wall.fixing(frame, mark=f"D1.{at}", x_mm=1960 + 80 * at, z_mm=1170 if at % 2 else 1940)
    drawing = detail(wall.site, panel, [], paper_width_mm=80, paper_height_mm=90)
    said = words_of(drawing)
    assert {mark for mark, _, _ in own} <= set(said)
    assert not [one for one in said if one.startswith("D1.")]
    assert all(of_item(drawing, fixing) for fixing in wall.site.all("fixing"))
