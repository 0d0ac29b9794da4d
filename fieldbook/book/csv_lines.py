"""A list as a spreadsheet keeps it, read as lines that `entering.enter` takes: new items, and changes of those there.

The heads are the names or the labels of a kind's fields; a table that was taken from the desk comes back as it is.

Source: RFC 4180, Common Format and MIME Type for CSV Files, Y. Shafranovich, 2005; semicolons and tabs between cells
are common practice, no source.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from io import StringIO
from typing import Any, NamedTuple

from ..errors import FieldbookError, Missing, Refused, UnknownField, UnknownItem, UnsuitableText, shown
from ..model.fields import Field
from ..model.kinds import Kind
from ..model.order import taken_for
from .entry_lines import Line
from .site import Item, Site
from .table_lines import lines_of

IN_WORDS = "_in_words"  # beside a link stands what it points to; the link itself is read
FORMULA_BEGINS = ("=", "+", "-", "@", "\t", "\r", "'")
"""A text that begins so is written with an apostrophe before it, so that no spreadsheet takes it for a formula."""
DELIMITERS = (",", ";", "\t")
ID, MOST_ROWS = "id", 5_000


class CsvTable(NamedTuple):
    """What a file says: the heads as they stand, the field that each is about, and the cells of each row."""

    heads: list[str]
    fields: list[Field | None]
    rows: list[list[str]]


def table_in(kind: Kind, text: str) -> CsvTable:
    """The table of a text.

    Raises Refused for a text without rows, with more than 5,000, or with a head that is no field of the kind.
    """
    text = text.removeprefix("\ufeff")
    first = next(iter(text.splitlines()), "")
    delimiter = max(DELIMITERS, key=first.count)
    try:
        rows = [row for row in csv.reader(StringIO(text, newline=""), delimiter=delimiter) if any(map(str.strip, row))]
    except csv.Error as error:
        reason = f"The table cannot be read: {error}."
        raise Refused([UnsuitableText(reason, "Save it as CSV once more.", field="text")]) from error
    if len(rows) < 2:
        remedy = "Give a row of headings, and under it a row for each thing."
        raise Refused([Missing("There is no row under the heads.", remedy, field="text")])
    if len(rows) > MOST_ROWS + 1:
        reason = f"The table has {len(rows) - 1:,} rows; {MOST_ROWS:,} are taken at once."
        raise Refused([UnsuitableText(reason, "Part it.", field="text")])
    heads = [head.strip() for head in rows[0]]
    return CsvTable(heads, _fields_of(kind, heads), [[_unguarded(cell) for cell in row] for row in rows[1:]])


def _fields_of(kind: Kind, heads: Sequence[str]) -> list[Field | None]:
    known = {taken_for(name): one for one in kind.asked for name in (one.heading, one.label, one.name)}
    found, wrong = [known.get(taken_for(head)) for head in heads], list[FieldbookError]()
    for head, field in zip(heads, found, strict=True):
        if field is None and not (head == ID or head.endswith(IN_WORDS) or head in kind.by_name):
            reason = f"“{shown(head)}” is no field of {kind.plural.lower()}."
            wrong.append(UnknownField(reason, f"Use: {', '.join(one.label for one in kind.asked)}.", field="text"))
        elif field is not None and found.count(field) > 1:
            wrong.append(UnknownField(f"{field.label} has two columns.", "Take one out.", field="text"))
    if wrong:
        raise Refused(wrong)
    return found


def _unguarded(cell: str) -> str:
    """A cell as it was before an apostrophe kept a spreadsheet from taking it for a formula."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(FORMULA_BEGINS) else cell


def csv_lines(site: Site, kind: Kind, table: CsvTable) -> list[Line]:
    """A line for each row: a new item, or what differs of the one whose id it gives; None where nothing does.

    An empty cell of an item that is there leaves its field as it is.
    """
    columns = [(at, field) for at, field in enumerate(table.fields) if field is not None]
    own = table.heads.index(ID) if ID in table.heads else None
    cells = [[row[at] if at < len(row) else "" for at, _ in columns] for row in table.rows]
    common = {"site": site.item.id} if kind.parent == "site" else {}
    lines = lines_of(site, kind, common, [field for _, field in columns], cells)
    found: list[Line] = []
    for row, line in zip(table.rows, lines, strict=True):
        item = row[own].strip() if own is not None and own < len(row) else ""
        if len(row) > len(table.heads):
            reason = f"It has {len(row)} cells for {len(table.heads)} heads."
            found.append(UnsuitableText(reason, "Look for a comma too many.", value="; ".join(row)))
        elif item and isinstance(line, Mapping):
            found.append(_changed(site, kind, item, line, {field.name for at, field in columns if _filled(row, at)}))
        else:
            found.append(line)
    return found


def _filled(row: Sequence[str], at: int) -> bool:
    return at < len(row) and bool(row[at].strip())


def _changed(site: Site, kind: Kind, item: str, line: Mapping[str, Any], given: set[str]) -> Line:
    one: Item | None = site.get(item)
    if one is None or one.kind != kind.name:
        reason = f"“{shown(item)}” is no {kind.label.lower()} of this site."
        return UnknownItem(reason, "Empty its id to enter it as a new one.", field=ID, value=item)
    values = {name: value for name, value in line["set"].items() if name in given and value != one.values[name]}
    return {"kind": kind.name, "item": one.id, "set": values} if values else None
