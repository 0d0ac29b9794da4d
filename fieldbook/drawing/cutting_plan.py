"""How parts come out of sheets or lengths, to scale: what to saw where, and what is left over.

Sheets cut alike are drawn once. Of lengths only the length is to scale.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from ..book.wording import count, marks
from ..checks.cutting import Layout, Piece, Stock
from ..checks.stock_in_hand import LeftOver
from . import drafting as d
from .captions import caption
from .dimensions import SCALES, arrowhead, said
from .elevation import PAPER_MM

LEFT_MM, RIGHT_MM = 2.0, 6.0
HEADING_MM, BELOW_MM = 5.0, 4.0  # above and below each sheet
GRAIN_MM = 4.0  # below a sheet, for the arrow
TALLEST_MM = 90.0  # of one sheet on paper
LENGTH_MM = 5.0  # on paper, how wide a length without a width is drawn
LEFT_OVER = "#d8d8d8"
ROOM_MM = 0.8  # round letters in a piece


def cutting_plan(
    title: str,
    layout: Layout,
    stock: Stock,
    *,
    told: str = "",
    paper_width_mm: float = PAPER_MM[0],
    interactive: bool = False,
) -> d.Drawn:
    """The layout as one SVG, at the largest standard scale that fits the paper.

    told  what is said of the number where other stock is cut as well; else whether fewer could do
    """
    told = told or needed_words(layout, stock)
    scale = _scale(stock, paper_width_mm)
    y, drawn, unlettered = 1.0, [], []
    for numbers, pieces in _alike(layout.pieces):
        y += HEADING_MM
        drawn.append(d.letters(f"{_noun(stock)} {numbers}", (LEFT_MM, y - 1.5), bold=True))
        drawn += _stock(stock, scale, y)
        for piece in pieces:
            lettered, words = _piece(piece, stock, scale, y)
            drawn += lettered
            unlettered += words
        y += _across_mm(stock, scale) + BELOW_MM + (GRAIN_MM if stock.width_mm is not None else 0)
    notes = [*_notes(layout, stock, told), *_listed(unlettered)]
    under, foot = caption(title, "Cutting plan", scale, notes, y - BELOW_MM, paper_width_mm)
    heading = f"Cutting plan of {title}: {told}"
    return d.drawing(heading, (paper_width_mm, foot), *drawn, *under, interactive=interactive)


def needed_words(layout: Layout, stock: Stock) -> str:
    """How many sheets or lengths it takes, and how few it could take at best."""
    needed = count(layout.needed, _noun(stock).lower())
    if layout.needed == layout.at_least:
        return f"comes out of {needed}; no layout can do with fewer"
    return f"comes out of {needed}; no layout can do with fewer than {layout.at_least}"


def taken_words(layout: Layout, stock: Stock, source: str) -> str:
    """How many sheets or lengths are cut of one size, and whether they are there or bought."""
    return f"{count(layout.needed, _noun(stock).lower())}, {source}"


def left_words(left: Iterable[LeftOver]) -> str:
    """What is left over in one piece and can be used again, the largest first; smaller rests are not told."""
    sizes = [(one.length_mm, one.width_mm) for one in left if one.is_kept]
    ordered = sorted(sizes, key=lambda size: size[0] * (size[1] or 1), reverse=True)
    told = {" × ".join(said(side) for side in size if side is not None): ordered.count(size) for size in ordered}
    return ", ".join(size if number == 1 else f"{size} ({number} times)" for size, number in told.items())


def _noun(stock: Stock) -> str:
    return "Length" if stock.width_mm is None else "Sheet"


def _scale(stock: Stock, paper_width_mm: float) -> int:
    for scale in SCALES:
        if stock.length_mm / scale <= paper_width_mm - LEFT_MM - RIGHT_MM and _across_mm(stock, scale) <= TALLEST_MM:
            return scale
    return SCALES[-1]


def _across_mm(stock: Stock, scale: int) -> float:
    return LENGTH_MM if stock.width_mm is None else stock.width_mm / scale


def _alike(pieces: Iterable[Piece]) -> list[tuple[str, tuple[Piece, ...]]]:
    """The numbers of sheets that are cut alike, and the pieces of one of them."""
    by_stock: dict[int, list[Piece]] = {}
    for piece in pieces:
        by_stock.setdefault(piece.stock, []).append(piece)
    alike: dict[tuple[Piece, ...], list[int]] = {}
    for number, cut in sorted(by_stock.items()):
        alike.setdefault(tuple(piece._replace(stock=0) for piece in cut), []).append(number)
    return [(marks([str(number) for number in numbers]), cut) for cut, numbers in alike.items()]


def _stock(stock: Stock, scale: int, y: float) -> list[d.Drawn]:
    """What is bought, grey where nothing is cut from it, with the way its grain runs."""
    long, wide = stock.length_mm / scale, _across_mm(stock, scale)
    whole = d.stroke(d.rectangle(LEFT_MM, y, long, wide), d.NARROW, fill=LEFT_OVER)
    if stock.width_mm is None:
        return [whole]
    at = y + wide + GRAIN_MM - 1.2
    start, end = (LEFT_MM + 12, at), (LEFT_MM + 30, at)
    arrows = "".join(arrowhead(tip, start, end, forward=tip == end) for tip in (start, end))
    return [
        whole,
        d.letters("grain", (LEFT_MM, at + d.FIGURE / 2), d.FIGURE),
        d.stroke(d.through([start, end])),
        d.filled(arrows),
    ]


def _piece(piece: Piece, stock: Stock, scale: int, y: float) -> tuple[list[d.Drawn], list[str]]:
    """One piece with its name and size, turned where only that fits; and its words where none fit."""
    long, wide = piece.length_mm / scale, LENGTH_MM if piece.width_mm is None else piece.width_mm / scale
    x, top = LEFT_MM + piece.x_mm / scale, y + _across_mm(stock, scale) - piece.y_mm / scale - wide
    outline = d.stroke(d.rectangle(x, top, long, wide), d.MEDIUM, fill=d.PAPER)
    size = said(piece.length_mm) + ("" if stock.width_mm is None else f" × {said(piece.width_mm or 0)}")
    middle = (x + long / 2, top + wide / 2)
    for words in (f"{piece.part} {size}", piece.part):
        across, height = d.width_of(words) + ROOM_MM, d.FIGURE
        if across <= long and height + ROOM_MM <= wide:
            return [outline, d.letters(words, (middle[0], middle[1] + height / 2), anchor="middle")], []
        if across <= wide and height + ROOM_MM <= long:
            return [outline, d.letters(words, (middle[0] + height / 2, middle[1]), anchor="middle", upright=False)], []
    return [outline], [f"{piece.part} {size}"]


def _notes(layout: Layout, stock: Stock, words: str) -> list[str]:
    size = said(stock.length_mm) + ("" if stock.width_mm is None else f" × {said(stock.width_mm)}")
    cuts = f"Each saw cut takes {said(stock.kerf_mm)} mm; it lies between the pieces and is not drawn on them."
    trimmed = f" Edges are trimmed by {said(stock.trim_mm)} mm." if stock.trim_mm else ""
    beyond = " Of lengths only the length is to scale." if stock.width_mm is None else ""
    return [
        f"{words[0].upper()}{words[1:]}. {_noun(stock)} of {size} mm. Grey is left over, "
        f"{100 * (1 - layout.used_share):.0f} % of what is cut into.",
        f"{cuts}{trimmed}{beyond}",
    ]


def _listed(unlettered: Sequence[str]) -> list[str]:
    if not unlettered:
        return []
    pieces = [f"{words}{f' ({number} times)' if number > 1 else ''}" for words, number in Counter(unlettered).items()]
    return [f"No room on the drawing to letter: {', '.join(pieces)}."]
