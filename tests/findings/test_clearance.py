"""What stays clear of all that swings, passes, must be seen, or has heads below it."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.answering import find
from fieldbook.findings.questions import OF_KIND
from tests.findings.asked import TODAY, one
from tests.findings.generated import changed
from tests.sites import Surveyed

EVEN = [[x, z, 0] for x in (0, 5000) for z in (0, 3000)]  # a wall measured and found even


@pytest.fixture
def even(surveyed: Surveyed) -> Surveyed:
    """A face measured even, of which somebody looked for everything."""
    surveyed.looked()
    surveyed.book.write("face", {"surface": EVEN}, item=surveyed.face)
    return surveyed


def test_fitting_is_held_against_the_door_that_swings_before_it(even: Surveyed) -> None:
    """Published case: hinge at x = 1,000, opens to 160°, at s = 500 mm 204.6 mm are clear (check of `clearance`)."""
    limit = even.limit()
    fitting = even.fitting(x_mm=300, width_mm=200, build_up=[["case", 200, 2]])
    found = one(even, "clearance", fitting)
    assert (found.against and found.against.id) == limit
    assert (found.word, found.verdict.limit, found.verdict.margin) == (Word.CLOSE, 204.6, 2.6)
    assert found.again is not None


def test_leaf_limits_wherever_it_passes_whatever_band_is_entered(even: Surveyed) -> None:
    """A band from x = 900 on, in a book made before such a band was refused, hides nothing of the sweep at 300."""
    even.limit()
    even.fitting(x_mm=300, width_mm=200, build_up=[["case", 200, 2]])
    site = gather(even.book, even.site)
    (limit,) = site.all("limit")
    narrow = changed(site, limit, x_from_mm=900)
    (asked,) = [each for each in OF_KIND["fitting"] if each.name == "clearance"]
    assert find(asked, narrow.all("fitting")[0], narrow, TODAY).word is Word.CLOSE


def test_leaf_keeps_its_heights(even: Surveyed) -> None:
    """What hangs above a door of 2,000 mm is not in its way."""
    even.limit(z_from_mm=0, z_to_mm=2000)
    high = even.fitting(x_mm=300, z_mm=2100, width_mm=200, build_up=[["case", 300, 2]])
    assert one(even, "clearance", high).word is Word.WITHIN


def test_what_must_be_seen_leaves_nothing_in_front_of_it(even: Surveyed) -> None:
    """A call point with 50 mm kept round it: a rail of 23 mm over it is 23 too much, one 51 mm beside it is clear."""
    where = {"x_from_mm": 1100, "x_to_mm": 1200, "z_from_mm": 1500, "z_to_mm": 1600}
    point = even.limit(sort="keep in view", name="Call point", margin_mm=50, **where)
    over = even.fitting()
    beside = even.fitting(mark="D2", x_mm=1251, z_mm=1500)
    found = one(even, "clearance", over)
    assert (found.word, found.verdict.limit, found.verdict.margin) == (Word.OVER, 0, -23)
    assert found.against and found.against.id == point
    assert one(even, "clearance", beside).word is Word.WITHIN


def test_nothing_recorded_counts_as_nothing_only_where_somebody_looked(surveyed: Surveyed) -> None:
    """What nothing recorded limits is not known until somebody looked for what swings, passes or must be seen."""
    rail = surveyed.fitting()
    found = one(surveyed, "clearance", rail)
    assert (found.word, found.missing[0].field) == (Word.NOT_KNOWN, "looked_for")
    surveyed.looked()
    assert one(surveyed, "clearance", rail).word is Word.WITHIN


def test_unmeasured_wall_is_asked_for_only_where_it_would_matter(surveyed: Surveyed) -> None:
    """A rail of 22 ± 1 mm has 50 mm: room for 20 mm of wall. With 40 mm it has not, and the wall is to be measured."""
    surveyed.looked()
    surveyed.limit(sort="flat", projection_mm=50)
    rail = surveyed.fitting()
    assert one(surveyed, "clearance", rail).word is Word.WITHIN
    surveyed.limit(sort="flat", projection_mm=40)
    found = one(surveyed, "clearance", rail)
    assert (found.word, found.verdict.figure, found.missing[0].field) == (Word.NOT_KNOWN, 23, "surface")


def test_fixing_that_stands_out_by_itself_is_held_too(even: Surveyed) -> None:
    """A knob of 60 mm has 50: over; what lies inside its fitting is not asked; a blank beside it is asked for."""
    even.limit(sort="flat", projection_mm=50)
    fitting = even.fitting()
    inside, knob = even.fixing(fitting), even.fixing(fitting, stands_out_mm=60)
    hook = even.fixing(fitting, sort="hook", x_mm=4000)
    assert one(even, "clearance", inside).word is Word.DOES_NOT_APPLY
    assert (one(even, "clearance", knob).word, one(even, "clearance", knob).verdict.margin) == (Word.OVER, -10)
    assert [blank.field for blank in one(even, "clearance", hook).missing] == ["stands_out_mm"]


def test_headroom_is_asked_of_what_hangs_from_a_ceiling(even: Surveyed) -> None:
    """From a ceiling at 2,600 mm 560 hang to 2,040: not known without a headroom, within 2,000, over 2,100 by 60."""
    even.book.write("face", {"sort": "ceiling", "above_floor_mm": 2600}, item=even.face)
    lamp = even.fitting(build_up=[["lamp", 560, 0]])
    assert one(even, "clearance", lamp).word is Word.NOT_KNOWN
    assert one(even, "clearance", even.fitting(mark="D2", z_mm=500, build_up=[["plate", 20, 0]])).word is Word.WITHIN
    limit = even.limit(sort="headroom", headroom_mm=2000, projection_mm=0)
    assert (one(even, "clearance", lamp).word, one(even, "clearance", lamp).verdict.limit) == (Word.WITHIN, 600)
    even.book.write("limit", {"headroom_mm": 2100}, item=limit)
    assert one(even, "clearance", lamp).verdict.margin == -60


def test_height_of_a_ceiling_nobody_measured_is_asked_for(even: Surveyed) -> None:
    """It may be entered with the face, or as the room's ceiling height."""
    even.book.write("face", {"sort": "ceiling"}, item=even.face)
    lamp = even.fitting(build_up=[["lamp", 560, 0]])
    assert [blank.field for blank in one(even, "clearance", lamp).missing] == ["above_floor_mm"]
    even.book.write("room", {"ceiling_mm": 3200}, item=even.room)
    assert one(even, "clearance", lamp).word is Word.WITHIN


def test_what_is_made_to_be_moved_is_clear_wherever_it_may_be_set(even: Surveyed) -> None:
    """A case that may be set 300 mm to either side comes under the limit that begins 200 mm beside it."""
    even.limit(sort="flat", projection_mm=50, x_from_mm=2200)
    case = even.fitting(build_up=[["case", 80, 0]])
    assert one(even, "clearance", case).word is Word.WITHIN
    even.book.write("fitting", {"moves_mm": 300}, item=case)
    assert one(even, "clearance", case).verdict.margin == -30


def test_what_hangs_on_a_thing_that_is_moved_goes_with_it(surveyed: Surveyed) -> None:
    """A panel at x = 2,000 hangs on a rail that may be set 300 mm to either side: at 1,700 it is in front of a limit.

    The limit of 10 mm ends at x = 1,800; the panel stands 23 mm out of the rail's 23.
    """
    surveyed.looked()
    surveyed.book.write("face", {"surface": [[0, 0, 0], [5000, 0, 0], [0, 3000, 0]]}, item=surveyed.face)
    flat = {"face": surveyed.face, "mark": "L1", "name": "Way", "sort": "flat", "margin_mm": 0, "projection_mm": 10}
    surveyed.book.write("limit", flat | {"x_from_mm": 1000, "x_to_mm": 1800, "z_to_mm": 1400})
    rail = surveyed.fitting(x_mm=2000, moves_mm=300)
    panel = surveyed.fitting(mark="D2", x_mm=2000, z_mm=900, height_mm=600, hangs_on=rail)
    assert one(surveyed, "clearance", panel).word is Word.OVER
    surveyed.book.write("fitting", {"moves_mm": 100}, item=rail)
    assert one(surveyed, "clearance", panel).word is not Word.OVER
