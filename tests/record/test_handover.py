"""The folder that is handed over: whole, readable with others' programs, and a book again."""

from __future__ import annotations

import csv
import hashlib
import json
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import ezdxf
import jsonschema
import pytest
from lxml import etree
from PIL import Image

from fieldbook.book import apart, evidence, forgetting, one_site
from fieldbook.book.book import Book, NewerBook
from fieldbook.book.examine import examine, examine_folder
from fieldbook.book.gathering import gather
from fieldbook.book.making import NotABook
from fieldbook.book.one_site import UnsuitableLedger
from fieldbook.book.opening import create_book, open_book
from fieldbook.errors import Refused
from fieldbook.phones import devices
from fieldbook.record import bag
from fieldbook.record.handover import EDITIONS, LEDGER, FolderNotMade, edition_of_now, handover
from fieldbook.record.reopening import UnsuitableFolder, open_folder, verify
from fieldbook.record.zipped import as_folder
from fieldbook.web import create_app
from tests.record.conftest import PHONE, HandedOver
from tests.web.conftest import Desk


def rows(folder: Path, name: str) -> list[dict[str, str]]:
    """A table as another program reads it."""
    with (folder / "data" / "csv" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def data(folder: Path) -> dict:
    """The data in one file."""
    return json.loads((folder / "data" / "json" / "site.json").read_text(encoding="utf-8"))


@pytest.fixture
def copy(handed_over: HandedOver, tmp_path: Path) -> Path:
    """A copy of the folder, to be spoilt."""
    return Path(shutil.copytree(handed_over.folder, tmp_path / "copy"))


@pytest.fixture
def book(handed_over: HandedOver) -> Iterator[Book]:
    """The book it was made of."""
    with open_book(handed_over.book) as opened:
        yield opened


def digests(folder: Path) -> dict[str, str]:
    """Every file with its digest."""
    return {str(path.relative_to(folder)): bag.digest_of(path) for path in folder.rglob("*") if path.is_file()}


def test_folder_is_whole(handed_over: HandedOver) -> None:
    """Nothing is wrong with it, and nothing it tells of is missing."""
    assert verify(handed_over.folder) == []
    readme = (handed_over.folder / "README.txt").read_text(encoding="utf-8")
    assert "Not here" not in readme
    assert max(map(len, readme.splitlines())) <= 80
    told = {line.strip().rstrip("/") for line in readme.splitlines() if line.startswith("data/")}
    assert told - {"data/logs", "data/documents"} == {
        str(path.relative_to(handed_over.folder)) for path in (handed_over.folder / "data").iterdir()
    }


def test_tables_and_json_hold_what_the_book_holds(handed_over: HandedOver, book: Book) -> None:
    """Each kind's items with their values, by an independent reader of each format, and the schema fits the data."""
    site = gather(book, handed_over.record.site.id)
    told = data(handed_over.folder)
    schema = json.loads((handed_over.folder / "data" / "json" / "schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema, format_checker=jsonschema.FormatChecker()).validate(told)
    assert {one["id"]: kind for kind, items in told["items"].items() for one in items} == {
        one.id: one.kind for one in site.everything().values()
    }
    for kind, items in told["items"].items():
        table = {row["id"]: row for row in rows(handed_over.folder, f"{kind}.csv")}
        assert table.keys() == {one["id"] for one in items}
        for one in items:
            for name, value in one.items():
                cell = table[one["id"]][name]
                if isinstance(value, bool):
                    assert cell == ("yes" if value else "no")
                elif isinstance(value, str):
                    assert cell == value
                elif isinstance(value, list):
                    assert json.loads(cell) == value
                else:
                    assert float(cell) == value
            assert {name for name, cell in table[one["id"]].items() if cell and not name.endswith("_in_words")} == set(
                one
            )


def test_what_phones_are_called_stays_in_the_book(handed_over: HandedOver, book: Book) -> None:
    """A phone is somebody's own thing: no file of the folder tells its name, and README.txt says so."""
    assert PHONE in {device.name for device in devices.every_device(book)}
    files = [path for path in handed_over.folder.rglob("*") if path.is_file()]
    assert not [path.name for path in files if PHONE.encode() in path.read_bytes()]
    assert "What\n    these are called" in (handed_over.folder / "README.txt").read_text(encoding="utf-8")


def test_each_output_tells_the_same_findings(handed_over: HandedOver) -> None:
    """Table, JSON and printed record count the same words."""
    counted = {str(word): number for word, number in handed_over.record.counts.items() if number}
    assert Counter(row["word"] for row in rows(handed_over.folder, "finding.csv")) == counted
    assert Counter(one["word"] for one in data(handed_over.folder)["findings"]) == counted


def test_each_output_tells_the_same_fixings_at_the_same_places(handed_over: HandedOver) -> None:
    """Table, drawing for drawing programs, picture and printed record: every mark, where the table has it."""
    text = subprocess.run(
        ["pdftotext", handed_over.folder / "data" / "record.pdf", "-"], check=True, capture_output=True, text=True
    ).stdout
    fixings = rows(handed_over.folder, "fixing.csv")
    assert fixings
    drawings = handed_over.folder / "data" / "drawings"
    assert {path.suffix for path in drawings.iterdir()} == {".svg", ".dxf"}
    planned = {row["face"] for row in rows(handed_over.folder, "fitting.csv") if row["state"] == "planned"}
    planned |= {row["face"] for row in fixings if row["state"] == "planned"}
    sheets = list((handed_over.folder / "data" / "setting-out").glob("*.pdf"))
    assert len(sheets) == len(planned) > 0
    for face in rows(handed_over.folder, "face.csv"):
        name = f"{face['mark']} {face['name']}".replace(" ", "-")
        drawn = ezdxf.readfile(drawings / f"{name}.dxf")
        assert drawn.audit().errors == []
        marked = {tuple(one.dxf.insert)[:2]: one.dxf.text for one in drawn.modelspace().query("TEXT")}
        lettered = " ".join(etree.parse(drawings / f"{name}.svg").getroot().itertext())
        for fixing in (one for one in fixings if one["face"] == face["id"]):
            place = (fixing["fitted_x_mm"] or fixing["x_mm"], fixing["fitted_z_mm"] or fixing["z_mm"])
            assert marked[tuple(map(float, place))] == fixing["mark"]
            assert fixing["mark"] in lettered
            assert fixing["mark"] in text


def test_each_drawing_says_which_sheet_of_which_edition_it_is(handed_over: HandedOver) -> None:
    """A drawing that is sent on alone is told from that of another edition; number and day stand on both forms."""
    drawings = sorted((handed_over.folder / "data" / "drawings").iterdir())
    edition = handed_over.record.edition
    numbers = {".svg": set(), ".dxf": set()}
    for path in drawings:
        if path.suffix == ".svg":
            words = " ".join(etree.parse(path).getroot().itertext())
        else:
            sheet = ezdxf.readfile(path).modelspace().query('TEXT[layer=="SHEET"]')
            words = " ".join(one.dxf.text for one in sheet)
        words = " ".join(words.split())
        (number,) = re.findall(rf"sheet (\d+) of {len(drawings) // 2}, edition {edition.number},", words)
        assert f"{edition.day:%Y}" in words
        numbers[path.suffix].add(int(number))
    assert numbers[".svg"] == numbers[".dxf"] == set(range(1, len(drawings) // 2 + 1))


def test_every_column_is_in_the_dictionary(handed_over: HandedOver) -> None:
    """What a column means is said in the folder itself."""
    known = {(row["table"], row["column"]) for row in rows(handed_over.folder, "dictionary.csv")}
    for path in (handed_over.folder / "data" / "csv").glob("*.csv"):
        if path.stem != "dictionary":
            with path.open(encoding="utf-8", newline="") as file:
                assert {(path.stem, column) for column in next(csv.reader(file))} <= known


def test_photographs_are_those_of_the_table_byte_for_byte(handed_over: HandedOver) -> None:
    """Each digest of the table is that of a file."""
    kept = {bag.digest_of(path) for path in (handed_over.folder / "data" / "photographs").iterdir()}
    assert kept == {row["sha256"] for row in rows(handed_over.folder, "photograph.csv")}


def test_ledger_can_be_followed_with_the_readme_alone(handed_over: HandedOver, book: Book) -> None:
    """The hashes come out as the README says, and another site's entry is there as its hash alone."""
    before, without = "0" * 64, 0
    for line in (handed_over.folder / LEDGER).read_text(encoding="utf-8").splitlines():
        entry = json.loads(line)
        if "content" in entry:
            text = f"{before}\n{entry['revision']}\n{entry['received_at']}\n{entry['content']}"
            assert entry["rule"] == 2
            assert hashlib.sha256(text.encode()).hexdigest() == entry["hash"]
        without += "content" not in entry
        before = entry["hash"]
    assert (without, before) == (1, book.digest())
    assert "Tide mill" not in (handed_over.folder / LEDGER).read_text(encoding="utf-8")


def test_book_made_of_it_is_equal_and_so_is_its_folder(handed_over: HandedOver, book: Book, tmp_path: Path) -> None:
    """Same id, another epoch, the site alone; sound; and a folder of that book is the same to the byte."""
    site = handed_over.record.site.id
    with open_folder(handed_over.folder, tmp_path / "again") as again:
        assert (again.fact("book"), again.head()) == (book.fact("book"), book.head())
        assert again.fact("epoch") != book.fact("epoch")
        assert [one["id"] for one in again.items("site")] == [site]
        assert examine(again) == []
        items = gather(again, site).everything()
        assert {one.id: one.values for one in items.values()} == {
            one.id: one.values for one in gather(book, site).everything().values()
        }
        handover(again, site, tmp_path / "folder again")
        assert digests(tmp_path / "folder again") == digests(handed_over.folder)
        revision = again.revision()
        again.write("room", {"site": site, "mark": "R7", "name": "Loft"})
        assert again.revision() == revision + 1
        assert edition_of_now(again, site) is None
        assert examine(again) == []
    # The next fitter goes on, and what was handed over can still be proved by the digest printed on its title page.
    assert examine_folder(tmp_path / "again", against=book.digest()).damages == ()
    assert examine_folder(tmp_path / "again", against="e" * 64).damages != ()


def test_phone_gets_every_revision_of_such_a_book(handed_over: HandedOver, tmp_path: Path) -> None:
    """What is here by its hash alone comes as an entry that changes nothing, so that no number is missing."""
    from fieldbook.book import ledger

    with open_folder(handed_over.folder, tmp_path / "again") as again:
        pulled = list(ledger.entries(again.db))
        assert [entry["revision"] for entry in pulled] == list(range(1, again.revision() + 1))
        assert [entry["set"] for entry in pulled if entry["device"] == "elsewhere"] == [{}]
        assert all(entry["device"] != "elsewhere" for entry in again.history(handed_over.record.site.id))


def test_copy_for_others_tells_no_place_no_money_and_opens_as_no_book(
    book: Book, handed_over: HandedOver, tmp_path: Path
) -> None:
    """Photographs lose the camera's notes; costs, budget and ledger are left out, and it says so."""
    handover(book, handed_over.record.site.id, tmp_path / "others", for_others=True)
    folder = tmp_path / "others"
    assert verify(folder) == []
    for path in (folder / "data" / "photographs").iterdir():
        with Image.open(path) as image:
            assert not image.getexif()
    assert not (folder / "data" / "csv" / "cost.csv").exists()
    assert "cost" not in data(folder)["items"]
    assert rows(folder, "site.csv")[0]["budget"] == ""
    assert "cannot be opened as a book again" in (folder / "README.txt").read_text(encoding="utf-8").replace("\n", " ")
    with pytest.raises(UnsuitableFolder):
        open_folder(folder, tmp_path / "book")
    assert not (tmp_path / "book").exists()


def test_folder_that_is_taken_is_left_alone(book: Book, handed_over: HandedOver, tmp_path: Path) -> None:
    """Neither a folder nor a book is written over."""
    (tmp_path / "taken").mkdir()
    (tmp_path / "taken" / "note.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(FolderNotMade):
        handover(book, handed_over.record.site.id, tmp_path / "taken")
    with pytest.raises(FolderNotMade):
        handover(book, handed_over.record.site.id, tmp_path / "nowhere" / "folder")
    with pytest.raises(NotABook):
        open_folder(handed_over.folder, tmp_path / "taken")


def test_photograph_that_was_altered_is_not_handed_over(handed_over: HandedOver, tmp_path: Path) -> None:
    """What a folder gives as it came is looked at before; nothing is made."""
    site = handed_over.record.site.id
    with open_book(shutil.copytree(handed_over.book, tmp_path / "book")) as book:
        kept = evidence.path_of(book.folder, "photograph", book.items("photograph")[0]["sha256"])
        kept.write_bytes(kept.read_bytes()[:-1] + b"?")
        with pytest.raises(Refused):
            handover(book, site, tmp_path / "folder")
    assert [path.name for path in tmp_path.iterdir()] == ["book"]


def resealed(folder: Path) -> Path:
    """Seal a spoilt folder anew, as whoever means harm would."""
    for name in (bag.MANIFEST, bag.TAG_MANIFEST, bag.INFO, bag.DECLARATION):
        (folder / name).unlink()
    bag.seal(folder, {})
    assert bag.flaws_of(folder) == []
    return folder


def spoil_letter_of_an_entry(folder: Path) -> None:
    """One letter of an entry."""
    text = (folder / LEDGER).read_text(encoding="utf-8")
    (folder / LEDGER).write_text(text.replace("Weighing hall", "Weighing hell", 1), encoding="utf-8")


def spoil_entry_left_out(folder: Path) -> None:
    lines = (folder / LEDGER).read_text(encoding="utf-8").splitlines(keepends=True)
    (folder / LEDGER).write_text("".join(lines[:5] + lines[6:]), encoding="utf-8")


def spoil_end_cut_off(folder: Path) -> None:
    lines = (folder / LEDGER).read_text(encoding="utf-8").splitlines(keepends=True)
    (folder / LEDGER).write_text("".join(lines[:-2]), encoding="utf-8")


def spoil_deep_json(folder: Path) -> None:
    (folder / LEDGER).write_text("[" * 100_000, encoding="utf-8")


def spoil_book_without_id(folder: Path) -> None:
    said = json.loads((folder / EDITIONS).read_text(encoding="utf-8"))
    (folder / EDITIONS).write_text(json.dumps(said | {"book": "../../elsewhere"}), encoding="utf-8")


def spoil_site_with_a_path(folder: Path) -> None:
    said = json.loads((folder / EDITIONS).read_text(encoding="utf-8"))
    (folder / EDITIONS).write_text(json.dumps(said | {"site": "/etc"}), encoding="utf-8")


def spoil_edition_with_words_for_a_number(folder: Path) -> None:
    said = json.loads((folder / EDITIONS).read_text(encoding="utf-8"))
    said["editions"][0]["number"] = "../../x"
    (folder / EDITIONS).write_text(json.dumps(said), encoding="utf-8")


def spoil_entry_with_a_path_for_a_digest(folder: Path) -> None:
    """A chain that fits, of entries no book would take."""
    before, lines = "0" * 64, []
    for text in (folder / LEDGER).read_text(encoding="utf-8").splitlines():
        line = json.loads(text)
        if "content" in line:
            entry = json.loads(line["content"])
            if entry["kind"] == "photograph":
                entry["set"]["sha256"] = "../../../../etc/passwd"
            line["content"] = json.dumps(entry)
            lines_hashed = [before, str(line["revision"]), line["received_at"], line["content"]]
            line["hash"] = hashlib.sha256("\n".join(lines_hashed).encode()).hexdigest()
        before = line["hash"]
        lines.append(json.dumps(line) + "\n")
    (folder / LEDGER).write_text("".join(lines), encoding="utf-8")
    said = json.loads((folder / EDITIONS).read_text(encoding="utf-8"))
    said["editions"][0]["digest"] = before
    (folder / EDITIONS).write_text(json.dumps(said), encoding="utf-8")


SPOILT = [value for name, value in sorted(globals().items()) if name.startswith("spoil_")]


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda spoil: spoil.__name__)
def test_spoilt_folder_makes_no_book_even_sealed_anew(copy: Path, tmp_path: Path, spoil: object) -> None:
    """Whatever fits the lists must also follow the chain, and be what a book takes; nothing is left otherwise."""
    spoil(copy)  # type: ignore[operator]
    resealed(copy)
    with pytest.raises((UnsuitableFolder, NewerBook, Refused)):
        open_folder(copy, tmp_path / "book")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["copy"]


def test_damage_of_the_ledger_is_told_by_verify(copy: Path) -> None:
    """The chain is followed, not the lists alone."""
    spoil_letter_of_an_entry(copy)
    (flaw,) = verify(resealed(copy))
    assert flaw.path == LEDGER


def test_later_entry_of_another_site_makes_no_new_edition(handed_over: HandedOver, tmp_path: Path) -> None:
    """An edition belongs to its site: what is entered elsewhere leaves it as it is."""
    site, edition = handed_over.record.site.id, handed_over.record.edition
    with open_book(shutil.copytree(handed_over.book, tmp_path / "book")) as book:
        book.write("site", {"name": "Boat store"})
        assert edition_of_now(book, site) == edition
        book.write("room", {"site": site, "name": "Loft"})
        assert edition_of_now(book, site) is None


def test_folder_taken_at_the_desk_is_one_file_that_is_whole(handed_over: HandedOver, tmp_path: Path) -> None:
    """What the browser keeps is verified as it is, and nothing was entered for it."""
    site, folder = handed_over.record.site.id, shutil.copytree(handed_over.book, tmp_path / "book")
    desk = Desk(create_app(folder, access="open"))
    answer = desk.post(f"/site/{site}/folder", page=f"/site/{site}")
    assert answer.mimetype == "application/zip"
    (tmp_path / "folder.zip").write_bytes(answer.data)
    with as_folder(tmp_path / "folder.zip") as inside:
        assert inside.name == "Customs-shed-edition-1"
        assert digests(inside) == digests(handed_over.folder)
    with open_book(folder) as book:
        assert book.head() == (handed_over.record.edition.revision, handed_over.record.edition.digest)


def test_folder_of_after_a_person_was_taken_out_holds_no_trace_and_opens_sound(
    handed_over: HandedOver, tmp_path: Path
) -> None:
    """Ledger, tables and photographs of the new folder lack it; the book made of it is sound and knows that it went."""
    working = open_folder(handed_over.folder, tmp_path / "working")
    with working as book:
        site = book.items("site")[0]["id"]
        taken = book.items("photograph")[0]
        agreement = next(one for one in book.items("agreement") if one["said_by"])
        places = forgetting.places_of(book, agreement["said_by"])
        place = forgetting.file_of(book, taken["id"])
        assert place
        assert any(one.digest for one in places)
        forgetting.take_out(book, [*places, place])
        lines = list(one_site.lines_of(book, site, book.revision()))
    assert agreement["said_by"] not in " ".join(json.dumps(line.get("apart")) for line in lines)
    (tmp_path / "again").mkdir()
    with create_book(tmp_path / "again" / "book") as again:
        with again.writing():
            one_site.take_over(again, site, lines)
        without_files = {one["id"] for one in again.items("photograph", withdrawn=True)} - {taken["id"]}
        assert {damage.item for damage in examine(again)} == without_files
        assert apart.is_taken_out(again.db, taken["sha256"])
        assert again.item(agreement["id"])[1]["said_by"] == apart.TAKEN_OUT


@pytest.mark.parametrize("spoil", [{"value": '"Somebody"'}, {"salt": "0"}, None])
def test_ledger_whose_names_were_altered_or_left_out_is_refused(
    handed_over: HandedOver, spoil: dict[str, str] | None
) -> None:
    """What stands apart is held against its digest, as the entries are against their hashes."""
    lines = [json.loads(line) for line in (handed_over.folder / LEDGER).read_text(encoding="utf-8").splitlines()]
    line = next(line for line in lines if any("value" in row for row in line.get("apart", [])))
    line["apart"] = [row | spoil for row in line["apart"]] if spoil else []
    with pytest.raises(UnsuitableLedger):
        list(one_site.checked(lines))
