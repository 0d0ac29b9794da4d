"""Where letters go on a crowded drawing: never on each other nor on a line, led to when not beside.

Places are tried from near to far. A place is free when its box holds no letters, symbols, lines or leaders and
its own leader, if it needs one, crosses neither letters nor leaders; of the free ones the cheapest wins,
where distance and symbols passed over cost. Where none is free the words are listed below the drawing.
"""

from __future__ import annotations

import math
from collections import defaultdict, deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, product
from operator import itemgetter
from typing import Generic, TypeVar

from shapely import LineString, MultiLineString
from shapely import box as rectangle
from shapely.geometry.base import BaseGeometry

from . import drafting as d

Box = tuple[float, float, float, float]  # left, top, right, bottom
Segment = tuple[d.Point, d.Point]
Area = tuple[BaseGeometry, Box]  # where letters may stand inside, and the box they may stand along
Thing = TypeVar("Thing")

CELL_MM = 8.0
CLEAR_MM = 0.5  # between letters and what is next to them
SYMBOL_COST, LED_COST = 6.0, 4.0  # mm of distance each is worth
LED_FROM_AREA_COST = 8.0  # more: an area has all of its rim to letter along
DIRECTIONS = [(math.cos(angle), math.sin(angle)) for angle in (math.tau * (step + 0.5) / 32 for step in range(32))]
NEAREST_MM, STEP_MM, FARTHEST_MM = 2.5, 1.5, 30.0  # lengths of leaders tried
INSET_MM = 0.9  # between letters and the edge of what they stand in
BESIDE_COST = 1.0  # letters stand rather inside an area than along it
GRID = (0, 0.25, 0.5, 0.75, 1)  # shares of the room there is
CORNERS_FIRST = sorted(product(GRID, GRID), key=lambda share: sum(part not in (0, 1) for part in share))
MIDDLE_FIRST = (0.5, 0.4, 0.6, 0.25, 0.75, 0.1, 0.9)
LEVEL_RIM, UPRIGHT_RIM = [(x, y) for y in (0, 1) for x in MIDDLE_FIRST], [(x, y) for x in (1, 0) for y in MIDDLE_FIRST]
AREA_STEP_MM = 3.0
DESCENT_SHARE = 0.3  # of the height: what hangs below the base line
LEADING = 1.6  # from base line to base line, over the height


@dataclass(frozen=True)
class Placed:
    """Where words ended up: their box, and the leader to them, if any."""

    box: Box
    leader: Segment | None = None


Found = tuple[float, Placed | None]  # with its cost
NOWHERE: Found = (math.inf, None)


class Plan:
    """What is taken on a sheet."""

    def __init__(self, sheet: Box):
        self.sheet = sheet
        self.letters: list[Box] = []
        self.leaders: list[Segment] = []
        self._taken: _Grid[Box] = _Grid()  # symbols and letters
        self._symbols: _Grid[Box] = _Grid()
        self._letters: _Grid[Box] = _Grid()
        self._lines: _Grid[Segment] = _Grid()
        self._leaders: _Grid[Segment] = _Grid()
        self._in_the_way: deque[Box] = deque(maxlen=8)  # of what is taken, the last that were met

    def take(self, box: Box) -> None:
        """Let a symbol stand here: nothing is lettered over it, and leaders go round it where they can."""
        self._symbols.add(box, box)
        self._taken.add(box, box)

    def avoid(self, points: Iterable[d.Point], *, closed: bool = False) -> None:
        """Letter nothing over this line; leaders may cross it."""
        corners = list(points)
        for segment in zip(corners, corners[1:] + corners[:1] if closed else corners[1:], strict=False):
            self._lines.add(_box_of(segment), segment)

    def avoid_area(self, shape: BaseGeometry) -> None:
        """Letter nothing over this area."""
        left, top, right, bottom = shape.bounds
        rows = MultiLineString([((left, y), (right, y)) for y in _steps(top, bottom, AREA_STEP_MM)])
        inside = rows.intersection(shape)
        for line in getattr(inside, "geoms", [inside]):
            if isinstance(line, LineString):
                self.avoid(line.coords)

    def choice(self, size: d.Point, at: d.Point, reach: float) -> int:
        """How many places beside a point are free: whoever has least choice should choose first."""
        return sum(self._is_free(box) for box, _ in _beside(size, at, reach + CLEAR_MM))

    def runs_over_lines(self, box: Box) -> bool:
        """Whether letters in a box would run over a line."""
        return any(_runs_over(segment, box) for segment in self._lines.each(box))

    def find(self, size: d.Point, at: Sequence[d.Point], reach: float, area: Area | None = None) -> Found:
        """The best place for a box of this size and its cost: in or along an area, else beside a point, else led to.

        at     the point, or of an area those it can be led to from, the best first
        reach  from the point to the edge of its symbol
        """
        beside = list(_in_or_along(size, *area) if area else _beside(size, at[0], reach + CLEAR_MM))
        found = [(cost, Placed(box)) for box, cost in beside if self._is_free(box)]
        best = min(found, key=itemgetter(0), default=NOWHERE)
        extra = LED_FROM_AREA_COST if area else 0.0
        for start in at:
            if best[0] > LED_COST + extra + reach:
                led, placed = self._led(size, start, reach, best[0] - extra)
                best = min(best, (led + extra, placed), key=itemgetter(0))
        return best

    def settle(self, placed: Placed) -> None:
        """Take a place that was found."""
        self.letters.append(placed.box)
        self._letters.add(placed.box, placed.box)
        self._taken.add(placed.box, placed.box)
        if placed.leader:
            self.leaders.append(placed.leader)
            self._leaders.add(_box_of(placed.leader), placed.leader)

    def _led(self, size: d.Point, at: d.Point, reach: float, most: float) -> Found:
        """The cheapest place with a leader that costs less than `most`."""
        best: Found = (most, None)
        distance = reach + NEAREST_MM
        while distance < FARTHEST_MM and LED_COST + distance < best[0]:
            for direction in DIRECTIONS:
                led = self._led_to(size, at, reach, distance, direction)
                if led[0] < best[0]:
                    best = led
                if best[0] <= LED_COST + distance:  # nothing as far or farther costs less
                    return best
            distance += STEP_MM
        return best

    def _led_to(
        self, size: d.Point, at: d.Point, reach: float, distance: float, direction: d.Point
    ) -> tuple[float, Placed | None]:
        across, down = direction
        tip = (at[0] + across * distance, at[1] + down * distance)
        left = tip[0] + CLEAR_MM if across >= 0 else tip[0] - size[0] - CLEAR_MM
        box = (left, tip[1] - size[1] / 2, left + size[0], tip[1] + size[1] / 2)
        if not self._is_free(box):
            return NOWHERE
        leader = ((at[0] + across * reach, at[1] + down * reach), tip)
        along = _box_of(leader)
        if any(_runs_over(leader, other) for other in self._letters.each(along)):
            return NOWHERE
        if any(_cross(leader, other) for other in self._leaders.each(along)):
            return NOWHERE
        passed = sum(_runs_over(leader, other) for other in self._symbols.near(along) if not _holds(other, at))
        cost = LED_COST + distance + passed * SYMBOL_COST
        return cost, Placed(box, leader)

    def _is_free(self, box: Box) -> bool:
        left, top, right, bottom = box
        on_left, on_top, on_right, on_bottom = self.sheet
        if left < on_left or top < on_top or right > on_right or bottom > on_bottom:
            return False
        # Places are tried one next to the other, and what was in the way of one is often in the way of the next.
        for other in chain(self._in_the_way, self._taken.each(box)):
            if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                if other not in self._in_the_way:
                    self._in_the_way.appendleft(other)
                return False
        return not self.runs_over_lines(box) and not any(_runs_over(leader, box) for leader in self._leaders.each(box))


class _Grid(Generic[Thing]):
    """Things by where they are, so that only neighbours are looked at."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], dict[Thing, None]] = defaultdict(dict)

    def add(self, box: Box, thing: Thing) -> None:
        for cell in _cells(box):
            self._cells[cell][thing] = None

    def each(self, box: Box) -> Iterator[Thing]:
        """Each thing whose cells a box touches; one that lies in several of them more than once."""
        for cell in _cells(box):
            if things := self._cells.get(cell):
                yield from things

    def near(self, box: Box) -> Iterable[Thing]:
        """Each thing whose cells a box touches, once."""
        return dict.fromkeys(self.each(box))


def _in_or_along(size: d.Point, area: BaseGeometry, around: Box) -> Iterator[tuple[Box, float]]:
    """Places inside an area, near the corners first, then between them; then places along a box round it."""
    left, top, right, bottom = area.bounds
    inner = area.buffer(-INSET_MM / 2)
    for place in _grid((left + INSET_MM, top + INSET_MM, right - INSET_MM, bottom - INSET_MM), size, CORNERS_FIRST):
        if inner.covers(rectangle(*place)):
            yield place, 0.0
    left, top, right, bottom = around
    across, down = size[0] + CLEAR_MM, size[1] + CLEAR_MM
    rim = LEVEL_RIM + UPRIGHT_RIM if right - left > bottom - top else UPRIGHT_RIM + LEVEL_RIM  # the long sides first
    for rank, place in enumerate(_grid((left - across, top - down, right + across, bottom + down), size, rim)):
        yield place, BESIDE_COST + 0.1 * rank


def _grid(area: Box, size: d.Point, shares: Iterable[tuple[float, float]]) -> Iterator[Box]:
    """Boxes of a size spread over an area, by their shares of the room in it; none when it is too small."""
    width, height = size
    room_x, room_y = area[2] - area[0] - width, area[3] - area[1] - height
    if room_x >= 0 and room_y >= 0:
        for x, y in shares:
            left, top = area[0] + room_x * x, area[1] + room_y * y
            yield left, top, left + width, top + height


def _steps(low: float, high: float, step: float) -> list[float]:
    return [low + step * (index + 0.5) for index in range(max(1, int((high - low) / step)))]


def size_of(lines: Sequence[str], height: float = d.FIGURE, *, bold: bool = False) -> d.Point:
    """Width and height of the box that lines of words take up."""
    tall = height * (1 + LEADING * (len(lines) - 1) + 2 * DESCENT_SHARE)
    return max(d.width_of(line, height, bold=bold) for line in lines), tall


def bases_of(box: Box, height: float, lines: int) -> list[d.Point]:
    """Where the base line of each line of words in a box begins."""
    last = box[3] - height * DESCENT_SHARE
    return [(box[0], last - height * LEADING * back) for back in reversed(range(lines))]


def _beside(size: d.Point, at: d.Point, reach: float) -> Iterator[tuple[Box, float]]:
    """Right above, right, right below, the same on the left, above, below: each less liked than the one before."""
    width, height = size
    x, y = at
    near = reach * 0.7
    for rank, (left, top) in enumerate((
        (x + near, y - near - height), (x + reach, y - height / 2), (x + near, y + near),
        (x - near - width, y - near - height), (x - reach - width, y - height / 2), (x - near - width, y + near),
        (x - width / 2, y - reach - height), (x - width / 2, y + reach),
    )):  # fmt: skip
        yield (left, top, left + width, top + height), 0.1 * rank


def _cells(box: Box) -> list[tuple[int, int]]:
    left, top, right, bottom = box
    rows = range(int(top // CELL_MM), int(bottom // CELL_MM) + 1)
    return [(column, row) for column in range(int(left // CELL_MM), int(right // CELL_MM) + 1) for row in rows]


def _box_of(segment: Segment) -> Box:
    (x0, y0), (x1, y1) = segment
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _holds(box: Box, point: d.Point) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]


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
