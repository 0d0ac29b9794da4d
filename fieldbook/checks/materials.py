"""The table of materials: species, sheet goods, metals, plastics, linings, substrates, with the source of each figure.

The figures stand in data/materials.csv; a row says what one source says of one material. A
site may add rows of its own in the same columns; a figure from them is marked as its own and
goes before the table's. It does not cover made-to-measure grades: ask the maker and add a row.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from ..errors import Missing, NotAChoice, NotANumber, UnknownField, UnsuitableText, shown
from .limits import within

TABLE = Path(__file__).parent / "data" / "materials.csv"

GROUPS = ("species", "sheet", "metal", "plastic", "glass", "lining", "pair", "substrate")

# property: unit, least, greatest; beyond these a figure is taken for a slip of units
PROPERTIES: Mapping[str, tuple[str, float, float]] = {
    "radial_per_pct": ("1/%", 0.0001, 0.01),
    "tangential_per_pct": ("1/%", 0.0001, 0.01),
    "in_plane_per_pct": ("1/%", 0.00001, 0.01),
    "specific_gravity": ("", 0.05, 1.5),
    "density_kg_m3": ("kg/m³", 10, 25_000),
    "thermal_per_c": ("1/°C", 0.0000001, 0.001),
    "friction": ("", 0.01, 2),
    "bearing_n_mm2": ("N/mm²", 0.01, 1000),
}
COLUMNS = ("material", "also_called", "group", *PROPERTIES, "source", "status")

OWN_STATUS = "the site's own"


@dataclass(frozen=True)
class Figure:
    """One property of a material: its value and unit, where it comes from, and how sure that is.

    own  whether the site added it
    """

    value: float
    unit: str
    source: str
    status: str
    own: bool

    def cited(self) -> str:
        """The source with its status, unless the source itself was read."""
        return self.source if self.status == "confirmed" else f"{self.source} ({self.status})"


@dataclass(frozen=True)
class Material:
    """A material with the figures known of it."""

    name: str
    group: str
    figures: Mapping[str, Figure]

    def figure(self, wanted: str, field: str = "material") -> Figure:
        """The figure of one property.

        wanted   one of PROPERTIES
        field    the input the material came from, for the error
        returns  the figure, in the unit it carries

        Source: as the figure says.
        Raises Missing when the table and the site's rows do not have it.
        """
        if wanted not in self.figures:
            raise Missing(
                f"{self.name} has no {wanted} in the table of materials.",
                "Add a row of your own with its source, or choose another material.",
                field=field,
                value=self.name,
            )
        return self.figures[wanted]


def lookup(name: str, own_rows: Iterable[Mapping[str, Any]] = (), field: str = "material") -> Material:
    """The material of that name, with what the site's own rows add to it.

    name      as in the table or in natural order, in any case: "Oak, white" or "white oak"
    own_rows  rows of the site's own, with the columns of COLUMNS; "material", "group", "source"
              and at least one property must be filled; later rows win over earlier ones
    field     the input the name came from, for the error
    returns   the material; figures in the units of PROPERTIES

    Source: the row's own.
    Raises NotAChoice for an unknown name (with the nearest ones), and what a bad own row calls for.

    >>> lookup("white oak").figure("tangential_per_pct").value
    0.00365
    """
    every_row = [*_table(), *(_own_row(place, row) for place, row in enumerate(own_rows))]
    wanted = _words(name) if isinstance(name, str) else frozenset()
    rows = _rows_of(wanted, every_row)
    if not rows:
        raise NotAChoice(f"There is no material “{shown(name)}”.", _nearest(wanted, every_row), field=field, value=name)
    return Material(rows[0]["material"], rows[0]["group"], _figures(rows))


def names(group: str, own_rows: Iterable[Mapping[str, Any]] = ()) -> list[str]:
    """The names to choose from in one group, in order of the alphabet.

    group     one of GROUPS
    own_rows  the site's own rows, as for lookup
    returns   names without doubles

    Source: the table of materials.
    Raises NotAChoice for an unknown group, and what a bad own row calls for.

    >>> names("pair")[:2]
    ['Aluminium on steel', 'Brass on steel']
    """
    _check_group("group", group)
    own = [_own_row(place, row) for place, row in enumerate(own_rows)]
    return sorted({row["material"] for row in (*_table(), *own) if row["group"] == group})


@dataclass(frozen=True)
class Row:
    """A row of the table: what one source says of one material, and how sure that is; `own` when the site added it."""

    name: str
    also_called: str
    group: str
    figures: Mapping[str, Figure]
    source: str
    status: str
    own: bool


def table(own_rows: Iterable[Mapping[str, Any]] = (), named: str = "", group: str = "") -> list[Row]:
    """The rows of the table and those of the site's own, to be read.

    own_rows  the site's own rows, as for lookup
    named     words that all stand in one of its names, or begin a word in it, in any case; "" for every row
    group     one of GROUPS; "" for all
    returns   rows by group and name, the site's own before the others; figures in the units of PROPERTIES

    Source: the row's own.
    Raises what a bad own row calls for.

    >>> {row.name for row in table(named="sitka spruce")}
    {'Spruce, Sitka'}
    """
    rows = [*(_own_row(place, row) for place, row in enumerate(own_rows)), *_table()]
    wanted = _words(named)
    found = [row for row in rows if group in {"", row["group"]} and any(_begins(wanted, name) for name in row["names"])]
    found.sort(key=lambda row: (not row["own"], GROUPS.index(row["group"]), row["material"].casefold()))
    told = ("also_called", "group", "source", "status", "own")
    return [Row(row["material"], figures=_figures([row]), **{key: row[key] for key in told}) for row in found]


def _begins(wanted: frozenset[str], name: frozenset[str]) -> bool:
    return all(any(word.startswith(start) for word in name) for start in wanted)


def _figures(rows: Iterable[Mapping[str, Any]]) -> dict[str, Figure]:
    return {
        key: Figure(row[key], PROPERTIES[key][0], row["source"], row["status"], row["own"])
        for row in rows
        for key in PROPERTIES
        if row[key] is not None
    }


def _words(name: str) -> frozenset[str]:
    """A name without order, case and punctuation: "Oak, white" and "white oak" are the same."""
    return frozenset(re.findall(r"\w+", name.casefold()))


def _rows_of(wanted: frozenset[str], rows: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """The rows of the material that goes by the wanted name, under whichever of its names they stand."""
    official = {row["words"] for row in rows if wanted in row["names"]}
    names_of_it = {name for row in rows if row["words"] in official for name in row["names"]}
    return [row for row in rows if row["words"] in names_of_it]


@cache
def _table() -> tuple[dict[str, Any], ...]:
    with TABLE.open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return tuple(_typed(row, own=False) for row in rows)


def _typed(row: Mapping[str, Any], own: bool) -> dict[str, Any]:
    """A row with figures as numbers, and all its names in words."""
    typed = {key: (None if row[key] == "" else float(row[key])) if key in PROPERTIES else row[key] for key in COLUMNS}
    words = _words(row["material"])
    names_of_it = {words, *(_words(name) for name in row["also_called"].split(";"))} - {frozenset()}
    return typed | {"own": own, "words": words, "names": names_of_it}


def _own_row(place: int, row: Mapping[str, Any]) -> dict[str, Any]:
    """A row of the site's own, checked column by column."""
    where = f"own_rows[{place}]"
    if not isinstance(row, Mapping):
        raise UnknownField(f"{where} is not a row.", f"Give a row as an object with: {_columns()}.", field=where)
    for key in row:
        if key not in COLUMNS:
            raise UnknownField(
                f"“{shown(key)}” is not a column of the table of materials.",
                f"It has: {_columns()}.",
                field=f"{where}.{key}",
            )
    given = {key: value for key, value in row.items() if value not in (None, "")}
    for key in ("material", "group", "source"):
        if key not in given:
            raise Missing(f"{where} has no {key}.", f"Fill in {key}.", field=f"{where}.{key}")
    for key in given.keys() - PROPERTIES.keys():
        if not isinstance(given[key], str):
            reason = f"{where}.{key} is {shown(given[key])}, which is not text."
            raise UnsuitableText(reason, f"Fill in {key} as text.", field=f"{where}.{key}", value=given[key])
    _check_group(f"{where}.group", given["group"])
    if not any(key in given for key in PROPERTIES):
        raise Missing(f"{where} has no figure.", f"Fill in one of: {', '.join(PROPERTIES)}.", field=where)
    for key, (unit, low, high) in PROPERTIES.items():
        if key in given:
            given[key] = within(f"{where}.{key}", _number(given[key], f"{where}.{key}"), low, high, unit)
    return _typed(dict.fromkeys(COLUMNS, "") | given | {"status": OWN_STATUS}, own=True)


def _number(value: Any, field: str) -> Any:
    """A figure that may come as text from a file of rows."""
    if not isinstance(value, str):
        return value
    try:
        return float(value)
    except ValueError:
        raise NotANumber(
            f"{field} is “{shown(value)}”, which is not a number.",
            "Give it with a decimal point.",
            field=field,
            value=value,
        ) from None


def _check_group(field: str, group: str) -> None:
    if group not in GROUPS:
        raise NotAChoice(
            f"“{shown(group)}” is not a group of materials.",
            f"Choose one of: {', '.join(GROUPS)}.",
            field=field,
            value=group,
        )


def _nearest(wanted: frozenset[str], rows: Sequence[Mapping[str, Any]]) -> str:
    """The remedy for an unknown name: the names that share a word with it."""
    near = sorted({row["material"] for row in rows if any(wanted & name for name in row["names"])})
    names_to_choose = f"one of: {'; '.join(near)}" if near else "a name from the table of materials"
    return f"Choose {names_to_choose}; or add a row of your own."


def _columns() -> str:
    return ", ".join(COLUMNS)
