"""The diagram of a load path: what is given comes out, in order, with words for verdicts."""

from __future__ import annotations

import pytest

from fieldbook.checks.verdict import Word
from fieldbook.drawing.load_path import Carrier, Level, load_path
from tests.drawing.drawn import read, text_boxes, words_of

LEVELS = (
    Level("D4 case", [Carrier("loaded 18.4 kg")], "181 N down"),
    Level(
        "Fixings of D4",
        [Carrier("D4.1 screw", "90 N of 410 N", Word.WITHIN), Carrier("D4.2 screw", "90 N of 80 N", Word.OVER)],
        "181 N",
    ),
    Level("Dado board, 22 mm"),
)


def test_levels_and_figures_come_out_from_the_weight_to_the_fabric() -> None:
    """Each heading stands below the one before it."""
    boxes = {words: room.bounds for words, room in text_boxes(load_path("Load path of D4", LEVELS))}
    tops = [
        boxes[words][1]
        for words in ("D4 case", "181\u00a0N down", "Fixings of D4", "D4.1 screw", "Dado board, 22\u00a0mm")
    ]
    assert tops == sorted(tops)


def test_verdicts_are_words_beside_signs() -> None:
    """Over and within can be read without colour."""
    assert {"over", "within"} <= set(words_of(load_path("Load path of D4", LEVELS)))


def test_long_words_are_folded_and_overlap_nothing() -> None:
    """A long name takes more lines, not its neighbour's room."""
    part = Carrier("D4.3 " + "hanging from the moulding " * 6, "90 N of 410 N " * 4, Word.CLOSE)
    boxes = text_boxes(load_path("Load path", [Level("Rail " * 40, [part, part], "181 N " * 30), LEVELS[2]]))
    for index, (_, room) in enumerate(boxes):
        assert all(room.intersection(other).area < 0.01 for _, other in boxes[:index])


@pytest.mark.parametrize("levels", [(), LEVELS[2:]])
def test_short_path_is_still_a_drawing(levels: tuple[Level, ...]) -> None:
    """Nothing, or the fabric alone."""
    assert read(load_path("Load path", levels))[0].text == "Load path"


@pytest.mark.parametrize("word", Word)
def test_no_verdict_runs_out_of_its_frame(word: Word) -> None:
    """The longest word ends inside the frame of a narrow column as well."""
    narrow = load_path(
        "Load path", [Level("Fixings", [Carrier("D1.1 wood screw", "99 N shear", word)])], paper_width_mm=84
    )
    assert all(room.bounds[2] < 83 for _, room in text_boxes(narrow))
