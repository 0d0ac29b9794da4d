"""What is looked for before a hole is made."""

from __future__ import annotations

from fieldbook.checks.verdict import Word
from tests.findings.asked import one
from tests.sites import Surveyed

DRILLED = {"hole": "new", "trace": "a new hole in old fabric"}


def test_services_asbestos_and_lead_are_each_looked_for_before_a_hole(surveyed: Surveyed) -> None:
    """One look settles one of the three; all three make it fine, with who looked."""
    hole = surveyed.fixing(surveyed.fitting(), **DRILLED)
    found = one(surveyed, "before-hole", hole)
    assert (found.word, len(found.missing)) == (Word.NOT_KNOWN, 3)
    surveyed.looked("services in the wall", "asbestos")
    (left,) = one(surveyed, "before-hole", hole).missing
    assert "old lead paint" in left.words
    surveyed.looked()
    found = one(surveyed, "before-hole", hole)
    assert found.word is Word.WITHIN
    assert "the surveyor" in found.verdict.sentence


def test_asbestos_that_was_found_stops_the_hole(surveyed: Surveyed) -> None:
    """Looked for and found is no hole until whoever is licensed has spoken."""
    surveyed.looked()
    surveyed.book.write("room", {"hazards": ["asbestos"]}, item=surveyed.room)
    assert one(surveyed, "before-hole", surveyed.fixing(surveyed.fitting(), **DRILLED)).word is Word.OVER


def test_what_makes_no_hole_is_not_asked(surveyed: Surveyed) -> None:
    """A clamp makes none; a hook in an old hole makes none unless it goes deeper than the hole."""
    rail = surveyed.fitting()
    assert one(surveyed, "before-hole", surveyed.fixing(rail)).word is Word.DOES_NOT_APPLY
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hole", "x_mm": 1100, "z_mm": 1540, "may_be_used": "yes"}
    hole = surveyed.book.write("hold", hold | {"depth_mm": 40})
    used = {"hole": "existing", "hold": hole, "trace": "an old hole used again"}
    shallow, deep = (surveyed.fixing(rail, penetration_mm=depth, **used) for depth in (40, 45))
    assert one(surveyed, "before-hole", shallow).word is Word.DOES_NOT_APPLY
    assert one(surveyed, "before-hole", deep).word is Word.NOT_KNOWN
