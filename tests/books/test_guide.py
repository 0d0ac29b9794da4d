"""The guide's steps in a field's life and for a new kind, done as DEVELOPERS.md says, on the first version's book."""

from __future__ import annotations

import ast
import dataclasses
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from fieldbook.book.examine import examine
from fieldbook.book.opening import open_book
from fieldbook.model import description, fields
from fieldbook.model.description import Kind
from fieldbook.model.fields import Field
from fieldbook.model.kinds import KINDS
from fieldbook.web import create_app
from tests.books.frozen import ids_by_kind, registry_of, unpacked
from tests.web.conftest import Desk, shown

GUIDE = (Path(__file__).resolve().parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```python\n(.*?)^```", GUIDE, re.DOTALL | re.MULTILINE)
(FIELD_STEPS,) = [block for block in BLOCKS if "renamed_from=" in block]
(KIND_STEP,) = [block for block in BLOCKS if " = Kind(" in block]
WORDS = vars(description) | vars(fields)
IDS = ids_by_kind("0.1.0")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The book the first version left behind."""
    return unpacked("0.1.0", tmp_path / "book")


@pytest.fixture
def finish(monkeypatch: pytest.MonkeyPatch) -> Kind:
    """The kind of finishes, its fields as the guide's lines have them."""
    lines = [ast.unparse(line) for line in ast.parse(FIELD_STEPS).body]
    written: list[Field] = [eval(line, WORDS) for line in lines]
    before = KINDS["finish"]
    replaced = {name: one for one in written for name in (one.name, *one.renamed_from) if name in before.by_name}
    kept = [replaced.get(one.name, one) for one in before.fields]
    kind = dataclasses.replace(before, fields=(*kept, *(one for one in written if one not in kept)))
    monkeypatch.setitem(KINDS, "finish", kind)  # type: ignore[arg-type]
    return kind


@pytest.fixture
def desk(folder: Path) -> Iterator[Desk]:
    """A browser at the desk of that book."""
    one = Desk(create_app(folder, access="open"))
    with one.client:
        yield one


def test_guide_shows_every_case_of_a_fields_life(finish: Kind) -> None:
    """The lines add, rename and retire a field, and rename and retire a word."""
    assert {"primed_with", "mixed_by", "lot", "lightfastness", "sheen"} <= finish.by_name.keys()
    assert "batch" not in finish.by_name
    assert finish.by_name["lightfastness"] not in finish.asked


def test_guides_steps_lose_nothing(finish: Kind, folder: Path) -> None:
    """After them the old book is sound, and every value is where the guide says."""
    with open_book(folder) as book:
        values = book.item(IDS["finish"])[1]
        assert (book.newer, examine(book)) == ((), [])
        assert (values["lot"], values["lightfastness"], values["sheen"]) == ("batch 1", "lightfastness 1", "flat")
        assert (values["primed_with"], values["mixed_by"]) == (None, None)


def test_guides_steps_show_in_pages_and_forms(finish: Kind, desk: Desk) -> None:
    """The item shows the retired field as such; its form asks for the others, and is saved without the new one."""
    page = desk.get(f"/item/{IDS['finish']}").text
    assert "Lightfastness (no longer asked)" in page
    form = shown(desk.get(f"/item/{IDS['finish']}/change").text)
    assert (form["lot"], form["sheen"], form["mixed_by"]) == ("batch 1", "flat", "")
    assert "lightfastness" not in form
    assert desk.changed(IDS["finish"], coats="3").status_code == 303
    refused = desk.post(f"/site/{IDS['site']}/new/finish", {"site": IDS["site"], "name": "Wax", "sort": "wax"})
    assert refused.status_code == 422
    assert "Mixed by is empty." in refused.text
    assert "no longer asked since 0.2.0" in desk.get("/glossary").text


def test_retired_word_stays_chosen_in_the_form(finish: Kind, desk: Desk, folder: Path) -> None:
    """An item that has a word no longer offered keeps it when something else is changed."""
    with open_book(folder) as book:
        book.write("finish", {"sheen": "gloss"}, IDS["finish"])
    assert shown(desk.get(f"/item/{IDS['finish']}/change").text)["sheen"] == "gloss"
    assert desk.changed(IDS["finish"], coats="4").status_code == 303
    assert "gloss (no longer offered)" in desk.get(f"/item/{IDS['finish']}").text


def test_guides_kind_has_pages_forms_and_a_place_on_the_phone(
    monkeypatch: pytest.MonkeyPatch, folder: Path, desk: Desk
) -> None:
    """One description and its name in the list: it is entered, listed, changed, withdrawn, and sent to phones."""
    written: dict[str, Kind] = {}
    exec(KIND_STEP, dict(WORDS), written)
    (stair,) = written.values()
    monkeypatch.setitem(KINDS, stair.name, stair)  # type: ignore[arg-type]
    room = IDS["room"]
    new = {"room": room, "mark": "S1", "name": "Loft stair", "rise_mm": "182", "state": "sound"}
    item = desk.entered(f"/site/{IDS['site']}/new/stair?room={room}", new)
    page = desk.get(f"/item/{item}").text
    assert "Loft stair" in page
    assert "182" in page
    assert f"/item/{item}" in desk.get(f"/room/{room}").text
    assert f"/item/{item}" in desk.get(f"/site/{IDS['site']}/all/stair").text
    assert desk.changed(item, rise_mm="185").status_code == 303
    assert "185" in desk.get(f"/item/{item}/history").text
    assert "a flight that leads from one room" in desk.get("/glossary").text.lower()
    assert 'id="form-stair"' in desk.get("/phone/").text
    assert [kind for kind in registry_of(desk.get("/phone/").text)["kinds"] if kind["name"] == "stair"]
    assert desk.post(f"/item/{item}/withdraw", page=f"/item/{item}").status_code == 303
    with open_book(folder) as book:
        assert (book.item(item)[1]["withdrawn"], examine(book)) == (1, [])
