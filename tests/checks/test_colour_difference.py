"""Colour difference, held against the published test pairs and against coloraide."""

from __future__ import annotations

import math

import pytest
from coloraide import Color
from hypothesis import example, given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import colour_difference
from tests.checks import published
from tests.checks.refusals import check_refusals, refused

PAIRS = [
    ((row["l1"], row["a1"], row["b1"]), (row["l2"], row["a2"], row["b2"]), row["delta_e00"])
    for row in published.rows("ciede2000_pairs.csv")
]
LABS = st.tuples(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))


@pytest.mark.parametrize(("lab1", "lab2", "expected"), PAIRS)
def test_published_pair_comes_out_as_published(lab1, lab2, expected):
    """The 34 pairs come out to the four decimals printed, whichever colour is named first."""
    assert colour_difference.ciede2000(lab1, lab2) == pytest.approx(expected, abs=0.00005)
    assert colour_difference.ciede2000(lab2, lab1) == pytest.approx(expected, abs=0.00005)


def test_there_are_thirty_four_pairs():
    """A public list with a thirty-fifth, invented pair is about."""
    assert len(PAIRS) == 34


def at_hue(chroma, degrees):
    """A colour of middle lightness; above a chroma of 40 its hue angle is no longer changed by the formula."""
    return 50.0, chroma * math.cos(math.radians(degrees)), chroma * math.sin(math.radians(degrees))


@given(LABS, LABS)
# either side of half a turn, where the way round changes, with the mean hue in the blue, where its sign counts
@example(at_hue(60, 185.25), at_hue(120, 4.75))
@example(at_hue(60, 4.75), at_hue(120, 185.25))
@example(at_hue(60, 184.75), at_hue(120, 5.25))
@example(at_hue(60, 5.25), at_hue(120, 184.75))
# hues that together make less, and more, than a full turn
@example(at_hue(60, 1), at_hue(90, 300))
@example(at_hue(60, 100), at_hue(90, 350))
@example(at_hue(60, 170), at_hue(90, 355))
def test_difference_agrees_with_the_library(lab1, lab2):
    """Any two colours come out as coloraide has them."""
    found = Color("lab-d65", lab1).delta_e(Color("lab-d65", lab2), method="2000", space="lab-d65")
    assert colour_difference.ciede2000(lab1, lab2) == pytest.approx(found, abs=1e-6)


@given(LABS, LABS)
def test_difference_is_the_same_both_ways(lab1, lab2):
    """It does not matter which colour is named first."""
    assert colour_difference.ciede2000(lab1, lab2) == pytest.approx(colour_difference.ciede2000(lab2, lab1), abs=1e-9)


@given(LABS)
def test_colour_does_not_differ_from_itself(lab):
    """Equal colours have no difference."""
    assert colour_difference.ciede2000(lab, lab) == 0


@given(LABS, LABS)
def test_difference_is_never_negative(lab1, lab2):
    """A difference is nothing or more."""
    assert colour_difference.ciede2000(lab1, lab2) >= 0


def test_grey_against_a_hue_takes_the_hue_of_the_other():
    """A grey has no hue of its own, so there is no hue difference, and the mean hue is the other's."""
    # coloraide 8.13.1; the pair 7 of Sharma et al. is of this kind as well, here with the hue above 180°
    lab1, lab2 = (50.0, 0.0, 0.0), (50.0, 10.0, -30.0)
    found = Color("lab-d65", lab1).delta_e(Color("lab-d65", lab2), method="2000", space="lab-d65")
    assert colour_difference.ciede2000(lab1, lab2) == pytest.approx(found, abs=1e-9)


@pytest.mark.parametrize("which", ["lab1", "lab2"])
@pytest.mark.parametrize(("place", "low", "high"), [(0, 0, 100), (1, -200, 200), (2, -200, 200)])
def test_limits_are_those_of_the_space(which, place, low, high):
    """L* runs from 0 to 100, a* and b* to 200 either way; beyond is refused by name."""
    good = {"lab1": [50.0, 1.0, 2.0], "lab2": [60.0, 3.0, 4.0]}
    for value, outside in ((low, low - 1e-6), (high, high + 1e-6)):
        colour = list(good[which])
        colour[place] = value
        assert calculate("colour-difference", good | {which: colour})["delta_e00"] > 0
        colour[place] = outside
        with refused("out-of-range", f"{which}[{place}]"):
            calculate("colour-difference", good | {which: colour})


def test_calculation_gives_the_difference():
    """Two colours give one figure."""
    # pair 17 of Sharma, Wu and Dalal (2005)
    answer = calculate("colour-difference", {"lab1": [50, 2.5, 0], "lab2": [73, 25, -18]})
    assert answer["delta_e00"] == pytest.approx(27.1492, abs=0.00005)


def test_bad_input_is_refused():
    """A colour is three numbers; anything else is refused by name."""
    good = {"lab1": [50, 2.5, 0], "lab2": [73, 25, -18]}
    check_refusals("colour-difference", good, ())
    for key in good:
        with refused("missing", key):
            calculate("colour-difference", {other: good[other] for other in good if other != key})
        for value in ([50, 2.5], [50, 2.5, 0, 1], "50 2.5 0", 50):
            with refused("not-a-number", key):
                calculate("colour-difference", good | {key: value})
        with refused("out-of-range", f"{key}[1]"):
            calculate("colour-difference", good | {key: [50, float("nan"), 0]})
