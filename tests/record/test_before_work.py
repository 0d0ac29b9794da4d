"""What the keeper is given before work begins: in order, complete, and silent about nothing."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import appraise
from fieldbook.model.choices import LOOKED_FOR
from fieldbook.record.before_work import MOST_NAMED, BeforeWork, before_work
from tests.sites import Surveyed

TODAY = date(2026, 5, 4)


def told(surveyed: Surveyed) -> BeforeWork:
    """What the sheet tells of the site as it is."""
    site = gather(surveyed.book, surveyed.site)
    return before_work(site, appraise(site, TODAY), TODAY)


def test_only_what_is_planned_is_told_and_what_carries_comes_first(surveyed: Surveyed) -> None:
    """A label that hangs on a rail goes up after it, whatever their marks; what is up already is no work."""
    rail = surveyed.fitting(mark="D9", people_to_remove=2, mass_empty_kg=6)
    surveyed.fitting(mark="D1", name="Label", hangs_on=rail)
    surveyed.fitting(mark="D2", state="fitted")
    work = told(surveyed).work
    assert [(one.number, one.fitting.mark) for one in work] == [(1, "D9"), (2, "D1")]
    assert [one.hand_kg for one in work] == [1.5, None]


def test_fixings_are_told_once_for_all_alike_with_their_holes(surveyed: Surveyed) -> None:
    """Two alike count as two; a new hole tells its size and what it goes into, and is counted."""
    fitting = surveyed.fitting()
    for mark in ("D1.1", "D1.2"):
        surveyed.fixing(fitting, mark=mark)
    hole = {"sort": "wood screw", "hole": "new", "penetration_mm": 20, "contact_radius_mm": 4}
    hole |= {"trace": "a new hole in later work", "fabric": "later work", "into": "batten"}
    surveyed.fixing(fitting, mark="D1.3", **hole)
    (work,) = told(surveyed).work
    held_by = [one.replace("\u00a0", " ") for one in work.fixings]
    assert held_by == ["2 × clamp, no hole", "1 × wood screw, a new hole, 20 mm deep in batten"]
    assert told(surveyed).new_holes == 1


def test_what_is_refused_or_not_known_stops_the_work(surveyed: Surveyed) -> None:
    """Each thing is named once, with the gravest of what is open about it."""
    fitting = surveyed.fitting()
    no = {"site": surveyed.site, "reference": "A1", "answer": "no", "words": "Not here.", "said_by": "keeper"}
    surveyed.book.write("agreement", no | {"on": "2026-05-01", "items": [fitting]})
    surveyed.fixing(fitting)
    (stop,) = told(surveyed).stops
    assert (stop[0].id, stop[1]) == (fitting, Word.REFUSED)


def test_face_tells_what_is_kept_off_and_what_nobody_looked_for(surveyed: Surveyed) -> None:
    """Zones and ways stand beside the face that is worked at; what was looked for is not among what was not."""
    surveyed.fitting()
    zone, limit = surveyed.zone(), surveyed.limit()
    surveyed.looked("asbestos")
    (place,) = told(surveyed).places
    assert ([one.id for one in place.zones], [one.id for one in place.kept_free]) == ([zone], [limit])
    assert "asbestos" not in place.unlooked
    assert "services in the wall" in place.unlooked


def test_what_nobody_looked_for_is_told_once_for_all_faces_alike(surveyed: Surveyed) -> None:
    """Two walls of which the same is not known share a line; one on which all was looked for has none."""
    surveyed.fitting()
    size = {"width_mm": 3000, "height_mm": 2600, "sort": "wall", "name": "wall", "room": surveyed.room}
    second = surveyed.book.write("face", {"mark": "R1-E", **size})
    seen = [[what, "the surveyor", "with a torch", "2026-05-04"] for what in LOOKED_FOR]
    third = surveyed.book.write("face", {"mark": "R1-S", "looked_for": seen, **size})
    for number, face in enumerate((second, third), 2):
        surveyed.fitting(mark=f"D{number}", face=face)
    ((what, faces),) = told(surveyed).unlooked
    assert faces == "R1-N and R1-E"
    assert set(what.split("; ")) == set(LOOKED_FOR)


def test_zones_that_say_the_same_are_told_once(surveyed: Surveyed) -> None:
    """Three linings alike are one line with their marks; one with a wider margin is told apart."""
    surveyed.fitting()
    for number, margin_mm in enumerate((20, 20, 20, 55), 1):
        surveyed.zone(mark=f"K{number}", name="Lining", forbids=["drilling", "contact"], margin_mm=margin_mm)
    (place,) = told(surveyed).places
    assert place.kept_off == [
        ("K1 to K3 Lining", "no drilling, contact within 20\N{NO-BREAK SPACE}mm"),
        ("K4 Lining", "no drilling, contact within 55\N{NO-BREAK SPACE}mm"),
    ]


def test_nothing_planned_is_no_work(surveyed: Surveyed) -> None:
    """A site with nothing planned has no place of work."""
    empty = told(surveyed)
    assert empty == replace(empty, work=(), places=(), rooms=(), cautions=(), new_holes=0, stops=())


def test_of_many_zones_the_marks_are_told(surveyed: Surveyed) -> None:
    """A long wall's forty names would fill the page that both are to sign."""
    surveyed.fitting()
    for number in range(1, MOST_NAMED + 2):
        surveyed.zone(mark=f"K{number}", name=f"Trace {number}", forbids=["contact"], margin_mm=20)
    (place,) = told(surveyed).places
    assert place.kept_off == [(f"K1 to K{MOST_NAMED + 1}", "no contact within 20\u00a0mm")]
