"""What people lift: the guideline's figure for where it hangs, and what is not entered."""

from __future__ import annotations

import pytest

from fieldbook.book.gathering import gather
from fieldbook.checks.verdict import Word
from fieldbook.findings import Finding, appraise
from tests.sites import Surveyed


def found(surveyed: Surveyed) -> list[Finding]:
    """The findings about lifting."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.question == "lifting"]


@pytest.mark.parametrize(
    ("height", "reach", "people", "limit"),
    [
        # HSE INDG143 (rev4), figure 1, the lower figures; heights of the zones: common practice, no source.
        (1900, "close", 1, 7),
        (1900, "far", 1, 3),
        (1200, "close", 1, 7),  # the last of the way, below mid lower leg, allows least
        (850, "close", 2, 9.3),  # two people: two thirds of the sum, 2/3 * 14 = 9.33 (HSE L23), rounded down
        (850, "close", 5, 10.5),  # there is no figure beyond three: half of 21
        (200, "close", 1, 7),
    ],
)
def test_lift_is_held_against_the_published_figure_for_its_height(
    surveyed: Surveyed, height: float, reach: str, people: int, limit: float
) -> None:
    """The hands are at the middle of the fitting, and go down with it until it stands on the floor."""
    surveyed.fitting(z_mm=height - 40, mass_empty_kg=5, lift_reach=reach, people_to_remove=people)
    (one,) = found(surveyed)
    assert one.verdict.limit == limit


def test_lift_counts_from_the_floor_where_it_is_highest(surveyed: Surveyed) -> None:
    """On a floor that rises by 400 mm under it the hands are at 810 - 400 mm: 13 kg, not the 16 kg at 810."""
    surveyed.book.write("face", {"floor": [[0, 0], [1500, 400], [5000, 0]]}, item=surveyed.face)
    surveyed.fitting(z_mm=10, height_mm=1600, mass_empty_kg=5, lift_reach="close", people_to_remove=1)
    assert found(surveyed)[0].verdict.limit == 13


def test_lift_of_unknown_mass_is_not_known(surveyed: Surveyed) -> None:
    """A fitting nobody weighed is named."""
    surveyed.fitting()
    (one,) = found(surveyed)
    assert (one.verdict.word, one.verdict.missing) == (Word.NOT_KNOWN, ("mass_empty_kg",))


def test_blank_reach_is_asked_for_only_where_the_answer_turns_on_it(surveyed: Surveyed) -> None:
    """At 200 mm above the floor 3 kg may be lifted at arm's length and 7 kg close to the body (HSE INDG143)."""
    light = surveyed.fitting(mark="D1", z_mm=160, mass_empty_kg=2, people_to_remove=1)
    between = surveyed.fitting(mark="D2", z_mm=160, mass_empty_kg=5, people_to_remove=1)
    heavy = surveyed.fitting(mark="D3", z_mm=160, mass_empty_kg=9, people_to_remove=1)
    answers = {one.subject.id: one for one in found(surveyed)}
    assert answers[light].word is Word.CLOSE or answers[light].word is Word.WITHIN
    assert "close" not in answers[light].assumed[-1]
    assert [(blank.item.id, blank.field) for blank in answers[between].missing] == [(between, "lift_reach")]
    assert answers[between].word is Word.NOT_KNOWN
    assert (answers[heavy].word, answers[heavy].verdict.limit) == (Word.OVER, 7)
