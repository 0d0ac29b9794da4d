"""Steps that bring a book on disk up to this version. Append only: a released step never changes.

The kinds' tables are no concern of these steps: they are made again from the ledger whenever
the kinds have changed (see `book.py`).
"""

from __future__ import annotations

from uuid import uuid4

from sqlite_utils import Database
from sqlite_utils.migrations import Migrations

MIGRATIONS = Migrations("fieldbook")


@MIGRATIONS()
def m001_begin(db: Database) -> None:
    """The ledger that cannot be altered, the devices and their codes, the editions, the book's facts. First release."""
    db.execute(
        """
        CREATE TABLE ledger (
            revision INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, device TEXT NOT NULL, kind TEXT NOT NULL,
            item TEXT NOT NULL, content TEXT NOT NULL, received_at TEXT NOT NULL, hash TEXT NOT NULL
        ) STRICT"""
    )
    db.execute("CREATE INDEX ledger_item ON ledger (item)")
    for change in ("UPDATE", "DELETE"):
        db.execute(
            f"CREATE TRIGGER ledger_no_{change.lower()} BEFORE {change} ON ledger "
            "BEGIN SELECT RAISE(ABORT, 'the ledger is append-only'); END"
        )
    db.execute("CREATE TABLE fact (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID")
    db.execute("INSERT INTO fact VALUES ('book', ?), ('epoch', ?)", [str(uuid4()), str(uuid4())])
    db.execute(
        """
        CREATE TABLE device (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, token_digest TEXT UNIQUE, joined_at TEXT NOT NULL,
            seen_at TEXT, waiting INTEGER, shut_out_at TEXT
        ) STRICT, WITHOUT ROWID"""
    )
    db.execute(
        """
        CREATE TABLE one_time_code (
            digest TEXT PRIMARY KEY, purpose TEXT NOT NULL, expires_at REAL NOT NULL
        ) STRICT, WITHOUT ROWID"""
    )
    db.execute("CREATE TABLE wrong_code (at REAL NOT NULL) STRICT")
    db.execute(
        """
        CREATE TABLE edition (
            site TEXT NOT NULL, number INTEGER NOT NULL, revision INTEGER NOT NULL, digest TEXT NOT NULL,
            made_at TEXT NOT NULL,
            PRIMARY KEY (site, number)
        ) STRICT, WITHOUT ROWID"""
    )


@MIGRATIONS()
def m002_vouch_for_arrival(db: Database) -> None:
    """By which rule an entry's hash was taken, and how far each phone last said that it knows the chain."""
    db.execute("ALTER TABLE ledger ADD COLUMN rule INTEGER NOT NULL DEFAULT 1")
    db.execute("ALTER TABLE device ADD COLUMN known_revision INTEGER")
    db.execute("ALTER TABLE device ADD COLUMN known_digest TEXT")


@MIGRATIONS()
def m003_list_who_is_let_in(db: Database) -> None:
    """The browsers let in to the desk, and which phone a code lets join again as itself."""
    db.execute(
        """
        CREATE TABLE desk_session (
            id TEXT PRIMARY KEY, digest TEXT NOT NULL UNIQUE, browser TEXT NOT NULL, opened_at TEXT NOT NULL,
            seen_at TEXT NOT NULL
        ) STRICT, WITHOUT ROWID"""
    )
    db.execute("ALTER TABLE one_time_code ADD COLUMN device TEXT")


@MIGRATIONS()
def m004_set_people_apart(db: Database) -> None:
    """What tells who somebody is, of which the ledger only holds salted digests, so that it can be taken out."""
    db.execute(
        """
        CREATE TABLE apart (
            digest TEXT PRIMARY KEY, salt TEXT, value TEXT, taken_out_at TEXT
        ) STRICT, WITHOUT ROWID"""
    )


@MIGRATIONS()
def m005_vouch_for_records(db: Database) -> None:
    """The digest of each record that was printed into the book's folder; one printed again has several."""
    db.execute(
        """
        CREATE TABLE printed (
            file TEXT NOT NULL, sha256 TEXT NOT NULL, PRIMARY KEY (file, sha256)
        ) STRICT, WITHOUT ROWID"""
    )
