"""The JSON a calculation is given, held against its description key by key."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from ..errors import NotAChoice, NotANumber, UnknownField, UnsuitableShape, shown
from ..model.fields import Field, Type
from ..model.values import accept
from .description import LISTED, Calculation, has_words, is_list, is_single, missing

Tree = dict[str, Any]  # key -> Field, the tree of an object, or None for what is not read here


def accepted(calculation: Calculation, payload: Any) -> dict[str, Any]:
    """The values of a payload by their keys, what is null left out, objects as dictionaries.

    Raises UnsuitableShape, UnknownField, Missing and what the model's `accept` raises, each naming the
    key with the objects and rows it lies in: layers[1].thickness_mm.
    """
    return _object(calculation, _tree(calculation), payload, "")


def _tree(calculation: Calculation) -> Tree:
    tree: Tree = {}
    for field in calculation.fields:
        *parents, key = field.name.split(".")
        inside = tree
        for parent in parents:
            inside = inside.setdefault(parent, {})
        inside[key] = field
    return tree | dict.fromkeys(calculation.further)


def _object(calculation: Calculation, tree: Tree, payload: Any, inside: str) -> dict[str, Any]:
    _refuse_other_keys(tuple(tree), payload, inside)
    found = {}
    for key, what in tree.items():
        name = inside + key
        if payload.get(key) is None:
            if _is_required(what) and name not in calculation.further.values():
                raise missing(name)
        elif what is None or name in calculation.unread:
            found[key] = payload[key]
        elif isinstance(what, dict):
            found[key] = _object(calculation, what, payload[key], f"{name}.")
        else:
            found[key] = _value(what, name, payload[key])
    return found


def _refuse_other_keys(keys: tuple[str, ...], payload: Any, inside: str) -> None:
    if not isinstance(payload, Mapping):
        name = inside.removesuffix(".")
        remedy = f"Give an object with the keys: {', '.join(keys)}."
        raise UnsuitableShape(f"{name or 'The input'} is not a JSON object.", remedy, field=name or None, value=payload)
    for key in payload:
        if key not in keys:
            reason = f"“{key}” is not a key of this calculation."
            raise UnknownField(reason, f"It takes: {', '.join(keys)}.", field=f"{inside}{key}", value=payload[key])


def _is_required(what: Field | Tree | None) -> bool:
    if isinstance(what, dict):
        return any(_is_required(one) for one in what.values())
    return what is not None and what.required


def _value(field: Field, name: str, value: Any) -> Any:
    if field.type is Type.YES_NO and not isinstance(value, bool):
        raise NotAChoice(f"is {shown(value)}.", "Choose true or false.", field=name, value=value, about=name)
    if field.type not in {Type.ROWS, Type.OUTLINE}:
        return _cell(field, name, value)
    if is_single(field):
        return _row(field, name, value)
    rows = _list(field, name, value)
    if is_list(field):
        return [_number(field.columns[0], f"{name}[{place}]", one) for place, one in enumerate(rows)]
    read = _record if has_words(field) else _row
    return [read(field, f"{name}[{place}]", row) for place, row in enumerate(rows)]


def _cell(field: Field, name: str, value: Any) -> Any:
    found = accept(replace(field, name=name, label=name, required=True), value)
    return bool(found) if field.type is Type.YES_NO else found


def _number(column: Field, name: str, value: Any) -> float:
    if value is None:  # in a row every place has to hold one
        raise NotANumber("is null, which is not a number.", "Give a number.", field=name, about=name)
    return _cell(column, name, value)


def _list(field: Field, name: str, value: Any) -> list[Any] | tuple[Any, ...]:
    least, most = (3, field.high) if field.type is Type.OUTLINE else (field.low, field.high)
    remedy = f"Give {least:.0f} to {most:.0f} of: {', '.join(column.name for column in field.columns)}."
    if not isinstance(value, (list, tuple)):
        raise UnsuitableShape("is no list.", remedy, field=name, value=value, about=name)
    if not least <= len(value) <= most:
        raise UnsuitableShape(f"holds {len(value)} of them.", remedy, field=name, value=len(value), about=name)
    return value


def _row(field: Field, name: str, row: Any) -> tuple[float, ...]:
    width = len(field.columns)
    if not isinstance(row, (list, tuple)) or len(row) != width:
        reason = f"is not {width} numbers in a list."
        names = ", ".join(column.name for column in field.columns)
        raise NotANumber(reason, f"Give [{names}].", field=name, value=row, about=name)
    cells = enumerate(zip(field.columns, row, strict=True))
    return tuple(_number(column, f"{name}[{place}]", cell) for place, (column, cell) in cells)


def _record(field: Field, name: str, row: Any) -> dict[str, Any]:
    """A row given as an object, None for what it leaves out."""
    _refuse_other_keys(tuple(column.name for column in field.columns), row, f"{name}.")
    found = dict.fromkeys(column.name for column in field.columns)
    for column in field.columns:
        value, inside = row.get(column.name), f"{name}.{column.name}"
        if value is not None:
            found[column.name] = (
                _words(column, inside, value) if column.name in LISTED else _cell(column, inside, value)
            )
        elif column.required:
            raise missing(inside)
    return found


def _words(column: Field, name: str, value: Any) -> list[str]:
    if not isinstance(value, (list, tuple)):
        raise UnsuitableShape("is no list.", "Give a list of words.", field=name, value=value, about=name)
    return [_cell(column, f"{name}[{place}]", word) for place, word in enumerate(value)]
