"""What a kind of entry is, and the short words its description in `kinds.py` is written with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from .fields import Field, Type


@dataclass(frozen=True, eq=False)  # there is one of each, and comparing all it holds takes long
class Kind:
    """One kind of entry.

    name    word for programs and table name; `label` and `plural` for people
    meaning what it is, for the glossary
    parent  name of the field that links to what it belongs to; "" for a site
    pointed_to  whether a link to anything offers it
    """

    name: str
    label: str
    plural: str
    meaning: str
    parent: str
    fields: tuple[Field, ...]
    pointed_to: bool = True

    @property
    def pictured(self) -> bool:
        """Whether its items are shown as pictures, beside what they are of, rather than in lists."""
        return "media_type" in self.by_name

    @property
    def with_a_file(self) -> bool:
        """Whether an item begins with a file, rather than with a form alone."""
        return any(field.type is Type.DIGEST for field in self.fields)

    @cached_property
    def by_name(self) -> dict[str, Field]:
        """The fields by their names, in order."""
        return {field.name: field for field in self.fields}

    @cached_property
    def by_any_name(self) -> dict[str, Field]:
        """The fields by their names and by those they had before."""
        return {name: field for field in self.fields for name in field.renamed_from} | self.by_name

    @cached_property
    def asked(self) -> tuple[Field, ...]:
        """The fields that are still asked for, in order."""
        return tuple(field for field in self.fields if not field.retired)

    @cached_property
    def numbered_by(self) -> str:
        """The field people tell its items apart by: mark, reference or name; "" for a kind that has none."""
        return next((name for name in ("mark", "reference", "name") if name in self.by_name), "")

    def title(self, values: Mapping[str, Any]) -> str:
        """How an item of this kind is called in a heading or a list."""
        words = [values.get(name) for name in ("mark", "name", "reference", "what", "caption", "quantity")]
        text = " ".join(str(word) for word in words if word) or values.get("purpose")
        return text or f"{self.label} {values.get('on') or values.get('at') or ''}".strip()


def line(name: str, label: str, **more: Any) -> Field:
    return Field(name, label, Type.LINE, **more)


def person(name: str, label: str, **more: Any) -> Field:
    """A line that says who, by role or by name."""
    return line(name, label, personal=True, **more)


def note(name: str, label: str, **more: Any) -> Field:
    return Field(name, label, Type.NOTE, **more)


def number(name: str, label: str, unit: str, low: float, high: float, **more: Any) -> Field:
    return Field(name, label, Type.NUMBER, unit=unit, low=low, high=high, **more)


def length(name: str, label: str, high: float = 100_000, low: float = 0, **more: Any) -> Field:
    return number(name, label, "mm", low, high, **more)


def place(name: str, label: str, **more: Any) -> Field:
    return number(name, label, "mm", -100_000, 100_000, **more)


def choice(name: str, label: str, *choices: str, **more: Any) -> Field:
    return Field(name, label, Type.CHOICE, choices=choices, **more)


def link(name: str, label: str, to: str, **more: Any) -> Field:
    return Field(name, label, Type.LINK, to=to, **more)


def kept(name: str, label: str, **more: Any) -> Field:
    """The document that something said rests on, where it is in the book: findings that rest on it cite it."""
    return link(
        name, label, "document", help="the letter, note or data sheet that says so, where it is in the book", **more
    )


def rows(name: str, label: str, *columns: Field, **more: Any) -> Field:
    return Field(name, label, Type.ROWS, columns=columns, **more)
