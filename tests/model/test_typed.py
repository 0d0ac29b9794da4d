"""Text typed into a form, and back."""

from __future__ import annotations

import math
from datetime import datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from fieldbook.errors import FieldbookError, NotANumber
from fieldbook.model.fields import Field, Type
from fieldbook.model.figures import number_from, number_in, two_readings
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import circle, from_text, rectangle, to_text, whole_word
from fieldbook.model.values import accept
from tests.cases.shared import cases

OUTLINE = KINDS["zone"].by_name["outline"]
LAYERS = KINDS["face"].by_name["layers"]
SIZE = st.floats(-90_000, 90_000).map(lambda value: round(value, 3))


@pytest.mark.parametrize("case", cases("figures"), ids=lambda case: case["text"])
def test_number_is_read_as_on_the_phone(case: dict[str, Any]) -> None:
    """Either decimal sign, any mark of thousands, a unit; what is none, or can be two, stays as typed."""
    unit, number = case.get("unit", ""), case["text"] if case["number"] is None else case["number"]
    if not unit:
        assert number_from(case["text"]) == number
    assert number_in(case["text"], unit) == number
    assert two_readings(case["text"], unit) == (tuple(case["ways"]) if case["ways"] else None)


@pytest.mark.parametrize(("text", "remedy"), [("1,430", "Write 1430, or 1.43."), ("2.385", "Write 2385, or 2.3850.")])
def test_number_that_can_be_read_two_ways_is_asked_back(text: str, remedy: str) -> None:
    """Both are offered, written so that each can be read in one way only."""
    field = Field("x_mm", "x", Type.NUMBER)
    with pytest.raises(NotANumber) as refusal:
        accept(field, from_text(field, text))
    assert refusal.value.remedy == remedy
    written = [word.strip(".,") for word in remedy.split() if word[0].isdigit()]
    assert all(isinstance(number_from(word), float) for word in written)


@pytest.mark.parametrize("text", ["nan", "inf"])
def test_number_from_what_is_no_figure_is_handed_on(text: str) -> None:
    """It stays as typed, so that the field can refuse it with the text in the message."""
    assert number_from(text) == text


@pytest.mark.parametrize("text", ["2026-05-31T14:30+01:00", "noon", "9999-12-31T23:59:59-12:00"])
def test_from_text_moment_with_its_offset_or_none_at_all_is_handed_on(text: str) -> None:
    """A moment that says its offset keeps it; what is no moment stays for the field to refuse."""
    assert from_text(Field("at", "At", Type.MOMENT), text) == text


def test_from_text_moment_without_offset_is_this_machines() -> None:
    """A person at the desk types the time of the clock on the wall."""
    moment = datetime.fromisoformat(from_text(Field("at", "At", Type.MOMENT), "2026-05-31 14:30"))
    assert moment == datetime(2026, 5, 31, 14, 30).astimezone()


@pytest.mark.parametrize("stored", ["2026-03-29T14:30:00", "2026-07-29T14:30:00"])
def test_moment_is_shown_as_the_clock_said_it_and_read_back_the_same(stored: str) -> None:
    """With its offset only where it is not this machine's, or is told to the second."""
    at = Field("at", "At", Type.MOMENT)
    moment = datetime.fromisoformat(stored).astimezone().isoformat()
    assert to_text(at, moment) == stored[:16].replace("T", " ")
    assert from_text(at, to_text(at, moment)) == moment
    for kept in (stored[:-2] + "07" + moment[19:], stored + "+13:30"):
        assert to_text(at, kept) == from_text(at, to_text(at, kept)) == kept


def test_from_text_rectangle_gives_four_corners() -> None:
    """A zone may be typed as a rectangle."""
    assert from_text(OUTLINE, "rectangle 10 20 100 50") == [[10, 20], [110, 20], [110, 70], [10, 70]]


def test_from_text_corners_one_a_line_are_read() -> None:
    """A zone may be typed corner by corner, with a decimal comma where semicolons part the cells."""
    assert from_text(OUTLINE, "0 0\n 100, 0\n\n100;50,5") == [[0, 0], [100, 0], [100, 50.5]]


@pytest.mark.parametrize("case", cases("outlines"), ids=lambda case: case["why"])
def test_outline_is_read_as_on_the_phone(case: dict[str, Any]) -> None:
    """Corners, or a place and a size as it is noted; what may be either is none."""
    read = from_text(OUTLINE, case["text"])
    whole = all(len(row) == 2 and all(isinstance(one, float) for one in row) for row in read)
    assert (read if whole else None) == case["corners"]


def test_outline_of_which_some_figures_alone_have_another_unit_is_refused() -> None:
    """Nobody can tell what the others are in."""
    with pytest.raises(FieldbookError, match="cannot be read"):
        from_text(OUTLINE, "0.3 1.2 0.6 × 0.4 m")


@pytest.mark.parametrize("case", cases("beginnings"), ids=lambda case: f"{case['text']} of {case['words']}")
def test_word_may_be_typed_by_its_beginning_as_on_the_phone(case: dict[str, Any]) -> None:
    """Of several that begin so it is none, unless it is one of them."""
    assert whole_word(case["text"], case["words"]) == case["whole"]


def test_from_text_grid_gives_a_row_for_each_figure() -> None:
    """Places along once, heights once; a dash stands where nothing was read."""
    surface = KINDS["face"].by_name["surface"]
    assert from_text(surface, "grid 200 1450\n300 2 -1,5\n1100 - 4") == [
        [200, 300, 2],
        [1450, 300, -1.5],
        [1450, 1100, 4],
    ]
    with pytest.raises(FieldbookError) as refusal:
        from_text(surface, "grid 200\n300 2 4")
    assert refusal.value.field == "surface"


def test_from_text_ditto_mark_says_what_stands_above() -> None:
    """In any column, row after row; in the first row it stands for nothing and stays, to be refused or read."""
    assert from_text(LAYERS, 'limewash; 1; old\nlime plaster; 22; "\n"; 9; ”') == [
        ["limewash", 1, "old"],
        ["lime plaster", 22, "old"],
        ["lime plaster", 9, "old"],
    ]
    assert from_text(LAYERS, '"; 1; old') == [['"', 1, "old"]]


@pytest.mark.parametrize("text", ["triangle 1 2 3", "rectangle 1 2", "circle a b c"])
def test_from_text_unknown_shape_is_refused(text: str) -> None:
    """A shape that cannot be read is refused by the field."""
    with pytest.raises(FieldbookError) as refusal:
        from_text(OUTLINE, text)
    assert (refusal.value.code, refusal.value.field) == ("unsuitable-shape", "outline")


def test_from_text_layers_keep_commas_in_words() -> None:
    """Cells of a table with words in it are parted by semicolons only."""
    assert from_text(LAYERS, "lime plaster, two coats; 25; old") == [["lime plaster, two coats", 25, "old"]]


def test_to_text_semicolon_within_a_cell_parts_nothing() -> None:
    """The row is read back the same, beside one without."""
    rows = [["lime plaster; two coats", 23, "old"], ["rubble", None, "old"]]
    assert from_text(LAYERS, to_text(LAYERS, rows)) == rows


@given(SIZE, SIZE, st.floats(1, 5000))
def test_circle_polygon_never_cuts_the_circle(x: float, z: float, radius: float) -> None:
    """A circle entered as a zone is never smaller than the circle, and at most half a percent larger."""
    outline = Polygon(circle(x, z, radius))
    assert outline.exterior.distance(Point(x, z)) >= radius
    assert outline.area <= math.pi * radius**2 * 1.01 + 0.02 * radius


@given(SIZE, SIZE, st.floats(1, 5000), st.floats(1, 5000))
def test_rectangle_has_the_size_given(x: float, z: float, width: float, height: float) -> None:
    """A rectangle entered as a zone covers exactly its width by its height."""
    assert Polygon(rectangle(x, z, width, height)).area == pytest.approx(width * height, rel=1e-6)


@given(st.lists(st.tuples(SIZE, SIZE), min_size=1, max_size=8))
def test_to_text_rows_are_read_back_the_same(points: list[tuple[float, float]]) -> None:
    """What a form shows of a table is read back as the same table."""
    floor = KINDS["face"].by_name["floor"]
    stored = accept(floor, [list(point) for point in points])
    assert accept(floor, from_text(floor, to_text(floor, stored))) == stored


@given(SIZE)
def test_to_text_number_is_read_back_the_same(value: float) -> None:
    """What a form shows of a number is read back as the same number."""
    field = Field("x_mm", "x", Type.NUMBER)
    assert from_text(field, to_text(field, value)) == value


def test_to_text_yes_and_no_are_words() -> None:
    """A yes-or-no field shows words and reads them."""
    field = Field("glued", "Glued", Type.YES_NO)
    assert [from_text(field, to_text(field, value)) for value in (1, 0)] == [1, 0]
