"""Phases: what stands by then, what a later one does to an earlier one, and what that makes worse."""

from __future__ import annotations

from datetime import date

import pytest

from fieldbook.book.gathering import gather
from fieldbook.book.site import Site
from fieldbook.checks.verdict import Word
from fieldbook.findings.phase_order import phase_of, phases
from fieldbook.findings.phases import meets, stands_by, worsened
from tests.findings.asked import one
from tests.sites import Surveyed

TODAY = date(2027, 6, 1)


def planned(surveyed: Surveyed) -> Site:
    """A rail of phase 1 made to carry 10 kg, with a panel of phase 2 and one of phase 10 on it, and a trial before."""
    rail = surveyed.fitting(mark="D1", phase="1", carries_kg=10, until_phase="10")
    hook = surveyed.fixing(rail)
    hung = {"hangs_on": rail, "z_mm": 900, "height_mm": 500, "width_mm": 400}
    surveyed.fitting(mark="D2", phase="2", mass_loaded_kg=12, x_mm=1100, **hung)
    surveyed.fitting(mark="D3", phase="10", mass_loaded_kg=2, x_mm=1600, covers=[rail], **hung)
    surveyed.fitting(mark="D0", x_mm=3000)
    assert phase_of(gather(surveyed.book, surveyed.site), gather(surveyed.book, surveyed.site)[hook]) == "1"
    return gather(surveyed.book, surveyed.site)


def test_each_phase_stands_on_what_is_there_by_then(surveyed: Surveyed) -> None:
    """The second before the tenth; what comes down for a phase is gone with its fixings."""
    site = planned(surveyed)
    assert phases(site) == ["", "1", "2", "10"]
    by = {phase: [one.mark for one in stands_by(site, phase).all("fitting")] for phase in phases(site)}
    assert by == {"": ["D0"], "1": ["D0", "D1"], "2": ["D0", "D1", "D2"], "10": ["D0", "D2", "D3"]}
    assert [len(stands_by(site, phase).all("fixing")) for phase in phases(site)] == [0, 1, 1, 0]


def test_what_a_later_phase_does_to_an_earlier_is_told(surveyed: Surveyed) -> None:
    """What hangs on it, covers it or stands over it; nothing of what has come down by then."""
    site = planned(surveyed)
    told = {
        phase: [(one.later.mark, one.does, one.earlier.mark) for one in meets(site, phase)] for phase in phases(site)
    }
    assert told == {"": [], "1": [], "2": [("D2", "hangs on", "D1")], "10": []}
    surveyed.fitting(mark="D4", phase="2", x_mm=1500, z_mm=1550)
    over = [one for one in meets(gather(surveyed.book, surveyed.site), "2") if one.later.mark == "D4"]
    assert [(one.does, one.earlier.mark) for one in over] == [("stands over", "D1")]


def test_what_a_later_phase_makes_worse_never_happens_unsaid(surveyed: Surveyed) -> None:
    """As the second phase comes the rail lies in the place of a new shelf, and carries 12 kg of 10; before it is as it
    was.
    """
    planned(surveyed)
    surveyed.fitting(mark="D4", phase="2", x_mm=1500, z_mm=1550)
    site = gather(surveyed.book, surveyed.site)
    there = [one for one in worsened(site, "2", TODAY) if one.after.subject.kind == "fitting"]
    worse, carries = sorted(there, key=lambda one: one.after.question != "place")
    assert (carries.after.question, carries.after.verdict.figure, str(carries.after.word)) == ("carries", 12, "over")
    assert (worse.after.subject.mark, worse.after.question) == ("D1", "place")
    assert (str(worse.before.word), str(worse.after.word)) == ("within", "over")
    assert worsened(site, "1", TODAY) == worsened(site, "", TODAY) == []


@pytest.mark.parametrize(
    ("rail", "panel", "word"),
    [
        ({"phase": "1"}, {"phase": "2"}, Word.WITHIN),
        ({"phase": "1", "until_phase": "10"}, {"phase": "2", "until_phase": "10"}, Word.WITHIN),
        ({"phase": "1", "until_phase": "10"}, {"phase": "2"}, Word.OVER),  # taken away below what stays
        ({"phase": "1", "until_phase": "2"}, {"phase": "1", "until_phase": "10"}, Word.OVER),
        ({"phase": "2"}, {}, Word.OVER),  # the panel is of the first phase, and hangs on nothing
        ({"phase": "1"}, {"phase": "2", "until_phase": "1"}, Word.OVER),
    ],
)
@pytest.mark.parametrize("joined", [False, True])
def test_what_carries_a_thing_is_there_as_long_as_it_is(
    surveyed: Surveyed, rail: dict[str, str], panel: dict[str, str], word: Word, *, joined: bool
) -> None:
    """Whether it hangs on the rail or is fixed to it, the rail goes up no later and comes down no earlier."""
    carrier = surveyed.fitting(**rail)
    hung = surveyed.fitting(mark="D2", z_mm=900, **panel | ({} if joined else {"hangs_on": carrier}))
    if joined:
        surveyed.fixing(hung, fabric="another fitting", other_fitting=carrier)
    found = one(surveyed, "phase", hung)
    assert found.word is word
    assert one(surveyed, "phase", carrier).word is Word.DOES_NOT_APPLY
