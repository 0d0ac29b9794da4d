"""Damage made by chance: found and named, or outside what is claimed; never a trace."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book import ledger, printed
from fieldbook.book.book import FILE
from fieldbook.book.evidence import keep as keep_file
from fieldbook.book.examine import Examined, examine_folder, refuse_damaged
from fieldbook.book.left_over import clear_left_over
from fieldbook.book.making import MAKING
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.photographs import keep, original
from fieldbook.cli import main
from fieldbook.errors import Refused
from fieldbook.record.editions import Edition, issue_edition
from fieldbook.record.printing import file_of
from tests.examples import is_long
from tests.sites import picture, survey

BATCHES = 4
NOBODY = "0197b7a0-0000-7000-8000-0000000000ff"
LAST = (
    "ledger WHERE revision = 4",
    "photograph",
    "item WHERE kind = 'photograph'",
    "field_value WHERE revision = 4",
)
IN_THE_LONG_RUN = 1_000


@pytest.fixture
def whole(tmp_path: Path) -> Path:
    """A closed book with a photograph, a logger's file, a phone and an edition."""
    with create_book(tmp_path / "whole") as book:
        surveyed = survey(book)
        kept = keep(book, picture())
        about = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum", "caption": "Datum mark"}
        book.write("photograph", about | asdict(kept))
        keep_file(book.folder, "log", b"not pointed to by anything yet")
        revision, digest = book.head()
        with book.noting():
            known = ["p", "phone", "2026-05-31T14:30:00+01:00", revision, digest]
            columns = "(id, name, joined_at, known_revision, known_digest)"
            book.db.execute(f"INSERT INTO device {columns} VALUES (?, ?, ?, ?, ?)", known)
        issue_edition(book, Edition(surveyed.site, 1, revision, digest, ledger.now()))
    return tmp_path / "whole"


def meddled(folder: Path, *statements: str) -> None:
    """Alter the database as somebody would who knows how."""
    db = sqlite3.connect(folder / FILE)
    db.text_factory = bytes
    for statement in (
        "DROP TRIGGER IF EXISTS ledger_no_update",
        "DROP TRIGGER IF EXISTS ledger_no_delete",
        *statements,
    ):
        db.execute(statement)
    db.commit()
    db.close()


def flip(folder: Path, chance: random.Random) -> None:
    """One bit of one byte of any file."""
    files = [path for path in sorted(folder.rglob("*")) if path.is_file()]
    file = chance.choice(files + [folder / FILE] * 2)
    content = bytearray(file.read_bytes())
    content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
    file.write_bytes(content)


def cut(folder: Path, chance: random.Random) -> None:
    """The end of a file is gone."""
    file = chance.choice([path for path in sorted(folder.rglob("*")) if path.is_file()])
    os.truncate(file, chance.randrange(file.stat().st_size))


def drop_table(folder: Path, chance: random.Random) -> None:
    """A whole table is gone."""
    meddled(folder, f'DROP TABLE "{chance.choice(tables_of(folder))}"')


def drop_row(folder: Path, chance: random.Random) -> None:
    """What a table that is part of the record holds is gone."""
    meddled(folder, f"DELETE FROM {chance.choice(['ledger', 'room', 'item', 'face', 'photograph'])}")  # noqa: S608


def no_utf_8(folder: Path, chance: random.Random) -> None:
    """Bytes that are no text stand where text stood."""
    table = chance.choice(["ledger", "room", "site", "photograph", "edition", "device", "fact"])
    columns = {"ledger": "content", "edition": "digest", "device": "name", "fact": "value", "photograph": "caption"}
    meddled(folder, f"UPDATE {table} SET {columns.get(table, 'name')} = CAST(x'ff41fe' AS TEXT)")


def folder_for_file(folder: Path, chance: random.Random) -> None:
    """A folder stands where a file was."""
    file = chance.choice([path for path in sorted(folder.rglob("*")) if path.is_file() and path.name != FILE])
    file.unlink()
    file.mkdir()


def tables_of(folder: Path) -> list[str]:
    """The names of all tables."""
    db = sqlite3.connect(folder / FILE)
    found = [
        row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
    ]
    db.close()
    return sorted(found)


def read(folder: Path) -> Any:
    """What is claimed of a book: its entries, its items, its editions, its files; None where it cannot be opened."""
    try:
        with open_book(folder) as book:
            rows = [
                book.db.execute(f"SELECT * FROM {name} ORDER BY 1, 2").fetchall()
                for name in ("ledger", "edition", "item", "face")
            ]
            shelf = sorted(
                (path.name, path.read_bytes()) for path in (folder / "photographs").rglob("*") if path.is_file()
            )
            return rows, shelf
    except Exception:
        return None


@pytest.mark.slow
@pytest.mark.parametrize("batch", range(BATCHES))
@pytest.mark.parametrize("damage", [flip, flip, cut, drop_table, drop_row, no_utf_8, folder_for_file])
def test_damage_by_chance_is_told_or_changes_nothing_that_is_claimed(
    whole: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    damage: Callable[[Path, random.Random], None],
    batch: int,
) -> None:
    """Examining ends in words and a status, and calls no book sound that says something else than before."""
    chance, before = random.Random(f"{damage.__name__} {batch}"), read(whole)
    for _ in range(IN_THE_LONG_RUN // BATCHES if is_long() else 1):
        shutil.copytree(whole, hurt := tmp_path / "hurt")
        damage(hurt, chance)
        status = main(["examine", str(hurt)])
        said = capsys.readouterr()
        assert status in {0, 1, 2}
        assert "Traceback" not in said.out + said.err
        if status == 0:
            assert read(hurt) == before, said.out
        shutil.rmtree(hurt)


def test_shortened_ledger_is_told_by_what_was_issued_and_what_phones_know(whole: Path) -> None:
    """Taking the last entries out, with all that was made of them, leaves a chain that fits; others knew more."""
    meddled(whole, *(f"DELETE FROM {table}" for table in LAST))
    words = [damage.words for damage in seen(whole).damages]
    assert any("edition 1" in one and "ends before it" in one for one in words)
    assert any("“phone” knows revision 4" in one for one in words)


def seen(folder: Path) -> Examined:
    """What examining finds, beside the guards that whoever meddled took away."""
    found = examine_folder(folder)
    return Examined(**vars(found) | {"damages": tuple(one for one in found.damages if "guard" not in one.words)})


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE apart SET taken_out_at = '2026-05-31T14:30:00+01:00'",
        "UPDATE apart SET salt = 'x'",
        "DELETE FROM apart",
        "UPDATE edition SET made_at = 'yesterday'",
    ],
)
def test_what_stands_beside_the_ledger_is_looked_at_as_well(whole: Path, statement: str) -> None:
    """A name that only looks as if it had been taken out, one that is gone, and an edition of no day."""
    with open_book(whole) as book:
        book.write("photograph", {"taken_by": "keeper"}, book.items("photograph")[0]["id"])
    meddled(whole, statement)
    assert seen(whole).damages[0].part == "ledger"


@pytest.mark.parametrize(
    ("before", "after", "part"),
    [("caption", "captiom", "tables"), ("BEFORE DELETE", "AFTER  DELETE", "file")],
)
def test_altered_description_of_a_table_is_told(whole: Path, before: str, after: str, part: str) -> None:
    """The rows are as they were; a column has another name, or a guard no longer keeps watch."""
    content = (whole / FILE).read_bytes()
    (whole / FILE).write_bytes(content.replace(before.encode(), after.encode()))
    assert part in {damage.part for damage in examine_folder(whole).damages}


def test_altered_time_of_arrival_is_told(whole: Path) -> None:
    """When an entry came is inside its hash."""
    meddled(whole, "UPDATE ledger SET received_at = '2020-01-01T00:00:00.000+00:00' WHERE revision = 2")
    assert [damage.part for damage in seen(whole).damages] == ["ledger"]


def test_digest_on_paper_is_held_against_the_chain(whole: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The digest of a title page, spaced as it is printed there, is found; another one is not."""
    with open_book(whole) as book:
        digest = book.digest()
    printed = " ".join(digest[start : start + 8].upper() for start in range(0, 64, 8))
    assert main(["examine", str(whole), "--against", printed]) == 0
    assert main(["examine", str(whole), "--against", "f" * 64]) == 1
    assert "no entry here has the checksum ffffffffffff" in capsys.readouterr().out


def test_record_that_the_book_does_not_know_of_is_told(whole: Path) -> None:
    """A PDF of an edition that was taken out of the book still lies there."""
    with open_book(whole) as book:
        (site,) = book.items("site")
    (folder := whole / "records" / site["id"]).mkdir(parents=True)
    (folder / "edition-2.pdf").write_bytes(b"%PDF")
    assert [damage.part for damage in examine_folder(whole).damages] == ["records"]


def printed_edition(whole: Path) -> Path:
    """The record of the edition, as the desk prints one into the book."""
    with open_book(whole) as book:
        (site,) = book.items("site")
        file = file_of(book, site["id"], "1", costs=False)
        file.parent.mkdir(parents=True)
        (made := file.with_name(".record-made")).write_bytes(b"%PDF as printed")
        printed.keep(book, made, file)
    return file


@pytest.mark.parametrize(("how", "words"), [("altered", "not as it was printed"), ("gone", "is not here")])
def test_record_that_is_not_as_it_was_printed_is_told_and_not_handed_on(
    whole: Path, tmp_path: Path, how: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """An edition's PDF with other bytes, or none, is named; neither is handed over for what was issued."""
    file = printed_edition(whole)
    assert examine_folder(whole).damages == ()
    if how == "gone":
        file.unlink()
    else:
        file.write_bytes(b"%PDF another")
    (damage,) = examine_folder(whole).damages
    assert (damage.part, words in damage.words) == ("records", True)
    with open_book(whole) as book, pytest.raises(Refused):
        refuse_damaged(book, record=file)
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 1
    assert "edition-1.pdf" in capsys.readouterr().err


def test_record_printed_again_may_have_either_digest(whole: Path) -> None:
    """A later program sets an edition anew: what it had been printed as before is still what was printed."""
    file = printed_edition(whole)
    first = file.read_bytes()
    with open_book(whole) as book:
        (again := file.with_name(".record-again")).write_bytes(b"%PDF set anew")
        printed.keep(book, again, file)
    assert examine_folder(whole).damages == ()
    file.write_bytes(first)
    assert examine_folder(whole).damages == ()


def test_altered_table_is_neither_backed_up_nor_printed(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The tables are what a record is made of: they must say what the ledger says."""
    db = sqlite3.connect(whole / FILE)
    db.execute("UPDATE face SET name = 'another'")
    db.commit()
    db.close()
    with open_book(whole) as book:
        (site,) = book.items("site")
    for command in (["backup", str(whole), str(tmp_path / "made")], ["record", str(whole), site["id"], "-o"]):
        assert main([*command, *([str(tmp_path / "made")] if command[0] == "record" else [])]) == 1
        assert "the table holds what the ledger does not say" in capsys.readouterr().err
    assert not (tmp_path / "made").exists()


@pytest.mark.parametrize("device", ["desk", "phone"])
def test_lost_photograph_stops_a_backup_and_one_that_a_phone_still_has_does_not(
    whole: Path, tmp_path: Path, device: str
) -> None:
    """What was taken at the desk was here with its entry; a phone sends the bytes later."""
    with open_book(whole) as book:
        about = {name: book.items("photograph")[0][name] for name in ("site", "subject", "purpose")}
        kept = asdict(keep(book, picture(50, 40)))
        book.write("photograph", about | kept, device=device if device == "desk" else NOBODY)
        original(book, kept["sha256"]).unlink()
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == (1 if device == "desk" else 0)


def test_folder_or_link_in_place_of_a_file_stops_a_backup(whole: Path, tmp_path: Path) -> None:
    """What lies where a phone's photograph belongs is not one that has not come yet."""
    with open_book(whole) as book:
        about = {name: book.items("photograph")[0][name] for name in ("site", "subject", "purpose")}
        kept = asdict(keep(book, picture(50, 40)))
        book.write("photograph", about | kept, device=NOBODY)
        path = original(book, kept["sha256"])
    for put in (path.mkdir, lambda: path.symlink_to(tmp_path / "nowhere")):
        path.rmdir() if path.is_dir() else path.unlink()
        put()
        assert main(["backup", str(whole), str(tmp_path / "saved")]) == 1


def test_backup_is_not_written_over_one_that_knows_more(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A ledger shortened before anybody was told of its end is told by the backup that was made of it."""
    with open_book(whole) as book:
        book.write("face", {"name": "Another name"}, book.items("face")[0]["id"])
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 0
    good = (tmp_path / "saved").read_bytes()
    meddled(whole, "DELETE FROM ledger WHERE revision = 5", "UPDATE fact SET value = '' WHERE name LIKE 'shape%'")
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 1
    assert "was made from revision 5" in capsys.readouterr().err
    assert (tmp_path / "saved").read_bytes() == good


def test_backup_is_not_written_over_that_of_another_book(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whoever names the wrong file, or has another book's file in the folder, loses no backup by it."""
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 0
    create_book(tmp_path / "other").close()
    assert main(["backup", str(tmp_path / "other"), str(tmp_path / "saved")]) == 1
    assert "is a backup of another book" in capsys.readouterr().err


def test_book_whose_file_is_lost_is_not_taken_for_one_that_was_never_finished(
    whole: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """An empty folder that was left by making it once clears nothing of it."""
    (whole / MAKING).mkdir()
    (whole / FILE).unlink()
    before = sorted(whole.rglob("*"))
    assert main(["new", str(whole)]) == 2
    assert main(["examine", str(whole)]) == 1
    assert f"{FILE} is missing" in capsys.readouterr().err
    assert sorted(whole.rglob("*")) == before


def test_book_is_looked_at_before_anything_of_it_is_made_again(whole: Path) -> None:
    """Examining changes no byte of the book's file."""
    meddled(whole, "UPDATE fact SET value = 'another' WHERE name = 'shape of the tables'")
    before = (whole / FILE).read_bytes()
    assert not examine_folder(whole).compared
    assert (whole / FILE).read_bytes() == before


def test_files_that_nothing_points_to_are_listed_and_old_left_overs_cleared(whole: Path) -> None:
    """A stranger's file, an orphan and what a power cut left are named; only the last goes, and only once it is old."""
    (shelf,) = (path for path in (whole / "photographs").iterdir() if path.is_dir())
    old, fresh = shelf / ".part-old", shelf / ".part-fresh"
    for path in (old, fresh, whole / "letter.txt"):
        path.write_bytes(b"x")
    os.utime(old, (0, 0))
    listed = " ".join(examine_folder(whole).left_over)
    assert all(name in listed for name in (".part-old", ".part-fresh", "letter.txt", "logs/"))
    clear_left_over(whole)
    assert (old.exists(), fresh.exists(), (whole / "letter.txt").exists()) == (False, True, True)


@pytest.mark.parametrize("trouble", ["empty", "missing"])
def test_empty_or_missing_file_is_a_damaged_book_and_never_a_new_one(
    whole: Path, trouble: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nothing is made where a book once was, and it is said."""
    (whole / FILE).unlink()
    if trouble == "empty":
        (whole / FILE).touch()
    before = sorted(whole.rglob("*"))
    assert main(["examine", str(whole)]) == 1
    assert main(["serve", str(whole), "--no-browser", "--port", "0"]) == 1
    assert f"{FILE} is {trouble}" in capsys.readouterr().err
    assert sorted(whole.rglob("*")) == before


def test_backup_of_an_altered_photograph_is_refused_and_the_good_one_stays(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What has changed is named, the earlier backup keeps its bytes, and a copy all the same has to be asked for."""
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 0
    good = (tmp_path / "saved").read_bytes()
    with open_book(whole) as book:
        (photograph,) = book.items("photograph")
        kept = original(book, photograph["sha256"])
    kept.write_bytes(kept.read_bytes()[:-1] + b"x")
    assert main(["backup", str(whole), str(tmp_path / "saved")]) == 1
    assert photograph["sha256"] in capsys.readouterr().err
    assert (tmp_path / "saved").read_bytes() == good
    assert main(["backup", str(whole), str(tmp_path / "other"), "--as-it-is"]) == 0


def test_record_of_an_altered_photograph_is_refused_by_name(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A record vouches for what it shows, so it is not made of what has changed."""
    with open_book(whole) as book:
        (photograph,), (site,) = book.items("photograph"), book.items("site")
        kept = original(book, photograph["sha256"])
    kept.write_bytes(kept.read_bytes()[:-1] + b"x")
    assert main(["record", str(whole), site["id"], "-o", str(tmp_path / "record.pdf")]) == 1
    assert "Datum mark" in capsys.readouterr().err
    assert not (tmp_path / "record.pdf").exists()


def test_backup_with_keys_is_for_its_owner_alone_and_says_so(
    whole: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nobody else on the machine reads the keys, also where a backup without them lay, and where they are put back."""
    (whole / "keys").mkdir()
    (whole / "keys" / "authority.key").write_text("secret")
    (saved := tmp_path / "saved").touch(0o666)
    assert main(["backup", str(whole), str(saved)]) == 0
    assert "lock it away" not in capsys.readouterr().out
    assert main(["backup", str(whole), str(saved), "--with-keys"]) == 0
    assert "It holds the keys that phones trust: lock it away." in capsys.readouterr().out
    assert saved.stat().st_mode & 0o777 == 0o600
    assert main(["restore", str(saved), str(tmp_path / "again")]) == 0
    keys = tmp_path / "again" / "keys"
    assert (keys / "authority.key").read_text() == "secret"
    assert [path.stat().st_mode & 0o777 for path in (keys, keys / "authority.key")] == [0o700, 0o600]
