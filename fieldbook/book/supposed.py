"""A site as it would be with items that are not entered yet."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from ..model.fields import Type
from ..model.kinds import KINDS
from .entry_lines import Line
from .identity import uuid7
from .site import Item, Site


class Supposed(NamedTuple):
    """The site with them, and they themselves in the order of their lines."""

    site: Site
    items: list[Item]


def with_new(site: Site, lines: Iterable[Line]) -> Supposed:
    """The site with what lines of new items would make; names of a line's own stand for its item in later ones."""
    ids: dict[str, str] = {}
    items: list[Item] = []
    for line in lines:
        if not isinstance(line, dict):
            continue
        kind = KINDS[line["kind"]]
        ids[line["item"]] = uuid7()
        values: dict[str, Any] = dict.fromkeys(kind.by_name) | {"id": ids[line["item"]], "withdrawn": 0, "revision": 0}
        for name, value in line["set"].items():
            linked = kind.by_name[name].type is Type.LINK
            values[name] = ids.get(value, value) if linked else value
        items.append(Item(kind.name, ids[line["item"]], values))
    there = [one for one in site.everything().values() if one.id != site.item.id]
    vouched = (site.folder, site.revision, site.digest, site.then)
    return Supposed(Site(site.item, [*there, *items], *vouched, beyond=site.beyond), items)
