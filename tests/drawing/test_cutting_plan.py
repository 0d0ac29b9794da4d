"""The cutting plan: every piece where the layout has it, to scale, named, and apart from the others by a saw cut."""

from __future__ import annotations

import re

import pytest

from fieldbook.checks.cutting import Layout, Part, Stock, layout
from fieldbook.checks.stock_in_hand import LeftOver
from fieldbook.drawing import drafting as d
from fieldbook.drawing.cutting_plan import LEFT_OVER, cutting_plan, left_words, needed_words, taken_words
from tests.drawing.drawn import SVG, read, text_boxes, words_of

BOX = re.compile(r"M(\S+) (\S+)h(\S+)v(\S+)h-\S+Z")
SHEET = Stock(2440, 1220, 3)
PARTS = [Part("shelf", 900, 300, "along", 7), Part("upright", 1800, 300, "along", 4), Part("plinth", 860, 70, "any", 6)]


def boxes(drawing: str, fill: str) -> list[tuple[float, float, float, float]]:
    """LeftOver, top, width and height on paper of the rectangles filled so."""
    paths = [path for path in read(drawing).iter(f"{SVG}path") if path.get("fill") == fill]
    found = [BOX.fullmatch(path.get("d", "")) for path in paths]
    return [tuple(map(float, box.groups())) for box in found if box]  # type: ignore[misc]


def scale_of(drawing: str) -> int:
    """What its caption says the scale is."""
    return int(re.search(r"Cutting plan, scale 1:(\d+)", drawing)[1])  # type: ignore[index]


def test_every_piece_is_drawn_to_scale_in_its_sheet() -> None:
    """As many as were asked for, of their sizes, within what is bought and a saw cut apart."""
    found = layout(PARTS, SHEET)
    drawing = cutting_plan("D1 Case", found, SHEET)
    scale, sheets, pieces = scale_of(drawing), boxes(drawing, LEFT_OVER), boxes(drawing, d.PAPER)
    assert [(round(width * scale), round(height * scale)) for _, _, width, height in sheets] == [(2440, 1220)] * 2
    sizes = sorted(tuple(sorted((round(width * scale), round(height * scale)))) for _, _, width, height in pieces)
    wanted = sorted(tuple(sorted((part.length_mm, part.width_mm))) for part in PARTS for _ in range(part.count))
    assert sizes == [tuple(map(round, size)) for size in wanted]
    for x, y, width, height in pieces:
        assert any(
            left <= x + 0.01 and top <= y + 0.01 and x + width <= left + wide + 0.01 and y + height <= top + high + 0.01
            for left, top, wide, high in sheets
        )
    for index, (x, y, width, height) in enumerate(pieces):
        for other_x, other_y, other_width, other_height in pieces[index + 1 :]:
            across = max(x, other_x) - min(x + width, other_x + other_width)
            up = max(y, other_y) - min(y + height, other_y + other_height)
            assert max(across, up) * scale >= SHEET.kerf_mm - 0.4  # a hundredth of paper at 1:20, twice


def test_names_and_sizes_stand_in_their_pieces() -> None:
    """Each word lies inside a piece, where it is turned as well."""
    drawing = cutting_plan("D1 Case", layout(PARTS, SHEET), SHEET)
    words = words_of(drawing)
    assert words.count("shelf 900 × 300") == 7
    assert sum(word.startswith("plinth") for word in words) == 6
    for text, room in text_boxes(drawing):
        if text.startswith(("shelf", "upright", "plinth")):
            left, top, right, bottom = room.bounds
            assert any(
                x <= left and y <= top and right <= x + width and bottom <= y + height
                for x, y, width, height in boxes(drawing, d.PAPER)
            )


def test_lengths_are_drawn_once_where_they_are_cut_alike_and_small_pieces_are_listed() -> None:
    """Three lengths of two battens each are one drawing; what cannot be lettered is told below."""
    stock = Stock(2400, None, 4)
    parts = [Part("batten", 1100, count=6), Part("peg", 30, count=3)]
    drawing = cutting_plan("D2 Frame", layout(parts, stock), stock)
    assert len(boxes(drawing, LEFT_OVER)) < layout(parts, stock).needed
    said = " ".join(words_of(drawing))
    assert re.search(r"Length \d to \d|Length \d, \d", said)
    assert "peg 30 (3 times)" in said
    assert "Of lengths only the length is to scale" in said


def test_grain_is_shown_on_sheets_only() -> None:
    """A length's grain goes without saying."""
    assert "grain" in words_of(cutting_plan("x", layout(PARTS, SHEET), SHEET))
    stock = Stock(2400, None, 4)
    assert "grain" not in words_of(cutting_plan("x", layout([Part("a", 100)], stock), stock))


@pytest.mark.parametrize(
    ("needed", "at_least", "words"),
    [
        (1, 1, "comes out of 1\xa0sheet; no layout can do with fewer"),
        (3, 2, "comes out of 3\xa0sheets; no layout can do with fewer than 2"),
    ],
)
def test_bound_is_told_beside_the_number(needed: int, at_least: int, words: str) -> None:
    """Where they agree nothing better exists, and that is said."""
    assert needed_words(Layout(needed, at_least, (), 0.5), SHEET) == words


def test_stock_among_other_stock_says_where_it_comes_from() -> None:
    """Of one size among several no bound is told."""
    stock = Stock(2400, None, 4)
    found = layout([Part("a", 1100, count=3)], stock)
    said = " ".join(words_of(cutting_plan("x", found, stock, told=taken_words(found, stock, "in hand"))))
    assert "2\xa0lengths, in hand." in said
    assert "no layout" not in said


def test_rests_worth_keeping_are_told_the_largest_first() -> None:
    """What is less than a hand wide is not told; rests alike are told once."""
    left = [LeftOver(1, 300, None), LeftOver(2, 99, None), LeftOver(3, 640, None), LeftOver(4, 300, None)]
    assert left_words(left) == "640, 300 (2 times)"
    assert (
        left_words([LeftOver(1, 900, 99.9), LeftOver(1, 200, 180), LeftOver(2, 1000, 100)]) == "1000 × 100, 200 × 180"
    )
    assert left_words([]) == ""


def test_hostile_name_is_text_and_not_markup() -> None:
    """A part may be called anything."""
    drawing = cutting_plan("<x>", layout([Part("</svg><b>", 900, 300)], SHEET), SHEET)
    assert "<b>" not in drawing
    assert any("</svg>" in word for word in words_of(drawing))
