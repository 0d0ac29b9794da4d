"""The guide's steps for a check, a question, a calculation and a chapter, done as DEVELOPERS.md says."""

from __future__ import annotations

import doctest
import io
import json
import re
import shutil
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from fieldbook.book.book import Book
from fieldbook.book.gathering import gather
from fieldbook.calculations.catalogue import CALCULATIONS, calculate
from fieldbook.checks.verdict import Word
from fieldbook.cli import main
from fieldbook.findings import appraisal, appraise
from fieldbook.findings.questions import BY_STAKE, CONSEQUENCES, FUNCTION
from fieldbook.folders import TEMPLATES
from fieldbook.record import environment, typesetting
from fieldbook.record.compile import compile_record
from fieldbook.record.contents import Record
from tests.checks.test_docstrings import findings_about
from tests.sites import Surveyed

GUIDE = (Path(__file__).resolve().parents[1] / "DEVELOPERS.md").read_text(encoding="utf-8")


def step(title: str, language: str = "python") -> str:
    """The lines that a step of the guide shows."""
    found = re.search(rf"^\*\*{title}\.\*\*.*?^```{language}\n(.*?)^```", GUIDE, re.DOTALL | re.MULTILINE)
    assert found, f"the guide shows nothing for {title}"
    return found[1]


@pytest.fixture
def written() -> ModuleType:
    """A module with the guide's check, question and calculation."""
    module = ModuleType("guide")
    for title in ("A check", "A question", "A calculation"):
        exec(step(title), vars(module))
    return module


def test_guides_check_can_be_audited(written: ModuleType) -> None:
    """It tells its source and units, its example holds, and it refuses what lies outside its range."""
    assert list(findings_about("guide.dusting_verdict", written.dusting_verdict)) == []
    assert doctest.testmod(written) == (0, 1)
    assert [written.dusting_verdict(top).word for top in (1500, 1700, 2001)] == [Word.WITHIN, Word.CLOSE, Word.OVER]
    with pytest.raises(Exception, match="must lie from 0 to 10000 mm"):
        written.dusting_verdict(-1)


def test_guides_question_is_asked_of_every_fitting(
    written: ModuleType, surveyed: Surveyed, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each fitting has one finding of it, with its figure, in its place in the list."""
    about_function = (*BY_STAKE["fitting"][FUNCTION], written.DUSTING)
    monkeypatch.setitem(BY_STAKE["fitting"], FUNCTION, about_function)  # type: ignore[arg-type]
    monkeypatch.setitem(appraisal._STAKE, "dusting", CONSEQUENCES.index(FUNCTION))
    low, high = surveyed.fitting(mark="D1", z_mm=1000), surveyed.fitting(mark="D2", z_mm=2400)
    found = [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.question == "dusting"]
    assert [(one.subject.id, one.word, one.verdict.figure) for one in found] == [
        (high, Word.OVER, 2480),
        (low, Word.WITHIN, 1080),
    ]


def test_guides_calculation_is_done_by_hand(
    written: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its example is answered in the one shape, and the command line knows it."""
    monkeypatch.setitem(CALCULATIONS, "dusting", written.DUSTING_BY_HAND)  # type: ignore[arg-type]
    answer = calculate("dusting", written.DUSTING_BY_HAND.example)
    assert (answer["verdict"]["word"], answer["working"]) == ("close", [["Top above the floor", "1700 mm"]])
    monkeypatch.setattr("sys.stdin", io.StringIO(json.dumps({"top_mm": 2100})))
    assert main(["calc", "dusting"]) == 0
    assert json.loads(capsys.readouterr().out)["verdict"]["word"] == "over"


@pytest.fixture
def used_room(surveyed: Surveyed) -> Record:
    """The record of a site whose room has a use."""
    surveyed.book.write("room", {"use": "sail store"}, surveyed.room)
    return compile_record(surveyed.book, surveyed.site)


def test_guides_chapter_stands_in_the_record(
    used_room: Record, empty_book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A line and a partial: the chapter is among the contents under its number, and says what the book says."""
    shutil.copytree(TEMPLATES, tmp_path / "templates")
    partial = tmp_path / "templates" / "record" / "uses.html"
    partial.write_text(step("A chapter of the record", "jinja"), encoding="utf-8")
    present = typesetting.chapters

    def with_the_guides(record: Record) -> tuple[typesetting.Chapter, ...]:
        names: dict[str, Any] = {"record": record, "Chapter": typesetting.Chapter}
        there, chapter = eval(step("A chapter of the record"), names)
        return (*present(record), chapter) if there else present(record)

    monkeypatch.setattr(environment, "TEMPLATES", tmp_path / "templates")
    monkeypatch.setattr(typesetting, "chapters", with_the_guides)
    number = sum(not chapter.annex for chapter in with_the_guides(used_room))
    html = typesetting.typeset(used_room, empty_book, tmp_path).html
    assert f'<a href="#uses"><span class="number">{number}</span> What the rooms are used for</a>' in html
    assert re.search(r'id="uses".*R1 Long room</th><td>sail store</td>', html, re.DOTALL)
