"""The one place for the signs of findings and of hazards, drawn by ourselves.

A finding's sign differs from the others in its outline, never in colour alone, and stands beside its word: a
solid square with a cross for refused, a solid arrow that passes its bar for over, a sheet with nothing but a line
on it for not agreed, a flag for agreed, a question mark for not known, two bars for close, a tick for within, a
dash for does not apply.
Hazard signs keep to the scheme of warning signs in ISO 7010 (yellow triangle, black border, black figure; from
memory, not seen in a readable copy); the figures in them are our own.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..checks.verdict import STOP, Word
from . import drafting as d

YELLOW = "#f9a800"
SIGN_MM = 3.5
HAZARD_MM = 12.0
_REACH = 0.86  # of half the sign's size: a pen along the edge stays inside


# The marks of the words in a box from -10 to 10, y downwards: (path data, drawn with a pen rather than filled,
# in paper rather than ink). Their outlines differ at arm's length; static/phone/drawing/signs.js has the same.
_SQUARE = "M-9 -9H9V9H-9Z"
_LEAF = "M-8 -9H3L8 -4V9H-8Z"
MARKS: Mapping[Word, tuple[tuple[str, bool, bool], ...]] = {
    Word.REFUSED: ((_SQUARE, False, False), ("M-5 -5L5 5M5 -5L-5 5", True, True)),
    Word.OVER: (("M0 -10L7.5 -2H3V1H9.5V5H3V9.5H-3V5H-9.5V1H-3V-2H-7.5Z", False, False),),
    Word.NOT_AGREED: ((_LEAF, True, False), ("M-4 5H4", True, False)),
    Word.NOT_KNOWN: (("M-5.5 -4.5A5.5 5 0 1 1 0 1.5V4M0 7.5V9.5", True, False),),
    Word.CLOSE: (("M-3.5 -9V9M3.5 -9V9", True, False),),
    Word.WITHIN: (("M-9 0.5L-3 7.5L9 -7.5", True, False),),
    Word.AGREED: (("M-7 10V-9.5H8.5L4 -4.25L8.5 1H-7", True, False),),
    Word.DOES_NOT_APPLY: (("M-8 0H8", True, False),),
}


def sign(word: Word | str, size_mm: float = SIGN_MM) -> d.Drawn:
    """A word's sign by itself; the word is its title, and belongs beside it in letters as well."""
    half = size_mm / 2
    return d.drawing(str(word), (size_mm, size_mm), verdict_mark(Word(word), (half, half), half * _REACH))


def verdict_mark(word: Word, at: d.Point, radius: float) -> d.Drawn:
    """A word's sign inside another drawing."""
    ink = d.VERMILION if word in STOP else d.BLACK
    parts = [
        d.stroke(path, 2.6, d.PAPER if paper else ink) if pen else d.filled(path, ink)
        for path, pen, paper in MARKS[word]
    ]
    scale = f"translate({d.number(at[0])} {d.number(at[1])}) scale({radius / 10:.4f})"
    return d.group(*parts, transform=scale)


# Figures in a triangle whose middle lies at 0, 0 and whose border leaves a circle of radius 5 free, y downwards.
# Each is (path data, drawn with a pen rather than filled).
_Figure = tuple[tuple[str, bool], ...]
_GRAINS = (
    (0, -3.4, 0.5), (-1.3, -1.7, 0.6), (1.2, -1.5, 0.5), (-2.4, 0.3, 0.6),
    (0, 0.2, 0.75), (2.3, 0.4, 0.6), (-1.2, 1.9, 0.6), (1.3, 2, 0.7),
)  # fmt: skip
_GENERAL: _Figure = (("M-0.75 -4.6H0.75L0.45 1.4H-0.45Z", False), (d.circle(0, 3, 0.8), False))
_FIGURES: dict[str, _Figure] = {
    "": _GENERAL,
    # a bracket bending under a block
    "loads": (
        ("M-3.4 -3V4", True),
        ("M-3.4 -0.4C-1 -0.4 1.6 0.2 3.4 1.6", True),
        ("M-0.6 -3.6H2.6V-0.9L-0.6 -1.6Z", False),
        ("M-3.4 3.2L0 0", True),
    ),
    # a block hanging from one strand over a head
    "overhead work": (
        ("M0 -5.2V-3.4", True),
        ("M-2.4 -3.4H2.4V-0.6H-2.4Z", False),
        (d.circle(0, 2.2, 1.1), False),
        ("M-2.6 5A2.6 1.7 0 0 1 2.6 5Z", False),
    ),
    # someone leaning on a rail that gives way
    "leaning or climbing": (
        (d.circle(-1.2, -2.6, 1.05), False),
        ("M-3.6 4.4L-2.2 -0.4L1.4 0.6M-2.9 2L-1 4.4", True),
        ("M1.2 0.2L3.6 1.4M2.2 0.8L3 4.4", True),
    ),
    # two arms under a block, an arrow upwards
    "lifting": (
        ("M-2 0H2V3H-2Z", False),
        ("M-3.8 -0.6V3.9H3.8V-0.6", True),
        ("M0 -0.8V-2.6", True),
        ("M-1.4 -2.4L0 -4.6L1.4 -2.4Z", False),
    ),
    # grains falling on a line
    "dust": (("".join(d.circle(*grain) for grain in _GRAINS), False), ("M-3.8 4H3.8", True)),
    # a brush and flakes coming off
    "old lead paint": (
        ("M-0.6 -4.8H0.6L1 -2H-1Z", False),
        ("M-1.9 -2H1.9V0.4H-1.9Z", False),
        ("M-3.4 1.8L-2 1.4L-2.4 2.8ZM-0.4 2.2L1 1.8L0.4 3.4Z", False),
        ("M2.2 1.4L3.4 2.2L2.2 2.9ZM-2.2 4.2L-0.9 3.7L-1.2 4.7Z", False),
    ),
    # crossing fibres
    "asbestos": (
        ("M-3.6 3.4L1.6 -2.6M-2.4 -0.8L3.2 3.8M-3.2 1.2L3.6 0.8M-0.8 -3.8L0.8 4.4M2.6 -0.6L-1.6 4.2", True),
    ),
    # a cable behind a wall, met by a drill's tip
    "hidden services": (
        ("M-4 1.2C-2.4 -0.8 -1.4 3.2 0 1.2C1.4 -0.8 2.4 3.2 4 1.2", True),
        ("M-0.9 -4.6H0.9V-1.8L0 0.2L-0.9 -1.8Z", False),
        ("M-4 4H-1.6M-1 4H1M1.6 4H4", True),
    ),
    # a way through a door that a bar narrows
    "escape route": (
        ("M-3.4 4.2V-2.4H0.4V4.2", True),
        ("M1.8 -0.6H3.8V4.2H1.8Z", False),
        ("M-2.4 1.6H0.6", True),
        ("M0 0.1L2 1.6L0 3.1Z", False),
    ),
    # a tin without its lid, and vapour rising from it
    "solvents and fumes": (
        ("M-2.8 0.6H2.8V4.6H-2.8Z", False),
        ("M-1.6 -0.8C-2.6 -2 -0.8 -2.6 -1.6 -4M1.4 -0.8C0.4 -2 2.2 -2.6 1.4 -4", True),
    ),
    # a flash
    "electricity": (("M1.2 -5L-2.2 0.6H-0.2L-1 2.6L-1.9 2.3L-0.9 4.9L1 2.9L0.1 2.7L2.2 -0.9H0.2L1.9 -5Z", False),),
}  # fmt: skip


def hazard(key: str = "", title: str = "Caution", size_mm: float = HAZARD_MM) -> d.Drawn:
    """The warning sign of a caution by its key in `checks/cautions.py`; the general sign for any other."""
    return d.drawing(
        title,
        (size_mm, size_mm),
        d.group(_triangle(), *_figure(_FIGURES.get(key, _GENERAL)), transform=f"scale({size_mm / 24:.4f})"),
    )


def _triangle() -> d.Drawn:
    outer = "M12 2.6L22.6 21.2H1.4Z"
    return d.group(
        d.stroke(outer, 2.4, d.BLACK, fill=d.BLACK),
        d.stroke("M12 3.9L21.4 20.5H2.6Z", 0.2, YELLOW, fill=YELLOW),
        d.stroke(outer, 1.3, d.BLACK),
    )


def _figure(figure: _Figure) -> list[d.Drawn]:
    parts = [
        d.stroke(path, 0.95, stroke_linecap="round") if drawn else d.filled(path)
        for path, drawn in figure
    ]  # fmt: skip
    return [d.group(*parts, transform="translate(12 15)")]
