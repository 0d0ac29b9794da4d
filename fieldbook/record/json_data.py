"""The items of a site as JSON, and the JSON Schema they follow, made from the kinds.

Source: JSON Schema, draft 2020-12 (json-schema.org), Core and Validation.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from ..book.site import Item, Site
from ..findings import Finding
from ..findings.plain import as_plain
from ..model.fields import LINE_LENGTH, NOTE_LENGTH, Field, Type
from ..model.kinds import KINDS, Kind

DIALECT = "https://json-schema.org/draft/2020-12/schema"
HASH = {"type": "string", "pattern": "^[0-9a-f]{64}$"}


def data_of(site: Site, findings: Iterable[Finding], about: Mapping[str, Any]) -> dict[str, Any]:
    """All items of a site by kind, each with what is entered of it, and all findings.

    about  book, site, edition, revision, digest and day the data are of
    """
    items = {name: [site.item] if name == "site" else site.all(name) for name in KINDS}
    told = {name: [_object(item) for item in of_it] for name, of_it in items.items() if of_it}
    return {"about": dict(about), "items": told, "findings": [as_plain(finding) for finding in findings]}


def _object(item: Item) -> dict[str, Any]:
    fields = KINDS[item.kind].fields
    entered = {field.name: item.values[field.name] for field in fields if item.values[field.name] is not None}
    flags = {field.name for field in fields if field.type is Type.YES_NO}
    return {"id": item.id} | {name: bool(value) if name in flags else value for name, value in entered.items()}


def schema() -> dict[str, Any]:
    """The JSON Schema of `data_of`."""
    words = {"type": ["string", "null"]}
    figure = {"type": ["number", "null"]}
    finding: dict[str, Any] = dict.fromkeys(
        ("question", "of", "of_id", "against", "word", "unit", "sentence", "source"), words
    )
    finding |= dict.fromkeys(("figure", "limit", "margin"), figure)
    finding |= {"documents": {"type": "array", "items": _ID}}
    return {
        "$schema": DIALECT,
        "title": "A site of Fieldbook",
        "type": "object",
        "required": ["about", "items", "findings"],
        "properties": {
            "about": {"type": "object", "required": ["book", "site", "edition", "revision", "digest", "made_at"]},
            "items": {
                "type": "object",
                "additionalProperties": False,
                "properties": {kind.name: {"type": "array", "items": _kind(kind)} for kind in KINDS.values()},
            },
            "findings": {
                "type": "array",
                "items": {"type": "object", "required": list(finding), "properties": finding},
            },
        },
    }


def _kind(kind: Kind) -> dict[str, Any]:
    # What is needed only since a later version may be missing from what was entered before.
    needed = [field.name for field in kind.fields if field.required and not field.since]
    return {
        "title": kind.label,
        "description": kind.meaning,
        "type": "object",
        "additionalProperties": False,
        "required": ["id", *needed],
        "properties": {"id": _ID} | {field.name: _described(field) for field in kind.fields},
    }


def _described(field: Field) -> dict[str, Any]:
    about = {"title": field.shown_label, "description": field.help, "$comment": field.unit and f"unit: {field.unit}"}
    return {key: words for key, words in about.items() if words} | _value(field)


_ID: Mapping[str, Any] = {"type": "string", "format": "uuid"}
_SIMPLE: Mapping[Type, Mapping[str, Any]] = {
    Type.LINE: {"type": "string", "maxLength": LINE_LENGTH},
    Type.NOTE: {"type": "string", "maxLength": NOTE_LENGTH},
    Type.YES_NO: {"type": "boolean"},
    Type.DATE: {"type": "string", "format": "date"},
    Type.MOMENT: {"type": "string", "format": "date-time"},
    Type.LINK: _ID,
    Type.LINKS: {"type": "array", "items": _ID, "uniqueItems": True},
    Type.DIGEST: HASH,
}


def _value(field: Field) -> dict[str, Any]:
    if field.type in {Type.NUMBER, Type.WHOLE}:
        kind = "integer" if field.type is Type.WHOLE else "number"
        return {"type": kind, "minimum": field.low, "maximum": field.high}
    if field.type is Type.CHOICE:
        return {"enum": list(field.words)}
    if field.type is Type.CHOICES:
        return {"type": "array", "items": {"enum": list(field.words)}, "uniqueItems": True}
    if field.type in {Type.ROWS, Type.OUTLINE}:
        cells = [
            _value(column) if column.required else {"anyOf": [_value(column), {"type": "null"}]}
            for column in field.columns
        ]
        row = {"type": "array", "prefixItems": cells, "minItems": len(cells), "items": False}
        return {"type": "array", "items": row}
    return dict(_SIMPLE[field.type])
