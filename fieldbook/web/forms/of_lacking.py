"""What the findings of a thing still lack, asked for together: a field of each item, and no other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ...book.entry_lines import Line
from ...book.site import Item
from ...errors import FieldbookError, Refused
from ...findings import Finding
from ...model.fields import Field, Type
from ...model.kinds import KINDS
from ...model.values import accept
from .inputs import inputs_of
from .of_kind import MendableForm, fields_of

LINKED = {Type.LINK, Type.LINKS}  # chosen from a list, which the item's own form has


def lacking(findings: Sequence[Finding]) -> list[tuple[Item, Field]]:
    """The fields that findings lack, each once, what settles most first; what is an item of its own is left out."""
    settles: dict[tuple[str, str], int] = {}
    asked: dict[tuple[str, str], tuple[Item, Field]] = {}
    for finding in findings:
        for blank in finding.missing:
            kind = KINDS[blank.item.kind]
            field = next((one for one in fields_of(kind) if one.name == blank.field), None)
            if field is None or field.type in LINKED or blank.item.values[field.name] not in (None, []):
                continue
            key = blank.item.id, field.name
            asked[key] = blank.item, field
            settles[key] = settles.get(key, 0) + 1
    return [asked[key] for key in sorted(asked, key=lambda key: -settles[key])]


class LackingForm(MendableForm):
    """An input for each field of each item, called by the field and the item's id.

    asked  name of an input -> the item and the field it is of
    """

    asked: dict[str, tuple[Item, Field]]

    @property
    def by_item(self) -> list[tuple[Item, list[Field]]]:
        """Each item with the inputs that are about it, in the order they are asked."""
        groups: dict[str, tuple[Item, list[Field]]] = {}
        for name, (item, field) in self.asked.items():
            groups.setdefault(item.id, (item, []))[1].append(replace(field, name=name, required=False))
        return list(groups.values())

    def lines(self) -> list[Line]:
        """A line for each item of which something was filled in; raises Refused."""
        found: dict[str, dict[str, Any]] = {}
        wrong: list[FieldbookError] = []
        for name, (item, field) in self.asked.items():
            try:
                value = accept(replace(field, required=False), self.meant(replace(field, name=name)))
            except FieldbookError as error:
                error.field = name
                wrong.append(error)
                continue
            if value not in (None, []):
                found.setdefault(item.id, {})[field.name] = value
        if wrong:
            raise Refused(wrong)
        kinds = {item.id: item.kind for item, _ in self.asked.values()}
        return [{"kind": kinds[item], "item": item, "set": values} for item, values in found.items()]


def lacking_form(asked: Sequence[tuple[Item, Field]]) -> LackingForm:
    """The form as it was sent, or empty."""
    named = {f"{field.name}-{item.id}": (item, field) for item, field in asked}
    inputs = inputs_of(replace(field, name=name) for name, (_, field) in named.items())
    made: type[LackingForm] = type("LackingFormOf", (LackingForm,), dict[str, Any](inputs))
    form = made()
    form.asked = named
    return form
