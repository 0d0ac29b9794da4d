"""How many new holes a yes covers: those drilled where it is about, and those that come out there."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings.act_here import Act
from fieldbook.findings.at_point import answer
from tests.findings.asked import TODAY, one
from tests.findings.test_through import BOLT, PLACE, bolt, partition, square, yes
from tests.sites import Surveyed


def both_faces(surveyed: Surveyed, holes: int, at_x: float = 1100, **more: Any) -> tuple[str, str]:
    """A bolt in the long room that comes out in the store, where the keeper agreed to so many holes; one is there."""
    store = partition(surveyed, layers=[["lime plaster", 20, "old"]], wall_mm=103)
    through = bolt(surveyed, carries_load=0)
    yes(surveyed, through)
    rail = surveyed.fitting(mark="D2", face=store, x_mm=at_x - 100, gives=["nothing"])
    there = {"mark": "D2.1", "face": store, "x_mm": at_x, "z_mm": 1540, "penetration_mm": 40, "carries_load": 0}
    yes(surveyed, store, **PLACE | {"reference": "A2", "holes": holes} | more)
    return through, surveyed.fixing(rail, **BOLT | there)


@pytest.mark.parametrize(("holes", "word"), [(1, Word.NOT_AGREED), (2, Word.AGREED)])
def test_hole_that_comes_out_counts_where_it_does(surveyed: Surveyed, holes: int, word: Word) -> None:
    """One hole drilled in the store and one that comes out there are two: one was agreed to, or both."""
    _, there = both_faces(surveyed, holes)
    found = one(surveyed, "consent", there)
    assert found.word is word
    if word is Word.NOT_AGREED:
        assert "2 new holes are planned or made, not 1" in found.verdict.sentence


def test_hole_that_comes_out_beside_an_area_does_not_count_in_it(surveyed: Surveyed) -> None:
    """It comes out at x = 3,900 in the store; the area agreed to is about the one at 1,100."""
    _, there = both_faces(surveyed, 1, outline=square(1100, 1540))
    assert one(surveyed, "consent", there).word is Word.AGREED


def test_bolt_that_is_entered_on_both_faces_is_one_hole(surveyed: Surveyed) -> None:
    """Its other end, 4 mm beside where it comes out, is the same hole as the one in the long room."""
    _, there = both_faces(surveyed, 1, at_x=3904)
    assert one(surveyed, "consent", there).word is Word.AGREED


@pytest.mark.parametrize(("holes", "word"), [(1, Word.NOT_KNOWN), (2, Word.AGREED)])
def test_whether_a_hole_comes_out_is_asked_where_that_is_one_too_many(
    surveyed: Surveyed, holes: int, word: Word
) -> None:
    """How deep the bolt goes is not entered: where two were agreed to, nobody need know."""
    through, there = both_faces(surveyed, holes)
    surveyed.book.write("fixing", {"penetration_mm": None, "length_mm": None}, item=through)
    found = one(surveyed, "consent", there)
    assert found.word is word
    if word is Word.NOT_KNOWN:
        assert [(blank.item.id, blank.field) for blank in found.missing] == [(through, "penetration_mm")]


def test_answer_at_a_point_counts_what_comes_out_on_either_side(surveyed: Surveyed) -> None:
    """Both holes agreed to are there: a third is one too many, from the store and through the wall into it."""
    both_faces(surveyed, 2)
    surveyed.book.write("site", {"asks_about_later_work": 0}, item=surveyed.site)
    site = gather(surveyed.book, surveyed.site)
    (store,) = (face for face in site.all("face") if face.mark == "R2-S")

    def drilling(face: str, x: float, deep: float) -> Act:
        return answer(site, site[face], x, 1000, 5.0, deep, TODAY).acts[0]

    past = "agrees to 2 new holes, and 2 are planned or made."
    for found in (drilling(store.id, 2000, 40), drilling(surveyed.face, 3000, 103)):
        assert (found.answer, past in found.why) == ("ask the keeper", True)
    assert past not in drilling(surveyed.face, 3000, 60).why
    assert drilling(surveyed.face, 3000, 60).answer == "nothing against it"
