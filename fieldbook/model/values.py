"""How a value given for a field is accepted.

It comes as JSON (from a phone, a file) or as text typed into a form; `typed.from_text` turns the second into the first
and `accept` judges it. Both refuse with the field's name.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping
from datetime import date, datetime
from typing import Any
from uuid import UUID

from shapely import Polygon, is_valid_reason

from ..errors import (
    FieldbookError,
    Missing,
    NotAChoice,
    NotANumber,
    OutOfRange,
    Refused,
    UnknownField,
    UnsuitableShape,
    UnsuitableText,
    shown,
)
from .days_typed import ways_to_read
from .fields import LINE_LENGTH, MOST_ROWS, NOTE_LENGTH, Field, Type
from .figures import two_readings

A_FRACTION = "If this is a fraction, give it in percent: 65, not 0.65."


def accept(field: Field, value: Any) -> Any:
    """The value in the form it is stored in, or None when there is none.

    Raises a FieldbookError that names the field, the value, the rule and the remedy.
    """
    if value is None or value == [] or (isinstance(value, str) and not value.strip()):
        if field.required:
            remedy = f"Fill in {field.label.lower()}."
            raise Missing("is empty.", remedy, field=field.name, about=field.label)
        return None
    return _ACCEPT[field.type](field, value)


def _text(field: Field, value: Any) -> str:
    if not isinstance(value, str):
        raise _unsuitable(field, value, "is not text", "Write it in words.")
    text = unicodedata.normalize("NFC", value.replace("\r\n", "\n")).strip()
    longest = NOTE_LENGTH if field.type is Type.NOTE else LINE_LENGTH
    if len(text) > longest:
        raise _unsuitable(field, value, f"has {len(text)} characters; at most {longest} fit", "Shorten it.")
    for letter in text:
        if unicodedata.category(letter) in {"Cc", "Cf", "Cs", "Co"} and not (
            field.type is Type.NOTE and letter in "\n\t"
        ):
            name = unicodedata.name(letter, f"U+{ord(letter):04X}").lower()
            raise _unsuitable(
                field, value, f"holds an invisible character ({name})", "Delete it, or type the text again."
            )
    if field.type is Type.LINE and (markup := re.search(r"<[a-zA-Z/!?][^>]*>?", text)):
        raise _unsuitable(field, value, f"holds “{markup[0]}”, which looks like markup", "Write it in plain words.")
    return text


def _unsuitable(field: Field, value: Any, why: str, remedy: str) -> UnsuitableText:
    return UnsuitableText(f"{why}.", remedy, field=field.name, value=value, about=field.label)


def _number(field: Field, value: Any) -> float:
    if isinstance(value, str) and (ways := two_readings(value, field.unit)):
        raise NotANumber(
            f"is “{shown(value)}”, which can be read in two ways.",
            f"Write {ways[1]}, or {ways[0]}.",
            field=field.name,
            value=value,
            about=field.label,
        )
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise NotANumber(
            f"is “{shown(value)}”, which is not a number.",
            f"Give it in figures{f', in {field.unit}' if field.unit else ''}.",
            field=field.name,
            value=value,
            about=field.label,
        )
    if not field.low <= value <= field.high:
        unit = f" {field.unit}" if field.unit else ""
        raise OutOfRange(
            f"is {shown(value)}{unit}; it can be from {field.low:g} to {field.high:g}{unit}.",
            A_FRACTION if field.unit == "%" and 0 < value <= 1 else "Check the figure and its unit.",
            field=field.name,
            value=value,
            about=field.label,
        )
    return float(value)


def _whole(field: Field, value: Any) -> int:
    number = _number(field, value)
    if number != math.floor(number):
        raise NotANumber(f"is {number:g}.", "Give a whole number.", field=field.name, value=value, about=field.label)
    return int(number)


def _yes_no(field: Field, value: Any) -> int:
    if value in (0, 1):  # bool included
        return int(value)
    raise NotAChoice(f"is “{shown(value)}”.", "Answer yes or no.", field=field.name, value=value, about=field.label)


def _choice(field: Field, value: Any) -> str:
    word = present_word(field, value)
    if word in field.words:
        return word
    raise NotAChoice(
        f"is “{shown(value)}”.",
        f"Choose one of: {', '.join(field.choices)}.",
        field=field.name,
        value=value,
        about=field.label,
    )


def present_word(field: Field, word: Any) -> Any:
    """The word that says the same now, for one the field had before; any other as it is."""
    return next((now for before, now in field.renamed_choices if before == word), word)


def _choices(field: Field, value: Any) -> list[str]:
    if not isinstance(value, (list, tuple)):
        raise NotAChoice(
            f"is “{shown(value)}”.",
            f"Choose any of: {', '.join(field.choices)}.",
            field=field.name,
            value=value,
            about=field.label,
        )
    chosen = {_choice(field, word) for word in value}
    return [word for word in field.words if word in chosen]


def _date(field: Field, value: Any) -> str:
    try:
        return date.fromisoformat(value).isoformat()
    except (TypeError, ValueError):
        ways = ways_to_read(value) if isinstance(value, str) else []
        why = "which can be read in two ways" if ways else "which is not a date"
        remedy = f"Write {' or '.join(ways)}." if ways else "Write it as 2026-05-31."
        raise _unsuitable(field, value, f"is “{shown(value)}”, {why}", remedy) from None


def _moment(field: Field, value: Any) -> str:
    try:
        moment = datetime.fromisoformat(value)
        if moment.tzinfo is None:  # what it means would hang on the clock of whoever reads it
            raise ValueError("no offset")
        return moment.isoformat()
    except (TypeError, ValueError, OverflowError):
        raise _unsuitable(
            field,
            value,
            f"is “{shown(value)}”, which is no date and time with its offset",
            "Write it as 2026-05-31T14:30+01:00.",
        ) from None


def _link(field: Field, value: Any) -> str:
    try:
        return str(UUID(value))
    except (TypeError, ValueError, AttributeError):
        raise NotAChoice(
            f"{field.label} is “{shown(value)}”, which is not the id of an item.",
            "Choose an item from the list.",
            field=field.name,
            value=value,
        ) from None


def _links(field: Field, value: Any) -> list[str]:
    if not isinstance(value, (list, tuple)):
        raise NotAChoice(
            f"{field.label} is not a list of items.", "Choose from the list.", field=field.name, value=value
        )
    return list(dict.fromkeys(_link(field, link) for link in value))


def _digest(field: Field, value: Any) -> str:
    if isinstance(value, str) and re.fullmatch(r"[0-9a-f]{64}", value):
        return value
    raise _unsuitable(field, value, "is not a SHA-256 checksum", "Add the photograph again.")


def _rows(field: Field, value: Any) -> list[list[Any]]:
    if not isinstance(value, (list, tuple)) or len(value) > MOST_ROWS:
        raise UnsuitableShape(
            f"{field.label} is not a table of at most {MOST_ROWS} rows.",
            f"Give rows of: {', '.join(column.heading for column in field.columns)}.",
            field=field.name,
            value=value,
        )
    return [_row(field, place, row) for place, row in enumerate(value, 1)]


def _row(field: Field, place: int, row: Any) -> list[Any]:
    if not isinstance(row, (list, tuple)) or len(row) > len(field.columns):
        raise UnsuitableShape(
            f"{field.label}, row {place}: {shown(row)} does not fit.",
            f"Give a list, in this order: {', '.join(column.heading for column in field.columns)}.",
            field=field.name,
            value=row,
        )
    cells = list(row) + [None] * (len(field.columns) - len(row))
    try:
        return [accept(column, cell) for column, cell in zip(field.columns, cells, strict=True)]
    except FieldbookError as error:
        error.reason = f"{field.label}, row {place}: {error.reason}"
        error.field = field.name
        raise


def _outline(field: Field, value: Any) -> list[list[float]]:
    corners = _rows(field, value)
    while len(corners) > 1 and corners[0] == corners[-1]:
        corners.pop()
    if len(corners) < 3:
        raise UnsuitableShape(
            f"{field.label} has {len(corners)} corners.", "Give at least three.", field=field.name, value=value
        )
    polygon = Polygon(corners)
    if not polygon.is_valid:
        raise UnsuitableShape(
            f"{field.label} crosses or touches itself ({is_valid_reason(polygon)}).",
            "Give the corners in order, one way round.",
            field=field.name,
            value=value,
        )
    if polygon.area < 1:
        raise UnsuitableShape(
            f"{field.label} has no area.", "Give corners that enclose one.", field=field.name, value=value
        )
    return corners


_ACCEPT = {
    Type.LINE: _text,
    Type.NOTE: _text,
    Type.NUMBER: _number,
    Type.WHOLE: _whole,
    Type.YES_NO: _yes_no,
    Type.CHOICE: _choice,
    Type.CHOICES: _choices,
    Type.DATE: _date,
    Type.MOMENT: _moment,
    Type.LINK: _link,
    Type.LINKS: _links,
    Type.ROWS: _rows,
    Type.OUTLINE: _outline,
    Type.DIGEST: _digest,
}


def accept_all(fields: Mapping[str, Field], given: Mapping[str, Any]) -> dict[str, Any]:
    """Every given value accepted.

    Raises Refused with all findings at once; a name that is no field is one of them.
    """
    accepted: dict[str, Any] = {}
    findings: list[FieldbookError] = []
    for name, value in given.items():
        try:
            if name not in fields:
                raise UnknownField(
                    f"There is no field “{shown(name)}” here.",
                    f"The fields are: {', '.join(fields)}.",
                    field=name,
                    value=value,
                )
            accepted[name] = accept(fields[name], value)
        except FieldbookError as error:
            findings.append(error)
    if findings:
        raise Refused(findings)
    return accepted
