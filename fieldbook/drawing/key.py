"""The key to the drawings: every line, hatching, symbol and sign in them, with what it says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from shapely import box

from ..checks.verdict import Word
from . import drafting as d
from . import hatching, symbols
from .bow import HOW_READ as BOW_READ
from .elevation import HOW_READ, PAPER_MM
from .signs import verdict_mark

ROW_MM, SWATCH_MM, HEADING_MM = 5.0, 15.0, 6.0
LINE_MM = 3.6
HALF_MM = 2.1  # half the height of a hatched swatch
HOLDS = ("hole", "hook", "bolt", "frame", "flange", "moulding", "other")
HOLES = {"none": "without a hole", "existing": "in an old hole", "new": "in a new hole"}
SIGNS = {
    Word.WITHIN: "within the limit",
    Word.AGREED: "agreed",
    Word.DOES_NOT_APPLY: "does not apply",
    Word.REFUSED: "refused",
    Word.NOT_AGREED: "not agreed",
    Word.CLOSE: "close to the limit",
    Word.OVER: "over the limit",
    Word.NOT_KNOWN: "not known",
}

Row = tuple[list[d.Drawn], str]


def key(*, paper_width_mm: float = PAPER_MM[0]) -> d.Drawn:
    """The key as one SVG, for all drawings of a record."""
    columns = (
        {"Lines": _lines},
        {"What is forbidden": _hatchings, "Signs": _signs},
        {"Planned, fitted, taken down": _symbols},
    )
    width, foot, drawn = paper_width_mm / len(columns), 0.0, []
    for column, parts in enumerate(columns):
        x, top = column * width + 1, 0.0
        for heading, rows in parts.items():
            drawn.append(d.letters(heading, (x, top + 4), bold=True))
            top, rows_drawn = _rows(rows(x), x, top + HEADING_MM, width)
            drawn += rows_drawn
        foot = max(foot, top)
    for line in d.wrapped(f"{HOW_READ} In a bow: {BOW_READ}", d.FIGURE, paper_width_mm - 2):
        foot += LINE_MM + 0.3
        drawn.append(d.letters(line, (1, foot), d.FIGURE))
    return d.drawing("Key to the drawings", (paper_width_mm, foot + 1), *drawn)


def _rows(rows: Iterable[Row], x: float, top: float, width: float) -> tuple[float, list[d.Drawn]]:
    """Rows one below the other, and where they end."""
    drawn = []
    for swatch, words in rows:
        lines = d.wrapped(words, d.FIGURE, width - SWATCH_MM - 4)
        height = max(ROW_MM, LINE_MM * len(lines) + 1.2)
        middle = top + height / 2
        drawn.append(d.group(*swatch, transform=f"translate(0 {d.number(middle)})"))
        first = middle + d.FIGURE / 2 - LINE_MM / 2 * (len(lines) - 1)
        places = [(x + SWATCH_MM + 2, first + LINE_MM * line) for line in range(len(lines))]
        drawn += [d.letters(line, place, d.FIGURE) for line, place in zip(lines, places, strict=True)]
        top += height
    return top, drawn


def _lines(x: float) -> Iterator[Row]:
    def line(pen: float, ink: str, dashes: tuple[float, ...] = d.CONTINUOUS) -> list[d.Drawn]:
        return [d.stroke(d.through([(x, 0), (x + SWATCH_MM, 0)]), pen, ink, dashes)]

    yield line(d.WIDE, d.BLACK), "what exists or is fitted"
    yield line(d.NARROW, d.BLUE), "planned"
    yield line(d.NARROW, d.BLACK, d.DASHED), "taken down"
    yield line(d.EXTRA_WIDE, d.BLACK), "floor; a face cut through"
    yield line(d.MEDIUM, d.VERMILION), "keep-off zone; in the strip: clear depth"
    yield line(d.NARROW, d.VERMILION, d.DASHED), "its margin; in the strip: a leaf’s sweep"
    yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOTTED), "a route, flat or headroom limit"
    yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOUBLE_DOTTED), "a leaf in front of the face"
    yield line(d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED), "a leaf’s end positions"
    bar = [((x, 0), (x + 5, 0)), ((x + 5, -0.8), (x + 5, 0.8))]
    yield [d.stroke(d.segments(bar), d.NARROW, d.BLUE)], "towards where it was planned"


def _hatchings(x: float) -> Iterator[Row]:
    area = box(x, -HALF_MM, x + SWATCH_MM, HALF_MM)
    for forbidden in hatching.FAMILIES:
        edge = d.stroke(d.rectangle(x, -HALF_MM, SWATCH_MM, 2 * HALF_MM), d.MEDIUM, d.VERMILION)
        yield [*hatching.hatched(area, [forbidden]), edge], forbidden


def _symbols(x: float) -> Iterator[Row]:
    for hole, words in HOLES.items():
        states = [symbols.fixing((x + 2 + 4.5 * at, 0), hole, state) for at, state in enumerate(symbols.STATE_LINES)]
        yield states, f"fixing {words}"
    holds = [symbols.hold((x + 1.5 + 3.6 * at, 0), sort, "yes") for at, sort in enumerate(HOLDS[:4])]
    yield holds, ", ".join(HOLDS[:4])
    holds = [symbols.hold((x + 1.5 + 3.6 * at, 0), sort, "yes") for at, sort in enumerate(HOLDS[4:])]
    yield holds, ", ".join(HOLDS[4:])
    yield [symbols.hold((x + 2, 0), "hole", "no")], "one that may not be used"
    yield [symbols.datum((x + 2, symbols.DATUM_MM / 2))], "datum: x = 0, z = 0"


def _signs(x: float) -> Iterator[Row]:
    for word, words in SIGNS.items():
        yield [verdict_mark(word, (x + 2, 0), 1.4)], f"{word}: {words}" if word not in words else words
