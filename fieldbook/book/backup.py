"""A book in one file, and back again.

The file is a ZIP with the database, the files kept as they came, the records issued and a list of digests.
The database is copied by SQLite itself, so that a backup is whole even while entries arrive; those files
never change once they are there. All is looked at as it is taken: what has changed is named, and an earlier
backup is not written over with it. Keys stay behind unless asked for.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import sqlite3
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from ..errors import FieldbookError, Refused
from . import ledger
from .book import FILE, READ_ONLY, Book, fact_in
from .chain import Damage, not_in_chain
from .evidence import RECORDS, SHELVES, path_of, synchronise
from .examine import examine_to_keep
from .making import made_whole
from .opening import open_book
from .storage import BookDamaged, connect_to_look, storage_errors

LIST = "contents.json"
FORMAT = "fieldbook-backup-1"
LISTED = "digest of the list"
RESTORED = "restored from"
CHUNK_BYTES = 1 << 20
_EDITION = rf"{RECORDS}/[0-9a-f-]{{36}}/edition-\d+(-with-costs)?\.pdf"
_NAME = re.compile(rf"book\.sqlite|[a-z]+/[0-9a-f]{{2}}/[0-9a-f]{{64}}|keys/[A-Za-z0-9._-]+|{_EDITION}")


class UnsuitableBackup(FieldbookError):
    """A file that is no backup, is cut short, or whose parts do not fit their digests."""

    code = "unsuitable-backup"


def backup(book: Book, file: Path | str, with_keys: bool = False, as_it_is: bool = False) -> int:
    """Write a book to one file, whole or not at all; returns the number of parts.

    with_keys  with the keys that phones trust; only its owner may read such a file
    as_it_is   with what does not fit as well
    Raises Refused with all that does not fit, each a BookDamaged, and the errors of `storage`; then what lay under
    the file's name is still there.
    """
    file = Path(file)
    with storage_errors(file), _beside(file) as folder:
        snapshot = folder / FILE
        with closing(sqlite3.connect(snapshot)) as target:
            book.db.conn.backup(target)
            target.execute("DELETE FROM fact WHERE name = ?", [READ_ONLY])  # the backup may go where it can be written
            target.commit()
        with connect_to_look(snapshot) as db:
            found = [*examine_to_keep(book.folder, db), *_knows_more(file, db)]
            about = _about(db)
            parts = {FILE: snapshot} | _files_of(book, db, with_keys)
        whole = folder / "whole"
        digests = _write(whole, parts, about, 0o600 if with_keys else 0o666)
        found += [_changed(name) for name, digest in digests.items() if _named_otherwise(name, digest)]
        if found and not as_it_is:
            remedy = "Look at it with “examine”. To keep a copy all the same, name another file and say --as-it-is."
            raise Refused([BookDamaged(f"{damage.words}.", remedy, field="book", value=file) for damage in found])
        whole.replace(file)
        synchronise(file.parent)
    return len(digests)


@contextmanager
def _beside(file: Path) -> Iterator[Path]:
    """A folder beside a file that is to be, empty; one that was left there by a backup cut short goes first."""
    folder = file.with_name(f".backup-{file.name}")
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(mode=0o700)
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _files_of(book: Book, db: Database, with_keys: bool) -> dict[str, Path]:
    """Where the parts of a book lie, by their names in a backup."""
    digests = [(kind, row[0]) for kind in SHELVES for row in db.execute(f"SELECT DISTINCT sha256 FROM {kind}")]  # noqa: S608
    files = [path_of(book.folder, kind, digest) for kind, digest in digests]
    files += (book.folder / RECORDS).glob("*/edition-*.pdf")
    if book.newer:  # it may keep files that this version has no word for
        files += book.folder.glob("*/??/*")
    if with_keys:
        files += (book.folder / "keys").glob("*")
    named = {path.relative_to(book.folder).as_posix(): path for path in files if path.is_file()}
    return {name: path for name, path in named.items() if _NAME.fullmatch(name)}


def _named_otherwise(name: str, digest: str) -> bool:
    """Whether a file that is kept under its digest has another one."""
    return name.partition("/")[0] in SHELVES.values() and not name.endswith(digest)


def _changed(name: str) -> Damage:
    return Damage(name.partition("/")[0], None, f"{name}: its bytes have changed since it came")


def _about(db: Database) -> dict[str, Any]:
    """Which book this is, and how far its ledger goes."""
    last = db.execute("SELECT revision, hash FROM ledger ORDER BY revision DESC LIMIT 1").fetchone()
    revision, digest = last or (0, ledger.NO_HASH)
    return {"book": fact_in(db, "book"), "revision": revision, "digest": digest}


def _knows_more(file: Path, db: Database) -> Iterator[Damage]:
    """Whether the backup that lies under this name is of another book, or of entries that this one does not have."""
    try:
        said = _read_list(file)
    except UnsuitableBackup:  # there is none, or no whole one
        return
    if "book" not in said:  # written before 0.2
        return
    if said["book"] != fact_in(db, "book"):
        yield Damage("file", None, f"{file} is a backup of another book")
    elif words := not_in_chain(db, said["revision"], said["digest"]):
        yield Damage("ledger", None, f"the backup in {file} was made from {words}")


def _write(whole: Path, parts: dict[str, Path], said: Mapping[str, Any], mode: int) -> dict[str, str]:
    """Write the parts as they are read, each once; their digests by name."""
    digests: dict[str, str] = {}
    whole.touch(mode, exist_ok=False)
    with whole.open("r+b") as target:
        with zipfile.ZipFile(target, "w") as archive:
            for name, path in parts.items():
                about = zipfile.ZipInfo.from_file(path, name)
                about.compress_type = zipfile.ZIP_DEFLATED if name == FILE else zipfile.ZIP_STORED
                digest = hashlib.sha256()
                with path.open("rb") as source, archive.open(about, "w", force_zip64=True) as sink:
                    while chunk := source.read(CHUNK_BYTES):
                        digest.update(chunk)
                        sink.write(chunk)
                digests[name] = digest.hexdigest()
            archive.writestr(LIST, json.dumps({"format": FORMAT, **said, "sha256": digests}, indent=1))
        target.flush()
        os.fsync(target.fileno())
    return digests


def restore(file: Path | str, folder: Path | str) -> Book:
    """Make a book from a backup in a folder that is empty, not there, or left unfinished by this.

    Every part is checked before any is in its place, and the book has its new epoch by then, so that phones send
    again what they still keep. Where this very backup was just restored, that book is opened.
    Raises UnsuitableBackup, NotABook, NewerBook, and the errors of `storage`; nothing is made then.
    """
    file, folder = Path(file), Path(folder)
    with storage_errors(folder):
        if _is_restored(folder, file):
            return open_book(folder)
        with made_whole(folder, FILE) as making:
            listed = _unpack(file, making)
            with open_book(making) as book, book.writing():
                book.begin_epoch()
                book.set_fact(RESTORED, json.dumps([listed, book.digest()]))
    return open_book(folder)


def _is_restored(folder: Path, file: Path) -> bool:
    """Whether a folder holds what a restoring of this file left, with nothing entered since."""
    if not (folder / FILE).is_file() or not file.is_file():
        return False
    with connect_to_look(folder / FILE) as db:
        last = db.execute("SELECT hash FROM ledger ORDER BY revision DESC LIMIT 1").fetchone()
        noted = json.loads(fact_in(db, RESTORED) or "[]")
    return noted == [_read_list(file)[LISTED], last[0] if last else ledger.NO_HASH]


def _read_list(file: Path) -> dict[str, Any]:
    """What a backup says of itself, with the `digest of the list`; raises UnsuitableBackup."""
    with _said_in_words(file), zipfile.ZipFile(file) as archive:
        listed = archive.read(LIST)
        contents: dict[str, Any] = json.loads(listed)
        if contents["format"] != FORMAT or FILE not in contents["sha256"]:
            raise KeyError("format")
    return contents | {LISTED: hashlib.sha256(listed).hexdigest()}


@contextmanager
def _said_in_words(file: Path) -> Iterator[None]:
    try:
        yield
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


def _unpack(file: Path, folder: Path) -> str:
    """Put every part where it belongs, and return the digest of the list of them."""
    said = _read_list(file)
    with _said_in_words(file), zipfile.ZipFile(file) as archive:
        for name, digest in said["sha256"].items():
            _unpack_part(archive, file, name, digest, folder)
    (folder / "photographs").mkdir(exist_ok=True)
    return said[LISTED]


def _unpack_part(archive: zipfile.ZipFile, file: Path, name: str, digest: str, folder: Path) -> None:
    if not _NAME.fullmatch(name):
        raise UnsuitableBackup(
            f"{file} names a part that no book has: {name}.", "Do not use this file.", field="file", value=file
        )
    target = folder / name
    target.parent.mkdir(mode=0o700 if name.startswith("keys/") else 0o777, parents=True, exist_ok=True)
    if name.startswith("keys/"):
        target.touch(mode=0o600)
    with archive.open(name) as source, target.open("wb") as sink:
        shutil.copyfileobj(source, sink)
    with target.open("rb") as written:
        if hashlib.file_digest(written, "sha256").hexdigest() != digest:
            raise UnsuitableBackup(
                f"{name} in {file} does not fit its checksum.", "Use another backup file.", field="file", value=file
            )
