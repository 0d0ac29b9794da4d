"""The walls of a room as its plan has them: one for each side of the outline, as one comes to them to the right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from string import ascii_uppercase
from typing import NamedTuple

from .site import Item, Site

SAME_START_MM = 100  # what a plan and a face that was measured apart may differ by; common practice, no source


class Wall(NamedTuple):
    """Where a wall starts in the plan of its room, whither it runs, and how long it is."""

    start_x_mm: float
    start_y_mm: float
    bearing_deg: float
    width_mm: float


def walls_in(plan: Sequence[Sequence[float]]) -> list[Wall]:
    """A wall for each side, clockwise seen from above: the room lies on the right hand of whoever follows them.

    plan  corners x, y in mm, either way round; fewer than three make no wall
    returns  starts and lengths to the mm, directions to a hundredth of a degree, anticlockwise from the plan's x
    """
    corners = [(float(x), float(y)) for x, y, *_ in plan]
    if len(corners) < 3:
        return []
    closed = [*corners, corners[0]]
    if sum(x * other_y - other_x * y for (x, y), (other_x, other_y) in pairwise(closed)) > 0:
        closed.reverse()
    return [
        Wall(x, y, round(math.degrees(math.atan2(to_y - y, to_x - x)), 2), round(math.hypot(to_x - x, to_y - y)))
        for (x, y), (to_x, to_y) in pairwise(closed)
        if (x, y) != (to_x, to_y)
    ]


def walls_lacking(site: Site, room: Item) -> list[tuple[str, Wall]]:
    """The walls of a room's plan where no face starts yet, each with a mark: R1-A, R1-B, as one walks round."""
    faces = site.of(room, "face")
    starts = [(one.start_x_mm, one.start_y_mm) for one in faces if None not in (one.start_x_mm, one.start_y_mm)]
    taken = {one.mark for one in faces}
    found = []
    for number, wall in enumerate(walls_in(room.plan or [])):
        if any(math.dist(wall[:2], start) <= SAME_START_MM for start in starts):
            continue
        letter = ascii_uppercase[number] if number < len(ascii_uppercase) else str(number + 1)
        mark = f"{room.mark}-{letter}" if room.mark else letter
        found.append(("" if mark in taken else mark, wall))
    return found
