"""Lines of JSON that someone wrote by hand or by a program, read one by one: objects, or why they are none."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any, BinaryIO

from ..errors import FieldbookError, OutOfRange, UnknownField, UnsuitableText, shown

KEYS = ("kind", "item", "set", "withdraw", "file")
MOST_LINES, MOST_LINE_BYTES = 200_000, 1 << 20
BYTE_ORDER_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")

Line = Mapping[str, Any] | FieldbookError | None


def read(file: BinaryIO) -> Iterator[Line]:
    """Each line of a file as an object, or as the error that says why it is none; None for a blank one.

    Raises OutOfRange for a file of more than 200,000 lines.
    """
    for number in range(1, MOST_LINES + 2):
        line = file.readline(MOST_LINE_BYTES + 1)
        if not line:
            return
        if number > MOST_LINES:
            raise OutOfRange(f"The file has more than {MOST_LINES:,} lines.", "Part it.", field="file")
        if len(line) > MOST_LINE_BYTES:
            yield OutOfRange(f"The line has more than {MOST_LINE_BYTES:,} bytes.", "Part what it holds.")
            while line and not line.endswith(b"\n"):
                line = file.readline(MOST_LINE_BYTES)
        else:
            yield _object_in(line) if line.strip() else None


def _object_in(line: bytes) -> Line:
    if line.startswith(BYTE_ORDER_MARKS):
        return UnsuitableText("The line begins with a byte order mark.", "Save the file as UTF-8 without one.")
    try:
        found = json.loads(line.decode(), object_pairs_hook=_without_doubles, parse_constant=_no_number)
        why = "" if isinstance(found, dict) else "it is no object"
    except (ValueError, RecursionError) as error:
        why = str(error)
    if why:
        return UnsuitableText(f"The line is no JSON object: {shown(why)}.", "Write one JSON object a line, in UTF-8.")
    return _refusal_of(found) or found


def _without_doubles(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for name, value in pairs:
        if name in values:
            raise ValueError(f"“{name}” stands twice in one object")
        values[name] = value
    return values


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")


def _refusal_of(line: Mapping[str, Any]) -> FieldbookError | None:
    for key in line:
        if key not in KEYS:
            return UnknownField(f"A line has no “{shown(key)}”.", f"Its keys are: {', '.join(KEYS)}.", field=shown(key))
    if ("set" in line) == ("withdraw" in line) or ("withdraw" in line and "file" in line):
        return UnsuitableText("A line either sets fields or withdraws an item.", "Give “set” or “withdraw”.")
    if not isinstance(line.get("set", {}), Mapping):
        remedy = "Give the fields with their values in braces."
        return UnsuitableText("“set” is no object of fields.", remedy, field="set", value=line["set"])
    return None
