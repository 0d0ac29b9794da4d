"""A book in one file, and back again.

The file is a ZIP with the database, the files kept as they came and a list of digests. The database
is copied by SQLite itself, so that a backup is whole even while entries arrive; those files
never change once they are there. Keys stay behind unless asked for.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import sqlite3
import tempfile
import zipfile
from pathlib import Path

from ..errors import FieldbookError
from .book import FILE, Book, NotABook, open_book
from .evidence import SHELVES, path_of
from .storage import storage_errors

LIST = "contents.json"
FORMAT = "fieldbook-backup-1"
_NAME = re.compile(r"book\.sqlite|[a-z]+/[0-9a-f]{2}/[0-9a-f]{64}|keys/[A-Za-z0-9._-]+")


class UnsuitableBackup(FieldbookError):
    """A file that is no backup, is cut short, or whose parts do not fit their digests."""

    code = "unsuitable-backup"


def backup(book: Book, file: Path | str, with_keys: bool = False) -> int:
    """Write a book to one file, whole or not at all; returns the number of parts.

    Raises the errors of `storage`.
    """
    file = Path(file)
    with storage_errors(file), tempfile.TemporaryDirectory(dir=file.parent, prefix=".backup-") as folder:
        snapshot = Path(folder) / FILE
        with sqlite3.connect(snapshot) as target:
            book.db.conn.backup(target)
            kept = [
                (kind, row[0])
                for kind in SHELVES
                for row in target.execute(f"SELECT DISTINCT sha256 FROM {kind}")  # noqa: S608
            ]
        target.close()
        parts = {FILE: snapshot}
        files = [path_of(book.folder, kind, digest) for kind, digest in kept]
        if book.newer:  # it may keep files that this version has no word for
            files += [path for path in book.folder.glob("*/??/*") if _NAME.fullmatch(_part_of(book.folder, path))]
        parts |= {_part_of(book.folder, file): file for file in files}
        if with_keys and (book.folder / "keys").is_dir():
            parts |= {f"keys/{key.name}": key for key in (book.folder / "keys").iterdir() if key.is_file()}
        whole = Path(folder) / "whole"
        written = _write(whole, parts)
        whole.replace(file)
    return written


def _part_of(folder: Path, file: Path) -> str:
    return file.relative_to(folder).as_posix()


def _write(whole: Path, parts: dict[str, Path]) -> int:
    digests: dict[str, str] = {}
    with zipfile.ZipFile(whole, "w") as archive:
        for name, path in parts.items():
            if not path.exists():  # a photograph still on the phone that took it
                continue
            compression = zipfile.ZIP_DEFLATED if name == FILE else zipfile.ZIP_STORED
            archive.write(path, name, compression)
            with path.open("rb") as file:
                digests[name] = hashlib.file_digest(file, "sha256").hexdigest()
        archive.writestr(LIST, json.dumps({"format": FORMAT, "sha256": digests}, indent=1))
    with whole.open("rb") as file:
        os.fsync(file.fileno())
    return len(digests)


def restore(file: Path | str, folder: Path | str) -> Book:
    """Make a book from a backup in a folder that is empty or not there; every part is checked first.

    The book gets a new epoch, so that phones send again what they still keep.
    Raises UnsuitableBackup, NotABook, NewerBook, and the errors of `storage`; nothing is made then.
    """
    file, folder = Path(file), Path(folder)
    with storage_errors(folder):
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise NotABook(
                f"{folder} is not empty.", "Name a folder that does not exist yet.", field="book", value=folder
            )
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=folder.parent, prefix=".restore-") as temporary:
            fresh = Path(temporary) / "book"
            _unpack(file, fresh)
            with open_book(fresh) as book, book.writing():
                book.begin_epoch()
            if folder.exists():
                folder.rmdir()
            shutil.move(fresh, folder)
    return open_book(folder)


def _unpack(file: Path, folder: Path) -> None:
    try:
        with zipfile.ZipFile(file) as archive:
            contents = json.loads(archive.read(LIST))
            digests: dict[str, str] = contents["sha256"]
            if contents["format"] != FORMAT or FILE not in digests:
                raise KeyError("format")
            for name, digest in digests.items():
                _unpack_part(archive, file, name, digest, folder)
    except FileNotFoundError:
        raise UnsuitableBackup(f"{file} does not exist.", "Check the path.", field="file", value=file) from None
    except (
        zipfile.BadZipFile,
        KeyError,
        ValueError,
        TypeError,
        AttributeError,
        EOFError,
        NotImplementedError,
        RuntimeError,
    ):
        raise UnsuitableBackup(
            f"{file} is no backup of a book, or is cut short.", "Use another backup file.", field="file", value=file
        ) from None
    (folder / "photographs").mkdir(exist_ok=True)


def _unpack_part(archive: zipfile.ZipFile, file: Path, name: str, digest: str, folder: Path) -> None:
    if not _NAME.fullmatch(name):
        raise UnsuitableBackup(
            f"{file} names a part that no book has: {name}.", "Do not use this file.", field="file", value=file
        )
    target = folder / name
    target.parent.mkdir(parents=True, exist_ok=True)
    if name.startswith("keys/"):
        target.touch(mode=0o600)
    with archive.open(name) as source, target.open("wb") as sink:
        shutil.copyfileobj(source, sink)
        sink.flush()
        os.fsync(sink.fileno())
    with target.open("rb") as written:
        if hashlib.file_digest(written, "sha256").hexdigest() != digest:
            raise UnsuitableBackup(
                f"{name} in {file} does not fit its digest.", "Use another backup file.", field="file", value=file
            )
