"""A site gathered from a book: the one structure that findings, pages and record are made from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from ..errors import UnknownItem
from ..model.choices import TAKEN_DOWN
from ..model.kinds import KINDS
from ..model.order import Key, counting, taken_for
from .agreed import Then, states
from .book import Book
from .cells import Cell, cells_of


@dataclass(frozen=True)
class Item:
    """One item; its fields are its attributes (`face.width_mm`), None where nothing is entered."""

    kind: str
    id: str
    values: Mapping[str, Any]

    def __getattr__(self, name: str) -> Any:
        if name == "values":  # not there yet, while a copy is being made
            raise AttributeError(name)
        try:
            return self.values[name]
        except KeyError:
            raise AttributeError(f"a {self.kind} has no {name}") from None

    def __hash__(self) -> int:
        return hash(self.id)

    @property
    def title(self) -> str:
        """Mark and name, as a heading shows it."""
        return KINDS[self.kind].title(self.values)

    @property
    def mark_or_name(self) -> str | None:
        """What people tell it apart by."""
        return self.values.get(KINDS[self.kind].numbered_by)

    @property
    def stands(self) -> bool:
        """Whether it is up or is to go up; what was taken down does not count any more."""
        return self.values.get("state") != TAKEN_DOWN

    @property
    def called(self) -> str:
        """The mark alone where there is one: short, for drawings and sentences. Two items may share it."""
        return self.values.get("mark") or self.title


PLACED = ("fitting", "fixing")  # what is looked for by where it stands


class Site:
    """Everything a book holds about one site, as it stood at `revision`.

    item      the site itself
    folder    the book's folder, where the files lie that items name by their digest
    revision  latest entry, and its `digest`, which vouch for the state
    then      how things stood when somebody decided on them: (id of the agreement, id of the thing) -> its fields
    beyond    whether the book holds what only a newer version knows, and findings may lack
    notes     where it is a set, what is asked of the site is noted in it: ids, and keys as `keys_of` gives them.
              Whatever is kept of an answer holds until one of these changes
    worked    what findings worked out of it on the way, by a key of theirs
    """

    def __init__(
        self,
        item: Item,
        items: Iterable[Item],
        folder: Path,
        revision: int,
        digest: str,
        then: Then | None = None,
        *,
        beyond: bool = False,
    ):
        self.item = item
        self.beyond = beyond
        self.then: Then = then or {}
        self.folder = folder
        self.revision = revision
        self.digest = digest
        self.notes: set[Any] | None = None
        self.worked: dict[Any, Any] = {}
        self._by_id = {one.id: one for one in (item, *items)}
        self._by_kind: dict[str, list[Item]] = defaultdict(list)
        self._by_link: dict[tuple[str, str], dict[str, list[Item]]] = {}
        self._by_cell: dict[str, dict[Cell, list[Item]]] = {}
        for one in sorted(items, key=by_mark):
            self._by_kind[one.kind].append(one)

    def all(self, kind: str) -> list[Item]:
        """Every item of a kind, ordered by mark."""
        if self.notes is not None:
            self.notes.add(kind)
        return list(self._by_kind.get(kind, ()))

    def everything(self) -> Mapping[str, Item]:
        """Every item by its id, the site's own among them."""
        return self._by_id

    def of(self, parent: Item, kind: str) -> list[Item]:
        """The items of a kind that belong to another item: the zones of a face."""
        return self.pointing_at(parent, kind, KINDS[kind].parent)

    def pointing_at(self, target: Item, kind: str, link: str) -> list[Item]:
        """The items of a kind whose link names an item: what hangs on a fitting, what uses a hold."""
        if self.notes is not None:
            self.notes.add((kind, link, target.id))
        return list(self._linked(kind, link).get(target.id, ()))

    def _linked(self, kind: str, link: str) -> dict[str, list[Item]]:
        known = self._by_link.get((kind, link))
        if known is None:
            known = self._by_link[kind, link] = defaultdict(list)
            for one in self._by_kind.get(kind, ()):
                for target in targets_of(one.values.get(link)):
                    known[target].append(one)
        return known

    def get(self, item_id: str | None) -> Item | None:
        """The item of this id, or None when it is not there or was withdrawn."""
        if not item_id:
            return None
        if self.notes is not None:
            self.notes.add(item_id)
        return self._by_id.get(item_id)

    def __getitem__(self, item_id: str) -> Item:
        """The item of this id; raises UnknownItem."""
        if (found := self.get(item_id)) is not None:
            return found
        raise UnknownItem(
            "There is no such item on this site.", "Go back to the site's page.", field="item", value=item_id
        ) from None

    def __contains__(self, item_id: str) -> bool:
        return item_id in self._by_id

    def parent(self, item: Item) -> Item | None:
        """What an item belongs to; None for the site itself."""
        field = KINDS[item.kind].parent
        return self.get(item.values[field]) if field else None

    def standing_in(self, kind: str, cells: Iterable[Cell]) -> Iterator[Item]:
        """The fittings or fixings that stand in some cells of a face, each once."""
        found: dict[str, Item] = {}
        for cell in cells:
            if self.notes is not None:
                self.notes.add((kind, *cell))
            found |= {one.id: one for one in self._standing(kind).get(cell, ())}
        yield from found.values()

    def _standing(self, kind: str) -> Mapping[Cell, list[Item]]:
        standing = self._by_cell.get(kind)
        if standing is None:
            standing = self._by_cell[kind] = defaultdict(list)
            for one in self._by_kind.get(kind, ()):
                for cell in cells_of(kind, one.values) if one.stands else ():
                    standing[cell].append(one)
        return standing

    def marked(self, kind: str, mark: str | None) -> list[Item]:
        """What people would take for an item of this kind and mark: marks are one row for all kinds, names are not."""
        if self.notes is not None:
            self.notes.add(_sign(kind, mark))
        return list(self._by_mark.get(_sign(kind, mark), ())) if mark else []

    @cached_property
    def _by_mark(self) -> dict[Key, list[Item]]:
        by_mark: dict[Key, list[Item]] = defaultdict(list)
        for one in (each for kind in KINDS for each in self._by_kind.get(kind, ())):
            if one.mark_or_name:
                by_mark[_sign(one.kind, one.mark_or_name)].append(one)
        return by_mark

    def same_mark(self, item: Item) -> list[Item]:
        """The others that carry an item's mark, or one that reads alike."""
        return [one for one in self.marked(item.kind, item.mark_or_name) if one.id != item.id]

    def fixings_on(self, face: Item) -> list[Item]:
        """The fixings that touch a face, whichever fitting they hold."""
        return self.pointing_at(face, "fixing", "face")

    def rulings_on(self, item: Item, kind: str = "agreement") -> list[Item]:
        """The agreements, or the specialists' words, that name an item."""
        naming = self.pointing_at(item, kind, "items")
        own = self.get(item.values.get("agreement")) if kind == "agreement" and item.kind == "fixing" else None
        return naming if own is None or own in naming else [*naming, own]  # as older books had it

    def covered_by(self, ruling: Item) -> list[Item]:
        """What an agreement or a specialist's word is about: what it names, and the fixings of fittings it names."""
        named = [one for link in ruling.items or () if (one := self.get(link))]
        fixings = [fixing for one in named if one.kind == "fitting" for fixing in self.of(one, "fixing")]
        return list(dict.fromkeys([*named, *fixings, *self.pointing_at(ruling, "fixing", "agreement")]))

    def goes_through(self, fitting: Item) -> list[Item]:
        """The fittings that another hangs on or is fixed to, which carry it; what was taken down carries nothing."""
        links = [fitting.hangs_on, *(one.other_fitting for one in self.of(fitting, "fixing") if one.stands)]
        carriers = [self.get(link) for link in dict.fromkeys(links) if link != fitting.id]
        return [one for one in carriers if one is not None and one.stands]

    def hung_on(self, fitting: Item) -> list[Item]:
        """The fittings that hang on this one or are fixed to it, and stand."""
        joined = [self.get(one.fitting) for one in self.pointing_at(fitting, "fixing", "other_fitting") if one.stands]
        both = dict.fromkeys([*self.pointing_at(fitting, "fitting", "hangs_on"), *joined])
        return [one for one in both if one is not None and one.stands and one.id != fitting.id]

    def let_into(self, carrier: Item) -> list[Item]:
        """The fixings that use an existing hold, or are let into a board or timber, and stand."""
        return [one for one in self.pointing_at(carrier, "fixing", carrier.kind) if one.stands]

    def with_changed(self, *items: Item) -> Site:
        """The same site with items that have other values; each keeps its kind, its id and its mark."""
        other = copy(self)
        other.__dict__.pop("_by_mark", None)
        other.notes, other.worked, other._by_link = None, {}, {}
        new = {one.id: one for one in items}
        other._by_id = {**self._by_id, **new}
        other._by_kind = defaultdict(list, self._by_kind)
        for kind in {one.kind for one in items}:
            other._by_kind[kind] = [new.get(one.id, one) for one in self._by_kind[kind]]
        return other

    def photographs_of(self, subject: Item) -> list[Item]:
        """The photographs of an item."""
        return self.pointing_at(subject, "photograph", "subject")


def targets_of(link: Any) -> Iterable[str]:
    """The ids a link or a list of links names."""
    return (link,) if isinstance(link, str) else link or ()


def keys_of(item: Item) -> Iterator[Any]:
    """What is noted by whoever was told of an item: its id, its kind, its mark, each of its links with what it names,
    and the cells of its face it stands in.
    """
    yield item.id
    yield item.kind
    yield _sign(item.kind, item.mark_or_name)
    if item.kind in PLACED:
        yield from ((item.kind, *cell) for cell in cells_of(item.kind, item.values))
    for name, field in KINDS[item.kind].by_name.items():
        if field.to:
            for target in targets_of(item.values.get(name)):
                yield item.kind, name, target


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
        site.then = states(book.db, revisions, {one.id: [it.id for it in site.covered_by(one)] for one in rulings})
        return site


def site_of(book: Book, item_id: str) -> str:
    """The id of the site an item belongs to; raises UnknownItem."""
    kind, values = book.item(item_id)
    while KINDS[kind].parent:
        kind, values = book.item(values[KINDS[kind].parent])
    return values["id"]


def by_mark(item: Item) -> tuple[Key, str]:
    """What to sort items by: their marks as people count; alike ones, and those without, by id, as recorded."""
    return counting(item.mark_or_name), item.id


def _sign(kind: str, mark: str | None) -> Key:
    return (kind if KINDS[kind].numbered_by == "name" else "", taken_for(mark))
