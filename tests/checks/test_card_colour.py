"""Colours from photographs: conversions beside a reference library, and cards under lights made up by chance."""

from __future__ import annotations

import json
import math
from pathlib import Path
from random import Random

import pytest
from coloraide import Color

from fieldbook.checks import card_colour as card
from fieldbook.checks import linear_light
from fieldbook.checks.colour_difference import ciede2000
from fieldbook.errors import FieldbookError, UnsuitableShape
from tests.checks import published

CHART = [
    tuple(max(0.0, float(row[name])) for name in ("red", "green", "blue"))
    for row in published.rows("colour_chart_24.csv")
]
CASES = json.loads((Path(__file__).parent.parent / "cases" / "card_colour.json").read_text("utf-8"))["cases"]
# sRGB -> CIELAB (D65, 2°): means of implementations that differ in the rounding of their matrices, hence 0.03
LABS = {
    (255, 255, 255): (100, 0, 0),
    (119, 119, 119): (50.034, 0, 0),
    (5, 5, 5): (1.371, 0, 0),
    (255, 0, 0): (53.24, 80.10, 67.21),
    (0, 0, 255): (32.30, 79.19, -107.86),
    (240, 234, 214): (92.675, -1.32, 10.43),
    (139, 101, 61): (45.817, 10.45, 28.48),
    (115, 82, 68): (38.016, 11.80, 13.66),
}


@pytest.mark.parametrize(("rgb", "lab"), LABS.items())
def test_srgb_comes_out_as_published(rgb, lab):
    """Lightness and both opponents to 0.03, and back to the same light."""
    found = linear_light.lab_of_light(linear_light.light_of(rgb))
    assert found == pytest.approx(lab, abs=0.03)
    assert linear_light.light_of_lab(found) == pytest.approx(linear_light.light_of(rgb), abs=1e-6)


@pytest.mark.parametrize("rgb", CHART)
def test_patches_of_the_chart_convert_as_in_coloraide(rgb):
    """The 24 published patches of a colour chart, by an independent library, to 0.03."""
    theirs = Color("srgb", [value / 255 for value in rgb]).convert("lab-d65")
    assert linear_light.lab_of_light(linear_light.light_of(rgb)) == pytest.approx(theirs.coords(), abs=0.03)


def pixels_of(runs):
    """The pixels of a patch of a case."""
    return [tuple(run[:3]) for run in runs for _ in range(run[3])]


def answered(case):
    """What a case of both languages comes to."""
    correction = card.correction_of([(card.seen_in(pixels_of(one["pixels"])), one["lab"]) for one in case["card"]])
    return correction.colour(card.seen_in(pixels_of(case["finish"])))


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_case_of_both_languages_is_answered_as_expected(case):
    """Colours come out as an independent solution has them, and lie within what is stated; the others are refused."""
    if refused := case.get("refused"):
        with pytest.raises(FieldbookError) as refusal:
            answered(case)
        assert (refusal.value.code, refusal.value.field) == (refused["code"], refused["field"])
        return
    found = answered(case)
    assert found.lab == pytest.approx(case["lab"], abs=case["tolerance"])
    assert found.within == pytest.approx(case["within"], abs=case["tolerance"])


def photographed(lab, light, rng, noise=2.0, count=100):
    """The pixels of a patch of this colour under a light: gains of the channels and what they take of each other."""
    plain = linear_light.light_of_lab(lab)
    got = [sum(part * of for part, of in zip(row, plain, strict=True)) for row in light]
    value = [255 * (12.92 * g if g <= 0.0031308 else 1.055 * max(g, 0) ** (1 / 2.4) - 0.055) for g in got]
    return [tuple(min(255, max(0, round(v + rng.gauss(0, noise)))) for v in value) for _ in range(count)]


def a_light(rng):
    """A light from a lamp's to a cloudy sky's, exposed up to three times darker, in a camera whose channels mix."""
    warm, exposed = rng.uniform(-0.3, 0.3), rng.uniform(0.3, 0.85)
    gains = (exposed * (1 + warm), exposed, exposed * (1 - warm))
    mixed = [[(rng.uniform(-0.12, 0.12) if i != j else 1) * gains[i] for j in range(3)] for i in range(3)]
    return [[entry * 0.9 for entry in row] for row in mixed]


def card_under(light, rng):
    """What of the chart a photograph under a light shows unclipped."""
    found = []
    for rgb in CHART:
        lab = linear_light.lab_of_light(linear_light.light_of(rgb))
        try:
            found.append((card.seen_in(photographed(lab, light, rng)), lab))
        except FieldbookError:
            continue
    return found


def test_finishes_come_back_within_two_under_random_lights():
    """With a full card each is within a difference of 2, and nearly all within what is stated."""
    rng, off, inside = Random(24), [], 0
    for _ in range(40):
        light = a_light(rng)
        correction = card.correction_of(card_under(light, rng))
        for lab in ((71.4, 7.2, 24.8), (34.6, 12, 18), (82.3, 1, 9), (44.9, -6.3, 4), (60, 0, 0)):
            matched = correction.colour(card.seen_in(photographed(lab, light, rng)))
            off.append(ciede2000(matched.lab, lab))
            inside += off[-1] <= matched.within
    assert max(off) < 2
    assert inside / len(off) > 0.9


def test_one_grey_takes_out_light_and_exposure():
    """Where the camera itself is true, a grey alone brings a finish back; it is stated as less certain."""
    rng, lab, grey = Random(1), (62, 8, 20), (70, 0, 0)
    light = [[0.7, 0, 0], [0, 0.55, 0], [0, 0, 0.4]]
    correction = card.correction_of([(card.seen_in(photographed(grey, light, rng)), grey)])
    matched = correction.colour(card.seen_in(photographed(lab, light, rng)))
    assert ciede2000(matched.lab, lab) < 1
    assert matched.within > 3


def test_stray_pixels_do_not_move_a_patch():
    """A tenth of dust and shine is left out of the mean."""
    rng, lab = Random(2), (50, 5, 10)
    light = [[1, 0, 0], [0, 1, 0], [0, 0, 1]]
    clean = photographed(lab, light, rng)
    dirty = [(240, 240, 240) if at % 10 == 3 else pixel for at, pixel in enumerate(clean)]
    found = linear_light.lab_of_light(card.seen_in(dirty).light)
    assert ciede2000(found, lab) < 0.5


@pytest.mark.parametrize(
    ("pixels", "code"),
    [
        ([(255, 200, 190)] * 100, "out-of-range"),
        ([(3, 2, 4)] * 100, "out-of-range"),
        ([(90, 90, 90)] * 50 + [(150, 150, 150)] * 50, "out-of-range"),
        ([(90, 90, 90)] * 10, "missing"),
    ],
    ids=["clipped", "black", "half in shadow", "too small"],
)
def test_badly_lit_patch_is_refused_with_the_reason(pixels, code):
    """What a patch no longer tells is not guessed."""
    with pytest.raises(FieldbookError) as refusal:
        card.seen_in(pixels)
    assert (refusal.value.code, refusal.value.field) == (code, "card_patches")


def test_few_coloured_patches_are_refused():
    """Fewer than six patches have to be grey; none at all settle nothing."""
    seen = card.seen_in([(120, 90, 60)] * 100)
    with pytest.raises(UnsuitableShape):
        card.correction_of([(seen, (45, 10, 28))])
    with pytest.raises(FieldbookError):
        card.correction_of([])
    assert math.isfinite(card.correction_of([(seen, (45, 0, 0))]).missed)
