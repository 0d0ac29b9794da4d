"""A book: one folder with one SQLite file, the photographs, and what was made from them."""

from __future__ import annotations

import json
from collections.abc import Container, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from uuid import uuid4

from sqlite_utils import Database

from .. import __version__
from ..errors import FieldbookError, Refused, UnknownItem
from ..model import versions
from ..model.kinds import kind_named
from . import accepting, ledger, tables
from .accepting import EntryAnswer, Status
from .identity import uuid7
from .storage import BookReadOnly, storage_errors

FILE = "book.sqlite"
PARTS = {"keys", "photographs", "logs", "documents", "records", "arriving", "unsuitable", "copies", f"{FILE}-wal"}
DESK = "desk"
SHAPE = "shape of the tables"
MOST_NAMED = 5  # unknown things a refusal names
READ_ONLY = "read only from"  # in a copy that stands for a book which cannot be written to: where that lies
FORMER_EPOCHS = "former epochs"  # JSON: [epoch, its last revision that is still here], oldest first


class NewerBook(FieldbookError):
    """The book was made by a newer version of this program; this one reads what it knows of it and writes nothing."""

    code = "newer-book"


class Book:
    """An open book. Use it in a `with` block, or close it; one object serves one thread at a time.

    folder  where it lies
    db      its database; only `ledger`, `projection` and this class write to it
    newer   what is in it that this version does not know, in words; a book with such is only read
    """

    def __init__(self, folder: Path, db: Database):
        self.folder = folder
        self.db = db
        self.newer: tuple[str, ...] = ()

    def __enter__(self) -> Book:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file. Idempotent."""
        self.db.close()

    def newer_error(self) -> NewerBook | None:
        """Why this version can only read this book; None where it can write in it."""
        if not self.newer:
            return None
        unknown = "; ".join(self.newer[:MOST_NAMED]) + ("; …" if len(self.newer) > MOST_NAMED else "")
        return NewerBook(
            f"This book was made by a newer Fieldbook. This one ({__version__}) does not know: {unknown}.",
            "Update this program. Until then the book can be read, and nothing can be entered in it.",
            field="book",
            value=self.folder,
        )

    @property
    def is_only_read(self) -> bool:
        """Whether nothing can be entered: a newer version made it, or it lies where it cannot be written to."""
        return bool(self.newer) or self.fact(READ_ONLY) is not None

    def refuse_newer(self) -> None:
        """Raise NewerBook when this version can only read this book."""
        if error := self.newer_error():
            raise error

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Hold the write lock; all that is written inside is committed together, on disk, at the end.

        Raises NewerBook where this version could lose something of the book, BookReadOnly where it is only read.
        """
        self.refuse_newer()
        if lies := self.fact(READ_ONLY):
            reason, remedy = f"{lies} cannot be written to.", "Copy the book elsewhere and open it there."
            raise BookReadOnly(reason, remedy, field="book", value=lies)
        with self.noting():
            yield

    @contextmanager
    def noting(self) -> Iterator[None]:
        """As `writing`, for what is no part of the record: phones, codes and addresses; in a newer book too."""
        with storage_errors(self.folder / FILE):
            self.db.conn.execute("BEGIN IMMEDIATE")
            try:
                yield
                self.db.conn.commit()
            except BaseException:
                self.db.conn.rollback()
                raise

    def fact(self, name: str) -> str | None:
        """One of the book's own facts: its id (`book`), its `epoch`."""
        return fact_in(self.db, name)

    def set_fact(self, name: str, value: str) -> None:
        """Note a fact; the caller holds the write lock."""
        self.db.execute("INSERT OR REPLACE INTO fact VALUES (?, ?)", [name, value])

    def begin_epoch(self, shared: int | None = None) -> None:
        """Count on under a new epoch, as a book restored from a backup must; the caller holds the write lock.

        shared  the last revision that both epochs have in common; left out, the present one
        """
        last = self.revision() if shared is None else shared
        former = [*self._former_epochs(), [self.fact("epoch"), last]]
        self.set_fact(FORMER_EPOCHS, json.dumps(former))
        self.set_fact("epoch", str(uuid4()))
        gone = "UPDATE device SET known_revision = NULL, known_digest = NULL WHERE known_revision > ?"
        self.db.execute(gone, [last])

    def shared_revision(self, epoch: str | None) -> int:
        """The last revision that is the same in a former epoch and in this one; 0 for an epoch never heard of."""
        if epoch == self.fact("epoch"):
            return self.revision()
        former = self._former_epochs()
        places = [place for place, (name, _) in enumerate(former) if name == epoch]
        return min(last for _, last in former[places[0] :]) if places else 0

    def shared_revisions(self) -> dict[str, int]:
        """The same for every former epoch."""
        return {epoch: self.shared_revision(epoch) for epoch, _ in self._former_epochs()}

    def _former_epochs(self) -> list[list[Any]]:
        return json.loads(self.fact(FORMER_EPOCHS) or "[]")

    def append(
        self,
        sent: Iterable[Any],
        device: str | None = None,
        described: str | None = None,
        returned: Container[str] = (),
    ) -> list[EntryAnswer]:
        """Accept or refuse entries, each on its own; on disk before this returns.

        device     the one they must all come from; None for any
        described  fingerprint of the description they were made by, as `accepting.append` takes it
        returned   ids of entries of other devices among them, which the sender had pulled in a former epoch
        """
        with self.writing():
            behind: set[str] = set()
            back = returned if self._former_epochs() else ()
            return [
                accepting.append(self.db, entry, None if _id_of(entry) in back else device, behind, described)
                for entry in sent
            ]

    def write(
        self, kind: str, values: Mapping[str, Any], item: str | None = None, base: int | None = None, device: str = DESK
    ) -> str:
        """Record a new item, or a change of one, and return its id.

        base  the revision the writer had seen; left out, the present one
        Raises Refused with all findings; nothing is recorded then.
        """
        change = {"kind": kind, "item": item or uuid7(), "set": dict(values)}
        return self._one(change, base, device)

    def withdraw(self, item: str, withdraw: bool = True, base: int | None = None, device: str = DESK) -> str:
        """Take an item out of the book's present state, or bring it back; the ledger keeps it all."""
        return self._one({"kind": self.item(item)[0], "item": item, "withdraw": withdraw}, base, device)

    def _one(self, change: dict[str, Any], base: int | None, device: str) -> str:
        seen = self.revision() if base is None else base
        entry = {"id": uuid7(), "device": device, "at": ledger.now(), "base": seen} | change
        (answer,) = self.append([entry])
        if answer.status is not Status.ACCEPTED:
            raise Refused(answer.findings)
        return change["item"]

    def revision(self) -> int:
        """Number of the latest entry; 0 in an empty book."""
        return self.db.execute("SELECT coalesce(max(revision), 0) FROM ledger").fetchone()[0]

    def digest(self) -> str:
        """Hash of the latest entry, which vouches for all before it."""
        return self.head()[1]

    def head(self) -> tuple[int, str]:
        """Number and hash of the latest entry, of one moment."""
        row = self.db.execute("SELECT revision, hash FROM ledger ORDER BY revision DESC LIMIT 1").fetchone()
        return (row[0], row[1]) if row else (0, ledger.NO_HASH)

    def holds(self, revision: int, digest: str) -> bool:
        """Whether this is the hash of that revision here: then all up to it is the same."""
        return ledger.hash_at(self.db, revision) == digest

    def item(self, item: str) -> tuple[str, dict[str, Any]]:
        """Kind and values of an item, withdrawn or not; raises UnknownItem."""
        known = ledger.find(self.db, item)
        if known is None:
            raise UnknownItem(
                "There is no such item in this book.",
                "Go back to the site's page and choose again.",
                field="item",
                value=item,
            )
        return known

    def items(self, kind: str, withdrawn: bool = False) -> list[dict[str, Any]]:
        """All items of a kind in the order they were first recorded."""
        known = kind_named(kind)
        where = "" if withdrawn else f"WHERE {tables.WITHDRAWN} = 0"
        rows = self.db.query(f'SELECT * FROM "{known.name}" {where} ORDER BY id')  # noqa: S608
        return [tables.read_row(known, row) for row in rows]

    def history(self, item: str) -> list[dict[str, Any]]:
        """Every entry about an item, oldest first, in present names and words.

        What this version does not know of one stands beside, under `unknown`.
        """
        return [versions.in_present_words(entry) for entry in ledger.entries(self.db, item=item)]

    def not_known_of(self, item: str) -> list[tuple[str, str]]:
        """Names and JSON values that only a newer version knows of an item, the latest of each."""
        rows = self.db.execute("SELECT field, value FROM newer WHERE item = ? ORDER BY revision", [item]).fetchall()
        return sorted(dict(rows).items())

    def holds_newer(self) -> bool:
        """Whether something was entered that only a newer version knows, so that an answer of this one may lack it."""
        return bool(self.newer) and tables.holds_newer(self.db)

    def left_out(self) -> set[str]:
        """Items that stand in no list, drawing or finding, since only a newer version knows what they are."""
        return tables.left_out(self.db) if self.newer else set()

    def conflicts(self) -> list[dict[str, Any]]:
        """Pairs of revisions that set the same field unseen by each other and are not settled."""
        return list(self.db.query("SELECT * FROM conflict WHERE settled IS NULL ORDER BY later"))


def fact_in(db: Database, name: str) -> str | None:
    """A fact of the book in a database; None where it is not noted."""
    row = db.execute("SELECT value FROM fact WHERE name = ?", [name]).fetchone()
    return row[0] if row else None


def _id_of(entry: Any) -> str:
    given = entry.get("id") if isinstance(entry, Mapping) else None
    return given if isinstance(given, str) else ""
