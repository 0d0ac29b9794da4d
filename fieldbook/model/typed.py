"""Values as a person types and reads them: the text of a form's input, and back."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from datetime import datetime
from itertools import pairwise
from typing import Any

from ..errors import UnsuitableShape
from .days_typed import day_in, moment_in
from .fields import Field, Type
from .figures import in_mixed_units, number_in, tied, typed_number

CIRCLE_CORNERS = 64
YES, NO = "yes", "no"
GRID = "grid "
DITTO = {'"', "″", "”", "〃"}
# A rectangle as it is noted: where it begins, and its size.
_SIZED = re.compile(r"^(\S+\s+\S+\s+[^\s×x]+)\s*[×x]\s*([^\s×x]+)$", re.IGNORECASE)


def from_text(field: Field, text: str) -> Any:
    """What the text of one input means, before `values.accept` judges it.

    An outline is one corner a line (x z), or `x z width × height`, or `circle x z radius`.
    Rows are one a line, their cells parted by semicolons or tabs (or by spaces where all are numbers); those of a
    place, a height and a figure may be a grid. A ditto mark says the same as the cell above.
    Numbers are read as `figures` says, days as `days_typed` does, a word that is chosen by its beginning as well, and a
    moment without its offset is this machine's.
    Text that cannot be read is handed on as it is, to be refused.
    """
    text = text.strip()
    if not text:
        return None
    if field.type in {Type.NUMBER, Type.WHOLE}:
        return number_in(text, field.unit)
    if field.type is Type.YES_NO:
        return {YES: 1, NO: 0}.get(whole_word(text, (YES, NO)), text)
    if field.type is Type.CHOICE:
        return whole_word(text, field.choices)
    if field.type is Type.DATE:
        return day_in(text)
    if field.type is Type.MOMENT:
        return _with_offset(moment_in(text))
    if field.type is Type.OUTLINE:
        return _outline_from(field, text)
    if field.type is Type.ROWS:
        if text.lower().startswith(GRID) and len(field.columns) == 3:
            return _grid_from(field, text)
        return _dittoed([_row_from(field, line) for line in text.splitlines() if line.strip()])
    return text


def to_text(field: Field, value: Any) -> str:
    """The text an input shows for a stored value; `from_text` reads it back the same."""
    if value is None:
        return ""
    if field.type is Type.YES_NO:
        return YES if value else NO
    if field.type in {Type.NUMBER, Type.WHOLE}:
        return typed_number(value)
    if field.type is Type.MOMENT:
        return _at_this_clock(str(value))
    if field.type in {Type.ROWS, Type.OUTLINE}:
        between = " " if all(column.type is Type.NUMBER for column in field.columns) else "; "
        rows = [[_cell_to(cell) for cell in row] for row in value]
        # A semicolon within a cell parts nothing: such a row stands with tabs.
        return "\n".join(("\t" if any(";" in cell for cell in row) else between).join(row) for row in rows)
    if isinstance(value, list):
        return ", ".join(value)
    return str(value)


def whole_word(text: str, words: Sequence[str]) -> str:
    """The word that a text is, or of which alone it is the beginning; else the text.

    >>> whole_word("la", ("old", "later")), whole_word("n", ("no", "not known"))
    ('later', 'n')
    """
    meant = [word for word in words if word.lower() == text.lower()]
    begun = [word for word in words if text and word.lower().startswith(text.lower())]
    return next((some[0] for some in (meant, begun) if len(some) == 1), text)


def _with_offset(text: str) -> str:
    """A moment typed without its offset is meant as this machine's clock shows it."""
    try:
        moment = datetime.fromisoformat(text)
        return moment.astimezone().isoformat() if moment.tzinfo is None else text
    except (ValueError, OverflowError):
        return text


def _at_this_clock(moment: str) -> str:
    """A moment as the clock on the wall said it, where it is read back as the same; else with its offset."""
    plain = moment[:16].replace("T", " ")
    return plain if _with_offset(plain) == moment else moment


def _row_from(field: Field, line: str) -> list[Any]:
    numeric = all(column.type is Type.NUMBER for column in field.columns)
    cells = row_cells(line) if ";" in line or "\t" in line or not numeric else re.split(r",\s+|\s+", tied(line.strip()))
    if len(cells) > len(field.columns):
        return [cell.strip() for cell in cells]
    return [from_text(column, cell) for column, cell in zip(field.columns, cells, strict=False)]


def _dittoed(rows: list[list[Any]]) -> list[list[Any]]:
    """Rows with what stands above in place of a ditto mark."""
    for above, row in pairwise(rows):
        for place, cell in enumerate(row[: len(above)]):
            row[place] = above[place] if isinstance(cell, str) and cell in DITTO else cell
    return rows


def _grid_from(field: Field, text: str) -> list[list[Any]]:
    """Rows from a grid: `grid` and the places along, then a line for each height with its figures, - for none."""
    first, *lines = [tied(line).split() for line in text.splitlines() if line.strip()]
    across, rows = first[1:], []
    for up, *figures in lines:
        if len(figures) > len(across):
            reason = f"{field.label}: at {up} there are {len(figures)} figures for {len(across)} places."
            raise UnsuitableShape(reason, "Give a place along for each.", field=field.name, value=" ".join(figures))
        cells = zip(across, figures, strict=False)
        texts = [(along, up, read) for along, read in cells if read != "-"]
        units = [column.unit for column in field.columns]
        rows += [[number_in(text, unit) for text, unit in zip(row, units, strict=True)] for row in texts]
    return rows


def row_cells(line: str) -> list[str]:
    """The cells of one line, parted by semicolons, or by tabs as a spreadsheet gives them."""
    return [cell.strip() for cell in line.split("\t" if "\t" in line else ";")]


def _outline_from(field: Field, text: str) -> list[list[Any]]:
    word, *rest = _SIZED.sub(r"rectangle \1 \2", tied(text)).split()
    unit = field.columns[0].unit
    figures = [figure for one in rest if isinstance(figure := number_in(one, unit), float)]
    numeric = len(figures) == len(rest) and not in_mixed_units(rest, [unit] * len(rest))
    if word.lower() == "rectangle" and len(figures) == 4 and numeric:
        return rectangle(*figures)
    if word.lower() == "circle" and len(figures) == 3 and numeric:
        return circle(*figures)
    if word.isalpha():
        raise UnsuitableShape(
            f"{field.label}: “{text[:40]}” cannot be read.",
            "Write “x z width × height”, “circle x z radius”, or one corner a line.",
            field=field.name,
            value=text,
        )
    return [_row_from(field, line) for line in text.splitlines() if line.strip()]


def rectangle(x_mm: float, z_mm: float, width_mm: float, height_mm: float) -> list[list[float]]:
    """The four corners of a rectangle from its lower left one."""
    right, top = x_mm + width_mm, z_mm + height_mm
    return [[x_mm, z_mm], [right, z_mm], [right, top], [x_mm, top]]


def circle(x_mm: float, z_mm: float, radius_mm: float) -> list[list[float]]:
    """A polygon around a circle: its sides touch the circle from outside, so no room is given away."""
    outer = abs(radius_mm) / math.cos(math.pi / CIRCLE_CORNERS) + 0.001  # what rounding to 0.001 mm may take away
    angles = (2 * math.pi * corner / CIRCLE_CORNERS for corner in range(CIRCLE_CORNERS))
    return [[round(x_mm + outer * math.cos(angle), 3), round(z_mm + outer * math.sin(angle), 3)] for angle in angles]


def _cell_to(cell: Any) -> str:
    if cell is None:
        return ""
    return typed_number(cell) if isinstance(cell, (int, float)) else str(cell)
