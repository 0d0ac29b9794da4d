"""Who else has to decide, and what they decided."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import BLOCK, HUNG, STATED, found
from tests.sites import Surveyed

PASSING = [["what swings, passes or must be seen", "fitter", "walked it", "2026-05-04"]]
ENGINEER = {"role": "structural engineer", "answer": "yes", "words": "holds", "document": "letter"}


def hung(surveyed: Surveyed, **more: Any) -> str:
    """A fitting on a hook of the wall, where somebody looked for what passes, and of which the layers are known."""
    values = {"layers": [["limestone", 400, "old"]], "looked_for": PASSING}
    surveyed.book.write("face", values, item=surveyed.face)
    rail = surveyed.fitting(**HUNG | {"mass_loaded_kg": 12, "gives": ["nothing"]} | more)
    surveyed.fixing(rail, sort="hook", x_mm=1200, z_mm=1250, stated_load_n=900, adhesive=0, **STATED)
    return rail


def decided(surveyed: Surveyed, item: str, question: str = "specialist", **more: Any) -> str:
    """A decision of a year ago about an item."""
    given = {"site": surveyed.site, "reference": "E1", "items": [item], "question": question, "on": days(-365)}
    return surveyed.book.write("decision", given | ENGINEER | more)


def days(number: int) -> str:
    """A day from today."""
    return (date.today() + timedelta(number)).isoformat()


def test_small_thing_within_reach_is_for_nobody_else_to_decide(surveyed: Surveyed) -> None:
    """12 kg at a metre on known stone, where nobody passes out."""
    hung(surveyed)
    assert found(surveyed, "specialist")[0].word is Word.DOES_NOT_APPLY


@pytest.mark.parametrize(
    ("more", "who"),
    [
        ({"mass_loaded_kg": 21}, "structural engineer"),
        ({"z_mm": 1900}, "structural engineer"),
        ({"climbable": 1, "pull_n": 300}, "structural engineer"),
        ({"gives": ["light"]}, "electrician"),
    ],
)
def test_what_a_specialist_decides_is_a_finding(surveyed: Surveyed, more: dict[str, Any], who: str) -> None:
    """It is not known until they have, and says who and why."""
    hung(surveyed, **more)
    (one,) = found(surveyed, "specialist")
    assert one.word is Word.NOT_KNOWN
    assert who in one.verdict.sentence


@pytest.mark.parametrize(
    ("room", "layers", "who"),
    [
        ({"hazards": ["escape route"]}, None, "fire officer"),
        ({"hazards": ["dust"]}, [["cast iron", 20, "old"]], "structural engineer"),
        ({"hazards": ["dust"]}, [], "structural engineer"),
    ],
)
def test_way_out_iron_and_unknown_fabric_call_for_somebody(
    surveyed: Surveyed, room: dict[str, Any], layers: list[Any] | None, who: str
) -> None:
    """Cast iron breaks without warning, and nobody knows what is behind a face without layers."""
    hung(surveyed)
    surveyed.book.write("room", room, item=surveyed.room)
    if layers is not None:
        surveyed.book.write("face", {"layers": layers or None}, item=surveyed.face)
    (one,) = found(surveyed, "specialist")
    assert one.word is Word.NOT_KNOWN
    assert who in one.verdict.sentence


@pytest.mark.parametrize(("bears_on", "called"), [("putty", True), ("limestone", False)])
def test_material_of_the_sites_own_does_not_say_what_a_building_is_of(
    surveyed: Surveyed, bears_on: str, called: bool
) -> None:
    """What was crushed on the bench may fill iron; without layers of the face nobody knows."""
    surveyed.looked()
    surveyed.book.write("material", BLOCK | {"site": surveyed.site, "name": "putty"})
    rail = surveyed.fitting(**HUNG | {"mass_loaded_kg": 3, "touches_face": 0, "gives": ["nothing"]})
    surveyed.fixing(rail, bears_on=bears_on, adhesive=0, x_mm=1100, z_mm=1100)
    (one,) = found(surveyed, "specialist")
    assert ("nobody knows what D1.1 goes into" in one.verdict.sentence) is called


@pytest.mark.parametrize(
    ("more", "word"),
    [
        ({}, Word.AGREED),
        ({"answer": "no"}, Word.REFUSED),
        ({"until": days(-1)}, Word.NOT_KNOWN),
        ({"until": days(0)}, Word.AGREED),
        ({"on": days(1)}, Word.NOT_KNOWN),
        ({"role": "keeper"}, Word.NOT_KNOWN),
    ],
)
def test_decision_with_its_document_settles_it(surveyed: Surveyed, more: dict[str, Any], word: Word) -> None:
    """Given, not past its end, and by whoever has to."""
    rail = hung(surveyed, mass_loaded_kg=40)
    decided(surveyed, rail, **more)
    (one,) = found(surveyed, "specialist")
    assert one.word is word
    assert ("letter" in one.verdict.sentence) is (word is not Word.NOT_KNOWN)


def test_every_specialist_has_to_have_decided(surveyed: Surveyed) -> None:
    """An engineer's yes is no electrician's."""
    rail = hung(surveyed, mass_loaded_kg=40, gives=["light"])
    decided(surveyed, rail)
    assert found(surveyed, "specialist")[0].word is Word.NOT_KNOWN
    decided(surveyed, rail, reference="E2", role="electrician")
    assert found(surveyed, "specialist")[0].word is Word.AGREED


def test_decision_on_a_fitting_covers_its_fixings_and_never_reads_within(surveyed: Surveyed) -> None:
    """A hook the engineer agreed to shows that; one decided against is refused; the latest rules."""
    rail = hung(surveyed)
    surveyed.book.write("fixing", {"stated_load_n": None}, item=found(surveyed, "pull")[0].subject.id)
    assert found(surveyed, "pull")[0].word is Word.NOT_KNOWN
    decided(surveyed, rail, "pull")
    (one,) = found(surveyed, "pull")
    assert (one.word, one.missing) == (Word.AGREED, ())
    assert "Decided by the structural engineer (letter of" in one.verdict.sentence
    decided(surveyed, rail, "pull", reference="E2", answer="no", on=days(-365))  # on one day the no
    assert found(surveyed, "pull")[0].word is Word.REFUSED
    decided(surveyed, rail, "pull", reference="E3", on=days(-2))
    assert found(surveyed, "pull")[0].word is Word.AGREED


def test_decision_is_about_the_thing_as_it_was(surveyed: Surveyed) -> None:
    """Item 7: an engineer who agreed to 30 kg has not agreed to 150; less is covered, and so is a note."""
    rail = hung(surveyed, mass_loaded_kg=30)
    decided(surveyed, rail)
    for kilograms, word in ((29, Word.AGREED), (150, Word.NOT_KNOWN)):
        surveyed.book.write("fitting", {"mass_loaded_kg": kilograms, "note": "oiled"}, item=rail)
        assert found(surveyed, "specialist")[0].word is word


def test_decision_no_longer_counts_once_more_hangs_on_the_thing(surveyed: Surveyed) -> None:
    """He decided on a shelf of 32 kg; a lamp hung on it since is more, one that hung there then is not."""
    shelf = hung(surveyed, mass_loaded_kg=32)
    lamp = surveyed.fitting(mark="D2", x_mm=3000, mass_loaded_kg=2, climbable=0)
    surveyed.book.write("fitting", {"hangs_on": shelf}, item=lamp)
    decided(surveyed, shelf)
    assert found(surveyed, "specialist", "D1")[0].word is Word.AGREED
    second = surveyed.fitting(mark="D3", x_mm=3000, z_mm=2000, mass_loaded_kg=2, climbable=0)
    assert found(surveyed, "specialist", "D1")[0].word is Word.AGREED
    surveyed.book.write("fitting", {"hangs_on": shelf}, item=second)
    assert found(surveyed, "specialist", "D1")[0].word is Word.NOT_KNOWN


def test_engineer_is_asked_above_twenty_kilograms_with_all_that_hangs(surveyed: Surveyed) -> None:
    """17 kg and a lamp of 3.4 kg on it are 20.4; the lamp of 3 kg left it at 20, which is for the fitter."""
    shelf = hung(surveyed, mass_loaded_kg=17)
    lamp = surveyed.fitting(mark="D2", x_mm=3000, mass_loaded_kg=3, climbable=0, gives=["nothing"], hangs_on=shelf)
    assert found(surveyed, "specialist", "D1")[0].word is Word.DOES_NOT_APPLY
    surveyed.book.write("fitting", {"mass_loaded_kg": 3.4}, item=lamp)
    (asked,) = found(surveyed, "specialist", "D1")
    assert asked.word is Word.NOT_KNOWN
    assert "20.4 kg with all it carries, above 20 kg" in asked.verdict.sentence


def test_lamp_of_which_nobody_said_what_it_gives_off_is_asked_about(surveyed: Surveyed) -> None:
    """Light and heat are an electrician's: a blank is not none."""
    hung(surveyed, gives=None)
    assert [blank.field for blank in found(surveyed, "specialist")[0].missing] == ["gives"]


def test_hole_where_nobody_looked_for_asbestos_rules_nobody_out(surveyed: Surveyed) -> None:
    """That asbestos and current are no hazards of a room says nothing until somebody looked for them."""
    hole = {"hole": "new", "trace": "a new hole in old fabric", "x_mm": 1300, "z_mm": 1250, "stated_load_n": 900}
    surveyed.fixing(hung(surveyed), mark="D1.2", sort="hook", adhesive=0, **hole, **STATED)
    one = found(surveyed, "specialist")[0]
    assert one.word is Word.NOT_KNOWN
    assert "asbestos" in one.verdict.sentence
    surveyed.looked()
    assert found(surveyed, "specialist")[0].word is Word.DOES_NOT_APPLY
