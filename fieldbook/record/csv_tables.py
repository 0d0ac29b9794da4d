"""The items of a site as tables, one a kind, with a dictionary of what each column means.

Source: RFC 4180, Common Format and MIME Type for CSV Files, Y. Shafranovich, 2005: lines end in CRLF, a cell that
holds a comma, a quotation mark or a line break stands in quotation marks.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Iterable, Mapping, Sequence
from io import StringIO
from typing import Any

from ..book.csv_lines import FORMULA_BEGINS, IN_WORDS
from ..book.site import Item, Site
from ..book.wording import Titles, joined
from ..findings import Finding
from ..findings.plain import as_plain
from ..model.fields import ANY, STRUCTURED, TEXTS, Field, Type
from ..model.kinds import KINDS, Kind
from ..model.typed import NO, YES

FINDING = ("question", "of_id", "of", "against", "word", "figure", "unit", "limit", "margin", "sentence", "source")


def csv_of(rows: Iterable[Sequence[Any]]) -> str:
    """Rows as the text of one file."""
    text = StringIO(newline="")
    csv.writer(text).writerows([_guarded(cell) for cell in row] for row in rows)
    return text.getvalue()


def _guarded(cell: Any) -> Any:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA_BEGINS) else cell


def table_of(kind: Kind, items: Iterable[Item], titles: Titles) -> list[list[Any]]:
    """Heads and rows of the items of a kind; beside a link stands what it points to in words."""
    heads = ["id", *(name for field in kind.fields for name in _columns(field))]
    return [
        heads,
        *([item.id, *(cell for field in kind.fields for cell in _cells(field, item, titles))] for item in items),
    ]


def _columns(field: Field) -> tuple[str, ...]:
    return (field.name, f"{field.name}{IN_WORDS}") if field.to else (field.name,)


def _cells(field: Field, item: Item, titles: Titles) -> tuple[Any, ...]:
    value = item.values[field.name]
    if value is None:
        return ("",) * len(_columns(field))
    if field.type is Type.LINK:
        return value, titles.get(value, "")
    if field.type is Type.LINKS:
        return _json(value), joined(titles.get(link, "") for link in value)
    if field.type is Type.YES_NO:
        return (YES if value else NO,)
    return (_json(value) if field.type in STRUCTURED else _short(value),)


def _json(value: Any) -> str:
    return json.dumps(_short(value), ensure_ascii=False)


def _short(value: Any) -> Any:
    """A number without needless decimals, in lists as well."""
    if isinstance(value, list):
        return [_short(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def findings_table(findings: Iterable[Finding]) -> list[list[Any]]:
    """Every finding of a site, worst first."""
    return [list(FINDING), *([_blank(as_plain(finding)[name]) for name in FINDING] for finding in findings)]


def _blank(value: Any) -> Any:
    return "" if value is None else _short(value)


def dictionary() -> list[list[Any]]:
    """What each column of each table means."""
    rows: list[list[Any]] = [["table", "column", "label", "unit", "holds", "meaning"]]
    for kind in KINDS.values():
        rows.append([kind.name, "id", kind.label, "", "UUID (RFC 9562)", kind.meaning])
        for field in kind.fields:
            rows.append([kind.name, field.name, field.shown_label, field.unit, holds(field), field.help])
            if field.to:
                rows.append([kind.name, f"{field.name}{IN_WORDS}", field.label, "", "text", "what the link points to"])
    meanings = {"of_id": "id of what was asked about", "word": "the answer; the record's glossary explains it"}
    return rows + [
        ["finding", name, name.replace("_", " "), "", "text or number", meanings.get(name, "")] for name in FINDING
    ]


def holds(field: Field) -> str:
    """What a column can hold, in words."""
    if field.words:
        return f"{'JSON list of any of' if field.type is Type.CHOICES else 'one of'}: {', '.join(field.words)}"
    if field.type in {Type.NUMBER, Type.WHOLE}:
        return f"number from {field.low:g} to {field.high:g}"
    if field.type in {Type.ROWS, Type.OUTLINE}:
        return f"JSON list of rows: {', '.join(column.heading for column in field.columns)}"
    if field.to:
        of = "any table" if field.to == ANY else f"table {field.to}"
        return f"{'JSON list of ids' if field.type is Type.LINKS else 'id'} of {of}"
    return "text" if field.type in TEXTS else _HOLDS[field.type]


_HOLDS: Mapping[Type, str] = {
    Type.YES_NO: f"{YES} or {NO}",
    Type.DATE: "date (RFC 3339 full-date)",
    Type.MOMENT: "date and time with offset (RFC 3339)",
    Type.DIGEST: "SHA-256 of a file, hexadecimal",
}


def tables_of(site: Site, findings: Iterable[Finding]) -> dict[str, str]:
    """Name of each file -> its text: a table for each kind there is anything of, the findings, the dictionary."""
    titles = {one.id: one.title for one in site.everything().values()}
    items = {name: [site.item] if name == "site" else site.all(name) for name in KINDS}
    tables = {name: table_of(KINDS[name], of_it, titles) for name, of_it in items.items() if of_it}
    tables |= {"finding": findings_table(findings), "dictionary": dictionary()}
    return {f"{name}.csv": csv_of(rows) for name, rows in tables.items()}
