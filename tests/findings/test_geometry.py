"""The fields of items as the values the checks take."""

from __future__ import annotations

from fieldbook.book.gathering import gather
from fieldbook.checks import materials
from fieldbook.findings import geometry
from tests.sites import Surveyed


def test_place_of_a_fixing_is_as_fitted_once_measured(surveyed: Surveyed) -> None:
    """Planned and as-fitted places are both kept; the measured one counts."""
    fitting = surveyed.fitting()
    planned, fitted = surveyed.fixing(fitting), surveyed.fixing(fitting, fitted_x_mm=1103, fitted_z_mm=1538)
    site = gather(surveyed.book, surveyed.site)
    assert geometry.place_of(site[planned]) == (1100, 1540)
    assert geometry.place_of(site[fitted]) == (1103, 1538)
    assert site[fitted].x_mm == 1100


def test_projection_of_a_fitting_is_its_layers_at_their_worst(surveyed: Surveyed) -> None:
    """10 ± 2, 22 ± 1 and 18 without tolerance come to 53 mm at worst; without layers it is not known."""
    deep = surveyed.fitting(build_up=[["packer", 10, 2], ["rail", 22, 1], ["panel", 18]])
    unknown = surveyed.fitting(build_up=None)
    site = gather(surveyed.book, surveyed.site)
    assert geometry.projection_of(site[deep]) == 53
    assert geometry.projection_of(site[unknown]) is None


def test_headroom_is_measured_from_the_floor_where_it_was_surveyed(surveyed: Surveyed) -> None:
    """The height below which a headroom limit holds follows the floor's profile."""
    surveyed.book.write("face", {"floor": [[3000, 40], [0, -20]]}, item=surveyed.face)
    limit = surveyed.limit(sort="headroom", headroom_mm=2030, projection_mm=100)
    site = gather(surveyed.book, surveyed.site)
    assert geometry.limit_value(site[limit], site[surveyed.face]).below_mm == ((0, 2010), (3000, 2070))


def test_route_leaves_its_free_width_less_the_width_to_keep(surveyed: Surveyed) -> None:
    """1,350 mm today, 1,200 mm to keep: 150 mm may stand out."""
    limit = surveyed.limit(sort="route", available_mm=1350, clear_width_mm=1200)
    site = gather(surveyed.book, surveyed.site)
    assert geometry.limit_value(site[limit], site[surveyed.face]).projection_mm == 150


def test_material_without_a_figure_yet_spoils_no_other(surveyed: Surveyed) -> None:
    """What is entered by name only is left out, rather than making every look-up fail."""
    own = {"site": surveyed.site, "group": "species", "source": "test"}
    surveyed.book.write("material", own | {"name": "Bog oak"})
    surveyed.book.write("material", own | {"name": "Old deal", "specific_gravity": 0.42})
    rows = geometry.own_materials(gather(surveyed.book, surveyed.site))
    assert [row["material"] for row in rows] == ["Old deal"]
    assert materials.lookup("old deal", rows).figure("specific_gravity").value == 0.42
