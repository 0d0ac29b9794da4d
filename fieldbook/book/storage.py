"""Opening the SQLite file of a book, and saying in plain words what storage refuses.

The only place that connects. Acknowledged entries must outlive a power cut, so the journal is
WAL and every commit is synchronous; both are read back, since SQLite ignores a pragma it
cannot follow.
"""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlite_utils import Database

from ..errors import FieldbookError

BUSY_SECONDS = 10


class BookLocked(FieldbookError):
    """Another program holds the book's file."""

    code = "book-locked"


class BookReadOnly(FieldbookError):
    """The book's folder or file cannot be written."""

    code = "book-read-only"


class BookDamaged(FieldbookError):
    """The file is no SQLite file, or its pages contradict each other."""

    code = "book-damaged"


class DiskFull(FieldbookError):
    """No room is left where the book lies."""

    code = "disk-full"


class StorageFailed(FieldbookError):
    """Storage failed in some other way."""

    code = "storage-failed"


@contextmanager
def storage_errors(path: Path) -> Iterator[None]:
    """Turn what SQLite and the system say about a book's storage into our own errors."""
    try:
        yield
    except sqlite3.Error as error:
        raise _of_sqlite(path, error) from error
    except OSError as error:
        raise _of_system(path, error) from error


def _of_sqlite(path: Path, error: sqlite3.Error) -> FieldbookError:
    name = getattr(error, "sqlite_errorname", "")
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return BookLocked(
            f"{path} is in use by another program.",
            "Close that program and try again; nothing was changed.",
            value=path,
        )
    if name.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM", "SQLITE_AUTH")):
        return BookReadOnly(
            f"{path} cannot be written.",
            "Give yourself the right to write in its folder, or copy it elsewhere.",
            value=path,
        )
    if name.startswith(("SQLITE_FULL", "SQLITE_IOERR_WRITE")):
        return _full(path)
    if name.startswith(("SQLITE_CORRUPT", "SQLITE_NOTADB")):
        return BookDamaged(
            f"{path} is damaged or is no book.",
            "Keep it as it is, and restore the last backup that is whole into a new folder.",
            value=path,
        )
    return StorageFailed(
        f"{path}: storage failed ({name or type(error).__name__}).",
        "Copy the book's folder to another disk and open it there.",
        value=path,
    )


def _of_system(path: Path, error: OSError) -> FieldbookError:
    if error.errno in {errno.ENOSPC, errno.EDQUOT}:
        return _full(path)
    if error.errno in {errno.EACCES, errno.EPERM, errno.EROFS}:
        return BookReadOnly(
            f"{path} cannot be written.",
            "Give yourself the right to write in its folder, or copy it elsewhere.",
            value=path,
        )
    return StorageFailed(f"{path}: {error.strerror or 'storage failed'}.", "Check the path and the disk.", value=path)


def _full(path: Path) -> DiskFull:
    return DiskFull(
        f"The disk that holds {path} is full.",
        "Make room and enter the last change again; all before it is safe.",
        value=path,
    )


def connect(file: Path, busy_seconds: float = BUSY_SECONDS) -> Database:
    """Connect to a book's file with the settings a book needs.

    Raises the errors of this module.
    """
    with storage_errors(file):
        connection = sqlite3.connect(file, timeout=busy_seconds, check_same_thread=False)
        try:
            wanted = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
            for pragma, value in wanted.items():
                connection.execute(f"PRAGMA {pragma} = {value}")
            found = {pragma: connection.execute(f"PRAGMA {pragma}").fetchone()[0] for pragma in wanted}
        except sqlite3.Error:
            connection.close()
            raise
    if found != wanted:
        connection.close()
        raise StorageFailed(
            f"{file}: SQLite keeps {found}, not {wanted}.", "Keep the book on a local disk.", value=file
        )
    return Database(connection)
