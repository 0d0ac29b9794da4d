"""The command that takes a person out of a book."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Iterable
from typing import Any

STAYS = (
    "What stays, for you to look after: backups made before, records and folders handed over, and phones that never "
    "meet this book again. Other phones let go of it when they next do."
)


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the command of this module."""
    forget = command("forget", _forget, "take a name with its signatures, or a photograph, out of a book")
    forget.add_argument("book", metavar="BOOK")
    forget.add_argument("what", metavar="WHAT", help="a name, or the id of a photograph or document")
    forget.add_argument("--yes", action="store_true", help="do it; without, only list what would be taken out")


def _forget(given: argparse.Namespace) -> int:
    from ..book.forgetting import file_of, places_of, records_with, take_out
    from ..book.opening import open_book

    with open_book(given.book) as book:
        file = file_of(book, given.what)
        places = [file] if file else places_of(book, given.what)
        records = records_with(book, places)
        for line in _lines(places):
            print(line)
        for path in records:
            print(f"{path.relative_to(book.folder)} may show it: its file would go, its number and digest stay.")
        emptied = take_out(book, places) if given.yes else True
    return _end(given, bool(places), emptied)


def _lines(places: Iterable[Any]) -> Iterable[str]:
    for place in places:
        where = f"Revision {place.revision}, {place.kind} {place.item}, {place.field}"
        yield f"{where}." if place.digest else f"{where}: part of the entry itself, it cannot go."


def _end(given: argparse.Namespace, found: bool, emptied: bool) -> int:
    if not found and not given.yes:
        print(f"Nothing in this book names {given.what}.", file=sys.stderr)
        return 1
    if not given.yes:
        print("Nothing was taken out. To do it, say --yes.")
        return 0
    if not emptied:
        print("Somebody reads the book: stop its server and say this again, so that its journal is emptied.")
        return 1
    print("Taken out, and the file of the book written again without it.")
    print(STAYS)
    return 0
