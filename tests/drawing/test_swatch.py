"""The colour of a printed swatch, against a published chart and a reference library."""

from __future__ import annotations

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.drawing.swatch import srgb, swatch
from fieldbook.errors import NotAChoice, OutOfRange
from tests.checks import published

CHANNEL = st.integers(0, 255)
# Steps of 255: the libraries that give the expected values differ by 0.05; the last digit printed is 0.01.
CHART_TOLERANCE = 0.06
# Steps of 255: the library takes both whites from chromaticities of four digits, here they are those of ASTM E308;
# for the strongest colours, with a channel near zero, that is up to 0.56.
LIBRARY_TOLERANCE = 0.6


@pytest.mark.parametrize("patch", published.rows("colour_chart_24.csv"), ids=lambda patch: patch["name"])
def test_patch_of_the_chart_prints_in_its_colour(patch):
    """Every patch of a published chart comes out in the sRGB two libraries reckon; one is said to be out of reach."""
    lab = (patch["lab_l"], patch["lab_a"], patch["lab_b"])
    expected = [patch["red"], patch["green"], patch["blue"]]
    assert [255 * channel for channel in srgb(lab, "D50")] == pytest.approx(expected, abs=CHART_TOLERANCE)
    assert swatch(lab, "D50").in_gamut == (min(expected) >= 0)


# CIELAB for D65 as the mean of several libraries, which differ by 0.03 in the rounding of their matrices.
@pytest.mark.parametrize(
    ("rgb", "lab"),
    [
        ((255, 255, 255), (100, 0, 0)),
        ((0, 0, 0), (0, 0, 0)),
        ((128, 128, 128), (53.585, 0, 0)),
        ((5, 5, 5), (1.371, 0, 0)),
        ((240, 234, 214), (92.675, -1.32, 10.43)),
        ((139, 101, 61), (45.817, 10.45, 28.48)),
        ((115, 82, 68), (38.016, 11.80, 13.66)),
    ],
)
def test_published_colours_print_as_they_were(rgb, lab):
    """Colours whose CIELAB figures are published come back as the sRGB they belong to, to half a step."""
    assert [255 * channel for channel in srgb(lab, "D65")] == pytest.approx(rgb, abs=0.5)
    assert swatch(lab, "D65").hex == "#{:02x}{:02x}{:02x}".format(*rgb)


@pytest.mark.parametrize(("white", "space"), [("D50", "lab"), ("D65", "lab-d65")])
@given(rgb=st.tuples(CHANNEL, CHANNEL, CHANNEL))
def test_any_colour_of_srgb_comes_back(white, space, rgb):
    """Any colour of sRGB, taken to CIELAB by a reference library, comes back as itself and within reach."""
    lab = Color("srgb", [channel / 255 for channel in rgb]).convert(space).coords()
    figures = (min(max(lab[0], 0), 100), lab[1], lab[2])  # the library's white may be 100.00000000000001
    assert [255 * channel for channel in srgb(figures, white)] == pytest.approx(rgb, abs=LIBRARY_TOLERANCE)
    assert swatch(figures, white).in_gamut


@pytest.mark.parametrize("lab", [(50, 120, 0), (50, -120, 0), (90, 0, -90), (5, 60, 60)])
def test_colour_beyond_srgb_is_said_and_brought_within(lab):
    """A colour no print can show is said to be so, as a reference library does, and still gives a colour to print."""
    found = swatch(lab, "D50")
    assert not found.in_gamut
    assert not Color("lab", lab).in_gamut("srgb")
    assert len(found.hex) == 7


@pytest.mark.parametrize(
    ("lab", "white", "error", "field"),
    [
        ((101, 0, 0), "D50", OutOfRange, "lab_l"),
        ((50, float("nan"), 0), "D50", OutOfRange, "lab_a"),
        ((50, 0, 300), "D65", OutOfRange, "lab_b"),
        ((50, 0, 0), "C", NotAChoice, "lab_white"),
    ],
)
def test_unsuitable_colour_is_refused(lab, white, error, field):
    """Figures outside CIELAB, and a white nobody knows, are refused by name."""
    with pytest.raises(error) as refused:
        swatch(lab, white)
    assert refused.value.field == field
