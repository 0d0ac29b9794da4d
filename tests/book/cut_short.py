"""Commands killed at each place where they touch the file system, then said again: a script for a process of its own.

    python -m tests.book.cut_short new|restore|backup FOLDER EVERY

Prints as JSON how often it killed, and what was not as it must be afterwards.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

from fieldbook.book.backup import backup, restore
from fieldbook.book.book import FILE, Book
from fieldbook.book.examine import examine, examine_folder
from fieldbook.book.opening import SHAPE, create_book, open_book
from fieldbook.errors import FieldbookError
from tests.sites import survey

TOUCHING = ("open", "os.", "shutil.", "sqlite3.connect", "tempfile.")


def is_cut_short(act: Callable[[], object], number: int) -> bool:
    """Do it in a child that is killed the numberth time it touches a file; False once it comes to its end."""
    child = os.fork()
    if child == 0:
        seen = 0

        def count(event: str, _: object) -> None:
            nonlocal seen
            if event.startswith(TOUCHING):
                seen += 1
                if seen == number:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        act()
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL


def new(folder: Path) -> tuple[Callable[[], object], Callable[[], Iterator[str]], Path]:
    """Making an empty book; killed when all was done, it is there and says so."""
    made = folder / "made"

    def act() -> None:
        create_book(made).close()

    def wrong() -> Iterator[str]:
        if (made / FILE).exists():
            with open_book(made) as book:
                yield from (damage.words for damage in examine(book))
        else:
            act()

    return act, wrong, made


def _issue(book: Book) -> None:
    """Let an edition of its site lie in the book, as when its record was printed."""
    site = book.items("site")[0]["id"]
    (records := book.folder / "records" / site).mkdir(parents=True)
    (records / "edition-1.pdf").write_bytes(b"%PDF")
    row = [site, 1, *book.head(), "2026-05-05T09:20:00+01:00"]
    with book.noting():
        book.db.execute("INSERT INTO edition (site, number, revision, digest, made_at) VALUES (?, ?, ?, ?, ?)", row)


def restored(folder: Path) -> tuple[Callable[[], object], Callable[[], Iterator[str]], Path]:
    """Restoring: as soon as anything opens, it counts under an epoch of its own; said again, it is all there."""
    with create_book(folder / "source") as book:
        survey(book)
        epoch, digest = book.fact("epoch"), book.digest()
        _issue(book)
        backup(book, folder / "saved")
    again = folder / "again"

    def act() -> None:
        restore(folder / "saved", again).close()

    def wrong() -> Iterator[str]:
        if (again / FILE).exists():
            with open_book(again) as book:
                if book.fact("epoch") == epoch:
                    yield "it opens under the former epoch"
        act()
        with open_book(again) as book:
            if (book.digest(), book.fact("epoch") == epoch) != (digest, False):
                yield "not the book that was saved, or under its epoch"
        if not (again / "records").is_dir():
            yield "the record is not there"

    return act, wrong, again


def saved(folder: Path) -> tuple[Callable[[], object], Callable[[], Iterator[str]], Path]:
    """Backing up over an earlier backup: the earlier or the new one lies there, whole; said again, the new one."""
    source, file = folder / "source", folder / "saved"
    with create_book(source) as book:
        survey(book)
        backup(book, file)

    def act() -> None:
        with open_book(source) as book:
            backup(book, file)

    def wrong() -> Iterator[str]:
        restore(file, folder / "tried").close()
        shutil.rmtree(folder / "tried")
        act()
        if lying := [path.name for path in folder.iterdir() if path.name.startswith(".")]:
            yield f"left lying about: {lying}"

    return act, wrong, folder / "nothing"


def rebuilt(folder: Path) -> tuple[Callable[[], object], Callable[[], Iterator[str]], Path]:
    """Making the tables anew, as after the kinds have changed: opened again, they say what the ledger says."""
    with create_book(folder / "source") as book:
        survey(book)
        with book.noting():
            book.set_fact(SHAPE, "another")
            book.db.execute("UPDATE room SET name = 'Another'")
    book_to_open = folder / "to-open"
    shutil.copytree(folder / "source", book_to_open)

    def act() -> None:
        open_book(book_to_open).close()

    def wrong() -> Iterator[str]:
        with open_book(book_to_open) as book:
            if book.fact(SHAPE) == "another":
                yield "the tables were not made anew"
            yield from (damage.words for damage in examine(book))
        shutil.rmtree(book_to_open)
        shutil.copytree(folder / "source", book_to_open)

    return act, wrong, folder / "nothing"


COMMANDS = {"new": new, "restore": restored, "backup": saved, "rebuild": rebuilt}


def found(wrong: Callable[[], Iterator[str]], made: Path, which: str) -> Iterator[str]:
    """What is not as it must be after a command was killed, and make room for the next."""
    try:
        yield from (f"after {which}: {words}" for words in wrong())
    except FieldbookError as error:
        yield f"after {which}: {error}"
    if made.exists():
        if examine_folder(made).left_over:
            yield f"after {which}: {examine_folder(made).left_over}"
        shutil.rmtree(made)


def main(what: str, folder: Path, every: int) -> None:
    """Kill at the first place, at the next, and so on to the last, each time from the start."""
    act, wrong, made = COMMANDS[what](folder)
    number, told = 1, []
    while is_cut_short(act, number):
        told += found(wrong, made, str(number))
        number += every
    print(json.dumps({"killed": number // every, "wrong": told}))


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]))
