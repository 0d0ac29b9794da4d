"""How much of a coating it takes: whole litres worked by hand, rounding upwards, bounds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks.coating import coating_needed
from fieldbook.errors import OutOfRange

# Worked by hand, from the definition of a spreading rate, area per volume (ISO 4618:2023, Paints and varnishes,
# Vocabulary; from memory): 24 m² in two coats at 12 m²/l take 4 l; half a square metre in one coat at 8 m²/l
# take 62.5 ml, told as 70.
BY_HAND = ((24, 2, 12, 4.0), (0.5, 1, 8, 0.07), (0, 3, 9, 0.0))


@pytest.mark.parametrize(("area", "coats", "covers", "litres"), BY_HAND)
def test_area_times_coats_over_what_a_litre_covers(area: float, coats: int, covers: float, litres: float) -> None:
    """Upwards to 10 ml."""
    assert coating_needed(area, coats, covers) == pytest.approx(litres, abs=1e-9)


@given(st.floats(0, 500), st.integers(1, 12), st.floats(0.5, 30))
def test_it_is_never_too_little(area: float, coats: int, covers: float) -> None:
    """What is told covers all of it, and a coat more never takes less."""
    litres = coating_needed(area, coats, covers)
    assert litres * covers >= area * coats - 1e-6
    assert coating_needed(area, coats + 1, covers) >= litres


@pytest.mark.parametrize("wrong", [(-1, 2, 9), (4, 0, 9), (4, 2, 0), (float("nan"), 1, 9)])
def test_what_is_out_of_bounds_is_refused(wrong: tuple[float, int, float]) -> None:
    """A negative area, no coat, a litre that covers nothing."""
    with pytest.raises(OutOfRange):
        coating_needed(*wrong)
