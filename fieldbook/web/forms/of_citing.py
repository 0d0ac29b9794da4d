"""What rests on a document, ticked all together: what is said alike of several things is one tick."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from ...book.entry_lines import Line
from ...book.site import Item, Site
from ...book.wording import marks
from ...model.fields import Field, Type
from ...model.kinds import KINDS, Kind
from .options import titled

TICKED = "rests"  # what tick boxes are called
# What has to be entered before a document can be said to state it, and who or what it goes by.
STATED: Mapping[str, tuple[str, str]] = {
    "stated_in": ("stated_load_n", "stated_source"),
    "tested_in": ("tested_n", ""),
    "load_stated_in": ("load_limit_n", "load_said_by"),
    "floor_limit_in": ("floor_limit_kn_m2", ""),
}


@dataclass(frozen=True)
class Citing:
    """What is said in one way of one thing, or of several.

    value   what its box sends
    words   what it is called
    cites   whether all of it cites the document already
    others  what it cites instead
    """

    field: Field
    items: tuple[Item, ...]
    value: str
    words: str
    cites: bool
    others: tuple[Item, ...]


def citings(site: Site, document: Item) -> list[tuple[str, list[Citing]]]:
    """Heading -> what can rest on a document, kind by kind."""
    citing = [
        (kind, field)
        for kind in KINDS.values()
        for field in kind.asked
        if field.type is Type.LINK and field.to == "document"
    ]
    found = [
        (f"{kind.plural}: {field.label.lower()}", list(_groups(site, document, kind, field))) for kind, field in citing
    ]
    return [(heading, groups) for heading, groups in found if groups]


def _groups(site: Site, document: Item, kind: Kind, field: Field) -> Iterator[Citing]:
    figure, source = STATED.get(field.name, ("", ""))
    alike: dict[tuple[Any, ...], list[Item]] = {}
    for one in site.all(kind.name):
        if not figure or one.values.get(figure) is not None:
            said = one.values.get(source)
            alike.setdefault((said, one.values.get("stated_on")) if said else (one.id,), []).append(one)
    for items in alike.values():
        cited = {one.values.get(field.name) for one in items}
        said = items[0].values.get(source)
        names = f"{kind.label if len(items) == 1 else kind.plural} {marks([str(one.mark_or_name) for one in items])}"
        yield Citing(
            field,
            tuple(items),
            value=" ".join([field.name, *(one.id for one in items)]),
            words=f"{said}: {names}" if said else titled(site, items[0]) if len(items) == 1 else names,
            cites=cited == {document.id},
            others=tuple(other for one in cited - {None, document.id} if (other := site.get(one, "document"))),
        )


def changed(groups: Sequence[Citing], document: Item, ticked: Sequence[str]) -> list[Line]:
    """A line for each thing that is to cite the document and does not, or the other way round."""
    lines: list[Line] = []
    for one in groups:
        cites = one.value in ticked
        for item in one.items:
            now = item.values.get(one.field.name) == document.id
            if cites != now and (cites or one.cites):
                cited = {one.field.name: document.id if cites else None}
                lines.append({"kind": item.kind, "item": item.id, "set": cited})
    return lines
