"""Readings: in which unit a quantity is measured, how unsure a reading is, and the highest against a limit.

It does not say where to measure nor how many readings make a range; that is range_seen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from ..errors import NotAChoice, shown
from .limits import within
from .verdict import Verdict, at_most, not_known

SOURCE = "A reading's uncertainty is added before it is held against a limit: JCGM 106:2012 (from memory)"


class Quantity(NamedTuple):
    """The unit of a quantity, its bounds in it, and how unsure an ordinary reading is where nothing is entered.

    plus_or_minus  least favourable ordinary uncertainty in the unit; share: as a share of the value, no unit
    """

    unit: str
    low: float
    high: float
    plus_or_minus: float = 0.0
    share: float = 0.0


# The uncertainties stand where none is entered: common practice, no source.
QUANTITIES: Mapping[str, Quantity] = {
    "air temperature": Quantity("°C", -45, 60, plus_or_minus=1),
    "outside temperature": Quantity("°C", -60, 60, plus_or_minus=1),
    "relative humidity": Quantity("%", 0, 100, plus_or_minus=5),
    "surface temperature": Quantity("°C", -45, 60, plus_or_minus=2),
    "wood moisture content": Quantity("% moisture content", 0, 200, plus_or_minus=2),
    "damp meter units": Quantity("meter units", -1e6, 1e6),
    "illuminance": Quantity("lx", 0, 200_000, share=0.1),
    "ultraviolet": Quantity("µW/lm", 0, 10_000, share=0.2),
    "level": Quantity("mm", -1e6, 1e6),
    "distance": Quantity("mm", 0, 1e6),
    "mass": Quantity("kg", 0, 100_000, share=0.05),
    "torque": Quantity("N m", 0, 1000, share=0.1),
    "pull": Quantity("N", 0, 1e6, share=0.1),
}


class Reading(NamedTuple):
    """One reading: when, s since 1970; its value in the quantity's unit; plus or minus in it, None: not entered."""

    at_s: float
    value: float
    uncertainty: float | None = None


def checked(quantity: str, unit: str, reading: Reading) -> Reading:
    """The reading itself, when its unit is that of its quantity and its value can be.

    quantity  one of QUANTITIES
    unit      the unit it was entered in
    reading   value and uncertainty in the unit
    returns   the reading

    Source: the unit of each quantity as meters give it; bounds: common practice, no source.
    Raises NotAChoice for another quantity or unit, OutOfRange outside the quantity's bounds.

    >>> checked("illuminance", "lx", Reading(0, 48)).value
    48
    """
    wanted = _of(quantity)
    if unit != wanted.unit:
        reason = f"The unit of {quantity} is {shown(unit)}."
        raise NotAChoice(reason, f"Enter it in {wanted.unit}.", field="unit", value=unit)
    within("value", reading.value, wanted.low, wanted.high, unit)
    if reading.uncertainty is not None:
        within("uncertainty", reading.uncertainty, 0, wanted.high, unit)
    return reading


def span(quantity: str, reading: Reading) -> tuple[float, float]:
    """The lowest and the highest that a reading may mean.

    quantity  one of QUANTITIES
    reading   value and uncertainty in the quantity's unit
    returns   value less and plus its uncertainty, kept within the quantity's bounds; without one entered the least
              favourable ordinary one

    Source: SOURCE.
    Raises NotAChoice for another quantity.

    >>> span("relative humidity", Reading(0, 52.0, 3)), span("relative humidity", Reading(0, 52.0))
    ((49.0, 55.0), (47.0, 57.0))
    """
    wanted = _of(quantity)
    unsure = reading.uncertainty
    if unsure is None:
        unsure = wanted.plus_or_minus + wanted.share * abs(reading.value)
    return max(wanted.low, reading.value - unsure), min(wanted.high, reading.value + unsure)


def highest_verdict(
    check: str, quantity: str, readings: Sequence[Reading], limit: float | None, source: str
) -> Verdict:
    """Whether the highest reading keeps below a limit, its uncertainty against it.

    check     the name of the question
    quantity  one of QUANTITIES
    readings  in the quantity's unit
    limit     in the same unit; None: nobody has set one
    source    where the limit comes from
    returns   verdict in the unit; with a figure even where there is no limit

    Source: SOURCE.
    Raises NotAChoice for another quantity, OutOfRange for a limit outside its bounds.

    >>> str(highest_verdict("light", "illuminance", [Reading(0, 48, 5)], 50, "the keeper").word)
    'over'
    """
    wanted = _of(quantity)
    if limit is not None:
        within("limit", limit, wanted.low, wanted.high, wanted.unit)
    if not readings:
        sentence = f"There is no reading of the {quantity}. Take one where it is highest."
        return not_known(check, (quantity,), sentence, source, wanted.unit)
    worst = max(readings, key=lambda one: span(quantity, one)[1])
    figure = span(quantity, worst)[1]
    working = (
        ("Highest reading", f"{worst.value:.10g} {wanted.unit}"),
        ("Its uncertainty", f"± {round(figure - worst.value, 9):.10g} {wanted.unit}{_unless_entered(worst)}"),
    )
    if limit is None:
        sentence = f"The {quantity} reaches {figure:.4g} {wanted.unit}; nobody has set a limit for it here."
        return replace(not_known(check, ("limit",), sentence, source, wanted.unit), figure=figure, working=working)
    what = f"The {quantity}, its uncertainty added,"
    return at_most(check, what, figure, limit, wanted.unit, source, working=working)


def _unless_entered(reading: Reading) -> str:
    return ", taken, none is entered" if reading.uncertainty is None else ""


def _of(quantity: str) -> Quantity:
    if quantity not in QUANTITIES:
        raise NotAChoice(
            f"“{shown(quantity)}” is no quantity that is measured here.",
            f"Choose one of: {', '.join(QUANTITIES)}.",
            field="quantity",
            value=quantity,
        )
    return QUANTITIES[quantity]
