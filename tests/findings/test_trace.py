"""The expected trace of a fixing, held against what its hole, its glue, its lining and a test patch mean."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.climate import found
from tests.sites import Surveyed

OLD, LATER = "old fabric", "later work"


def trace(surveyed: Surveyed, **fixing: Any) -> Finding:
    """The finding about one fixing on limewash, which is as old as what it is said to go into."""
    age = "later" if fixing.get("fabric") == LATER else "old"
    return trace_on(surveyed, [["limewash", 1, age]], **fixing)


def trace_on(surveyed: Surveyed, layers: list[list[Any]] | None, **fixing: Any) -> Finding:
    """The finding about one fixing on a face of some layers."""
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    surveyed.fixing(surveyed.fitting(), **({"adhesive": 0, "lining": "polyethylene foam"} | fixing))
    return next(one for one in found(surveyed, "trace") if one.subject.kind == "fixing")


@pytest.mark.parametrize(
    ("fixing", "word"),
    [
        ({"fabric": OLD, "trace": "none"}, Word.WITHIN),
        ({"fabric": OLD, "trace": "a mark that cleans off"}, Word.WITHIN),
        ({"fabric": OLD, "hole": "existing", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "hole": "existing", "trace": "an old hole used again"}, Word.WITHIN),
        ({"fabric": LATER, "hole": "new", "penetration_mm": 1, "trace": "a new hole in later work"}, Word.WITHIN),
        ({"fabric": LATER, "hole": "new", "trace": "a new hole in later work"}, Word.NOT_KNOWN),  # how deep
        ({"fabric": LATER, "sort": "nail", "hole": "none", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "lining": "rubber", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "lining": "rubber", "trace": "a mark that cleans off"}, Word.NOT_KNOWN),
        ({"fabric": OLD, "lining": "rubber", "trace": "a new hole in old fabric"}, Word.WITHIN),
        ({"fabric": OLD, "lining": "mastic", "trace": "none"}, Word.NOT_KNOWN),
        ({"fabric": OLD, "lining": "mastic", "trace": "a new hole in old fabric"}, Word.WITHIN),
        ({"fabric": OLD, "lining": "brass", "trace": "none"}, Word.WITHIN),
        ({"fabric": OLD, "lining": None, "trace": "a mark that cleans off"}, Word.NOT_KNOWN),
        ({"fabric": OLD, "lining": None, "trace": "a new hole in old fabric"}, Word.WITHIN),
        ({"fabric": OLD, "adhesive": 1, "material": "foam", "trace": "a mark that cleans off"}, Word.NOT_KNOWN),
        ({"fabric": LATER, "sort": "adhesive pad", "lining": "none", "material": "foam", "trace": "none"}, Word.OVER),
        (
            {"fabric": LATER, "adhesive": 1, "material": "foam", "trace": "a mark that cleans off"},
            Word.NOT_KNOWN,
        ),
        ({"fabric": LATER, "adhesive": 1, "material": "foam", "trace": "a new hole in later work"}, Word.WITHIN),
        ({"fabric": LATER, "lining": "rubber", "trace": "none"}, Word.OVER),
        ({"fabric": LATER, "trace": "none"}, Word.WITHIN),
        ({"fabric": "another fitting", "trace": "none"}, Word.DOES_NOT_APPLY),
    ],
)
def test_trace_is_not_merely_chosen(surveyed: Surveyed, fixing: dict[str, Any], word: Word) -> None:
    """A hole, a glue and a lining that stains each mean a least trace; what is expected may not be less."""
    assert trace(surveyed, **fixing).word is word


@pytest.mark.parametrize(
    ("depth", "word"),
    [
        (12, Word.WITHIN),
        (30, Word.OVER),
        (None, Word.NOT_KNOWN),
    ],
)
def test_hole_through_later_plaster_is_a_hole_in_what_is_old_behind(
    surveyed: Surveyed, depth: float | None, word: Word
) -> None:
    """13 mm of later plaster hold 12 mm of a screw; one of 30 mm leaves a hole of 17 mm in the old stone."""
    layers = [["gypsum plaster", 13, "later"], ["rubble stone", 600, "old"]]
    screw = {"sort": "wood screw", "hole": "new", "fabric": LATER, "trace": "a new hole in later work"}
    one = trace_on(surveyed, layers, **screw | {"penetration_mm": depth})
    assert one.word is word
    if word is Word.OVER:
        assert "a new hole through to what is old behind leaves a new hole in old fabric" in one.verdict.sentence
        assert "Enter that it goes into old fabric" in one.verdict.sentence


@pytest.mark.parametrize(
    ("seen", "expected", "word"),
    [
        ("no trace", "none", Word.WITHIN),
        ("a mark that cleans off", "none", Word.OVER),
        ("a mark that cleans off", "a mark that cleans off", Word.WITHIN),
        ("a mark that stays", "a mark that cleans off", Word.OVER),
        (None, "none", Word.NOT_KNOWN),
    ],
)
def test_patch_that_stayed_a_mark_contradicts_none(
    surveyed: Surveyed, seen: str | None, expected: str, word: Word
) -> None:
    """What was seen under a patch of the very lining outweighs what was hoped."""
    laid = {"face": surveyed.face, "mark": "T1", "material": "rubber", "laid_against": "limewash"}
    surveyed.book.write("patch", laid | {"laid_on": "2025-01-02", "looked_on": "2025-06-01", "found": seen})
    one = trace(surveyed, lining="rubber 3 mm", trace=expected)
    assert one.word is word
    if word is Word.OVER:
        assert "T1" in one.verdict.sentence


def test_face_nobody_described_is_asked_about_whatever_it_is_said_to_be(surveyed: Surveyed) -> None:
    """Behind what is said to be later work may stand old stone, until somebody says what the face is made of."""
    one = trace_on(surveyed, None, fabric=LATER, hole="new", penetration_mm=30, trace="a new hole in later work")
    assert (one.word, [blank.field for blank in one.missing]) == (Word.NOT_KNOWN, ["layers"])


def test_what_is_known_to_leave_more_is_over_whatever_is_not_entered(surveyed: Surveyed) -> None:
    """An old hole is used again, whatever the face is made of and however deep it goes."""
    hole = {"fabric": LATER, "hole": "existing", "penetration_mm": 90, "trace": "a mark that cleans off"}
    assert trace_on(surveyed, None, **hole).word is Word.OVER


def test_patch_on_later_work_shows_what_a_pad_leaves_there(surveyed: Surveyed) -> None:
    """One that left a mark that cleans off bears that out; one that left a mark that stays is more than expected."""
    pad = {"fabric": LATER, "sort": "adhesive pad", "material": "foam", "lining": "none"}
    laid = {"face": surveyed.face, "mark": "T1", "material": "foam", "laid_against": "limewash"}
    seen = {"laid_on": "2025-01-10", "looked_on": "2026-01-10", "found": "a mark that cleans off"}
    patch = surveyed.book.write("patch", laid | seen)
    assert trace(surveyed, **pad, trace="a mark that cleans off").word is Word.WITHIN
    surveyed.book.write("patch", {"found": "a mark that stays"}, item=patch)
    assert {one.word for one in found(surveyed, "trace")} == {Word.OVER}
