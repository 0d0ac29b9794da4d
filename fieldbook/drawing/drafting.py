"""A drawing sheet: elements, pens, inks, line types and letters, all in millimetres of paper.

A drawing is the text of one SVG element. It uses presentation attributes only, so that it looks
the same in a page under a strict content policy and in a PDF. Line types follow ISO 128-2 and the
heights of letters ISO 3098 (both from memory, not seen in a readable copy): lengths of dashes and
gaps are multiples of the pen's width; the height of a letter is that of its capitals.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Sequence
from html import escape
from typing import Any

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from ..book.wording import kept_together

# Inks: what exists, what is forbidden or limited, what is planned. None is told by colour alone.
BLACK, VERMILION, BLUE, PAPER = "#1a1a1a", "#b3261e", "#1f4e8c", "#ffffff"

# Pens, mm.
NARROW, MEDIUM, WIDE, EXTRA_WIDE = 0.25, 0.35, 0.5, 0.7

# Dash, gap, dash, gap, … in widths of the pen.
CONTINUOUS: tuple[float, ...] = ()
DASHED = (12, 3)  # hidden, or no longer there
LONG_DASHED_DOTTED = (24, 3, 0.5, 3)  # centre lines and axes
LONG_DASHED_DOUBLE_DOTTED = (24, 3, 0.5, 3, 0.5, 3)  # end positions of moving parts
DOTTED = (0.5, 3)

# Heights of letters, mm: for marks, figures and notes, none of which is smaller, and for headings.
FIGURE, HEADING = 2.5, 3.5

# One family, and what to fall back on. No spaces after commas: not every renderer strips them.
FAMILY = "Inter,DejaVu Sans,sans-serif"
CAPITAL_SHARE = 0.727  # height of capitals over size of type, Inter and DejaVu Sans alike

Point = tuple[float, float]


class Drawn(str):
    """Text that is markup already; everything else is escaped where it enters a drawing."""

    __slots__ = ()

    def __html__(self) -> str:
        return str(self)


def element(name: str, /, *children: str, **attributes: Any) -> Drawn:
    """One element; children that are not drawn yet are escaped, attributes that are None are left out.

    An underscore in an attribute's name stands for a hyphen.
    """
    head = "".join(
        f' {key.replace("_", "-")}="{_attribute(value)}"' for key, value in attributes.items() if value is not None
    )
    inside = "".join(child if isinstance(child, Drawn) else _escaped(child) for child in children)
    return Drawn(f"<{name}{head}>{inside}</{name}>" if inside else f"<{name}{head}/>")


class Drawing(Drawn):
    """A whole sheet, and the paper it takes."""

    width_mm: float
    height_mm: float


def drawing(title: str, size_mm: Point, *children: str, interactive: bool = False, **attributes: Any) -> Drawing:
    """The whole sheet. For paper it has its true size; an interactive one fills what holds it and may hold links."""
    width, height = size_mm
    true_size = {} if interactive else {"width": f"{number(width)}mm", "height": f"{number(height)}mm"}
    whole = element(
        "svg",
        element("title", title),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        **true_size,
        role="group" if interactive else "img",
        font_family=FAMILY,
        font_variant="tabular-nums",
        fill="none",
        stroke_linejoin="round",
        **attributes,
    )
    sheet = Drawing(whole)
    sheet.width_mm, sheet.height_mm = size_mm
    return sheet


def group(*children: str, **attributes: Any) -> Drawn:
    """Several elements as one."""
    return element("g", *children, **attributes)


def number(value: float) -> str:
    """A length to a hundredth of a millimetre of paper, as short as it can be written."""
    return f"{round(value, 2) + 0:.2f}".rstrip("0").rstrip(".")


def stroke(
    d: str,
    pen: float = NARROW,
    ink: str = BLACK,
    dashes: Sequence[float] = CONTINUOUS,
    fill: str | None = None,
    **attributes: Any,
) -> Drawn:
    """A path drawn with a pen; `dashes` is one of the line types above."""
    pattern = " ".join(number(share * pen) for share in dashes) or None
    return element("path", d=d, stroke=ink, stroke_width=pen, stroke_dasharray=pattern, fill=fill, **attributes)


def through(points: Iterable[Point], *, closed: bool = False) -> str:
    """Path data of straight lines through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closed else "")


def segments(pairs: Iterable[tuple[Point, Point]]) -> str:
    """Path data of separate straight lines."""
    return "".join(through(pair) for pair in pairs)


def along(line: BaseGeometry) -> str:
    """Path data of the lines of a shape; points in it are left out."""
    parts = getattr(line, "geoms", [line])
    return "".join(through(part.coords) for part in parts if isinstance(part, LineString) and not part.is_empty)


def rectangle(x: float, y: float, width: float, height: float) -> str:
    """Path data of a rectangle."""
    return f"M{number(x)} {number(y)}h{number(width)}v{number(height)}h{number(-width)}Z"


def rectangle_of(box: tuple[float, float, float, float]) -> str:
    """Path data of a box given by its left, top, right and bottom."""
    return rectangle(box[0], box[1], box[2] - box[0], box[3] - box[1])


def circle(x: float, y: float, radius: float) -> str:
    """Path data of a circle."""
    r, across = number(radius), number(2 * radius)
    return f"M{number(x - radius)} {number(y)}a{r} {r} 0 1 0 {across} 0a{r} {r} 0 1 0 {number(-2 * radius)} 0Z"


def filled(d: str, ink: str = BLACK, **attributes: Any) -> Drawn:
    """A flat shape."""
    return element("path", d=d, fill=ink, **attributes)


def letters(
    words: str,
    at: Point,
    height: float = FIGURE,
    *,
    anchor: str = "start",
    ink: str = BLACK,
    upright: bool = True,
    bold: bool = False,
) -> Drawn:
    """Words whose base line begins, is centred or ends at a point; not upright: read from the right of the sheet."""
    x, y = number(at[0]), number(at[1])
    return element(
        "text",
        words,
        x=x,
        y=y,
        font_size=number(height / CAPITAL_SHARE),
        font_weight="600" if bold else None,
        text_anchor=None if anchor == "start" else anchor,
        transform=None if upright else f"rotate(-90 {x} {y})",
        fill=ink,
    )


def width_of(words: str, height: float = FIGURE, *, bold: bool = False) -> float:
    """Room (mm) that words need at most, whichever of the typefaces they come out in."""
    return sum(map(_advance, words)) * height / CAPITAL_SHARE * (_BOLD_SHARE if bold else 1)


def wrapped(words: str, height: float, width: float) -> list[str]:
    """Words broken into lines that fit a width; what is longer by itself is broken within."""
    lines = [""]
    for word in re.split(r"[ \n\t]+", kept_together(words)):  # not at spaces that keep a figure and its unit together
        for piece in _pieces(word, height, width):
            longer = f"{lines[-1]} {piece}".strip()
            if width_of(longer, height) <= width:
                lines[-1] = longer
            else:
                lines.append(piece)
    return [line for line in lines if line]


def _pieces(word: str, height: float, width: float) -> Iterable[str]:
    most = max(1, int(width / (height / CAPITAL_SHARE)))  # as many as fit at a full square each
    return [word] if width_of(word, height) <= width else [word[at : at + most] for at in range(0, len(word), most)]


# Advance over size of type: the greater of Inter and DejaVu Sans, as measured in both, rounded up to a twentieth.
_ADVANCES = {
    letter: advance
    for advance, letters_of_it in (
        (0.3, "'Iijl"), (0.35, " \u00a0\u202f,.:;·‘’"), (0.4, "()/[\\]ft|"), (0.45, "!r²³"), (0.5, '"-_`–°'),
        (0.55, "*?s“”"), (0.6, "FJLckvxyz§"), (0.65, "$1256789EPSabdeghnopqu{}"), (0.7, "034BKRTXZµ"),
        (0.75, "ACUVY"), (0.8, "&DGHNOQ"),
        (0.85, "#+<=>^w~×±≤≥"), (0.95, "M"), (1, "%@m—…"),
    )
    for letter in letters_of_it
}  # fmt: skip
_WIDEST = 1.05
_BOLD_SHARE = 1.1


def _advance(letter: str) -> float:
    return 0.0 if unicodedata.combining(letter) else _ADVANCES.get(letter, _WIDEST)


def _attribute(value: Any) -> str:
    if isinstance(value, float):
        return number(value) if math.isfinite(value) else "0"
    return _escaped(str(value))


def _escaped(text: str) -> str:
    """Text for an element or an attribute; characters XML has no room for become a visible mark."""
    return escape("".join(letter if _is_seen(letter) else "\ufffd" for letter in text))


def _is_seen(letter: str) -> bool:
    return letter.isprintable() or letter in "\n\t" or unicodedata.category(letter) == "Zs"
