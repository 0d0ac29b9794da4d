"""What a calculation takes, told line by line for a person who writes its JSON."""

from __future__ import annotations

import json
from collections.abc import Iterator

from ..model.fields import Field, Type
from .description import ANYTHING, Calculation, has_words, is_list

FORMS = {
    Type.NUMBER: "a number",
    Type.WHOLE: "a whole number",
    Type.YES_NO: "true or false",
    Type.OUTLINE: "corners in turn, [[x, z], …]",
    Type.NOTE: "text",
}


def lines_about(calculation: Calculation) -> Iterator[str]:
    """Its sentence, its keys with form, unit and bounds, what they mean, and an example."""
    yield calculation.sentence
    for field in calculation.fields:
        yield ""
        yield f"{field.name}: {form_of(field, field.name in calculation.single)}"
        words = f"{field.heading}{': ' if field.help else ''}{field.help}"
        yield f"    {words}. {'Must be given.' if field.required else 'May be left out.'}"
    for key, instead in calculation.further.items():
        yield ""
        yield f"{key}: for programs, in place of {instead}"
    yield ""
    yield f"Example: {json.dumps(calculation.example, ensure_ascii=False)}"


def form_of(field: Field, is_single: bool = False) -> str:
    """How a key's value is written: a number with its unit and bounds, one of some words, rows."""
    if field.choices:
        return f"one of {', '.join(field.choices)}"
    if field.type is not Type.ROWS:
        return f"{FORMS.get(field.type, 'words on one line')}{_bounds(field)}"
    if is_list(field):
        return f"a list of numbers{_bounds(field.columns[0])}"
    names = [column.name for column in field.columns]
    if has_words(field):
        return f"a list of objects with {', '.join(names)}"
    row = f"[{', '.join(names)}]"
    return f"one row {row}" if is_single else f"a list of rows {row}"


def _bounds(field: Field) -> str:
    unit = f" {field.unit}" if field.unit else ""
    if field.type not in {Type.NUMBER, Type.WHOLE} or field.low <= -ANYTHING:
        return unit and f" in{unit}"
    return f" from {field.low:g} to {field.high:g}{unit}" if field.high < ANYTHING else f" from {field.low:g}{unit}"
