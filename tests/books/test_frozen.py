"""Books that released versions left behind: each opens, and nothing in it is lost."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fieldbook.book import ledger, wording
from fieldbook.book.accepting import Status
from fieldbook.book.backup import restore
from fieldbook.book.book import Book
from fieldbook.book.examine import examine
from fieldbook.book.opening import open_book
from fieldbook.book.site import Item
from fieldbook.errors import Missing, Refused
from fieldbook.model import rules, versions
from fieldbook.model.description import line
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.record.compile import compile_record
from fieldbook.record.editions import editions
from fieldbook.record.pdf import make_record
from tests.books.frozen import (
    HERE,
    VERSIONS,
    changed,
    describe,
    field_changed,
    ids_by_kind,
    said_by,
    unpacked,
    with_more,
    without,
)

pytestmark = pytest.mark.slow  # opens, rebuilds and prints whole books


@pytest.fixture(params=VERSIONS)
def version(request: pytest.FixtureRequest) -> str:
    """Each version that was released."""
    return request.param


@pytest.fixture
def folder(version: str, tmp_path: Path) -> Path:
    """The book that version left behind."""
    return unpacked(version, tmp_path / "frozen")


@pytest.fixture
def book(folder: Path) -> Iterator[Book]:
    """The same, open."""
    with open_book(folder) as opened:
        yield opened


def test_frozen_book_is_small_and_holds_every_kind_of_its_version(version: str) -> None:
    """The archive stays small, and there is an item of each kind in it."""
    assert sum(path.stat().st_size for path in HERE.glob(f"{version}.*")) < 300_000
    assert ids_by_kind(version).keys() == {kind["name"] for kind in said_by(version)["registry"]["kinds"]}


def test_frozen_book_opens_sound_with_its_chain(book: Book, version: str) -> None:
    """The chain ends in the digest that version gave, and nothing is damaged."""
    assert (book.newer, examine(book)) == ((), [])
    assert book.digest() == said_by(version)["digest"]


def test_frozen_book_shows_what_its_version_showed(book: Book, version: str) -> None:
    """Every value of every item is there, under its present name and in its present words."""
    for item, before in said_by(version)["items"].items():
        kind, values = book.item(item)
        own = {name: value for name, value in before.items() if name not in {"kind", "id", "revision", "withdrawn"}}
        assert (kind, values["withdrawn"], values["revision"]) == (
            before["kind"], before["withdrawn"], before["revision"],
        )  # fmt: skip
        meant = versions.meaning(KINDS[kind], own)
        assert meant.unknown == {}
        assert {name: values[name] for name in meant.values} == meant.values


def test_frozen_book_rebuilt_is_the_same(book: Book) -> None:
    """The tables made again from the ledger come out as they were."""
    before = {kind: book.items(kind, withdrawn=True) for kind in KINDS}
    with book.writing():
        ledger.rebuild(book.db)
    assert {kind: book.items(kind, withdrawn=True) for kind in KINDS} == before


def test_frozen_book_keeps_its_conflict_and_its_edition(book: Book, version: str) -> None:
    """What waits to be settled still waits, and the edition that was issued counts."""
    (pair,) = book.conflicts()
    assert (pair["item"], pair["field"]) == (ids_by_kind(version)["fitting"], "note")
    assert [edition.number for edition in editions(book, ids_by_kind(version)["site"])] == [1]


def test_frozen_book_is_printed(book: Book, version: str, tmp_path: Path) -> None:
    """The record of an old book is made as its second edition."""
    edition = make_record(book, ids_by_kind(version)["site"], tmp_path / "record.pdf", costs=True)
    assert edition.number == 2
    assert (tmp_path / "record.pdf").read_bytes().startswith(b"%PDF")


def test_frozen_book_is_restored_from_its_backup(version: str, tmp_path: Path) -> None:
    """The archive is a backup of that version, and this one restores it with its files."""
    with restore(HERE / f"{version}.zip", tmp_path / "again") as again:
        assert examine(again) == []
        assert again.digest() == said_by(version)["digest"]


@pytest.mark.parametrize("name", VERSIONS)
def test_description_still_understands_every_released_one(name: str) -> None:
    """No field, word or column of a released version has vanished: it is as it was, renamed, or retired."""
    for kind in said_by(name)["registry"]["kinds"]:
        assert kind["name"] in KINDS, f"{kind['name']} was taken out of KINDS; a kind stays"
        _understands(KINDS[kind["name"]].by_any_name, kind["fields"], kind["name"])


def _understands(fields: dict[str, Field], before: list[dict[str, Any]], where: str) -> None:
    for one in before:
        now = fields.get(one["name"])
        assert now, f"{where}.{one['name']} is gone: retire it, or name it in `renamed_from` of what it became"
        assert now.type == one["type"], f"{where}.{one['name']} became {now.type}: retire it, and add another"
        for word in one.get("choices", ()):
            assert versions.is_known(now, [word] if now.type is Type.CHOICES else word), (
                f"“{word}” of {where}.{one['name']} is gone: see `renamed_choices` and `retired_choices`"
            )
        for column, (was, is_now) in enumerate(zip(one["columns"], now.columns, strict=False), 1):
            assert was["type"] == is_now.type, f"column {column} of {where}.{one['name']} became {is_now.type}"
            _understands({was["name"]: is_now}, [was], f"{where}.{one['name']}")
        assert len(now.columns) >= len(one["columns"]), f"{where}.{one['name']} lost a column: retire the table"


@pytest.mark.parametrize("name", VERSIONS[:1])
def test_field_needed_since_the_first_version_says_since_when(name: str) -> None:
    """A field that became needed after the first version says since when, so that older phones do without."""
    kinds = {kind["name"]: kind for kind in said_by(name)["registry"]["kinds"]}
    for kind in KINDS.values():
        before = {one["name"] for one in kinds.get(kind.name, {"fields": ()})["fields"] if one.get("required")}
        for field in kind.fields if kind.name in kinds else ():
            former = {field.name, *field.renamed_from}
            assert not field.required or former & before or field.since, f"{kind.name}.{field.name} lacks `since`"


# A field is renamed, a word is renamed, a field and a word are retired: on the book of the first version.

FIRST = "0.1.0"


@pytest.fixture
def first(tmp_path: Path) -> Path:
    """The book the first version left behind."""
    return unpacked(FIRST, tmp_path / "first")


def test_renamed_field_keeps_its_values_history_and_conflict(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """What was entered under the former name shows under the present one, and so does the pair that waits."""
    fitting = ids_by_kind(FIRST)["fitting"]
    describe(monkeypatch, changed(KINDS["fitting"], "note", name="remark", label="Remark", renamed_from=("note",)))
    with open_book(first) as book:
        assert (book.newer, examine(book)) == ((), [])
        assert book.item(fitting)[1]["remark"] == "as the phone has it"
        assert [entry["set"]["remark"] for entry in book.history(fitting)][-1] == "as the phone has it"
        (pair,) = book.conflicts()
        assert (pair["item"], pair["field"]) == (fitting, "remark")
        book.write("fitting", {"remark": "settled"}, fitting)
        assert book.conflicts() == []


def test_renamed_word_is_read_as_the_present_one(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """A word entered before shows as the one that says the same now, in lists of words and in tables too."""
    words = {"renamed_choices": (("hook", "bracket hook"),)}
    describe(monkeypatch, changed(KINDS["hold"], "sort", choices=("hole", "bracket hook"), **words))
    forbidden = {"choices": ("drilling", "touch"), "renamed_choices": (("contact", "touch"),)}
    describe(monkeypatch, changed(KINDS["zone"], "forbids", **forbidden, retired_choices=("light",)))
    columns = tuple(
        field_changed(one, "age", choices=("historic", "later"), renamed_choices=(("old", "historic"),))
        for one in KINDS["face"].by_name["layers"].columns
    )
    describe(monkeypatch, changed(KINDS["face"], "layers", columns=columns))
    with open_book(first) as book:
        ids = ids_by_kind(FIRST)
        assert book.newer == ()
        assert book.item(ids["hold"])[1]["sort"] == "bracket hook"
        assert book.item(ids["zone"])[1]["forbids"] == ["drilling", "touch"]
        assert [row[2] for row in book.item(ids["face"])[1]["layers"]] == ["historic", "historic"]


def test_table_that_gained_a_column_keeps_its_rows(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """Rows entered before a column was there have nothing in it, and read as they did."""
    layers = KINDS["face"].by_name["layers"]
    columns = (*layers.columns, line("origin", "origin", required=True))
    describe(monkeypatch, changed(KINDS["face"], "layers", columns=columns))
    with open_book(first) as book:
        face = ids_by_kind(FIRST)["face"]
        assert book.item(face)[1]["layers"][0] == ["lime plaster", 22, "old", None]
        book.write("face", {"note": "the rest is as it was"}, face)


def test_retired_field_stays_readable_and_is_needed_no_more(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """Its values stand in item and history; nobody is asked for it, and a new item does without."""
    describe(monkeypatch, changed(KINDS["finish"], "name", retired="0.2.0"))
    with open_book(first) as book:
        ids = ids_by_kind(FIRST)
        assert book.item(ids["finish"])[1]["name"] == "Rail green"
        assert book.history(ids["finish"])[0]["set"]["name"] == "Rail green"
        assert "name" not in {field.name for field in KINDS["finish"].asked}
        book.write("finish", {"site": ids["site"], "sort": "wax"})


def test_retired_word_stays_where_it_stands(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """An item that has it keeps it through other changes, and the record says that it is offered no longer."""
    hold = changed(KINDS["hold"], "sort", choices=("hole", "bolt"), retired_choices=("hook",))
    describe(monkeypatch, hold)
    with open_book(first) as book:
        ids = ids_by_kind(FIRST)
        book.write("hold", {"condition": "sound"}, ids["hold"])
        assert book.item(ids["hold"])[1]["sort"] == "hook"


def test_retired_field_and_word_are_marked_in_the_record(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """A reader of the record sees the value, and that it is asked for no longer."""
    describe(monkeypatch, changed(changed(KINDS["finish"], "batch", retired="0.2.0"), "sheen",
             choices=("matt", "gloss"), retired_choices=("dead matt",)))  # fmt: skip
    with open_book(first) as book:
        finish = ids_by_kind(FIRST)["finish"]
        item = Item("finish", finish, book.item(finish)[1])
        facts = dict(wording.facts(item, ["batch", "sheen"], {}))
    assert facts == {"Batch (no longer asked)": "batch 1", "Sheen": "dead matt (no longer offered)"}


def test_new_needed_field_does_not_lock_old_items(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """An old item that lacks it is changed in other fields; a new one must have it, and it cannot be emptied."""
    describe(monkeypatch, with_more(KINDS["finish"], line("maker_role", "Mixed by", required=True, since="0.2.0")))
    ids = ids_by_kind(FIRST)
    with open_book(first) as book:
        book.write("finish", {"coats": 3}, ids["finish"])
        new = {"site": ids["site"], "name": "Sill grey", "sort": "oil paint"}
        with pytest.raises(Refused) as refusal:
            book.write("finish", new)
        assert [(one.code, one.field) for one in refusal.value.findings] == [("missing", "maker_role")]
        item = book.write("finish", new | {"maker_role": "painter"})
        with pytest.raises(Refused) as refusal:
            book.write("finish", {"maker_role": None}, item)
        assert isinstance(refusal.value.findings[0], Missing)
        gaps = compile_record(book, ids["site"]).gaps
        assert ["mixed by" in gap.missing for gap in gaps if gap.items == "P1"] == [True]


def test_rule_younger_than_an_item_does_not_lock_it(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """What breaks a rule that came later keeps nobody from changing something else, but is not made anew."""
    monkeypatch.setitem(rules.NOT_ABOVE, "fitting", (("width_mm", "height_mm"),))  # type: ignore[arg-type]
    fitting = ids_by_kind(FIRST)["fitting"]
    with open_book(first) as book:
        book.write("fitting", {"care": "dust it"}, fitting)
        with pytest.raises(Refused) as refusal:
            book.write("fitting", {"width_mm": 1200}, fitting)
        assert [(one.code, one.field) for one in refusal.value.findings] == [("out-of-range", "width_mm")]


def test_book_is_the_same_after_an_older_version_has_read_it(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """A newer version's book, read by an older one and then by the newer again, has lost nothing."""
    newer = KINDS["finish"]
    with open_book(first) as book:
        before = {kind: book.items(kind, withdrawn=True) for kind in KINDS}
    describe(monkeypatch, without(newer, "batch"))
    with open_book(first) as book:
        assert book.newer == ("Finish: batch",)
        assert book.items("finish")[0]["name"] == "Rail green"
    describe(monkeypatch, newer)
    with open_book(first) as book:
        assert book.newer == ()
        assert {kind: book.items(kind, withdrawn=True) for kind in KINDS} == before


NEW = {"id": "0197b7a0-0000-7000-8000-00000000aa01", "item": "0197b7a0-0000-7000-8000-00000000bb01"}


def test_same_entry_in_former_and_present_words_is_the_same(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """An entry that was acknowledged and comes again after its field was renamed is answered `repeated`."""
    sent = NEW | {"device": "desk", "at": "2026-05-31T14:30:00+01:00", "base": 0, "kind": "finish"}
    sent |= {"set": {"site": ids_by_kind(FIRST)["site"], "name": "Sill grey", "sort": "wax", "batch": "7"}}
    with open_book(first) as book:
        (answer,) = book.append([sent])
        assert answer.status is Status.ACCEPTED
    renamed = changed(KINDS["finish"], "batch", name="lot", renamed_from=("batch",))
    words = {"choices": ("oil paint", "beeswax"), "renamed_choices": (("wax", "beeswax"),)}
    describe(monkeypatch, changed(renamed, "sort", **words))
    with open_book(first) as book:
        again = {**sent, "set": {**sent["set"], "sort": "beeswax"}}
        assert [answer.status for answer in book.append([sent, again])] == [Status.REPEATED] * 2
        assert (
            json.loads(book.db.execute("SELECT content FROM ledger WHERE id = ?", [sent["id"]]).fetchone()[0])["set"][
                "batch"
            ]
            == "7"
        )


def test_field_named_twice_is_refused(monkeypatch: pytest.MonkeyPatch, first: Path) -> None:
    """An entry that gives a field under its former and its present name contradicts itself."""
    describe(monkeypatch, changed(KINDS["finish"], "batch", name="lot", renamed_from=("batch",)))
    with open_book(first) as book, pytest.raises(Refused) as refusal:
        book.write("finish", {"batch": "7", "lot": "8"}, ids_by_kind(FIRST)["finish"])
    assert refusal.value.findings[0].field == "lot"
