"""Files that came from outside, kept byte for byte under the SHA-256 of their content."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from .storage import storage_errors

# kind of entry that names a file by its digest -> the folder of the book it lies in
SHELVES: Mapping[str, str] = {"photograph": "photographs", "log": "logs", "document": "documents"}
# Folders of the records issued, of pictures that cannot be shown, and of smaller copies.
RECORDS, ASIDE, COPIES = "records", "unsuitable", "copies"
PART = ".part-"  # what a file is called until all of it is written


def path_of(folder: Path, kind: str, sha256: str) -> Path:
    """Where a file lies in a book's folder, whether or not it is there yet."""
    return folder / SHELVES[kind] / sha256[:2] / sha256


def set_aside(folder: Path, sha256: str) -> Path:
    """Where the bytes of a photograph lie that arrived whole and cannot be shown."""
    return folder / ASIDE / sha256


def keep(folder: Path, kind: str, content: bytes) -> str:
    """Keep a file's bytes and return their digest; on disk before this returns. Twice is once.

    Raises the errors of `storage`.
    """
    sha256 = hashlib.sha256(content).hexdigest()
    path = path_of(folder, kind, sha256)
    with storage_errors(path):
        if not path.exists():
            _make_shelf(path.parent)
            write_whole(path, content)
    return sha256


def move_in(folder: Path, kind: str, sha256: str, file: Path) -> None:
    """Move a file that holds the bytes of a digest into its place; on disk before this returns. Twice is once.

    file  in the same file system, and no longer written to
    Raises the errors of `storage`.
    """
    path = path_of(folder, kind, sha256)
    with storage_errors(path):
        with file.open("rb") as written:
            os.fsync(written.fileno())
        _make_shelf(path.parent)
        file.replace(path)
        synchronise(path.parent)


def _make_shelf(folder: Path) -> None:
    """Make a folder that is still there after a power cut."""
    if not folder.is_dir():
        folder.mkdir(parents=True, exist_ok=True)
        synchronise(folder.parent)


def write_whole(path: Path, content: bytes) -> None:
    """Write under a temporary name, synchronise, then rename: no half file is left, and only its owner reads it."""
    descriptor, temporary = tempfile.mkstemp(dir=path.parent, prefix=PART)  # 0600 from the first moment
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
    synchronise(path.parent)


def synchronise(folder: Path) -> None:
    """Bring a folder's list of names to disk, where the system lets it."""
    if os.name == "nt":  # a folder cannot be opened there
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
