"""The sheet itself: elements, escaping, letters and line types."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from fieldbook.drawing import drafting as d
from tests.drawing.drawn import SVG, read

FONTS = (
    Path("/usr/share/fonts/opentype/inter/Inter-Regular.otf"),
    Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"),
)
BOLD_FONTS = (
    Path("/usr/share/fonts/opentype/inter/Inter-SemiBold.otf"),
    Path("/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"),
)


@given(st.text())
def test_any_text_in_a_drawing_stays_text(text: str) -> None:
    """Whatever a name holds, the drawing is well-formed and the name adds no element."""
    root = read(d.drawing(text, (10, 10), d.letters(text, (0, 5)), data_name=text))
    assert [element.tag for element in root.iter()] == [f"{SVG}svg", f"{SVG}title", f"{SVG}text"]


def test_hostile_name_is_shown_as_it_is() -> None:
    """Markup, quotes and entities come out as the letters they are."""
    name = '</title><script>alert("1")</script>&amp;\' onload="x'
    root = read(d.drawing(name, (10, 10), d.letters(name, (0, 5)), data_name=name))
    assert (root[0].text, root[1].text, root.get("data-name")) == (name, name, name)


def test_control_characters_become_a_visible_mark() -> None:
    """What XML has no room for does not break the drawing, and does not vanish."""
    assert read(d.drawing("a\x00b\x1bc\ud800", (10, 10)))[0].text == "a\ufffdb\ufffdc\ufffd"


def test_title_comes_first_and_the_sheet_has_its_true_size() -> None:
    """A reader of a tagged PDF needs the title first; a printer needs millimetres."""
    root = read(d.drawing("Plan", (180, 90.5), d.letters("a", (0, 5))))
    assert root[0].tag == f"{SVG}title"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("180mm", "90.5mm", "0 0 180 90.5")
    assert root.get("role") == "img"


def test_interactive_sheet_has_no_size_and_lets_its_links_be_reached() -> None:
    """It fills what holds it, and is no picture, in which links could not be reached."""
    root = read(d.drawing("Plan", (180, 90), interactive=True))
    assert (root.get("width"), root.get("height"), root.get("role")) == (None, None, "group")


@pytest.mark.parametrize(
    ("height", "bold", "fonts"),
    [(d.FIGURE, False, FONTS), (d.HEADING, True, BOLD_FONTS)],
)
@pytest.mark.parametrize(
    "words", ["D12.34 not known", "K7 no drilling, contact, adhesive, load", "6405", "Mövenhöhe ≤ 3 µm"]
)
def test_words_take_no_more_room_than_is_kept_for_them(
    words: str, height: float, bold: bool, fonts: tuple[Path, ...]
) -> None:
    """The room reckoned is at least what either typeface takes, as its own metrics say."""
    present = [font for font in fonts if font.exists()]
    if not present:
        pytest.skip("neither typeface is installed here")
    size = height / d.CAPITAL_SHARE
    widest = max(ImageFont.truetype(font, 1000).getlength(words) / 1000 * size for font in present)
    assert widest <= d.width_of(words, height, bold=bold) <= 1.4 * widest


@given(st.text(st.characters(codec="ascii", exclude_categories=["C"]), max_size=200), st.floats(6, 100))
def test_wrapped_words_fit_and_none_is_lost(text: str, width: float) -> None:
    """Every letter comes out in order, in lines no wider than asked for."""
    lines = d.wrapped(text, d.FIGURE, width)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(d.width_of(line, d.FIGURE) <= width for line in lines)


def test_figure_and_unit_joined_by_a_fixed_space_stay_together() -> None:
    """A fixed space is no place to break a line."""
    assert d.wrapped("a 24\u00a0N\u00a0m", d.FIGURE, d.width_of("24 N m") + 0.5) == ["a", "24\u00a0N\u00a0m"]


def test_line_types_are_multiples_of_the_pen() -> None:
    """A dashed line of a pen of 0.5 mm has dashes of twelve and gaps of three pens.

    Source: ISO 128-2, from memory, not seen in a readable copy.
    """
    path = read(d.stroke("M0 0L9 0", 0.5, dashes=d.DASHED))
    assert path.get("stroke-dasharray") == "6 1.5"
    assert read(d.stroke("M0 0L9 0", 0.5)).get("stroke-dasharray") is None
