"""The strip under an elevation: the face cut level, with the clear depth in front of it.

It has the elevation's scale and lies square under it, so that what stands out can be followed down.
"""

from __future__ import annotations

from collections.abc import Iterator

from shapely import box
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from ..book.site import Item
from ..checks.sweep import Leaf
from . import drafting as d
from .dimensions import said, spread
from .section import Section, end_positions, swept
from .sheet import Sheet
from .symbols import outline_of_state

# All of paper, mm.
DEEPEST_MM, LEAST_MM = 42.0, 8.0
FABRIC_MM = 2.4  # the cut face's hatching
HEADING_MM, LINE_MM = 7.0, 3.6
ROW_MM = 2.5  # from the strip to its row of figures
BESIDE_MM = 6.0  # what a leaf may show beside the face


class Strip:
    """The strip on its sheet, from `top_mm` of the paper down to `foot_mm`."""

    def __init__(self, sheet: Sheet, cut: Section, top_mm: float):
        self.sheet, self.cut, self.top_mm = sheet, cut, top_mm
        self.heading = d.wrapped(_heading(cut), d.FIGURE, sheet.paper_right_mm - sheet.left_mm)
        self.y_mm = top_mm + HEADING_MM + (len(self.heading) - 1) * LINE_MM + FABRIC_MM
        self.deep_mm = min(max(LEAST_MM, cut.reach_mm / sheet.scale + 2), DEEPEST_MM)
        figures = max((d.width_of(figure.words) for figure in cut.figures), default=0)
        self.foot_mm = self.y_mm + self.deep_mm + ROW_MM + figures

    def drawn(self) -> list[d.Drawn]:
        """All of it, from the heading to the row of figures."""
        first = self.top_mm + d.FIGURE
        heading = [
            d.letters(line, (self.sheet.left_mm, first + LINE_MM * number)) for number, line in enumerate(self.heading)
        ]
        leaves = [self._leaf(item, value.leaf) for item, value in self.cut.limits if value.leaf]
        fittings = [self._fitting(item, projection) for item, projection in self.cut.fittings]
        line = "".join(d.through(run) for run in self._runs() if len(run) > 1)
        clear = [d.stroke(line, d.MEDIUM, d.VERMILION)] if line else []
        return [*heading, *self._fabric(), *leaves, *fittings, *clear, *self._figures()]

    def _at(self, x_mm: float, y_mm: float) -> d.Point:
        return self.sheet.x(x_mm), self.y_mm + y_mm / self.sheet.scale

    def _fabric(self) -> list[d.Drawn]:
        """The cut face: a wide line, and what is cut hatched behind it."""
        left, right, y = self.sheet.left_mm, self.sheet.right_mm, self.y_mm
        starts = [left + 2 * step for step in range(int((right - left) / 2))]
        strokes = d.segments(((x, y), (x + FABRIC_MM, y - FABRIC_MM)) for x in starts)
        return [d.stroke(strokes), d.stroke(d.through([(left, y), (right, y)]), d.EXTRA_WIDE)]

    def _leaf(self, item: Item, leaf: Leaf) -> d.Drawn:
        """Both ends of the swing, and the edge of what lies between."""
        edge = self._on_paper(swept(leaf)).boundary.simplify(0.03)
        ends = [self._on_paper(end).boundary for end in end_positions(leaf)]
        return self.sheet.item(
            item,
            d.stroke(self._cut(edge), d.NARROW, d.VERMILION, d.DASHED),
            d.stroke("".join(map(self._cut, ends)), d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED),
        )

    def _on_paper(self, shape: BaseGeometry) -> BaseGeometry:
        share, (left, top) = 1 / self.sheet.scale, self._at(0, 0)
        return affine_transform(shape, [share, 0, 0, share, left, top])

    def _cut(self, line: BaseGeometry) -> str:
        """Path data of a line, as far as it lies on the strip."""
        left, right = self.sheet.left_mm - BESIDE_MM, self.sheet.right_mm + BESIDE_MM
        return d.along(line.intersection(box(left, self.y_mm - FABRIC_MM, right, self.y_mm + self.deep_mm)))

    def _fitting(self, item: Item, projection: float | None) -> d.Drawn:
        left, right = self.sheet.x(item.x_mm), self.sheet.x(item.x_mm + item.width_mm)
        if projection is None:
            path = d.through([(left, self.y_mm + 0.8), (right, self.y_mm + 0.8)])
        else:
            path = d.rectangle(left, self.y_mm, right - left, min(projection / self.sheet.scale, self.deep_mm))
        return self.sheet.item(item, outline_of_state(path, item.state))

    def _runs(self) -> Iterator[list[d.Point]]:
        """The clear depth as unbroken lines, where it lies on the strip."""
        run: list[d.Point] = []
        for x, clear in self.cut.profile:
            if clear.depth_mm is None or clear.depth_mm / self.sheet.scale > self.deep_mm:
                yield run
                run = []
            else:
                run.append(self._at(x, max(clear.depth_mm, -FABRIC_MM * self.sheet.scale)))
        yield run

    def _figures(self) -> list[d.Drawn]:
        """Each figure in line with a stroke from what it is about."""
        row = self.y_mm + self.deep_mm + ROW_MM
        wished = [self.sheet.x(figure.x_mm) for figure in self.cut.figures]
        places = spread(wished, self.sheet.left_mm, self.sheet.right_mm)
        drawn, strokes = [], ""
        for figure, place in zip(self.cut.figures, places, strict=True):
            x, y = self._at(figure.x_mm, figure.y_mm)
            strokes += d.through([(x, min(y, row - 2)), (x, row - 1.8), (place, row - 0.4)])
            drawn.append(d.letters(figure.words, (place + d.FIGURE / 2, row), anchor="end", upright=False))
        return [d.stroke(strokes), *drawn] if drawn else []


def _heading(cut: Section) -> str:
    at = "least at any height" if cut.z_mm is None else f"at z = {said(cut.z_mm)}"
    return f"Clear depth, {at}: stands out … of … clear"
