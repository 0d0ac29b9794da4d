"""What is looked for before a hole is made."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.at_point import answer
from tests.findings.asked import TODAY, one
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


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("asbestos insulating board", Word.OVER),
        ("Asbestos cement", Word.OVER),
        ("asbestos board, not to be drilled", Word.OVER),
        ("no plaster, asbestos board", Word.OVER),
        ("Asbestzementplatte", Word.OVER),
        ("azbestová deska", Word.OVER),
        ("plaque d’amiante-ciment", Word.OVER),
        ("AIB panel", Word.OVER),
        ("Faserplatte, asbestfrei", Word.WITHIN),
        ("fibrociment sans amiante", Word.WITHIN),
        ("asbestos-free board", Word.WITHIN),
        ("board free of asbestos", Word.WITHIN),
        ("lead-based oil paint, no longer sound", Word.CLOSE),
        ("lead-free paint", Word.WITHIN),
        ("red brick with lead flashing", Word.WITHIN),
        ("old lead paint", Word.CLOSE),
        ("white lead", Word.CLOSE),
        ("lead sheet", Word.WITHIN),
    ],
)
@pytest.mark.parametrize("of", ["layer", "board"])
def test_hazard_in_the_name_of_what_a_wall_is_made_of_counts_as_entered(
    surveyed: Surveyed, of: str, name: str, word: Word
) -> None:
    """It stands there though nobody ticked it among the hazards of the room, and though it was looked for."""
    surveyed.looked()
    layers = [["limewash", 1, "later"], [name if of == "layer" else "brick", 9, "later"]]
    surveyed.book.write("face", {"layers": layers}, item=surveyed.face)
    if of == "board":
        size = {"x_mm": 0, "z_mm": 0, "width_mm": 900, "height_mm": 900}
        surveyed.book.write("member", {"face": surveyed.face, "sort": "board", "mark": "J1", "material": name} | size)
    light = {"mass_loaded_kg": 2, "climbable": 0, "touches_face": 1, "gives": ["nothing"]}
    found = one(surveyed, "before-hole", surveyed.fixing(surveyed.fitting(**light), **DRILLED))
    assert found.word is word
    if word is Word.OVER:
        assert "Asbestos is entered for R1-N" in found.verdict.sentence
        assert "R1-N has asbestos" in one(surveyed, "specialist", found.subject.fitting).verdict.sentence
        site = gather(surveyed.book, surveyed.site)
        here = answer(site, site[surveyed.face], 500, 500, radius_mm=5, today=TODAY)
        assert [act.answer for act in here.acts if act.act == "drilling"] == ["no"]


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


def test_hole_that_is_there_is_said_to_do_only_where_that_is_known(surveyed: Surveyed) -> None:
    """Of a hole 40 mm deep, how deep the fixing goes decides: it is asked for unless a new hole would be fine too."""
    hold = {"face": surveyed.face, "mark": "H1", "sort": "hole", "x_mm": 1100, "z_mm": 1540, "may_be_used": "yes"}
    hole = surveyed.book.write("hold", hold | {"depth_mm": 40, "said_by": "the keeper"})
    hook = surveyed.fixing(surveyed.fitting(), hole="existing", hold=hole, penetration_mm=None)
    found = one(surveyed, "before-hole", hook)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["penetration_mm"])
    found = one(surveyed, "consent", hook)
    assert (found.word, [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, ["penetration_mm"])
    surveyed.looked()
    assert one(surveyed, "before-hole", hook).word is Word.WITHIN
    surveyed.zone(outline=[[1000, 1440], [1200, 1440], [1200, 1640], [1000, 1640]], forbids=["drilling"])
    found = one(surveyed, "keep-off", hook)
    assert (found.word, "penetration_mm" in [blank.field for blank in found.missing]) == (Word.NOT_KNOWN, True)
    surveyed.book.write("hold", {"depth_mm": None}, item=hole)
    assert "By what is entered it uses a hole" in one(surveyed, "before-hole", hook).verdict.sentence
    surveyed.book.write("hold", {"depth_mm": 40}, item=hole)
    surveyed.book.write("fixing", {"penetration_mm": 30}, item=hook)
    assert "no deeper than the hole" in one(surveyed, "before-hole", hook).verdict.sentence


def test_services_that_are_entered_for_the_room_are_told_before_a_hole(surveyed: Surveyed) -> None:
    """They were looked for and found: that is no wall without them; with lead paint both are told."""
    surveyed.looked()
    hole = surveyed.fixing(surveyed.fitting(), **DRILLED)
    surveyed.book.write("room", {"hazards": ["hidden services", "dust"]}, item=surveyed.room)
    found = one(surveyed, "before-hole", hole)
    assert (found.word, "Hidden services are entered for R1" in found.verdict.sentence) == (Word.CLOSE, True)
    surveyed.book.write("room", {"hazards": ["hidden services", "old lead paint"]}, item=surveyed.room)
    said = one(surveyed, "before-hole", hole).verdict.sentence
    assert ("Hidden services" in said, "Old lead paint" in said) == (True, True)
