"""What commands share: how they say things, and how a site or an item is named to them."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from traceback import extract_tb
from typing import Any

from ..errors import FieldbookError, WrongUse, shown


def say(words: str) -> None:
    """A line, at once, and whole where another thread says one as well: its end is written with it."""
    print(f"{words}\n", end="", flush=True)


def say_error(error: FieldbookError) -> None:
    print(f"fieldbook: {error.reason} {error.remedy}", file=sys.stderr)


def in_words(error: Exception, book: Path) -> FieldbookError:
    """What a command did not foresee: of storage, or somewhere in the program, which is named."""
    from ..book.storage import storage_errors

    try:
        with storage_errors(Path(getattr(error, "filename", None) or book)):
            raise error
    except FieldbookError as said:
        return said
    except Exception:
        last = extract_tb(error.__traceback__)[-1]
        what = f"{type(error).__name__}: {shown(str(error))}; {Path(last.filename).name}, line {last.lineno}"
        return FieldbookError(
            f"Something went wrong that this program did not expect ({what}).",
            "What was saved before is safe. Look at the book with “examine”, and try again.",
        )


def say_newer(book: Any) -> None:
    """Tell, where it is so, that the book was made by a newer version, and what this one made nothing of."""
    if error := book.newer_error():
        say_error(error)


def bar(done: int, total: int, words: str) -> None:
    """A progress bar on a terminal; silence elsewhere."""
    if not sys.stderr.isatty():
        return
    filled = 30 * done // max(total, 1)
    end = "\n" if done >= total else ""
    print(f"\r\x1b[K[{'#' * filled}{'.' * (30 - filled)}] {words}", end=end, file=sys.stderr, flush=True)


def site_named(book: Any, wanted: str) -> str:
    sites = book.items("site")
    found = [site["id"] for site in sites if wanted in {site["id"], site["name"]}]
    if len(found) == 1:
        return found[0]
    names = "; ".join(f"{site['name']} ({site['id']})" for site in sites) or "none yet"
    trouble = "is the name of several sites" if found else "is no site of this book"
    raise WrongUse(f"“{wanted}” {trouble}.", f"The sites are: {names}.", field="site", value=wanted)


def named(book: Any, kind: str, wanted: str) -> str:
    """The id of a face or fitting by its id, mark or name; raises WrongUse."""
    items = book.items(kind)
    for name in ("id", "mark", "name"):
        found = [one["id"] for one in items if one[name] == wanted]
        if len(found) == 1:
            return found[0]
        if found:
            reason, remedy = f"“{wanted}” is the {name} of several {kind}s.", "Give the id of one of them."
            raise WrongUse(f"{reason} {'; '.join(found)}.", remedy, field=kind, value=wanted)
    marks = "; ".join(one["mark"] or one["name"] for one in items) or "none yet"
    raise WrongUse(f"“{wanted}” is no {kind} of this book.", f"The {kind}s are: {marks}.", field=kind, value=wanted)


@contextmanager
def opened_to_read(folder: str) -> Iterator[Any]:
    """A book, open to be read: also one on a medium that cannot be written to."""
    from ..book.opening import open_book
    from ..book.read_only import to_be_read

    with to_be_read(folder) as readable, open_book(readable) as book:
        yield book
