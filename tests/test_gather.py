"""A site gathered from a book."""

from __future__ import annotations

import pytest

from fieldbook import gather as gathering
from fieldbook.checks import materials
from fieldbook.errors import FieldbookError, UnknownItem
from fieldbook.gather import gather, site_of
from tests.sites import Surveyed


def test_gathered_site_holds_what_belongs_to_it_and_no_other(surveyed: Surveyed) -> None:
    """Another site of the same book is left out."""
    other = surveyed.book.write("site", {"name": "Weigh house"})
    surveyed.book.write("room", {"site": other, "name": "Scale room"})
    zone = surveyed.zone()
    site = gather(surveyed.book, surveyed.site)
    assert [room.title for room in site.all("room")] == ["R1 Long room"]
    assert [one.id for one in site.of(site[surveyed.face], "zone")] == [zone]
    assert (site.revision, site.digest) == (surveyed.book.revision(), surveyed.book.digest())


def test_withdrawn_item_is_left_out_with_what_belongs_to_it(surveyed: Surveyed) -> None:
    """A withdrawn face takes its zones along."""
    zone = surveyed.zone()
    surveyed.book.withdraw(surveyed.face)
    site = gather(surveyed.book, surveyed.site)
    assert surveyed.face not in site
    assert zone not in site
    assert site.get(zone) is None
    with pytest.raises(UnknownItem):
        site[zone]


def test_marks_sort_as_people_count(surveyed: Surveyed) -> None:
    """D2 comes before D10, D2.9 before D2.10, and what has no mark comes last."""
    marks = ["D10", "D2.10", "D2", "D2.9", "C1"]
    for mark in marks:
        surveyed.fitting(mark=mark)
    site = gather(surveyed.book, surveyed.site)
    assert [one.mark for one in site.all("fitting")] == ["C1", "D2", "D2.9", "D2.10", "D10"]


def test_item_without_such_a_field_is_an_attribute_error(surveyed: Surveyed) -> None:
    """A misspelt field is an error, never an empty value."""
    site = gather(surveyed.book, surveyed.site)
    with pytest.raises(AttributeError, match="no colour"):
        _ = site[surveyed.face].colour


def test_gather_of_something_that_is_no_site_is_refused(surveyed: Surveyed) -> None:
    """Only a site can be gathered."""
    with pytest.raises(FieldbookError) as refusal:
        gather(surveyed.book, surveyed.room)
    assert (refusal.value.code, refusal.value.field) == ("unknown-item", "site")


def test_site_of_an_item_is_found_through_what_it_belongs_to(surveyed: Surveyed) -> None:
    """From a fixing up to its site."""
    assert site_of(surveyed.book, surveyed.fixing(surveyed.fitting())) == surveyed.site


def test_place_of_a_fixing_is_as_fitted_once_measured(surveyed: Surveyed) -> None:
    """Planned and as-fitted places are both kept; the measured one counts."""
    fitting = surveyed.fitting()
    planned, fitted = surveyed.fixing(fitting), surveyed.fixing(fitting, fitted_x_mm=1103, fitted_z_mm=1538)
    site = gather(surveyed.book, surveyed.site)
    assert gathering.place_of(site[planned]) == (1100, 1540)
    assert gathering.place_of(site[fitted]) == (1103, 1538)
    assert site[fitted].x_mm == 1100


def test_projection_of_a_fitting_is_its_layers_at_their_worst(surveyed: Surveyed) -> None:
    """10 ± 2, 22 ± 1 and 18 without tolerance come to 53 mm at worst; without layers it is not known."""
    deep = surveyed.fitting(build_up=[["packer", 10, 2], ["rail", 22, 1], ["panel", 18]])
    unknown = surveyed.fitting(build_up=None)
    site = gather(surveyed.book, surveyed.site)
    assert gathering.projection_of(site[deep]) == 53
    assert gathering.projection_of(site[unknown]) is None


def test_headroom_is_measured_from_the_floor_where_it_was_surveyed(surveyed: Surveyed) -> None:
    """The height below which a headroom limit holds follows the floor's profile."""
    surveyed.book.write("face", {"floor": [[3000, 40], [0, -20]]}, item=surveyed.face)
    limit = surveyed.limit(sort="headroom", headroom_mm=2030, projection_mm=100)
    site = gather(surveyed.book, surveyed.site)
    assert gathering.limit_value(site[limit], site[surveyed.face]).below_mm == ((0, 2010), (3000, 2070))


def test_route_leaves_its_free_width_less_the_width_to_keep(surveyed: Surveyed) -> None:
    """1,350 mm today, 1,200 mm to keep: 150 mm may stand out."""
    limit = surveyed.limit(sort="route", available_mm=1350, clear_width_mm=1200)
    site = gather(surveyed.book, surveyed.site)
    assert gathering.limit_value(site[limit], site[surveyed.face]).projection_mm == 150


def test_material_without_a_figure_yet_spoils_no_other(surveyed: Surveyed) -> None:
    """What is entered by name only is left out, rather than making every look-up fail."""
    own = {"site": surveyed.site, "group": "species", "source": "test"}
    surveyed.book.write("material", own | {"name": "Bog oak"})
    surveyed.book.write("material", own | {"name": "Old deal", "specific_gravity": 0.42})
    rows = gathering.own_materials(gather(surveyed.book, surveyed.site))
    assert [row["material"] for row in rows] == ["Old deal"]
    assert materials.lookup("old deal", rows).figure("specific_gravity").value == 0.42
