"""Entries from a file: all of it or nothing, each refusal with its line and field."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book import entry_lines, evidence
from fieldbook.book.book import Book
from fieldbook.book.entering import Entered, enter
from fieldbook.book.examine import examine
from fieldbook.errors import FieldbookError, Refused
from tests.sites import SQUARE, Surveyed, picture

SITE = {"kind": "site", "item": "shed", "set": {"name": "Salt store"}}
ROOM = {"kind": "room", "item": "loft", "set": {"site": "shed", "name": "Loft", "mark": "R1"}}
FACE = {
    "kind": "face",
    "item": "gable",
    "set": {"room": "loft", "name": "Gable", "sort": "wall", "width_mm": 4100, "height_mm": 2600},
}
PHOTOGRAPH = {"kind": "photograph", "item": "p", "set": {"site": "shed", "subject": "gable", "purpose": "as found"}}
LOG = {
    "kind": "log",
    "item": "logger",
    "set": {"room": "loft", "name": "By the hatch", "time_column": "when", "humidity_column": "RH"},
}
ZONE = {
    "face": "gable",
    "name": "Old paint",
    "outline": SQUARE,
    "forbids": ["contact"],
    "margin_mm": 20,
    "reason": "old",
}
READINGS = b"when,RH\n2026-01-02 10:00,54\n2026-01-02 11:00,55.5\n"


def entered(book: Book, lines: Iterable[Any], folder: Path = Path()) -> Entered:
    """Enter lines given as objects, or as the bytes that stand in the file."""
    written = [line if isinstance(line, bytes) else json.dumps(line).encode() for line in lines]
    return enter(book, entry_lines.read(BytesIO(b"\n".join(written))), folder)


def refusals(book: Book, lines: Iterable[Any], folder: Path = Path()) -> list[FieldbookError]:
    """What is found wrong, after making sure that the book and its folder are as they were."""
    before, files = book.digest(), sorted(book.folder.rglob("*"))
    with pytest.raises(Refused) as refused:
        entered(book, lines, folder)
    assert (book.digest(), sorted(book.folder.rglob("*"))) == (before, files)
    return refused.value.findings


def test_names_become_items_that_link_to_one_another(empty_book: Book) -> None:
    """Each name is one item, whose id is told; a later line about it changes it, and blank lines are nothing."""
    change = {"kind": "room", "item": "loft", "set": {"use": "sails"}}
    found = entered(empty_book, [SITE, b"", ROOM, FACE, change])
    assert list(found.ids) == ["shed", "loft", "gable"]
    (room,) = empty_book.items("room")
    (face,) = empty_book.items("face")
    assert (room["site"], room["use"], face["room"]) == (found.ids["shed"], "sails", found.ids["loft"])
    assert (empty_book.revision(), found.warnings, empty_book.conflicts()) == (4, [], [])


def test_ids_of_the_book_are_linked_to_changed_and_withdrawn(surveyed: Surveyed) -> None:
    """What is in the book already is named by its id."""
    book, rail = surveyed.book, surveyed.fitting()
    task = {"kind": "task", "item": "dust", "set": {"site": surveyed.site, "what": "Dust it", "fitting": rail}}
    lines = [task, {"kind": "fitting", "item": rail, "set": {"name": "Upper rail"}}]
    lines += [{"kind": "room", "item": surveyed.room, "withdraw": True}]
    assert list(entered(book, lines).ids) == ["dust"]
    assert [one["name"] for one in book.items("fitting")] == ["Upper rail"]
    assert book.items("task")[0]["fitting"] == rail
    assert book.items("room") == []


def test_names_inside_a_list_of_links_are_ids_in_the_book(surveyed: Surveyed) -> None:
    """An agreement may be about names and ids in one list."""
    finish = {"kind": "finish", "item": "grey", "set": {"site": surveyed.site, "name": "Grey", "sort": "oil paint"}}
    words = {"reference": "A1", "answer": "yes", "words": "as drawn", "said_by": "keeper", "on": "2026-02-03"}
    about = {"site": surveyed.site, "items": ["grey", surveyed.face]}
    found = entered(surveyed.book, [finish, {"kind": "agreement", "item": "a", "set": about | words}])
    assert surveyed.book.items("agreement")[0]["items"] == [found.ids["grey"], surveyed.face]


def test_photograph_and_logger_file_are_looked_at_and_kept(empty_book: Book, tmp_path: Path) -> None:
    """Digest, size, type and pixels are filled in from the file, which lies in the book byte for byte."""
    (tmp_path / "from phone").mkdir()
    (tmp_path / "from phone" / "1.jpg").write_bytes(picture(80, 60))
    (tmp_path / "log.csv").write_bytes(READINGS)
    lines = [SITE, ROOM, FACE, PHOTOGRAPH | {"file": "from phone/1.jpg"}, LOG | {"file": "log.csv"}]
    assert entered(empty_book, lines, tmp_path).warnings == []
    (photograph,) = empty_book.items("photograph")
    assert photograph["sha256"] == hashlib.sha256(picture(80, 60)).hexdigest()
    assert (photograph["width_px"], photograph["height_px"], photograph["media_type"]) == (80, 60, "image/jpeg")
    assert photograph["size_bytes"] == len(picture(80, 60))
    (log,) = empty_book.items("log")
    assert evidence.path_of(empty_book.folder, "log", log["sha256"]).read_bytes() == READINGS
    assert examine(empty_book) == []


def test_the_same_file_twice_is_a_warning(empty_book: Book, tmp_path: Path) -> None:
    """A picture under two photographs is taken, and said."""
    (tmp_path / "1.jpg").write_bytes(picture())
    again = PHOTOGRAPH | {"item": "q", "file": "1.jpg"}
    warnings = entered(empty_book, [SITE, ROOM, FACE, PHOTOGRAPH | {"file": "1.jpg"}, again], tmp_path).warnings
    assert [warning.field for warning in warnings] == ["file", "file"]
    assert warnings[1].reason.startswith("Line 5, file: ")


def test_mark_that_something_else_carries_is_a_warning(empty_book: Book) -> None:
    """It is taken, and both lines say what else is called so: D02 and D2 read alike."""
    marked = {"kind": "zone", "item": "k", "set": ZONE | {"mark": "D02"}}
    found = entered(empty_book, [SITE, ROOM, FACE, marked, marked | {"item": "l", "set": ZONE | {"mark": "D2"}}])
    assert [(warning.field, warning.value) for warning in found.warnings] == [("mark", "D02"), ("mark", "D2")]
    assert found.warnings[0].reason.startswith("Line 4, mark: ")


@pytest.mark.parametrize(
    ("line", "field"),
    [
        (b"name,width", None),
        (b"[1]", None),
        (b"\xff\xfe{\x00}\x00", None),
        (b"\xef\xbb\xbf" + json.dumps(SITE).encode(), None),
        (b'{"kind": "site", "item": "x", "set": {"name": "a", "name": "b"}}', None),
        (b'{"kind": "site", "item": "x", "set": {"name": "a", "budget": NaN}}', None),
        (b"[" * 100_000, None),
        (b'{"kind": "site", "item": "x", "set": {"name": "' + b"a" * entry_lines.MOST_LINE_BYTES + b'"}}', None),
        (SITE | {"colour": 1}, "colour"),
        (SITE | {"withdraw": True}, None),
        ({"kind": "site", "item": "shed"}, None),
        (SITE | {"set": ["name"]}, "set"),
        (SITE | {"set": {"name": "x", "height_mm": 3}}, "height_mm"),
        (SITE | {"item": "x", "set": {"budget": 3}}, "name"),
        (SITE | {"kind": "barn", "item": "x"}, "kind"),
        (SITE | {"kind": ["site"], "item": "x"}, "kind"),
        (SITE | {"item": ""}, "item"),
        (SITE | {"item": 4}, "item"),
        (SITE | {"item": "01a00000-0000-7000-8000-000000000000"}, "item"),
        (ROOM | {"item": "shed"}, "item"),
        (ROOM | {"set": {"name": "Loft"}}, "site"),
        (ROOM | {"set": {"name": "Loft", "site": "barn"}}, "site"),
        (ROOM | {"set": {"name": "Loft", "site": 7}}, "site"),
        (ROOM | {"set": {"name": "Loft", "site": "01a00000-0000-7000-8000-000000000000"}}, "site"),
        (ROOM | {"set": {"name": "Loft", "site": "loft"}}, "site"),
        (ROOM | {"file": "1.jpg"}, "file"),
        ({"kind": "room", "item": "cellar", "withdraw": True}, "item"),
        ({"kind": "site", "item": "shed", "withdraw": "perhaps"}, "withdraw"),
    ],
)
def test_line_that_is_wrong_is_refused_with_its_number_and_field(
    empty_book: Book, line: Any, field: str | None
) -> None:
    """Whatever is wrong with the second line is said of the second line, and nothing at all is entered."""
    (finding,) = refusals(empty_book, [SITE, line])
    assert finding.field == field
    assert finding.reason.startswith(f"Line 2, {field}: " if field else "Line 2: ")


@pytest.mark.parametrize(
    "file", ["absent.jpg", "../outside.jpg", "/etc/hostname", "link.jpg", ".", "", 3, "a\0b", "letter.txt", "empty"]
)
def test_file_that_cannot_be_taken_is_refused(empty_book: Book, tmp_path: Path, file: Any) -> None:
    """A file outside the folder, absent, or no picture is told, and none of the others is left behind."""
    folder = tmp_path / "lines"
    folder.mkdir()
    (tmp_path / "outside.jpg").write_bytes(picture())
    (folder / "link.jpg").symlink_to(tmp_path / "outside.jpg")
    (folder / "good.jpg").write_bytes(picture())
    (folder / "letter.txt").write_text("Dear keeper")
    (folder / "empty").touch()
    lines = [SITE, ROOM, FACE, PHOTOGRAPH | {"file": "good.jpg"}, PHOTOGRAPH | {"item": "q", "file": file}]
    (finding,) = refusals(empty_book, lines, folder)
    assert finding.field in {"file", "photograph"}
    assert finding.reason.startswith("Line 5")


def test_file_whose_digest_is_given_otherwise_is_refused(empty_book: Book, tmp_path: Path) -> None:
    """What is written beside a file must be what the file has."""
    (tmp_path / "1.jpg").write_bytes(picture())
    wrong = PHOTOGRAPH | {"set": PHOTOGRAPH["set"] | {"sha256": "0" * 64}}
    (given,) = refusals(empty_book, [SITE, ROOM, FACE, wrong | {"file": "1.jpg"}], tmp_path)
    (alone,) = refusals(empty_book, [SITE, ROOM, FACE, wrong])
    assert given.field == alone.field == "sha256"


@pytest.mark.parametrize(("heading", "field"), [("time", "file"), (None, "time_column"), (3, "time_column")])
def test_logger_file_that_cannot_be_read_with_its_headings_is_refused(
    empty_book: Book, tmp_path: Path, heading: Any, field: str
) -> None:
    """The file is read with the headings of the line, and what is wrong is told by its field."""
    (tmp_path / "log.csv").write_bytes(READINGS)
    wrong = LOG | {"set": LOG["set"] | {"time_column": heading}, "file": "log.csv"}
    (finding,) = refusals(empty_book, [SITE, ROOM, wrong], tmp_path)
    assert finding.field == field


def test_headings_given_in_an_earlier_line_read_the_file_of_a_later(empty_book: Book, tmp_path: Path) -> None:
    """A logger's file read out again takes the place of the first under the same headings."""
    (tmp_path / "first.csv").write_bytes(READINGS)
    (tmp_path / "second.csv").write_bytes(READINGS + b"2026-01-02 12:00,56\n")
    again = {"kind": "log", "item": "logger", "set": {}, "file": "second.csv"}
    entered(empty_book, [SITE, ROOM, LOG | {"file": "first.csv"}, again], tmp_path)
    assert empty_book.items("log")[0]["size_bytes"] == (tmp_path / "second.csv").stat().st_size


def test_link_to_a_later_name_says_which_line_makes_it(empty_book: Book) -> None:
    """The order of the lines is the remedy."""
    (finding,) = refusals(empty_book, [ROOM, SITE])
    assert "line 2" in finding.reason


def test_lines_that_rest_on_a_refused_one_say_so(empty_book: Book) -> None:
    """One mistake at the top is told once; what hangs on it is not said to be unknown."""
    for wrong in (ROOM | {"kind": "rom"}, ROOM | {"set": ROOM["set"] | {"ceiling_mm": -3}}):
        use = {"kind": "room", "item": "loft", "set": {"use": "sails"}}
        cause, *rest = refusals(empty_book, [SITE, wrong, FACE, use, LOG])
        assert cause.reason.startswith("Line 2, ")
        assert [finding.code for finding in rest] == ["unknown-item"] * 3
        assert all("rests on line 2" in finding.reason for finding in rest)


def test_every_refused_field_of_every_line_is_told(empty_book: Book) -> None:
    """A file is mended in one go."""
    wrong = FACE | {"set": {"room": "loft", "width_mm": 0, "sort": "hedge"}}
    found = refusals(empty_book, [SITE | {"set": {"name": ""}}, SITE | {"item": "b", "set": {"budget": -1}}])
    assert [finding.field for finding in found] == ["name", "name", "budget"]
    found = refusals(empty_book, [SITE, ROOM, wrong])
    assert sorted(str(finding.field) for finding in found) == ["height_mm", "name", "sort", "width_mm"]


def test_only_so_many_findings_are_told(empty_book: Book) -> None:
    """A file of another sort altogether is not answered line by line to its end."""
    found = refusals(empty_book, [b"name;width"] * 1000)
    assert len(found) == 201
    assert "800" in found[-1].reason


def test_file_without_entries_or_with_too_many_lines_is_refused(
    empty_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing to enter is said, and so is more than can be."""
    assert [finding.field for finding in refusals(empty_book, [b"", b"  "])] == ["file"]
    monkeypatch.setattr(entry_lines, "MOST_LINES", 2)
    with pytest.raises(FieldbookError, match="2 lines"):
        entered(empty_book, [SITE, ROOM, FACE])
    assert empty_book.revision() == 0
