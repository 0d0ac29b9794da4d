"""Does a book still hold together? The chain, the tables, the files kept as they came.

Every finding at once, each naming the item, so that a person knows what is in doubt and what
is not. Nothing is mended here, and nothing is made anew before it was looked at: examining must not
bless damage. Whatever a damaged part makes its reader raise is a finding about that part.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from ..errors import Refused, shown
from . import apart, chain, evidence, ledger, printed, tables
from .book import DESK, FILE, SHAPE, Book, fact_in
from .chain import Damage
from .left_over import left_over
from .opening import file_in, unknown_steps
from .storage import BookDamaged, connect_to_look, storage_errors

__all__ = ["Damage", "examine", "examine_folder", "examine_to_keep", "refuse_altered", "refuse_damaged"]

MOST_WORDS = 5  # of what SQLite says about its own pages
_DIGEST = re.compile("[0-9a-f]{64}")


def examine(book: Book) -> list[Damage]:
    """Everything that does not fit in an open book; an empty list for a sound one."""
    return _all_of(book.folder, book.db)


@dataclass(frozen=True)
class Examined:
    """What looking at a book has found.

    entries    how many the ledger holds, None where they cannot be counted
    damages    all that does not fit
    left_over  a line for each file that is no part of the book
    newer      what only a newer version knows
    compared   whether the tables are of this version, so that they could be held against the ledger
    """

    entries: int | None
    damages: tuple[Damage, ...]
    left_over: tuple[str, ...]
    newer: tuple[str, ...]
    compared: bool


def examine_folder(folder: Path, against: str | None = None) -> Examined:
    """Look at a book that is not opened for it, so that nothing is brought up to date or made again before.

    against  a digest from a record's title page, to be found in the chain
    Raises NotABook and the errors of `storage` where there is nothing to look at.
    """
    file = file_in(folder)
    with storage_errors(file), connect_to_look(file) as db:
        found = _all_of(folder, db)
        if against is not None:
            found += _guarded("ledger", chain.held_against(db, against))
        number = _or(lambda: db.execute("SELECT count(*) FROM ledger").fetchone()[0], None)
        beside = _or(lambda: tuple(left_over(folder, db)), ())
        newer = _or(lambda: _newer(db), ())
        compared = _or(lambda: _are_of_this_version(db), False)
    return Examined(number, tuple(found), beside, newer, compared)


def _or(asked: Callable[[], Any], otherwise: Any) -> Any:
    """What the book says, or something else where a damaged part does not let it: that is among the damages."""
    try:
        return asked()
    except Exception:
        return otherwise


def examine_entered(folder: Path, db: Database) -> list[Damage]:
    """Only whether the file, the ledger in it, and the tables made from that are whole."""
    parts = {
        "file": (_file(folder, db), chain.guards(db)),
        "ledger": (chain.links(db), chain.set_apart(db), chain.issued(db), chain.told(db)),
        "tables": (_tables(db),),
    }
    return [damage for part, looks in parts.items() for look in looks for damage in _guarded(part, look)]


def examine_to_keep(folder: Path, db: Database) -> list[Damage]:
    """The same, and whether a file is gone or a record altered; the bytes of other files are looked at as they go."""
    records = [printed.unknown(folder, db), printed.altered(folder, db)]
    looks = [("files", _lost(folder, db)), *((evidence.RECORDS, look) for look in records)]
    return examine_entered(folder, db) + [damage for part, look in looks for damage in _guarded(part, look)]


def refuse_damaged(book: Book, files: Iterable[str] = (), record: Path | None = None) -> None:
    """Raise Refused, with a BookDamaged for each, where what was entered, or one of these files, is not as it was.

    files   as for `refuse_altered`
    record  one that was printed into the book, and is to be handed on
    """
    with book.db.atomic():  # entries may arrive meanwhile
        found = examine_entered(book.folder, book.db)
    _refuse(found or list(printed.altered(book.folder, book.db, record)) if record else found)
    refuse_altered(book, files)


def refuse_altered(book: Book, files: Iterable[str]) -> None:
    """Raise Refused, with a BookDamaged for each, where one of these files has other bytes than it came with.

    files  ids of photographs, logs and documents; one that has not arrived yet is no damage
    """
    found = []
    for item in files:
        kind, values = book.item(item)
        here = evidence.path_of(book.folder, kind, values["sha256"]).exists()
        if here and (words := _not_kept(book.folder, kind, values["sha256"])):
            found.append(Damage(evidence.SHELVES[kind], item, f"{chain.called(book.db, kind, item)}: {words}"))
    _refuse(found)


def _refuse(found: list[Damage]) -> None:
    if found:
        remedy = "Look at the book with “examine”, and bring back what was altered from a backup."
        raise Refused([BookDamaged(f"{one.words}.", remedy, field="book", value=one.item) for one in found])


def _all_of(folder: Path, db: Database) -> list[Damage]:
    found = examine_entered(folder, db)
    found += [one for kind, shelf in evidence.SHELVES.items() for one in _guarded(shelf, _shelf(folder, db, kind))]
    for look in (printed.unknown(folder, db), printed.altered(folder, db)):
        found += _guarded(evidence.RECORDS, look)
    return found


def _guarded(part: str, look: Iterator[Damage]) -> list[Damage]:
    """What a look finds; what it cannot get over is the last of it."""
    found: list[Damage] = []
    try:
        found.extend(look)
    except Exception as error:  # what a damaged part raises when it is read is anything
        why = shown(str(error)) or type(error).__name__
        found.append(Damage(part, None, f"{FILE}: the {part} cannot be read to their end ({why})"))
    return found


def _file(folder: Path, db: Database) -> Iterator[Damage]:
    try:
        words = [str(row[0]) for row in db.execute("PRAGMA integrity_check")]
    except sqlite3.DatabaseError:
        words = ["its pages cannot be read"]
    if words != ["ok"]:
        yield Damage("file", None, f"{folder / FILE}: {shown('; '.join(words[:MOST_WORDS]))}")


def _tables(db: Database) -> Iterator[Damage]:
    """The tables as they are, beside tables made afresh from the ledger."""
    if not _are_of_this_version(db):  # they are made again when the book is opened
        return
    fresh = Database(memory=True)
    try:
        tables.make_tables(fresh)
        for entry in ledger.entries(db):
            tables.apply(fresh, entry["revision"], entry)
        for name in tables.table_statements():
            if _columns(db, name) != _columns(fresh, name):  # by which everything else reads it
                yield Damage("tables", None, f"{name}: the table is lost, or has other columns than it was made with")
                continue
            try:
                present = _rows(db, name)
            except sqlite3.Error as error:
                yield Damage("tables", None, f"{name}: the table cannot be read ({shown(str(error))})")
                continue
            yield from _differences(name, present, _rows(fresh, name))
    except (ValueError, KeyError, TypeError, AttributeError, sqlite3.Error):
        yield Damage(
            "tables", None, "the ledger can no longer be read as entries, so the tables cannot be compared with it"
        )
    finally:
        fresh.close()


def _newer(db: Database) -> tuple[str, ...]:
    """What the ledger says that this version does not know; tables of another version do not tell."""
    if _are_of_this_version(db):
        return tables.newer_in_words(db)
    fresh = Database(memory=True)
    try:
        tables.make_tables(fresh)
        for entry in ledger.entries(db):
            tables.apply(fresh, entry["revision"], entry)
        return (*unknown_steps(db), *tables.newer_in_words(fresh))
    finally:
        fresh.close()


def _are_of_this_version(db: Database) -> bool:
    return fact_in(db, SHAPE) == tables.fingerprint()


def _columns(db: Database, table: str) -> list[tuple[Any, ...]]:
    return db.execute(f'PRAGMA table_info("{table}")').fetchall()


def _rows(db: Database, table: str) -> set[tuple[Any, ...]]:
    return set(db.execute(f'SELECT * FROM "{table}"').fetchall())  # noqa: S608


def _differences(table: str, present: set[tuple[Any, ...]], expected: set[tuple[Any, ...]]) -> Iterator[Damage]:
    for row in sorted(present - expected, key=repr):
        yield Damage("tables", row[0], f"{table} {row[0]}: the table holds what the ledger does not say")
    for row in sorted(expected - present, key=repr):
        yield Damage("tables", row[0], f"{table} {row[0]}: the ledger says what the table does not hold")


def _shelf(folder: Path, db: Database, kind: str) -> Iterator[Damage]:
    """The files that entries of a kind point to, by their digests; the ledger says which, whatever the tables hold."""
    for item, (sha256, _) in _pointed_to(db, kind).items():
        if (words := _not_kept(folder, kind, sha256)) and not _was_taken_out(db, sha256):
            yield _of_file(db, kind, item, sha256, words)


def _lost(folder: Path, db: Database) -> Iterator[Damage]:
    """The files that were here and are gone; one that a phone has not sent yet, and none has looked at, is none."""
    for kind in evidence.SHELVES:
        for item, (sha256, device) in _pointed_to(db, kind).items():
            path = evidence.path_of(folder, kind, sha256)
            if path.is_file() or _was_taken_out(db, sha256):
                continue
            if device == DESK or os.path.lexists(path) or any((folder / evidence.COPIES).glob(f"{sha256}-*")):
                yield _of_file(db, kind, item, sha256, _not_kept(folder, kind, sha256))


def _pointed_to(db: Database, kind: str) -> dict[str, tuple[str, str]]:
    """The digest that the entries of each item of a kind last named, and the device it was named by."""
    pointed = {}
    rows = db.execute("SELECT item, content, device FROM ledger WHERE kind = ? ORDER BY revision", [kind])
    for item, content, device in rows:
        if sha256 := _digest_in(content):
            pointed[item] = (sha256, device)
    return pointed


def _of_file(db: Database, kind: str, item: str, sha256: str, words: str) -> Damage:
    return Damage(evidence.SHELVES[kind], item, f"{chain.called(db, kind, item)} ({sha256[:12]}…): {words}")


def _was_taken_out(db: Database, sha256: str) -> bool:
    return db["apart"].exists() and apart.is_taken_out(db, sha256)


def _digest_in(content: str) -> str | None:
    try:
        sha256 = json.loads(content)["set"]["sha256"]
    except (ValueError, KeyError, TypeError):  # it sets no digest, or is found to be damaged in the chain
        return None
    return sha256 if isinstance(sha256, str) and _DIGEST.fullmatch(sha256) else None


def _not_kept(folder: Path, kind: str, sha256: str) -> str:
    path = evidence.path_of(folder, kind, sha256)
    if not path.exists():
        aside = kind == "photograph" and evidence.set_aside(folder, sha256).exists()
        return "it came and cannot be shown; its bytes lie under unsuitable/" if aside else "its file is not here"
    try:
        with path.open("rb") as file:
            found = hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        return f"its file cannot be read ({error.strerror})"
    return "" if found == sha256 else f"its bytes have changed (checksum {found[:12]}…)"
