"""Dimensions round a face: its own size, and figures running from the datum, along its top and its left side.

Running dimensions share one line with a ring at the origin; each figure stands in line with its extension
line, led aside where neighbours come too close. Source: as `dimensions`.
"""

from __future__ import annotations

from collections.abc import Iterable

from ..checks.clearance import Stretch
from . import drafting as d
from .dimensions import BEYOND_MM, GAP_MM, ORIGIN_MM, arrowhead, fitting_places, overall, said, spread
from .sheet import Sheet

OVERALL_MM = 5.0  # the overall dimension's line, from the sheet's edge
RUNNING_MM = 4.5  # the running dimension's line, from the face
FIGURES_MM = 2.6  # from that line to its figures
OVER_MM = 4.0  # how far past the face figures may be led


def room_mm(edges: Iterable[float]) -> float:
    """What the dimensions on one side of a face take up on paper."""
    return OVERALL_MM + 1.5 + max(d.width_of(said(edge)) for edge in edges) + FIGURES_MM + RUNNING_MM


def dimensions_round(sheet: Sheet, whole: Stretch, x_edges: Iterable[float], z_edges: Iterable[float]) -> list[d.Drawn]:
    """The size of a stretch of the face, and the edges as they run from the datum."""
    left, top, right, bottom = sheet.box(whole)
    ends = [((x, OVERALL_MM - BEYOND_MM), (x, top - GAP_MM)) for x in (left, right)]
    ends += [((OVERALL_MM - BEYOND_MM, y), (left - GAP_MM, y)) for y in (top, bottom)]
    for line in ends:
        sheet.plan.avoid(line)  # they run past what is beside the stretch
    across = _shown([(sheet.x(edge), edge) for edge in x_edges], sheet.left_mm, sheet.right_mm)
    upwards = _shown([(sheet.y(edge), edge) for edge in z_edges], sheet.top_mm, sheet.bottom_mm)
    return [
        *overall((left, OVERALL_MM), (right, OVERALL_MM), said(whole.x_to - whole.x_from)),
        *overall((OVERALL_MM, bottom), (OVERALL_MM, top), said(whole.z_to - whole.z_from)),
        d.stroke(d.segments(ends)),
        *_running(across, sheet.left_mm, sheet.right_mm, sheet.top_mm, level=True),
        *_running(upwards, sheet.top_mm, sheet.bottom_mm, sheet.left_mm, level=False),
    ]


def left_out(sheet: Sheet, x_edges: Iterable[float], z_edges: Iterable[float]) -> list[str]:
    """In words, how many figures there is no room to write; nothing where all are written."""
    sides = (
        ([(sheet.x(edge), edge) for edge in x_edges], sheet.left_mm, sheet.right_mm),
        ([(sheet.y(edge), edge) for edge in z_edges], sheet.top_mm, sheet.bottom_mm),
    )
    lacking = sum(len(_on(*side)) - len(_shown(*side)) for side in sides)
    return [f"Running dimensions there is no room for: {lacking}; take them from the lists."] if lacking else []


Edge = tuple[float, float]  # where it lies on the paper, along the side; and its figure


def _shown(edges: list[Edge], low: float, high: float) -> list[Edge]:
    """The edges there is room to write at, of those that lie on the drawing."""
    figures = _on(edges, low, high)
    places = fitting_places(sorted(figures), high - low + 2 * OVER_MM)
    return [(paper, figures[paper]) for paper in places]


def _on(edges: list[Edge], low: float, high: float) -> dict[float, float]:
    return {paper: edge for paper, edge in edges if low - 0.01 <= paper <= high + 0.01}


def _running(edges: list[Edge], low: float, high: float, side: float, *, level: bool) -> list[d.Drawn]:
    """One side's running dimension; `side` is where the face begins, and the line lies before it."""
    if len(edges) < 2:
        return []
    line, row = side - RUNNING_MM, side - RUNNING_MM - FIGURES_MM
    strokes, paper, figures = [], [], []
    places = spread([along for along, _ in edges], low - OVER_MM, high + OVER_MM)
    for (along, edge), place in zip(edges, places, strict=True):
        bends = [(along, side - GAP_MM), (along, line - 0.6), (place, row + 0.4)]
        strokes.append(d.through(bends if level else [(y, x) for x, y in bends]))
        words, half = said(edge), d.FIGURE / 2
        far = row - d.width_of(words)
        paper.append(
            d.rectangle_of((place - half, far, place + half, row) if level else (far, place - half, row, place + half))
        )
        at = (place + half, row) if level else (row, place + half)
        figures.append(d.letters(words, at, anchor="start" if level else "end", upright=not level))
    under = d.filled("".join(paper), d.PAPER)  # an extension line of the whole may pass where a figure stands
    return [under, d.stroke("".join(strokes)), *_line(edges, line, level=level), *figures]


def _line(edges: list[Edge], line: float, *, level: bool) -> list[d.Drawn]:
    """The line itself: a ring at the datum, an arrowhead away from it at each other end."""
    ends = [(paper, line) if level else (line, paper) for paper, _ in edges]
    rising = edges[0][1] < edges[-1][1]
    heads = [
        arrowhead(end, ends[0], ends[-1], forward=(edge > 0) == rising)
        for end, (_, edge) in zip(ends, edges, strict=True)
        if edge != 0
    ]
    rings = [d.circle(*end, ORIGIN_MM) for end, (_, edge) in zip(ends, edges, strict=True) if edge == 0]
    return [
        d.stroke(d.through([ends[0], ends[-1]])),
        d.filled("".join(heads)),
        d.stroke("".join(rings), fill=d.PAPER),
    ]
