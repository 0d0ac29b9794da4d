"""The plan of a room, to scale: its outline, its faces, the leaves that swing, the ways to keep, what stands out.

A face lies on its start point and bearing; standing in front of it x runs to the right, so seen from above
y, out of the face, lies a quarter turn clockwise from x.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from shapely import LineString, Point, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from ..book.site import Item, Site
from ..checks.clearance import Limit, Stretch
from ..checks.sweep import Leaf
from ..checks.verdict import Word
from ..errors import FieldbookError
from ..findings import Finding, geometry
from . import drafting as d
from .captions import LEAST_MM, caption, caption_below_name
from .dimensions import SCALES, overall, said
from .elevation import PAPER_MM, words_of_place
from .lettering import letters
from .section import end_positions, swept
from .sheet import Sheet
from .symbols import outline_of_state

LEFT_MM, TOP_MM, RIGHT_MM = 16.0, 14.0, 10.0
LINE_MM = 4.6
EMPTY_MM = 30.0
NEAR_MM = 100.0  # this far in front of a face is still in its room
LEAST_DEEP_MM = 0.8  # of paper: what stands out less is drawn this deep


def room_plan(
    site: Site,
    room: Item,
    findings: Iterable[Finding],
    *,
    paper_width_mm: float = PAPER_MM[0],
    paper_height_mm: float = 160.0,
    interactive: bool = False,
    about: str = "",
    alone: bool = True,
) -> d.Drawn:
    """A room as one SVG, at the largest standard scale that fits; where plan data is missing it says so.

    about  number, state and day of the sheet, where it goes by itself
    alone  whether its name stands on it; else it stands above it
    """
    faces = [face for face in site.of(room, "face") if is_placed(face)]
    points = [tuple(corner) for corner in room.plan or []] + [point for face in faces for point in _ends(face)]
    title = f"Plan of {room.title}"
    notes = [*filter(None, [about]), *(_notes(site, room, faces) or ([] if points else ["There is nothing to draw."]))]
    if not points:
        return _empty(title, notes, paper_width_mm, interactive)
    sheet = _fitted(points, paper_width_mm, paper_height_mm, interactive)
    drawn = _outline(room, sheet)
    worst = words_of_place(findings)
    faces_drawn = [_FaceInPlan(site, face, sheet, worst) for face in faces]
    for one in faces_drawn:
        one.reserve()
    for one in faces_drawn:
        drawn += one.drawn()
    notes += sheet.lettering.left_out
    lowest = max(sheet.bottom_mm, sheet.lettering.lowest_mm)
    named = caption(room.title, "Plan", sheet.scale, notes, max(sheet.bottom_mm + 4, lowest), paper_width_mm)
    below = caption_below_name("Plan", sheet.scale, notes, max(sheet.bottom_mm + 2, lowest), paper_width_mm)
    under, foot = named if alone else below
    return d.drawing(
        f"{title}, scale 1:{sheet.scale}",
        (paper_width_mm, foot),
        *drawn,
        *sheet.lettering.drawn(),
        *under,
        interactive=interactive,
        **sheet.facts,
    )


def is_placed(face: Item) -> bool:
    """Whether it is known where a face lies in its room's plan."""
    return None not in (face.start_x_mm, face.start_y_mm, face.bearing_deg)


def plan_point(face: Item, x_mm: float, y_mm: float) -> d.Point:
    """The point of the room's plan (mm) at x along a face and y out of it."""
    angle = math.radians(face.bearing_deg)
    along, out = (math.cos(angle), math.sin(angle)), (math.sin(angle), -math.cos(angle))
    return (
        face.start_x_mm + along[0] * x_mm + out[0] * y_mm,
        face.start_y_mm + along[1] * x_mm + out[1] * y_mm,
    )


def _ends(face: Item) -> list[d.Point]:
    part = geometry.face_stretch(face)
    return [plan_point(face, part.x_from, 0), plan_point(face, part.x_to, 0)]


def _fitted(points: list[d.Point], width_mm: float, height_mm: float, interactive: bool) -> Sheet:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    part = Stretch(min(xs), max(xs), min(ys), max(ys))
    for scale in SCALES:
        across, down = (part.x_to - part.x_from) / scale, (part.z_to - part.z_from) / scale
        if LEFT_MM + across + RIGHT_MM <= width_mm and TOP_MM + down + LEAST_MM <= height_mm:
            break
    free = (7, 6, width_mm - LEFT_MM - across - 0.5, 6)
    return Sheet(scale, (LEFT_MM, TOP_MM), part, free, interactive=interactive)


def _outline(room: Item, sheet: Sheet) -> list[d.Drawn]:
    """The walls' surface, and the room's greatest length and width."""
    if not room.plan:
        return []
    corners = [sheet.at(x, y) for x, y in room.plan]
    sheet.plan.avoid(corners, closed=True)
    part = sheet.part
    left, right, top, bottom = sheet.left_mm, sheet.right_mm, sheet.top_mm, sheet.bottom_mm
    return [
        d.stroke(d.through(corners, closed=True), d.EXTRA_WIDE),
        *overall((left, 5.5), (right, 5.5), said(part.x_to - part.x_from)),
        *overall((5.5, bottom), (5.5, top), said(part.z_to - part.z_from)),
        d.stroke(
            d.segments(
                [((x, 4), (x, top - 1)) for x in (left, right)] + [((4, y), (left - 1, y)) for y in (top, bottom)]
            )
        ),
    ]


class _FaceInPlan:
    """One face and what belongs to it, turned into the plan."""

    def __init__(self, site: Site, face: Item, sheet: Sheet, worst: Mapping[str, Word]):
        self.site, self.face, self.sheet, self.worst = site, face, sheet, worst
        self.limits = list(self._usable())

    def reserve(self) -> None:
        """Mark the lines that letters had better not run over."""
        self.sheet.plan.avoid(self._line())
        for _, value in self.limits:
            if value.leaf:
                self.sheet.plan.avoid(self._turned(swept(value.leaf)).convex_hull.exterior.coords)

    def drawn(self) -> list[d.Drawn]:
        """The face with its mark, its fittings, its leaves and its ways."""
        start, end = self._line()
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        tick = d.segments([(point, self._at(x, 150)) for point, x in zip((start, end), self._edges(), strict=True)])
        face = self.sheet.item(self.face, d.stroke(d.through([start, end]), d.EXTRA_WIDE), d.stroke(tick))
        self.sheet.lettering.within(
            self.face, letters(self.face.called, bold=True), [middle], LineString([start, end]).buffer(0.3)
        )
        limits = [self._leaf(item, value.leaf) if value.leaf else self._way(item) for item, value in self.limits]
        return [*filter(None, limits), *[self._fitting(item) for item in self.site.of(self.face, "fitting")], face]

    def _usable(self) -> Iterator[tuple[Item, Limit]]:
        for item in self.site.of(self.face, "limit"):
            try:
                yield item, geometry.limit_value(item, self.face)
            except FieldbookError:
                continue  # the elevation says why

    def _edges(self) -> tuple[float, float]:
        part = geometry.face_stretch(self.face)
        return part.x_from, part.x_to

    def _line(self) -> tuple[d.Point, d.Point]:
        start, end = self._edges()
        return self._at(start, 0), self._at(end, 0)

    def _at(self, x_mm: float, y_mm: float) -> d.Point:
        return self.sheet.at(*plan_point(self.face, x_mm, y_mm))

    def _turned(self, shape: BaseGeometry) -> BaseGeometry:
        origin, along, out = self._at(0, 0), self._at(1000, 0), self._at(0, 1000)
        across = [(along[axis] - origin[axis]) / 1000 for axis in (0, 1)]
        outwards = [(out[axis] - origin[axis]) / 1000 for axis in (0, 1)]
        return affine_transform(shape, [across[0], outwards[0], across[1], outwards[1], *origin])

    def _leaf(self, item: Item, leaf: Leaf) -> d.Drawn:
        ends = [self._turned(end) for end in end_positions(leaf)]
        edge = self._turned(swept(leaf)).boundary.simplify(0.03)
        middle = ends[-1].centroid
        self.sheet.lettering.beside(item, letters(item.called, d.FIGURE, d.VERMILION), (middle.x, middle.y), 1.5)
        return self.sheet.item(
            item,
            d.stroke(d.along(edge), d.NARROW, d.VERMILION, d.DASHED),
            d.stroke("".join(d.along(end.boundary) for end in ends), d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED),
        )

    def _way(self, item: Item) -> d.Drawn | None:
        """The edge of a way to keep clear, as wide as it must stay from what stands opposite."""
        if item.sort != "route":
            return None
        left, right = self._edges()
        left = max(left, item.x_from_mm) if item.x_from_mm is not None else left
        right = min(right, item.x_to_mm) if item.x_to_mm is not None else right
        near, far = item.available_mm - item.clear_width_mm, item.available_mm
        corners = [self._at(left, near), self._at(right, near), self._at(right, far), self._at(left, far)]
        middle = ((corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2)
        words = letters(f"{item.called} {said(item.clear_width_mm)} clear", d.FIGURE, d.VERMILION)
        self.sheet.lettering.within(item, words, [middle], Polygon(corners))
        edge = d.through(corners, closed=True)
        return self.sheet.item(item, d.stroke(edge, d.NARROW, d.VERMILION, d.LONG_DASHED_DOTTED))

    def _fitting(self, item: Item) -> d.Drawn:
        deep = max(geometry.projection_of(item) or 0, LEAST_DEEP_MM * self.sheet.scale)
        left, right = item.x_mm, item.x_mm + item.width_mm
        corners = [self._at(left, 0), self._at(right, 0), self._at(right, deep), self._at(left, deep)]
        self.sheet.plan.avoid(corners, closed=True)
        words = letters(item.called, word=self.worst.get(item.id))
        self.sheet.lettering.within(item, words, [self._at((left + right) / 2, deep)], Polygon(corners))
        return self.sheet.item(item, outline_of_state(d.through(corners, closed=True), item.state, d.PAPER))


def _notes(site: Site, room: Item, placed: list[Item]) -> list[str]:
    notes = []
    if not room.plan:
        notes.append("The outline of this room was not entered.")
    missing = [face.called for face in site.of(room, "face") if face not in placed]
    if missing:
        notes.append(f"Not placed in the plan: {', '.join(missing)}; enter the start point and bearing of each.")
    notes += [f"{face.called} looks out of the room: correct its bearing." for face in placed if _looks_out(room, face)]
    return notes


def _looks_out(room: Item, face: Item) -> bool:
    """Whether the room lies behind a face rather than in front of it."""
    if not room.plan or len(room.plan) < 3:
        return False
    part, outline = geometry.face_stretch(face), Polygon(room.plan).buffer(0)
    middle = (part.x_from + part.x_to) / 2
    front, back = (Point(plan_point(face, middle, y)) for y in (NEAR_MM, -NEAR_MM))
    return outline.contains(back) and not outline.contains(front)


def _empty(title: str, notes: list[str], width_mm: float, interactive: bool) -> d.Drawn:
    lines = [line for note in notes for line in d.wrapped(note, d.FIGURE, width_mm - 4)]
    heading = d.letters(title, (2, 6), d.HEADING, bold=True)
    words = [d.letters(line, (2, 12 + index * LINE_MM)) for index, line in enumerate(lines)]
    return d.drawing(
        title, (width_mm, max(EMPTY_MM, 14 + len(lines) * LINE_MM)), heading, *words, interactive=interactive
    )
