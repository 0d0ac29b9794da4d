"""How far something may stand out from a face: the clear depth left by what must stay free.

Source of the method: the sweep of a leaf is exact plane geometry (`sweep`); a route leaves what
its free width has over the width to keep; headroom and flat limits allow a stated projection.
What a route's width or headroom must be is a matter of local codes, and is entered, not assumed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .limits import rounded_down, rounded_up, within
from .sweep import FARTHEST_MM, Leaf, depth_range
from .verdict import Verdict, Word, as_entered, not_known, word_for

SOURCE = "plane geometry of the leaf's swing; widths and heights as agreed for this building"
CLOSE_MM = 5  # what setting out on uneven old walls can be trusted to; common practice, no source
WIDEST_MARGIN_MM = 5_000


@dataclass(frozen=True)
class Stretch:
    """A rectangle of a face, mm: x from left to right, z from low to high."""

    x_from: float = -math.inf
    x_to: float = math.inf
    z_from: float = -math.inf
    z_to: float = math.inf

    def meets(self, other: Stretch) -> bool:
        """Whether two stretches share a point."""
        return (
            self.x_from <= other.x_to
            and other.x_from <= self.x_to
            and self.z_from <= other.z_to
            and other.z_from <= self.z_to
        )

    def widened(self, margin_mm: float) -> Stretch:
        """The stretch with a margin all round."""
        return Stretch(self.x_from - margin_mm, self.x_to + margin_mm, self.z_from - margin_mm, self.z_to + margin_mm)


@dataclass(frozen=True)
class Limit:
    """What must stay free in front of one band of a face.

    name          how it is called in a sentence
    band          where it holds
    margin_mm     kept free beside what is stated
    leaf          for a leaf that swings; else None
    projection_mm what may stand out in the band, before the margin; None for a leaf, but for one that swings below
                  a ceiling, in whose plane it is told: there it is how far something may hang down over it
    below_mm      for headroom: (x, z) points of the height below which it holds, from the floor
    id            what it stands for in a book; "" for one given by hand
    """

    name: str
    band: Stretch
    margin_mm: float
    leaf: Leaf | None = None
    projection_mm: float | None = None
    below_mm: tuple[tuple[float, float], ...] = ()
    id: str = ""


@dataclass(frozen=True)
class ClearDepth:
    """The clear depth of a stretch of face, mm, and what limits it; None: nothing does."""

    depth_mm: float | None
    limited_by: Limit | None


def leaf_clear_depth(leaf: Leaf, x_from_mm: float, x_to_mm: float, margin_mm: float = 0) -> float | None:
    """Depth (mm) left free between face and sweep over x_from_mm to x_to_mm, less the margin.

    None where the sweep never comes in front of the face there; negative where it would strike it.
    Source: `sweep`, exact. Raises OutOfRange for a coordinate or margin that cannot be.

    >>> door = Leaf((0, 12), 0, 160, ((0, 800, -50, -10),))
    >>> round(leaf_clear_depth(door, -500, -500), 4)
    204.6269
    """
    within("x_mm", x_from_mm, -FARTHEST_MM, FARTHEST_MM, "mm")
    within("x_mm", x_to_mm, x_from_mm, FARTHEST_MM, "mm")
    within("margin_mm", margin_mm, 0, WIDEST_MARGIN_MM, "mm")
    reached = depth_range(leaf, x_from_mm, x_to_mm)
    if reached is None or reached[1] <= 0:
        return None
    return round(reached[0] - margin_mm, 6)  # a wall turned by a right angle is not a hair's breadth nearer for it


def route_projection(available_mm: float, clear_width_mm: float) -> float:
    """What may stand out into a route (mm): its free width today less the width to keep clear.

    Source: subtraction; the width to keep is a matter of local codes. Raises OutOfRange.

    >>> route_projection(1350, 1200)
    150
    """
    within("available_mm", available_mm, 0, FARTHEST_MM, "mm")
    within("clear_width_mm", clear_width_mm, 0, FARTHEST_MM, "mm")
    return available_mm - clear_width_mm


def clear_depth(limits: Iterable[Limit], stretch: Stretch) -> ClearDepth:
    """The least clear depth over a stretch of face, and what sets it.

    A leaf's margin is kept on all sides: the stretch is widened by it as well.
    Source: the least of the limits that hold there. Raises what the limits raise.
    """
    least = ClearDepth(None, None)
    for limit in limits:
        depth = _depth_under(limit, stretch)
        if depth is not None and (least.depth_mm is None or depth < least.depth_mm):
            least = ClearDepth(depth, limit)
    return least


def _depth_under(limit: Limit, stretch: Stretch) -> float | None:
    if limit.leaf is not None:
        around = stretch.widened(limit.margin_mm)
        if not around.meets(limit.band):
            return None
        if limit.projection_mm is not None:
            return limit.projection_mm - limit.margin_mm if swings_below(limit, stretch) else None
        x_from, x_to = max(around.x_from, -FARTHEST_MM), min(around.x_to, FARTHEST_MM)
        return leaf_clear_depth(limit.leaf, x_from, x_to, limit.margin_mm)
    if limit.projection_mm is None or not stretch.meets(limit.band):
        return None
    if limit.below_mm:  # headroom: the margin is one of height
        height = highest(limit.below_mm, max(stretch.x_from, limit.band.x_from), min(stretch.x_to, limit.band.x_to))
        return limit.projection_mm if stretch.z_from < height + limit.margin_mm else None
    return limit.projection_mm - limit.margin_mm


def swings_below(limit: Limit, stretch: Stretch) -> bool:
    """Whether a leaf that is told in the plane of a ceiling swings below a stretch of it, with its margin.

    Source: `sweep`, exact over all of the stretch's x. Raises OutOfRange for a coordinate that cannot be.
    """
    around = stretch.widened(limit.margin_mm)
    x_from, x_to = max(around.x_from, -FARTHEST_MM), min(around.x_to, FARTHEST_MM)
    reached = depth_range(limit.leaf, x_from, x_to) if limit.leaf is not None else None
    return reached is not None and reached[0] <= around.z_to and around.z_from <= reached[1]


def highest(profile_mm: Sequence[tuple[float, float]], x_from_mm: float, x_to_mm: float) -> float:
    """Greatest z (mm) of a profile of (x, z) points over a stretch; level beyond its ends.

    Source: linear interpolation between the points surveyed. Raises nothing for a sorted, non-empty profile.
    """
    inside = [z for x, z in profile_mm if x_from_mm <= x <= x_to_mm]
    return max([*inside, height_at(profile_mm, x_from_mm), height_at(profile_mm, x_to_mm)])


def height_at(profile_mm: Sequence[tuple[float, float]], x_mm: float) -> float:
    """z (mm) of a profile of (x, z) points at x, by linear interpolation; level beyond its ends.

    At a step, where two points have the same x, it is the z on the left.
    Source: linear interpolation between the points surveyed. Raises nothing for a sorted, non-empty profile.
    """
    if x_mm <= profile_mm[0][0]:
        return profile_mm[0][1]
    for (x0, z0), (x1, z1) in zip(profile_mm, profile_mm[1:], strict=False):
        if x_mm <= x1:
            return z0 + (z1 - z0) * (x_mm - x0) / (x1 - x0)
    return profile_mm[-1][1]


def projection_verdict(projection_mm: float | None, limits: Sequence[Limit], stretch: Stretch) -> Verdict:
    """Whether something of this projection (mm) may stand on a stretch of face.

    Source: `clear_depth`. Not known when the projection is; raises what the limits raise.
    """
    if projection_mm is None:
        return not_known("clearance", ("projection",), "How far it stands out is not entered.", SOURCE, "mm")
    return held(projection_mm, clear_depth(limits, stretch))


def clear_in_words(depth_mm: float, name: str) -> str:
    """A clear depth (mm, as shown) in words; below zero is what the place lacks even with nothing on it.

    Source: none is needed. Raises nothing.

    >>> clear_in_words(-38, "L1")
    'nothing may stand out in front of L1, where 38 mm are missing already'
    """
    if depth_mm > 0:
        return f"{depth_mm:g} mm are clear in front of {name}"
    missing = f", where {-depth_mm:g} mm are missing already" if depth_mm < 0 else ""
    return f"nothing may stand out in front of {name}{missing}"


def held(projection_mm: float, clear: ClearDepth) -> Verdict:
    """The verdict on something of this projection (mm) where this depth is clear.

    Source: subtraction. The word goes by the figures themselves; they are shown rounded towards safety.
    Raises nothing for finite figures.
    """
    figure = rounded_up(projection_mm)
    if clear.depth_mm is None or clear.limited_by is None:
        sentence = f"It stands out {figure:g} mm; nothing limits the depth here."
        return Verdict("clearance", Word.WITHIN, figure, None, None, "mm", sentence, SOURCE)
    exact = round(clear.depth_mm - projection_mm, 9)
    limit, margin = as_entered(clear.depth_mm), rounded_down(exact)
    left = f"{margin:g} mm are left" if margin >= 0 else f"{-margin:g} mm too much"
    sentence = f"It stands out {figure:g} mm; {clear_in_words(limit, clear.limited_by.name)}: {left}."
    working = (
        ("projection", f"{figure:g} mm"),
        (f"clear depth, set by {clear.limited_by.name}", f"{limit:g} mm"),
        ("left", f"{margin:g} mm"),
    )
    word = word_for(exact, CLOSE_MM)
    return Verdict("clearance", word, figure, limit, margin, "mm", sentence, SOURCE, working=working)
