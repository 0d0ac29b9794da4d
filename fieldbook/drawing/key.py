"""The key to the drawings: every line, hatching, symbol and sign in them, with what it says."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from shapely import box

from ..book.site import Site
from ..checks.verdict import Word
from ..findings import Finding
from ..model.choices import STATES
from . import drafting as d
from . import hatching, symbols
from .bow import HOW_READ as BOW_READ
from .elevation import AXES_NOTE, HOW_READ, PAPER_MM
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


@dataclass(frozen=True)
class Met:
    """What a reader meets in some drawings, and is to find in their key.

    states   of fittings and fixings
    limits   sorts of clearance limits
    forbids  what zones forbid
    holes    of fixings
    holds    sorts of existing fixing points; `barred` whether one may not be used
    moved    whether a fixing is not where it was planned
    words    the words whose signs stand in them
    """

    states: Collection[str] = STATES
    limits: Collection[str] = ("leaf", "route")
    forbids: Collection[str] = tuple(hatching.FAMILIES)
    holes: Collection[str] = tuple(HOLES)
    holds: Collection[str] = HOLDS
    barred: bool = True
    moved: bool = True
    words: Collection[Word] = tuple(SIGNS)


def met(site: Site, findings: Iterable[Finding]) -> Met:
    """What is met in the drawings of a site."""
    fixings, holds = site.all("fixing"), site.all("hold")
    return Met(
        states={one.state for one in (*fixings, *site.all("fitting"))},
        limits={one.sort for one in site.all("limit")},
        forbids={forbidden for zone in site.all("zone") for forbidden in zone.forbids},
        holes={one.hole for one in fixings},
        holds={one.sort for one in holds},
        barred=any(one.may_be_used == "no" for one in holds),
        moved=any(one.fitted_x_mm is not None for one in fixings),
        words={one.word for one in findings},
    )


def key(met: Met = Met(), *, paper_width_mm: float = PAPER_MM[0]) -> d.Drawn:  # noqa: B008 (it is frozen)
    """The key as one SVG, for all drawings in which this is met."""
    columns = (
        {"Lines": _lines},
        {"What is forbidden": _hatchings, "Signs": _signs},
        {"Planned, fitted, taken down": _symbols},
    )
    width, foot, drawn = paper_width_mm / len(columns), 0.0, []
    for column, parts in enumerate(columns):
        x, top = column * width + 1, 0.0
        for heading, rows in parts.items():
            told = list(rows(met, x))
            if not told:
                continue
            drawn.append(d.letters(heading, (x, top + 4), bold=True))
            top, rows_drawn = _rows(told, x, top + HEADING_MM, width)
            drawn += rows_drawn
        foot = max(foot, top)
    # Drawings without signs stand beside a list, as the setting-out sheet's, and none of them is a bow.
    read = f"{HOW_READ} In a bow: {BOW_READ}" if met.words else AXES_NOTE
    for line in d.wrapped(read, d.FIGURE, paper_width_mm - 2):
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


def _lines(met: Met, x: float) -> Iterator[Row]:
    def line(pen: float, ink: str, dashes: tuple[float, ...] = d.CONTINUOUS) -> list[d.Drawn]:
        return [d.stroke(d.through([(x, 0), (x + SWATCH_MM, 0)]), pen, ink, dashes)]

    yield line(d.WIDE, d.BLACK), "what exists or is fitted"
    if "planned" in met.states:
        yield line(d.NARROW, d.BLUE), "planned"
    if "taken down" in met.states:
        yield line(d.NARROW, d.BLACK, d.DASHED), "taken down"
    yield line(d.EXTRA_WIDE, d.BLACK), "floor; a face cut through"
    leaf = "leaf" in met.limits
    if met.forbids or met.limits:
        yield line(d.MEDIUM, d.VERMILION), "keep-off zone; in the strip: clear depth"
        yield line(d.NARROW, d.VERMILION, d.DASHED), f"its margin{'; in the strip: a leaf’s sweep' if leaf else ''}"
    if set(met.limits) - {"leaf"}:
        yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOTTED), "a route, flat or headroom limit"
    if leaf:
        yield line(d.NARROW, d.VERMILION, d.LONG_DASHED_DOUBLE_DOTTED), "a leaf in front of the face"
        yield line(d.NARROW, d.BLACK, d.LONG_DASHED_DOUBLE_DOTTED), "a leaf’s end positions"
    if met.moved:
        bar = [((x, 0), (x + 5, 0)), ((x + 5, -0.8), (x + 5, 0.8))]
        yield [d.stroke(d.segments(bar), d.NARROW, d.BLUE)], "towards where it was planned"


def _hatchings(met: Met, x: float) -> Iterator[Row]:
    area = box(x, -HALF_MM, x + SWATCH_MM, HALF_MM)
    for forbidden in filter(met.forbids.__contains__, hatching.FAMILIES):
        edge = d.stroke(d.rectangle(x, -HALF_MM, SWATCH_MM, 2 * HALF_MM), d.MEDIUM, d.VERMILION)
        yield [*hatching.hatched(area, [forbidden]), edge], forbidden


def _symbols(met: Met, x: float) -> Iterator[Row]:
    for hole in filter(met.holes.__contains__, HOLES):
        states = [symbols.fixing((x + 2 + 4.5 * at, 0), hole, state) for at, state in enumerate(symbols.STATE_LINES)]
        yield states, f"fixing {HOLES[hole]}"
    sorts = [sort for sort in HOLDS if sort in met.holds]
    for few in (sorts[:4], sorts[4:]):
        if few:
            yield [symbols.hold((x + 1.5 + 3.6 * at, 0), sort, "yes") for at, sort in enumerate(few)], ", ".join(few)
    if met.barred:
        yield [symbols.hold((x + 2, 0), "hole", "no")], "one that may not be used"
    yield [symbols.datum((x + 2, symbols.DATUM_MM / 2))], "datum: x = 0, z = 0"


def _signs(met: Met, x: float) -> Iterator[Row]:
    for word in filter(met.words.__contains__, SIGNS):
        words = SIGNS[word]
        yield [verdict_mark(word, (x + 2, 0), 1.4)], f"{word}: {words}" if word not in words else words
