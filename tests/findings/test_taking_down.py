"""The order of taking down: what hangs on a thing, is fixed to it or covers it comes off first."""

from __future__ import annotations

from fieldbook.book.site import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
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
