"""Every item of one kind as a table: what one wants to see of each, side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from flask import Blueprint, render_template

from ...book.gathering import gather
from ...book.site import Item, Site
from ...book.wording import of_item
from ...checks.verdict import Word
from ...findings import appraise, worst_words
from ...model.fields import Field
from ...model.kinds import KINDS, kind_named
from ..books import book
from ..shown.filters import titles_of

blueprint = Blueprint("register", __name__)


@dataclass(frozen=True)
class RegisterRow:
    """One item: what it lies in (its site goes without saying), the words of its columns, its worst finding."""

    item: Item
    parent: Item | None
    cells: tuple[str, ...]
    word: Word | None


@dataclass(frozen=True)
class Register:
    """A table of items of one kind."""

    kind: str
    columns: tuple[Field, ...]
    rows: tuple[RegisterRow, ...]

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
    titles, columns = titles_of(site), tuple(field for field in KINDS[kind].fields if field.listed)
    rows = []
    for item in items:
        parent = site.parent(item)
        cells = tuple(of_item(item, field.name, titles) for field in columns)
        rows.append(RegisterRow(item, parent if parent and parent.kind != "site" else None, cells, words.get(item.id)))
    return Register(kind, columns, tuple(rows))


@blueprint.get("/site/<item:item>/all/<kind>")
def every(item: str, kind: str) -> str:
    """All items of one kind on a site."""
    site, known = gather(book(), item), kind_named(kind)
    register = register_of(site, known.name, site.all(known.name), worst_words(appraise(site)))
    return render_template("register/every.html", one=site.item, site=site, kind=known, register=register)
