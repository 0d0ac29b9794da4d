"""A fitting's load path as a diagram: from the weight, through what carries it, to the fabric, with the figures on it.

It takes words and figures as they are to be shown; what they are reckoned from is no concern of the drawing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..checks.verdict import Word
from . import drafting as d
from .dimensions import arrowhead
from .signs import verdict_mark

WIDTH_MM = 120.0
LINE_MM, HEAD_MM, FOOT_MM = 4.0, 5.0, 1.4  # in a frame: a part, its heading, below the last part
ARROW_MM, ARROW_AT_MM = 7.5, 14.0  # between frames, and from their left
INSET_MM = 2.5
VERDICT_AT, MOST_NAME = (
    0.8,
    0.6,
)  # shares of the width: where verdicts begin; and most a name gets of what is before them
FABRIC_MM = 3.0
SIGN_MM = 2.2  # from the middle of a verdict's sign to its word


@dataclass(frozen=True)
class Carrier:
    """One thing that carries: its name, what it carries of what it may, and the verdict, if there is one."""

    name: str
    figures: str = ""
    word: Word | None = None


@dataclass(frozen=True)
class Level:
    """Things that share a load side by side.

    heading   what they are
    passes_on  what goes on to the level below, as it stands beside the arrow
    """

    heading: str
    parts: Sequence[Carrier] = ()
    passes_on: str = ""


def load_path(title: str, levels: Sequence[Level], *, paper_width_mm: float = WIDTH_MM) -> d.Drawn:
    """The levels from the weight at the top to the fabric at the bottom, as one SVG."""
    y, drawn = 1.0, []
    for index, level in enumerate(levels):
        last = index == len(levels) - 1
        frame, height = _frame(level, y, paper_width_mm, fabric=last)
        drawn += frame
        y += height
        if not last:
            drawn += _arrow(level.passes_on, (ARROW_AT_MM, y), paper_width_mm)
            y += ARROW_MM
    return d.drawing(title, (paper_width_mm, y + 1), *drawn)


def _frame(level: Level, y: float, width_mm: float, *, fabric: bool) -> tuple[list[d.Drawn], float]:
    """A level in its frame, and the height of it; the last stands for the fabric and is hatched below."""
    inner = width_mm - 2 * INSET_MM
    wide = max((SIGN_MM + d.width_of(str(part.word)) for part in level.parts if part.word), default=0.0)
    end = min(inner * VERDICT_AT, inner - wide) if wide else inner
    named = max((d.width_of(part.name) for part in level.parts if part.figures), default=0.0)
    figures_at = min(named + 2, end * MOST_NAME)
    columns = [(part, *_columns(part, figures_at, end)) for part in level.parts]
    heading = d.wrapped(level.heading, d.FIGURE, inner / 1.1)
    height = HEAD_MM + LINE_MM * (len(heading) - 1) + FOOT_MM
    height += sum(LINE_MM * max(len(name), len(figures)) for _, name, figures in columns)
    drawn = [d.stroke(d.rectangle(0.5, y, width_mm - 1, height), d.EXTRA_WIDE if fabric else d.MEDIUM)]
    if fabric:
        drawn.append(_hatching(y + height, width_mm))
    line = y + HEAD_MM - 1
    for words in heading:
        drawn.append(d.letters(words, (INSET_MM, line), bold=True))
        line += LINE_MM
    for part, name, figures in columns:
        drawn += [d.letters(words, (INSET_MM, line + LINE_MM * at), d.FIGURE) for at, words in enumerate(name)]
        column = INSET_MM + figures_at
        drawn += [d.letters(words, (column, line + LINE_MM * at), d.FIGURE) for at, words in enumerate(figures)]
        if part.word:
            x = INSET_MM + end
            drawn += [
                verdict_mark(part.word, (x, line - d.FIGURE / 2), 1.2),
                d.letters(str(part.word), (x + SIGN_MM, line)),
            ]
        line += LINE_MM * max(len(name), len(figures))
    return drawn, height + (FABRIC_MM if fabric else 0)


def _columns(part: Carrier, figures_mm: float, end_mm: float) -> tuple[list[str], list[str]]:
    name = d.wrapped(part.name, d.FIGURE, (figures_mm if part.figures else end_mm) - 2)
    return name, d.wrapped(part.figures, d.FIGURE, end_mm - figures_mm - 2)


def _arrow(words: str, at: d.Point, width_mm: float) -> list[d.Drawn]:
    """The force that goes on, downwards."""
    start, end = at, (at[0], at[1] + ARROW_MM)
    lines = d.wrapped(words, d.FIGURE, width_mm - ARROW_AT_MM - 4)[:2]
    top = (start[1] + end[1]) / 2 + d.FIGURE / 2 - LINE_MM / 2 * (len(lines) - 1)
    return [
        d.stroke(d.through([start, (end[0], end[1] - 1)]), d.WIDE),
        d.filled(arrowhead(end, start, end, forward=True, times=1.6)),
        *[d.letters(line, (at[0] + 2.5, top + LINE_MM * index)) for index, line in enumerate(lines)],
    ]


def _hatching(y: float, width_mm: float) -> d.Drawn:
    starts = [1 + 2 * step for step in range(int((width_mm - 4) / 2))]
    return d.stroke(d.segments(((x, y + FABRIC_MM), (x + FABRIC_MM, y)) for x in starts))
