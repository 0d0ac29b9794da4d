"""The key to the drawings: every line, hatching, symbol and sign in them, with what it says."""

from __future__ import annotations

from collections.abc import Iterator

from shapely import box

from ..checks.verdict import Word
from . import drafting as d
from . import hatching, symbols
from .elevation import PAPER_MM
from .signs import verdict_mark

COLUMNS = 3
ROW_MM, SWATCH_MM, HEADING_MM = 7.0, 15.0, 8.0
LINE_MM = 2.8
HALF_MM = 2.8  # half the height of a hatched swatch
HOLDS = ("hole", "hook", "bolt", "frame", "flange", "moulding", "other")
HOLES = {"none": "bears on it, no hole", "existing": "uses a hole that is there", "new": "needs a new hole"}
SIGNS = {
    Word.WITHIN: "within the limit",
    Word.AGREED: "agreed by whoever is entitled to",
    Word.DOES_NOT_APPLY: "does not apply",
    Word.REFUSED: "refused",
    Word.NOT_AGREED: "not agreed: the keeper is still to be asked",
    Word.CLOSE: "within, but close to the limit",
    Word.OVER: "over the limit",
    Word.NOT_KNOWN: "not known: something is missing",
}

Row = tuple[list[d.Drawn], str]


def key(*, paper_width_mm: float = PAPER_MM[0]) -> d.Drawn:
    """The key as one SVG, for all drawings of a record."""
    rows_of = {"Lines": _lines, "What is forbidden": _hatchings, "Symbols and signs": _symbols}
    width, foot, drawn = paper_width_mm / COLUMNS, 0.0, []
    for column, (heading, rows) in enumerate(rows_of.items()):
        x, top = column * width + 1, HEADING_MM
        drawn.append(d.letters(heading, (x, 4), bold=True))
        for swatch, words in rows(x):
            lines = d.wrapped(words, d.SMALL, width - SWATCH_MM - 4)
            height = max(ROW_MM, LINE_MM * (len(lines) + 1))
            middle = top + height / 2
            drawn.append(d.group(*swatch, transform=f"translate(0 {d.number(middle)})"))
            first = middle + d.SMALL / 2 - LINE_MM / 2 * (len(lines) - 1)
            places = [(x + SWATCH_MM + 2, first + LINE_MM * line) for line in range(len(lines))]
            drawn += [d.letters(line, place, d.SMALL) for line, place in zip(lines, places, strict=True)]
            top += height
        foot = max(foot, top)
    return d.drawing("Key to the drawings", (paper_width_mm, foot + 1), *drawn)


def _lines(x: float) -> Iterator[Row]:
    def line(pen: float, ink: str, dashes: tuple[float, ...] = d.CONTINUOUS) -> list[d.Drawn]:
        return [d.stroke(d.through([(x, 0), (x + SWATCH_MM, 0)]), pen, ink, dashes)]

    yield line(d.WIDE, d.BLACK), "what exists, and what is fitted"
    yield line(d.NARROW, d.BLUE), "what is planned"
    yield line(d.NARROW, d.BLACK, d.DASHED), "what was taken down"
    yield line(d.EXTRA_WIDE, d.BLACK), "the floor, and a face cut through"
    yield line(d.MEDIUM, d.VERMILION), "edge of a keep-off zone; in the strip: clear depth"
    yield line(d.NARROW, d.VERMILION, d.DASHED), "margin of a zone; in the strip: what a leaf sweeps"
    yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOTTED), "where a route, flat or headroom limit holds"
    yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOUBLE_DOTTED), "where a leaf comes in front of the face"
    yield line(d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED), "end positions of a leaf"
    bar = [((x, 0), (x + 5, 0)), ((x + 5, -0.8), (x + 5, 0.8))]
    yield [d.stroke(d.segments(bar), d.NARROW, d.BLUE)], "towards where a fixing was planned (no shorter than seen)"


def _hatchings(x: float) -> Iterator[Row]:
    area = box(x, -HALF_MM, x + SWATCH_MM, HALF_MM)
    for forbidden in hatching.FAMILIES:
        edge = d.stroke(d.rectangle(x, -HALF_MM, SWATCH_MM, 2 * HALF_MM), d.MEDIUM, d.VERMILION)
        yield [*hatching.hatched(area, [forbidden]), edge], forbidden


def _symbols(x: float) -> Iterator[Row]:
    for hole, words in HOLES.items():
        states = [symbols.fixing((x + 2 + 4.5 * at, 0), hole, state) for at, state in enumerate(symbols.STATE_LINES)]
        yield states, f"fixing, {words} (planned, fitted, taken down)"
    holds = [symbols.hold((x + 1.5 + 3.6 * at, 0), sort, "yes") for at, sort in enumerate(HOLDS[:4])]
    yield holds, f"existing hole or fixing point: {', '.join(HOLDS[:4])}"
    holds = [symbols.hold((x + 1.5 + 3.6 * at, 0), sort, "yes") for at, sort in enumerate(HOLDS[4:])]
    yield holds, f"existing hole or fixing point: {', '.join(HOLDS[4:])}"
    yield [symbols.hold((x + 2, 0), "hole", "no")], "existing hole or fixing point that may not be used"
    yield [symbols.datum((x + 2, symbols.DATUM_MM / 2))], "datum: x = 0, z = 0"
    for word, words in SIGNS.items():
        yield [verdict_mark(word, (x + 2, 0), 1.4)], f"{word}: {words}" if word not in words else words
