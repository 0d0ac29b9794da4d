"""A site read from a book."""

from __future__ import annotations

from ..errors import UnknownItem
from ..model.kinds import KINDS
from .agreed import states
from .book import Book
from .site import Item, Site


def gather(book: Book, site_id: str) -> Site:
    """A site and all that belongs to it and is not withdrawn, read in one transaction.

    An item whose parent was withdrawn is left out with it, and what only a newer version can reckon with.
    Raises UnknownItem.
    """
    with book.db.atomic():
        kind, values = book.item(site_id)
        if kind != "site":
            raise UnknownItem(f"This item is a {kind}, not a site.", "Choose a site.", field="site", value=site_id)
        belonging, left_out = {site_id}, book.left_out()
        items: list[Item] = []
        for name in filter(lambda kind: kind != "site", KINDS):  # parents come before what belongs to them
            for row in book.items(name):
                if row[KINDS[name].parent] in belonging and row["id"] not in left_out:
                    belonging.add(row["id"])
                    items.append(Item(name, row["id"], row))
        vouched = (book.folder, book.revision(), book.digest())
        site = Site(Item("site", site_id, values), items, *vouched, beyond=book.holds_newer())
        rulings = [*site.all("agreement"), *site.all("decision")]
        revisions = {one.id: one.values.get("agreed_revision") for one in rulings}
        site.then = states(book.db, revisions, {one.id: [it.id for it in site.bears_on(one)] for one in rulings})
        return site


def site_of(book: Book, item_id: str) -> str:
    """The id of the site an item belongs to; raises UnknownItem."""
    kind, values = book.item(item_id)
    while KINDS[kind].parent:
        kind, values = book.item(values[KINDS[kind].parent])
    return values["id"]
