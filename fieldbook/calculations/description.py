"""What a calculation is, and the words its description is written with.

A key inside an object has a dot in its name. Rows of one column are a plain list; rows with words in
them are objects.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ..checks.verdict import Verdict, Word
from ..errors import Missing
from ..model.description import rows
from ..model.fields import Field, Type
from ..model.figures import number_to
from ..model.typed import to_text

LISTED = {
    "hangs_on",
    "covers",
    "tools",
}  # cells that hold several words: a list in JSON, separated by commas when typed
ANYTHING = 1e9
MOST_ROWS = 10_000
LONGEST_TEXT = 100  # of a table among the steps; longer ones are counted

Steps = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Result:
    """What came out of a calculation.

    figures  its own keys with their values
    verdict  where it was held against a limit
    sources  of the method, and of figures looked up
    steps    (label, figure with unit) on the way, where the verdict does not tell them
    """

    figures: Mapping[str, Any]
    sources: tuple[str, ...]
    verdict: Verdict | None = None
    steps: Steps = ()


@dataclass(frozen=True)
class Calculation:
    """One calculation, described once: command line, page, address and guide are made from it.

    name      of the command and the address, which stays
    heading   what is calculated, as somebody would call it who needs it
    sentence  what it answers
    fields    its keys; those that must be given are required, numbers have their bounds, and rows those of their count
    example   a payload that can be answered
    answer    takes the accepted values under the names of the keys, None left out
    unread    keys whose value the calculation reads itself, whatever it is
    further   such keys that no form asks for, each with the key whose place it can take
    """

    name: str
    heading: str
    sentence: str
    fields: tuple[Field, ...]
    example: Mapping[str, Any]
    answer: Callable[..., Result]
    unread: frozenset[str] = frozenset()
    further: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_short(self) -> bool:
        """Whether all it takes goes into an address."""
        return not any(field.type in {Type.ROWS, Type.OUTLINE, Type.NOTE} for field in self.fields)

    def payload(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """The JSON of the calculation from the values of its fields; what is None is left out."""
        built: dict[str, Any] = {}
        for one in self.fields:
            if (value := values.get(one.name)) is not None:
                *parents, key = one.name.split(".")
                inside = built
                for parent in parents:
                    inside = inside.setdefault(parent, {})
                inside[key] = self._given(one, value)
        return built

    def values(self, payload: Mapping[str, Any]) -> dict[str, Any]:
        """The values of its fields from such a JSON, None for what it leaves out."""
        found = {}
        for one in self.fields:
            value: Any = payload
            for key in one.name.split("."):
                value = value.get(key) if isinstance(value, Mapping) else None
            found[one.name] = None if value is None else self._shown(one, value)
        return found

    def steps(self, payload: Mapping[str, Any]) -> Steps:
        """What was given, in the words of the fields: where every working begins."""
        values = self.values(payload).items()
        known = {one.name: one for one in self.fields}
        return tuple((known[name].label, _in_words(known[name], value)) for name, value in values if value is not None)

    def _given(self, one: Field, value: Any) -> Any:
        if one.type is Type.YES_NO:
            return bool(value)
        if one.type is not Type.ROWS:
            return value
        if is_single(one):
            return value[0] if len(value) == 1 else value
        if is_list(one):
            return [row[0] for row in value]
        if has_words(one):
            return [_object(one.columns, row) for row in value]
        return value

    def _shown(self, one: Field, value: Any) -> Any:
        if one.type is Type.YES_NO:
            return int(value)
        if one.type is not Type.ROWS:
            return value
        if is_single(one):
            return [list(value)]
        if is_list(one):
            return [[cell] for cell in value]
        if has_words(one):
            return [[_cell(row.get(column.name)) for column in one.columns] for row in value]
        return [list(row) for row in value]


def is_single(one: Field) -> bool:
    """Whether it is one row, which stands by itself and not in a list."""
    return one.type is Type.ROWS and one.low == one.high == 1


def is_list(one: Field) -> bool:
    """Whether rows are a plain list."""
    return len(one.columns) == 1


def has_words(one: Field) -> bool:
    """Whether rows are objects."""
    return any(column.type is not Type.NUMBER for column in one.columns)


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


def _in_words(one: Field, value: Any) -> str:
    if one.type in {Type.ROWS, Type.OUTLINE, Type.NOTE}:
        text = " / ".join(row.rstrip("; ") for row in to_text(one, value).splitlines())
        counted = len(value.splitlines()) if isinstance(value, str) else len(value)
        return text if len(text) <= LONGEST_TEXT else f"{counted} lines"
    text = number_to(value) if isinstance(value, (int, float)) and one.type is not Type.YES_NO else to_text(one, value)
    return f"{text} {one.unit}".strip()


def missing(name: str, remedy: str = "Give it.") -> Missing:
    """The refusal of a payload without a key that the rest of it asks for."""
    return Missing("is missing.", remedy, field=name, about=name)


def worst(verdicts: Sequence[Verdict]) -> Verdict | None:
    """The verdict that counts among several; None where there is none."""
    return min(verdicts, key=lambda verdict: list(Word).index(Word(verdict.word)), default=None)


def number(name: str, label: str, unit: str = "", low: float = -ANYTHING, high: float = ANYTHING, **more: Any) -> Field:
    return Field(name, label, Type.NUMBER, unit=unit, low=low, high=high, **more)


def whole(name: str, label: str, low: float, high: float, **more: Any) -> Field:
    return Field(name, label, Type.WHOLE, low=low, high=high, **more)


def mm(name: str, label: str, low: float = 0, high: float = ANYTHING, **more: Any) -> Field:
    return number(name, label, "mm", low, high, **more)


def yes_no(name: str, label: str, **more: Any) -> Field:
    return Field(name, label, Type.YES_NO, **more)


def column(name: str, label: str, unit: str = "mm", low: float = -ANYTHING, high: float = ANYTHING) -> Field:
    return number(name, label, unit, low, high, required=True)


def table(name: str, label: str, *columns: Field, least: int = 1, most: int = MOST_ROWS, **more: Any) -> Field:
    """Rows, from `least` to `most` of them."""
    return rows(name, label, *columns, low=least, high=most, **more)


def row(name: str, label: str, *columns: Field, **more: Any) -> Field:
    """One row, such as the x and z of a point."""
    return table(name, label, *columns, least=1, most=1, **more)


def listed(
    name: str, label: str, unit: str, *bounds: float, least: int = 1, most: int = MOST_ROWS, **more: Any
) -> Field:
    """A plain list of numbers."""
    more.setdefault("help", "one a line")
    return table(name, label, column("value", label.lower(), unit, *bounds), least=least, most=most, **more)
