"""What a fitting is made out of, from what is entered about it."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.book.site import Item
from fieldbook.errors import FieldbookError
from fieldbook.findings.making import layout_of, projection_of
from tests.drawing.drawn import Wall

CUT = {"parts": [["stave", 900, 124, 5, "along"]], "stock_length_mm": 2400, "stock_width_mm": 130, "kerf_mm": 4}


def fitting(**more: Any) -> Item:
    """A rail with these values."""
    return Wall().fitting(**more)


def test_parts_come_out_of_the_stock_that_is_entered() -> None:
    """Two staves of 900 from each board of 2,400 with a cut of 4: five need three boards."""
    found = layout_of(fitting(**CUT))
    assert (found.needed, found.at_least, len(found.pieces)) == (3, 3, 5)


def test_grain_that_may_lie_either_way_lets_a_part_turn() -> None:
    """A part too long for the sheet's width only fits across it when its grain may."""
    sheet = {"stock_length_mm": 1000, "stock_width_mm": 2000, "kerf_mm": 3}
    assert layout_of(fitting(parts=[["board", 1900, 500, 1, "either way"]], **sheet)).pieces[0].turned
    for grain in ("along", None):
        with pytest.raises(FieldbookError) as refusal:
            layout_of(fitting(parts=[["board", 1900, 500, 1, grain]], **sheet))
        assert refusal.value.code == "out-of-range"


@pytest.mark.parametrize("field", ["parts", "stock_length_mm", "kerf_mm"])
def test_what_is_not_entered_is_named(field: str) -> None:
    """The field of the fitting that would have to be filled."""
    with pytest.raises(FieldbookError) as refusal:
        layout_of(fitting(**CUT | {field: None}))
    assert (refusal.value.code, refusal.value.field) == ("missing", field)


def test_projection_is_told_as_drawn_likely_and_at_worst() -> None:
    """Tolerances of 3 and 4 make 5 likely and 7 at worst; a layer without one has none."""
    reach = projection_of(fitting(build_up=[["packers", 10, 3], ["rail", 20, 4], ["film", 1, None]]))
    assert (reach.nominal_mm, reach.likely_mm, reach.worst_mm) == (31, 36, 38)


def test_projection_without_layers_is_missing() -> None:
    """Nothing is taken for zero."""
    with pytest.raises(FieldbookError) as refusal:
        projection_of(fitting(build_up=None))
    assert refusal.value.code == "missing"
