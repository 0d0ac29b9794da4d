"""How values, items and places in the book read on a page: what the templates may call."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from flask import Flask, url_for

from ...book import wording
from ...book.site import Item, Site
from ...checks.verdict import Word
from ...drawing.signs import hazard, sign
from ...findings.geometry import place_of
from ...model.fields import ANY, Field, Type
from ...model.kinds import KINDS
from ...model.terms import Term
from ...record.glossary import meaning_of

PAGES = {"site": "sites.show", "room": "rooms.show", "face": "faces.show"}
EMPTY, WITHDRAWN, IN_THE_BOOK = "(empty)", "withdrawn", "in the book"


def prepare(app: Flask, *_: object) -> None:
    """Hand them to the templates."""
    app.jinja_env.filters.update(
        figure=wording.figure, day=wording.day, moment=wording.moment, kept=wording.kept_together
    )
    app.jinja_env.filters.update(under_headings=under_headings)
    app.jinja_env.globals.update(
        page_of=page_of,
        trail=trail,
        sign=sign,
        hazard=hazard,
        place_of=place_of,
        said=said,
        held_by=held_by,
        meaning_of=meaning_of,
    )
    app.jinja_env.globals.update(KINDS=KINDS, Term=Term, Type=Type, Word=Word)


def page_of(item: Item) -> str:
    """The address of the page that shows an item."""
    return url_for(PAGES.get(item.kind, "items.show"), item=item.id)


def trail(site: Site, item: Item) -> Iterator[Item]:
    """What an item lies in, from the site down to the item itself."""
    parent = site.parent(item)
    if parent is not None:
        yield from trail(site, parent)
    yield item


def said(field: Field, value: Any) -> str:
    """A value in words, when it is no link."""
    return wording.said(field, value, {})


def under_headings(fields: Iterable[Field]) -> list[tuple[str, list[Field]]]:
    """Fields under their headings, in the order the headings first come; those without one come first."""
    groups: dict[str, list[Field]] = {"": []}
    for field in fields:
        groups.setdefault(field.group, []).append(field)
    return [(heading, members) for heading, members in groups.items() if members]


def held_by(field: Field) -> str:
    """What a field can hold, in words, for the glossary."""
    if field.choices:
        return f"{'any of' if field.type is Type.CHOICES else 'one of'}: {', '.join(field.choices)}"
    if field.type in {Type.NUMBER, Type.WHOLE}:
        return f"{HOLDS[field.type]} from {wording.figure(field.low)} to {wording.figure(field.high, field.unit)}"
    if field.to:
        return f"{HOLDS[field.type]}: {'anything' if field.to == ANY else KINDS[field.to].label.lower()}"
    if field.type is Type.ROWS:
        return f"{HOLDS[field.type]}: {', '.join(column.heading for column in field.columns)}"
    return HOLDS[field.type]


HOLDS = {
    Type.LINE: "one line of text",
    Type.NOTE: "text of several lines",
    Type.NUMBER: "a number",
    Type.WHOLE: "a whole number",
    Type.YES_NO: "yes or no",
    Type.DATE: "a date",
    Type.MOMENT: "a date and time",
    Type.LINK: "a link",
    Type.LINKS: "links",
    Type.ROWS: "rows",
    Type.OUTLINE: "an outline",
    Type.DIGEST: "a checksum",
}


def titles_of(site: Site) -> dict[str, str]:
    """Id -> title of everything on a site."""
    return {site.item.id: site.item.title} | {one.id: one.title for kind in KINDS for one in site.all(kind)}


def plain(field: Field | None, value: Any, titles: Mapping[str, str]) -> str:
    """A value in words, for a history or a comparison; None stands for whether an item was withdrawn."""
    if field is None:
        return WITHDRAWN if value else IN_THE_BOOK
    return wording.said(field, value, titles) or EMPTY
