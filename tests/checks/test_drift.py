"""What was measured again: how far it changed, how sure that is, and words for a colour that changed."""

from __future__ import annotations

import pytest

from fieldbook.checks.colour_seen import seen
from fieldbook.checks.drift import Measured, drift
from tests.cases.shared import cases


@pytest.mark.parametrize("case", cases("drift"), ids=lambda case: case["what"])
def test_change_is_told_as_on_the_phone(case):
    """The figure, how unsure it is, and whether it still moves."""
    found = drift([Measured(*reading) for reading in case["readings"]])
    assert (found.words if found else None) == case["words"]


def test_uncertainty_of_a_difference_is_that_of_the_guide():
    """Independent readings: the root of the sum of squares (JCGM 100:2008, equation 10; from memory)."""
    assert drift([Measured(0, 3), Measured(10, 4)]).uncertainty_mm == 5


@pytest.mark.parametrize(
    ("difference", "words"),
    [
        (0, "no difference is seen"),
        (1, "seen side by side only"),
        (4.99, "seen by whoever looks for it"),
        (5, "another colour"),
    ],
)
def test_colour_differences_in_words(difference, words):
    """Each step begins at its figure; common practice, no source."""
    assert seen(difference) == words
