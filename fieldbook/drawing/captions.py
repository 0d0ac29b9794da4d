"""What stands under a drawing: its title, its scale with a bar, and what it cannot show."""

from __future__ import annotations

from collections.abc import Iterable

from . import drafting as d
from .dimensions import scale_bar

BAR_MM, LEAST_BAR_MM, BAR_RIGHT_MM = 50.0, 25.0, 14.0  # its greatest and least length; room for its last figure
TITLE_LINE_MM, LINE_MM, NOTE_LINE_MM = 4.8, 4.6, 3.9
LEFT_MM = 2.0
BESIDE_FROM_MM = 120.0  # narrower paper has the bar above the title
LEAST_MM, SHORT_MM = 20.0, 13.0  # with a title of one line and a note; where the name stands above


def caption_below_name(
    what: str, scale: int, notes: Iterable[str], top_mm: float, width_mm: float
) -> tuple[list[d.Drawn], float]:
    """As `caption`, in one line with the bar, where the name of what is drawn stands above the drawing."""
    words, y = f"{what}, 1:{scale}", top_mm + 5.5
    bar_mm = min(BAR_MM, width_mm - d.width_of(words) - 4 * LEFT_MM - BAR_RIGHT_MM)
    bar, _ = (
        scale_bar((width_mm - BAR_RIGHT_MM - bar_mm, y - 1.2), scale, bar_mm) if bar_mm >= LEAST_BAR_MM else ([], 0)
    )
    below, foot = _notes(notes, y + 1, width_mm)
    return [*bar, d.letters(words, (LEFT_MM, y)), *below], foot


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
    below, foot = _notes(notes, y + 1, width_mm)
    return [*drawn, *below], foot


def _notes(notes: Iterable[str], y: float, width_mm: float) -> tuple[list[d.Drawn], float]:
    drawn = []
    for note in notes:
        for line in d.wrapped(note, d.FIGURE, width_mm - 2 * LEFT_MM):
            y += NOTE_LINE_MM
            drawn.append(d.letters(line, (LEFT_MM, y)))
    return drawn, y + 1.5
