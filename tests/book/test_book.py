"""A book on disk: opened, refused, written while another writes."""

from __future__ import annotations

import json
import sqlite3
from pathlib import Path

import pytest

from fieldbook.book import tables
from fieldbook.book.book import FILE, Book
from fieldbook.book.making import NotABook
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.storage import BookDamaged, BookLocked
from fieldbook.errors import FieldbookError, UnknownItem
from fieldbook.model.kinds import KINDS
from tests.sites import Surveyed


def test_create_book_in_a_folder_with_something_in_it_is_refused(tmp_path: Path) -> None:
    """A new book never mixes with files that are there."""
    (tmp_path / "letter.txt").write_text("keep me")
    with pytest.raises(NotABook):
        create_book(tmp_path)
    assert (tmp_path / "letter.txt").read_text() == "keep me"


def test_open_book_where_there_is_none_is_refused(tmp_path: Path) -> None:
    """A folder without a book is said to have none, and nothing is made in it."""
    with pytest.raises(NotABook):
        open_book(tmp_path / "nowhere")
    assert not (tmp_path / "nowhere").exists()


def test_open_book_is_durable_and_checks_links(empty_book: Book) -> None:
    """WAL, synchronous commits and foreign keys are on."""
    found = [
        empty_book.db.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("journal_mode", "synchronous", "foreign_keys")
    ]
    assert found == ["wal", 2, 1]


def test_book_has_a_table_for_every_kind_and_no_others(empty_book: Book) -> None:
    """The tables are those of the kinds, of the projection and of the migrations, all strict."""
    own = {
        "ledger",
        "fact",
        "device",
        "one_time_code",
        "wrong_code",
        "edition",
        "_sqlite_migrations",
        "field_value",
        "conflict",
        "item",
    }
    tables = set(empty_book.db.table_names())
    assert set(KINDS) | own <= tables
    strict = {name for name in tables if empty_book.db[name].strict}
    assert tables - strict == {"_sqlite_migrations"}


def test_reopened_book_holds_what_was_written(surveyed: Surveyed) -> None:
    """What was written is there after closing and opening."""
    revision, digest = surveyed.book.revision(), surveyed.book.digest()
    surveyed.book.close()
    with open_book(surveyed.book.folder) as again:
        assert (again.revision(), again.digest()) == (revision, digest)
        assert again.item(surveyed.face)[1]["name"] == "North wall"


def test_book_whose_tables_have_another_shape_is_rebuilt_on_opening(surveyed: Surveyed) -> None:
    """When the kinds have changed since, the tables are made again from the ledger."""
    with surveyed.book.writing():
        surveyed.book.db.execute("DROP TABLE face")
        surveyed.book.set_fact("shape of the tables", "older")
    surveyed.book.close()
    with open_book(surveyed.book.folder) as again:
        assert again.item(surveyed.face)[1]["width_mm"] == 5000
        assert again.fact("shape of the tables") == tables.fingerprint()


def test_locked_book_is_said_to_be_in_use(surveyed: Surveyed) -> None:
    """While another program holds the write lock, a write is refused with words and nothing is lost."""
    other = sqlite3.connect(surveyed.book.folder / FILE, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    surveyed.book.db.execute("PRAGMA busy_timeout = 50")
    with pytest.raises(BookLocked):
        surveyed.zone()
    other.execute("ROLLBACK")
    other.close()
    assert surveyed.book.item(surveyed.zone())[0] == "zone"


def test_damaged_book_is_said_to_be_damaged(surveyed: Surveyed) -> None:
    """A file whose header is overwritten is named as damaged, with what to do."""
    surveyed.book.close()
    file = surveyed.book.folder / FILE
    content = bytearray(file.read_bytes())
    content[:100] = b"\0" * 100
    file.write_bytes(content)
    for more in ("-wal", "-shm"):
        file.with_name(FILE + more).unlink(missing_ok=True)
    with pytest.raises(BookDamaged) as refusal:
        open_book(surveyed.book.folder)
    assert "restore" in refusal.value.remedy


def test_full_disk_refuses_the_change_and_keeps_all_before_it(surveyed: Surveyed) -> None:
    """When no page more can be had, the change is refused as a full disk and the rest stands."""
    pages = surveyed.book.db.execute("PRAGMA page_count").fetchone()[0]
    surveyed.book.db.execute(f"PRAGMA max_page_count = {pages}")
    before = surveyed.book.revision()
    with pytest.raises(FieldbookError) as refusal:
        for _ in range(200):
            surveyed.zone(reason="n" * 10_000)
    assert refusal.value.code == "disk-full"
    surveyed.book.db.execute("PRAGMA max_page_count = 1000000")
    assert surveyed.book.revision() >= before
    assert surveyed.book.db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
    assert surveyed.book.item(surveyed.zone())[0] == "zone"


def test_failure_inside_writing_leaves_nothing_behind(surveyed: Surveyed) -> None:
    """All that is written in one go is taken back together when something fails."""
    before = surveyed.book.revision()
    with pytest.raises(ZeroDivisionError), surveyed.book.writing():
        surveyed.book.set_fact("half", "done")
        raise ZeroDivisionError
    assert (surveyed.book.revision(), surveyed.book.fact("half")) == (before, None)


def test_item_that_is_not_there_is_refused(empty_book: Book) -> None:
    """Asking for an unknown id says so."""
    with pytest.raises(UnknownItem) as refusal:
        empty_book.item("no such id")
    assert refusal.value.field == "item"


def test_history_of_an_item_lists_its_changes_oldest_first(surveyed: Surveyed) -> None:
    """Every change of an item can be read, with when and from which device."""
    surveyed.book.write("room", {"use": "weighing"}, item=surveyed.room)
    history = surveyed.book.history(surveyed.room)
    assert [change["set"] for change in history][1:] == [{"use": "weighing"}]
    assert {change["device"] for change in history} == {"desk"}


def test_shared_revision_of_each_former_epoch_is_where_they_parted(surveyed: Surveyed) -> None:
    """After two restorations each epoch still knows how far it and the present one are the same."""
    book, first = surveyed.book, surveyed.book.fact("epoch")
    for expected in (3, 4):
        assert book.revision() == expected
        with book.writing():
            book.begin_epoch()
        surveyed.zone()
    second = json.loads(book.fact("former epochs") or "")[1][0]
    assert [book.shared_revision(epoch) for epoch in (first, second, book.fact("epoch"), "unheard of", None)] == [
        3, 4, 5, 0, 0,
    ]  # fmt: skip
