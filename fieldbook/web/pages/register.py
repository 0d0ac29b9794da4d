"""Every item of one kind as a table: what one wants to see of each, side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from flask import Blueprint, render_template

from ...book.site import Item, Site, gather
from ...book.wording import of_item
from ...checks.verdict import Word
from ...findings import appraise, worst_words
from ...model.fields import Field
from ...model.kinds import KINDS, kind_named
from ..books import book
from ..shown.filters import titles_of

blueprint = Blueprint("register", __name__)

COLUMNS: Mapping[str, Sequence[str]] = {
    "room": ("use", "ceiling_mm", "hazards"),
    "face": ("sort", "width_mm", "height_mm"),
    "zone": ("forbids", "margin_mm", "said_by"),
    "limit": ("sort", "margin_mm", "said_by"),
    "hold": ("sort", "x_mm", "z_mm", "may_be_used"),
    "reading": ("value", "unit", "at", "instrument"),
    "observation": ("at", "condition_class", "urgency_class", "seen_by"),
    "fitting": ("state", "mass_loaded_kg", "fitted_on"),
    "fixing": ("sort", "size", "x_mm", "z_mm", "state", "trace"),
    "finish": ("sort", "binder", "sheen"),
    "agreement": ("answer", "said_by", "on"),
    "task": ("every_months", "who", "first_on"),
    "visit": ("on", "by", "next_on"),
    "photograph": ("purpose", "subject", "taken_at"),
    "log": ("instrument",),
    "material": ("group", "source"),
    "cost": ("sort", "amount", "currency", "state", "on"),
}


@dataclass(frozen=True)
class Row:
    """One item: what it lies in (its site goes without saying), the words of its columns, the worst verdict on it."""

    item: Item
    parent: Item | None
    cells: tuple[str, ...]
    word: Word | None


@dataclass(frozen=True)
class Register:
    """A table of items of one kind."""

    kind: str
    columns: tuple[Field, ...]
    rows: tuple[Row, ...]

    @property
    def judged(self) -> bool:
        """Whether any row has a verdict."""
        return any(row.word for row in self.rows)

    @property
    def nested(self) -> bool:
        """Whether the rows lie in different things."""
        return len({row.parent for row in self.rows}) > 1


def register_of(site: Site, kind: str, items: Iterable[Item], words: Mapping[str, Word]) -> Register:
    """The table of some items of one kind."""
    titles = titles_of(site)
    rows = []
    for item in items:
        parent = site.parent(item)
        cells = tuple(of_item(item, name, titles) for name in COLUMNS[kind])
        rows.append(Row(item, parent if parent and parent.kind != "site" else None, cells, words.get(item.id)))
    return Register(kind, tuple(KINDS[kind].by_name[name] for name in COLUMNS[kind]), tuple(rows))


@blueprint.get("/site/<item:item>/all/<kind>")
def every(item: str, kind: str) -> str:
    """All items of one kind on a site."""
    site, known = gather(book(), item), kind_named(kind)
    register = register_of(site, known.name, site.all(known.name), worst_words(appraise(site)))
    return render_template("register/every.html", one=site.item, site=site, kind=known, register=register)
