"""Making a book, opening one, and bringing an older one up to this version."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from . import ledger, tables
from .book import FILE, PARTS, SHAPE, Book
from .making import NotABook, is_unfinished, made_whole
from .migrations import MIGRATIONS
from .storage import RESTORE, BookDamaged, connect, storage_errors


def create_book(folder: Path | str) -> Book:
    """Make a new, empty book in a folder that is empty, not there yet, or left unfinished by this.

    Raises NotABook when something lies there already, and the errors of `storage`.
    """
    with book_made(folder):
        pass
    return open_book(folder)


@contextmanager
def book_made(folder: Path | str) -> Iterator[Book]:
    """A new book to be filled, which is in its folder at the end, whole, or not at all.

    Raises as `create_book` does.
    """
    with made_whole(Path(folder), FILE) as making:
        (making / "photographs").mkdir()
        with _prepared(Book(making, connect(making / FILE, new=True)), new=True) as book:
            yield book


def open_book(folder: Path | str, busy_seconds: float = 10) -> Book:
    """Open a book and bring it up to this version; one that a newer version made is opened to be read.

    Raises NotABook, BookDamaged where the file of a book is missing or empty, and the other errors of `storage`.
    """
    folder = Path(folder)
    file = file_in(folder)
    return _prepared(Book(folder, connect(file, busy_seconds)))


def file_in(folder: Path) -> Path:
    """The file of the book in a folder, which is there and begins; raises NotABook and BookDamaged."""
    file = folder / FILE
    if is_unfinished(folder, FILE):
        reason, remedy = f"Making the book in {folder} was cut short.", "Say the command that made it once more."
        raise NotABook(reason, remedy, field="book", value=folder)
    with storage_errors(file):
        parts = {part.name for part in folder.iterdir()} if folder.is_dir() else set()
        if FILE not in parts and not parts & PARTS:
            reason, remedy = f"There is no book in {folder}.", f"Make one: fieldbook new {folder}"
            raise NotABook(reason, remedy, field="book", value=folder)
        if not file.is_file() or file.stat().st_size == 0:
            trouble = "is empty" if file.is_file() else "is missing"
            raise BookDamaged(f"{file} {trouble}, beside other parts of a book.", RESTORE, field="book", value=file)
    return file


def unknown_steps(db: Database) -> list[str]:
    """The steps that a newer version has brought a book up by, in words."""
    return [f"its step {name}" for name in _steps(db) if name not in _known_steps()]


def _steps(db: Database) -> list[str]:
    return [step.name for step in MIGRATIONS.applied(db)]


def _known_steps() -> set[str]:
    return {migration.name for migration in MIGRATIONS._migrations}


def _prepared(book: Book, new: bool = False) -> Book:
    try:
        with storage_errors(file := book.folder / FILE):
            applied = set(_steps(book.db))  # looked up once: a book is opened for each request
            if not new and not applied:
                raise BookDamaged(f"{file} holds no book.", RESTORE, field="book", value=file)
            steps = unknown_steps(book.db) if applied - _known_steps() else []
            if not steps and _known_steps() - applied:
                MIGRATIONS.apply(book.db)
            if book.fact(SHAPE) != tables.fingerprint():
                with book.noting():
                    ledger.rebuild(book.db)
                    book.set_fact(SHAPE, tables.fingerprint())
            book.newer = (*steps, *tables.newer_in_words(book.db))
    except BaseException:
        book.close()
        raise
    return book
