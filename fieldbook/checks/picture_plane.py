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
from .homography import Frame, Homography, Pair, Point, frame_of, linear, refined
from .limits import within
from .plane_marks import PlaneMark, refuse_unsuitable

SOURCE = (
    "Homography by normalised direct linear transform, then least squares of the marks’ errors: Hartley and "
    "Zisserman, Multiple View Geometry (2nd ed. 2004), Algorithm 4.3; errors by propagation, section 5.2"
)
MARK_PX = (0.1, 100.0)
# How often the errors may exceed what was stated for the marks before these are taken to contradict each other.
MOST_TIMES = 8.0
# What the radius is widened by, since errors of larger marks are not quite in proportion; held in the tests.
WIDER = 1.04
# A place is refused where the picture comes this near to the face's horizon: depth as a share of that of the marks.
LEAST_DEPTH = 0.05
_ONE_IN_A_THOUSAND = 3.0902  # of a normal distribution, one-sided


class Spot(NamedTuple):
    """A place on the face, mm, and how far it may be off: within this in 95 cases of 100, mm."""

    x_mm: float
    z_mm: float
    within_mm: float


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
    _face: Frame
    _picture: Frame
    _homography: Homography
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
        h, face, picture = self._homography.elements, self._face, self._picture
        rows = [h[0:3], h[3:6], (h[6], h[7], 1.0)]
        by_mm = [(a * face.scale, b * face.scale, c - face.scale * (a * face.across + b * face.up)) for a, b, c in rows]
        return (
            tuple(by_mm[0][k] / picture.scale + picture.across * by_mm[2][k] for k in range(3)),
            tuple(by_mm[1][k] / picture.scale + picture.up * by_mm[2][k] for k in range(3)),
            by_mm[2],
        )  # type: ignore[return-value]

    def seen(self, x_mm: float, z_mm: float) -> Point | None:
        """Where the photograph shows a place of the face, px; None for one behind the camera or at the horizon."""
        place = self._face.of((x_mm, z_mm))
        if self._homography.depth(place) < LEAST_DEPTH:
            return None
        return self._picture.back(self._homography.seen(place))

    def place(self, across_px: float, down_px: float) -> Spot:
        """The place of the face that a point of the photograph shows, marked as well as the marks were.

        Raises OutOfRange at the horizon and beyond it.
        """
        x, z = self._place((across_px, down_px))
        spread = self._spread((x, z))
        return Spot(x, z, WIDER * radius_95_mm(*spread))

    def _place(self, point: Point) -> Point:
        place = self._homography.place(self._picture.of(point))
        if place is None or not self._homography.depth(place) >= LEAST_DEPTH:
            raise OutOfRange(
                "The photograph shows no place of this face there: it lies at the face’s horizon or beyond it.",
                "Choose a point on the face, nearer to the marks.",
                field="place",
                value=list(point),
            )
        return self._face.back(place)

    def _spread(self, place_mm: Point) -> tuple[float, float, float]:
        """Covariance of a place on the face, mm²: of x, of both, of z."""
        place = self._face.of(place_mm)
        across, down = self._homography.by_place(place)
        by_elements = self._homography.by_elements(place)
        mark = (self.mark_px * self._picture.scale) ** 2
        seen = [
            [_through(by_elements[i], self._covariance, by_elements[j]) + mark * (i == j) for j in range(2)]
            for i in range(2)
        ]
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
    face, picture = frame_of([mark[2:4] for mark in marks]), frame_of([mark[:2] for mark in marks])
    known = [Pair(face.of(mark[2:4]), picture.of(mark[:2])) for mark in marks]
    start = linear(known)
    if min(start.depth(place) for place, _ in known) <= 0:
        raise UnsuitableShape(
            "No camera shows the marks like this: some would lie behind it.",
            "Look whether two marks were given each other’s places.",
            field="marks",
        )
    errors = [(mark_px * picture.scale, mark.off_mm * face.scale) for mark in marks]
    homography, covariance, missed = refined(start, known, errors)
    times = _times(missed, 2 * len(marks) - 8)
    plane = Plane(marks, mark_px, times, face, picture, homography, covariance)
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
