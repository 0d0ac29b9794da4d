"""The key plan: every room that has an outline, at one scale, with where things stand in it.

Rooms are surveyed each in axes of its own, so they stand side by side; how they lie to one another is not known.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..book.site import Item, Site
from . import drafting as d
from .captions import LEAST_MM, caption
from .dimensions import SCALES
from .room_plan import is_placed, plan_point

BETWEEN_MM = 8.0  # rooms, and rows of them
EDGE_MM = 4.0
LINE_MM = 4.4
STANDS_MM = 1.2  # how far a thing is drawn out of its face
LEAST_WIDE_MM = 30.0  # what a room gets for its name
APART = "Each room lies in axes of its own, all at one scale; how they lie to one another was not surveyed."
BARS = "Bars along the walls are things that are up or planned; doors are on the plans and faces of the rooms."


@dataclass(frozen=True)
class _Outlined:
    """A room's outline at a scale: mm of paper, from its upper left corner."""

    room: Item
    scale: int

    @property
    def _bounds(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.room.plan, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def wide_mm(self) -> float:
        left, _, right, _ = self._bounds
        return max((right - left) / self.scale, LEAST_WIDE_MM)

    @property
    def high_mm(self) -> float:
        _, low, _, high = self._bounds
        return (high - low) / self.scale

    @property
    def name(self) -> list[str]:
        return d.wrapped(self.room.title, d.FIGURE, self.wide_mm / 1.1)

    def at(self, point: Sequence[float], corner: d.Point) -> d.Point:
        left, _, _, top = self._bounds
        return corner[0] + (point[0] - left) / self.scale, corner[1] + (top - point[1]) / self.scale


def key_plan(site: Site, *, paper_width_mm: float, paper_height_mm: float) -> d.Drawn | None:
    """All rooms with an outline as one SVG, in the order of their marks; None where none has one."""
    rooms = [room for room in site.all("room") if len(room.plan or ()) > 2]
    if not rooms:
        return None
    room_mm = paper_height_mm - LEAST_MM
    for scale in SCALES:
        rows = list(_rows([_Outlined(room, scale) for room in rooms], paper_width_mm))
        fits = all(one.wide_mm <= paper_width_mm - 2 * EDGE_MM for row in rows for one in row)
        if fits and sum(map(_height, rows)) <= room_mm:
            break
    y, drawn = EDGE_MM, []
    for row in rows:
        x = EDGE_MM
        for one in row:
            drawn += _room(site, one, (x, y), y + max(other.high_mm for other in row))
            x += one.wide_mm + BETWEEN_MM
        y += _height(row)
    missing = [room.called for room in site.all("room") if room not in rooms]
    notes = [APART, BARS, *([f"No outline was entered of {', '.join(missing)}."] if missing else [])]
    under, foot = caption("The rooms", "Key plan", scale, notes, y - BETWEEN_MM, paper_width_mm)
    return d.drawing(f"Key plan of the rooms, scale 1:{scale}", (paper_width_mm, foot), *drawn, *under)


def _rows(rooms: Sequence[_Outlined], width_mm: float) -> Iterator[list[_Outlined]]:
    """Rooms side by side, as many as find room, in rows."""
    row: list[_Outlined] = []
    for one in rooms:
        if row and 2 * EDGE_MM + sum(other.wide_mm + BETWEEN_MM for other in row) + one.wide_mm > width_mm:
            yield row
            row = []
        row.append(one)
    yield row


def _height(row: Sequence[_Outlined]) -> float:
    return max(one.high_mm for one in row) + max(len(one.name) for one in row) * LINE_MM + BETWEEN_MM


def _room(site: Site, one: _Outlined, corner: d.Point, foot_mm: float) -> list[d.Drawn]:
    outline = d.stroke(d.through([one.at(point, corner) for point in one.room.plan], closed=True), d.WIDE)
    faces = [face for face in site.of(one.room, "face") if is_placed(face)]
    stands = [path for face in faces for path in _things(site, one, face, corner)]
    words = [d.letters(words, (corner[0], foot_mm + LINE_MM * at)) for at, words in enumerate(one.name, 1)]
    return [outline, *([d.filled("".join(stands))] if stands else []), *words]


def _things(site: Site, one: _Outlined, face: Item, corner: d.Point) -> Iterator[str]:
    """What stands or is planned on a face, as a bar along it."""
    for fitting in site.of(face, "fitting"):
        if fitting.stands:
            left, right = fitting.x_mm, fitting.x_mm + fitting.width_mm
            out = STANDS_MM * one.scale
            bar = [plan_point(face, x, y) for x, y in ((left, 0), (right, 0), (right, out), (left, out))]
            yield d.through([one.at(point, corner) for point in bar], closed=True)
