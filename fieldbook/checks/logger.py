"""Reading what a humidity logger wrote: times, humidity and, where there is one, temperature.

Header names are mapped once; the delimiter is found from them; decimal points and commas may
be mixed; lines before the header are passed over. An empty cell is a gap. Anything else that
cannot be read is refused with its line, never left out in silence.

Source: RFC 4180 for the file; other delimiters are common practice, no source.
"""

from __future__ import annotations

import csv
import math
from array import array
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, islice
from typing import Any

from ..errors import (
    FieldbookError,
    Missing,
    NotANumber,
    OutOfRange,
    UnknownField,
    UnsuitableShape,
    UnsuitableText,
    shown,
)
from .logger_clock import Clock, put_in_order

DELIMITERS = (",", ";", "\t", "|")
# loggers write their settings before the header
HEADER_WITHIN_LINES = 100

# what a column can hold; time and humidity must be there
COLUMNS = ("humidity", "time", "date", "temperature")
NEEDED = COLUMNS[:2]

HUMIDITY_PCT = (0.0, 100.0)
TEMPERATURE_C = (-45.0, 60.0)

# how loggers write that there is no reading
NO_READING = frozenset({"", "-", "--", "---", "nan", "n/a", "na", "null", "none", "error", "err"})


@dataclass(frozen=True)
class Log:
    """A logger's readings in the order of time.

    seconds         time since 1 January 1970 by the logger's clock (UTC where times carry an offset), s
    humidity_pct    relative humidity, %
    temperature_c   air temperature, °C, not a number where there is none; empty without such a column
    empty           lines without a humidity reading
    clock_put_back  how often the clock went back an hour
    """

    seconds: Sequence[float]
    humidity_pct: Sequence[float]
    temperature_c: Sequence[float]
    empty: int
    clock_put_back: int


def lines_of(content: bytes) -> list[str]:
    """A logger's file as text, line by line: UTF-8, or else the usual western code page.

    >>> lines_of("Temp. °C\\n".encode("cp1252"))
    ['Temp. °C']
    """
    try:
        return content.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError:  # only headings and units can suffer
        return content.decode("cp1252", errors="replace").splitlines()


def read(lines: Iterable[str], columns: Mapping[str, str], date_order: str | None = None) -> Log:
    """Read a logger's CSV, line by line.

    lines       the file as text, line by line
    columns     header names by what they hold: "time" and "humidity", and where there are any
                "date" (then "time" is the time of day) and "temperature"
    date_order  "day first" or "month first", needed for dates like 03/04/2024
    returns     the readings; seconds, %, °C

    Source: RFC 4180, ISO 8601; other delimiters and lines before the header are common practice, no source.
    Raises Missing, NotAChoice, UnknownField, NotANumber, OutOfRange (0 to 100 %), UnsuitableShape,
    UnsuitableText; from the header on with line and column.

    >>> read(["when;RH %", "2024-01-01 00:00;51,5"], {"time": "when", "humidity": "RH %"}).humidity_pct[0]
    51.5
    """
    wanted = _wanted(columns)
    lines = iter(lines)
    head = list(islice(lines, HEADER_WITHIN_LINES))
    if not any(line.strip() for line in head):
        raise Missing("The file is empty.", "Read the logger out again.", field="csv")
    before, delimiter = _find_header(head, wanted)
    return _read(csv.reader(chain(head[before:], lines), delimiter=delimiter), wanted, date_order, "csv", before + 1)


def read_rows(rows: Sequence[Sequence[Any]], columns: Mapping[str, str], date_order: str | None = None) -> Log:
    """Read a logger's table that is already split into cells, the header first.

    rows        rows of cells, text or numbers
    columns     header names by what they hold, as for read
    date_order  as for read
    returns     the readings; seconds, %, °C

    Source: as for read.
    Raises as read does.

    >>> read_rows([["t", "h"], ["2024-01-01", 50]], {"time": "t", "humidity": "h"}).humidity_pct[0]
    50.0
    """
    if not rows:
        raise Missing("There are no rows.", "Read the logger out again.", field="rows")
    cells = (_cells(row, place) for place, row in enumerate(rows, 1))
    return _read(cells, _wanted(columns), date_order, "rows", 1)


def _cells(row: Any, place: int) -> list[str]:
    if not isinstance(row, (list, tuple)):
        raise UnsuitableShape(f"Row {place} is no list of cells.", "Give [time, humidity].", field=f"rows row {place}")
    return ["" if cell is None else str(cell) for cell in row]


def _wanted(columns: Mapping[str, str]) -> dict[str, str]:
    """The mapping, checked; header names without case and outer spaces."""
    if not isinstance(columns, Mapping):
        raise UnsuitableShape("columns is no mapping.", f"Map {', '.join(COLUMNS)} to header names.", field="columns")
    for key, name in columns.items():
        if key not in COLUMNS:
            reason = f"“{shown(key)}” is not among what a column can hold."
            raise UnknownField(reason, f"It can hold: {', '.join(COLUMNS)}.", field=f"columns.{key}")
        if not isinstance(name, str) or not name.strip():
            raise UnsuitableText(
                f"is {shown(name)}.", "Give a header name.", field=f"columns.{key}", about=f"columns.{key}"
            )
    for key in NEEDED:
        if key not in columns:
            raise Missing(f"No column is named for {key}.", f"Give the header name of {key}.", field=f"columns.{key}")
    return {key: _header_name(name) for key, name in columns.items()}


def _header_name(cell: str) -> str:
    return cell.lstrip("\ufeff").strip().casefold()


def _find_header(head: list[str], wanted: Mapping[str, str]) -> tuple[int, str]:
    """Lines before the header, and the delimiter under which all the wanted names stand side by side."""
    for before, line in enumerate(head):
        for delimiter in DELIMITERS:
            if {_header_name(cell) for cell in _split(line, delimiter)}.issuperset(wanted.values()):
                return before, delimiter
    first = next(line for line in head if line.strip())
    raise Missing(
        f"No line among the first {HEADER_WITHIN_LINES} has the headers: {', '.join(wanted.values())}.",
        f"Give the names as the file has them; it begins with: {shown(first.strip())}",
        field="columns",
    )


def _split(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=delimiter), [])
    except csv.Error:
        return []


def _places(header: Sequence[str], wanted: Mapping[str, str]) -> dict[str, int]:
    names = [_header_name(cell) for cell in header]
    for key, name in wanted.items():
        if names.count(name) != 1:
            reason = f"The header has {names.count(name)} columns “{shown(name)}”."
            raise Missing(reason, f"It has: {shown(', '.join(names))}.", field=f"columns.{key}")
    return {key: names.index(name) for key, name in wanted.items()}


def _read(
    rows: Iterator[list[str]], wanted: Mapping[str, str], date_order: str | None, source: str, header_row: int
) -> Log:
    """The loop over all rows: the one place here that must be quick."""
    clock = Clock(date_order)
    seconds, humidity, temperature, row_numbers = array("d"), array("d"), array("d"), array("L")
    empty, row = 0, header_row
    try:
        header = next(rows)
        at = _places(header, wanted)
        humidity_at, time_at = at[COLUMNS[0]], at[COLUMNS[1]]
        date_at, temperature_at = at.get(COLUMNS[2]), at.get(COLUMNS[3])
        for row, cells in enumerate(rows, header_row + 1):  # noqa: B007 row is named in errors below
            if len(cells) != len(header):
                cells = _fitted(cells, len(header))
                if not cells:
                    continue
            reading = _number(cells[humidity_at], HUMIDITY_PCT, "humidity")
            if reading != reading:  # not a number
                empty += 1
                continue
            seconds.append(clock(cells[time_at] if date_at is None else f"{cells[date_at].strip()} {cells[time_at]}"))
            humidity.append(reading)
            row_numbers.append(row)
            if temperature_at is not None:
                temperature.append(_number(cells[temperature_at], TEMPERATURE_C, "temperature"))
    except csv.Error as error:
        reason = f"Row {row + 1} cannot be split into cells: {error}."
        raise UnsuitableText(reason, "Correct the row, or export again.", field=f"{source} row {row + 1}") from None
    except FieldbookError as error:
        if error.field not in (*COLUMNS, "cells"):
            raise
        field = f"{source} row {row} {error.field}"
        raise type(error)(f"In row {row}, {error.reason}", error.remedy, field=field, value=error.value) from None
    if not seconds:
        raise Missing("There are no humidity readings.", "Read the logger out again.", field=source)
    backwards_at, put_back = put_in_order(seconds, (humidity, temperature, row_numbers), clock.knows_offset)
    if backwards_at is not None:
        raise UnsuitableShape(
            f"In row {row_numbers[backwards_at]}, time runs backwards.",
            "Give one record, in order, without repeated or overlapping parts.",
            field=f"{source} row {row_numbers[backwards_at]} time",
        )
    return Log(seconds, humidity, temperature, empty, put_back)


def _fitted(cells: list[str], width: int) -> list[str]:
    """A row with more or fewer cells than the header: extra empty ones are cut, an empty row is passed over."""
    if not any(cell.strip() for cell in cells):
        return []
    if len(cells) > width and not any(cell.strip() for cell in cells[width:]):
        return cells[:width]
    raise UnsuitableShape(
        f"there are {len(cells)} cells; the header has {width}.",
        "Export again with another delimiter if decimal commas split numbers, or complete the row.",
        field="cells",
        value=" | ".join(cells),
    )


def _number(cell: str, limits: tuple[float, float], column: str) -> float:
    """A reading, with decimal point or comma; not a number where the logger has none."""
    try:
        reading = float(cell.replace(",", ".") if "," in cell else cell)
    except ValueError:
        if cell.strip().casefold() not in NO_READING:
            reason = f"{column} is “{shown(cell)}”, which is not a number."
            raise NotANumber(reason, "Correct or empty that cell.", field=column, value=cell) from None
        return math.nan
    if not limits[0] <= reading <= limits[1] and not math.isnan(reading):
        reason = f"{column} is {shown(cell)}; it must lie from {limits[0]:g} to {limits[1]:g}."
        raise OutOfRange(reason, "Empty that cell if the logger failed there.", field=column, value=cell)
    return reading
