"""What an entry means that another version of the description in `kinds.py` was used for.

An older one may use names and words that were changed since: they are read as the present ones. A newer one may use
names and words that are not known here: they are told apart, so that nothing is taken for something else.
static/phone/book/versions.js does the same.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from ..errors import FieldbookError, Refused, UnsuitableText, shown
from .description import Kind
from .fields import Field, Type
from .kinds import KINDS
from .values import present_word

_HOLDS: Mapping[Type, tuple[type[Any], ...]] = {
    Type.NUMBER: (int, float),
    Type.WHOLE: (int,),
    Type.YES_NO: (int,),
    Type.CHOICES: (list,),
    Type.LINKS: (list,),
    Type.ROWS: (list,),
    Type.OUTLINE: (list,),
}


class NewerEntry(FieldbookError):
    """An entry that says something this version does not know, from a device with another version."""

    code = "newer-entry"


@dataclass(frozen=True)
class Meaning:
    """What the fields of an entry say.

    values   by their present names, in present words; None where what it holds is not known
    unknown  by the names they came under: what this version cannot account for
    """

    values: dict[str, Any] = field(default_factory=dict)
    unknown: dict[str, Any] = field(default_factory=dict)


def meaning(kind: Kind, given: Mapping[str, Any]) -> Meaning:
    """What the fields of an accepted entry mean now."""
    said = Meaning()
    for name, value in given.items():
        known = kind.by_any_name.get(name)
        if known is None:
            said.unknown[name] = value
            continue
        said.values[known.name] = present(known, value)
        if not is_known(known, value):
            said.unknown[name] = value
    return said


def present(known: Field, value: Any) -> Any:
    """The value as the field would hold it now, None where that is not known; a row is as long as its columns."""
    if value is None or not _holds(known, value):
        return None
    if known.type is Type.CHOICE:
        word = present_word(known, value)
        return word if word in known.words else None
    if known.type is Type.CHOICES:
        words = {present_word(known, word) for word in value}
        return [word for word in known.words if word in words] or None
    if known.type is Type.ROWS:
        return [_row(known, row) for row in value]
    return value


def _row(known: Field, row: list[Any]) -> list[Any]:
    cells = row + [None] * (len(known.columns) - len(row))
    return [present(column, cell) for column, cell in zip(known.columns, cells, strict=False)]


def is_known(known: Field, value: Any) -> bool:
    """Whether all that a value says can be told in this version."""
    if value is None:
        return True
    if not _holds(known, value):
        return False
    if known.type is Type.CHOICE:
        return present_word(known, value) in known.words
    if known.type is Type.CHOICES:
        return all(present_word(known, word) in known.words for word in value)
    if known.type is Type.ROWS:
        return all(len(row) <= len(known.columns) and all(map(is_known, known.columns, row)) for row in value)
    return True


def _holds(known: Field, value: Any) -> bool:
    held: tuple[type[Any], ...] = _HOLDS.get(known.type, (str,))
    if not isinstance(value, held):
        return False
    return known.type is not Type.ROWS or all(isinstance(row, list) for row in value)


def in_present_words(entry: Mapping[str, Any]) -> dict[str, Any]:
    """An accepted entry of a known kind with its fields as they are called now, and `unknown` beside them."""
    if "set" not in entry:
        return dict(entry)
    said = meaning(KINDS[entry["kind"]], entry["set"])
    return {**entry, "set": said.values, "unknown": said.unknown}


def refuse_newer(sent: Mapping[str, Any], keys: Iterable[str]) -> None:
    """Let an entry of another version pass when this one knows all that it says.

    keys  what an entry consists of
    Raises Refused with a NewerEntry for each thing that is not known.
    """
    kind = KINDS.get(str(sent.get("kind")))
    said = sent.get("set")
    given: Mapping[str, Any] = said if isinstance(said, Mapping) else {}
    unknown = [(key, sent[key]) for key in sent if key not in keys]
    if kind is None:
        unknown.append(("kind", sent.get("kind")))
    else:
        fields = ((kind.by_any_name.get(name), name, value) for name, value in given.items())
        unknown += [(name, value) for known, name, value in fields if known is None or not is_known(known, value)]
    if unknown:
        raise Refused(_newer(name, value) for name, value in unknown)


def _newer(name: str, value: Any) -> NewerEntry:
    return NewerEntry(
        f"This laptop runs an older Fieldbook, which does not know “{shown(name)}” as “{shown(value)}”.",
        "It stays on the phone, and is sent once Fieldbook is updated on the laptop.",
        field=name,
        value=value,
    )


def present_names(kind: Kind, given: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of an entry that was sent by their present names, its values as they came.

    Raises UnsuitableText where two names are one field now.
    """
    named: dict[str, Any] = {}
    for name, value in given.items():
        known = kind.by_any_name.get(name)
        present_name = known.name if known else name
        if present_name in named:
            raise UnsuitableText(
                f"“{shown(name)}” is {known.label if known else name}, which is given already.",
                "Send one of them.",
                field=present_name,
                value=value,
            )
        named[present_name] = value
    return named


def fingerprint() -> str:
    """Changes exactly when what entries may say does; labels, groups and help may change freely."""
    return _fingerprint(tuple(KINDS.values()))


@lru_cache(maxsize=4)  # it is asked for whenever a book is opened
def _fingerprint(kinds: tuple[Kind, ...]) -> str:
    described = [[kind.name, kind.parent, [_described(one) for one in kind.fields]] for kind in kinds]
    return hashlib.sha256(json.dumps(described).encode()).hexdigest()


def _described(one: Field) -> list[Any]:
    plain = [one.name, one.type, one.unit, one.low, one.high, one.choices, one.to, one.required]
    life = [one.since, one.renamed_from, one.retired, one.renamed_choices, one.retired_choices]
    return [*plain, *life, [_described(column) for column in one.columns]]
