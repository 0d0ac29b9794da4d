"""What a calculation takes, told key by key for a person who writes its JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator

from ..model.fields import Field, Type
from ..model.figures import number_to
from .description import ANYTHING, Calculation, has_words, is_list, is_single

FORMS = {
    Type.NUMBER: "a number",
    Type.WHOLE: "a whole number",
    Type.YES_NO: "true or false",
    Type.OUTLINE: "corners in turn, [[x, z], …]",
    Type.NOTE: "text",
}


def keys_of(calculation: Calculation) -> Iterator[tuple[str, str, str]]:
    """Each key, how its value is written, and what it means."""
    for field in calculation.fields:
        meaning = f"{field.label}{': ' if field.help else ''}{field.help}."
        yield field.name, form_of(field), f"{meaning} Must be given." if field.required else meaning
    for key, instead in calculation.further.items():
        yield key, "as a program has it", f"In place of {instead}."


def lines_about(calculation: Calculation) -> Iterator[str]:
    """Its sentence, its keys, and an example that can be copied."""
    yield calculation.sentence
    for key, form, meaning in keys_of(calculation):
        yield from ("", f"{key}: {form}", f"    {meaning}")
    yield from ("", f"Example: {json.dumps(calculation.example, ensure_ascii=False)}")


def form_of(field: Field) -> str:
    """How a key's value is written: a number with its unit and bounds, one of some words, rows."""
    if field.choices:
        return f"one of: {', '.join(field.choices)}"
    if field.type is not Type.ROWS:
        return f"{FORMS.get(field.type, 'words on one line')}{_bounds(field)}"
    if is_list(field):
        return f"a list of numbers{_bounds(field.columns[0])}"
    names = [column.name for column in field.columns]
    if has_words(field):
        return f"a list of objects with {', '.join(names)}"
    row = f"[{', '.join(names)}]"
    return f"one row {row}" if is_single(field) else f"a list of rows {row}"


def _bounds(field: Field) -> str:
    unit = f" {field.unit}" if field.unit else ""
    if field.type not in {Type.NUMBER, Type.WHOLE} or field.low <= -ANYTHING:
        return unit and f" in{unit}"
    low, high = number_to(field.low), number_to(field.high)
    return f" from {low} to {high}{unit}" if field.high < ANYTHING else f" from {low}{unit}"
