"""A person is taken out of a book, and what stays is still provable."""

from __future__ import annotations

import hashlib
import json
import zipfile
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book import apart, forgetting, photographs
from fieldbook.book.accepting import Status
from fieldbook.book.apart import TAKEN_OUT
from fieldbook.book.backup import backup, restore
from fieldbook.book.examine import examine
from fieldbook.book.identity import uuid7
from fieldbook.book.opening import open_book
from fieldbook.cli import main
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from fieldbook.phones import pieces, taken_out
from tests.books.frozen import VERSIONS, ids_by_kind, unpacked
from tests.sites import Surveyed, picture

NAME = "A. Nother"
GIVEN_BY = f"{NAME}, keeper of the shed"
STROKE = [[0, 12345, 1], [1, 2, 1]]
Signed = tuple[Surveyed, dict[str, Any]]


@pytest.fixture
def signed(surveyed: Surveyed) -> Signed:
    """A book with an agreement, and the entry it was made by: given by somebody, signed."""
    values = {"site": surveyed.site, "reference": "A1", "answer": "yes", "words": "As drawn", "said_by": GIVEN_BY}
    values |= {"on": "2026-05-01", "items": [surveyed.face], "signature": STROKE}
    entry = {"id": uuid7(), "device": "desk", "at": "2026-05-31T14:30:00+01:00", "kind": "agreement", "base": 3}
    entry |= {"item": uuid7(), "set": values}
    (answer,) = surveyed.book.append([entry])
    assert answer.status is Status.ACCEPTED, answer.findings
    return surveyed, entry


def photographed(surveyed: Surveyed) -> tuple[str, str]:
    """A photograph of the face, with a smaller copy: its item and digest."""
    kept = photographs.keep(surveyed.book, picture())
    about = {"site": surveyed.site, "subject": surveyed.face, "purpose": "datum"}
    item = surveyed.book.write("photograph", about | asdict(kept))
    photographs.small_copy(surveyed.book, kept.sha256, 320)
    return item, kept.sha256


def forget(surveyed: Surveyed) -> bool:
    """Take the name out wherever it stands."""
    return forgetting.take_out(surveyed.book, forgetting.places_of(surveyed.book, NAME))


def bytes_below(folder: Path) -> bytes:
    """All bytes of all files below a folder."""
    return b"".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())


def test_name_and_signature_go_and_chain_and_entry_stay(signed: Signed) -> None:
    """Nothing of them is left in the folder; revision, hash and fact are as they were, and the book is sound."""
    surveyed, entry = signed
    book, head = surveyed.book, surveyed.book.head()
    assert (book.item(entry["item"])[1]["said_by"], examine(book)) == (GIVEN_BY, [])
    assert NAME.encode() in bytes_below(book.folder)
    places = forgetting.places_of(book, f"  {NAME.upper()} ")
    assert {place.field for place in places} == {"said_by", "signature"}
    assert forgetting.take_out(book, places)
    values = book.item(entry["item"])[1]
    assert (values["said_by"], values["signature"], values["answer"]) == (TAKEN_OUT, None, "yes")
    assert (book.head(), examine(book)) == (head, [])
    assert NAME.encode() not in bytes_below(book.folder)
    assert b"12345" not in bytes_below(book.folder)
    assert [one["set"]["said_by"] for one in book.history(entry["item"])] == [TAKEN_OUT]


def test_backup_of_after_holds_no_trace_and_is_restored_sound(signed: Signed, tmp_path: Path) -> None:
    """A backup made afterwards holds neither name nor picture, unpacked or not, and gives a sound book."""
    surveyed, _ = signed
    item, sha256 = photographed(surveyed)
    forget(surveyed)
    place = forgetting.file_of(surveyed.book, item)
    assert place
    forgetting.take_out(surveyed.book, [place])
    backup(surveyed.book, tmp_path / "after")
    with zipfile.ZipFile(tmp_path / "after") as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    assert not [name for name, content in parts.items() if NAME.encode() in content or sha256 in name]
    with restore(tmp_path / "after", tmp_path / "again") as again:
        assert examine(again) == []
        assert again.digest() == surveyed.book.digest()


def test_record_that_may_show_it_goes_and_its_edition_stays(signed: Signed) -> None:
    """The file of an edition made since goes; number, revision and digest can still be proved; an earlier one stays."""
    surveyed, _ = signed
    book = surveyed.book
    folder = book.folder / "records" / surveyed.site
    folder.mkdir(parents=True)
    issued = {1: (3, book.db.execute("SELECT hash FROM ledger WHERE revision = 3").fetchone()[0]), 12: book.head()}
    with book.writing():
        for number, (revision, digest) in issued.items():
            row = [surveyed.site, number, revision, digest, "2026-05-31T14:30:00+01:00"]
            book.db.execute("INSERT INTO edition (site, number, revision, digest, made_at) VALUES (?, ?, ?, ?, ?)", row)
    for name in ("edition-1.pdf", "edition-12.pdf", "edition-12-with-costs.pdf"):
        (folder / name).write_bytes(b"%PDF")
    forget(surveyed)
    assert [path.name for path in folder.iterdir()] == ["edition-1.pdf"]
    assert examine(book) == []
    assert book.db.execute("SELECT count(*) FROM edition").fetchone()[0] == 2


def test_entry_is_known_again_before_and_after(signed: Signed) -> None:
    """A phone that sends it once more is answered as before; another content under its id is refused."""
    surveyed, entry = signed
    other = {**entry, "set": {**entry["set"], "answer": "no"}}
    for _ in range(2):
        answers = surveyed.book.append([entry, other])
        assert [answer.status for answer in answers] == [Status.REPEATED, Status.REFUSED]
        forget(surveyed)


def test_item_can_be_changed_after_a_name_of_it_is_gone(signed: Signed) -> None:
    """Nobody is asked again for what was taken out."""
    surveyed, entry = signed
    forget(surveyed)
    surveyed.book.write("agreement", {"words": "As built"}, entry["item"])
    assert surveyed.book.item(entry["item"])[1]["said_by"] == TAKEN_OUT


def test_name_in_a_row_goes_and_what_was_looked_for_stays(surveyed: Surveyed) -> None:
    """Who looked stands apart by itself, so that how and when stay."""
    rows = [["services in the wall", NAME, "with a detector", "2026-05-04"]]
    surveyed.book.write("room", {"looked_for": rows}, item=surveyed.room)
    assert surveyed.book.item(surveyed.room)[1]["looked_for"] == rows
    forget(surveyed)
    assert surveyed.book.item(surveyed.room)[1]["looked_for"] == [
        ["services in the wall", TAKEN_OUT, "with a detector", "2026-05-04"]
    ]
    assert NAME.encode() not in bytes_below(surveyed.book.folder)


def test_name_in_a_note_is_told_and_stays(surveyed: Surveyed) -> None:
    """What is part of the entry itself cannot go, and nobody is told that it did; part of a longer name is no match."""
    surveyed.book.write("room", {"conditions": f"ask {NAME} for the key"}, item=surveyed.room)
    (place,) = forgetting.places_of(surveyed.book, NAME)
    assert (place.field, place.digest) == ("conditions", "")
    assert forgetting.places_of(surveyed.book, "Nothe") == []
    forgetting.take_out(surveyed.book, [place])
    assert examine(surveyed.book) == []


def test_digest_stands_in_the_ledger_by_the_published_rule(signed: Signed) -> None:
    """SHA-256 over salt and value, each on its line, as DEVELOPERS.md says."""
    surveyed, entry = signed
    row = surveyed.book.db.execute("SELECT content FROM ledger WHERE id = ?", [entry["id"]]).fetchone()
    digest = json.loads(row[0])["set"]["said_by"]["apart"]
    salt, value = surveyed.book.db.execute("SELECT salt, value FROM apart WHERE digest = ?", [digest]).fetchone()
    assert json.loads(value) == GIVEN_BY
    assert len(salt) == 32
    assert hashlib.sha256(f"{salt}\n{value}".encode()).hexdigest() == digest


@pytest.mark.parametrize("change", ["UPDATE apart SET value = '\"Somebody\"'", "DELETE FROM apart"])
def test_altered_or_lost_name_is_told(signed: Signed, change: str) -> None:
    """What stands apart is held against its digest, and nobody takes it out unseen."""
    surveyed, entry = signed
    surveyed.book.db.execute(change)
    surveyed.book.db.conn.commit()
    found = [damage for damage in examine(surveyed.book) if damage.part == "ledger"]
    assert entry["item"] in {damage.item for damage in found}


def test_photograph_goes_and_is_asked_of_no_phone_again(surveyed: Surveyed) -> None:
    """Its bytes and every copy are gone; its entry stays, the book is sound, and a phone counts it as sent."""
    book = surveyed.book
    item, sha256 = photographed(surveyed)
    place = forgetting.file_of(book, item)
    assert place
    forgetting.take_out(book, [place])
    assert list(book.folder.rglob(f"{sha256}*")) == []
    assert examine(book) == []
    assert pieces.progress(book, uuid7(), sha256).complete
    assert photographs.is_looked_at(book, sha256)
    assert taken_out.taken_out(book).files == [sha256]


def test_what_was_taken_out_has_a_state_of_its_own(signed: Signed) -> None:
    """Phones see by one short text that more was taken out than they know."""
    surveyed, _ = signed
    assert taken_out.state(surveyed.book) == apart.NOTHING_TAKEN_OUT
    forget(surveyed)
    first = taken_out.state(surveyed.book)
    place = forgetting.file_of(surveyed.book, photographed(surveyed)[0])
    assert place
    forgetting.take_out(surveyed.book, [place])
    assert len({apart.NOTHING_TAKEN_OUT, first, taken_out.state(surveyed.book)}) == 3


def test_command_tells_before_it_does(signed: Signed, capsys: pytest.CaptureFixture[str]) -> None:
    """Without a yes nothing goes; a name that stands nowhere is said; where somebody reads the book, that is said."""
    surveyed, entry = signed
    folder = str(surveyed.book.folder)
    assert main(["forget", folder, NAME]) == 0
    assert "Nothing was taken out" in capsys.readouterr().out
    assert surveyed.book.item(entry["item"])[1]["said_by"] == GIVEN_BY
    assert main(["forget", folder, "Nobody"]) == 1
    with surveyed.book.db.atomic():
        surveyed.book.revision()
        assert main(["forget", folder, NAME, "--yes"]) == 1
        assert "stop its server" in capsys.readouterr().out
    assert main(["forget", folder, NAME, "--yes"]) == 0
    assert surveyed.book.item(entry["item"])[1]["said_by"] == TAKEN_OUT


def test_what_came_before_names_stood_apart_is_told_to_stay(tmp_path: Path) -> None:
    """An old book's entries keep their form, and nobody is told otherwise."""
    folder = unpacked(VERSIONS[0], tmp_path / "old")
    with open_book(folder) as book:
        name = book.item(ids_by_kind(VERSIONS[0])["agreement"])[1]["said_by"]
        places = forgetting.places_of(book, name)
        assert places
        assert not any(place.digest for place in places)


def test_signature_of_another_under_the_same_statement_stays(surveyed: Surveyed) -> None:
    """Of two who signed, one is taken out with the name and stroke that are theirs."""
    values = {"site": surveyed.site, "reference": "L1", "items": [surveyed.fitting()], "on": "2026-05-01"}
    values |= {"fitter": "the joiner", "keeper": NAME, "fitter_signature": [[0, 777, 1]], "signature": STROKE}
    item = surveyed.book.write("statement", values)
    forget(surveyed)
    left = surveyed.book.item(item)[1]
    assert (left["keeper"], left["signature"]) == (TAKEN_OUT, None)
    assert (left["fitter"], left["fitter_signature"]) == ("the joiner", [[0, 777, 1]])


def test_every_field_for_a_signature_says_whose_it_is() -> None:
    """None is forgotten in the list of those who sign."""
    drawn = {
        field.name for kind in KINDS.values() for field in kind.fields if field.type is Type.ROWS and field.personal
    }
    assert drawn == set(forgetting.SIGNED_BY)
