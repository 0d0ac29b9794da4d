"""The strip under an elevation: the face cut level, seen from above, with what must stay free in front of it.

It lies under the elevation in the same scale, so that what stands out can be followed down from it.
The clear depth is reckoned by `checks/clearance` at every half millimetre of paper and at the ends of every band.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import LineString, MultiPoint, Polygon, box, union_all
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from .. import gather
from ..checks import clearance, sweep
from ..checks.clearance import Limit, Stretch
from ..checks.limits import rounded_down, rounded_up
from ..errors import FieldbookError
from ..gather import Item, Site
from . import drafting as d
from .dimensions import said, spread
from .sheet import Sheet
from .symbols import outline_of_state

DEEPEST_MM, LEAST_MM = 42.0, 8.0  # of paper
FABRIC_MM = 2.4  # of paper: the cut face's hatching
STEP_MM = 0.5
HEADING_MM = 6.0


@dataclass(frozen=True)
class Section:
    """What the strip shows.

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
        return not (self.limits or self.unusable or self.fittings)

    def depth(self, x_from: float, x_to: float) -> clearance.ClearDepth:
        """The clear depth over a stretch of the face, at the height of the section or the least of all heights."""
        low, high = (-math.inf, math.inf) if self.z_mm is None else (self.z_mm, self.z_mm)
        return clearance.clear_depth((value for _, value in self.limits), Stretch(x_from, x_to, low, high))

    def extent_mm(self, scale: int) -> float:
        """How deep the strip must be, mm of paper."""
        reach = [projection or 0 for _, projection in self.fittings]
        reach += [value.projection_mm for _, value in self.limits if value.projection_mm is not None]
        reach += [swept(value).bounds[3] for _, value in self.limits if value.leaf]
        return min(max([LEAST_MM, *(depth / scale + 2 for depth in reach)]), DEEPEST_MM)


def section(site: Site, face: Item, z_mm: float | None) -> Section:
    """What a level cut through a face meets; at no height given, everything at every height."""
    limits, unusable = [], []
    for item in site.of(face, "limit"):
        try:
            value = gather.limit_value(item, face)
        except FieldbookError as error:
            unusable.append(f"{item.called} cannot be drawn: {error.reason}")
            continue
        if z_mm is None or value.band.z_from <= z_mm <= value.band.z_to:
            limits.append((item, value))
    fittings = []
    for item in site.of(face, "fitting"):
        part = gather.fitting_stretch(item)
        if z_mm is None or part.z_from <= z_mm <= part.z_to:
            fittings.append((item, gather.projection_of(item)))
    return Section(face, z_mm, tuple(limits), tuple(unusable), tuple(fittings))


def swept(limit: Limit) -> BaseGeometry:
    """What a leaf sweeps, for drawing, in plan millimetres of the face."""
    boxes = len(limit.leaf.boxes_mm)
    places = sweep.outline(limit.leaf)
    pairs = zip(places, places[boxes:], strict=False)
    hulls = [MultiPoint(before + after).convex_hull for before, after in pairs]
    return union_all(hulls or [Polygon(place) for place in places])


class Strip:
    """The strip on its sheet; its face lies at y_mm of the paper."""

    def __init__(self, sheet: Sheet, cut: Section, y_mm: float):
        self.sheet, self.cut, self.y_mm = sheet, cut, y_mm
        self.deep_mm = cut.extent_mm(sheet.scale)
        self.frame = box(sheet.left_mm - 6, y_mm - FABRIC_MM - 2, sheet.right_mm + 6, y_mm + self.deep_mm)

    def drawn(self) -> list[d.Drawn]:
        """All of the strip, with its row of figures."""
        leaves = [self._leaf(item, value) for item, value in self.cut.limits if value.leaf]
        fittings = [self._fitting(item, projection) for item, projection in self.cut.fittings]
        line = [d.stroke(d.through(run), d.MEDIUM, d.VERMILION) for run in self._runs() if len(run) > 1]
        return [*self._fabric(), *leaves, *fittings, *line, *self._figures()]

    def _at(self, x_mm: float, y_mm: float) -> d.Point:
        return self.sheet.x(x_mm), self.y_mm + y_mm / self.sheet.scale

    def _fabric(self) -> list[d.Drawn]:
        left, right = self.sheet.left_mm, self.sheet.right_mm
        count = int((right - left) / 2)
        strokes = [
            ((left + 2 * step, self.y_mm), (left + 2 * step + FABRIC_MM, self.y_mm - FABRIC_MM))
            for step in range(count)
        ]
        return [
            d.stroke(d.segments(strokes)),
            d.stroke(d.through([(left, self.y_mm), (right, self.y_mm)]), d.EXTRA_WIDE),
        ]

    def _leaf(self, item: Item, limit: Limit) -> d.Drawn:
        """Both ends of the swing, and the edge of what lies between."""
        places = sweep.outline(limit.leaf)
        boxes = len(limit.leaf.boxes_mm)
        ends = [Polygon([self._at(*corner) for corner in place]) for place in (*places[:boxes], *places[-boxes:])]
        share, (left, top) = 1 / self.sheet.scale, self._at(0, 0)
        area = affine_transform(swept(limit), [share, 0, 0, share, left, top])
        return self.sheet.item(
            item,
            d.stroke(self._cut(area.boundary.simplify(0.03)), d.NARROW, d.VERMILION, d.DASHED),
            d.stroke("".join(self._cut(end.boundary) for end in ends), d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED),
        )

    def _cut(self, line: BaseGeometry) -> str:
        """Path data of a line, cut to the strip."""
        kept = line.intersection(self.frame)
        parts = (
            [kept]
            if isinstance(kept, LineString)
            else [part for part in getattr(kept, "geoms", []) if isinstance(part, LineString)]
        )
        return "".join(d.through(part.coords) for part in parts if not part.is_empty)

    def _fitting(self, item: Item, projection: float | None) -> d.Drawn:
        deep = min((projection or 0) / self.sheet.scale, self.deep_mm)
        left, right = self.sheet.x(item.x_mm), self.sheet.x(item.x_mm + item.width_mm)
        path = (
            d.rectangle(left, self.y_mm, right - left, deep)
            if projection is not None
            else f"M{d.number(left)} {d.number(self.y_mm + 0.8)}H{d.number(right)}"
        )
        return self.sheet.item(item, outline_of_state(path, item.state))

    def _places(self) -> list[float]:
        part, step = self.cut.face, STEP_MM * self.sheet.scale
        stretch = gather.face_stretch(part)
        count = max(1, math.ceil((stretch.x_to - stretch.x_from) / step))
        places = {stretch.x_from + (stretch.x_to - stretch.x_from) * index / count for index in range(count + 1)}
        for _, value in self.cut.limits:
            for edge in (value.band.x_from, value.band.x_to):
                places |= {
                    place for place in (edge - 0.01, edge, edge + 0.01) if stretch.x_from <= place <= stretch.x_to
                }
        return sorted(places)

    def _runs(self) -> Iterator[list[d.Point]]:
        """The clear depth as unbroken lines on paper, where it lies within the strip."""
        run: list[d.Point] = []
        for x in self._places():
            depth = self.cut.depth(x, x).depth_mm
            if depth is None or depth / self.sheet.scale > self.deep_mm:
                yield run
                run = []
            else:
                run.append(self._at(x, max(depth, -FABRIC_MM * self.sheet.scale)))
        yield run

    def _figures(self) -> list[d.Drawn]:
        """A row of figures under the strip: what each fitting takes up of what is clear, and each limit at its tightest."""
        wanted = sorted(self._wanted())
        if not wanted:
            return []
        top = self.y_mm + self.deep_mm + 2.5
        places = spread([self.sheet.x(x) for x, _, _ in wanted], self.sheet.left_mm, self.sheet.right_mm)
        drawn = []
        for (x, depth, words), place in zip(wanted, places, strict=True):
            start = self._at(x, min(depth, self.deep_mm * self.sheet.scale))
            lead = [start, (start[0], top - 1.8), (place, top - 0.4)]
            drawn.append(d.stroke(d.through(lead)))
            drawn.append(d.letters(words, (place + d.FIGURE / 2, top), anchor="end", upright=False))
        return drawn

    def figures_mm(self) -> float:
        """Room the row of figures takes on paper."""
        return max((d.width_of(words) for _, _, words in self._wanted()), default=0) + 3

    def _wanted(self) -> Iterator[tuple[float, float, str]]:
        """(x, y, words) of each figure."""
        covered: list[Stretch] = []
        for item, projection in self.cut.fittings:
            if item.state == "taken down":
                continue
            part = gather.fitting_stretch(item)
            covered.append(part)
            clear = self.cut.depth(part.x_from, part.x_to)
            out = "?" if projection is None else said(rounded_up(projection))
            of = "" if clear.depth_mm is None else f" of {said(rounded_down(clear.depth_mm))}"
            yield (part.x_from + part.x_to) / 2, projection or 0, f"{item.called}  {out}{of}"
        for item, value in self.cut.limits:
            if tightest := self._tightest(value, covered):
                yield tightest[0], max(tightest[1], 0), f"{item.called}  {said(rounded_down(tightest[1]))}"

    def _tightest(self, limit: Limit, covered: Sequence[Stretch]) -> tuple[float, float] | None:
        """Where a limit leaves least, outside the fittings, if it is the one that counts there."""
        best: tuple[float, float] | None = None
        for x in self._places():
            if any(part.x_from <= x <= part.x_to for part in covered):
                continue
            clear = self.cut.depth(x, x)
            if (
                clear.depth_mm is not None
                and clear.limited_by == limit.name
                and (best is None or clear.depth_mm < best[1])
            ):
                best = x, clear.depth_mm
        return best
