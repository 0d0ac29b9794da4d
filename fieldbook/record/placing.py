"""Where letters go on a crowded drawing: never on each other, seldom on a line, led to when not beside.

Places are tried from near to far. A place is taken when its box is free of letters and symbols and its
leader, if it needs one, crosses no letters; of the free ones the cheapest wins, where distance, lines
run over and leaders crossed all cost.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from . import drafting as d

Box = tuple[float, float, float, float]  # left, top, right, bottom
Segment = tuple[d.Point, d.Point]

CELL_MM = 8.0
CLEAR_MM = 0.5  # between letters and what is next to them
LINE_COST, LEADER_COST, LED_COST = 3.0, 12.0, 4.0  # mm of distance each is worth
DIRECTIONS = 24
FARTHEST_MM = 60.0
DESCENT_SHARE = 0.3  # of the height: what hangs below the base line


@dataclass(frozen=True)
class Placed:
    """Where words ended up: their box, and the leader to them, if any."""

    box: Box
    leader: Segment | None = None


class Plan:
    """What is taken on a sheet, and what is better not run over."""

    def __init__(self, sheet: Box):
        self.sheet = sheet
        self.boxes: list[Box] = []
        self.leaders: list[Segment] = []
        self._boxes: dict[tuple[int, int], list[Box]] = defaultdict(list)
        self._lines: dict[tuple[int, int], list[Segment]] = defaultdict(list)

    def take(self, box: Box) -> None:
        """Let nothing be lettered here."""
        self.boxes.append(box)
        for cell in _cells(box):
            self._boxes[cell].append(box)

    def avoid(self, points: Iterable[d.Point], *, closed: bool = False) -> None:
        """Letter over this line only where there is no better place."""
        corners = list(points)
        for segment in zip(corners, corners[1:] + corners[:1] if closed else corners[1:], strict=False):
            for cell in _cells(_box_of(segment)):
                self._lines[cell].append(segment)

    def place(self, size: d.Point, at: d.Point, radius: float, inside: Iterable[Box] = ()) -> Placed | None:
        """Take the best free place for a box of this size: one of those given, else around a point; None when all is full."""
        best: tuple[float, Placed] | None = None
        for box in inside:
            if self._free(box):
                cost = self._crossed(box) * LINE_COST
                if best is None or cost < best[0]:
                    best = cost, Placed(box)
        if best is None or best[0] > 0:
            best = min(filter(None, (best, self._near(size, at, radius))), key=lambda found: found[0], default=None)
        if best is None:
            best = self._led(size, at, radius)
        if best is None:
            return None
        self.take(best[1].box)
        if best[1].leader:
            self.leaders.append(best[1].leader)
        return best[1]

    def _near(self, size: d.Point, at: d.Point, radius: float) -> tuple[float, Placed] | None:
        best = None
        for rank, box in enumerate(_beside(size, at, radius + CLEAR_MM)):
            if self._free(box):
                cost = rank * 0.1 + self._crossed(box) * LINE_COST
                if best is None or cost < best[0]:
                    best = cost, Placed(box)
        return best

    def _led(self, size: d.Point, at: d.Point, radius: float) -> tuple[float, Placed] | None:
        best: tuple[float, Placed] | None = None
        distance = radius + 3
        while distance < FARTHEST_MM and (best is None or distance < best[0]):
            for step in range(DIRECTIONS):
                found = self._led_to(size, at, radius, distance, math.tau * (step + 0.5) / DIRECTIONS)
                if found and (best is None or found[0] < best[0]):
                    best = found
            distance += 2
        return best

    def _led_to(
        self, size: d.Point, at: d.Point, radius: float, distance: float, angle: float
    ) -> tuple[float, Placed] | None:
        across, up = math.cos(angle), math.sin(angle)
        tip = (at[0] + across * distance, at[1] - up * distance)
        left = tip[0] + 0.6 if across >= 0 else tip[0] - size[0] - 0.6
        box = (left, tip[1] - size[1] / 2, left + size[0], tip[1] + size[1] / 2)
        if not self._free(box):
            return None
        leader = ((at[0] + across * radius, at[1] - up * radius), tip)
        if any(_meets(leader, other, own=at, reach=radius) for other in self._boxes_near(_box_of(leader))):
            return None
        crossed = sum(_cross(leader, other) for other in self.leaders)
        cost = LED_COST + distance + crossed * LEADER_COST + self._crossed(box) * LINE_COST
        return cost, Placed(box, leader)

    def _free(self, box: Box) -> bool:
        left, top, right, bottom = self.sheet
        if box[0] < left or box[1] < top or box[2] > right or box[3] > bottom:
            return False
        if any(_overlap(box, other) for other in self._boxes_near(box)):
            return False
        return not any(_runs_over(leader, box) for leader in self.leaders)

    def _crossed(self, box: Box) -> int:
        segments = {segment for cell in _cells(box) for segment in self._lines.get(cell, ())}
        return sum(_runs_over(segment, box) for segment in segments)

    def _boxes_near(self, box: Box) -> Iterator[Box]:
        for cell in _cells(box):
            yield from self._boxes.get(cell, ())


def size_of(words: str, height: float = d.FIGURE) -> d.Point:
    """Width and height of the box that words take up."""
    return d.width_of(words, height), height * (1 + 2 * DESCENT_SHARE)


def base_of(box: Box, height: float) -> d.Point:
    """Where the base line of words in a box begins."""
    return box[0], box[3] - height * DESCENT_SHARE


def _beside(size: d.Point, at: d.Point, reach: float) -> Iterator[Box]:
    """Right above, right, right below, above, below, and the same on the left."""
    width, height = size
    x, y = at
    near = reach * 0.7
    for left, top in (
        (x + near, y - near - height), (x + reach, y - height / 2), (x + near, y + near),
        (x - near - width, y - near - height), (x - reach - width, y - height / 2), (x - near - width, y + near),
        (x - width / 2, y - reach - height), (x - width / 2, y + reach),
    ):  # fmt: skip
        yield left, top, left + width, top + height


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    for column in range(math.floor(box[0] / CELL_MM), math.floor(box[2] / CELL_MM) + 1):
        for row in range(math.floor(box[1] / CELL_MM), math.floor(box[3] / CELL_MM) + 1):
            yield column, row


def _box_of(segment: Segment) -> Box:
    (x0, y0), (x1, y1) = segment
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _meets(leader: Segment, box: Box, own: d.Point, reach: float) -> bool:
    """Whether a leader runs over a box other than that of the symbol it starts from."""
    x, y = own
    if (
        box[0] - 1e-6 <= x <= box[2] + 1e-6
        and box[1] - 1e-6 <= y <= box[3] + 1e-6
        and box[2] - box[0] <= 2 * reach + 1e-6
    ):
        return False
    return _runs_over(leader, box)


def _runs_over(segment: Segment, box: Box) -> bool:
    """Whether a straight line enters a box: what is left of it after cutting at the four sides."""
    (x0, y0), (x1, y1) = segment
    start, end = 0.0, 1.0
    for change, room_before, room_after in ((x1 - x0, x0 - box[0], box[2] - x0), (y1 - y0, y0 - box[1], box[3] - y0)):
        if change == 0:
            if room_before <= 0 or room_after <= 0:
                return False
            continue
        cuts = sorted((-room_before / change, room_after / change))
        start, end = max(start, cuts[0]), min(end, cuts[1])
    return start < end


def _cross(one: Segment, other: Segment) -> bool:
    def side(a: d.Point, b: d.Point, c: d.Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return side(*one, other[0]) * side(*one, other[1]) < 0 and side(*other, one[0]) * side(*other, one[1]) < 0
