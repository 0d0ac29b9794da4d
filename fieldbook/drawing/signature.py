"""A signature as it was drawn on the phone, as SVG."""

from __future__ import annotations

from collections.abc import Sequence

from . import drafting as d

WIDEST_MM, HIGHEST_MM, PEN_MM = 40.0, 15.0, 0.4


def signature(points: Sequence[Sequence[float]]) -> d.Drawn:
    """The strokes of a signature, at most 40 mm wide and 15 mm high.

    points  (x, y, number of the stroke), x to the right and y downwards, in any unit
    """
    xs, ys = [x for x, _, _ in points], [y for _, y, _ in points]
    across, down = max(xs) - min(xs), max(ys) - min(ys)
    scale = min(WIDEST_MM / max(across, 1e-6), HIGHEST_MM / max(down, 1e-6))
    strokes: dict[float, list[d.Point]] = {}
    for x, y, stroke in points:
        strokes.setdefault(stroke, []).append(((x - min(xs)) * scale + PEN_MM, (y - min(ys)) * scale + PEN_MM))
    size = (across * scale + 2 * PEN_MM, down * scale + 2 * PEN_MM)
    lines = [d.stroke(d.through(line), PEN_MM, stroke_linecap="round") for line in strokes.values()]
    return d.drawing("Signature", size, *lines)
