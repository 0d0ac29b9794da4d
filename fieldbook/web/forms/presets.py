"""What a new form shows before anyone has typed in it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from werkzeug.datastructures import MultiDict

from ...book.ledger import now
from ...book.next_mark import next_mark, next_number
from ...book.site import Site, targets_of
from ...errors import FieldbookError
from ...model.choices import PLANNED, STATES
from ...model.fields import ANY, Field, Type
from ...model.kinds import KINDS, Kind
from ...model.typed import from_text
from ...model.values import accept


def presets(kind: Kind, site: Site | None, address: MultiDict[str, str]) -> dict[str, Any]:
    """Values for a new item: usual ones, those of the item it is made `like`, and those its address gives.

    What the address gives and a field would refuse is left out; the form asks for it again.
    """
    values = dict(usual(kind, site))
    if site and (like := site.get(address.get("like"), kind.name)):
        values |= {field.name: like.values[field.name] for field in kind.fields if field.copied}
    values |= {name: value for name, value in given(kind, address) if _leads(kind.by_name[name], value, site)}
    if site and kind.name == "pointer":
        values.setdefault("number", next_number(site, values.get("photograph")))
    return _with_surroundings(kind, site, values) if site else values


def counted_on(kind: Kind, site: Site | None, values: dict[str, Any]) -> dict[str, Any]:
    """With the mark that comes next, and where a needed link leads if there is one thing alone, unless given."""
    if site is None:
        return values
    for field in kind.fields:
        if field.type is Type.LINK and field.required and not values.get(field.name):
            there = site.all(field.to) if field.to in KINDS and field.to != "site" else ()
            values |= {field.name: there[0].id} if len(there) == 1 else {}
    if not values.get(kind.numbered_by) and (mark := next_mark(kind, site, values)):
        values[kind.numbered_by] = mark
    return values


def usual(kind: Kind, site: Site | None) -> Iterator[tuple[str, Any]]:
    """What a new item of a kind has unless somebody says otherwise."""
    for field in kind.fields:
        if field.choices == STATES:
            yield field.name, PLANNED
        elif field.type is Type.MOMENT and field.required:
            yield field.name, now()[:16] + now()[-6:]
        elif field.type is Type.DATE and field.required:
            yield field.name, date.today().isoformat()
        elif field.name == "site" and site:
            yield "site", site.item.id
        elif field.name == "currency" and site:
            yield "currency", site.item.currency


def given(kind: Kind, address: MultiDict[str, str]) -> Iterator[tuple[str, Any]]:
    """What an address gives and its field takes."""
    for field in kind.fields:
        if field.name in address:
            try:
                yield field.name, accept(field, _meant(field, address))
            except FieldbookError:
                continue


def _leads(field: Field, value: Any, site: Site | None) -> bool:
    """Whether a link leads to what it may lead to on this site; other fields do not lead anywhere."""
    if site is None or not field.to:
        return True
    kind = "" if field.to == ANY else field.to
    return all(site.get(one, kind) is not None for one in targets_of(value))


def _meant(field: Field, address: MultiDict[str, str]) -> Any:
    if field.type in {Type.CHOICES, Type.LINKS}:
        return address.getlist(field.name)
    return from_text(field, address[field.name])


def _with_surroundings(kind: Kind, site: Site, values: dict[str, Any]) -> dict[str, Any]:
    """Where a link is not given, the one that what is given has: a fixing lies on its fitting's face."""
    links = [field.name for field in kind.fields if field.type is Type.LINK]
    for name in links:
        if (target := site.get(values.get(name))) is not None:
            for other in links:
                if values.get(other) is None:
                    values[other] = target.values.get(other)
    return values
