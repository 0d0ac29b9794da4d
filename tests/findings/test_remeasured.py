"""What one new measure of a wall changes."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.remeasured import remeasured
from tests.findings.asked import TODAY
from tests.sites import Surveyed


@pytest.fixture
def rail(surveyed: Surveyed) -> Surveyed:
    """An even wall with a rail of 22 ± 1 mm on three agreed fixings, before which 30 mm are clear."""
    surveyed.looked()
    even = [[x, z, 0] for z in (0, 3000) for x in (1000, 1500, 2000)]
    surveyed.book.write("face", {"surface": even}, item=surveyed.face)
    surveyed.limit(sort="flat", projection_mm=30)
    fitting = surveyed.fitting(touches_face=0, mass_loaded_kg=12)
    fixings = [
        surveyed.fixing(fitting, mark=f"D1.{at}", x_mm=x, packers_mm=0, adhesive=0, carries_load=1)
        for at, x in ((1, 1000), (2, 1500), (3, 2000))
    ]
    said = {"reference": "A1", "answer": "yes", "words": "as drawn", "said_by": "the keeper", "on": "2026-03-01"}
    surveyed.book.write("agreement", {"site": surveyed.site, "items": fixings[:2]} | said)
    return surveyed


def test_new_measure_says_what_fits_which_packers_change_and_what_is_agreed(rail: Surveyed) -> None:
    """6 mm proud at the middle: 23 + 6 = 29 of 30 are close, the rail turns about the middle, and A1 stands."""
    site = gather(rail.book, rail.site)
    (one,) = remeasured(site, site[rail.face], [1500, 1540, 6], TODAY)
    assert (one.before.word, one.fits) == (Word.WITHIN, False)
    assert {row.fixing.mark: round(row.after_mm, 6) for row in one.packers} == {"D1.1": 6, "D1.3": 6}
    assert "the wall calls for 6 mm" in one.after.verdict.sentence
    assert (one.agreed, one.asked_again) == (("D1.1", "D1.2"), ())


def test_measure_beside_a_fitting_changes_nothing(rail: Surveyed) -> None:
    """What stands beside the readings' rectangle is no part of its wall; the book is as it was."""
    site = gather(rail.book, rail.site)
    revision = rail.book.revision()
    (one,) = remeasured(site, site[rail.face], [4500, 100, 6], TODAY)
    assert (one.after.word, one.packers) == (one.before.word, ())
    assert rail.book.revision() == revision


def test_measure_takes_the_place_of_one_at_the_same_place(rail: Surveyed) -> None:
    """A corner measured again at 9 mm: 9 + 23 = 32 is over the 30 that are clear."""
    site = gather(rail.book, rail.site)
    (one,) = remeasured(site, site[rail.face], [2000, 3000, 9], TODAY)
    assert one.after.word is Word.OVER
