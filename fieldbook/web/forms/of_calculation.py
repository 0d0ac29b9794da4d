"""The form of a calculation: an input for each of its keys, and its refusals in the words of the labels."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any, ClassVar

from flask import request

from ...calculations.catalogue import CALCULATIONS
from ...calculations.description import Calculation, is_single
from ...checks import materials
from ...errors import FieldbookError, Missing, Refused
from ...model.fields import Field
from ...model.values import accept
from .inputs import inputs_of
from .of_kind import MendableForm, as_typed

FILE = "csv"  # the key that may come as a file as well
CHOSEN_FROM = {
    "species": ("species",),
    "sheet": ("sheet",),
    "material": ("metal", "plastic", "glass"),
}  # keys that name a material -> the groups it may be of
# what may follow a field's name in a key: the row, its cell or column; of a file its row and column
INSIDE = r"(?:\[(?P<row>\d+)\](?:\[\d+\])?)?(?:\.(?P<column>[\w*]+))?(?: row \d+.*)?"


class CalculationForm(MendableForm):
    """What a person gives a calculation."""

    calculation: ClassVar[Calculation]

    def payload(self, file_text: str | None) -> dict[str, Any]:
        """The JSON of the calculation; raises Refused with all findings."""
        values, findings = {}, []
        for field in self.calculation.fields:
            try:
                values[field.name] = self._text_of_file(file_text) if field.name == FILE else self._accepted(field)
            except FieldbookError as error:
                findings.append(error)
        if findings:
            raise Refused(findings)
        return self.calculation.payload(values)

    def _accepted(self, field: Field) -> Any:
        return accept(field, self.meant(field))

    def _text_of_file(self, file_text: str | None) -> str:
        """As it came: a logger's file is longer than a note, and its tabs are its own."""
        if text := file_text or self[FILE].data:
            return text
        raise Missing("There is no file.", "Choose the logger’s file, or paste its text.", field=FILE)

    def add_calculation_error(self, error: FieldbookError) -> None:
        """Put what the calculation refused beside the input it is about, told by its label."""
        field, label = input_named(error.field or "", self.calculation)
        self.add_errors([error.named(label, field)])


def input_named(key: str, calculation: Calculation) -> tuple[str | None, str]:
    """The field a key lies in, and what a page calls it: points_mm[3] is “Fixings”, row 4; None where it is none."""
    for field in calculation.fields:
        if found := re.fullmatch(rf"{re.escape(field.name)}{INSIDE}", key):
            columns = {column.name: column.label for column in field.columns}
            row = f", row {int(found['row']) + 1}" if found["row"] and not is_single(field) else ""
            column = f", {columns.get(found['column'], found['column'])}" if found["column"] else ""
            return field.name, f"“{field.label}”{row}{column}"
    return None, key


def calculation_form(calculation: Calculation) -> CalculationForm:
    """The form as it was sent, by post or in the address; empty when nothing was."""
    form_class = _form_class(calculation.name)
    form = form_class(formdata=request.args or None, meta={"csrf": False}) if _is_read() else form_class()
    for key in CHOSEN_FROM.keys() & form:
        form[key].render_kw = {**form[key].render_kw, "list": f"names-{key}"}
    return form


def _is_read() -> bool:
    """Whether nothing was posted, so that the address holds all there is."""
    return request.method in {"GET", "HEAD"}


def suggested(calculation: Calculation) -> dict[str, list[str]]:
    """The names of materials each key that takes one may have."""
    keys = CHOSEN_FROM.keys() & {field.name for field in calculation.fields}
    return {key: [name for group in CHOSEN_FROM[key] for name in materials.names(group)] for key in keys}


@cache
def _form_class(name: str) -> type[CalculationForm]:
    calculation = CALCULATIONS[name]
    return type("CalculationForm", (CalculationForm,), inputs_of(calculation.fields) | {"calculation": calculation})


def in_the_address(calculation: Calculation, payload: Mapping[str, Any]) -> dict[str, Any]:
    """What the address of a calculation's page holds for a payload."""
    typed = as_typed(calculation.fields, calculation.values(payload))
    return {name: text for name, text in typed.items() if text}
