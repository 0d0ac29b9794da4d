"""The as-left statement: of each place, what was expected and found, its wall before and after, signed by both."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, reduced
from ..book.site import Item, Site
from ..book.storage import StorageFailed
from ..drawing.signature import signature
from .pdf import Printed
from .sheets import print_sheets
from .typesetting import PHOTOGRAPH_PX

BEFORE, AFTER = ("before removal", "as found"), ("after removal",)


@dataclass(frozen=True)
class PlaceLeft:
    """One fixing's place: as expected, when it was fitted or planned, and as found; `before` and `after` its wall."""

    fixing: Item
    before: Item | None
    after: Item | None

    @property
    def as_expected(self) -> bool:
        """Whether the trace is the one that was expected; False where nobody said what was found."""
        return bool(self.fixing.trace_found == self.fixing.trace)


@dataclass(frozen=True)
class Down:
    """One fitting that was taken down, where it was, and the places of its fixings; those never put in are left out."""

    fitting: Item
    face: Item
    room: Item
    places: tuple[PlaceLeft, ...]
    before: Item | None
    after: Item | None


@dataclass(frozen=True)
class AsLeft:
    """What statements are about: each with its fittings, and what is down and not signed for yet."""

    statements: tuple[tuple[Item, tuple[Down, ...]], ...]
    unsigned: tuple[Down, ...]

    @property
    def everything(self) -> Iterator[Down]:
        """All that is down."""
        yield from (one for _, downs in self.statements for one in downs)
        yield from self.unsigned


def as_left(site: Site) -> AsLeft:
    """What was taken down, by the statement that speaks of it."""
    gone = {one.id: _down(site, one) for one in site.all("fitting") if not one.stands}
    told = tuple(
        (statement, tuple(gone[link] for link in statement.items if link in gone))
        for statement in sorted(site.all("statement"), key=lambda one: (one.on, one.id))
    )
    signed = {down.fitting.id for _, downs in told for down in downs}
    return AsLeft(told, tuple(down for link, down in gone.items() if link not in signed))


def _down(site: Site, fitting: Item) -> Down:
    face = site[fitting.face]
    places = tuple(
        PlaceLeft(one, _photograph(site, one, BEFORE), _photograph(site, one, AFTER))
        for one in site.of(fitting, "fixing")
        if not one.stands and (one.taken_down_on or one.trace_found)
    )
    own = (_photograph(site, fitting, BEFORE), _photograph(site, fitting, AFTER))
    return Down(fitting, face, site[face.room], places, *own)


def _photograph(site: Site, subject: Item, purposes: tuple[str, ...]) -> Item | None:
    """The last photograph of something for the first of these purposes there is one for."""
    for purpose in purposes:
        kept = [one for one in site.photographs_of(subject) if one.purpose == purpose]
        if kept:
            return max(kept, key=lambda one: (one.taken_at or "", one.id))
    return None


def write_as_left(book: Book, site: Site, file: Path, head: str) -> Printed:
    """Write the statements of a site as PDF, with what is not signed for yet, to be signed on paper.

    head  which state of the site they are of, as it stands on top of each page
    Raises what printing raises.
    """
    left = as_left(site)
    signatures = {
        f"app:{name}/{statement.id}": signature(strokes)
        for statement, _ in left.statements
        for name in ("fitter_signature", "signature")
        if (strokes := statement.values[name])
    }
    photographs = {f"app:photograph/{one.id}": picture for one, picture in _shown(book, left)}
    shown = {"head": head, "left": left, "signatures": signatures, "pictured": photographs}
    return print_sheets("as_left.html", signatures, file, photographs, site=site.item, **shown)


def _shown(book: Book, left: AsLeft) -> Iterator[tuple[Item, bytes]]:
    for down in left.everything:
        pairs = [(down.before, down.after), *((place.before, place.after) for place in down.places)]
        for one in (one for pair in pairs for one in pair if one):
            with suppress(UnsuitablePhotograph, StorageFailed, FileNotFoundError):  # the page says that it is missing
                yield one, reduced(book, one.sha256, PHOTOGRAPH_PX)
