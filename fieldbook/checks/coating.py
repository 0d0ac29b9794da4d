"""How much of a coating it takes, from the area, the number of coats and what one litre covers."""

from __future__ import annotations

from .limits import rounded_up, within

SOURCE = "Area times coats over what one litre covers, no loss counted: common practice, no source"
AREA_HIGH_M2, COATS_HIGH, COVERS_LOW_M2_L, COVERS_HIGH_M2_L = 100_000.0, 50, 0.1, 100.0
STEP_L = 0.01


def coating_needed(area_m2: float, coats: int, covers_m2_l: float) -> float:
    """Litres of a coating, rounded upwards to 10 ml.

    area_m2      what is coated, 0 to 100 000 m²
    coats        how many, 1 to 50, without unit
    covers_m2_l  what one litre covers in one coat, 0.1 to 100 m²/l, as its data sheet states for such a surface
    returns      litres on the work alone: what stays in brush, tin and spray is not counted

    Source: SOURCE.
    Raises OutOfRange outside the bounds.

    >>> coating_needed(3.7, 2, 11.5)
    0.65
    """
    within("area_m2", area_m2, 0, AREA_HIGH_M2, "m²")
    within("coats", coats, 1, COATS_HIGH, "coats")
    within("covers_m2_l", covers_m2_l, COVERS_LOW_M2_L, COVERS_HIGH_M2_L, "m²/l")
    return rounded_up(area_m2 * coats / covers_m2_l, STEP_L)
