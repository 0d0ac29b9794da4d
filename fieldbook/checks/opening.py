"""An opening with four straight sides as it was measured: its corners, and how far it is out of square."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..errors import UnsuitableShape
from .limits import within

SIDE_LOW_MM, SIDE_HIGH_MM = 10.0, 50_000.0
PLACE_HIGH_MM = 100_000.0
# Sides and diagonals are one measure more than the shape needs. By how much of its length the top may disagree
# with the other five before they have to be measured again: common practice, no source.
MISFIT_SHARE = 0.005

Point = tuple[float, float]


class Opening(NamedTuple):
    """Corners in order, (x, z) in mm, anticlockwise from the lower left, and what the measures disagree by, mm."""

    corners_mm: tuple[Point, ...]
    misfit_mm: float | None


def from_corners(corners_mm: Sequence[Sequence[float]]) -> Opening:
    """The opening with these corners.

    corners_mm  four (x, z), mm, -100 000 to 100 000, in any order
    returns     the opening; there is nothing to check its measures against

    Source: arithmetic.
    Raises OutOfRange outside the limits, UnsuitableShape where no corner stands out or one points inwards.

    >>> from_corners([(0, 0), (0, 900), (600, 0), (605, 890)]).corners_mm
    ((0, 0), (600, 0), (605, 890), (0, 900))
    """
    within("corners_mm", len(corners_mm), 4, 4, "corners")
    points = [_point(place, corner) for place, corner in enumerate(corners_mm)]
    middle_x, middle_z = (math.fsum(part) / 4 for part in zip(*points, strict=True))
    around = sorted(points, key=lambda point: math.atan2(point[1] - middle_z, point[0] - middle_x))
    lengths = [math.dist(around[at], around[at - 1]) for at in range(4)]
    if min(lengths) < SIDE_LOW_MM or min(math.sin(math.radians(angle)) for angle in angles_deg(around)) < 1e-3:
        raise UnsuitableShape(
            "These corners do not make a four-sided opening of which every corner points outwards.",
            "Give its four corners; split an opening with a corner pointing inwards.",
            field="corners_mm",
            value=[list(corner) for corner in points],
        )
    return Opening(tuple(around), None)


def from_tape(sides_mm: Sequence[float], diagonals_mm: Sequence[float]) -> Opening:
    """The opening with these sides and diagonals, its lower side lying along x from (0, 0).

    sides_mm      bottom, right, top, left, mm, 10 to 50 000
    diagonals_mm  from lower left to upper right, and from lower right to upper left, mm, 10 to 100 000
    returns       the opening; misfit_mm is how much longer the top was measured than the other five make it

    Source: arithmetic: two circles meet in each upper corner.
    Raises OutOfRange outside the limits, UnsuitableShape where the measures cannot meet or disagree too much.

    >>> from_tape((400, 300, 400, 300), (500, 500)).corners_mm[2]
    (400.0, 300.0)
    """
    within("sides_mm", len(sides_mm), 4, 4, "sides")
    within("diagonals_mm", len(diagonals_mm), 2, 2, "diagonals")
    for place, side in enumerate(sides_mm):
        within(f"sides_mm[{place}]", side, SIDE_LOW_MM, SIDE_HIGH_MM, "mm")
    for place, diagonal in enumerate(diagonals_mm):
        within(f"diagonals_mm[{place}]", diagonal, SIDE_LOW_MM, 2 * SIDE_HIGH_MM, "mm")
    bottom, right, top, left = sides_mm
    rising, falling = diagonals_mm
    upper_right = _meeting(bottom, rising, right)
    upper_left = _meeting(bottom, left, falling)
    misfit = top - math.dist(upper_left, upper_right)
    if abs(misfit) > MISFIT_SHARE * top:
        raise UnsuitableShape(
            f"The top measures {top:g} mm; the other sides and the diagonals make it {top - misfit:.1f} mm.",
            "Measure all six again.",
            field="sides_mm",
            value=list(sides_mm),
        )
    return from_corners([(0.0, 0.0), (bottom, 0.0), upper_right, upper_left])._replace(misfit_mm=misfit)


def angles_deg(corners_mm: Sequence[Point]) -> list[float]:
    """The angle inside each corner.

    corners_mm  corners in order, anticlockwise, mm
    returns     degrees; 90 in a true corner, above 180 where one points inwards

    Source: arithmetic.

    >>> angles_deg([(0, 0), (600, 0), (600, 900), (0, 900)])
    [90.0, 90.0, 90.0, 90.0]
    """
    angles = []
    for at, (x, z) in enumerate(corners_mm):
        before, after = corners_mm[at - 1], corners_mm[(at + 1) % len(corners_mm)]
        turn = math.atan2(before[1] - z, before[0] - x) - math.atan2(after[1] - z, after[0] - x)
        angles.append(math.degrees(turn) % 360)
    return angles


def out_of_square_mm(opening: Opening) -> float:
    """How much longer one diagonal is than the other.

    opening  as measured, mm
    returns  mm; 0 in a true rectangle

    Source: common practice, no source.

    >>> out_of_square_mm(from_corners([(0, 0), (400, 0), (400, 300), (0, 300)]))
    0.0
    """
    lower_left, lower_right, upper_right, upper_left = opening.corners_mm
    return abs(math.dist(lower_left, upper_right) - math.dist(lower_right, upper_left))


def _point(place: int, corner: Sequence[float]) -> Point:
    x, z = (within(f"corners_mm[{place}]", part, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm") for part in corner)
    return x, z


def _meeting(bottom: float, from_left: float, from_right: float) -> Point:
    """Where two tapes from the lower corners meet above the bottom side."""
    x = (bottom**2 + from_left**2 - from_right**2) / (2 * bottom)
    height_squared = from_left**2 - x**2
    if height_squared <= 0:
        raise UnsuitableShape(
            f"Lengths of {bottom:g}, {from_left:g} and {from_right:g} mm make no triangle.",
            "Measure the sides and diagonals again, and give each in its place.",
            field="diagonals_mm",
            value=[bottom, from_left, from_right],
        )
    return x, math.sqrt(height_squared)
