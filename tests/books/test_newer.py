"""A book that a newer version made: it says so, is read with what is known, and takes no entry."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book import ledger
from fieldbook.book.backup import backup, restore
from fieldbook.book.book import FILE, Book, NewerBook
from fieldbook.book.examine import examine
from fieldbook.book.gathering import gather
from fieldbook.book.opening import open_book
from fieldbook.checks.verdict import Word
from fieldbook.cli import main
from fieldbook.findings import Finding, appraise
from fieldbook.findings.at_point import answer
from fieldbook.model.fields import Type
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes, devices
from fieldbook.record.compile import compile_record
from fieldbook.record.editions import editions
from fieldbook.web import create_app
from tests.books.frozen import ids_by_kind, unpacked
from tests.books.newer import from_a_newer_version
from tests.sites import Surveyed
from tests.sync.conftest import Phone
from tests.web.conftest import Desk

pytestmark = pytest.mark.slow  # opens, rebuilds and prints whole books

IDS = ids_by_kind("0.1.0")
PLACES = iter(range(1, 10_000))


def entry(kind: str, item: str, **values: Any) -> dict[str, Any]:
    """An entry a newer version made."""
    return {"id": f"0197b7a0-0000-7000-8000-{next(PLACES):012x}", "kind": kind, "item": item, "set": values}


NEW_ITEM = "0197b7a0-0000-7000-8000-0000000000bb"
CASES = {
    "kind": (entry("survey flight", NEW_ITEM, name="from above"), "entries of the kind “survey flight”"),
    "field": (entry("fixing", IDS["fixing"], hum_db=31), "Fixing: hum_db"),
    "word": (entry("fixing", IDS["fixing"], sort="expanding collar"), "Fixing: a value of “Type”"),
    "words": (entry("zone", IDS["zone"], forbids=["contact", "breath"]), "Keep-off zone: a value of “Forbidden here”"),
    "column": (entry("face", IDS["face"], layers=[["lime", 20, "old", "wet"]]), "Face: a value of “Made of”"),
    "type": (entry("fixing", IDS["fixing"], size={"thread": 6}), "Fixing: a value of “Size”"),
    "entry": (entry("room", IDS["room"], use="store") | {"because": "moved"}, "Room: because"),
}  # fmt: skip


@pytest.fixture(params=CASES)
def case(request: pytest.FixtureRequest) -> str:
    """Each thing that this version may not know."""
    return request.param


@pytest.fixture
def folder(case: str, tmp_path: Path) -> Path:
    """A book in which a newer version has entered such a thing."""
    return from_a_newer_version(unpacked("0.1.0", tmp_path / "newer"), [CASES[case][0]])


@pytest.fixture
def stepped(tmp_path: Path) -> Path:
    """A book that went through a step of a newer version."""
    folder = unpacked("0.1.0", tmp_path / "stepped")
    connection = sqlite3.connect(folder / FILE)
    connection.execute(
        "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('fieldbook', 'm999', '')"
    )
    connection.commit()
    connection.close()
    return folder


@pytest.fixture
def book(folder: Path) -> Iterator[Book]:
    """The same, open."""
    with open_book(folder) as opened:
        yield opened


def test_newer_book_says_what_is_not_known(book: Book, case: str) -> None:
    """It names the kind, the field or the word in plain words, and that a newer Fieldbook made it."""
    assert len(book.newer) == 1
    assert book.newer[0].startswith(CASES[case][1])
    error = book.newer_error()
    assert error is not None
    assert "newer Fieldbook" in error.reason
    assert CASES[case][1] in error.reason


def test_newer_book_shows_what_is_known(book: Book, case: str) -> None:
    """What this version knows reads as ever; where the value is not known, there is none."""
    values = book.item(IDS["fixing"])[1]
    assert values["mark"] == "D1.1"
    if case == "word":
        assert values["sort"] is None
    if case == "words":
        assert book.item(IDS["zone"])[1]["forbids"] == ["contact"]
    if case == "column":
        assert book.item(IDS["face"])[1]["layers"] == [["lime", 20, "old"]]
    if case == "entry":
        assert book.item(IDS["room"])[1]["use"] == "store"


FINE = {Word.CLOSE, Word.WITHIN, Word.AGREED}


def test_nothing_is_called_fine_beside_what_only_a_newer_version_knows(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """No finding is close, within or agreed, and the record and the command line say the same; without it some are."""
    words = {one.word for one in _appraised(unpacked("0.1.0", tmp_path / "as it was"))}
    assert words & FINE
    found = _appraised(folder)
    assert not {one.word for one in found} & FINE
    capped = [one for one in found if "newer Fieldbook" in one.verdict.sentence]
    assert {one.word for one in capped} == {Word.NOT_KNOWN}
    assert all(one.left_out[-1].startswith("Without it: ") for one in capped)
    with open_book(folder) as book:
        record = compile_record(book, IDS["site"])
    assert not any(record.counts[word] for word in FINE)
    assert main(["check", str(folder), "Customs shed"]) == 1
    assert "Bring this one up to date" in capsys.readouterr().out


def _appraised(folder: Path) -> list[Finding]:
    with open_book(folder) as book:
        return appraise(gather(book, IDS["site"]))


@pytest.mark.parametrize("beyond", [False, True])
def test_may_i_here_is_not_known_beside_what_only_a_newer_version_knows(beyond: bool, surveyed: Surveyed) -> None:
    """Later work that was looked at has nothing against it, unless this version cannot know that."""
    surveyed.looked()
    surveyed.book.write("face", {"layers": [["brick", 103, "later"]]}, item=surveyed.face)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    site = gather(surveyed.book, surveyed.site)
    site.beyond = beyond
    words = {one.answer for one in answer(site, site[surveyed.face], 500, 500, 5).acts}
    assert words == {"not known" if beyond else "nothing against it"}


def test_newer_book_takes_no_entry(book: Book) -> None:
    """Neither a change nor a withdrawal goes in, and the ledger is as it was."""
    before = book.digest()
    with pytest.raises(NewerBook):
        book.write("room", {"use": "weighing"}, IDS["room"])
    with pytest.raises(NewerBook):
        book.withdraw(IDS["zone"])
    assert book.digest() == before


def test_newer_book_is_examined_and_found_sound(book: Book) -> None:
    """That an older version does not know something is no damage."""
    assert examine(book) == []


def test_newer_book_is_backed_up_whole(folder: Path, tmp_path: Path) -> None:
    """Every file it keeps is in the backup, those of kinds not known here too; nothing of the ledger is missing."""
    sketch = folder / "sketches" / "ab" / ("ab" * 32)
    sketch.parent.mkdir(parents=True)
    sketch.write_bytes(b"drawn")
    with open_book(folder) as book:
        backup(book, tmp_path / "book.backup")
        digest = book.digest()
    with pytest.raises(NewerBook):
        restore(tmp_path / "book.backup", tmp_path / "again")
    assert not (tmp_path / "again").exists()
    restored = _as_a_newer_version_restores(tmp_path)
    assert (restored / sketch.relative_to(folder)).read_bytes() == b"drawn"
    with open_book(restored) as again:
        assert again.digest() == digest


def _as_a_newer_version_restores(tmp_path: Path) -> Path:
    from fieldbook.book.backup import _unpack

    _unpack(tmp_path / "book.backup", tmp_path / "by hand")
    return tmp_path / "by hand"


def test_book_with_a_step_of_a_newer_version_is_read(stepped: Path) -> None:
    """A step that is not known here makes a newer book too; its ledger stays as it is."""
    with open_book(stepped) as book:
        assert book.newer == ("its step m999",)
        assert book.item(IDS["face"])[1]["name"] == "North wall"
        with pytest.raises(NewerBook):
            book.write("room", {"use": "weighing"}, IDS["room"])
        assert examine(book) == []


COMMANDS = {
    "examine": ("BOOK",),
    "backup": ("BOOK", "OUT"),
    "record": ("BOOK", "Customs shed", "-o", "OUT"),
    "check": ("BOOK", "Customs shed"),
    "enter": ("BOOK", "LINES"),
}


@pytest.mark.parametrize(
    ("command", "status"), [("examine", 0), ("backup", 0), ("record", 0), ("check", 1), ("enter", 1)]
)
def test_command_on_a_newer_book_says_so(
    tmp_path: Path, command: str, status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    """Reading commands do their work and say that a newer Fieldbook made the book; entering is refused."""
    folder = from_a_newer_version(unpacked("0.1.0", tmp_path / "newer"), [case[0] for case in CASES.values()])
    lines = tmp_path / "lines.jsonl"
    lines.write_text(json.dumps({"kind": "site", "item": "mill", "set": {"name": "Tide mill"}}))
    given = {"BOOK": str(folder), "OUT": str(tmp_path / "out"), "LINES": str(lines)}
    assert main([command, *(given.get(word, word) for word in COMMANDS[command])]) == status
    said = capsys.readouterr()
    assert "made by a newer Fieldbook" in said.err
    assert f"fieldbook {command}" not in said.err
    if command == "record":
        assert (tmp_path / "out").read_bytes().startswith(b"%PDF")
        with open_book(folder) as book:
            assert [edition.number for edition in editions(book, IDS["site"])] == [1]


@pytest.mark.parametrize("command", ["serve", *COMMANDS])
@pytest.mark.parametrize("state", ["missing", "damaged", "cut short"])
def test_no_remedy_names_the_command_that_failed(
    tmp_path: Path, state: str, command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whoever is told that a book cannot be opened is not sent back to what has just failed."""
    folder = tmp_path / "book"
    if state != "missing":
        file = unpacked("0.1.0", folder) / FILE
        content = file.read_bytes()
        file.write_bytes(b"\0" * 100 + content[100:] if state == "damaged" else content[: len(content) // 8])
    given = {"BOOK": str(folder), "OUT": str(tmp_path / "out"), "LINES": str(tmp_path / "lines")}
    (tmp_path / "lines").write_text("{}")
    words = COMMANDS.get(command, ("BOOK",))
    assert main([command, *(given.get(word, word) for word in words)]) != 0
    said = capsys.readouterr().err + capsys.readouterr().out
    assert said.count("fieldbook:") <= 1
    assert f"fieldbook {command}" not in said
    assert f": {command}" not in said


def test_desk_shows_a_banner_and_refuses_to_write(folder: Path) -> None:
    """Every page of a newer book says so; a form that is sent comes back with the reason, and nothing is entered."""
    desk = Desk(create_app(folder, access="open"))
    with desk.client:
        for item in IDS.values():
            answer = desk.get(f"/item/{item}", follow_redirects=True)
            assert answer.status_code == 200
            assert "Made by a newer Fieldbook." in answer.text
        refused = desk.changed(IDS["finish"], coats="4")
        assert refused.status_code == 422
        assert "newer Fieldbook" in refused.text
        assert desk.post(f"/item/{IDS['zone']}/withdraw", page=f"/item/{IDS['zone']}").status_code == 409
        assert desk.post(f"/site/{IDS['site']}/record", page=f"/site/{IDS['site']}/record").status_code == 409


def test_item_page_shows_what_only_a_newer_version_knows(tmp_path: Path) -> None:
    """A field that is not known here stands on the page as it was written, and in the history."""
    folder = from_a_newer_version(unpacked("0.1.0", tmp_path / "newer"), [CASES["field"][0]])
    desk = Desk(create_app(folder, access="open"))
    with desk.client:
        page = desk.get(f"/item/{IDS['fixing']}").text
        assert "From a newer Fieldbook" in page
        assert "hum_db" in page
        assert "hum_db (a newer Fieldbook" in desk.get(f"/item/{IDS['fixing']}/history").text


def test_s15_newer_book_answers_phones_so_that_they_keep_everything(folder: Path) -> None:
    """Sending is answered 409 `newer-book`; joining, asking and pulling go on."""
    app = create_app(folder)
    with open_book(folder) as book:
        joined = devices.join(book, codes.new_join_code(book), "second phone")
        phone = Phone(app.test_client(), book, joined.device, joined.token)
        made = {"device": phone.device, "at": "2026-06-01T08:00:00+01:00", "base": 0, "kind": "room"}
        answer = phone.send(
            made | {"id": "0197b7a0-0000-7000-8000-00000000ee01", "item": IDS["room"], "set": {"use": "x"}}
        )
        assert (answer.status_code, answer.get_json()["error"]) == (409, "newer-book")
        pulled = phone.ask("GET", "entries?since=0").get_json()["entries"]
        assert [one["revision"] for one in pulled] == list(range(1, book.revision() + 1))
        assert app.test_client().get("/phone/hello").status_code == 200


@pytest.mark.parametrize("needed", [False, True])
def test_words_that_are_not_known_break_no_page(tmp_path: Path, needed: bool) -> None:
    """Where words are not known, all pages and the record are made of the rest; what needs one is named as left out."""
    entries = [
        entry(kind.name, IDS[kind.name], **{field.name: "of a newer version" for field in words})
        for kind in KINDS.values()
        if kind.name in IDS
        and (words := [field for field in kind.fields if field.type is Type.CHOICE and field.required == needed])
    ]
    folder = from_a_newer_version(unpacked("0.1.0", tmp_path / "newer"), entries)
    desk = Desk(create_app(folder, access="open"))
    with desk.client:
        for item in IDS.values():
            for part in ("", "/history", "/change"):
                answer = desk.get(f"/item/{item}{part}", follow_redirects=True)
                assert answer.status_code == 200
                assert ("In no list and no drawing here" in answer.text) == needed
        for part in ("", "/findings", "/record"):
            assert desk.get(f"/site/{IDS['site']}{part}").status_code == 200
    with open_book(folder) as book:
        record = compile_record(book, IDS["site"])
        assert bool(record.rooms) is True
        assert bool(record.sheets) is not needed


def test_ledger_of_a_newer_book_is_pulled_as_it_was_written(folder: Path, case: str) -> None:
    """A phone that knows more gets all of it."""
    with open_book(folder) as book:
        assert list(ledger.entries(book.db))[-1].items() >= CASES[case][0].items()
