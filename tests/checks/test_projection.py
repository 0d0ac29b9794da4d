"""Build-ups, held against printed tolerance chains."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import projection
from fieldbook.checks.projection import Layer
from fieldbook.checks.verdict import Word
from tests.checks.refusals import NO_FIGURES, check_limits, refused

LAYER = {"name": "rail", "thickness_mm": 18, "tolerance_mm": 0.5}
LENGTHS = st.floats(0, 500)
LAYERS = st.lists(st.builds(Layer, st.just("layer"), LENGTHS, st.floats(0, 50)), min_size=1, max_size=8)


# Engineering note on tolerance analysis: tolerances 0.20, 0.10 and 0.15 mm on 17.00 mm make 0.45 mm at worst and
# 0.27 mm by root sum square; ten of 0.1 mm make 1.0 and 0.316 mm. Both as printed.
@pytest.mark.parametrize(
    ("layers", "worst_mm", "likely_mm", "digits"),
    [
        ([Layer("a", 10, 0.20), Layer("b", 4, 0.10), Layer("c", 3, 0.15)], 17.45, 17.27, 0.005),
        ([Layer("part", 1, 0.1)] * 10, 11.0, 10.316, 0.0005),
    ],
)
def test_tolerances_agree_with_printed_chains(layers, worst_mm, likely_mm, digits):
    """Worst case and root sum square come out as printed."""
    found = projection.projection(layers)
    assert found.worst_mm == pytest.approx(worst_mm, abs=1e-9)
    assert found.likely_mm == pytest.approx(likely_mm, abs=digits)  # half of the last printed digit


@given(LAYERS, st.lists(LENGTHS, max_size=5))
def test_build_up_lies_between_its_drawing_and_its_worst(layers, packers):
    """The likely case is never beyond the worst, and only the thickest packer counts."""
    found = projection.projection(layers, packers)
    assert found.nominal_mm <= found.likely_mm <= found.worst_mm + 1e-9
    thickest = max(packers, default=0)
    assert found.nominal_mm == pytest.approx(math.fsum(layer.thickness_mm for layer in layers) + thickest)
    one = projection.projection(layers[:1], packers)
    assert one.likely_mm == pytest.approx(one.worst_mm)


# 33.0 mm as drawn, 33.5 likely and 33.7 at worst: 18 ± 0.3, 12 ± 0.4 and a packer of 3; √(0.09 + 0.16) = 0.5.
@pytest.mark.parametrize(
    ("clear_mm", "word", "margin_mm"),
    [(38.7, Word.WITHIN, 5), (38.6, Word.CLOSE, 4.9), (33.7, Word.CLOSE, 0), (33.6, Word.OVER, -0.1)],
)
def test_worst_case_is_held_against_the_clear_depth(clear_mm, word, margin_mm):
    """What fits on the drawing but not at its worst is over; less than 5 mm left is close."""
    layers = [Layer("rail", 18, 0.3), Layer("panel", 12, 0.4)]
    verdict = projection.verdict(layers, [1, 3, 2], clear_mm)
    assert (verdict.word, verdict.figure, verdict.margin) == (word, 33.7, pytest.approx(margin_mm))
    assert verdict.working == (
        ("rail", "18 ± 0.3 mm"),
        ("panel", "12 ± 0.4 mm"),
        ("thickest packer", "3 mm"),
        ("as drawn", "33.0 mm"),
        ("likely at most", "33.5 mm"),
    )


def test_build_up_without_packers_says_so():
    """Where there is no packer, its thickness in the working is nothing."""
    assert ("thickest packer", "0 mm") in projection.verdict([Layer("rail", 18, 0)], [], 100).working


def test_build_up_outside_its_range_is_refused():
    """Layers and packers that cannot be are refused by name and place."""
    with refused("missing", "layers"):
        projection.projection([])
    with refused("out-of-range", "layers"):
        projection.projection([Layer("leaf", 1, 0)] * 101)

    def of_one(thickness_mm=1.0, tolerance_mm=0.0, packer_mm=0.0):
        return projection.projection([Layer("panel", thickness_mm, tolerance_mm)], [packer_mm])

    for value in (-0.1, 10_000.1, float("nan")):
        with refused("out-of-range", "layers[0].thickness_mm"):
            of_one(thickness_mm=value)
        with refused("out-of-range", "packers_mm[0]"):
            of_one(packer_mm=value)
    for value in (-0.1, 1000.1):
        with refused("out-of-range", "layers[0].tolerance_mm"):
            of_one(tolerance_mm=value)
    assert of_one(10_000, 1_000, 10_000).worst_mm == 21_000
    check_limits(
        lambda clear_mm: projection.verdict([Layer("panel", 1, 0)], [], clear_mm),
        {"clear_mm": 9.0},
        "clear_mm",
        0,
        100_000,
    )


def test_projection_from_the_command_line_gives_all_three():
    """The answer holds the build-up as drawn, likely and at worst, and a verdict against a clear depth."""
    answer = calculate("projection", {"layers": [LAYER], "packers_mm": [2], "clear_mm": 20})
    assert (answer["nominal_mm"], answer["likely_mm"], answer["worst_mm"]) == (20, 20.5, 20.5)
    assert answer["verdict"]["word"] == "over"
    assert calculate("projection", {"layers": [LAYER]})["verdict"] is None
    assert calculate("projection", {"layers": [LAYER], "packers_mm": []})["nominal_mm"] == 18


def test_projection_with_bad_input_is_refused():
    """A layer's numbers and names are refused by their place in the list."""
    for key in ("thickness_mm", "tolerance_mm"):
        for value, code in NO_FIGURES.values():
            with refused(code, f"layers[1].{key}"):
                calculate("projection", {"layers": [LAYER, {**LAYER, key: value}]})
    with refused("missing", "layers[0].name"):
        calculate("projection", {"layers": [{**LAYER, "name": "  "}]})
    with refused("unknown-field", "layers[0].thick"):
        calculate("projection", {"layers": [{**LAYER, "thick": 1}]})
    with refused("unsuitable-shape", "layers"):
        calculate("projection", {"layers": []})
    with refused("missing", "layers"):
        calculate("projection", {})
    with refused("out-of-range", "clear_mm"):
        calculate("projection", {"layers": [LAYER], "clear_mm": -1})
