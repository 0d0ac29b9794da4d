"""Packers behind the fixings of a face, from its surface readings."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks import packers
from fieldbook.errors import FieldbookError
from fieldbook.findings.packing import Packing, packing_on
from tests.drawing.drawn import Wall

# A face that stands 6 mm proud at its left end and is level to the right of it, the same at every height.
SURFACE = [[x, z, proud] for z in (1000, 2000) for x, proud in ((1900, 6), (2500, 0), (3100, 0))]


def packed(surface: Any, stock: tuple[float, ...] = (), *places: tuple[float, float], **more: Any) -> list[Packing]:
    """The packing of a rail with fixings at these places."""
    wall = Wall()
    wall.change(wall.face, surface=surface)
    rail = wall.fitting()
    for number, (x, z) in enumerate(places or ((1900, 1540), (2500, 1540), (3100, 1540))):
        wall.fixing(rail, mark=f"D1.{number + 1}", x_mm=x, z_mm=z, **more)
    return packing_on(wall.site, wall.face, stock)


def test_least_packers_make_the_rail_flat() -> None:
    """Touching at both of the left two, turned away at the right: 6, 0 and −6 are a straight line, the last packs 6."""
    (rail,) = packed(SURFACE, packers_mm=1)
    assert [row.proud_mm for row in rail.packed] == pytest.approx([6, 0, 0])
    assert sum(row.packer_mm for row in rail.packed) == pytest.approx(3)
    assert min(row.packer_mm for row in rail.packed) == 0
    line = [row.proud_mm + row.packer_mm for row in rail.packed]
    assert line[1] - line[0] == pytest.approx(line[2] - line[1])
    assert [row.difference_mm for row in rail.packed] == pytest.approx([1 - row.packer_mm for row in rail.packed])


def test_packers_are_made_of_what_is_in_the_box() -> None:
    """With halves and twos only, and it is said how far that is from the plane."""
    (rail,) = packed(SURFACE, (0.5, 2))
    assert all(piece in {0.5, 2} for row in rail.packed for piece in row.made_of)
    assert all(sum(row.made_of) == pytest.approx(row.packer_mm) for row in rail.packed)
    assert rail.out_of_plane_mm <= 0.25


def test_fitted_place_counts_before_the_planned_one() -> None:
    """A fixing that sits elsewhere than planned is packed where it sits."""
    (rail,) = packed(SURFACE, (), (1900, 1500), (2500, 1500), fitted_x_mm=2500.0, fitted_z_mm=1200.0)
    assert [row.proud_mm for row in rail.packed] == pytest.approx([0, 0])


def test_place_that_was_not_measured_makes_the_whole_fitting_not_known() -> None:
    """The other packers would be wrong as well if that place stood prouder."""
    (rail,) = packed(SURFACE, (), (1900, 1540), (2500, 2500))
    assert rail.packed == ()
    assert rail.refusal is not None
    assert rail.refusal.field == "surface"


@pytest.mark.parametrize("more", [{"state": "taken down"}, {"fabric": "another fitting"}])
def test_what_does_not_bear_on_the_face_is_not_packed(more: dict[str, str]) -> None:
    """Neither what is down nor what sits on another fitting."""
    assert packed(SURFACE, **more) == []


def test_single_fixing_needs_no_plane() -> None:
    """One point can always be met."""
    assert packed(SURFACE, (), (2000, 1500)) == []


@pytest.mark.parametrize("stock", [(0,), (-1,), (1000,), (0.123,), tuple([1.0] * 51)])
def test_thickness_no_box_has_is_refused(stock: tuple[float, ...]) -> None:
    """Once for all fittings, with the reason of the check."""
    with pytest.raises(FieldbookError) as refusal:
        packed(SURFACE, stock)
    assert (refusal.value.field or "").startswith("stock_mm")


def test_rail_is_packed_upright_even_where_a_leaning_face_would_take_it_as_it_is() -> None:
    """On a face that leans back 6 mm in a metre, two fixings one above the other: the upper one gets 6 mm, not none."""
    leaning = [[x, z, proud] for x in (1900, 3100) for z, proud in ((1000, 6), (2000, 0))]
    (rail,) = packed(leaning, (), (2000, 1000), (2000, 2000))
    assert [row.packer_mm for row in rail.packed] == pytest.approx([0, 6])
    points = [(2000, 1000, 6), (2000, 2000, 0)]
    assert packers.packers_mm(points, "plumb") == pytest.approx([0, 6])
    assert packers.packers_mm(points, "free") == pytest.approx([0, 0])


def test_packers_from_the_box_are_upright_as_well() -> None:
    """What the box makes is held against the upright plane: 6 mm of threes, and nothing off."""
    leaning = [[x, z, proud] for x in (1900, 3100) for z, proud in ((1000, 6), (2000, 0))]
    (rail,) = packed(leaning, (3.0,), (2000, 1000), (2000, 2000))
    assert [row.made_of for row in rail.packed] == [(), (3, 3)]
    assert rail.out_of_plane_mm == 0
