"""How a face bows: its surface readings in level lines, seen from above, with the packers that make up for it.

Depths are exaggerated, for a bow of a few millimetres would not show; the drawing says how much. What
stands proud, and packers, point down the sheet, as y does in the strip under an elevation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..book.site import Item, Site
from ..checks.clearance import height_at
from ..findings import geometry
from ..model.choices import PLANNED
from . import drafting as d
from .captions import LEAST_MM, caption, caption_below_name
from .dimensions import SCALES, said
from .elevation import PAPER_MM
from .lettering import Lettering, letters, of_item
from .placing import Plan
from .symbols import outline_of_state

EXAGGERATIONS = (20, 10, 5, 2, 1)
LEFT_MM, RIGHT_MM, TOP_MM = 18.0, 14.0, 4.0
ABOVE_MM, BELOW_MM = 5.0, 6.0  # round the lines of one row, for figures
SAME_LEVEL_MM = 100.0  # readings this near in height are of one line
PACKER_MM = 1.4  # of paper: half a packer's width
POINT_MM = 0.6

Reading = tuple[float, float]  # x, proud
HOW_READ = "Figures are mm out of the reference plane; down the sheet is out of the face."


@dataclass(frozen=True)
class BowRow:
    """The readings of one level, and the fixings nearest to it that have packers."""

    z_mm: float
    readings: tuple[Reading, ...]
    packed: tuple[Item, ...]

    @property
    def depths(self) -> tuple[float, float]:
        """Least and greatest depth (mm) that is drawn."""
        surface = [proud for _, proud in self.readings]
        packed = [self.proud_at(geometry.place_of(fixing)[0]) + fixing.packers_mm for fixing in self.packed]
        return min([0, *surface]), max([0, *surface, *packed])

    def proud_at(self, x_mm: float) -> float:
        """How proud the surface is at x, between the readings."""
        return height_at(self.readings, x_mm)


def bow(
    site: Site,
    face: Item,
    *,
    paper_width_mm: float = PAPER_MM[0],
    paper_height_mm: float = PAPER_MM[1],
    interactive: bool = False,
    alone: bool = True,
) -> d.Drawn:
    """The bow of a face as one SVG, its depths exaggerated twenty times, or less where that would not fit.

    alone  whether its name and how it is read stand on it; else they stand above it and in the key
    """
    rows = rows_of(face, [fixing for fixing in site.fixings_on(face) if fixing.stands and fixing.packers_mm])
    title = f"Bow of {face.title}"
    if not rows:
        words = "No surface readings are entered for this face."
        return d.drawing(title, (paper_width_mm, 8), d.letters(words, (2, 5)), interactive=interactive)
    scale, times = _fitted(face, rows, paper_width_mm, paper_height_mm)
    sheet = _Sheet(face, scale, times, paper_width_mm, interactive)
    y, drawn = TOP_MM, []
    for row in rows:
        y += ABOVE_MM - row.depths[0] * times / scale
        drawn += sheet.row(row, y)
        y += row.depths[1] * times / scale + BELOW_MM
    deep = f"Depths are drawn ×{times}: {said(scale / times)} mm of depth for each mm of paper."
    notes = [deep, HOW_READ] if alone else []
    notes += sheet.lettering.left_out
    named = caption(face.title, f"Bow, depths ×{times}", scale, notes, y, paper_width_mm)
    under, foot = named if alone else caption_below_name(f"Bow, depths ×{times}", scale, notes, y, paper_width_mm)
    drawn += sheet.lettering.drawn()
    return d.drawing(f"{title}, depths ×{times}", (paper_width_mm, foot), *drawn, *under, interactive=interactive)


def rows_of(face: Item, packed: Sequence[Item]) -> list[BowRow]:
    """The surface readings by level, the highest first; each fixing goes with the level nearest to it."""
    levels: list[list[list[float]]] = []
    for reading in sorted(face.surface or [], key=lambda reading: -reading[1]):
        if not levels or levels[-1][0][1] - reading[1] > SAME_LEVEL_MM:
            levels.append([])
        levels[-1].append(reading)
    heights = [sum(z for _, z, _ in level) / len(level) for level in levels]
    nearest: dict[int, list[Item]] = {}
    for fixing in packed if levels else ():
        z = geometry.place_of(fixing)[1]
        nearest.setdefault(min(range(len(heights)), key=lambda index: abs(heights[index] - z)), []).append(fixing)
    return [
        BowRow(height, tuple(sorted((x, proud) for x, _, proud in level)), tuple(nearest.get(index, ())))
        for index, (height, level) in enumerate(zip(heights, levels, strict=True))
    ]


def _fitted(face: Item, rows: Sequence[BowRow], width_mm: float, height_mm: float) -> tuple[int, int]:
    """The scale that fits the width, and the greatest exaggeration that then fits the height."""
    scale = next((scale for scale in SCALES if LEFT_MM + face.width_mm / scale + RIGHT_MM <= width_mm), SCALES[-1])
    depth = sum(high - low for low, high in (row.depths for row in rows))
    room = height_mm - TOP_MM - LEAST_MM - len(rows) * (ABOVE_MM + BELOW_MM)
    return scale, next((times for times in EXAGGERATIONS if depth * times / scale <= room), EXAGGERATIONS[-1])


class _Sheet:
    def __init__(self, face: Item, scale: int, times: int, width_mm: float, interactive: bool):
        self.face, self.scale, self.times, self.interactive = face, scale, times, interactive
        self.lettering = Lettering(Plan((LEFT_MM - 4, 0, width_mm, 10_000)), interactive=interactive)

    def _at(self, x_mm: float, depth_mm: float, y: float) -> d.Point:
        left = self.face.left_mm or 0
        return LEFT_MM + (x_mm - left) / self.scale, y + depth_mm * self.times / self.scale

    def row(self, row: BowRow, y: float) -> list[d.Drawn]:
        """One level: the reference plane, the surface with its readings, the packers on it."""
        left = self.face.left_mm or 0
        plane = [self._at(left, 0, y), self._at(left + self.face.width_mm, 0, y)]
        surface = [self._at(x, proud, y) for x, proud in row.readings]
        self.lettering.plan.avoid(plane)
        self.lettering.plan.avoid(surface)
        points = "".join(d.circle(*point, POINT_MM) for point in surface)
        for point in surface:
            self.lettering.plan.take((point[0] - 0.7, point[1] - 0.7, point[0] + 0.7, point[1] + 0.7))
        packers = [self._packer(row, fixing, y) for fixing in row.packed]
        for (_, proud), point in zip(row.readings, surface, strict=True):
            self.lettering.beside(None, letters(_signed(proud), d.FIGURE), point, POINT_MM)
        return [
            d.letters(f"z {said(row.z_mm)}", (LEFT_MM - 5, y + d.FIGURE / 2), d.FIGURE, anchor="end"),
            d.stroke(d.through(plane), d.NARROW, d.BLACK, d.LONG_DASHED_DOTTED),
            d.stroke(d.through(surface), d.WIDE),
            d.filled(points),
            *packers,
        ]

    def _packer(self, row: BowRow, fixing: Item, y: float) -> d.Drawn:
        x = geometry.place_of(fixing)[0]
        proud = row.proud_at(x)
        across, top = self._at(x, proud, y)
        bottom = self._at(x, proud + fixing.packers_mm, y)[1]
        box = (across - PACKER_MM, top, across + PACKER_MM, bottom)
        self.lettering.plan.take(box)
        words = letters(
            f"{fixing.called} {said(fixing.packers_mm)}", d.FIGURE, d.BLUE if fixing.state == PLANNED else d.BLACK
        )
        self.lettering.beside(fixing, words, (across, bottom), PACKER_MM)
        drawn = outline_of_state(d.rectangle_of(box), fixing.state, d.PAPER)
        return of_item(fixing, drawn, interactive=self.interactive)


def _signed(value: float) -> str:
    words = said(value)
    return words if value <= 0 else f"+{words}"
