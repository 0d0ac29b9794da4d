"""The list of calculations that can be done by hand, and the one shape of their answers."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from ..errors import WrongUse, shown
from . import (
    carrying,
    climate,
    face,
    handling,
    joints,
    loads,
    making,
    photographs,
    preserving,
    room_record,
    shear,
    standing,
    uneven,
)
from .accepting import accepted
from .description import Calculation, Result, Steps

SUBJECTS = (
    climate, room_record, preserving, face, uneven, loads, joints, shear, carrying, standing, handling, making,
    photographs,
)  # fmt: skip
CALCULATIONS: Mapping[str, Calculation] = {
    calculation.name: calculation for subject in SUBJECTS for calculation in subject.CALCULATIONS
}


def calculation_named(name: str) -> Calculation:
    """The calculation of this name; raises WrongUse."""
    try:
        return CALCULATIONS[name]
    except KeyError:
        remedy = f"The calculations are: {', '.join(sorted(CALCULATIONS))}."
        raise WrongUse(f"There is no calculation “{shown(name)}”.", remedy, field="name", value=name) from None


def calculate(name: str, payload: Any) -> dict[str, Any]:
    """Do the named calculation.

    returns  its own keys, and always "verdict" (an object, or null where nothing was held against a limit),
             "working" ([label, figure with unit], what was given first) and "source" (a list), as JSON has them
    Raises WrongUse for an unknown name; otherwise what `accepted` and the check raise.
    """
    calculation = calculation_named(name)
    answer = calculation.answer(**accepted(calculation, payload))
    verdict = answer.verdict.as_dict() if answer.verdict else None
    working = _working(calculation.steps(payload), answer)
    return _plain({**answer.figures, "verdict": verdict, "working": working, "source": answer.sources})


def _working(given: Steps, answer: Result) -> Steps:
    """What was given, then the steps on the way; one that says the same again is left out."""
    told: dict[tuple[str, str], tuple[str, str]] = {}
    for label, figure in (*given, *answer.steps, *(answer.verdict.working if answer.verdict else ())):
        told.setdefault((label.lower(), figure), (label, figure))
    return tuple(told.values())


def _plain(value: Any) -> Any:
    """A value as JSON gives it back."""
    if isinstance(value, Mapping):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_plain(one) for one in value]
    return str(value) if isinstance(value, StrEnum) else value
