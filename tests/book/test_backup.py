"""A book in one file, and back; consistent while being written to."""

from __future__ import annotations

import threading
import zipfile
from dataclasses import asdict
from pathlib import Path

import pytest

from fieldbook.book.backup import LIST, UnsuitableBackup, backup, restore
from fieldbook.book.book import Book
from fieldbook.book.examine import examine
from fieldbook.book.making import NotABook
from fieldbook.book.opening import open_book
from fieldbook.book.photographs import keep, original
from tests.sites import Surveyed, picture


def test_restored_book_is_the_same_but_for_its_epoch(surveyed: Surveyed, tmp_path: Path) -> None:
    """All entries and photographs come back; the epoch is new, so that phones notice."""
    kept = keep(surveyed.book, picture())
    values = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum"}
    surveyed.book.write("photograph", values | asdict(kept))
    backup(surveyed.book, tmp_path / "book.backup")
    with restore(tmp_path / "book.backup", tmp_path / "again") as again:
        assert (again.digest(), again.fact("book")) == (surveyed.book.digest(), surveyed.book.fact("book"))
        assert again.fact("epoch") != surveyed.book.fact("epoch")
        assert original(again, kept.sha256).read_bytes() == picture()
        assert examine(again) == []


def test_backup_while_entries_arrive_is_whole(surveyed: Surveyed, tmp_path: Path) -> None:
    """A backup taken in the middle of writing holds a state that once was, and is sound."""
    stop = threading.Event()

    def write_on() -> None:
        with open_book(surveyed.book.folder) as other:
            writer = Surveyed(other, surveyed.site, surveyed.room, surveyed.face)
            while not stop.is_set():
                writer.zone()

    thread = threading.Thread(target=write_on)
    thread.start()
    try:
        while surveyed.book.revision() < 10:
            pass
        backup(surveyed.book, tmp_path / "book.backup")
        at_least = 10
    finally:
        stop.set()
        thread.join()
    with restore(tmp_path / "book.backup", tmp_path / "again") as again:
        assert at_least <= again.revision() <= surveyed.book.revision()
        assert examine(again) == []


def test_backup_leaves_keys_behind_unless_asked(surveyed: Surveyed, tmp_path: Path) -> None:
    """Keys are in a backup only when asked for."""
    keys = surveyed.book.folder / "keys"
    keys.mkdir()
    (keys / "authority.key").write_text("secret")
    backup(surveyed.book, tmp_path / "without")
    backup(surveyed.book, tmp_path / "with", with_keys=True)
    names = [zipfile.ZipFile(tmp_path / name).namelist() for name in ("without", "with")]
    assert ["keys/authority.key" in one for one in names] == [False, True]
    with restore(tmp_path / "with", tmp_path / "again"):
        assert (tmp_path / "again" / "keys" / "authority.key").stat().st_mode & 0o777 == 0o600


def test_restore_over_something_is_refused(surveyed: Surveyed, tmp_path: Path) -> None:
    """A backup never overwrites a folder."""
    backup(surveyed.book, tmp_path / "book.backup")
    with pytest.raises(NotABook):
        restore(tmp_path / "book.backup", surveyed.book.folder)


@pytest.mark.parametrize("damage", ["cut", "letter", "missing", "flipped", "stranger", "path"])
def test_restore_of_an_unsuitable_file_is_refused_and_leaves_nothing(
    surveyed: Surveyed, tmp_path: Path, damage: str
) -> None:
    """A file that is cut, altered, no backup, or reaches outside the book is refused whole."""
    file = tmp_path / "book.backup"
    backup(surveyed.book, file)
    content = file.read_bytes()
    if damage == "cut":
        file.write_bytes(content[: len(content) // 2])
    elif damage == "letter":
        file.write_text("Dear keeper")
    elif damage == "missing":
        file.unlink()
    elif damage == "flipped":
        file.write_bytes(content.replace(b'"book.sqlite": "', b'"book.sqlite": "0'))
    else:
        name = "../outside" if damage == "path" else "notes.txt"
        with zipfile.ZipFile(file, "w") as archive:
            archive.writestr(
                LIST, f'{{"format": "fieldbook-backup-1", "sha256": {{"book.sqlite": "0", "{name}": "0"}}}}'
            )
            archive.writestr(name, "x")
    with pytest.raises(UnsuitableBackup) as refusal:
        restore(file, tmp_path / "again")
    assert refusal.value.field == "file"
    assert not (tmp_path / "again").exists()
    assert not (tmp_path / "outside").exists()


def test_backup_replaces_an_older_one_only_when_whole(surveyed: Surveyed, tmp_path: Path) -> None:
    """The older backup stays until the new one is complete."""
    file = tmp_path / "book.backup"
    backup(surveyed.book, file)
    first = file.read_bytes()
    surveyed.zone()
    backup(surveyed.book, file)
    assert file.read_bytes() != first
    with restore(file, tmp_path / "again") as again:
        assert isinstance(again, Book)
        assert again.revision() == surveyed.book.revision()
