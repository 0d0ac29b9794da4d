"""What carries a fixing by its place: a joist, a board or an old hook that lies where it is, named with it or not."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.checks.verdict import Word
from tests.findings.hung import HUNG, STATED, ceiling, found, joist
from tests.sites import Surveyed

LOAD = {"stated_load_n": 900} | STATED
HOOK: dict[str, Any] = {"sort": "hook", "hole": "existing", "x_mm": 1200, "z_mm": 950, "off_plumb_deg": 0} | LOAD
OLD_HOOK: dict[str, Any] = {"mark": "H1", "sort": "hook", "x_mm": 1200, "z_mm": 950, "may_be_used": "yes"}
SAID = {"load_limit_n": 900, "load_said_by": "harbour engineer, drawing of 1988"}


def lamp(surveyed: Surveyed, **more: Any) -> tuple[str, str]:
    """A lamp of 20 kg, 196.2 N, on one hook in a ceiling."""
    face = ceiling(surveyed)
    surveyed.book.write("face", {"layers": [["lime plaster", 25, "old"], ["oak", None, "old"]]}, item=face)
    hung = surveyed.fitting(**HUNG | {"face": face, "z_mm": 900, "height_mm": 100, "touches_face": 0})
    return face, surveyed.fixing(hung, face=face, **HOOK | more)


@pytest.mark.parametrize(("limit_n", "word"), [(150, Word.OVER), (900, Word.WITHIN), (None, Word.NOT_KNOWN)])
@pytest.mark.parametrize("hold", [True, False])
def test_hook_is_held_to_the_joist_it_lies_in(
    surveyed: Surveyed, limit_n: float | None, word: Word, hold: bool
) -> None:
    """196.2 N in a joist for which 150 N are agreed, though the old hook alone is named, or nothing is."""
    face, hook = lamp(surveyed)
    beam = joist(surveyed, face, load_limit_n=limit_n)
    if hold:
        old = surveyed.book.write("hold", OLD_HOOK | SAID | {"face": face})
        surveyed.book.write("fixing", {"hold": old}, item=hook)
    (one,) = found(surveyed, "carrier")
    assert (one.word, one.verdict.figure) == (word, pytest.approx(196.2, abs=0.1))
    if limit_n is None:
        assert [(blank.item.id, blank.field) for blank in one.missing] == [(beam, "load_limit_n")]


def test_what_lies_in_a_joist_counts_with_what_names_it(surveyed: Surveyed) -> None:
    """196.2 N of a hook that names the joist and as much of one that only lies in it are 392.4 N, over 300."""
    face, hook = lamp(surveyed)
    surveyed.book.write("fixing", {"member": joist(surveyed, face, load_limit_n=300)}, item=hook)
    place = {"x_mm": 3000, "z_mm": 900, "height_mm": 100}
    other = surveyed.fitting(**HUNG | place | {"mark": "D2", "face": face, "touches_face": 0})
    surveyed.fixing(other, face=face, **HOOK | {"mark": "D2.1", "x_mm": 3200})
    for one in found(surveyed, "carrier"):
        assert (one.word, one.verdict.limit) == (Word.OVER, 300)
        assert one.verdict.figure == pytest.approx(392.4, abs=0.1)


@pytest.mark.parametrize(("deep", "word"), [(20, Word.DOES_NOT_APPLY), (26, Word.OVER), (None, Word.OVER)])
def test_joist_behind_plaster_carries_what_reaches_it(surveyed: Surveyed, deep: float | None, word: Word) -> None:
    """Behind 25 mm of plaster: a hook 20 mm deep ends before it, one 26 mm deep, or of unknown depth, is in it."""
    face, _ = lamp(surveyed, penetration_mm=deep)
    surveyed.book.write("face", {"layers": [["lime plaster", 25, "old"], ["limestone", 200, "old"]]}, item=face)
    joist(surveyed, face, load_limit_n=150)
    assert found(surveyed, "carrier")[0].word is word


def test_hook_in_a_joist_beside_is_not_held_to_it(surveyed: Surveyed) -> None:
    """What lies beside a joist of 900 to 1,000 mm, at 1,001, hangs on something else."""
    face, _ = lamp(surveyed, z_mm=1001)
    joist(surveyed, face, load_limit_n=150)
    assert found(surveyed, "carrier")[0].word is not Word.OVER


@pytest.mark.parametrize(("off_mm", "word"), [(0, Word.OVER), (5, Word.OVER), (6, Word.NOT_KNOWN)])
def test_strap_on_an_old_hook_is_held_to_it(surveyed: Surveyed, off_mm: float, word: Word) -> None:
    """20 kg on a hook good for 150 N, whether the strap names it or lies on it within 5 mm."""
    surveyed.book.write("hold", OLD_HOOK | SAID | {"face": surveyed.face, "load_limit_n": 150})
    hung = surveyed.fitting(**HUNG | {"x_mm": 1000 + off_mm, "centre_out_mm": 0, "touches_face": 0})
    strap = {"sort": "strap", "hole": "none", "x_mm": 1200 + off_mm}
    surveyed.fixing(hung, **HOOK | strap)
    (one,) = found(surveyed, "carrier")
    assert one.word is word
    if word is Word.OVER:
        assert (one.verdict.figure, one.verdict.limit) == (pytest.approx(196.2, abs=0.1), 150)
