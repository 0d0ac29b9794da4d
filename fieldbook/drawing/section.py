"""A face cut level and seen from above: what must stay free in front of it, what stands out, and the clear depth left.

The clear depth is that of `checks/clearance`, reckoned at even steps along the face and on both sides of the
ends of every band; the figures a drawing shows are rounded towards safety.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache

from shapely import MultiPoint, Polygon, union_all
from shapely.geometry.base import BaseGeometry

from ..book.site import Item, Site
from ..checks import clearance, sweep
from ..checks.clearance import ClearDepth, Limit, Stretch
from ..checks.limits import rounded_down, rounded_up
from ..checks.sweep import Leaf
from ..errors import FieldbookError
from ..findings import geometry
from .dimensions import said

STEPS = 300  # along a face
WORTH_MM = 5.0  # a limit's greatest depth is given beside its least where it is this much more


@dataclass(frozen=True)
class PlacedWords:
    """Words that stand at a place of the section, mm."""

    x_mm: float
    y_mm: float
    words: str


@dataclass(frozen=True)
class Section:
    """What a level cut meets.

    z_mm      its height; None for everything at every height
    limits    (item, value) of each limit, as the check takes it
    unusable  a sentence for each limit the check refuses
    fittings  (item, projection mm or None) of each fitting cut
    """

    face: Item
    z_mm: float | None
    limits: tuple[tuple[Item, Limit], ...]
    unusable: tuple[str, ...]
    fittings: tuple[tuple[Item, float | None], ...]

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to show."""
        return not (self.limits or self.fittings)

    def depth(self, x_from: float, x_to: float) -> ClearDepth:
        """The clear depth over a stretch of the face; where no height is chosen, the least of all heights."""
        low, high = (-math.inf, math.inf) if self.z_mm is None else (self.z_mm, self.z_mm)
        return clearance.clear_depth((value for _, value in self.limits), Stretch(x_from, x_to, low, high))

    @property
    def reach_mm(self) -> float:
        """How far out of the face anything comes."""
        out = [projection or 0 for _, projection in self.fittings]
        flat = [value.projection_mm for _, value in self.limits if value.projection_mm is not None]
        leaves = [swept(value.leaf).bounds[3] for _, value in self.limits if value.leaf]
        return max([0, *out, *flat, *leaves])

    @cached_property
    def profile(self) -> tuple[tuple[float, ClearDepth], ...]:
        """(x, clear depth) along the face."""
        part = geometry.face_stretch(self.face)
        places = {part.x_from + (part.x_to - part.x_from) * step / STEPS for step in range(STEPS + 1)}
        for _, value in self.limits:
            for edge in (value.band.x_from, value.band.x_to):
                places |= {place for place in (edge - 0.01, edge, edge + 0.01) if part.x_from <= place <= part.x_to}
        return tuple((x, self.depth(x, x)) for x in sorted(places))

    @cached_property
    def figures(self) -> tuple[PlacedWords, ...]:
        """What each fitting takes up of what is clear, and each limit where it leaves least and most; by x."""
        return tuple(sorted([*self._of_fittings(), *self._of_limits()], key=lambda figure: figure.x_mm))

    def _standing(self) -> list[tuple[Item, float | None, Stretch]]:
        return [(item, out, geometry.fitting_stretch(item)) for item, out in self.fittings if item.stands]

    def _of_fittings(self) -> Iterator[PlacedWords]:
        for item, projection, part in self._standing():
            clear = self.depth(part.x_from, part.x_to).depth_mm
            out = "?" if projection is None else said(rounded_up(projection))
            of = "" if clear is None else f" of {said(rounded_down(clear))}"
            yield PlacedWords((part.x_from + part.x_to) / 2, projection or 0, f"{item.called}  {out}{of}")

    def _of_limits(self) -> Iterator[PlacedWords]:
        covered = [part for _, _, part in self._standing()]
        open_places = [
            each for each in self.profile if not any(part.x_from <= each[0] <= part.x_to for part in covered)
        ]
        for item, _ in self.limits:
            clear_of = [(clear.depth_mm, x) for x, clear in open_places if _is(clear.limited_by, item)]
            own = [(depth, x) for depth, x in clear_of if depth is not None and depth >= 0]
            for depth, x in dict.fromkeys((min(own), max(own)) if own else ()):
                if depth - min(own)[0] >= WORTH_MM or (depth, x) == min(own):
                    yield PlacedWords(x, depth, f"{item.called}  {said(rounded_down(depth))}")


def _is(limit: Limit | None, item: Item) -> bool:
    return limit is not None and limit.id == item.id


def section(site: Site, face: Item, z_mm: float | None) -> Section:
    """What a level cut through a face meets at a height, or at every height."""
    limits, unusable = [], []
    for item in site.of(face, "limit"):
        try:
            value = geometry.limit_value(item, face)
        except FieldbookError as error:
            unusable.append(f"{item.called} cannot be drawn: {error.reason}")
            continue
        if z_mm is None or value.band.z_from <= z_mm <= value.band.z_to:
            limits.append((item, value))
    fittings = []
    for item in site.of(face, "fitting"):
        part = geometry.fitting_stretch(item)
        if z_mm is None or part.z_from <= z_mm <= part.z_to:
            fittings.append((item, geometry.projection_of(item)))
    return Section(face, z_mm, tuple(limits), tuple(unusable), tuple(fittings))


@lru_cache(maxsize=256)
def swept(leaf: Leaf) -> BaseGeometry:
    """What a leaf sweeps, in plan millimetres of its face: for drawing it, not for reckoning."""
    boxes, places = len(leaf.boxes_mm), sweep.outline(leaf)
    pairs = zip(places, places[boxes:], strict=False)
    hulls = [MultiPoint(before + after).convex_hull for before, after in pairs]
    return union_all(hulls or [Polygon(place) for place in places])


def end_positions(leaf: Leaf) -> list[Polygon]:
    """The leaf's boxes at both ends of its swing, in plan millimetres of its face."""
    boxes, places = len(leaf.boxes_mm), sweep.outline(leaf)
    return [Polygon(place) for place in (*places[:boxes], *places[-boxes:])]
