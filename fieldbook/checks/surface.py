"""How proud a face stands at a place between the places where it was measured.

Between three neighbouring readings the face is taken for flat. It does not cover high spots between
readings, nor places away from them: those are refused.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from shapely import MultiPoint, Point, Polygon, STRtree, delaunay_triangles
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from ..errors import Missing, OutOfRange
from .limits import finite

SOURCE = "Linear interpolation in the triangles of Delaunay between the readings"
# How far beside the readings the nearest of what was measured still stands for a place: common practice, no source.
REACH_MM = 150.0

Reading = tuple[float, float, float]


@dataclass(frozen=True)
class _Surface:
    """What was measured: proud by place, the outline of all places, and the triangles between them."""

    proud: dict[tuple[float, float], float]
    hull: BaseGeometry
    triangles: tuple[Polygon, ...]
    tree: STRtree


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
    place = Point(finite("x_mm", x_mm, "mm"), finite("z_mm", z_mm, "mm"))
    surface = _surface(tuple(tuple(finite("readings_mm", number, "mm") for number in row) for row in readings_mm))
    nearest = nearest_points(surface.hull, place)[0]
    off = nearest.distance(place)
    if off > REACH_MM:
        raise OutOfRange(
            f"The surface at x {x_mm:g}, z {z_mm:g} mm lies {off:.0f} mm beside what was measured.",
            "Measure it there, and enter it among the surface readings of the face.",
            field="surface",
            value=off,
        )
    if not surface.triangles:
        return _on_the_line(surface, nearest)
    return _in_the_triangle(surface, nearest)


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
    (left, right), (bottom, top) = spans
    near = [proud for x, z, proud in readings_mm if left <= x <= right and bottom <= z <= top]
    return max(near or [proud for _, _, proud in readings_mm])


@lru_cache(maxsize=64)
def _surface(readings: tuple[Reading, ...]) -> _Surface:
    places: dict[tuple[float, float], list[float]] = defaultdict(list)
    for x, z, proud in readings:
        places[x, z].append(proud)
    points = MultiPoint(list(places))
    triangles = tuple(delaunay_triangles(points).geoms)
    averaged = {place: sum(prouds) / len(prouds) for place, prouds in places.items()}
    return _Surface(averaged, points.convex_hull, triangles, STRtree(triangles))


def _in_the_triangle(surface: _Surface, place: Point) -> float:
    triangle = surface.triangles[surface.tree.nearest(place)]
    (x0, z0), (x1, z1), (x2, z2) = corners = list(triangle.exterior.coords)[:3]
    area = (x1 - x0) * (z2 - z0) - (x2 - x0) * (z1 - z0)
    first = ((x1 - place.x) * (z2 - place.y) - (x2 - place.x) * (z1 - place.y)) / area
    second = ((x2 - place.x) * (z0 - place.y) - (x0 - place.x) * (z2 - place.y)) / area
    shares = (first, second, 1 - first - second)
    return sum(share * surface.proud[corner] for share, corner in zip(shares, corners, strict=True))


def _on_the_line(surface: _Surface, place: Point) -> float:
    """Between readings on one line, or at the one there is."""
    if len(surface.proud) == 1:
        return next(iter(surface.proud.values()))
    along = sorted((surface.hull.project(Point(at)), proud) for at, proud in surface.proud.items())
    wanted = surface.hull.project(place)
    for (before, low), (after, high) in zip(along, along[1:], strict=False):
        if before <= wanted <= after:
            return low + (high - low) * (wanted - before) / (after - before)
    return along[-1][1]
