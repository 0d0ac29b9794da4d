"""A thing set elsewhere or with more on it: within its room to move, or to be asked first."""

from __future__ import annotations

from datetime import date

from fieldbook.book.gathering import gather
from fieldbook.findings.rearranged import rearranged
from fieldbook.findings.room_to_move import room_to_move
from tests.sites import Surveyed

TODAY = date(2027, 6, 1)


def test_answer_is_that_of_the_room_to_move(surveyed: Surveyed) -> None:
    """At the ends of the stretch it is fine, beyond it is asked; what hangs on it goes along, fixings too."""
    rail = surveyed.fitting(moves_mm=300, mass_loaded_kg=5, carries_kg=4)
    surveyed.fixing(rail)
    panel = surveyed.fitting(mark="D2", z_mm=900, height_mm=400, width_mm=300, hangs_on=rail, mass_loaded_kg=1)
    surveyed.fitting(mark="D3", x_mm=2150)  # stands in its way
    site = gather(surveyed.book, surveyed.site)
    low, high = room_to_move(site, site[rail], TODAY).along_mm[0]
    assert (low, high) == (700, 1150)
    for x_mm in (low, high):
        found = rearranged(site, site[rail], x_mm, None, TODAY)
        assert found.against == ()
        places = {one.called: one.x_mm for one in found.changed}
        assert places == {"D1": x_mm, "D1.1": 1100 + x_mm - 1000, "D2": 1000 + x_mm - 1000}
    assert rearranged(site, site[rail], high + 1, None, TODAY).against
    assert rearranged(site, site[panel], 900, None, TODAY).against[0] == "It is not made to be moved."


def test_more_on_it_is_asked_where_the_place_then_allows_no_more(surveyed: Surveyed) -> None:
    """A mass at most that entered is fine; more only as far as its room says; none entered is not known."""
    rail = surveyed.fitting(moves_mm=300, mass_loaded_kg=5, carries_kg=4)
    bare = surveyed.fitting(mark="D4", x_mm=3000)
    site = gather(surveyed.book, surveyed.site)
    more = room_to_move(site, site[rail], TODAY).more_kg
    assert more is not None
    assert rearranged(site, site[rail], None, 5, TODAY).against == ()
    assert rearranged(site, site[rail], 1100, 5 + more, TODAY).against == ()
    assert rearranged(site, site[rail], None, 5.2 + more, TODAY).against
    assert rearranged(site, site[bare], None, 1, TODAY).against
