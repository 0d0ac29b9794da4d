"""Words that were entered before are offered again while typing: in inputs, on the phone too, and in cells."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from ...book.build_ups import by_name
from ...book.site import Item, Site
from ...checks import materials
from ...model.fields import LINE_LENGTH, TEXTS, Field, Type
from ...model.kinds import KINDS, Kind
from ...model.runs import NONE
from ...model.typed import NO, YES, to_text

MOST = 20
OFFERED = {Type.LINE, Type.NOTE, Type.DATE}
FIGURES = tuple("0123456789.,±+-−")
OF_MATERIALS = {"material", "moving_part", "made_of", "bears_on"}


def words_before(site: Site | None, kind: Kind, fields: Iterable[Field]) -> dict[str, list[str]]:
    """Name of a field -> what was entered in it, the latest first; of a material also the names the tables know.

    Who somebody is was perhaps entered in another kind. What is ordinary in a field is offered as well: that there is
    none, where that is to be said. Of a note its sentence is offered, of a date the days said before, and today.
    """
    if site is None:
        return {}
    found = {field.name: _of(site, kind, field) for field in fields if field.type in OFFERED}
    return {name: words for name, words in found.items() if words and name != kind.numbered_by}


def words_of_columns(site: Site | None, kind: Kind, field: Field) -> list[list[str]]:
    """For each column of a small table what is offered in its cells; [] of what is none."""
    if site is None or field.type is not Type.ROWS:
        return []
    tables = [one.values.get(field.name) or [] for one in _newest(site, kind)]
    rows = [row for table in tables for row in table]
    offered = [
        list(dict.fromkeys([*column.choices, *_once(column, (row[at] for row in rows)), *_known(site, column)]))
        if column.type in {Type.LINE, Type.CHOICE, Type.DATE}
        else []
        for at, column in enumerate(field.columns)
    ]
    offered[0] = [*by_name(site, kind.name, field.name), *offered[0]]
    if parts_by_itself(field):
        lines = (_as_a_line(field, table) for table in tables if len(table) > 1 and all(map(_can_part, table)))
        offered[0] += _once(field.columns[0], lines)
    return offered


def parts_by_itself(field: Field) -> bool:
    """Whether a line typed into the first cell of its table can go into the others: words, then figures and choices."""
    first, *others = field.columns
    return first.type is Type.LINE and all(one.type in {Type.NUMBER, Type.WHOLE, Type.CHOICE} for one in others)


def _can_part(row: Sequence[Any]) -> bool:
    """Whether its words end where its figures begin, once they stand in one line."""
    return len(row) > 1 and row[1] is not None and not str(row[0]).split()[-1].startswith(FIGURES)


def _as_a_line(field: Field, table: Sequence[Sequence[Any]]) -> str:
    """All rows as static/phone/forms/lines.js takes them in the first cell: what was used before is one choice."""
    cells = [[to_text(column, cell) or NONE for column, cell in zip(field.columns, row, strict=True)] for row in table]
    return " / ".join(" ".join(row).rstrip(f" {NONE}") for row in cells)


def words_of_cells(site: Site, kind: Kind, columns: Sequence[Field]) -> list[list[str]]:
    """For each field that is a column of several things what is offered in its cells."""
    return [[] if column.name == kind.numbered_by else _in_cells(site, kind, column) for column in columns]


def _in_cells(site: Site, kind: Kind, column: Field) -> list[str]:
    if column.type is Type.LINK:
        return [str(one.mark_or_name) for one in site.all(column.to)] if column.to in KINDS else []
    if column.type is Type.YES_NO:
        return [YES, NO]
    if column.type is Type.CHOICES:
        said = (", ".join(one.values.get(column.name) or []) for one in _newest(site, kind))
        return list(dict.fromkeys([*filter(None, said), *column.choices]))
    if column.type in TEXTS | {Type.DATE, Type.CHOICE}:
        return list(dict.fromkeys([*column.choices, *_of(site, kind, column)]))
    return []


def _of(site: Site, kind: Kind, field: Field) -> list[str]:
    own = [one.values.get(field.name) for one in _newest(site, kind)]
    others = _people(site) if field.personal else ()
    return list(dict.fromkeys([*_once(field, [*own, *others]), *_known(site, field)]))


def _once(field: Field, values: Iterable[Any]) -> list[str]:
    """Each word once, as it is typed; what is longer than a line is not chosen from a list."""
    words = (to_text(field, value) for value in values if value)
    return list(dict.fromkeys(word for word in words if "\n" not in word and len(word) <= LINE_LENGTH))[:MOST]


def _known(site: Site, field: Field) -> list[str]:
    """What is offered though nobody entered it."""
    if field.name in OF_MATERIALS:
        return [
            name for group in ("species", "sheet", "metal", "plastic", "substrate") for name in materials.names(group)
        ]
    if field.name == "cut_from":
        return [row[0] for row in [*(site.item.stock or []), *(site.item.prices or [])] if row[1] is not None]
    if field.type is Type.DATE:
        return [date.today().isoformat()]
    return [str(word) for word in reversed(field.ordinary)] if field.type is Type.LINE else []


def _people(site: Site) -> Iterator[str]:
    for kind in KINDS.values():
        for field in kind.asked:
            if field.personal and field.type is Type.LINE:
                yield from (one.values[field.name] for one in _newest(site, kind) if one.values.get(field.name))


def _newest(site: Site, kind: Kind) -> list[Item]:
    return sorted(site.all(kind.name), key=lambda one: one.id, reverse=True)
