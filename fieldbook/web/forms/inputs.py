"""The input of each type of field, as a form at the desk and on the phone has it."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from wtforms import Field as InputField
from wtforms import StringField, TextAreaField
from wtforms.fields.core import UnboundField

from ...model.fields import Field, Type
from ...model.typed import NO, YES
from .options import Choices
from .words_before import parts_by_itself


class One(StringField):
    """One of some words or items.

    groups  what is offered: heading -> (value, words)
    """

    def __init__(self, groups: Choices, label: str, **more: Any):
        super().__init__(label, **more)
        self.groups = groups


class Several(InputField):
    """Any of some words or items; `groups` as in One."""

    def __init__(self, groups: Choices, label: str, **more: Any):
        super().__init__(label, **more)
        self.groups = groups

    def process_formdata(self, valuelist: list[str]) -> None:
        """Those that were ticked; none may be."""
        self.data = valuelist


def inputs_of(fields: Iterable[Field]) -> dict[str, UnboundField]:
    """An input for each field, by its name."""
    return {field.name: _INPUTS[field.type](field) for field in fields}


def _text(field: Field, **attributes: Any) -> UnboundField:
    return StringField(field.heading, description=field.help, render_kw=attributes)


def _figure(field: Field) -> UnboundField:
    # Text rather than type=number: a comma, a slip or an empty input stays as it was typed.
    return _text(field, inputmode="decimal" if field.low >= 0 else "text", autocomplete="off")


def _several_lines(field: Field) -> UnboundField:
    return TextAreaField(field.heading, description=field.help, render_kw={"rows": 4})


def _rows(field: Field) -> UnboundField:
    numeric = all(column.type is Type.NUMBER for column in field.columns)
    columns = {
        "data-columns": "\n".join(column.heading for column in field.columns),
        "data-numeric": YES if numeric else NO,
    }
    first, *others = field.columns
    if others and (numeric or parts_by_itself(field)):
        columns["data-parts"] = json.dumps([list(one.choices) for one in others])
    columns |= choices_told(field.columns)
    if first.type is Type.CHOICE:
        columns["data-each"] = "\n".join(first.choices)
    if field.high == 1:
        columns["data-single"] = YES
    elif not numeric:
        columns["data-ditto"] = "0" * len(field.columns)  # nothing is taken over from one row alone
    return TextAreaField(field.heading, description=field.help, render_kw={"rows": 4, **columns})


def choices_told(columns: Sequence[Field]) -> dict[str, str]:
    """What static/desk/cell_words.js completes: the words of each column that is one of some, or several of them."""
    words = [[YES, NO] if one.type is Type.YES_NO else list(one.choices) for one in columns]
    return {"data-choices": json.dumps(words)} if any(words) else {}


def _one_of(field: Field) -> UnboundField:
    words = (YES, NO) if field.type is Type.YES_NO else field.choices
    return One({"": [("", "–"), *((word, word) for word in words)]}, field.heading, description=field.help)


def _any_of(field: Field) -> UnboundField:
    return Several({"": [(word, word) for word in field.choices]}, field.heading, description=field.help)


_INPUTS: Mapping[Type, Callable[[Field], UnboundField]] = {
    Type.LINE: _text,
    Type.NOTE: _several_lines,
    Type.NUMBER: _figure,
    Type.WHOLE: _figure,
    Type.YES_NO: _one_of,
    Type.CHOICE: _one_of,
    Type.CHOICES: _any_of,
    Type.DATE: lambda field: _text(field, type="date"),
    Type.MOMENT: lambda field: _text(field, autocomplete="off"),
    Type.LINK: _one_of,
    Type.LINKS: _any_of,
    Type.ROWS: _rows,
    Type.OUTLINE: _several_lines,
}
