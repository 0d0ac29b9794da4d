"""Bad input that every calculation has to refuse, and how a test asks for a refusal."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import contextmanager
from typing import Any

import pytest

from fieldbook.calculations.catalogue import calculate
from fieldbook.errors import FieldbookError

NO_FIGURES = {
    "nan": (float("nan"), "out-of-range"),
    "infinity": (float("inf"), "out-of-range"),
    "minus infinity": (float("-inf"), "out-of-range"),
    "huge": (10**400, "out-of-range"),
    "text": ("12", "not-a-number"),
    "true": (True, "not-a-number"),
    "list": ([1], "not-a-number"),
    "null": (None, "missing"),
}


@contextmanager
def refused(code: str, field: str | None):
    """What is done inside is refused with this code, about this field, and says what to do."""
    with pytest.raises(FieldbookError) as caught:
        yield caught
    assert (caught.value.code, caught.value.field) == (code, field)
    assert caught.value.reason
    assert caught.value.remedy


def check_refusals(name: str, good: Mapping[str, Any], numbers: tuple[str, ...]) -> None:
    """A calculation that answers the good payload refuses it with any of its numbers spoilt, missing or unknown."""
    calculate(name, good)
    for key in numbers:
        for value, code in NO_FIGURES.values():
            with refused(code, key):
                calculate(name, {**good, key: value})
        with refused("missing", key):
            calculate(name, {other: value for other, value in good.items() if other != key})
    with refused("unknown-field", "hight_mm"):
        calculate(name, {**good, "hight_mm": 1})
    for nothing in (None, [], "text", 3):
        with refused("unsuitable-shape", None):
            calculate(name, nothing)


def check_limits(method: Callable[..., Any], good: Mapping[str, float], field: str, low: float, high: float) -> None:
    """A method takes its limits themselves, and refuses what lies a hair beyond them."""
    for limit, beyond in ((low, -1e-9), (high, 1e-9)):
        method(**{**good, field: limit})
        with refused("out-of-range", field):
            method(**{**good, field: limit + beyond * max(1, abs(limit))})
