"""A site gathered from a book into plain values: the one structure pages and record are made from.

Also the thin bridge to the checks: here the fields of items become the values the checks take.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from .book import Book
from .checks import materials
from .checks.clearance import Limit, Stretch
from .checks.keep_off import Outline, outline_of
from .checks.sweep import Leaf
from .errors import UnknownItem
from .kinds import KINDS

GONE = "taken down"


@dataclass(frozen=True)
class Item:
    """One item; its fields are its attributes (`face.width_mm`), None where nothing is entered."""

    kind: str
    id: str
    values: Mapping[str, Any]

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
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
    def called(self) -> str:
        """The mark alone where there is one: short, for drawings and sentences."""
        return self.values.get("mark") or self.title


class Site:
    """Everything a book holds about one site, as it stood at `revision`.

    item      the site itself
    folder    the book's folder, where the files lie that items name by their digest
    revision  latest entry, and its `digest`, which vouch for the state
    """

    def __init__(self, item: Item, items: Iterable[Item], folder: Path, revision: int, digest: str):
        self.item = item
        self.folder = folder
        self.revision = revision
        self.digest = digest
        self._by_id = {one.id: one for one in (item, *items)}
        self._by_kind: dict[str, list[Item]] = defaultdict(list)
        self._by_parent: dict[tuple[str, str], list[Item]] = defaultdict(list)
        self._fixings_on: dict[str, list[Item]] = defaultdict(list)
        for one in sorted(items, key=_by_mark):
            self._by_kind[one.kind].append(one)
            self._by_parent[one.values[KINDS[one.kind].parent], one.kind].append(one)
            if one.kind == "fixing":
                self._fixings_on[one.face].append(one)

    def all(self, kind: str) -> list[Item]:
        """Every item of a kind, ordered by mark."""
        return list(self._by_kind.get(kind, ()))

    def of(self, parent: Item, kind: str) -> list[Item]:
        """The items of a kind that belong to another item: the zones of a face."""
        return list(self._by_parent.get((parent.id, kind), ()))

    def get(self, item_id: str | None) -> Item | None:
        """The item of this id, or None when it is not there or was withdrawn."""
        return self._by_id.get(item_id) if item_id else None

    def __getitem__(self, item_id: str) -> Item:
        """The item of this id; raises UnknownItem."""
        try:
            return self._by_id[item_id]
        except KeyError:
            raise UnknownItem(
                "There is no such item on this site.", "Go back to the site's page.", field="item", value=item_id
            ) from None

    def __contains__(self, item_id: str) -> bool:
        return item_id in self._by_id

    def parent(self, item: Item) -> Item | None:
        """What an item belongs to; None for the site itself."""
        field = KINDS[item.kind].parent
        return self._by_id.get(item.values[field]) if field else None

    def fixings_on(self, face: Item) -> list[Item]:
        """The fixings that touch a face, whichever fitting they hold."""
        return list(self._fixings_on.get(face.id, ()))

    def photographs_of(self, subject: Item) -> list[Item]:
        """The photographs of an item."""
        return self._photographs.get(subject.id, [])

    @cached_property
    def _photographs(self) -> dict[str, list[Item]]:
        by_subject: dict[str, list[Item]] = defaultdict(list)
        for photograph in self.all("photograph"):
            by_subject[photograph.subject].append(photograph)
        return by_subject


def gather(book: Book, site_id: str) -> Site:
    """A site and all that belongs to it and is not withdrawn, read in one transaction.

    An item whose parent was withdrawn is left out with it. Raises UnknownItem.
    """
    with book.db.atomic():
        kind, values = book.item(site_id)
        if kind != "site":
            raise UnknownItem(f"This item is a {kind}, not a site.", "Choose a site.", field="site", value=site_id)
        belonging = {site_id}
        items: list[Item] = []
        for name in _PARENTS_FIRST:
            for row in book.items(name):
                if row[KINDS[name].parent] in belonging:
                    belonging.add(row["id"])
                    items.append(Item(name, row["id"], row))
        return Site(Item("site", site_id, values), items, book.folder, book.revision(), book.digest())


_PARENTS_FIRST = [name for name in KINDS if name != "site"]  # KINDS lists parents before what belongs to them


def site_of(book: Book, item_id: str) -> str:
    """The id of the site an item belongs to; raises UnknownItem."""
    kind, values = book.item(item_id)
    while KINDS[kind].parent:
        kind, values = book.item(values[KINDS[kind].parent])
    return values["id"]


def _by_mark(item: Item) -> tuple[bool, list[tuple[int, str]], str]:
    """Marks in the order people count: D2 before D10; items without one by id, as recorded."""
    mark = item.values.get("mark") or ""
    parts = [(int(part), "") if part.isdecimal() else (-1, part) for part in re.split(r"(\d+)", mark) if part]
    return not mark, parts, item.id


def face_stretch(face: Item) -> Stretch:
    """The whole of a face."""
    left, bottom = face.left_mm or 0, face.bottom_mm or 0
    return Stretch(left, left + face.width_mm, bottom, bottom + face.height_mm)


def fitting_stretch(fitting: Item) -> Stretch:
    """The part of its face a fitting covers."""
    return Stretch(fitting.x_mm, fitting.x_mm + fitting.width_mm, fitting.z_mm, fitting.z_mm + fitting.height_mm)


def fixing_stretch(fixing: Item) -> Stretch:
    """The part of its face a fixing touches."""
    x, z = place_of(fixing)
    return Stretch(x, x, z, z).widened(fixing.contact_radius_mm)


def fitting_outline(fitting: Item) -> Outline:
    """The rectangle a fitting covers, as an outline."""
    part = fitting_stretch(fitting)
    return ((part.x_from, part.z_from), (part.x_to, part.z_from), (part.x_to, part.z_to), (part.x_from, part.z_to))


def floor_of(face: Item) -> tuple[tuple[float, float], ...]:
    """The floor's profile in front of a face, (x, z) sorted by x; the lower edge where none was surveyed."""
    points = sorted((x, z) for x, z in face.floor or [])
    return tuple(points) or ((face.left_mm or 0, face.bottom_mm or 0),)


def zone_outline(zone: Item) -> Outline:
    """A zone's outline as the checks take it."""
    return outline_of(zone.outline)


def place_of(fixing: Item) -> tuple[float, float]:
    """Where a fixing is: as fitted when that was measured, else as planned."""
    if fixing.fitted_x_mm is not None and fixing.fitted_z_mm is not None:
        return fixing.fitted_x_mm, fixing.fitted_z_mm
    return fixing.x_mm, fixing.z_mm


def projection_of(fitting: Item) -> float | None:
    """How far a fitting stands out at worst: its layers with all their tolerances, mm."""
    if not fitting.build_up:
        return None
    return sum(thickness + (tolerance or 0) for _, thickness, tolerance in fitting.build_up)


def limit_value(limit: Item, face: Item) -> Limit:
    """A clearance limit as the check takes it. Raises what `Leaf` raises."""
    band = Stretch(
        *(
            value if value is not None else other
            for value, other in zip(
                (limit.x_from_mm, limit.x_to_mm, limit.z_from_mm, limit.z_to_mm), _OPEN, strict=True
            )
        )
    )
    leaf, projection, below = None, limit.projection_mm, ()
    if limit.sort == "leaf":
        boxes = tuple(tuple(box) for box in limit.boxes)
        leaf = Leaf((limit.hinge_x_mm, limit.hinge_y_mm), limit.swing_from_deg, limit.swing_to_deg, boxes)
    elif limit.sort == "route":
        projection = limit.available_mm - limit.clear_width_mm
    elif limit.sort == "headroom":
        below = tuple((x, z + limit.headroom_mm) for x, z in floor_of(face))
    return Limit(limit_name(limit), band, limit.margin_mm, leaf, projection, below)


def limit_name(limit: Item) -> str:
    """How a sentence calls a limit."""
    return f"{limit.mark} ({limit.name})" if limit.mark else limit.name


_OPEN = (Stretch().x_from, Stretch().x_to, Stretch().z_from, Stretch().z_to)


def limits_of(site: Site, face: Item) -> list[Limit]:
    """All clearance limits of a face as the check takes them."""
    return [limit_value(limit, face) for limit in site.of(face, "limit")]


def own_materials(site: Site) -> list[dict[str, Any]]:
    """The site's own materials, as rows of the table of materials; those without a figure yet say nothing."""
    rows = []
    for own in site.all("material"):
        figures = {name: own.values[name] for name in materials.PROPERTIES if own.values[name] is not None}
        if figures:
            rows.append({"material": own.name, "group": own.group, "source": own.source} | figures)
    return rows
