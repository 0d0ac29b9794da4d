"""Copies of a fitting with its fixings, and what follows a change of the first."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.entering import enter
from fieldbook.book.entry_lines import Line
from fieldbook.book.fixings_of_copies import NONE, lacked, reaching
from fieldbook.book.gathering import gather
from fieldbook.book.makes import Copy, copies_of, copy_lines, first_of, following
from fieldbook.book.site import Item, Site
from fieldbook.book.supposed import with_new
from tests.sites import Surveyed


@pytest.fixture
def shelf(surveyed: Surveyed) -> tuple[Surveyed, str]:
    """A shelf of 900 mm at x = 200, with a bracket 100 mm from its left edge and one 150 mm from its right."""
    fitting = surveyed.fitting(mark="D1", x_mm=200, width_mm=900, centre_x_mm=500, mass_loaded_kg=9)
    for mark, x in (("D1.1", 300), ("D1.2", 950)):
        surveyed.fixing(fitting, mark=mark, x_mm=x, z_mm=1540, size="M6", packers_mm=3)
    return surveyed, fitting


def copied(shelf: tuple[Surveyed, str], *places: Copy) -> Site:
    """The site with copies entered."""
    surveyed, fitting = shelf
    site = gather(surveyed.book, surveyed.site)
    enter(surveyed.book, copy_lines(site, site[fitting], places), surveyed.book.folder)
    return gather(surveyed.book, surveyed.site)


def marked(site: Site, mark: str) -> Item:
    """The fitting or fixing of this mark."""
    return next(one for kind in ("fitting", "fixing") for one in site.all(kind) if one.mark == mark)


def test_copy_has_its_fixings_at_the_same_places_from_its_edges(shelf: tuple[Surveyed, str]) -> None:
    """It is planned, has a mark of its own, and what belongs to the first place alone is not taken over."""
    surveyed, fitting = shelf
    site = copied(shelf, Copy(surveyed.face, 1300, 1700))
    second = marked(site, "D2")
    assert (second.x_mm, second.z_mm, second.width_mm, second.mass_loaded_kg, second.centre_x_mm) == (
        1300, 1700, 900, 9, 1600,
    )  # fmt: skip
    fixings = [(one.mark, one.x_mm, one.z_mm, one.size, one.packers_mm, one.state) for one in site.of(second, "fixing")]
    assert fixings == [("D2.1", 1400, 1740, "M6", None, "planned"), ("D2.2", 2050, 1740, "M6", None, "planned")]
    assert first_of(site, second).id == fitting
    assert copies_of(site, site[fitting]) == [second]


def test_mirrored_copy_is_turned_about_its_middle(shelf: tuple[Surveyed, str]) -> None:
    """What was 100 mm from the left edge is 100 mm from the right; turned once more it is as the first."""
    surveyed, _ = shelf
    site = copied(shelf, Copy(surveyed.face, 2000, 1500, mirrored=True))
    second = marked(site, "D2")
    assert [one.x_mm for one in site.of(second, "fixing")] == [2800, 2150]
    assert (second.centre_x_mm, second.mirrored) == (2600, 1)
    enter(surveyed.book, copy_lines(site, second, [Copy(surveyed.face, 3000, 1500, True)]), surveyed.book.folder)
    site = gather(surveyed.book, surveyed.site)
    third = marked(site, "D3")
    assert ([one.x_mm for one in site.of(third, "fixing")], third.mirrored) == ([3100, 3750], None)
    assert third.make == marked(site, "D1").id


def test_supposed_copies_are_what_is_entered(shelf: tuple[Surveyed, str]) -> None:
    """What is shown before it is entered has the same values, and the book is untouched."""
    surveyed, fitting = shelf
    site = gather(surveyed.book, surveyed.site)
    lines = copy_lines(site, site[fitting], [Copy(surveyed.face, 1300, 1700)])
    shown = {one.mark: one.values for one in with_new(site, lines).items}
    assert surveyed.book.revision() == site.revision
    entered = copied(shelf, Copy(surveyed.face, 1300, 1700))
    own = {"id", "revision", "fitting", "received_at", "hash"}

    def told(values: Any) -> dict[str, Any]:
        return {name: value for name, value in values.items() if name not in own}

    for mark, values in shown.items():
        assert told(values) == {name: told(marked(entered, mark).values).get(name) for name in told(values)}


def test_planned_copies_take_over_and_standing_ones_are_asked_about(shelf: tuple[Surveyed, str]) -> None:
    """What was changed on a copy alone stays as it is there."""
    surveyed, fitting = shelf
    site = copied(shelf, *(Copy(surveyed.face, x, 100) for x in (1300, 2300, 3300)))
    planned, fitted, other = (marked(site, mark) for mark in ("D2", "D3", "D4"))
    surveyed.book.write("fitting", {"state": "fitted", "fitted_on": "2026-05-05"}, fitted.id)
    surveyed.book.write("fitting", {"mass_loaded_kg": 12}, other.id)
    site = gather(surveyed.book, surveyed.site)
    follows = following(site, site[fitting], {"mass_loaded_kg": 8})
    assert [one.id for one in follows.taken_over] == [planned.id]
    assert [one.id for one in follows.standing] == [fitted.id]
    assert follows.lines == [{"kind": "fitting", "item": planned.id, "set": {"mass_loaded_kg": 8}}]


def test_fixing_set_elsewhere_on_the_first_is_set_elsewhere_on_copies(shelf: tuple[Surveyed, str]) -> None:
    """As far to the other side on one that is turned."""
    surveyed, _ = shelf
    site = copied(shelf, Copy(surveyed.face, 1300, 100), Copy(surveyed.face, 2300, 100, mirrored=True))
    follows = following(site, marked(site, "D1.1"), {"x_mm": 320.0})
    assert [line["set"] for line in follows.lines if isinstance(line, dict)] == [{"x_mm": 1420}, {"x_mm": 3080}]


def test_fitting_set_elsewhere_takes_its_planned_fixings_along(shelf: tuple[Surveyed, str]) -> None:
    """Not one that is up, and no copy: each has its own place."""
    surveyed, fitting = shelf
    site = copied(shelf, Copy(surveyed.face, 1300, 100))
    surveyed.book.write("fixing", {"state": "fitted", "fitted_place": "not measured"}, marked(site, "D1.2").id)
    site = gather(surveyed.book, surveyed.site)
    follows = following(site, site[fitting], {"x_mm": 150.0, "z_mm": 1520.0})
    assert [(one.mark, line["set"]) for one, line in zip(follows.moved, follows.lines, strict=True)] == [
        ("D1.1", {"x_mm": 250, "z_mm": 1560})
    ]


def test_new_fixing_reaches_planned_copies_and_standing_ones_are_asked_about(shelf: tuple[Surveyed, str]) -> None:
    """At the same place from the edges, turned on one that is turned, under a mark that is free; one taken down is not.

    On the first it is 400 mm from the left edge, so on the turned copy of 900 mm 500 mm from its left edge.
    """
    surveyed, fitting = shelf
    site = copied(shelf, *(Copy(surveyed.face, x, 100, x == 2300) for x in (1300, 2300, 3300, 4000)))
    planned, turned, fitted, down = (marked(site, mark) for mark in ("D2", "D3", "D4", "D5"))
    surveyed.book.write("fitting", {"state": "fitted", "fitted_on": "2026-05-05"}, fitted.id)
    surveyed.book.write("fitting", {"state": "taken down"}, down.id)
    surveyed.fixing(planned.id, mark="D2.3")
    site = gather(surveyed.book, surveyed.site)
    new = {"sort": "hook", "state": "planned", "contact_radius_mm": 7, "hole": "none", "trace": "none"}
    new |= {"fitting": fitting, "face": surveyed.face, "fabric": "later work", "packers_mm": 4}
    line: Line = {"kind": "fixing", "item": "row 1", "set": new | {"mark": "D1.3", "x_mm": 600, "z_mm": 1525}}
    reach = reaching(site, [line])
    assert ([one.mark for one in reach.planned], [one.mark for one in reach.standing]) == (["D2", "D3"], ["D4"])
    ids = enter(surveyed.book, [line, *reach.lines], surveyed.book.folder).ids
    site = gather(surveyed.book, surveyed.site)
    made = [one for one in site.all("fixing") if one.make == ids["row 1"]]
    assert [(one.mark, one.x_mm, one.z_mm, one.state, one.packers_mm) for one in made] == [
        ("D2.4", 1700, 125, "planned", None),
        ("D3.3", 2800, 125, "planned", None),
    ]
    assert [(one.copy.mark, one.fixing.mark) for one in lacked(site, site[fitting]) if one.fixing.mark == "D1.3"] == [
        ("D4", "D1.3")
    ]


def test_new_fixing_of_a_copy_or_without_a_place_reaches_nothing(shelf: tuple[Surveyed, str]) -> None:
    """A copy is nobody's first, and what is to be mended first brings nothing along."""
    surveyed, fitting = shelf
    site = copied(shelf, Copy(surveyed.face, 1300, 100))
    own = {"fitting": marked(site, "D2").id, "mark": "D2.3", "x_mm": 1500, "z_mm": 120}
    unplaced = own | {"fitting": fitting, "x_mm": None}
    for values in (own, unplaced):
        assert reaching(site, [{"kind": "fixing", "item": "row 1", "set": values}]) == NONE
