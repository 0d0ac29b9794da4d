"""What a calculation asks for, and the words its description in `questions.py` is written with.

A key inside an object has a dot in its name. Rows of one column are a plain list; rows with words in
them are objects. Bounds are left to the calculations, which give their reasons.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ..model.description import number as bounded
from ..model.description import rows
from ..model.fields import Field, Type
from .catalogue import CALCULATIONS

LISTED = {"hangs_on", "covers", "tools"}  # cells that hold several words, parted by commas
ANYTHING = 1e9


@dataclass(frozen=True)
class Question:
    """One calculation, and what it takes.

    fields   its keys, those that must be given marked as required
    example  a payload that can be reckoned
    single   names of rows of which there is one only
    """

    name: str
    fields: tuple[Field, ...]
    example: Mapping[str, Any]
    single: frozenset[str] = frozenset()

    @property
    def sentence(self) -> str:
        """What the calculation answers, in a sentence."""
        return (CALCULATIONS[self.name].__doc__ or "").splitlines()[0]

    @property
    def is_short(self) -> bool:
        """Whether all it takes goes into an address."""
        return not any(field.type in {Type.ROWS, Type.OUTLINE, Type.NOTE} for field in self.fields)

    def payload(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """The JSON of the calculation from the values of its fields; what is None is left out."""
        built: dict[str, Any] = {}
        for field in self.fields:
            if (value := values.get(field.name)) is not None:
                *parents, key = field.name.split(".")
                inside = built
                for parent in parents:
                    inside = inside.setdefault(parent, {})
                inside[key] = self._given(field, value)
        return built

    def values(self, payload: Mapping[str, Any]) -> dict[str, Any]:
        """The values of its fields from such a JSON, None for what it leaves out."""
        found = {}
        for field in self.fields:
            value: Any = payload
            for key in field.name.split("."):
                value = value.get(key) if isinstance(value, Mapping) else None
            found[field.name] = None if value is None else self._shown(field, value)
        return found

    def _given(self, field: Field, value: Any) -> Any:
        if field.type is Type.YES_NO:
            return bool(value)
        if field.type is not Type.ROWS:
            return value
        if field.name in self.single:
            return value[0] if len(value) == 1 else value
        if _is_list(field):
            return [row[0] for row in value]
        if _has_words(field):
            return [_object(field.columns, row) for row in value]
        return value

    def _shown(self, field: Field, value: Any) -> Any:
        if field.type is Type.YES_NO:
            return int(value)
        if field.type is not Type.ROWS:
            return value
        if field.name in self.single:
            return [list(value)]
        if _is_list(field):
            return [[one] for one in value]
        if _has_words(field):
            return [[_cell(row.get(column.name)) for column in field.columns] for row in value]
        return [list(row) for row in value]


def _is_list(field: Field) -> bool:
    return len(field.columns) == 1


def _has_words(field: Field) -> bool:
    return any(column.type is not Type.NUMBER for column in field.columns)


def _object(columns: Sequence[Field], row: Sequence[Any]) -> dict[str, Any]:
    """A row as an object of what is filled in."""
    pairs = zip(columns, row, strict=True)
    return {
        column.name: [word.strip() for word in cell.split(",")] if column.name in LISTED else cell
        for column, cell in pairs
        if cell is not None
    }


def _cell(value: Any) -> Any:
    return ", ".join(value) if isinstance(value, (list, tuple)) else value


def number(name: str, label: str, unit: str = "", **more: Any) -> Field:
    return bounded(name, label, unit, -ANYTHING, ANYTHING, **more)


def whole(name: str, label: str, **more: Any) -> Field:
    return Field(name, label, Type.WHOLE, **more)


def mm(name: str, label: str, **more: Any) -> Field:
    return number(name, label, "mm", **more)


def column(name: str, label: str, unit: str = "mm") -> Field:
    return number(name, label, unit, required=True)


def listed(name: str, label: str, unit: str, **more: Any) -> Field:
    """A plain list of numbers."""
    more.setdefault("help", "one a line")
    return rows(name, label, column("value", label.lower(), unit), **more)
