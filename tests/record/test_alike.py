"""Things that share mark and name, through the record; tests/findings and tests/js run the same site."""

from __future__ import annotations

import pytest

from fieldbook.book.book import Book
from fieldbook.record.compile import compile_record
from fieldbook.record.contents import Record
from tests.cases.shared import cases

CASE = cases("alike")
RAIL, HANGING = [one["subject"] for one in CASE["clearance"]]


@pytest.fixture
def record(empty_book: Book) -> Record:
    """The record of the site whose things share their marks."""
    for one in CASE["items"]:
        empty_book.write(one["kind"], one["values"], one["id"])
    return compile_record(empty_book, CASE["items"][0]["id"])


def test_no_chapter_is_emptied_and_none_merged(record: Record) -> None:
    """Each fitting has its sheet, each face its own, and both come down, the hanging one first."""
    assert [sheet.fitting.id for sheet in record.sheets] == [RAIL, HANGING]
    assert [len(sheet.fixings) for sheet in record.sheets] == [1, 1]
    assert [(step.stage, step.fitting.id) for step in record.removal.steps] == [(1, HANGING), (2, RAIL)]
    assert [[one.id for one in step.after] for step in record.removal.steps] == [[], [HANGING]]
    assert [step.tools for step in record.removal.steps] == [("spanner",), ("hex key",)]
    assert record.removal.problem == ""
    assert len(record.rooms[0].faces) == 2


def test_what_is_told_of_one_is_not_told_of_the_other(record: Record) -> None:
    """Only the rail that stands out too far is over its limit, on its own sheet."""
    over = [[one.verdict.check for one in sheet.answers if one.verdict.word == "over"] for sheet in record.sheets]
    assert set(over[0]) == {"clearance", "keep-off", "projection"}
    assert over[1] == []


def test_readings_of_two_faces_of_one_mark_stay_two(record: Record) -> None:
    """Each face has a line of its own, with its own figure."""
    told = [(one.where, one.number, one.lowest) for one in record.rooms[0].readings]
    assert told == [("R1-N", 1, 8), ("R1-N", 1, 12)]


def test_shared_marks_are_among_the_gaps(record: Record) -> None:
    """Whoever reads the record is told that some marks stand for two things."""
    shared = {(gap.kind, gap.items) for gap in record.gaps if "a mark of its own" in gap.missing}
    assert shared >= {("face", "R1-N, R1-N"), ("zone", "K1, K1"), ("limit", "L1, L1"), ("fixing", "D1.1")}
