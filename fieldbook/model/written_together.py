"""Figures that are read off together, and may be typed together into the input of the first: x and z, width and height.

static/phone/forms/written_together.js does the same as the input is left; tests/cases/written_together.json holds both.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from .fields import Field
from .figures import in_mixed_units, number_in, tied
from .runs import NONE

GROUPS = (
    ("x_mm", "z_mm"),
    ("fitted_x_mm", "fitted_z_mm"),
    ("width_mm", "height_mm"),
    ("left_mm", "bottom_mm"),
    ("start_x_mm", "start_y_mm", "bearing_deg"),
    ("humidity_low_pct", "humidity_high_pct"),
    ("x_from_mm", "x_to_mm"),
    ("z_from_mm", "z_to_mm"),
    ("hinge_x_mm", "hinge_y_mm"),
    ("swing_from_deg", "swing_to_deg"),
    ("diameter_mm", "depth_mm"),
    ("mass_empty_kg", "mass_loaded_kg"),
    ("centre_x_mm", "centre_z_mm"),
    ("stock_length_mm", "stock_width_mm"),
    ("lab_l", "lab_a", "lab_b"),
)
_STROKE, _BETWEEN = re.compile(r"\s*/\s*"), re.compile(r",\s+|\s*[;×x]\s*|\s+")


def groups_in(fields: Iterable[Field]) -> list[tuple[Field, ...]]:
    """The groups of which all are among these fields."""
    there = {field.name: field for field in fields}
    return [tuple(there[name] for name in names) for names in GROUPS if all(name in there for name in names)]


def lists_in(group: Sequence[Field], text: str, runs: bool) -> list[list[str]]:
    """What a text of the first says of the whole group, a list for each thing; [] where it is one figure, or a run.

    runs  whether figures alone are a run of several things: of one thing they are parted by semicolons then

    A stroke parts one thing from the next, or the figures of one where a space could mark thousands: 12 / 500.
    Each figure may have its unit; where another than the one asked for stands behind some alone, none is parted.

    >>> from fieldbook.model.fields import Field, Type
    >>> place = [Field(name, name, Type.NUMBER, unit="mm", high=20_000) for name in ("x_mm", "z_mm")]
    >>> lists_in(place, "310 1205 / 620 1205", runs=True), lists_in(place, "310 mm; 1205 mm", runs=True)
    ([['310', '1205'], ['620', '1205']], [['310mm', '1205mm']])
    >>> lists_in(place, "310 1205", runs=True), lists_in(place, "0.31 1.2 m", runs=False)
    ([], [])
    """
    pieces = _STROKE.split(tied(text.strip()))
    if all(_is_one(group[0], piece) for piece in pieces):
        lists = [pieces] if len(pieces) == len(group) and not runs else []
    else:
        lists = [_BETWEEN.split(piece) for piece in pieces]
        if not (len(lists) > 1 or not runs or ";" in text) or any(len(one) != len(group) for one in lists):
            return []
    words, units = [word for one in lists for word in one], [field.unit for field in group] * len(lists)
    whole = all(_is_figure(word, unit) for word, unit in zip(words, units, strict=True))
    return lists if whole and not in_mixed_units(words, units) else []


def parted(groups: Iterable[tuple[Field, ...]], texts: Mapping[str, str], in_rows: bool = False) -> dict[str, str]:
    """Name of an input -> what it says once what was typed for a whole group stands each in its own.

    in_rows  whether they are cells of a table, where each figure may be one of a run

    It takes the place of what stood there, unless it is of several things.
    """
    found: dict[str, str] = {}
    for group in groups:
        first, *others = group
        runs = in_rows or not first.copied
        lists = lists_in(group, texts.get(first.name) or "", runs)
        if not lists or (not runs and len(lists) > 1):
            continue
        if len(lists) == 1 or not any((texts.get(one.name) or "").strip() for one in others):
            found |= {one.name: " / ".join(each[at] for each in lists) for at, one in enumerate(group)}
    return found


def _is_one(field: Field, text: str) -> bool:
    figure = number_in(text, field.unit)
    return isinstance(figure, float) and field.low <= figure <= field.high


def _is_figure(word: str, unit: str) -> bool:
    return word == NONE or isinstance(number_in(word, unit), float)
