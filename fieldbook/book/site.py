"""A site gathered from a book: the one structure that findings, pages and record are made from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Iterator, Mapping
from copy import copy
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from ..errors import UnknownItem
from ..model.choices import TAKEN_DOWN
from ..model.kinds import KINDS, Kind
from ..model.order import Key, counting, taken_for
from .agreed import Then
from .cells import Cell, cells_of
from .worked import WorkedOnce


@dataclass(frozen=True)
class Item:
    """One item; its fields are its attributes (`face.width_mm`), None where nothing is entered."""

    kind: str
    id: str
    values: Mapping[str, Any]

    def __post_init__(self) -> None:
        self.__dict__.update(self.values)  # read far too often to be looked up each time

    def __getattr__(self, name: str) -> Any:
        raise AttributeError(f"a {self.__dict__.get('kind', 'thing')} has no {name}")

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


class Site(WorkedOnce):
    """Everything a book holds about one site, as it stood at `revision`.

    item      the site itself
    folder    the book's folder, where the files lie that items name by their digest
    revision  latest entry, and its `digest`, which vouch for the state
    then      how things stood when somebody decided on them: (id of the agreement, id of the thing) -> its fields
    beyond    whether the book holds what only a newer version knows, and findings may lack
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
        super().__init__(item.id)
        self.item = item
        self.beyond = beyond
        self.then: Then = then or {}
        self.folder = folder
        self.revision = revision
        self.digest = digest
        self._by_id = {one.id: one for one in (item, *items)}
        by_key: dict[Hashable, list[Item]] = defaultdict(list)
        for one in sorted(items, key=by_mark):
            for key in keys_of(one):
                by_key[key].append(one)
        self._by_key: dict[Hashable, tuple[Item, ...]] = {key: tuple(those) for key, those in by_key.items()}

    def _with(self, key: Hashable) -> tuple[Item, ...]:
        """The items that have a key of `keys_of`, ordered by mark."""
        if self.notes is not None:
            self.notes.add(key)
        return self._by_key.get(key, ())

    def all(self, kind: str) -> tuple[Item, ...]:
        """Every item of a kind, ordered by mark."""
        return self._with(kind)

    def everything(self) -> Mapping[str, Item]:
        """Every item by its id, the site's own among them."""
        return self._by_id

    def of(self, parent: Item, kind: str) -> tuple[Item, ...]:
        """The items of a kind that belong to another item: the zones of a face."""
        return self._with((kind, KINDS[kind].parent, parent.id))

    def after(self, one: Item) -> Item | None:
        """The next of the same kind that belongs to the same item, in their order; None after the last."""
        parent = self.get(one.values.get(KINDS[one.kind].parent))
        alike = [each.id for each in self.of(parent, one.kind)] if parent else []
        following = alike[alike.index(one.id) + 1 :] if one.id in alike else []
        return self[following[0]] if following else None

    def pointing_at(self, target: Item, kind: str, link: str) -> tuple[Item, ...]:
        """The items of a kind whose link names an item: what hangs on a fitting, what uses a hold."""
        return self._with((kind, link, target.id))

    def get(self, item_id: str | None, kind: str = "") -> Item | None:
        """The item of this id, or None when it is not there, was withdrawn, or is not of the kind that is asked for."""
        if not item_id:
            return None
        if self.notes is not None:
            self.notes.add(item_id)
        found = self._by_id.get(item_id)
        return None if found and kind and found.kind != kind else found

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
        found = {one.id: one for cell in cells for one in self._with((kind, *cell))}
        return (one for one in found.values() if one.stands)

    def marked(self, kind: str, mark: str | None) -> list[Item]:
        """What people would take for an item of this kind and mark: marks are one row for all kinds, names are not."""
        found = self._with(_sign(kind, mark)) if mark else []
        return sorted(found, key=lambda one: list(KINDS).index(one.kind))

    def same_mark(self, item: Item) -> list[Item]:
        """The others that carry an item's mark, or one that reads alike."""
        return [one for one in self.marked(item.kind, item.mark_or_name) if one.id != item.id]

    def fixings_on(self, face: Item) -> tuple[Item, ...]:
        """The fixings that touch a face, whichever fitting they hold."""
        return self.pointing_at(face, "fixing", "face")

    def naming(self, item_id: str, kind: str) -> tuple[Item, ...]:
        """The agreements, or the specialists' words, that name an item in their list; of it nothing else is asked."""
        return self._with((kind, "items", item_id))

    def rulings_on(self, item: Item, kind: str = "agreement") -> tuple[Item, ...]:
        """The agreements, or the specialists' words, that name an item."""
        naming = self.naming(item.id, kind)
        own = self.get(item.values.get("agreement")) if kind == "agreement" and item.kind == "fixing" else None
        return naming if own is None or own in naming else (*naming, own)  # as older books had it

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

    def all_hung_on(self, fitting: Item) -> list[Item]:
        """All whose weight goes through a fitting, each once, itself left out even where it goes round in a circle."""
        found, waiting = {fitting.id: fitting}, [fitting]
        while waiting:
            new = [one for one in self.hung_on(waiting.pop()) if one.id not in found]
            found |= {one.id: one for one in new}
            waiting += new
        return list(found.values())[1:]

    def bears_on(self, ruling: Item) -> list[Item]:
        """What a ruling is about, and all that bears on it: whose it is, what hangs on that, and how."""
        covered = self.covered_by(ruling)
        owners = [self.get(one.fitting) if one.kind == "fixing" else one for one in covered]
        fittings = list(dict.fromkeys(one for one in owners if one is not None and one.kind == "fitting"))
        hung = dict.fromkeys(other for one in fittings for other in self.all_hung_on(one))
        joints = [fixing for other in hung for fixing in self.of(other, "fixing")]
        return list(dict.fromkeys([*covered, *fittings, *hung, *joints]))

    def let_into(self, carrier: Item) -> list[Item]:
        """The fixings that use an existing hold, or are let into a board or timber, and stand."""
        return [one for one in self.pointing_at(carrier, "fixing", carrier.kind) if one.stands]

    def all_of(self, carrier: Item) -> list[Item]:
        """A carrier and, of a timber that several faces see, what else of it is entered."""
        found, waiting = {carrier.id: carrier}, [carrier] if carrier.kind == "member" else []
        while waiting:
            one = waiting.pop()
            named = [self.get(one.same_as, "member"), *self.pointing_at(one, "member", "same_as")]
            new = [other for other in named if other is not None and other.id not in found]
            found |= {other.id: other for other in new}
            waiting += new
        return list(found.values())

    def with_changed(self, *items: Item) -> Site:
        """The same site with items that have other values; each keeps its kind, its id and its mark."""
        other = copy(self)
        other.notes, other.worked = None, {}
        other._by_id = self._by_id | {one.id: one for one in items}
        changed = {key for one in items for each in (self[one.id], one) for key in keys_of(each)}
        new = {one.id: (one, frozenset(keys_of(one))) for one in items}
        other._by_key = dict(self._by_key)
        for key in changed:
            stayed = [one for one in self._by_key.get(key, ()) if one.id not in new]
            here = [*stayed, *(one for one, keys in new.values() if key in keys)]
            other._by_key[key] = tuple(sorted(here, key=by_mark))
        other.take_over(self, changed)
        return other

    def photographs_of(self, subject: Item) -> tuple[Item, ...]:
        """The photographs of an item."""
        return self.pointing_at(subject, "photograph", "subject")


def targets_of(link: Any) -> Iterable[str]:
    """The ids a link or a list of links names."""
    return (link,) if isinstance(link, str) else link or ()


@lru_cache
def _links_of(kind: Kind) -> tuple[str, ...]:
    return tuple(field.name for field in kind.fields if field.to)


def keys_of(item: Item) -> Iterator[Any]:
    """What an item is looked up by, and what is noted by whoever was told of it: its id, its kind, its mark, each of
    its links with what it names, and the cells of its face it stands in.
    """
    yield item.id
    yield item.kind
    if mark := item.mark_or_name:
        yield _sign(item.kind, mark)
    if item.kind in PLACED:
        yield from ((item.kind, *cell) for cell in cells_of(item.kind, item.values))
    for name in _links_of(KINDS[item.kind]):
        for target in targets_of(item.values.get(name)):
            yield item.kind, name, target


def by_mark(item: Item) -> tuple[Key, str]:
    """What to sort items by: their marks as people count; alike ones, and those without, by id, as recorded."""
    return counting(item.mark_or_name), item.id


def _sign(kind: str, mark: str | None) -> Key:
    return (kind if KINDS[kind].numbered_by == "name" else "", taken_for(mark))
