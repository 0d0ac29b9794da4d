"""How values read in the record."""

from __future__ import annotations

import pytest

from fieldbook.book import wording
from fieldbook.model.kinds import KINDS


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (1200, "mm", "1200\u00a0mm"),
        (-21.5, "mm", "\u221221.5\u00a0mm"),
        (90, "°", "90°"),
        (2.5, "N m", "2.5\u00a0N\u00a0m"),
        (0.5, "±", "±\u00a00.5"),
        (0, "kg", "0\u00a0kg"),
        (None, "mm", ""),
    ],
)
def test_figure_stays_with_its_unit(value, unit, words):
    """A figure and its unit cannot be parted by a line's end, and a minus is a minus."""
    assert wording.figure(value, unit) == words


@pytest.mark.parametrize(
    ("kind", "field", "value", "words"),
    [
        ("fitting", "climbable", 0, "no"),
        ("fitting", "gives", ["heat", "light"], "heat, light"),
        ("fitting", "fitted_on", "2026-05-30", "30\u00a0May 2026"),
        ("photograph", "taken_at", "2026-05-30T11:20:00+01:00", "30\u00a0May 2026, 11:20"),
        ("fitting", "hangs_on", "a", "D1 Rail"),
        ("fitting", "covers", ["a", "gone"], "D1 Rail and (withdrawn)"),
        ("fitting", "build_up", [["cork", 3, 0.5], ["rail", 22, None]], "cork 3\u00a0mm ±0.5\u00a0mm; rail 22\u00a0mm"),
        ("zone", "outline", [[0, 10], [50, 10], [50, 90], [0, 90]], "x 0 to 50, z 10 to 90"),
        ("zone", "outline", [[0, 0], [50, 0], [20, 90]], "0 / 0; 50 / 0; 20 / 90"),
        ("zone", "outline", [[n % 7, n] for n in range(20)], "20 corners, x 0 to 6, z 0 to 19"),
        ("task", "every_months", 6, "6\u00a0months"),
        ("fitting", "note", None, ""),
    ],
)
def test_value_of_each_type_reads_in_words(kind, field, value, words):
    """Every type of value has its words."""
    assert wording.said(KINDS[kind].by_name[field], value, {"a": "D1 Rail"}) == words


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (["D1.1", "D1.2", "D1.3", "D1.5"], "D1.1 to D1.3, D1.5"),
        (["D1.9", "D1.10", "D1.11"], "D1.9 to D1.11"),
        (["D1.1", "D1.2"], "D1.1, D1.2"),
        (["A", "B", "C"], "A, B, C"),
        (["D1.3", "D2.4", "D3.5"], "D1.3, D2.4, D3.5"),
        ([], ""),
    ],
)
def test_runs_of_marks_are_shortened(names, words):
    """Three marks and more that follow one another are told as from the first to the last."""
    assert wording.marks(names) == words


@pytest.mark.parametrize(
    ("words", "sentence"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_list_reads_as_a_sentence(words, sentence):
    """A list is joined as it would be spoken."""
    assert wording.joined(words) == sentence


@pytest.mark.parametrize(
    ("number", "words"), [(0, "no\u00a0people"), (1, "1\u00a0person"), (2, "2\u00a0people")]
)  # fmt: skip
def test_count_agrees_with_its_word(number, words):
    """One is one, and none is no."""
    assert wording.count(number, "person", "people") == words
