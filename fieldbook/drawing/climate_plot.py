"""A quantity over time with what it must keep to: humidity and its band, light and its limit.

It takes plain series. Where there are more values than the paper can show, each column of it shows the
least and the greatest; nothing is smoothed, and what was not measured is left open. Series differ by line
and point, limits are told by their letters and by strokes on the forbidden side.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import TypeVar

from ..checks.days import in_words, month_in_words
from . import drafting as d
from .dimensions import said
from .lettering import Lettering, letters
from .placing import Plan

WIDTH_MM, HEIGHT_MM = 180.0, 62.0
LEFT_MM, RIGHT_MM, TOP_MM, BOTTOM_MM = 14.0, 30.0, 8.0, 11.0
COLUMN_MM = 0.4  # of paper: values closer than this are shown as one stroke
DAY_MM, MONTH_MM, YEAR_MM = 25.0, 18.0, 10.0  # of paper: what a date needs, its year below it
FEW = 60  # up to so many values each has a point of its own
POINT_MM = 0.7
LINE_MM = 3.6  # from a date to its year below it
LINES = (d.CONTINUOUS, d.DASHED, d.LONG_DASHED_DOTTED, d.DOTTED)
GREY = "#d8d8d8"
ALONE_MM = 0.3  # half of what is drawn for a value that stands alone

Value = tuple[datetime, float]
T = TypeVar("T")


@dataclass(frozen=True)
class Series:
    """Values of one kind over time, in any order; times carry their offset.

    whole  longest time between two values that are still joined by a line; None: all are
    line   its line type; None: the next that is free
    """

    name: str
    values: Sequence[Value]
    whole: timedelta | None = None
    line: Sequence[float] | None = None


@dataclass(frozen=True)
class Area:
    """What lies between the least and the greatest of many values, in grey behind the lines.

    spans  (time, least, greatest), in order; `whole` as of a series
    """

    name: str
    spans: Sequence[tuple[datetime, float, float]]
    whole: timedelta


@dataclass(frozen=True)
class Bound:
    """What the quantity must not fall below or rise above."""

    value: float
    above: bool  # True: not above it
    name: str = ""


def climate_plot(
    title: str,
    unit: str,
    series: Sequence[Series],
    bounds: Sequence[Bound] = (),
    areas: Sequence[Area] = (),
    *,
    paper_width_mm: float = WIDTH_MM,
    paper_height_mm: float = HEIGHT_MM,
) -> d.Drawn:
    """The plot as one SVG; where there is nothing to plot it says so."""
    shown = [replace(each, values=sorted(each.values)) for each in series if each.values]
    if not shown:
        words = d.letters(f"{title}: no values are entered.", (2, 5))
        return d.drawing(title, (paper_width_mm, 8), words)
    axes = _axes(shown, bounds, areas, paper_width_mm, paper_height_mm)
    grey = [_area(axes, area) for area in areas if area.spans]
    drawn = [d.letters(f"{title}, {unit}", (2, 4), bold=True), *grey, *axes.drawn()]
    left, top, right, bottom = axes.box
    axes.lettering.plan.avoid([(left, top), (right, top), (right, bottom), (left, bottom)], closed=True)
    for each in shown:
        axes.lettering.plan.avoid([(axes.x(at), axes.y(value)) for at, value in each.values[-FEW:]])
    drawn += [part for bound in bounds for part in _bound(axes, bound, unit)]
    drawn += [part for index, each in enumerate(shown) for part in _series(axes, each, index)]
    return d.drawing(f"{title}, {unit}", (paper_width_mm, paper_height_mm), *drawn, *axes.lettering.drawn())


@dataclass(frozen=True)
class _Axes:
    """The frame of the plot: what of time and quantity it shows, and where on the paper."""

    start: datetime
    end: datetime
    ticks: tuple[float, ...]
    box: tuple[float, float, float, float]
    lettering: Lettering

    def x(self, at: datetime) -> float:
        left, _, right, _ = self.box
        return left + (right - left) * ((at - self.start) / (self.end - self.start))

    def y(self, value: float) -> float:
        _, top, _, bottom = self.box
        low, high = self.ticks[0], self.ticks[-1]
        return bottom - (bottom - top) * (value - low) / (high - low)

    def _inside(self, words: str, at: datetime) -> float:
        """Where the middle of a date stands: under its tick, or as near as the paper's edge lets it."""
        return max(self.x(at), max(map(d.width_of, words.split("\n"))) / 2)

    def drawn(self) -> list[d.Drawn]:
        """The frame, with figures for the quantity on the left and for time below."""
        left, top, right, bottom = self.box
        level = d.segments(((left, self.y(tick)), (right, self.y(tick))) for tick in self.ticks[1:-1])
        times = list(_time_ticks(self.start, self.end, right - left))
        upright = d.segments(((self.x(at), bottom), (self.x(at), bottom + 1.2)) for at, _ in times)
        figures = [
            d.letters(said(tick), (left - 1.2, self.y(tick) + d.FIGURE / 2), d.FIGURE, anchor="end")
            for tick in self.ticks
        ]
        dates = [
            d.letters(line, (self._inside(words, at), bottom + 4.2 + LINE_MM * row), d.FIGURE, anchor="middle")
            for at, words in times
            for row, line in enumerate(words.split("\n"))
        ]
        return [
            d.stroke(level, 0.13, d.BLACK, d.DOTTED),
            d.stroke(d.rectangle_of(self.box) + upright, d.NARROW),
            *figures,
            *dates,
        ]


def _axes(
    series: Sequence[Series], bounds: Sequence[Bound], areas: Sequence[Area], width_mm: float, height_mm: float
) -> _Axes:
    moments = [at for each in series for at, _ in (each.values[0], each.values[-1])]
    start, end = min(moments), max(moments)
    if start == end:
        start, end = start - timedelta(hours=12), end + timedelta(hours=12)
    values = [value for each in series for _, value in each.values] + [bound.value for bound in bounds]
    values += [edge for area in areas for _, *edges in area.spans for edge in edges]
    box = (LEFT_MM, TOP_MM, width_mm - RIGHT_MM, height_mm - BOTTOM_MM)
    plan = Plan((LEFT_MM, TOP_MM, width_mm, height_mm - BOTTOM_MM))
    return _Axes(start, end, even_ticks(min(values), max(values)), box, Lettering(plan, interactive=False))


def even_ticks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Round figures, evenly spaced, that enclose two values."""
    span = max(high - low, 1e-9 * max(abs(low), abs(high)), 1e-9)
    power = 10 ** math.floor(math.log10(span / most))
    step = next(share * power for share in (1, 2, 5, 10, 20) if span / (share * power) <= most - 1)
    first, last = math.floor(low / step), math.ceil(high / step)
    return tuple(index * step for index in range(first, max(last, first + 1) + 1))


def _time_ticks(start: datetime, end: datetime, room_mm: float) -> Iterator[tuple[datetime, str]]:
    """Days, months or years, whichever there are a few of, and no more than find room side by side."""
    span = end - start
    if span <= timedelta(days=2):
        yield from ((at, f"{at:%H:%M}\n{in_words(at.date())}") for at in (start, end))
    elif span <= timedelta(days=60):
        step = max(1, math.ceil(span.days / min(8, int(room_mm / DAY_MM))))
        first = start.replace(hour=0, minute=0, second=0, microsecond=0)
        days = (first + timedelta(days=day) for day in range(0, span.days + 2, step))
        yield from ((day, _year_below(in_words(day.date()))) for day in days if start <= day <= end)
    else:
        yield from _months(start, end, room_mm)


def _year_below(words: str) -> str:
    return "\n".join(words.rsplit(" ", 1))


def _months(start: datetime, end: datetime, room_mm: float) -> Iterator[tuple[datetime, str]]:
    count = (end.year - start.year) * 12 + end.month - start.month
    needed = {step: YEAR_MM if step >= 12 else MONTH_MM for step in (1, 2, 3, 6, 12, 24, 60, 120)}
    step = next((step for step, wide in needed.items() if count / step * wide <= room_mm), 120)
    for month in range(start.year * 12 + start.month - 1, end.year * 12 + end.month):
        day = datetime(month // 12, month % 12 + 1, 1, tzinfo=start.tzinfo or UTC)
        if month % step == 0 and start <= day <= end:
            yield day, f"{day:%Y}" if step >= 12 else _year_below(month_in_words(day.date()))


def _bound(axes: _Axes, bound: Bound, unit: str) -> list[d.Drawn]:
    """A limit's line, with short strokes on the side that is forbidden."""
    left, _, right, _ = axes.box
    y, turn = axes.y(bound.value), -1 if bound.above else 1
    ticks = [((left + 3 * step, y), (left + 3 * step + 1, y + 1.2 * turn)) for step in range(int((right - left) / 3))]
    axes.lettering.plan.take((left, y - 0.4, right, y + 0.4))
    words = bound.name or f"not {'above' if bound.above else 'below'} {said(bound.value)} {unit}"
    axes.lettering.beside(None, letters(words, d.FIGURE, d.VERMILION), (right, y), 0.6)
    return [
        d.stroke(d.through([(left, y), (right, y)]), d.MEDIUM, d.VERMILION),
        d.stroke(d.segments(ticks), d.NARROW, d.VERMILION),
    ]


def _area(axes: _Axes, area: Area) -> d.Drawn:
    runs = _runs([(at, (axes.y(low), axes.y(high))) for at, low, high in area.spans], area.whole)
    shapes = []
    for run in runs:
        lows, highs = ([(axes.x(at), edges[side]) for at, edges in run] for side in (0, 1))
        if len(run) == 1:
            lows, highs = ([(x + ALONE_MM * way, y) for way in (-1, 1) for x, y in edge] for edge in (lows, highs))
        shapes.append(d.through([*lows, *reversed(highs)], closed=True))
    at, _, high = area.spans[-1]
    axes.lettering.beside(None, letters(area.name, d.FIGURE), (axes.x(at), axes.y(high)), POINT_MM)
    return d.filled("".join(shapes), GREY)


def _series(axes: _Axes, series: Series, index: int) -> list[d.Drawn]:
    points = [(axes.x(at), axes.y(value)) for at, value in series.values]
    few = len(points) <= FEW
    runs = _runs([(at, (axes.x(at), axes.y(value))) for at, value in series.values], series.whole)
    path = "".join(_line([point for _, point in run], few=few) for run in runs)
    dashes = LINES[index % len(LINES)] if series.line is None else series.line
    if series.name:
        axes.lettering.beside(None, letters(series.name, d.FIGURE), points[-1], POINT_MM)
    marks = []
    if few:
        shape = d.circle if index % 2 == 0 else _square
        marks = [d.stroke("".join(shape(x, y, POINT_MM) for x, y in points), d.NARROW, fill=d.PAPER)]
    return [d.stroke(path, d.MEDIUM if few else d.NARROW, d.BLACK, dashes), *marks]


def _line(points: Sequence[d.Point], *, few: bool) -> str:
    if len(points) == 1 and not few:  # with few it has a point of its own
        (x, y) = points[0]
        return d.through([(x - ALONE_MM, y), (x + ALONE_MM, y)])
    return d.through(points if few else [point for column in _columns(points) for point in column])


def _runs(values: Sequence[tuple[datetime, T]], whole: timedelta | None) -> Iterator[list[tuple[datetime, T]]]:
    """Values in the order of time, parted where the time between two is longer than belongs together."""
    run: list[tuple[datetime, T]] = []
    for value in values:
        if run and whole is not None and value[0] - run[-1][0] > whole:
            yield run
            run = []
        run.append(value)
    yield run


def _columns(points: Sequence[d.Point]) -> Iterator[tuple[d.Point, ...]]:
    """Of each column of paper its first, lowest, highest and last point, in the order they came."""
    column: list[d.Point] = []
    for point in points:
        if column and int(point[0] / COLUMN_MM) != int(column[0][0] / COLUMN_MM):
            yield _extremes(column)
            column = []
        column.append(point)
    yield _extremes(column)


def _extremes(column: Sequence[d.Point]) -> tuple[d.Point, ...]:
    heights = [y for _, y in column]
    kept = {0, heights.index(min(heights)), heights.index(max(heights)), len(column) - 1}
    return tuple(column[index] for index in sorted(kept))


def _square(x: float, y: float, half: float) -> str:
    return d.rectangle(x - half, y - half, 2 * half, 2 * half)
