"""A pinhole camera in the axes of a face: x along it, y out of it towards the room, z up, all in mm.

These axes are left-handed, because x runs to the right of someone who faces the surface. Pixel
coordinates are continuous: the first pixel covers 0 to 1, and y runs down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float, float]
WIDTH_PX, HEIGHT_PX = 1600, 1200
NEAREST_MM = 60.0


def _cross(a: Point, b: Point) -> Point:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def dot(a: Point, b: Point) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def unit(a: Point) -> Point:
    """The same direction, one long."""
    length = math.sqrt(dot(a, a))
    return (a[0] / length, a[1] / length, a[2] / length)


@dataclass(frozen=True)
class Camera:
    """Where a photograph is taken from.

    at, to    the lens and the point it is aimed at, mm in the face's axes
    focal_px  focal length in pixels; 1250 is about a telephone's main lens
    roll_deg  how far the hand leans it over, clockwise
    """

    at: Point
    to: Point
    focal_px: float = 1250.0
    roll_deg: float = 0.0

    @cached_property
    def axes(self) -> tuple[Point, Point, Point]:
        """Unit vectors to the right of the picture, down it, and into it."""
        into = unit((self.to[0] - self.at[0], self.to[1] - self.at[1], self.to[2] - self.at[2]))
        right = unit(_cross((0.0, 0.0, 1.0), into))
        down = _cross(right, into)
        cos, sin = math.cos(math.radians(self.roll_deg)), math.sin(math.radians(self.roll_deg))
        leaning = tuple(cos * r + sin * d for r, d in zip(right, down, strict=True))
        return leaning, _cross(leaning, into), into  # type: ignore[return-value]

    @cached_property
    def matrix(self) -> tuple[tuple[float, float, float, float], ...]:
        """The 3 × 4 matrix that takes (x, y, z, 1) to pixels times depth."""
        right, down, into = self.axes
        rows = []
        for axis, centre in ((right, WIDTH_PX / 2), (down, HEIGHT_PX / 2)):
            turned = tuple(self.focal_px * a + centre * i for a, i in zip(axis, into, strict=True))
            rows.append((*turned, -dot(turned, self.at)))
        rows.append((*into, -dot(into, self.at)))
        return tuple(rows)

    def seen(self, point: Point) -> tuple[float, float, float]:
        """Pixel x, pixel y and depth in mm of a point in front of the camera."""
        x, y, depth = (dot(row[:3], point) + row[3] for row in self.matrix)
        return x / depth, y / depth, depth

    def depth(self, point: Point) -> float:
        """How far in front of the camera a point lies, mm; negative behind it."""
        row = self.matrix[2]
        return dot(row[:3], point) + row[3]
