"""Recommended mass for a planned or repeated lift, by the revised NIOSH lifting equation.

Does not cover lifting with one hand, seated or kneeling, nor carrying, slippery floors and unstable loads.
"""

from __future__ import annotations

from typing import NamedTuple

from ..errors import NotAChoice
from .limits import within

SOURCE = "Revised NIOSH lifting equation, publication 94-110 (revised 2021), metric form"
LOAD_CONSTANT_KG = 23.0
COUPLINGS = ("good", "fair", "poor")


class Multipliers(NamedTuple):
    """The factors of the lifting equation, 0 to 1 each."""

    horizontal: float
    vertical: float
    distance: float
    asymmetry: float
    frequency: float
    coupling: float


def multipliers(
    horizontal_cm: float,
    vertical_cm: float,
    distance_cm: float,
    asymmetry_deg: float = 0.0,
    frequency_multiplier: float = 1.0,
    coupling: str = "good",
) -> Multipliers:
    """The factors of the lifting equation for one lift.

    horizontal_cm         hands from the middle of the ankles, cm, 0 to 200
    vertical_cm           hands above the floor where the lift begins, cm, 0 to 300
    distance_cm           how far the hands rise or sink, cm, 0 to 300
    asymmetry_deg         how far the load is to the side, degrees (°), 0 to 180
    frequency_multiplier  from the table of the manual, no unit, 0 to 1; 1 for a lift now and then within an hour
    coupling              "good": handles; "fair": fingers bent under it; "poor": neither
    returns               factors, no unit; 0 where the lift is beyond what the equation allows

    Source: NIOSH publication 94-110 (revised 2021), metric form. Shorter reaches and rises than 25 cm count as 25.
    The metric and the inch form differ by about 2 %, as 25 cm are not 10 inches.
    Raises OutOfRange outside the limits above, NotAChoice for another coupling.

    >>> round(multipliers(40, 75, 60).distance, 3)
    0.895
    """
    within("horizontal_cm", horizontal_cm, 0, 200, "cm")
    within("vertical_cm", vertical_cm, 0, 300, "cm")
    within("distance_cm", distance_cm, 0, 300, "cm")
    within("asymmetry_deg", asymmetry_deg, 0, 180, "°")
    within("frequency_multiplier", frequency_multiplier, 0, 1, "")
    if coupling not in COUPLINGS:
        raise NotAChoice(
            f"is {coupling}.",
            f"Choose one of: {', '.join(COUPLINGS)}.",
            field="coupling",
            value=coupling,
            about="coupling",
        )
    return Multipliers(
        25 / max(horizontal_cm, 25) if horizontal_cm <= 63 else 0.0,
        1 - 0.003 * abs(vertical_cm - 75) if vertical_cm <= 175 else 0.0,
        0.82 + 4.5 / max(distance_cm, 25) if distance_cm <= 175 else 0.0,
        1 - 0.0032 * asymmetry_deg if asymmetry_deg <= 135 else 0.0,
        frequency_multiplier,
        {"good": 1.0, "fair": 0.95 if vertical_cm < 75 else 1.0, "poor": 0.9}[coupling],
    )


def recommended_kg(factors: Multipliers) -> float:
    """Recommended weight limit of the lifting equation.

    factors  from `multipliers`, no unit
    returns  kg, for one healthy person

    Source: NIOSH publication 94-110 (revised 2021): 23 kg times the six factors.

    >>> recommended_kg(multipliers(25, 75, 25))
    23.0
    """
    limit = LOAD_CONSTANT_KG
    for factor in factors:
        limit *= factor
    return limit
