"""The homography from a plane to its picture: found from pairs of points, and how what it shows moves.

Points on either side are taken in a frame of their own, in which they lie about nothing and measure about one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from .linear import least_squares

ROUNDS, SETTLED = 25, 1e-10
Point = tuple[float, float]


@dataclass(frozen=True)
class Frame:
    """Points moved to their middle and scaled to a mean distance of √2 from it, which keeps the sums well apart."""

    across: float
    up: float
    scale: float

    def of(self, point: Point) -> Point:
        return (point[0] - self.across) * self.scale, (point[1] - self.up) * self.scale

    def back(self, point: Point) -> Point:
        return point[0] / self.scale + self.across, point[1] / self.scale + self.up


def frame_of(points: Sequence[Point]) -> Frame:
    """The frame of some points.

    points   two that differ, or more, all in the same unit

    Source: Hartley and Zisserman, Multiple View Geometry (2nd ed. 2004), section 4.4.4, isotropic scaling.
    Raises nothing for points that differ.

    >>> frame_of([(0, 0), (2, 0)])
    Frame(across=1.0, up=0.0, scale=1.4142135623730951)
    """
    across, up = (sum(point[k] for point in points) / len(points) for k in (0, 1))
    mean = sum(math.hypot(x - across, y - up) for x, y in points) / len(points)
    return Frame(across, up, math.sqrt(2) / mean)


class Pair(NamedTuple):
    """A place on the plane, the point of the picture that shows it, each in its frame."""

    place: Point
    point: Point


@dataclass(frozen=True)
class Homography:
    """From the plane to the picture, by eight elements; the ninth, the depth at the frame's middle, is 1."""

    elements: tuple[float, ...]

    def depth(self, place: Point) -> float:
        """How far in front of the camera a place lies, beside the middle; nothing at the horizon."""
        return self.elements[6] * place[0] + self.elements[7] * place[1] + 1.0

    def seen(self, place: Point) -> Point:
        """The point of the picture that shows a place."""
        (a, b, c, d, e, f, *_), (x, z), depth = self.elements, place, self.depth(place)
        return (a * x + b * z + c) / depth, (d * x + e * z + f) / depth

    def place(self, point: Point) -> Point | None:
        """The place that a point of the picture shows; None for one exactly at the horizon."""
        (a, b, c, d, e, f, g, h), (u, v) = self.elements, point
        # two equations for the place: (a - u g) x + (b - u h) z = u - c, and the same of v
        p, q, r, s = a - u * g, b - u * h, d - v * g, e - v * h
        turn = p * s - q * r
        return ((s * (u - c) - q * (v - f)) / turn, (p * (v - f) - r * (u - c)) / turn) if turn else None

    def by_place(self, place: Point) -> tuple[Point, Point]:
        """How a point of the picture moves with its place."""
        (a, b, _, d, e, _, g, h), (u, v), depth = self.elements, self.seen(place), self.depth(place)
        return ((a - u * g) / depth, (b - u * h) / depth), ((d - v * g) / depth, (e - v * h) / depth)

    def by_elements(self, place: Point) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """How a point of the picture moves with the eight elements."""
        (u, v), depth = self.seen(place), self.depth(place)
        x, z, one = place[0] / depth, place[1] / depth, 1 / depth
        return (x, z, one, 0.0, 0.0, 0.0, -u * x, -u * z), (0.0, 0.0, 0.0, x, z, one, -v * x, -v * z)


class Refined(NamedTuple):
    """A homography, the covariance of its elements, and the squares by which the pairs miss it, in standard errors."""

    homography: Homography
    covariance: tuple[tuple[float, ...], ...]
    missed: float


def linear(pairs: Sequence[Pair]) -> Homography:
    """The homography by linear equations, which is near enough to start from.

    pairs    four or more, of which no three lie on a line

    Source: normalised direct linear transform, Hartley and Zisserman (2nd ed. 2004), Algorithm 4.2; its ninth element
    is never nothing, since the middle of what is seen lies before the camera.
    Raises UnsuitableShape where the pairs do not settle it.

    >>> square = [(-1, -1), (1, -1), (1, 1), (-1, 1)]
    >>> linear([Pair(place, place) for place in square]).seen((0.5, -0.5))
    (0.5, -0.5)
    """
    rows, right = [], []
    for (x, z), (u, v) in pairs:
        rows += [(x, z, 1, 0, 0, 0, -u * x, -u * z), (0, 0, 0, x, z, 1, -v * x, -v * z)]
        right += [(u,), (v,)]
    return Homography(tuple(row[0] for row in least_squares(rows, right)[0]))


def refined(start: Homography, pairs: Sequence[Pair], errors: Sequence[Point]) -> Refined:
    """The homography that the errors of the pairs make likeliest.

    start    one that is near it
    pairs    as for `linear`
    errors   of each pair: the standard errors of its point and of its place, each in its frame

    Source: least squares of the errors by Gauss and Newton, Hartley and Zisserman (2nd ed. 2004), Algorithm 4.3 and
    section 5.2.
    Raises UnsuitableShape where the pairs do not settle it.

    >>> square = [Pair(place, place) for place in [(-1, -1), (1, -1), (1, 1), (-1, 1)]]
    >>> refined(linear(square), square, [(0.1, 0.0)] * 4).missed
    0.0
    """
    now = start
    for _ in range(ROUNDS):
        rows, right = [], []
        for pair, (mark, off) in zip(pairs, errors, strict=True):
            apart = [a - b for a, b in zip(pair.point, now.seen(pair.place), strict=True)]
            columns = [*zip(*now.by_elements(pair.place), strict=True), apart]
            whole = _whitened(columns, now.by_place(pair.place), mark, off)
            rows += [row[:-1] for row in whole]
            right += [row[-1:] for row in whole]
        step, covariance = least_squares(rows, right)
        now = Homography(tuple(a + b[0] for a, b in zip(now.elements, step, strict=True)))
        if max(abs(part[0]) for part in step) < SETTLED:
            break
    return Refined(now, tuple(tuple(row) for row in covariance), sum(of[0] ** 2 for of in right))


def _whitened(
    columns: Sequence[Sequence[float]], by_place: Sequence[Sequence[float]], mark: float, off: float
) -> list[list[float]]:
    """Two equations of a pair, across and down, divided by its standard error, which the place's may turn aside."""
    (a, b), (c, d) = by_place
    across = mark**2 + off**2 * (a * a + b * b)
    both = off**2 * (a * c + b * d)
    down = mark**2 + off**2 * (c * c + d * d)
    first = math.sqrt(across)
    share = both / first
    second = math.sqrt(down - share**2)
    one = [column[0] / first for column in columns]
    return [one, [(column[1] - share * done) / second for column, done in zip(columns, one, strict=True)]]
