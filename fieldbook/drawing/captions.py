"""What stands under a drawing: its title, its scale with a bar, and what it cannot show."""

from __future__ import annotations

from collections.abc import Iterable

from . import drafting as d
from .dimensions import scale_bar

BAR_MM, BAR_RIGHT_MM = 50.0, 14.0  # its greatest length, and room for its last figure
TITLE_LINE_MM, LINE_MM, NOTE_LINE_MM = 4.8, 4.6, 3.2
LEFT_MM = 2.0
BESIDE_FROM_MM = 120.0  # narrower paper has the bar above the title
LEAST_MM = 15.0  # with a title of one line and one note


def caption(
    title: str, what: str, scale: int, notes: Iterable[str], top_mm: float, width_mm: float
) -> tuple[list[d.Drawn], float]:
    """The caption below `top_mm` of the paper, and where it ends."""
    beside = width_mm >= BESIDE_FROM_MM
    bar_mm = BAR_MM if beside else width_mm - BAR_RIGHT_MM - 2 * LEFT_MM
    bar, _ = scale_bar((width_mm - BAR_RIGHT_MM - bar_mm, top_mm + 7), scale, bar_mm)
    drawn, y = [*bar], top_mm + (2 if beside else 9)
    for line in d.wrapped(title, d.HEADING, (width_mm - (BAR_RIGHT_MM + BAR_MM + 8 if beside else 2 * LEFT_MM)) / 1.1):
        y += TITLE_LINE_MM
        drawn.append(d.letters(line, (LEFT_MM, y), d.HEADING, bold=True))
    y += LINE_MM
    drawn.append(d.letters(f"{what}, scale 1:{scale}", (LEFT_MM, y)))
    y += 1
    for note in notes:
        for line in d.wrapped(note, d.SMALL, width_mm - 2 * LEFT_MM):
            y += NOTE_LINE_MM
            drawn.append(d.letters(line, (LEFT_MM, y), d.SMALL))
    return drawn, y + 1.5
