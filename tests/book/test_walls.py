"""The walls that a room's plan has."""

from __future__ import annotations

import math

from fieldbook.book.gathering import gather
from fieldbook.book.walls import walls_in, walls_lacking
from tests.sites import Surveyed

CORNERS = [[0, 0], [5230, 0], [5230, 3140], [0, 3140]]


def test_walls_run_round_the_room_to_the_right() -> None:
    """Whichever way round the plan was entered, and each ends where the next begins."""
    walls = walls_in(CORNERS)
    assert {wall[:2] for wall in walls} == {wall[:2] for wall in walls_in(CORNERS[::-1])}
    for wall, after in zip(walls, walls[1:] + walls[:1], strict=True):
        along = math.radians(wall.bearing_deg)
        end = (wall.start_x_mm + wall.width_mm * math.cos(along), wall.start_y_mm + wall.width_mm * math.sin(along))
        assert math.dist(end, after[:2]) < 1e-6
        inward = (end[0] + 10 * math.sin(along), end[1] - 10 * math.cos(along))
        middle = [(start + at) / 2 for start, at in zip(wall[:2], inward, strict=True)]
        assert 0 < middle[0] < 5230 and 0 < middle[1] < 3140


def test_wall_that_is_a_face_already_is_not_asked_again(surveyed: Surveyed) -> None:
    """What starts within a hand's breadth of a corner is that corner's wall."""
    surveyed.book.write("room", {"plan": CORNERS, "mark": "R7"}, surveyed.room)
    lacking = walls_lacking(gather(surveyed.book, surveyed.site), gather(surveyed.book, surveyed.site)[surveyed.room])
    assert [mark for mark, _ in lacking] == ["R7-A", "R7-B", "R7-C", "R7-D"]
    start = {"start_x_mm": lacking[1][1].start_x_mm + 14, "start_y_mm": lacking[1][1].start_y_mm, "bearing_deg": 0}
    surveyed.book.write("face", start, surveyed.face)
    site = gather(surveyed.book, surveyed.site)
    assert [mark for mark, _ in walls_lacking(site, site[surveyed.room])] == ["R7-A", "R7-C", "R7-D"]


def test_plan_without_corners_has_no_walls() -> None:
    """Nor has one of two."""
    assert walls_in([]) == walls_in(CORNERS[:2]) == []
