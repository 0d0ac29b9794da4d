"""The trace foretold for a fixing, held against what its hole, its glue, its lining and a test patch mean."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.climate import found
from tests.sites import Surveyed

OLD, LATER = "old fabric", "later work"


def trace(surveyed: Surveyed, **fixing: Any) -> Finding:
    """The finding about one fixing on limewash."""
    surveyed.book.write("face", {"layers": [["limewash", 1, "old"]]}, item=surveyed.face)
    surveyed.fixing(surveyed.fitting(), **({"adhesive": 0, "lining": "polyethylene foam"} | fixing))
    return next(one for one in found(surveyed, "trace") if one.subject.kind == "fixing")


@pytest.mark.parametrize(
    ("fixing", "word"),
    [
        ({"fabric": OLD, "trace": "none"}, Word.WITHIN),
        ({"fabric": OLD, "trace": "a mark that cleans off"}, Word.WITHIN),
        ({"fabric": OLD, "hole": "existing", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "hole": "existing", "trace": "an old hole used again"}, Word.WITHIN),
        ({"fabric": LATER, "hole": "new", "trace": "a new hole in later work"}, Word.WITHIN),
        ({"fabric": LATER, "sort": "nail", "hole": "none", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "lining": "rubber", "trace": "none"}, Word.OVER),
        ({"fabric": OLD, "lining": "rubber", "trace": "a mark that cleans off"}, Word.NOT_KNOWN),
        ({"fabric": OLD, "adhesive": 1, "material": "foam", "trace": "a mark that cleans off"}, Word.NOT_KNOWN),
        ({"fabric": LATER, "adhesive": 1, "lining": "rubber", "trace": "none"}, Word.WITHIN),
        ({"fabric": "another fitting", "trace": "none"}, Word.DOES_NOT_APPLY),
    ],
)
def test_trace_is_not_merely_chosen(surveyed: Surveyed, fixing: dict[str, Any], word: Word) -> None:
    """A hole, a glue and a lining that stains each mean a least trace; what is foretold may not be less."""
    assert trace(surveyed, **fixing).word is word


@pytest.mark.parametrize(
    ("seen", "foretold", "word"),
    [
        ("no trace", "none", Word.WITHIN),
        ("a mark that cleans off", "none", Word.OVER),
        ("a mark that cleans off", "a mark that cleans off", Word.WITHIN),
        ("a mark that stays", "a mark that cleans off", Word.OVER),
        (None, "none", Word.NOT_KNOWN),
    ],
)
def test_patch_that_stayed_a_mark_contradicts_none(
    surveyed: Surveyed, seen: str | None, foretold: str, word: Word
) -> None:
    """What was seen under a patch of the very lining outweighs what was hoped."""
    laid = {"face": surveyed.face, "mark": "T1", "material": "rubber", "laid_against": "limewash"}
    surveyed.book.write("patch", laid | {"laid_on": "2025-01-02", "looked_on": "2025-06-01", "found": seen})
    one = trace(surveyed, lining="rubber 3 mm", trace=foretold)
    assert one.word is word
    if word is Word.OVER:
        assert "T1" in one.verdict.sentence
