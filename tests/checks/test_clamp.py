"""What a clamp holds and presses, held against dry friction worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import clamp
from fieldbook.checks.verdict import Word
from tests.checks.refusals import check_limits, check_refusals, refused

CLAMP = {"preload_n": 1000.0, "bolts": 2, "faces": 2, "friction": 0.25}
JAW = {"preload_n": 1000.0, "bolts": 2, "jaw_mm2": 4000.0}


# slip = faces · friction · preload, worked apart: 2 · 0.2 · 1666.67; 1 · 0.2 · 2000; 2 · 0.4 · 800.
@pytest.mark.parametrize(
    ("preload_n", "faces", "friction", "expected_n"),
    [(1666.67, 2, 0.2, 666.67), (2000, 1, 0.2, 400), (800, 2, 0.4, 640)],
)
def test_slip_agrees_with_worked_figures(preload_n, faces, friction, expected_n):
    """A clamp of one bolt slips at the load worked out apart."""
    assert clamp.slip_n(preload_n, 1, faces, friction) == pytest.approx(expected_n, abs=0.005)  # two decimals


@given(st.floats(0, 1e6), st.integers(1, 100), st.integers(1, 4), st.floats(0, 1), st.floats(1, 1e6))
def test_slip_and_pressure_are_regained_from_the_bolts(preload_n, bolts, faces, friction, jaw_mm2):
    """Every bolt counts alike, in what the clamp holds and in what it presses with."""
    one = clamp.slip_n(preload_n, 1, 1, friction)
    assert clamp.slip_n(preload_n, bolts, faces, friction) == pytest.approx(bolts * faces * one)
    pressure = clamp.pressure_n_mm2(preload_n, bolts, jaw_mm2)
    assert pressure * jaw_mm2 == pytest.approx(bolts * preload_n)


# 2 bolts, 2 faces, friction 0.25, 1000 N: slips at 1000 N, of which half is allowed.
@pytest.mark.parametrize(
    ("load_n", "word", "margin_n"),
    [(400, Word.WITHIN, 100), (401, Word.CLOSE, 99), (500, Word.CLOSE, 0), (500.1, Word.OVER, -0.1)],
)
def test_load_is_held_against_half_of_what_the_clamp_slips_at(load_n, word, margin_n):
    """Scatter and creep take half of the slip load away."""
    verdict = clamp.slip_verdict(**CLAMP, load_n=load_n)
    assert (verdict.word, verdict.margin, verdict.limit) == (word, pytest.approx(margin_n), 500)
    assert "creep" in verdict.sentence
    assert "old fabric" in verdict.sentence
    assert ("slips at", "1000.0 N") in verdict.working


# 2 bolts of 1000 N on 4000 mm²: 0.5 N/mm², and 0.65 at the highest tension that is likely, 30 % up. A third of the
# strength is allowed: common practice, no source.
@pytest.mark.parametrize(
    ("bearing_n_mm2", "word", "margin_n_mm2"),
    [(2.46, Word.WITHIN, 0.17), (2.43, Word.CLOSE, 0.16), (1.95, Word.CLOSE, 0), (1.949, Word.OVER, -0.001)],
)
def test_highest_likely_pressure_is_held_against_what_the_fabric_bears(bearing_n_mm2, word, margin_n_mm2):
    """A third of what the fabric bears has to do for the jaw at the most tension that is likely."""
    verdict = clamp.pressure_verdict(**JAW, bearing_n_mm2=bearing_n_mm2)
    assert (verdict.word, verdict.figure) == (word, pytest.approx(0.65))
    assert verdict.margin == pytest.approx(margin_n_mm2)
    assert ("nominal pressure", "0.500 N/mm²") in verdict.working
    assert ("scatter", "+ 30 %") in verdict.working


def test_clamp_outside_its_range_is_refused():
    """Numbers no clamp has are refused by name."""
    for field, low, high in (("preload_n", 0, 1e6), ("bolts", 1, 100), ("faces", 1, 4), ("friction", 0, 1)):
        check_limits(clamp.slip_n, CLAMP, field, low, high)
    check_limits(clamp.pressure_n_mm2, JAW, "jaw_mm2", 1, 1e6)
    check_limits(clamp.slip_verdict, {**CLAMP, "load_n": 1.0}, "load_n", 0, 1e6)
    check_limits(clamp.pressure_verdict, {**JAW, "bearing_n_mm2": 1.0}, "bearing_n_mm2", 0, 1000)


def test_clamp_from_the_command_line_gives_what_is_asked():
    """Pressure comes with the jaw's area, each verdict with its limit."""
    assert calculate("clamp", CLAMP)["slip_n"] == pytest.approx(1000)  # 2 · 2 · 0.25 · 1000
    assert "pressure_n_mm2" not in calculate("clamp", CLAMP)
    answer = calculate("clamp", {**CLAMP, "jaw_mm2": 4000, "load_n": 300, "bearing_n_mm2": 1.9})
    assert answer["pressure_n_mm2"] == pytest.approx(0.5)  # 2000 N on 4000 mm²
    assert [verdict["word"] for verdict in answer["verdicts"]] == ["within", "over"]
    assert "fatigue" in answer["left_out"]


def test_clamp_with_bad_input_is_refused():
    """Each number spoilt, missing or unknown is refused by name, and so is half a bolt."""
    check_refusals("clamp", CLAMP, tuple(CLAMP))
    for key in ("bolts", "faces"):
        with refused("not-a-number", key):
            calculate("clamp", {**CLAMP, key: 1.5})
    with refused("missing", "jaw_mm2"):
        calculate("clamp", {**CLAMP, "bearing_n_mm2": 1})
    for key in ("jaw_mm2", "load_n", "bearing_n_mm2"):
        with refused("out-of-range", key):
            calculate("clamp", {**CLAMP, "jaw_mm2": 10, key: -1})
