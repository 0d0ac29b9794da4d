"""The rows of the table of materials and those of a site's own: their columns, and how they are read.

It does not say which material a name means, nor which figure goes before another: that is materials.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
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
    "characteristic_density_kg_m3": ("kg/m³", 100, 1500),
    "thermal_per_c": ("1/°C", 0.0000001, 0.001),
    "friction": ("", 0.01, 2),
    "bearing_n_mm2": ("N/mm²", 0.01, 1000),
}
# property: its label on the form of a material of the site's own, and what to enter there
ASKED: Mapping[str, tuple[str, str]] = {
    "radial_per_pct": ("Radial movement", "the fraction of a quarter-sawn width for 1 % moisture, the high end"),
    "tangential_per_pct": ("Tangential movement", "the fraction of a flat-sawn width for 1 % moisture, the high end"),
    "in_plane_per_pct": ("Movement in the plane", "the fraction of the sheet's length for 1 % moisture, the high end"),
    "specific_gravity": ("Specific gravity", "dry mass against water of the volume at 12 % moisture, the low end"),
    "density_kg_m3": ("Density", "mass of a cubic metre, the heavy end"),
    "characteristic_density_kg_m3": (
        "Characteristic density",
        "what 5 % of the pieces lie below, as in EN 338 for the class; the low end",
    ),
    "thermal_per_c": ("Thermal expansion", "the fraction of the length for 1 °C, the high end"),
    "friction": ("Friction", "pull that slides a sample over pressure on it, the low end of several tries"),
    "bearing_n_mm2": ("Bearing strength", "compressive strength, of wood across the grain; the low end"),
}
COLUMNS = ("material", "also_called", "group", *PROPERTIES, "source", "status")

# how the figure came here, as the table has it and as it is said
STATUSES: Mapping[str, str] = {"read": "read in the source", "second hand": "second hand", "memory": "from memory"}
OWN_STATUS = "the site's own"
# stands in place of a source; such a row may also have no figure, and then says that none is published
NO_SOURCE = "no published source found"


def words_of(name: str) -> frozenset[str]:
    """A name without order, case and punctuation: "Oak, white" and "white oak" are the same."""
    return frozenset(re.findall(r"\w+", name.casefold()))


@cache
def table_rows() -> tuple[dict[str, Any], ...]:
    """Every row of the table, in its order."""
    with TABLE.open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return tuple(_typed(row, own=False) for row in rows)


def _typed(row: Mapping[str, Any], own: bool) -> dict[str, Any]:
    """A row with figures as numbers, and all its names in words."""
    typed = {key: (None if row[key] == "" else float(row[key])) if key in PROPERTIES else row[key] for key in COLUMNS}
    words = words_of(row["material"])
    names_of_it = {words, *(words_of(name) for name in row["also_called"].split(";"))} - {frozenset()}
    return typed | {"own": own, "words": words, "names": names_of_it}


def own_row(place: int, row: Mapping[str, Any]) -> dict[str, Any]:
    """A row of the site's own, checked column by column."""
    where = f"own_rows[{place}]"
    if not isinstance(row, Mapping):
        raise UnknownField("is not a row.", f"Give a row as an object with: {_columns()}.", field=where, about=where)
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
            raise Missing(f"has no {key}.", f"Fill in {key}.", field=f"{where}.{key}", about=where)
    for key in given.keys() - PROPERTIES.keys():
        if not isinstance(given[key], str):
            reason, name = f"is {shown(given[key])}, which is not text.", f"{where}.{key}"
            raise UnsuitableText(reason, "Fill it in as text.", field=name, value=given[key], about=name)
    check_group(f"{where}.group", given["group"])
    if not any(key in given for key in PROPERTIES):
        raise Missing("has no figure.", f"Fill in one of: {', '.join(PROPERTIES)}.", field=where, about=where)
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
            f"is “{shown(value)}”, which is not a number.",
            "Give it with a decimal point.",
            field=field,
            value=value,
            about=field,
        ) from None


def check_group(field: str, group: str) -> None:
    """Raises NotAChoice for a group that is not in GROUPS."""
    if group not in GROUPS:
        raise NotAChoice(
            f"“{shown(group)}” is not a group of materials.",
            f"Choose one of: {', '.join(GROUPS)}.",
            field=field,
            value=group,
        )


def _columns() -> str:
    return ", ".join(COLUMNS)
