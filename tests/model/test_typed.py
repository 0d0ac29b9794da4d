"""Text typed into a form, and back."""

from __future__ import annotations

import math
from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from fieldbook.errors import FieldbookError
from fieldbook.model.fields import Field, Type, accept
from fieldbook.model.kinds import KINDS
from fieldbook.model.typed import circle, from_text, number_from, rectangle, to_text

OUTLINE = KINDS["zone"].by_name["outline"]
LAYERS = KINDS["face"].by_name["layers"]
SIZE = st.floats(-90_000, 90_000).map(lambda value: round(value, 3))


@pytest.mark.parametrize(
    ("text", "number"),
    [("12", 12), ("12,5", 12.5), ("−3.5", -3.5), ("1 250", 1250), ("1 250,5", 1250.5), ("2e3", 2000)],
)
def test_number_from_usual_ways_of_writing_is_understood(text: str, number: float) -> None:
    """Decimal commas, thousands and the typographic minus are read as meant."""
    assert number_from(text) == number


@pytest.mark.parametrize("text", ["twelve", "1,2,3", "nan", "inf", "12 mm"])
def test_number_from_other_text_is_handed_on(text: str) -> None:
    """What is no number stays as typed, so that the field can refuse it with the text in the message."""
    assert number_from(text) == text


@pytest.mark.parametrize("text", ["2026-05-31T14:30+01:00", "noon", "9999-12-31T23:59:59-12:00"])
def test_from_text_moment_with_its_offset_or_none_at_all_is_handed_on(text: str) -> None:
    """A moment that says its offset keeps it; what is no moment stays for the field to refuse."""
    assert from_text(Field("at", "At", Type.MOMENT), text) == text


def test_from_text_moment_without_offset_is_this_machines() -> None:
    """A person at the desk types the time of the clock on the wall."""
    moment = datetime.fromisoformat(from_text(Field("at", "At", Type.MOMENT), "2026-05-31 14:30"))
    assert moment == datetime(2026, 5, 31, 14, 30).astimezone()


def test_from_text_rectangle_gives_four_corners() -> None:
    """A zone may be typed as a rectangle."""
    assert from_text(OUTLINE, "rectangle 10 20 100 50") == [[10, 20], [110, 20], [110, 70], [10, 70]]


def test_from_text_corners_one_a_line_are_read() -> None:
    """A zone may be typed corner by corner, with a decimal comma where semicolons part the cells."""
    assert from_text(OUTLINE, "0 0\n 100, 0\n\n100;50,5") == [[0, 0], [100, 0], [100, 50.5]]


@pytest.mark.parametrize("text", ["triangle 1 2 3", "rectangle 1 2", "circle a b c"])
def test_from_text_unknown_shape_is_refused(text: str) -> None:
    """A shape that cannot be read is refused by the field."""
    with pytest.raises(FieldbookError) as refusal:
        from_text(OUTLINE, text)
    assert (refusal.value.code, refusal.value.field) == ("unsuitable-shape", "outline")


def test_from_text_layers_keep_commas_in_words() -> None:
    """Cells of a table with words in it are parted by semicolons only."""
    assert from_text(LAYERS, "lime plaster, two coats; 25; old") == [["lime plaster, two coats", 25, "old"]]


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
