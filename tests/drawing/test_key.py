"""The key to the drawings."""

from __future__ import annotations

from fieldbook.checks.verdict import Word
from fieldbook.drawing.key import Met, key
from fieldbook.model.choices import FORBIDDEN
from tests.drawing.drawn import text_boxes, words_of


def test_key_explains_every_hatching_and_every_sign() -> None:
    """Whatever a drawing may show is in it."""
    words = " ".join(words_of(key()))
    assert all(forbidden in words for forbidden in FORBIDDEN)
    assert all(str(word) in words for word in Word)
    assert all(state in words for state in ("planned", "fitted", "taken down"))


def test_words_of_the_key_do_not_overlap() -> None:
    """Long explanations are folded."""
    boxes = text_boxes(key(paper_width_mm=150))
    for index, (_, room) in enumerate(boxes):
        assert all(room.intersection(other).area < 0.01 for _, other in boxes[:index])


def test_key_of_a_small_site_tells_what_is_met_and_no_more() -> None:
    """Nobody reads of leaves, hooks and heat where there are none."""
    few = Met({"fitted"}, (), {"drilling"}, {"new"}, (), barred=False, moved=False, words={Word.OVER})
    words = " ".join(words_of(key(few)))
    assert all(met in words for met in ("drilling", "in a new hole", "over the limit", "keep-off zone", "datum"))
    assert not any(other in words for other in ("leaf’s", "hook", "heat", "planned,", "agreed", "taken down,"))
