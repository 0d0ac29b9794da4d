"""What was measured again: how far it has changed, how sure that is, and whether it still changes.

It does not say why: a wall that moves, a bracket that creeps and another tape look alike.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from .limits import finite, within

SOURCE = "Uncertainty of a difference of two readings: JCGM 100:2008, equation 10 (from memory)"
TAPE_MM = 1.0
"""How unsure a reading is where nothing is entered, with a tape: common practice, no source."""


class Measured(NamedTuple):
    """One reading in mm, and plus or minus in mm; None: not entered."""

    value_mm: float
    uncertainty_mm: float | None = None


class Drift(NamedTuple):
    """How far something has changed since the first reading, mm, and how unsure that is.

    moved   whether it changed by more than that; still whether it did so between the last two readings as well
    """

    by_mm: float
    uncertainty_mm: float
    moved: bool
    still: bool

    @property
    def words(self) -> str:
        """In one line."""
        return self._said("it has moved, and still moves", "it has moved, and has come to rest")

    @property
    def words_then(self) -> str:
        """In one line, of what is gone."""
        return self._said("it had moved, and was still moving", "it had moved, and had come to rest")

    def _said(self, moving: str, resting: str) -> str:
        change = f"{self.by_mm:+.1f} mm (± {self.uncertainty_mm:.1f} mm) since the first"
        if not self.moved:
            return f"{change}: no more than the readings are unsure by"
        return f"{change}: {moving if self.still else resting}"


def drift(readings: Sequence[Measured]) -> Drift | None:
    """How far something has changed.

    readings  in mm, the oldest first; each -100,000 to 100,000 mm, uncertainty 0 to 1,000 mm
    returns   None where there are fewer than two

    Source: SOURCE.
    Raises OutOfRange outside these bounds.

    >>> drift([Measured(12, 0.3), Measured(13, 0.4)]).words
    '+1.0 mm (± 0.5 mm) since the first: it has moved, and still moves'
    """
    known = [Measured(finite("value_mm", one.value_mm, "mm"), _unsure(one)) for one in readings]
    if len(known) < 2:
        return None
    by_mm, unsure_mm = _between(known[0], known[-1])
    step_mm, step_unsure_mm = _between(known[-2], known[-1])
    moved = abs(by_mm) > unsure_mm
    return Drift(by_mm, unsure_mm, moved, moved and abs(step_mm) > step_unsure_mm)


def _unsure(one: Measured) -> float:
    return TAPE_MM if one.uncertainty_mm is None else within("uncertainty_mm", one.uncertainty_mm, 0, 1_000, "mm")


def _between(one: Measured, other: Measured) -> tuple[float, float]:
    return other.value_mm - one.value_mm, math.hypot(one.uncertainty_mm or 0.0, other.uncertainty_mm or 0.0)
