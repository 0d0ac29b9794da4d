"""All that is known of one item, arranged for its page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from ...book.site import Item, Site
from ...model.fields import Field, Type
from ...model.kinds import KINDS


@dataclass(frozen=True)
class ItemSheet:
    """One item's page.

    newer    names and values that only a newer version knows, as they were written
    groups   heading -> fields with their values, those that are filled in
    empty    labels of the fields that are not
    belonging  what belongs to it, by kind; `adding` the kinds that may
    pointing what else refers to it: label of the field, and the items
    """

    groups: list[tuple[str, list[tuple[Field, Any]]]]
    empty: list[str]
    belonging: list[tuple[str, Sequence[Item]]]
    adding: list[str]
    pointing: list[tuple[str, Sequence[Item]]]
    photographs: Sequence[Item]
    newer: list[tuple[str, str]]


def sheet_of(site: Site, item: Item, newer: Iterable[tuple[str, str]] = ()) -> ItemSheet:
    """The sheet of an item, which may have been withdrawn from the site.

    newer  what only a newer version knows of it, as `Book.not_known_of` gives it
    """
    kind = KINDS[item.kind]
    filled = [(field, item.values[field.name]) for field in kind.fields if item.values[field.name] not in (None, [])]
    children = [name for name, other in KINDS.items() if other.parent and other.by_name[other.parent].to == item.kind]
    return ItemSheet(
        _grouped(filled),
        [field.label for field in kind.asked if item.values[field.name] in (None, [])],
        [(name, found) for name in children if not KINDS[name].pictured and (found := site.of(item, name))],
        [name for name in children if not KINDS[name].with_a_file],
        list(_pointing_to(site, item)),
        site.photographs_of(item),
        list(newer),
    )


def _grouped(filled: Iterable[tuple[Field, Any]]) -> list[tuple[str, list[tuple[Field, Any]]]]:
    """By heading, in the order the headings first come; fields without one first."""
    order = {"": 0}
    filled = list(filled)
    for field, _ in filled:
        order.setdefault(field.group, len(order))
    arranged = sorted(filled, key=lambda pair: order[pair[0].group])
    return [(heading, list(pairs)) for heading, pairs in groupby(arranged, key=lambda pair: pair[0].group)]


def _pointing_to(site: Site, item: Item) -> Iterable[tuple[str, list[Item]]]:
    for kind in KINDS.values():
        if kind.pictured:
            continue
        for field in kind.fields:
            if field.name != kind.parent and field.type in {Type.LINK, Type.LINKS}:
                found = [one for one in site.all(kind.name) if item.id in _targets(one.values[field.name])]
                if found:
                    yield f"{kind.plural}: {field.label.lower()}", found


def _targets(value: str | list[str] | None) -> list[str]:
    return [value] if isinstance(value, str) else value or []
