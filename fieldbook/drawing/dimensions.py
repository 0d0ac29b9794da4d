"""Scales, scale bars and dimensions.

Scales are those of ISO 5455, and 1:25, which is common practice, no source. Dimension lines are
continuous narrow lines with oblique strokes at their ends or, where figures run from the datum,
arrowheads and a ring at the origin; figures stand above the line and read from the bottom or the
right of the sheet. Source: ISO 129-1 (from memory, not seen in a readable copy).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from . import drafting as d

SCALES = (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000)
TICK_MM = 1.2  # half an oblique stroke, along each axis
ARROW_MM, ARROW_HALF_MM = 2.2, 0.4
ORIGIN_MM = 0.9  # radius of the ring at the origin
BEYOND_MM, GAP_MM = 1.5, 1.0  # extension lines: past the dimension line, and before the outline
ABOVE_MM = 0.9  # between a figure and its line
APART_MM = 1.2  # between figures on a scale bar
SPACE_MM = 3.3  # from base line to base line of figures side by side


def said(value: float) -> str:
    """A figure in millimetres as a drawing gives it: to a tenth, and no more than is there."""
    return f"{round(value, 1) + 0:.1f}".removesuffix(".0")


def overall(start: d.Point, end: d.Point, words: str) -> list[d.Drawn]:
    """A dimension line with oblique strokes and its figure; level, or upright reading from the right.

    The figure of a line that is shorter than it stands past its end, where no stroke runs through it.
    """
    level = start[1] == end[1]
    short = math.dist(start, end) < d.width_of(words) + 2 * TICK_MM
    along = [(one + other) / 2 for one, other in zip(start, end, strict=True)]
    if short:
        along = [end[0] + TICK_MM + ABOVE_MM, end[1]] if level else [end[0], end[1] - TICK_MM - ABOVE_MM]
    at = (along[0], along[1] - ABOVE_MM) if level else (along[0] - ABOVE_MM, along[1])
    strokes = "".join(d.through([(x - TICK_MM, y + TICK_MM), (x + TICK_MM, y - TICK_MM)]) for x, y in (start, end))
    return [
        d.stroke(d.through([start, end])),
        d.stroke(strokes, d.WIDE),
        d.letters(words, at, anchor="start" if short else "middle", upright=level),
    ]


def spread(places: Sequence[float], low: float, high: float, space: float = SPACE_MM) -> list[float]:
    """Sorted places moved apart for neighbours to keep a space, as little as it takes; squeezed where they must be."""
    if len(places) > 1:
        space = min(space, (high - low) / (len(places) - 1))
    groups: list[list[float]] = []  # [sum of wished-for starts, count]: each group stands shoulder to shoulder
    for index, place in enumerate(places):
        groups.append([place - index * space, 1])
        while len(groups) > 1 and groups[-2][0] / groups[-2][1] > groups[-1][0] / groups[-1][1]:
            total, count = groups.pop()
            groups[-1][0] += total
            groups[-1][1] += count
    starts = [total / count for total, count in groups for _ in range(int(count))]
    most = high - (len(places) - 1) * space
    return [min(max(start, low), most) + index * space for index, start in enumerate(starts)]


def fitting_places(places: Sequence[float], room_mm: float) -> list[float]:
    """Those of sorted places (paper mm) that there is room to write at, the crowded ones thinned out."""
    most = max(2, int(room_mm / SPACE_MM) + 1)
    kept = list(places)
    while len(kept) > most > 1:
        gaps = [after - before for before, after in zip(kept, kept[1:], strict=False)]
        del kept[1 + gaps.index(min(gaps[:-1] or gaps))]
    return kept


def scale_bar(at: d.Point, scale: int, longest_mm: float = 50) -> tuple[list[d.Drawn], float]:
    """A bar of four parts, black and white by turns, with its length in figures; and its length on paper.

    A short bar has its middle, or its nought too, without a figure: figures never run together.
    """
    part = scale_part_mm(scale, longest_mm)
    length = part / scale
    x, y = at
    bars = "".join(d.rectangle(x + length * step, y, length, 1.2) for step in (0, 2))
    unit, share = ("m", 1000) if part >= 250 else ("mm", 1)
    figures = {step: f"{part * step / share:g}{f' {unit}' if step == 4 else ''}" for step in (0, 2, 4)}
    wide = {step: d.width_of(words, d.FIGURE) for step, words in figures.items()}

    def fit(*steps: int) -> bool:
        pairs = zip(steps, steps[1:], strict=False)
        return all((wide[one] + wide[next_]) / 2 + APART_MM <= length * (next_ - one) for one, next_ in pairs)

    shown = next(steps for steps in ((0, 2, 4), (0, 4), (4,)) if fit(*steps))
    drawn = [d.letters(figures[at], (x + length * at, y - ABOVE_MM), d.FIGURE, anchor="middle") for at in shown]
    return [d.stroke(d.rectangle(x, y, 4 * length, 1.2)), d.filled(bars), *drawn], 4 * length


def scale_part_mm(scale: int, longest_mm: float = 50) -> float:
    """A quarter of the bar in true size: the largest of 1, 2.5, 5, 10, 25, … mm there is room for."""
    most = longest_mm * scale / 4
    power = 10 ** math.floor(math.log10(most))
    return next(share * power for share in (5, 2.5, 1) if share * power <= most)


def arrowhead(tip: d.Point, start: d.Point, end: d.Point, *, forward: bool, times: float = 1) -> str:
    """Path data of a filled arrowhead on the line from start to end, pointing along it or back; `times` as large."""
    length = math.dist(start, end)
    turn = times if forward else -times
    along = ((end[0] - start[0]) / length * turn, (end[1] - start[1]) / length * turn)
    back = (tip[0] - along[0] * ARROW_MM, tip[1] - along[1] * ARROW_MM)
    side = (-along[1] * ARROW_HALF_MM, along[0] * ARROW_HALF_MM)
    return d.through([tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])], closed=True)
