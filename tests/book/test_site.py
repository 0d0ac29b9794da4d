"""A site gathered from a book."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather, site_of
from fieldbook.errors import FieldbookError, UnknownItem
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
