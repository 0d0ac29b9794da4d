"""A yes is to the weight that was agreed to: what grew heavier since, or carries more, is asked about again."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.test_consent import agree, consent
from tests.sites import Surveyed


def agreed(surveyed: Surveyed, **more: Any) -> tuple[str, str, Word]:
    """A rail of 12 kg with one clamp, agreed to, and what that comes to once the rail is changed."""
    rail = surveyed.fitting(touches_face=0, mass_loaded_kg=12, carries_kg=8)
    clamp = surveyed.fixing(rail, adhesive=0, carries_load=1)
    agree(surveyed, rail)
    assert consent(surveyed, clamp).word is Word.AGREED
    surveyed.book.write("fitting", more, item=rail)
    return rail, clamp, consent(surveyed, clamp).word


@pytest.mark.parametrize(
    ("kg", "word"), [(21, Word.AGREED), (21.1, Word.NOT_AGREED), (40, Word.NOT_AGREED), (None, Word.NOT_KNOWN)]
)
def test_thing_that_grew_heavier_is_asked_about_again(surveyed: Surveyed, kg: float | None, word: Word) -> None:
    """Agreed at 12 kg that may carry 8 more: up to 20 · 1.05 = 21 kg it is as it was weighed then."""
    assert agreed(surveyed, mass_loaded_kg=kg)[2] is word


def test_what_is_hung_on_it_since_counts(surveyed: Surveyed) -> None:
    """12 kg and 9.5 hung on it are 21.5 kg, more than 21; on a rail that stands on the floor nobody asks."""
    rail, clamp, _ = agreed(surveyed)
    surveyed.fitting(mark="D2", hangs_on=rail, mass_loaded_kg=9.5)
    one = consent(surveyed, clamp)
    assert one.word is Word.NOT_AGREED
    assert "D1 weighs 21.5 kg with what hangs on it, not 20" in one.verdict.sentence
    surveyed.book.write("fitting", {"support": "the floor"}, item=rail)
    assert consent(surveyed, clamp).word is Word.AGREED


def test_yes_to_a_fixing_alone_is_to_the_weight_it_holds(surveyed: Surveyed) -> None:
    """The clamp is named, and its rail grew from 12 to 20 kg; one that carries no load holds no more than before."""
    rail = surveyed.fitting(touches_face=0, mass_loaded_kg=12)
    clamp = surveyed.fixing(rail, adhesive=0, carries_load=1)
    agree(surveyed, clamp)
    surveyed.book.write("fitting", {"mass_loaded_kg": 20}, item=rail)
    assert "D1 weighs 20 kg, not 12" in consent(surveyed, clamp).verdict.sentence
    surveyed.book.write("fixing", {"carries_load": 0}, item=clamp)
    assert consent(surveyed, clamp).word is Word.AGREED


def test_yes_to_contact_alone_is_to_no_weight(surveyed: Surveyed) -> None:
    """Of a yes that lists other acts nobody holds the weight to it; one to the load does."""
    rail = surveyed.fitting(touches_face=1, gives=["nothing"], mass_loaded_kg=12)
    agree(surveyed, rail, acts=["contact"])
    agree(surveyed, rail, acts=["load"], reference="A2")
    surveyed.book.write("fitting", {"mass_loaded_kg": 20}, item=rail)
    one = consent(surveyed, rail)
    assert one.word is Word.NOT_AGREED
    assert one.against is not None
    assert one.against.reference == "A2"


def test_yes_before_anything_was_weighed_is_to_no_weight(surveyed: Surveyed) -> None:
    """Agreed before its mass was entered; with 4 kg or with 40 it is to be asked about again, and then it is agreed."""
    rail = surveyed.fitting(touches_face=0)
    clamp = surveyed.fixing(rail, adhesive=0, carries_load=1)
    ruling = agree(surveyed, rail)
    unweighed = consent(surveyed, clamp)
    assert (unweighed.word, unweighed.missing[0].field) == (Word.NOT_KNOWN, "mass_loaded_kg")
    for kg in (4, 40):
        surveyed.book.write("fitting", {"mass_loaded_kg": kg}, item=rail)
        found = consent(surveyed, clamp)
        assert found.word is Word.NOT_AGREED
        assert f"D1 weighs {kg} kg, which was not entered then" in found.verdict.sentence
    surveyed.book.write("agreement", {"on": "2031-01-11"}, item=ruling)
    assert consent(surveyed, clamp).word is Word.AGREED


def test_what_takes_up_a_load_since_is_asked_about_again(surveyed: Surveyed) -> None:
    """A clamp that steadied a rail on the floor was agreed to; now the rail's 12 kg hang on it."""
    rail = surveyed.fitting(touches_face=0, mass_loaded_kg=12, support="the floor")
    clamp = surveyed.fixing(rail, adhesive=0, carries_load=0)
    steady = surveyed.fixing(rail, mark="D1.2", adhesive=0, carries_load=1)
    agree(surveyed, rail)
    assert consent(surveyed, clamp).word is Word.AGREED
    surveyed.book.write("fitting", {"support": "its fixings"}, item=rail)
    assert consent(surveyed, clamp).word is Word.AGREED
    assert "D1 weighs 12 kg, which the floor carried then" in consent(surveyed, steady).verdict.sentence
    surveyed.book.write("fixing", {"carries_load": 1}, item=clamp)
    assert "it carries load now" in consent(surveyed, clamp).verdict.sentence
