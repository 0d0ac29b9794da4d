"""Editions: the numbered issues of a site's record, and what changed between two of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlite_utils import Database

from ..book import ledger, tables
from ..book.book import Book
from ..book.gathering import site_of
from ..book.site import Site
from ..book.wording import Titles, said
from ..errors import FieldbookError
from ..model.fields import Type
from ..model.kinds import KINDS
from ..model.order import counting

LONGEST_SHOWN = 90
"""Characters of a value before and after that a list of changes still shows."""


class EditionTaken(FieldbookError):
    """Another edition was issued under this number while this one was being made."""

    code = "edition-taken"


@dataclass(frozen=True)
class Edition:
    """One numbered issue of the record of a site.

    revision, digest  latest entry of the ledger it was made from, and the hash that vouches for all before it
    made_at           RFC 3339 with offset
    """

    site: str
    number: int
    revision: int
    digest: str
    made_at: str

    @property
    def day(self) -> date:
        """The one day all of its record speaks of, however much later it is printed again."""
        return date.fromisoformat(self.made_at[:10])


@dataclass(frozen=True)
class Change:
    """What became of one item between two editions.

    what    added, changed, withdrawn or brought back
    fields  label, value before and value after, in words; only for what was changed
    """

    kind: str
    title: str
    what: str
    fields: tuple[tuple[str, str, str], ...] = ()


def editions(book: Book, site_id: str) -> list[Edition]:
    """All editions issued for a site, first to last."""
    columns = "site, number, revision, digest, made_at"
    rows = book.db.query(f"SELECT {columns} FROM edition WHERE site = ? ORDER BY number", [site_id])  # noqa: S608
    return [Edition(**row) for row in rows]


def edition_due(book: Book, site: Site, now: datetime | None = None) -> tuple[Edition, Edition | None]:
    """The edition this state of the book would be issued as, and the one before it.

    A state that was issued already keeps its number and date: printing it again is no new edition.
    """
    issued = editions(book, site.item.id)
    if issued and issued[-1].digest == site.digest:
        return issued[-1], (issued[-2] if len(issued) > 1 else None)
    made_at = now.isoformat(timespec="seconds") if now else ledger.now()
    before = issued[-1] if issued else None
    return Edition(site.item.id, before.number + 1 if before else 1, site.revision, site.digest, made_at), before


def becomes_edition(book: Book, edition: Edition) -> bool:
    """Whether what is printed of this state is an edition: the book keeps a note of it, and nothing was left out."""
    return not book.newer and (not book.is_only_read or edition in editions(book, edition.site))


def issue_edition(book: Book, edition: Edition) -> None:
    """Note that an edition was issued. Once more is no change.

    Raises EditionTaken when its number went to another state of the book meanwhile.
    """
    with book.writing():
        if edition in editions(book, edition.site):
            return
        given = book.db.execute(
            "INSERT OR IGNORE INTO edition (site, number, revision, digest, made_at) VALUES (?, ?, ?, ?, ?)",
            [edition.site, edition.number, edition.revision, edition.digest, edition.made_at],
        )
        if given.rowcount != 1:
            raise EditionTaken(
                f"Edition {edition.number} was issued by someone else while this record was being made.",
                "Make the record again.",
                field="edition",
                value=edition.number,
            )


def changes_since(book: Book, site: Site, edition: Edition, titles: Titles) -> tuple[Change, ...]:
    """What was added, changed or withdrawn on a site after an edition, in the order of the kinds."""
    touched = book.db.execute(
        "SELECT DISTINCT item, kind FROM ledger WHERE revision > ?", [edition.revision]
    ).fetchall()
    mine = {item: kind for item, kind in touched if kind in KINDS and _belongs(book, item, site)}
    before = _as_they_stood(book, mine, edition.revision)
    order = list(KINDS)
    changes = [change for item in mine if (change := _change(book, item, before.get(item), titles))]
    return tuple(sorted(changes, key=lambda change: (order.index(change.kind), counting(change.title))))


def _belongs(book: Book, item: str, site: Site) -> bool:
    return item in site or site_of(book, item) == site.item.id


def _as_they_stood(book: Book, items: Mapping[str, str], revision: int) -> dict[str, dict[str, Any]]:
    """The values of items at an earlier revision: the same projection over the entries up to then."""
    past = Database(memory=True)
    try:
        tables.make_tables(past)
        for item in items:
            for entry in book.history(item):
                if entry["revision"] <= revision:
                    tables.apply(past, entry["revision"], entry)
        return {item: found[1] for item in items if (found := ledger.find(past, item))}
    finally:
        past.close()


def _change(book: Book, item: str, before: Mapping[str, Any] | None, titles: Titles) -> Change | None:
    kind_name, after = book.item(item)
    kind = KINDS[kind_name]
    was_there, is_there = bool(before and not before[tables.WITHDRAWN]), not after[tables.WITHDRAWN]
    title = kind.title(after)
    if was_there != is_there:
        back = "brought back" if before else "added"
        return Change(kind_name, title, back if is_there else "withdrawn")
    if not is_there or before is None:
        return None
    fields = tuple(
        (
            field.shown_label,
            *_before_and_after(said(field, before[field.name], titles), said(field, after[field.name], titles)),
        )
        for field in kind.fields
        if before[field.name] != after[field.name] and field.type is not Type.DIGEST
    )
    return Change(kind_name, title, "changed", fields) if fields else None


def _before_and_after(before: str, after: str) -> tuple[str, str]:
    return tuple(_short(words) for words in (before, after))  # type: ignore[return-value]


def _short(words: str) -> str:
    if len(words) <= LONGEST_SHOWN:
        return words or "nothing"
    return f"{words[: LONGEST_SHOWN - 1].rstrip()}…"
