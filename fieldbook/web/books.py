"""The book of a request: opened when first asked for, closed when the answer is made."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any
from uuid import UUID

from flask import Flask, current_app, g
from werkzeug.routing import BaseConverter

from ..book.book import Book
from ..book.gathering import gather, site_of
from ..book.opening import open_book
from ..book.site import Item, Site
from ..errors import UnknownItem
from ..model.kinds import KINDS
from ..model.order import counting
from ..phones.devices import every_device

FOLDER = "BOOK_FOLDER"


class ItemConverter(BaseConverter):
    """The id of an item in an address, in its usual lower-case form."""

    regex = r"[A-Fa-f0-9]{8}-(?:[A-Fa-f0-9]{4}-){3}[A-Fa-f0-9]{12}"

    def to_python(self, value: str) -> str:
        """The id as the book writes it."""
        return str(UUID(value))


class DigestConverter(BaseConverter):
    """A SHA-256 in an address."""

    regex = "[0-9a-f]{64}"


def prepare(app: Flask, folder: Path, _: Mapping[str, Any]) -> None:
    """Tell the app where its book lies, and how addresses name items."""
    app.config[FOLDER] = folder
    app.url_map.converters.update(item=ItemConverter, digest=DigestConverter)
    app.teardown_appcontext(_close)
    app.add_template_global(_made_by_a_newer, "made_by_a_newer")


def book() -> Book:
    """The book, open for this request. Raises what `open_book` raises."""
    if "book" not in g:
        g.book = open_book(current_app.config[FOLDER], current_app.config["BUSY_SECONDS"])
    return g.book


def _made_by_a_newer() -> dict[str, Any] | None:
    """What is not known in the book of this request, and the items left out for it; None where all is known."""
    if "book" not in g or not g.book.newer:
        return None
    left_out = [item_of(item) for item in sorted(g.book.left_out())]
    return {"unknown": g.book.newer, "left_out": left_out}


def _close(_: BaseException | None) -> None:
    if opened := g.pop("book", None):
        opened.close()


def site_around(item: str) -> Site:
    """The site an item belongs to, gathered; raises UnknownItem."""
    return gather(book(), site_of(book(), item))


def item_of(item: str, *kinds: str) -> Item:
    """One item, withdrawn or not, of one of these kinds if any are named; raises UnknownItem."""
    kind, values = book().item(item)
    if kinds and kind not in kinds:
        raise UnknownItem(
            f"This item is a {kind}, not a {kinds[0]}.", "Go back and choose again.", field="item", value=item
        )
    return Item(kind, item, values)


def every_site() -> list[Item]:
    """The sites of the book, withdrawn ones included, by name."""
    sites = (Item("site", row["id"], row) for row in book().items("site", withdrawn=True))
    return sorted(sites, key=lambda site: (counting(site.name), site.id))


def withdrawn_from(site: Site) -> list[Item]:
    """What was withdrawn on a site, the latest first."""
    gone = [
        Item(kind, row["id"], row) for kind in KINDS for row in book().items(kind, withdrawn=True) if row["withdrawn"]
    ]
    return sorted((one for one in gone if site_of(book(), one.id) == site.item.id), key=lambda one: -one.revision)


def device_names() -> dict[str, str]:
    """What the devices are called that entries came from."""
    return {device.id: device.name for device in every_device(book())}
