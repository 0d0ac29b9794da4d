"""Damage is found and the item named."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import pytest

from fieldbook.book.book import FILE
from fieldbook.book.evidence import keep as keep_file
from fieldbook.book.evidence import path_of
from fieldbook.book.examine import Damage, examine
from fieldbook.book.opening import open_book
from fieldbook.book.photographs import keep, original
from tests.sites import Surveyed, picture


@pytest.fixture
def photographed(surveyed: Surveyed) -> tuple[Surveyed, str]:
    """A surveyed book with one photograph of the face."""
    kept = keep(surveyed.book, picture())
    values = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum", "caption": "Datum mark"}
    return surveyed, surveyed.book.write("photograph", values | asdict(kept))


def damaged(surveyed: Surveyed, statement: str, *values: Any) -> list[Damage]:
    """What examining finds after somebody has meddled with the database."""
    db = surveyed.book.db
    db.execute("DROP TRIGGER ledger_no_update")
    db.execute("DROP TRIGGER ledger_no_delete")
    db.execute(statement, list(values))
    db.conn.commit()
    found = examine(surveyed.book)
    guards = [one for one in found if "guard" in one.words]
    assert len(guards) == 2
    return [one for one in found if one not in guards]


def test_sound_book_has_no_findings(photographed: tuple[Surveyed, str]) -> None:
    """A book nobody has meddled with is sound."""
    assert examine(photographed[0].book) == []


def test_flipped_bit_in_a_photograph_is_found_and_named(photographed: tuple[Surveyed, str]) -> None:
    """One changed bit in a photograph is found, and the photograph is named."""
    surveyed, photograph = photographed
    path = original(surveyed.book, surveyed.book.item(photograph)[1]["sha256"])
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)
    (found,) = examine(surveyed.book)
    assert (found.part, found.item) == ("photographs", photograph)
    assert "Datum mark" in found.words


def test_lost_photograph_is_found_and_named(photographed: tuple[Surveyed, str]) -> None:
    """A photograph whose file is gone is named."""
    surveyed, photograph = photographed
    original(surveyed.book, surveyed.book.item(photograph)[1]["sha256"]).unlink()
    assert [(found.part, found.item) for found in examine(surveyed.book)] == [("photographs", photograph)]


def test_altered_ledger_content_is_found_and_named(surveyed: Surveyed) -> None:
    """A changed entry no longer fits its hash, and the item it is about is named."""
    statement = "UPDATE ledger SET content = replace(content, 'North wall', 'South wall') WHERE item = ?"
    found = damaged(surveyed, statement, surveyed.face)
    assert ("ledger", surveyed.face) in {(one.part, one.item) for one in found}
    assert "North wall" in next(one for one in found if one.part == "ledger").words


def test_entry_with_a_hash_made_to_fit_breaks_the_chain_after_it(surveyed: Surveyed) -> None:
    """Whoever alters an entry and its hash still breaks the next entry's hash."""
    surveyed.zone()
    found = damaged(surveyed, "UPDATE ledger SET hash = ? WHERE revision = 3", "f" * 64)
    assert [one.part for one in found] == ["ledger", "ledger"]


def test_deleted_entry_is_found(surveyed: Surveyed) -> None:
    """A missing revision is named."""
    surveyed.zone()
    found = damaged(surveyed, "DELETE FROM ledger WHERE revision = 3")
    assert any("revision 3 is missing" in one.words for one in found)


@pytest.mark.parametrize("column", ["device", "item", "kind"])
def test_altered_ledger_column_is_found(surveyed: Surveyed, column: str) -> None:
    """The columns beside an entry's content must agree with it."""
    value = {"device": "other", "item": surveyed.site, "kind": "visit"}[column]
    found = damaged(surveyed, f"UPDATE ledger SET {column} = ? WHERE revision = 3", value)
    assert any(one.part == "ledger" for one in found)


def test_altered_table_is_found_and_the_item_named(surveyed: Surveyed) -> None:
    """A table that says other than the ledger is found from both sides."""
    surveyed.book.db.execute("UPDATE face SET width_mm = 4000 WHERE id = ?", [surveyed.face])
    surveyed.book.db.conn.commit()
    found = examine(surveyed.book)
    assert {(one.part, one.item) for one in found} == {("tables", surveyed.face)}
    assert len(found) == 2


def test_ledger_content_that_is_no_json_is_found(surveyed: Surveyed) -> None:
    """An entry that can no longer be read is a finding, not a crash."""
    found = damaged(surveyed, "UPDATE ledger SET content = 'x' WHERE revision = 3")
    assert {one.part for one in found} == {"ledger", "tables"}


def test_overwritten_page_of_the_file_is_found(surveyed: Surveyed) -> None:
    """A page overwritten behind SQLite's back is found."""
    for _ in range(60):
        surveyed.zone(reason="n" * 900)
    surveyed.book.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    surveyed.book.close()
    file = surveyed.book.folder / FILE
    content = bytearray(file.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\xff" * 4096
    file.write_bytes(content)
    with open_book(surveyed.book.folder) as again:
        assert examine(again)


def test_flipped_bit_in_a_loggers_file_is_found_and_named(surveyed: Surveyed) -> None:
    """A logger's file is evidence like a photograph."""
    sha256 = keep_file(surveyed.book.folder, "log", b"time;RH\n2026-01-01;50\n")
    columns = {"time_column": "time", "humidity_column": "RH"}
    log = surveyed.book.write("log", {"room": surveyed.room, "name": "by the door", "sha256": sha256} | columns)
    assert examine(surveyed.book) == []
    path_of(surveyed.book.folder, "log", sha256).write_bytes(b"time;RH\n2026-01-01;51\n")
    assert [(found.part, found.item) for found in examine(surveyed.book)] == [("logs", log)]
