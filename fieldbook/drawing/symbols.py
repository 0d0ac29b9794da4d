"""Symbols of what is on a face: fixings, existing holds, the datum, the ground.

Their size is one of paper, whatever the scale; each is told from the others by shape. A fixing's shape
says what it does to the fabric (a square only bears on it, a ring with a cross uses a hole that is there,
a disc needs a new hole); its line says its state (planned, fitted, taken down).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..model.choices import FITTED, PLANNED, TAKEN_DOWN
from . import drafting as d

FIXING_MM = 1.1  # half the size of a fixing's symbol
HOLD_MM = 1.3
DATUM_MM = 2.4
_HEXAGON = [math.radians(60 * corner) for corner in range(6)]


@dataclass(frozen=True)
class Line:
    """How the outline of something is drawn: pen, ink, line type."""

    pen: float
    ink: str
    dashes: tuple[float, ...] = d.CONTINUOUS


STATE_LINES = {
    PLANNED: Line(d.NARROW, d.BLUE),
    FITTED: Line(d.WIDE, d.BLACK),
    TAKEN_DOWN: Line(d.NARROW, d.BLACK, d.DASHED),
}


def outline_of_state(path: str, state: str, fill: str | None = None) -> d.Drawn:
    """A path drawn as its state asks."""
    line = STATE_LINES[state]
    return d.stroke(path, line.pen, line.ink, line.dashes, fill)


def fixing(at: d.Point, hole: str, state: str) -> d.Drawn:
    """A fixing's symbol."""
    line, (x, y), r = STATE_LINES[state], at, FIXING_MM
    # The whole symbol is shorter than one dash of the standard.
    dashes = (3, 2) if state == TAKEN_DOWN else d.CONTINUOUS
    pen = min(line.pen, d.MEDIUM)
    if hole == "none":
        return d.stroke(d.rectangle(x - r, y - r, 2 * r, 2 * r), pen, line.ink, dashes, d.PAPER)
    if hole == "existing":
        cross = d.segments([((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))])
        return d.stroke(d.circle(x, y, r) + cross, pen, line.ink, dashes, d.PAPER)
    disc = d.filled(d.circle(x, y, r * 0.6), line.ink) if state != TAKEN_DOWN else d.Drawn("")
    return d.group(d.stroke(d.circle(x, y, r), pen, line.ink, dashes, d.PAPER), disc)


def hold(at: d.Point, sort: str, may_be_used: str) -> d.Drawn:
    """An existing hold's symbol; struck through when it may not be used."""
    (x, y), r = at, HOLD_MM
    n = d.number
    shapes = {
        "hole": d.circle(x, y, r * 0.7) + d.segments([((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))]),
        "hook": f"M{n(x)} {n(y - r)}v{n(r * 1.2)}a{n(r * 0.6)} {n(r * 0.6)} 0 0 0 {n(r * 1.2)} 0",
        "bolt": d.through([(x + r * math.cos(turn), y + r * math.sin(turn)) for turn in _HEXAGON], closed=True),
        "frame": d.rectangle(x - r, y - r, 2 * r, 2 * r) + d.rectangle(x - r / 2, y - r / 2, r, r),
        "flange": d.segments([((x - r, y - r * 0.8), (x + r, y - r * 0.8)), ((x, y - r * 0.8), (x, y + r))]),
        "moulding": f"M{n(x - r)} {n(y + r * 0.5)}h{n(r)}a{n(r)} {n(r)} 0 0 1 {n(r)} {n(-r)}",
    }
    other = d.through([(x, y - r), (x + r, y + r * 0.8), (x - r, y + r * 0.8)], closed=True)
    struck = d.segments([((x - r * 1.3, y + r * 1.3), (x + r * 1.3, y - r * 1.3))]) if may_be_used == "no" else ""
    return d.stroke(shapes.get(sort, other) + struck, d.MEDIUM)


def datum(at: d.Point) -> d.Drawn:
    """The mark x = 0, z = 0 is measured from: a triangle with its tip on it, under a level stroke."""
    x, y = at
    triangle = d.through([(x, y), (x - DATUM_MM * 0.6, y - DATUM_MM), (x + DATUM_MM * 0.6, y - DATUM_MM)], closed=True)
    half = d.through([(x, y), (x, y - DATUM_MM), (x + DATUM_MM * 0.6, y - DATUM_MM)], closed=True)
    return d.group(d.stroke(triangle, d.MEDIUM, fill=d.PAPER), d.filled(half))


def ground(profile: list[d.Point]) -> d.Drawn:
    """The floor's line with short strokes below it."""
    strokes = []
    for (x0, y0), (x1, y1) in zip(profile, profile[1:], strict=False):
        count = max(1, int((x1 - x0) / 2.5))
        for step in range(count):
            share = (step + 0.5) / count
            x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
            strokes.append(((x, y + 0.3), (x - 1.4, y + 1.7)))
    return d.group(d.stroke(d.through(profile), d.EXTRA_WIDE), d.stroke(d.segments(strokes)))
