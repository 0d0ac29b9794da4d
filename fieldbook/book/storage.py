"""Opening the SQLite file of a book, and saying in plain words what storage refuses.

The only place that connects. Acknowledged entries must outlive a power cut, so the journal is
WAL and every commit is synchronous; both are read back, since SQLite ignores a pragma it
cannot follow.
"""

from __future__ import annotations

import errno
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from sqlite_utils import Database

from ..errors import FieldbookError

BUSY_SECONDS = 10
RESTORE = "Keep it as it is, and restore the last backup that is whole into a new folder."


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
            RESTORE,
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


def connect(file: Path, busy_seconds: float = BUSY_SECONDS, *, new: bool = False) -> Database:
    """Connect to a book's file with the settings a book needs.

    new  make the file; otherwise one that is not there is refused, since SQLite would begin an empty one
    Raises the errors of this module.
    """
    with storage_errors(file):
        address = f"{file.absolute().as_uri()}?mode={'rwc' if new else 'rw'}"
        connection = sqlite3.connect(address, timeout=busy_seconds, check_same_thread=False, uri=True)
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


@contextmanager
def connect_to_look(file: Path) -> Iterator[Database]:
    """Connect to a book's file without changing anything of it; what is no UTF-8 reads as marks of replacement.

    Where nothing may be written beside the file, a copy of it is looked at, since SQLite needs a place of its own.
    Raises the errors of this module.
    """
    with ExitStack() as stack:
        if not is_writable(file.parent):
            file = copied(file, Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="fieldbook-"))))
        connection = sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)
        stack.callback(connection.close)
        connection.text_factory = lambda content: content.decode(errors="replace")
        connection.execute("BEGIN")  # all that is looked at is of one moment, whatever arrives meanwhile
        yield Database(connection)


def is_writable(path: Path) -> bool:
    """Whether this program, as whoever it runs, may write there."""
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def copied(file: Path, folder: Path) -> Path:
    """A copy of a book's file in another folder, with what its journal holds."""
    for part in (file, file.with_name(f"{file.name}-wal")):
        if part.exists():
            shutil.copyfile(part, folder / part.name)
    return folder / file.name
