"""What is open on a site: one line a thing to do, with all it settles."""

from __future__ import annotations

from fieldbook.book.gathering import gather
from fieldbook.findings import appraise
from fieldbook.findings.open_points import open_points
from tests.sites import Surveyed


def test_missing_entry_is_one_line_with_all_it_settles(surveyed: Surveyed) -> None:
    """What several findings want is one line, which says how many it settles."""
    fitting = surveyed.fitting(people_to_remove=1, lift_reach="close")
    site = gather(surveyed.book, surveyed.site)
    findings = appraise(site)
    points = open_points(site, findings)
    settled = sum(any(blank.field == "mass_empty_kg" for blank in one.missing) for one in findings)
    (line,) = [point for point in points.this_walk if point.field == "mass_empty_kg"]
    assert settled == line.settles == 1
    assert (line.item.id, line.line) == (fitting, "“mass empty” of D1: 1\u00a0answer waits for it")


def test_what_stops_the_work_stands_first_and_by_itself(surveyed: Surveyed) -> None:
    """A fixing in a keep-off zone is a line of the first list, in the words of its finding."""
    surveyed.zone()
    surveyed.fixing(surveyed.fitting(x_mm=0, z_mm=0), x_mm=60, z_mm=50)
    site = gather(surveyed.book, surveyed.site)
    points = open_points(site, appraise(site))
    assert any(point.line.startswith("D1.1: ") and "K1" in point.line for point in points.stop)


def test_no_to_a_fitting_and_its_fixings_is_one_line(surveyed: Surveyed) -> None:
    """A keeper's no to a fitting is told once, with the marks it stops."""
    fitting = surveyed.fitting()
    surveyed.fixing(fitting, mark="D1.1")
    no = {"site": surveyed.site, "reference": "A1", "items": [fitting], "answer": "no", "words": "Not there."}
    surveyed.book.write("agreement", no | {"said_by": "keeper", "on": "2026-05-31"})
    site = gather(surveyed.book, surveyed.site)
    (line,) = open_points(site, appraise(site)).stop
    assert line.line.startswith("D1, D1.1: No: A1")


def test_nobody_is_asked_how_hard_people_pull_before_whether_they_can(surveyed: Surveyed) -> None:
    """“Nobody leans” settles it; once they can, the pull is asked for."""
    rail = surveyed.fitting(mass_loaded_kg=6, support="its fixings")
    surveyed.fixing(rail, sort="hook", stated_load_n=900, stated_by="maker", stated_source="sheet", adhesive=0)
    for climbable, wanted, other in ((None, "climbable", "pull_n"), (1, "pull_n", "climbable")):
        surveyed.book.write("fitting", {"climbable": climbable}, item=rail)
        site = gather(surveyed.book, surveyed.site)
        asked_for = {point.field for point in open_points(site, appraise(site)).this_walk if point.item.id == rail}
        assert wanted in asked_for
        assert other not in asked_for
