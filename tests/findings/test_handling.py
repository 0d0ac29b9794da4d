"""The order of taking down, and what is left behind."""

from __future__ import annotations

import pytest

from fieldbook.book.site import gather
from fieldbook.checks import trace
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise, handling
from tests.sites import Surveyed


def found(surveyed: Surveyed, check: str) -> list[Finding]:
    """The findings of one check."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.verdict.check == check]


def test_order_of_taking_down_is_found_or_the_cycle_named(surveyed: Surveyed) -> None:
    """What hangs on each other can never come down, and that is said by name."""
    rail = surveyed.fitting(mark="D1")
    panel = surveyed.fitting(mark="D2", name="Panel", hangs_on=rail)
    (one,) = found(surveyed, "removal")
    assert (one.verdict.word, one.verdict.figure) == (Word.WITHIN, 2)
    surveyed.book.write("fitting", {"hangs_on": panel}, item=rail)
    (one,) = found(surveyed, "removal")
    assert one.verdict.word is Word.OVER
    assert "D1 Rail" in one.verdict.sentence
    assert "D2 Panel" in one.verdict.sentence


def test_fitting_that_is_down_needs_no_order(surveyed: Surveyed) -> None:
    """What has been taken down no longer keeps anything up."""
    rail = surveyed.fitting(mark="D1", state="taken down")
    surveyed.fitting(mark="D2", hangs_on=rail)
    assert found(surveyed, "removal")[0].verdict.figure == 1


@pytest.mark.parametrize(
    ("answer", "consent", "word"),
    [
        ("yes", None, Word.WITHIN),
        ("yes, with conditions", None, Word.WITHIN),
        ("no", None, Word.OVER),
        (None, "A7 of May", Word.OVER),  # a free text is no agreement
        (None, None, Word.OVER),
    ],
)
def test_trace_is_covered_by_an_agreement_that_says_yes(
    surveyed: Surveyed, answer: str | None, consent: str | None, word: Word
) -> None:
    """A new hole needs a consent, and a no is none."""
    agreement = None
    if answer:
        values = {"site": surveyed.site, "reference": "A1", "answer": answer, "words": "one hole", "said_by": "keeper"}
        agreement = surveyed.book.write("agreement", values | {"on": "2026-05-31"})
    hole = {"hole": "new", "trace": "a new hole in old fabric", "agreement": agreement, "consent": consent}
    surveyed.fixing(surveyed.fitting(), **hole)
    counted = trace.verdict(handling.left_behind(gather(surveyed.book, surveyed.site)))
    assert counted.word is word
    assert ("D1.1" in counted.sentence) is (word is Word.OVER)
