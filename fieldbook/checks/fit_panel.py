"""The largest true rectangle that goes into an opening which is out of square.

The panel may be turned a little to fit. Does not cover a panel that has to stand plumb, that has to be
swung or slid into place, nor sides that bow between the corners.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from ..errors import OutOfRange
from .limits import within
from .opening import Opening, Point

SOURCE = "Largest rectangle between four lines: for each turn the sizes that fit are bounded by straight lines"
GAP_HIGH_MM = 1000.0
COARSE_STEPS = 360
# Golden section, and how often it narrows the turn down: to a millionth of a degree.
GOLDEN = (math.sqrt(5) - 1) / 2
NARROWINGS = 40
# What arithmetic may be off by, mm.
NOISE_MM = 1e-6


class Panel(NamedTuple):
    """A rectangle: its size, how far it is turned anticlockwise from the face's axes, and its corners, (x, z)."""

    width_mm: float
    height_mm: float
    turned_deg: float
    corners_mm: tuple[Point, ...]


class _Side(NamedTuple):
    """A side of the opening moved in by the gap: points with normal · point >= reach are inside."""

    normal: Point
    reach: float


def largest_panel(opening: Opening, gap_mm: float) -> Panel:
    """The rectangle of largest area that leaves at least a gap to every side of an opening.

    opening  as measured, mm
    gap_mm   least gap to any side, mm, 0 to 1000
    returns  the panel, mm; to be rounded down when it is cut

    Source: geometry. A rectangle of width w and height h, turned by an angle, fits between four lines if and only if
    it fits between every three of them, each of which bounds a·w + b·h; the largest w·h under these bounds lies
    where one of them is halved or two of them cross. The turn is searched from -45° to 45° and narrowed by golden
    section.
    Raises OutOfRange outside the limits and where the gap leaves nothing.

    >>> from fieldbook.checks.opening import from_corners
    >>> panel = largest_panel(from_corners([(0, 0), (600, 0), (600, 900), (0, 900)]), 3)
    >>> round(panel.width_mm, 3), round(panel.height_mm, 3)
    (594.0, 894.0)
    """
    within("gap_mm", gap_mm, 0, GAP_HIGH_MM, "mm")
    sides = _sides(opening, gap_mm)
    triples = _enclosing(sides)
    if not all(triple.sum([-side.reach for side in sides]) > 0 for triple in triples):
        raise OutOfRange(
            f"A gap of {gap_mm:g} mm all round leaves nothing of this opening.",
            "Give a smaller gap.",
            field="gap_mm",
            value=gap_mm,
        )
    turn = _best_turn(sides, lambda turn: math.prod(_size(_bounds(sides, triples, turn))))
    width, height = _size(_bounds(sides, triples, turn))
    return _placed(sides, turn, width, height)


def gaps_mm(opening: Opening, panel: Panel) -> list[tuple[float, float]]:
    """The gap a panel leaves to each side, where it is narrowest and where it is widest.

    opening  as measured, mm
    panel    as placed in it, mm
    returns  for each side in the order of the corners (bottom, right, top, left): least and most, mm

    Source: arithmetic.

    >>> from fieldbook.checks.opening import from_corners
    >>> opening = from_corners([(0, 0), (600, 0), (600, 900), (0, 900)])
    >>> [round(gap, 3) for gap in gaps_mm(opening, largest_panel(opening, 3))[0]]
    [3.0, 3.0]
    """
    return [
        (least, next_one)
        for least, next_one, *_ in (
            sorted(_dot(side.normal, corner) - side.reach for corner in panel.corners_mm)
            for side in _sides(opening, 0.0)
        )
    ]


def _dot(left: Point, right: Point) -> float:
    return left[0] * right[0] + left[1] * right[1]


def _cross(left: Point, right: Point) -> float:
    return left[0] * right[1] - left[1] * right[0]


def _sides(opening: Opening, gap_mm: float) -> list[_Side]:
    sides = []
    corners = opening.corners_mm
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        length = math.dist(start, end)
        normal = ((start[1] - end[1]) / length, (end[0] - start[0]) / length)
        sides.append(_Side(normal, _dot(normal, start) + gap_mm))
    return sides


class _Triple(NamedTuple):
    """Three sides that close in on a point, and how often to take each normal so that they add up to nothing."""

    sides: tuple[int, int, int]
    times: tuple[float, float, float]

    def sum(self, values: Sequence[float]) -> float:
        return math.fsum(times * values[side] for side, times in zip(self.sides, self.times, strict=True))


def _enclosing(sides: Sequence[_Side]) -> list[_Triple]:
    triples = []
    for first, second, third in itertools.combinations(range(len(sides)), 3):
        one, two, three = sides[first].normal, sides[second].normal, sides[third].normal
        times = (_cross(two, three), _cross(three, one), _cross(one, two))
        if min(times) >= 0:
            triples.append(_Triple((first, second, third), times))
    return triples


def _bounds(sides: Sequence[_Side], triples: Sequence[_Triple], turn: float) -> list[tuple[float, float, float]]:
    """What each triple asks of a rectangle turned so: a, b and c of a·width + b·height <= c."""
    along, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    across = [abs(_dot(side.normal, along)) / 2 for side in sides]
    upright = [abs(_dot(side.normal, up)) / 2 for side in sides]
    reach = [-side.reach for side in sides]
    return [(triple.sum(across), triple.sum(upright), triple.sum(reach)) for triple in triples]


def _size(bounds: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """Width and height of the largest area under the bounds."""
    sizes = [(c / (2 * a), c / (2 * b)) for a, b, c in bounds if a > 0 and b > 0]
    for (a1, b1, c1), (a2, b2, c2) in itertools.combinations(bounds, 2):
        crossing = a1 * b2 - a2 * b1
        if crossing:
            sizes.append(((c1 * b2 - c2 * b1) / crossing, (a1 * c2 - a2 * c1) / crossing))
    fitting = [
        (width, height)
        for width, height in sizes
        if width > 0 and height > 0 and all(a * width + b * height <= c + NOISE_MM * (a + b) for a, b, c in bounds)
    ]
    return max(fitting, key=math.prod, default=(0.0, 0.0))


def _best_turn(sides: Sequence[_Side], area: Callable[[float], float]) -> float:
    """The turn of the largest area, in radians from -45° to 45°."""
    step = math.pi / 2 / COARSE_STEPS
    turns = [step * (at - COARSE_STEPS / 2) for at in range(COARSE_STEPS + 1)]
    # The area has its edges where the rectangle lies along a side; there the largest one often is.
    turns += [math.remainder(math.atan2(side.normal[1], side.normal[0]), math.pi / 2) for side in sides]
    peaks = sorted(turns, key=area, reverse=True)[:4]
    return max([*peaks, *(_narrowed(area, peak - step, peak + step) for peak in peaks)], key=area)


def _narrowed(area: Callable[[float], float], low: float, high: float) -> float:
    for _ in range(NARROWINGS):
        left, right = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        if area(left) < area(right):
            low = left
        else:
            high = right
    return (low + high) / 2


def _placed(sides: Sequence[_Side], turn: float, width: float, height: float) -> Panel:
    """The rectangle in the middle of where it can be moved to."""
    along, up = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    reaches = [
        side.reach + (abs(_dot(side.normal, along)) * width + abs(_dot(side.normal, up)) * height) / 2 for side in sides
    ]
    centres = []
    for one, two in itertools.combinations(range(len(sides)), 2):
        crossing = _cross(sides[one].normal, sides[two].normal)
        if abs(crossing) > 1e-9:
            (a1, b1), (a2, b2) = sides[one].normal, sides[two].normal
            x = (reaches[one] * b2 - reaches[two] * b1) / crossing
            z = (a1 * reaches[two] - a2 * reaches[one]) / crossing
            if all(
                _dot(side.normal, (x, z)) >= reach - 10 * NOISE_MM for side, reach in zip(sides, reaches, strict=True)
            ):
                centres.append((x, z))
    middle = [math.fsum(part) / len(centres) for part in zip(*centres, strict=True)]
    corners = tuple(
        (
            middle[0] + right * width / 2 * along[0] + above * height / 2 * up[0],
            middle[1] + right * width / 2 * along[1] + above * height / 2 * up[1],
        )
        for right, above in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    return Panel(width, height, math.degrees(turn), corners)
