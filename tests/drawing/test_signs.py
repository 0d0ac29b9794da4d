"""Signs of verdicts and hazards: shapes that can be told apart, one for every caution."""

from __future__ import annotations

import re

import pytest

from fieldbook.checks.cautions import CAUTIONS
from fieldbook.checks.verdict import Word
from fieldbook.drawing import signs
from fieldbook.drawing.signs import hazard, sign
from fieldbook.folders import STATIC
from tests.drawing.drawn import SVG, read


@pytest.mark.parametrize("word", Word)
def test_sign_bears_its_word(word: Word) -> None:
    """Whoever cannot see the shape is told the word."""
    assert read(sign(word))[0].text == str(word)
    assert sign(word) == sign(str(word))


def test_signs_differ_in_shape_when_colour_is_taken_away() -> None:
    """With every ink made black no two are alike."""
    bare = {sign(word).replace("#b3261e", "#1a1a1a").replace(str(word), "") for word in Word}
    assert len(bare) == len(Word)


def test_signs_differ_in_outline() -> None:
    """The first part of a sign, which one sees from afar, is another for each word."""
    outlines = {word: signs.MARKS[word][0] for word in Word}
    assert len(set(outlines.values())) == len(Word)


def test_only_what_stops_the_work_is_solid() -> None:
    """Refused and over are solid shapes in the colour of limits; nothing else is filled."""
    solid = {word for word, parts in signs.MARKS.items() if any(not pen for _, pen, _ in parts)}
    assert solid == {Word.REFUSED, Word.OVER}


def test_phone_has_the_same_signs() -> None:
    """Every part of every sign stands in the phone's script as well."""
    script = (STATIC / "phone" / "drawing" / "signs.js").read_text(encoding="utf-8")
    for word, parts in signs.MARKS.items():
        assert re.search(rf'^  "?{word}"?: \[', script, re.MULTILINE), word
        assert all(f'"{path}"' in script for path, _, _ in parts), word


@pytest.mark.parametrize("key", CAUTIONS)
def test_each_caution_has_a_figure_of_its_own(key: str) -> None:
    """No caution falls back on the general sign."""
    assert hazard(key) != hazard()


@pytest.mark.parametrize("key", [*CAUTIONS, "", "anything else"])
def test_hazard_sign_is_a_black_bordered_yellow_triangle(key: str) -> None:
    """Scheme of warning signs in ISO 7010, signal yellow as in ISO 3864 (from memory, not seen in a readable copy)."""
    root = read(hazard(key, "Caution: mind this"))
    assert root[0].text == "Caution: mind this"
    fills = [path.get("fill") for path in root.iter(f"{SVG}path")]
    assert fills[:2] == ["#1a1a1a", signs.YELLOW]


def test_unknown_hazard_has_the_general_sign() -> None:
    """A caution without a figure still warns."""
    assert hazard("anything else") == hazard("")
