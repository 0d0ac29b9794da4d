"""The table of materials: species, sheet goods, metals, plastics, linings, substrates, with the source of each figure.

The figures stand in data/materials.csv; a row says what one source says of one material. A
site may add rows of its own in the same columns; a figure from them is marked as its own and
goes before the table's. It does not cover made-to-measure grades: ask the maker and add a row.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from ..errors import FieldbookError, Missing, NotAChoice, Refused, shown
from .material_rows import ASKED, GROUPS, NO_SOURCE, PROPERTIES, STATUSES, check_group, own_row, table_rows, words_of

Rows = Sequence[Mapping[str, Any]]


@dataclass(frozen=True)
class Figure:
    """One property of a material: its value and unit, where it comes from, and how it came from there.

    status  read, second hand or memory; for the site's own that it is
    own     whether the site added it
    """

    value: float
    unit: str
    source: str
    status: str
    own: bool

    def cited(self) -> str:
        """The source, and whether it was read, second hand or from memory."""
        return _cited(self.source, self.status)


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
        Raises Missing when the table and the site's rows do not have it, with what to enter where.
        """
        if wanted not in self.figures:
            raise self._missing(wanted, field)
        return self.figures[wanted]

    def needed(self, wanted: Iterable[str], field: str = "material") -> tuple[Figure, ...]:
        """The figures of several properties, or all that is missing of them at once.

        wanted   names out of PROPERTIES
        field    the input the material came from, for the error
        returns  a figure for each, in the order wanted

        Source: as the figures say.
        Raises Missing for one that is not there, Refused with a Missing for each of several.
        """
        wanted = list(wanted)
        missing: list[FieldbookError] = [self._missing(one, field) for one in wanted if one not in self.figures]
        if missing:
            raise missing[0] if len(missing) == 1 else Refused(missing)
        return tuple(self.figures[one] for one in wanted)

    def _missing(self, wanted: str, field: str) -> Missing:
        label, what = ASKED[wanted]
        unit = PROPERTIES[wanted][0]
        return Missing(
            f"{self.name}: {label.lower()} is not in the table of materials.",
            f"Add {self.name} as a material of the site's own and enter “{label}”{f' in {unit}' if unit else ''}: "
            f"{what}, with its source. Or choose another material.",
            field=field,
            value=self.name,
        )


class Known:
    """The table with one site's own rows: made once, asked for as many names as there are.

    own_rows  rows of the site's own, with the columns of COLUMNS; "material", "group", "source"
              and at least one property must be filled; later rows win over earlier ones
    Raises what a bad own row calls for.
    """

    def __init__(self, own_rows: Iterable[Mapping[str, Any]] = ()):
        self._own = [own_row(place, row) for place, row in enumerate(own_rows)]
        self._found: dict[frozenset[str], Material] = {}

    def lookup(self, name: str, field: str = "material") -> Material:
        """The material of that name, with what the site's own rows add to it.

        name     as in the table or in natural order, in any case: "Oak, white" or "white oak"
        field    the input the name came from, for the error
        returns  the material; figures in the units of PROPERTIES

        Source: the row's own.
        Raises NotAChoice for an unknown name, with the nearest ones.
        """
        wanted = words_of(name) if isinstance(name, str) else frozenset()
        if wanted not in self._found:
            rows = _rows_of(wanted, self._own)
            if not rows:
                remedy = _nearest(wanted, [*table_rows(), *self._own])
                raise NotAChoice(f"There is no material “{shown(name)}”.", remedy, field=field, value=name)
            self._found[wanted] = Material(rows[0]["material"], rows[0]["group"], _figures(rows))
        return self._found[wanted]


def lookup(name: str, own_rows: Iterable[Mapping[str, Any]] = (), field: str = "material") -> Material:
    """The material of that name, with what the site's own rows add to it; for many names, make one Known.

    name      as in the table or in natural order, in any case
    own_rows  rows of the site's own, as for Known
    field     the input the name came from, for the error
    returns   the material; figures in the units of PROPERTIES

    Source: the row's own.
    Raises NotAChoice for an unknown name (with the nearest ones), and what a bad own row calls for.

    >>> lookup("white oak").figure("tangential_per_pct").value
    0.00365
    """
    return Known(own_rows).lookup(name, field)


def names(group: str, own_rows: Iterable[Mapping[str, Any]] = ()) -> list[str]:
    """The names to choose from in one group, in order of the alphabet.

    group     one of GROUPS
    own_rows  the site's own rows, as for Known
    returns   names without doubles

    Source: the table of materials.
    Raises NotAChoice for an unknown group, and what a bad own row calls for.

    >>> names("pair")[:2]
    ['Aluminium on steel', 'Brass on steel']
    """
    check_group("group", group)
    own = [own_row(place, row) for place, row in enumerate(own_rows)]
    return sorted({row["material"] for row in (*table_rows(), *own) if row["group"] == group})


@dataclass(frozen=True)
class MaterialRow:
    """A row of the table: what one source says of one material, and how it came from there; `own` if the site's."""

    name: str
    also_called: str
    group: str
    figures: Mapping[str, Figure]
    source: str
    status: str
    own: bool

    @property
    def said(self) -> str:
        """The status in words: read in the source, second hand, from memory, or the site's own."""
        return STATUSES.get(self.status, self.status)


def table(own_rows: Iterable[Mapping[str, Any]] = (), named: str = "", group: str = "") -> list[MaterialRow]:
    """The rows of the table and those of the site's own, to be read.

    own_rows  the site's own rows, as for Known
    named     words that all stand in one of its names, or begin a word in it, in any case; "" for every row
    group     one of GROUPS; "" for all
    returns   rows by group and name, the site's own before the others; figures in the units of PROPERTIES

    Source: the row's own.
    Raises what a bad own row calls for.

    >>> {row.name for row in table(named="sitka spruce")}
    {'Spruce, Sitka'}
    """
    rows = [*(own_row(place, row) for place, row in enumerate(own_rows)), *table_rows()]
    wanted = words_of(named)
    found = [row for row in rows if group in {"", row["group"]} and any(_begins(wanted, name) for name in row["names"])]
    found.sort(key=lambda row: (not row["own"], GROUPS.index(row["group"]), row["material"].casefold()))
    told = ("also_called", "group", "source", "status", "own")
    return [MaterialRow(row["material"], figures=_figures([row]), **{key: row[key] for key in told}) for row in found]


def _cited(source: str, status: str) -> str:
    return source if source == NO_SOURCE else f"{source} ({STATUSES.get(status, status)})"


def _begins(wanted: frozenset[str], name: frozenset[str]) -> bool:
    return all(any(word.startswith(start) for word in name) for start in wanted)


def _figures(rows: Iterable[Mapping[str, Any]]) -> dict[str, Figure]:
    return {
        key: Figure(row[key], PROPERTIES[key][0], row["source"], row["status"], row["own"])
        for row in rows
        for key in PROPERTIES
        if row[key] is not None
    }


def _rows_of(wanted: frozenset[str], own: Rows) -> Rows:
    """The rows of the material that goes by the wanted name, under whichever of its names they stand; own ones last."""
    names_of = _names_of()
    official = {row["words"] for row in own if wanted in row["names"]} | names_of.get(wanted, set())
    names_of_it = {name for row in own if row["words"] in official for name in row["names"]}
    names_of_it |= {name for words in official for row in _by_words().get(words, ()) for name in row["names"]}
    of_the_table = [row for words, rows in _by_words().items() if words in names_of_it for row in rows]
    return [*of_the_table, *(row for row in own if row["words"] in names_of_it)]


@cache
def _by_words() -> Mapping[frozenset[str], Rows]:
    """The table's rows of each material, by its first name in words."""
    found: dict[frozenset[str], list[Mapping[str, Any]]] = {}
    for row in table_rows():
        found.setdefault(row["words"], []).append(row)
    return found


@cache
def _names_of() -> Mapping[frozenset[str], set[frozenset[str]]]:
    """For each name in words, the first names of the materials that go by it."""
    found: dict[frozenset[str], set[frozenset[str]]] = {}
    for row in table_rows():
        for name in row["names"]:
            found.setdefault(name, set()).add(row["words"])
    return found


def _nearest(wanted: frozenset[str], rows: Rows) -> str:
    """The remedy for an unknown name: the names that share a word with it."""
    near = sorted({row["material"] for row in rows if any(wanted & name for name in row["names"])})
    names_to_choose = f"one of: {'; '.join(near)}" if near else "a name from the table of materials"
    return f"Choose {names_to_choose}; or add a row of your own."
