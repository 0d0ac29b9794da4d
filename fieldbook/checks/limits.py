"""Ranges that refuse: the one way a check looks at the numbers it is given."""

from __future__ import annotations

import math
from collections.abc import Callable

from ..errors import NotANumber, OutOfRange, shown


def within(name: str, value: float, low: float, high: float, unit: str, hint: str = "") -> float:
    """The value itself, when low <= value <= high; the comparison is written so NaN fails.

    Raises NotANumber for what is not a number, OutOfRange outside the bounds.
    """
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise NotANumber(
            f"is {shown(value)}, which is not a number.",
            f"Give a number in {unit}." if unit else "Give a number.",
            field=name,
            value=value,
            about=name,
        )
    if not low <= value <= high:
        raise OutOfRange(
            f"is {shown(value)} {unit}".rstrip() + f"; it must lie from {low:g} to {high:g} {unit}".rstrip() + ".",
            hint or "Measure again, or use another method for such a value.",
            field=name,
            value=value,
            about=name,
        )
    return value


def finite(name: str, value: float, unit: str) -> float:
    """The value itself when it is any finite number of a size met in a building (up to 1e9)."""
    return within(name, value, -1e9, 1e9, unit)


def rounded_down(value: float, step: float = 0.1) -> float:
    """Largest multiple of step not above value: for what may be relied on."""
    return _to_step(value, step, math.floor)


def rounded_up(value: float, step: float = 0.1) -> float:
    """Smallest multiple of step not below value: for what must be allowed for."""
    return _to_step(value, step, math.ceil)


def third_figure(value: float) -> float:
    """The step of the third figure of a number, to round by where it is told in words: 0.1 for 47.298387."""
    return 10.0 ** (math.floor(math.log10(abs(value))) - 2) if value and math.isfinite(value) else 1.0


def _to_step(value: float, step: float, rounded: Callable[[float], int]) -> float:
    if not math.isfinite(value):
        return value
    # 1e-9 of a step is arithmetic noise, not a quantity: 22.000000000000004 is 22.
    return round(rounded(round(value / step, 9)) * step, 9)
