"""A shelf of books: what is due, open and in conflict in each, on one page; one's damage is a line of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from ..book.book import Book
from ..book.gathering import gather
from ..book.making import NotABook
from ..book.opening import open_book
from ..book.read_only import to_be_read
from ..book.site import Site
from ..checks.days import in_words
from ..errors import FieldbookError
from ..findings import appraise
from ..findings.due import OVERDUE, due_on, state
from ..findings.open_points import open_points
from ..folders import TEMPLATES


@dataclass(frozen=True)
class OnTheShelf:
    """One book.

    name       of its folder
    sites      what they are called
    due        what should have been done by now, in words
    stops, open, conflicts  how many points stop the work, how many are open besides, how many pairs wait
    trouble    why nothing can be said of it
    """

    name: str
    sites: tuple[str, ...] = ()
    due: tuple[str, ...] = ()
    stops: int = 0
    open: int = 0
    conflicts: int = 0
    trouble: str = field(default="")


def on_the_shelf(folder: Path, today: date) -> list[OnTheShelf]:
    """Every book in a folder of books, by name; what is no book is passed over."""
    found = (_looked_at(part, today) for part in sorted(folder.iterdir()) if part.is_dir())
    return [one for one in found if one]


def _looked_at(folder: Path, today: date) -> OnTheShelf | None:
    try:
        with to_be_read(folder) as readable, open_book(readable) as book:
            return _of_book(folder.name, book, today)
    except NotABook:
        return None
    except FieldbookError as error:
        return OnTheShelf(folder.name, trouble=f"{error.reason} {error.remedy}")
    except Exception as error:  # whatever a damaged book raises: the others are shown all the same
        return OnTheShelf(folder.name, trouble=f"It cannot be read ({error}). Look at it with “examine”.")


def _of_book(name: str, book: Book, today: date) -> OnTheShelf:
    sites = [gather(book, site["id"]) for site in book.items("site")]
    points = [open_points(site, appraise(site, today)) for site in sites]
    return OnTheShelf(
        name,
        tuple(site.item.title for site in sites),
        tuple(words for site in sites for words in due(site, today)),
        sum(len(one.stop) for one in points),
        sum(len(one.this_walk) + len(one.later) for one in points),
        len(book.conflicts()),
    )


def due(site: Site, today: date) -> Iterator[str]:
    """What should have been done by now."""
    for one in due_on(site, today):
        if one.on and state(one, today) == OVERDUE:
            yield f"{one.what}, due since {in_words(one.on)}"


def page(books: Iterable[OnTheShelf], at: str, today: date) -> str:
    """The page.

    at  the address of a book's desk, with {book} where its name stands; empty where none leads there
    """
    made = Environment(loader=FileSystemLoader(TEMPLATES / "shelf"), autoescape=True, undefined=StrictUndefined)
    return made.get_template("page.html").render(books=list(books), at=at, today=in_words(today))
