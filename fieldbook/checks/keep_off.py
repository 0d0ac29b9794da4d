"""Whether what touches a face stays off the parts of it where that is forbidden.

Source of the method: plane geometry (distance of a disc to the sides of a polygon; of an outline, by Shapely);
the outlines, margins and depths are those agreed with the keeper.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from shapely import Polygon, is_valid_reason

from ..errors import UnsuitableShape
from .limits import finite, rounded_down, within
from .verdict import Verdict, Word, word_for

SOURCE = "plane geometry: distance of the footprint's edge to the zone's edge"
CLOSE_MM = 5  # what setting out on uneven old walls can be trusted to; common practice, no source
WIDEST_MM = 100_000
# Less than this is a line that was meant to be one, such as three corners in a row told to a tenth of a millimetre.
LEAST_AREA_MM2 = 1

Outline = tuple[tuple[float, float], ...]
Side = tuple[float, float, float, float, float, float]


@lru_cache(maxsize=4096)
def polygon(outline_mm: Outline) -> Polygon:
    """The polygon of an outline of (x, z) corners, mm, in order.

    Raises UnsuitableShape when it crosses itself, has no area to speak of (below 1 mm²), or fewer than three corners.
    Source: the rules for a simple polygon, as Shapely tells them. Any finite coordinates.
    """
    for x, z in outline_mm:
        finite("zone_mm", x, "mm")
        finite("zone_mm", z, "mm")
    if len(outline_mm) < 3:
        raise UnsuitableShape(
            f"The outline has {len(outline_mm)} corners.", "Give at least three.", field="zone_mm", value=outline_mm
        )
    shape = Polygon(outline_mm)
    if not shape.is_valid or shape.area < LEAST_AREA_MM2:
        reason = is_valid_reason(shape) if not shape.is_valid else "it has no area"
        raise UnsuitableShape(
            f"The outline cannot be used: {reason}.",
            "Give the corners in order, one way round.",
            field="zone_mm",
            value=outline_mm,
        )
    return shape


def disc_distance(outline_mm: Outline, point_mm: tuple[float, float], radius_mm: float) -> float:
    """Distance (mm) from the edge of a disc to the edge of a zone; negative when they overlap.

    outline_mm  corners of the zone; point_mm the disc's middle; radius_mm 0 to 100 000
    Source: plane geometry. Raises OutOfRange, UnsuitableShape.

    >>> disc_distance(((0, 0), (100, 0), (100, 100), (0, 100)), (150, 50), 10)
    40.0
    """
    within("radius_mm", radius_mm, 0, WIDEST_MM, "mm")
    x, z = finite("point_mm", point_mm[0], "mm"), finite("point_mm", point_mm[1], "mm")
    return _away(_sides(outline_mm), x, z) - radius_mm


def _away(sides: Sequence[Side], x_mm: float, z_mm: float) -> float:
    """Distance of a point from the nearest side, negative inside. A fixing asks it of each zone: Shapely takes ten
    times as long to make the point.
    """
    least, inside = math.inf, False
    for x, z, z_to, along, up, square in sides:
        right, above = x_mm - x, z_mm - z
        if (z > z_mm) != (z_to > z_mm) and right < above * along / up:
            inside = not inside
        share = (right * along + above * up) / square if square else 0.0
        if share > 0:
            share = min(share, 1.0)
            right -= share * along
            above -= share * up
        least = min(least, right * right + above * above)
    return -math.sqrt(least) if inside else math.sqrt(least)


@lru_cache(maxsize=4096)
def _sides(outline_mm: Outline) -> tuple[Side, ...]:
    """The sides of a polygon: its beginning, the z of its end, its run along and up, its length squared."""
    polygon(outline_mm)
    ends = zip(outline_mm, (*outline_mm[1:], outline_mm[0]), strict=True)
    sides = ((x, z, z_to, x_to - x, z_to - z) for (x, z), (x_to, z_to) in ends)
    return tuple((*side, side[3] ** 2 + side[4] ** 2) for side in sides)


def area_distance(outline_mm: Outline, footprint_mm: Outline) -> float:
    """Distance (mm) between the edges of two outlines; when they overlap, less the overlap's lesser extent.

    Source: plane geometry. Raises UnsuitableShape.

    >>> area_distance(((0, 0), (10, 0), (10, 10), (0, 10)), ((8, 0), (20, 0), (20, 10), (8, 10)))
    -2.0
    """
    zone, footprint = polygon(outline_mm), polygon(footprint_mm)
    if not zone.intersects(footprint):
        return zone.distance(footprint)
    left, low, right, high = zone.intersection(footprint).bounds
    return -min(right - left, high - low)


def holds_all_of(outline_mm: Outline, footprint_mm: Outline) -> bool:
    """Whether all of a footprint lies in an area, its edge counted.

    Source: plane geometry. Raises UnsuitableShape.

    >>> holds_all_of(((0, 0), (9, 0), (9, 9), (6, 9), (6, 3), (3, 3), (3, 9), (0, 9)), ((1, 4), (8, 4), (8, 6), (1, 6)))
    False
    """
    return bool(polygon(outline_mm).covers(polygon(footprint_mm)))


def keep_off_verdict(
    zone: str,
    distance_mm: float,
    margin_mm: float,
    penetration_mm: float | None = None,
    safe_depth_mm: float | None = None,
) -> Verdict:
    """Whether a footprint at this distance from a zone keeps its margin.

    zone            how it is called in a sentence
    distance_mm     edge to edge, negative inside
    penetration_mm  how far the fixing goes into the fabric; safe_depth_mm how far that is harmless there:
                    inside the zone, a fixing that stays shallower by the margin may stand
    Source: subtraction, rounded against the fixing. Raises OutOfRange for a negative margin or depth.
    """
    finite("distance_mm", distance_mm, "mm")
    within("margin_mm", margin_mm, 0, WIDEST_MM, "mm")
    if safe_depth_mm is not None and penetration_mm is not None and distance_mm < margin_mm:
        return _depth_verdict(zone, margin_mm, penetration_mm, safe_depth_mm)
    distance = rounded_down(distance_mm)
    left = rounded_down(distance - margin_mm)
    word = Word.OVER if distance_mm < margin_mm else word_for(left, CLOSE_MM)
    where = f"{distance:g} mm from {zone}" if distance >= 0 else f"{-distance:g} mm inside {zone}"
    sentence = f"Its edge lies {where}; {margin_mm:g} mm must be kept: {_left(left)}."
    working = (("edge to edge", f"{distance:g} mm"), ("margin to keep", f"{margin_mm:g} mm"), ("left", f"{left:g} mm"))
    return Verdict("keep-off", word, distance, margin_mm, left, "mm", sentence, SOURCE, working=working)


def _depth_verdict(zone: str, margin_mm: float, penetration_mm: float, safe_depth_mm: float) -> Verdict:
    within("penetration_mm", penetration_mm, 0, WIDEST_MM, "mm")
    limit = rounded_down(within("safe_depth_mm", safe_depth_mm, 0, WIDEST_MM, "mm") - margin_mm)
    left = rounded_down(limit - penetration_mm)
    sentence = (
        f"It goes {penetration_mm:g} mm deep in {zone}, where {safe_depth_mm:g} mm less a margin of {margin_mm:g} mm "
        f"may be penetrated: {_left(left)}."
    )
    working = (
        ("depth into the wall", f"{penetration_mm:g} mm"),
        ("greatest depth into the wall", f"{safe_depth_mm:g} mm"),
        ("margin to keep", f"{margin_mm:g} mm"),
        ("left", f"{left:g} mm"),
    )
    return Verdict(
        "keep-off", word_for(left, CLOSE_MM), penetration_mm, limit, left, "mm", sentence, SOURCE, working=working
    )


def _left(left_mm: float) -> str:
    return f"{left_mm:g} mm are left" if left_mm >= 0 else f"{-left_mm:g} mm too near"


def outline_of(corners: Sequence[Sequence[float]]) -> Outline:
    """An outline as the functions here take it."""
    return tuple((corner[0], corner[1]) for corner in corners)
