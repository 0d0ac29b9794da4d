"""Values as the record prints them: with their unit, a true minus, dates in words, links by what they point to."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from itertools import pairwise
from typing import Any

from ..checks.days import NO_BREAK as NO_BREAK
from ..checks.days import in_words
from ..model.fields import Field, Type
from ..model.figures import number_to
from ..model.kinds import KINDS
from ..model.typed import NO, YES
from .site import Item

MINUS = "\u2212"
NOT_HERE = "(withdrawn)"
MOST_CORNERS = 8

# The longer ones first: what stands behind a figure in sentences of checks.
_UNITS = (
    "mm/m", "mm²", "mm", "cm", "m²", "m³", "ml", "min", "m", "kg/m³", "kg", "g", "N/mm²", "N·mm", "N·m", "N m", "kN/m²",
    "kN", "N", "MPa", "klx h", "lx h", "lx", "h", "K", "°C", "%", "µW/lm", "litres", "l", "V",
)  # fmt: skip
_UNIT_BEHIND = re.compile(rf"(?<=\d) ({'|'.join(map(re.escape, _UNITS))})(?![\w²³/·])")

Titles = Mapping[str, str]
"""Id -> how the item is called where it is referred to."""


def figure(value: float | None, unit: str = "") -> str:
    """A number with its unit, which it never parts from; nothing for None."""
    if value is None:
        return ""
    text = number_to(value).replace("-", MINUS)
    if unit == "±":
        return f"±{NO_BREAK}{text}"
    return f"{text}{unit}" if unit in {"", "°"} else f"{text}{NO_BREAK}{unit.replace(' ', NO_BREAK)}"


def kept_together(words: str) -> str:
    """A sentence in which no figure is parted from its unit, for paper and screens; what is data keeps plain spaces.

    >>> kept_together("The pull is 60.1 N, 4 of 6 hold.")
    'The pull is 60.1\\xa0N, 4 of 6 hold.'
    """
    return _UNIT_BEHIND.sub(lambda unit: NO_BREAK + unit[1].replace(" ", NO_BREAK), words)


def place(x_mm: float | None, z_mm: float | None) -> str:
    """A place on a face, x then z, in mm; nothing when neither is known."""
    if x_mm is None and z_mm is None:
        return ""
    return " / ".join(figure(value) or "?" for value in (x_mm, z_mm))


def day(iso: str | None) -> str:
    """A date, or the date of a moment, in words: 31 May 2026."""
    return in_words(iso) if iso else ""


def moment(iso: str | None) -> str:
    """A moment in words, at the clock where it was noted: 31 May 2026, 14:30."""
    return f"{day(iso)}, {datetime.fromisoformat(iso):%H:%M}" if iso else ""


def said(field: Field, value: Any, titles: Titles) -> str:
    """The value of a field in words; nothing when there is none."""
    if value is None or value == []:
        return ""
    if field.type in _SAID:
        return _SAID[field.type](field, value, titles)
    return _word(field, str(value))


def _word(field: Field, word: str) -> str:
    return f"{word} (no longer offered)" if word in field.retired_choices else word


def _links(_: Field, value: Sequence[str], titles: Titles) -> str:
    return joined([titles.get(link, NOT_HERE) for link in value])


def _rows(field: Field, value: Sequence[Sequence[Any]], titles: Titles) -> str:
    rows = (zip(field.columns, row, strict=True) for row in value)
    cells = ([_sign(column) + words for column, cell in row if (words := said(column, cell, titles))] for row in rows)
    return "; ".join(map(" ".join, cells))


def _sign(column: Field) -> str:
    """What stands before a figure of a column, where no heading says so."""
    return "±" if column.label.endswith("±") else ""


def _outline(_: Field, value: Sequence[Sequence[float]], __: Titles) -> str:
    """Corners where they are few; else the rectangle they lie in."""
    xs, zs = [corner[0] for corner in value], [corner[1] for corner in value]
    within = f"x {span(min(xs), max(xs))}, z {span(min(zs), max(zs))}"
    if len(value) == 4 and all((a[0] == b[0]) != (a[1] == b[1]) for a, b in pairwise([*value, value[0]])):
        return within
    if len(value) <= MOST_CORNERS:
        return "; ".join(place(x, z) for x, z in value)
    return f"{len(value)} corners, {within}"


_SAID: dict[Type, Callable[[Field, Any, Titles], str]] = {
    Type.NUMBER: lambda field, value, _: figure(value, field.unit),
    Type.WHOLE: lambda field, value, _: figure(value, field.unit),
    Type.YES_NO: lambda _, value, __: YES if value else NO,
    Type.CHOICES: lambda field, value, __: ", ".join(_word(field, word) for word in value),
    Type.DATE: lambda _, value, __: day(value),
    Type.MOMENT: lambda _, value, __: moment(value),
    Type.LINK: lambda _, value, titles: titles.get(value, NOT_HERE),
    Type.LINKS: _links,
    Type.ROWS: _rows,
    Type.OUTLINE: _outline,
}


def span(low: float | None, high: float | None) -> str:
    """From one figure to another, either of them open."""
    return " to ".join(figure(value) or "…" for value in (low, high))


def of_item(item: Item, name: str, titles: Titles) -> str:
    """One field of an item in words."""
    return said(KINDS[item.kind].by_name[name], item.values.get(name), titles)


def facts(item: Item, names: Iterable[str], titles: Titles) -> list[tuple[str, str]]:
    """Label and words of each of these fields that is filled in."""
    fields = KINDS[item.kind].by_name
    pairs = [(fields[name].shown_label, of_item(item, name, titles)) for name in names]
    return [(label, words) for label, words in pairs if words]


def joined(words: Iterable[str], last: str = "and") -> str:
    """A list as a sentence holds it: a, b and c."""
    *first, end = list(words) or [""]
    return f"{', '.join(first)} {last} {end}" if first else end


def count(number: int, one: str, many: str | None = None) -> str:
    """A number of things: no fixings, 1 fixing, 7 fixings."""
    return f"{number or 'no'}{NO_BREAK}{one if number == 1 else many or one + 's'}"


def marks(names: Sequence[str]) -> str:
    """Marks in the order given, runs of three and more shortened: D4.1 to D4.8, D4.10."""
    runs: list[list[str]] = []
    for name in names:
        if runs and _follows(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def _parted(name: str) -> tuple[str, str]:
    stem = re.sub(r"\d+\Z", "", name)
    return stem, name[len(stem) :]


def _follows(before: str, after: str) -> bool:
    (stem, number), (next_stem, next_number) = (_parted(name) for name in (before, after))
    return stem == next_stem and bool(number and next_number) and int(next_number) == int(number) + 1
