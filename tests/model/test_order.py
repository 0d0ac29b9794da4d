"""The order of marks, at the desk; tests/js runs the same cases on the phone."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.model.order import counting
from tests.cases.shared import cases


@pytest.mark.parametrize("case", cases("order"), ids=lambda case: case["what"])
def test_marks_stand_as_people_count(case: dict) -> None:
    """Whatever order they come in, they are sorted into the one that is written down."""
    mixed = random.Random(8479).sample(case["sorted"], len(case["sorted"]))
    assert sorted(mixed, key=counting) == case["sorted"]


@given(st.text(alphabet="aAäD.-0129 ", max_size=8), st.text(alphabet="aAäD.-0129 ", max_size=8))
def test_only_the_same_mark_stands_in_the_same_place(one: str, other: str) -> None:
    """Two marks that differ are never taken for one, however small the difference."""
    assert (counting(one) == counting(other)) == (one == other)
