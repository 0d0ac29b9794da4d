"""A photograph that measures: from marks whose places on a flat face are known to any other place on it.

What the camera makes of a plane is a homography. It holds for the face alone: whatever stands out of it, or lies
behind it, is seen in the wrong place. A lens that bends straight lines is not allowed for.

Pixels are those of the picture as it is looked at (turned upright), from its upper left corner, x to the right and
y down; the first pixel covers 0 to 1.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from ..errors import OutOfRange, UnsuitableShape
from .limits import within
from .linear import least_squares
from .plane_marks import PlaneMark, refuse_unsuitable

SOURCE = (
    "Homography by normalised direct linear transform, then least squares of the marks’ errors: Hartley and "
    "Zisserman, Multiple View Geometry (2nd ed. 2004), Algorithm 4.3; errors by propagation, section 5.2"
)
MARK_PX = (0.1, 100.0)
# How often the errors may exceed what was stated for the marks before these are taken to contradict each other.
MOST_TIMES = 8.0
ROUNDS, SETTLED = 25, 1e-10
# What the radius is widened by, since errors of larger marks are not quite in proportion; held in the tests.
WIDER = 1.02
# A place is refused where the picture comes this near to the face's horizon: depth as a share of that of the marks.
LEAST_DEPTH = 0.05
_ONE_IN_A_THOUSAND = 3.0902  # of a normal distribution, one-sided


class Spot(NamedTuple):
    """A place on the face, mm, and how far it may be off: within this in 95 cases of 100, mm."""

    x_mm: float
    z_mm: float
    within_mm: float


@dataclass(frozen=True)
class _Frame:
    """Points moved to their middle and scaled to a mean distance of √2 from it, which keeps the sums well apart."""

    across: float
    up: float
    scale: float

    def of(self, point: tuple[float, float]) -> tuple[float, float]:
        return (point[0] - self.across) * self.scale, (point[1] - self.up) * self.scale

    def back(self, point: tuple[float, float]) -> tuple[float, float]:
        return point[0] / self.scale + self.across, point[1] / self.scale + self.up


@dataclass(frozen=True)
class Plane:
    """A face as a photograph shows it.

    pairs         the marks it was found from
    mark_px       standard error of a mark in the picture, px, in either direction
    times         by how much the marks' errors exceed what was stated for them; 1 where they do not
    """

    pairs: tuple[PlaneMark, ...]
    mark_px: float
    times: float
    _face: _Frame
    _picture: _Frame
    _h: tuple[float, ...]
    _covariance: tuple[tuple[float, ...], ...]

    @property
    def checked(self) -> bool:
        """Whether there are more marks than the four that always fit, so that a mistake in one would show."""
        return len(self.pairs) > 4

    @cached_property
    def residuals_mm(self) -> tuple[tuple[float, float], ...]:
        """At each mark: where the photograph has it, less where it is known to be, along x and z."""
        found = (self._place(pair[:2]) for pair in self.pairs)
        return tuple((x - pair.x_mm, z - pair.z_mm) for (x, z), pair in zip(found, self.pairs, strict=True))

    @cached_property
    def matrix(self) -> tuple[tuple[float, float, float], ...]:
        """The homography from (x, z, 1) in mm to pixels times depth; depth is 1 in the middle of the marks."""
        h, face, picture = self._h, self._face, self._picture
        rows = [h[0:3], h[3:6], (h[6], h[7], 1.0)]
        by_mm = [(a * face.scale, b * face.scale, c - face.scale * (a * face.across + b * face.up)) for a, b, c in rows]
        return (
            tuple(by_mm[0][k] / picture.scale + picture.across * by_mm[2][k] for k in range(3)),
            tuple(by_mm[1][k] / picture.scale + picture.up * by_mm[2][k] for k in range(3)),
            by_mm[2],
        )  # type: ignore[return-value]

    def seen(self, x_mm: float, z_mm: float) -> tuple[float, float] | None:
        """Where the photograph shows a place of the face, px; None for one behind the camera or at the horizon."""
        place = self._face.of((x_mm, z_mm))
        if _depth(self._h, place) < LEAST_DEPTH:
            return None
        return self._picture.back(_seen(self._h, place))

    def place(self, across_px: float, down_px: float) -> Spot:
        """The place of the face that a point of the photograph shows, marked as well as the marks were.

        Raises OutOfRange at the horizon and beyond it.
        """
        x, z = self._place((across_px, down_px))
        spread = self._spread((x, z))
        return Spot(x, z, WIDER * radius_95_mm(*spread))

    def _place(self, point: tuple[float, float]) -> tuple[float, float]:
        u, v = self._picture.of(point)
        (a, b, c), (d, e, f), (g, h) = self._h[0:3], self._h[3:6], self._h[6:8]
        # two equations for the place: (a - u g) x + (b - u h) z = u - c, and the same of v
        p, q, r, s = a - u * g, b - u * h, d - v * g, e - v * h
        turn = p * s - q * r
        place = None
        if turn:
            place = (s * (u - c) - q * (v - f)) / turn, (p * (v - f) - r * (u - c)) / turn
        if place is None or not _depth(self._h, place) >= LEAST_DEPTH:
            raise OutOfRange(
                "The photograph shows no place of this face there: it lies at the face’s horizon or beyond it.",
                "Choose a point on the face, nearer to the marks.",
                field="place",
                value=list(point),
            )
        return self._face.back(place)

    def _spread(self, place_mm: tuple[float, float]) -> tuple[float, float, float]:
        """Covariance of a place on the face, mm²: of x, of both, of z."""
        place = self._face.of(place_mm)
        across, down = _by_place(self._h, place)
        by_h = _by_h(self._h, place)
        mark = (self.mark_px * self._picture.scale) ** 2
        seen = [[_through(by_h[i], self._covariance, by_h[j]) + mark * (i == j) for j in range(2)] for i in range(2)]
        turn = across[0] * down[1] - across[1] * down[0]
        back = ((down[1] / turn, -across[1] / turn), (-down[0] / turn, across[0] / turn))
        mm2 = (self.times / self._face.scale) ** 2
        return tuple(mm2 * _through(back[i], seen, back[j]) for i, j in ((0, 0), (0, 1), (1, 1)))  # type: ignore[return-value]


def plane_of(pairs: Iterable[Sequence[float]], mark_px: float = 1.0) -> Plane:
    """The face as a photograph shows it, found from four marks or more.

    pairs    of each mark: across and down the picture, px; x and z on the face, mm; and, where it is not nothing,
             the standard error of the face's figures, mm
    mark_px  standard error of a mark in the picture, px, 0.1 to 100
    returns  the plane, with what is left at each mark and how far any other place may be off

    Source: SOURCE. Where the marks miss by more than they plainly should (one case in a thousand), stated errors grow
    by the same ratio; beyond eight times they are refused: common practice, no source.
    Raises OutOfRange, NotANumber, Missing for fewer than four, UnsuitableShape for marks that fix no plane.

    >>> plane = plane_of([(0, 9, 0, 0), (9, 9, 90, 0), (9, 0, 90, 90), (0, 0, 0, 90)])
    >>> [round(figure, 6) for figure in plane.place(4.5, 3)[:2]]
    [45.0, 60.0]
    """
    within("mark_px", mark_px, *MARK_PX, "px")
    marks = tuple(PlaneMark(*pair) for pair in pairs)
    refuse_unsuitable(marks, mark_px)
    face, picture = _frame([mark[2:4] for mark in marks]), _frame([mark[:2] for mark in marks])
    known = [(face.of(mark[2:4]), picture.of(mark[:2])) for mark in marks]
    h = _linear(known)
    if min(_depth(h, place) for place, _ in known) <= 0:
        raise UnsuitableShape(
            "No camera shows the marks like this: some would lie behind it.",
            "Look whether two marks were given each other’s places.",
            field="marks",
        )
    errors = [(mark_px * picture.scale, mark.off_mm * face.scale) for mark in marks]
    h, covariance, missed = _refined(h, known, errors)
    times = _times(missed, 2 * len(marks) - 8)
    plane = Plane(marks, mark_px, times, face, picture, h, covariance)
    if times > MOST_TIMES:
        raise _contradiction(plane)
    return plane


def radius_95_mm(xx: float, xz: float, zz: float) -> float:
    """Radius of the circle that holds 95 of 100 cases of an error in two directions.

    xx, xz, zz  its covariance, mm²
    returns     mm; 1.96 times the standard error where it goes one way alone, 2.45 times where it goes all ways alike

    Source: Leenhouts, On the Computation of Bi-Normal Radial Error, Navigation 32 (1985), from memory; held against
    random numbers in the tests.
    Raises nothing for a covariance.

    >>> round(radius_95_mm(1.0, 0.0, 1.0), 2)
    2.45
    """
    middle, apart = (xx + zz) / 2, math.hypot((xx - zz) / 2, xz)
    longer, shorter = math.sqrt(middle + apart), math.sqrt(max(0.0, middle - apart))
    c = shorter / longer if longer else 0.0
    return longer * (1.960790 + 0.004071 * c + 0.114276 * c**2 + 0.371625 * c**3)


def _frame(points: Sequence[tuple[float, float]]) -> _Frame:
    across, up = (sum(point[k] for point in points) / len(points) for k in (0, 1))
    mean = sum(math.hypot(x - across, y - up) for x, y in points) / len(points)
    return _Frame(across, up, math.sqrt(2) / mean)


Known = Sequence[tuple[tuple[float, float], tuple[float, float]]]


def _linear(known: Known) -> tuple[float, ...]:
    """The homography by linear equations. Its last element, the depth in the middle of the marks, is never nothing."""
    rows, right = [], []
    for (x, z), (u, v) in known:
        rows += [(x, z, 1, 0, 0, 0, -u * x, -u * z), (0, 0, 0, x, z, 1, -v * x, -v * z)]
        right += [(u,), (v,)]
    return tuple(row[0] for row in least_squares(rows, right)[0])


def _refined(
    h: tuple[float, ...], known: Known, errors: Sequence[tuple[float, float]]
) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...], float]:
    """The homography the marks’ errors make likeliest, its covariance, and by what the marks miss it, squared."""
    for _ in range(ROUNDS):
        rows, right = [], []
        for (place, point), (mark, off) in zip(known, errors, strict=True):
            apart = [a - b for a, b in zip(point, _seen(h, place), strict=True)]
            whole = _whitened([*zip(*_by_h(h, place), strict=True), apart], _by_place(h, place), mark, off)
            rows += [row[:-1] for row in whole]
            right += [row[-1:] for row in whole]
        step, covariance = least_squares(rows, right)
        h = tuple(a + b[0] for a, b in zip(h, step, strict=True))
        if max(abs(part[0]) for part in step) < SETTLED:
            break
    missed = sum(of[0] ** 2 for of in right)
    return h, tuple(tuple(row) for row in covariance), missed


def _whitened(
    columns: Sequence[Sequence[float]], by_place: Sequence[Sequence[float]], mark: float, off: float
) -> list[list[float]]:
    """Two equations of a mark, across and down, divided by its standard error, which the face's own may turn aside."""
    (a, b), (c, d) = by_place
    across = mark**2 + off**2 * (a * a + b * b)
    both = off**2 * (a * c + b * d)
    down = mark**2 + off**2 * (c * c + d * d)
    first = math.sqrt(across)
    share = both / first
    second = math.sqrt(down - share**2)
    one = [column[0] / first for column in columns]
    return [one, [(column[1] - share * done) / second for column, done in zip(columns, one, strict=True)]]


def _depth(h: Sequence[float], place: tuple[float, float]) -> float:
    return h[6] * place[0] + h[7] * place[1] + 1.0


def _seen(h: Sequence[float], place: tuple[float, float]) -> tuple[float, float]:
    x, z = place
    depth = _depth(h, place)
    return (h[0] * x + h[1] * z + h[2]) / depth, (h[3] * x + h[4] * z + h[5]) / depth


def _by_place(h: Sequence[float], place: tuple[float, float]) -> tuple[tuple[float, float], tuple[float, float]]:
    """How a point of the picture moves with its place on the face."""
    (u, v), depth = _seen(h, place), _depth(h, place)
    return (
        ((h[0] - u * h[6]) / depth, (h[1] - u * h[7]) / depth),
        ((h[3] - v * h[6]) / depth, (h[4] - v * h[7]) / depth),
    )


def _by_h(h: Sequence[float], place: tuple[float, float]) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """How a point of the picture moves with the eight elements of the homography."""
    (u, v), depth = _seen(h, place), _depth(h, place)
    x, z = place[0] / depth, place[1] / depth
    one = 1 / depth
    return (x, z, one, 0.0, 0.0, 0.0, -u * x, -u * z), (0.0, 0.0, 0.0, x, z, one, -v * x, -v * z)


def _through(left: Sequence[float], matrix: Sequence[Sequence[float]], right: Sequence[float]) -> float:
    return sum(
        a * sum(entry * b for entry, b in zip(row, right, strict=True)) for a, row in zip(left, matrix, strict=True)
    )


def _times(missed: float, free: int) -> float:
    """How much larger the errors are than stated, where chance would seldom make them so large."""
    if free <= 0:
        return 1.0
    part = 2 / (9 * free)  # Wilson and Hilferty's approximation of the chi-squared distribution
    seldom = (1 - part + _ONE_IN_A_THOUSAND * math.sqrt(part)) ** 3
    return math.sqrt(missed / free) if missed / free > seldom else 1.0


def _contradiction(plane: Plane) -> UnsuitableShape:
    off = [math.hypot(*residual) for residual in plane.residuals_mm]
    worst = max(range(len(off)), key=off.__getitem__)
    return UnsuitableShape(
        f"The marks contradict each other: mark {worst + 1} is {off[worst]:.0f} mm from where the others have it.",
        "Look at its place in the photograph and at its figures on the face; marks that do not lie on the face go out.",
        field="marks",
        value=round(off[worst], 1),
    )
