"""What burns, what breaks, and what is shut in with old things."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding
from tests.findings.climate import found
from tests.sites import Surveyed


def one(surveyed: Surveyed, question: str, **fitting: Any) -> Finding:
    """The finding of a question about one fitting."""
    surveyed.fitting(**fitting)
    return found(surveyed, question)[0]


@pytest.mark.parametrize(
    ("limit", "own", "word"),
    # EN 13501-1:2018: A1, A2, B, C, D, E, F, the best first
    [("B", "A2", Word.WITHIN), ("B", "B", Word.WITHIN), ("B", "D", Word.OVER), (None, "A1", Word.WITHIN)],
)
def test_reaction_to_fire_is_held_against_the_limit_somebody_set(
    surveyed: Surveyed, limit: str | None, own: str, word: Word
) -> None:
    """The order of the classes decides; what does not burn at all keeps any limit."""
    surveyed.book.write("room", {"fire_limit": limit}, item=surveyed.room)
    assert one(surveyed, "fire", fire_class=own).word is word


def test_limit_nobody_set_is_asked_for_of_the_room(surveyed: Surveyed) -> None:
    """One entry settles all that hangs in it."""
    missing = one(surveyed, "fire", fire_class="D").missing
    assert [(blank.item.kind, blank.field) for blank in missing] == [("room", "fire_limit")]


@pytest.mark.parametrize(
    ("glass", "underside", "sort", "word"),
    [
        ("none", 2600, "wall", Word.DOES_NOT_APPLY),
        ("toughened", 1500, "wall", Word.WITHIN),  # Approved Document K, 2013, 5.4: class 3 of EN 12600
        ("toughened", 2100, "wall", Word.OVER),  # breaks into pieces that fall: C
        ("laminated", 2100, "wall", Word.WITHIN),  # breaks and holds together: B
        ("laminated", 500, "ceiling", Word.WITHIN),
        ("toughened", 500, "ceiling", Word.OVER),
        ("other glass", 1500, "wall", Word.OVER),
        ("other glass", 2100, "wall", Word.OVER),
        (None, 1500, "wall", Word.NOT_KNOWN),
    ],
)
def test_glass_within_reach_or_overhead_breaks_safely(
    surveyed: Surveyed, glass: str | None, underside: float, sort: str, word: Word
) -> None:
    """Overhead it has to hold together, within reach it has to break into what does not cut."""
    surveyed.book.write("face", {"sort": sort}, item=surveyed.face)
    assert one(surveyed, "glass", glass=glass, z_mm=underside).word is word


def test_pane_on_a_face_that_leans_is_overhead(surveyed: Surveyed) -> None:
    """On a face of another sort its slope decides, and has to be entered."""
    surveyed.book.write("face", {"sort": "other", "slope_deg": None}, item=surveyed.face)
    asked = one(surveyed, "glass", glass="toughened", z_mm=500)
    assert (asked.word, asked.missing[0].field) == (Word.NOT_KNOWN, "slope_deg")
    surveyed.book.write("face", {"slope_deg": 10}, item=surveyed.face)
    assert found(surveyed, "glass")[0].word is Word.WITHIN


@pytest.mark.parametrize(
    ("case", "word"),
    [
        ({"closed": 0}, Word.DOES_NOT_APPLY),
        ({"closed": 1, "made_of": "glass, steel"}, Word.WITHIN),
        ({"closed": 1, "made_of": "plywood", "tested_as": "not tested"}, Word.NOT_KNOWN),
        ({"closed": 1, "made_of": "glass on plywood", "tested_as": "not tested"}, Word.NOT_KNOWN),
        ({"closed": 1, "made_of": "plywood", "tested_as": "permanent"}, Word.WITHIN),
        ({"closed": 1, "made_of": "plywood", "tested_as": "unsuitable"}, Word.OVER),
        ({"closed": 1, "made_of": "plywood", "tested_as": "temporary"}, Word.OVER),  # two years against six months
        ({"made_of": "glass"}, Word.WITHIN),
        ({}, Word.NOT_KNOWN),
    ],
)
def test_closed_case_is_judged_by_a_test_of_what_it_is_made_of(
    surveyed: Surveyed, case: dict[str, Any], word: Word
) -> None:
    """No limit is published: bare glass and metal are inert, anything else needs a test (British Museum OP 111)."""
    surveyed.book.write("site", {"stands_years": 2}, item=surveyed.site)
    assert one(surveyed, "gives-off", **case).word is word


def test_what_nobody_called_a_case_is_asked_about_before_what_it_is_made_of(surveyed: Surveyed) -> None:
    """One tick settles most fittings: they are no closed cases."""
    assert [blank.field for blank in one(surveyed, "gives-off").missing] == ["closed"]
