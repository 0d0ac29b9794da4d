"""How proud a face stands at a place between the places where it was measured.

Between three neighbouring readings the face is taken for flat. It does not cover high spots between
readings, nor places away from them: those are refused. static/checks/triangles.js does the same sums in the same order,
so that desk and phone call for the same packers.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..errors import Missing, OutOfRange
from .limits import finite

SOURCE = "Linear interpolation in the triangles of Delaunay between the readings"
# How far beside the readings the nearest of what was measured still stands for a place: common practice, no source.
REACH_MM = 150.0

# Four readings on one circle have two triangulations: squares are leant on so little that one of them is nearer.
LEAN = 1e-5
FLAT_MM2, LEVEL_MM2 = 1e-6, 1e-6  # no more than arithmetic noise
MOST_TURNS = 4

Reading = tuple[float, float, float]
Place = tuple[float, float]
Shares = tuple[float, float, float]


@dataclass(frozen=True)
class _Surface:
    """What was measured: proud by place, and the corners round all places; two of them, or one, on a line."""

    proud: dict[Place, float]
    corners: list[Place]


def proud_mm(readings_mm: Sequence[Sequence[float]], x_mm: float, z_mm: float) -> float:
    """How far the face stands out of its reference plane at a place.

    readings_mm  (x, z, proud) of each reading, mm; readings of the same place are averaged
    x_mm, z_mm   the place, mm
    returns      mm; behind the plane is negative

    Source: SOURCE; where all readings lie on one line, between the two on either side.
    Raises Missing without readings, OutOfRange for a place more than 150 mm beside what was measured; NotANumber.

    >>> proud_mm([(0, 0, 4), (600, 0, 1), (0, 900, 7)], 300, 0)
    2.5
    """
    if not readings_mm:
        raise Missing(
            "The surface of the face was not measured.", "Enter surface readings of the face.", field="surface"
        )
    place = (finite("x_mm", x_mm, "mm"), finite("z_mm", z_mm, "mm"))
    surface = _surface(tuple(tuple(finite("readings_mm", number, "mm") for number in row) for row in readings_mm))
    if place in surface.proud:
        return surface.proud[place]
    nearest = _nearest(surface.corners, place)
    off = math.sqrt(_squared(nearest, place))
    if off > REACH_MM:
        raise OutOfRange(
            f"The surface at x {x_mm:g}, z {z_mm:g} mm lies {off:.0f} mm beside what was measured.",
            "Measure it there, and enter it among the surface readings of the face.",
            field="surface",
            value=off,
        )
    if len(surface.corners) < 3:
        return _on_the_line(surface, nearest)
    (one, other, third), (first, second, last) = _triangle_at(surface, nearest)
    return first * surface.proud[one] + second * surface.proud[other] + last * surface.proud[third]


def worst_proud_mm(
    readings_mm: Sequence[Sequence[float]], x_mm: Sequence[float], z_mm: Sequence[float]
) -> float | None:
    """How far a part of the face stands out at worst: the proudest reading on it, or beside it on either hand.

    readings_mm  (x, z, proud) of each reading, mm
    x_mm, z_mm   from where to where the part reaches, mm
    returns      mm; behind the plane is negative. None where the part reaches more than 150 mm beyond the readings

    Between two readings the wall may stand as proud as the prouder of them, and is taken to.
    Source: the greatest of a set; how far a reading stands for what lies beside it: common practice, no source.
    Raises nothing for finite figures.

    >>> worst_proud_mm([(0, 0, 4), (600, 0, 1), (1200, 0, 7)], (100, 500), (0, 0))
    4
    """
    if not readings_mm:
        return None
    spans = []
    for axis, (low, high) in ((0, x_mm), (1, z_mm)):
        places = [reading[axis] for reading in readings_mm]
        if low < min(places) - REACH_MM or high > max(places) + REACH_MM:
            return None
        before = max((place for place in places if place <= low), default=min(places))
        after = min((place for place in places if place >= high), default=max(places))
        spans.append((before, after))
    if not _measured(_surface(tuple((float(x), float(z), 0.0) for x, z, _ in readings_mm)).corners, x_mm, z_mm):
        return None
    (left, right), (bottom, top) = spans
    near = [proud for x, z, proud in readings_mm if left <= x <= right and bottom <= z <= top]
    return max(near or [proud for _, _, proud in readings_mm])


def _measured(corners: list[Place], x_mm: Sequence[float], z_mm: Sequence[float]) -> bool:
    """Whether no corner of a part lies farther beside the readings than they stand for."""
    for corner in ((x, z) for x in x_mm for z in z_mm):
        near = _nearest(corners, corner)
        if max(abs(near[0] - corner[0]), abs(near[1] - corner[1])) > REACH_MM:
            return False
    return True


@lru_cache(maxsize=64)
def _surface(readings: tuple[Reading, ...]) -> _Surface:
    prouds: dict[Place, list[float]] = defaultdict(list)
    for x, z, proud in readings:
        prouds[x, z].append(proud)
    averaged = {place: _total(those) / len(those) for place, those in prouds.items()}
    return _Surface(averaged, _hull(sorted(averaged)))


def _total(numbers: Sequence[float]) -> float:
    """Their sum as every language has it; `sum` mends the last digit."""
    total = 0.0
    for number in numbers:
        total += number
    return total


def _hull(places: list[Place]) -> list[Place]:
    """The corners round all places, by Andrew's monotone chain; the two ends where all lie on one line."""
    if len(places) < 2:
        return places
    sides: list[list[Place]] = []
    for those in (places, places[::-1]):
        side: list[Place] = []
        for place in those:
            while len(side) > 1 and _twice_area(side[-2], side[-1], place) <= FLAT_MM2:
                side.pop()
            side.append(place)
        sides.append(side[:-1])
    return [*sides[0], *sides[1]]


def _twice_area(one: Place, other: Place, third: Place) -> float:
    return (other[0] - one[0]) * (third[1] - one[1]) - (third[0] - one[0]) * (other[1] - one[1])


def _nearest(corners: list[Place], place: Place) -> Place:
    """The place itself where it lies inside, else the nearest on the way round."""
    pairs = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    if len(corners) > 2 and all(_twice_area(one, other, place) >= 0 for one, other in pairs):
        return place
    nearest, least = corners[0], math.inf
    for (x, z), (end_x, end_z) in pairs:
        along_x, along_z = end_x - x, end_z - z
        length = along_x * along_x + along_z * along_z
        share = ((place[0] - x) * along_x + (place[1] - z) * along_z) / length if length else 0.0
        share = min(max(share, 0.0), 1.0)
        on = (x + share * along_x, z + share * along_z)
        far = _squared(place, on)
        if far < least:
            nearest, least = on, far
    return nearest


def _triangle_at(surface: _Surface, place: Place) -> tuple[list[Place], Shares]:
    """The triangle of Delaunay that holds a place, and how much of each corner is in it.

    A triangle is one of Delaunay where no reading lies below the plane of its corners, each raised by the square of
    its distance. It begins with one between corners of the hull, and takes in what lies farthest below its plane.
    """
    lifted = {one: _height(one, place) for one in surface.proud}
    first, *rest = surface.corners
    triangle, shares = _holding(([first, one, other] for one, other in zip(rest, rest[1:], strict=False)), place)
    for _ in range(len(lifted) * MOST_TURNS):
        lowest, most = None, -LEVEL_MM2
        for one, height in lifted.items():
            a, b, c = _shares(triangle, one)
            below = height - (a * lifted[triangle[0]] + b * lifted[triangle[1]] + c * lifted[triangle[2]])
            if below < most:
                lowest, most = one, below
        if lowest is None:
            break
        one, other, third = triangle
        triangle, shares = _holding(([lowest, other, third], [one, lowest, third], [one, other, lowest]), place)
    return triangle, shares


def _height(one: Place, place: Place) -> float:
    x, z = one[0] - place[0], one[1] - place[1]
    return x * x + z * z + LEAN * x * z


def _holding(triangles: Iterable[list[Place]], place: Place) -> tuple[list[Place], Shares]:
    """The triangle a place lies deepest in, the first of those alike."""
    found, deepest, least = [], (0.0, 0.0, 0.0), -math.inf
    for triangle in triangles:
        if abs(_twice_area(triangle[0], triangle[1], triangle[2])) > FLAT_MM2:
            shares = _shares(triangle, place)
            if min(shares) > least:
                found, deepest, least = triangle, shares, min(shares)
    return found, deepest


def _shares(triangle: list[Place], place: Place) -> Shares:
    one, other, third = triangle
    area = _twice_area(one, other, third)
    first, second = _twice_area(place, other, third) / area, _twice_area(one, place, third) / area
    return first, second, 1 - first - second


def _on_the_line(surface: _Surface, place: Place) -> float:
    """Between readings on one line, or at the one there is."""
    along = sorted((_squared(surface.corners[0], at), proud) for at, proud in surface.proud.items())
    wanted = math.sqrt(_squared(surface.corners[0], place))
    for (before, low), (after, high) in zip(along, along[1:], strict=False):
        start, end = math.sqrt(before), math.sqrt(after)
        if start <= wanted <= end and end > start:
            return low + (high - low) * (wanted - start) / (end - start)
    return along[-1][1]


def _squared(one: Place, other: Place) -> float:
    x, z = other[0] - one[0], other[1] - one[1]
    return x * x + z * z
