"""How much a part moves with damp or warmth, and whether its gap or slotted hole allows it.

Wood moves across the grain and sheet goods in their plane with moisture content; metals,
plastics and glass move with temperature. Along the grain wood moves too little to matter
here. It does not cover cupping and twist, thickness swelling of boards, nor wood held so that
it cannot move. One piece of a species may move a good deal more than the mean given.
"""

from __future__ import annotations

from .limits import within
from .verdict import Verdict, at_most

# the range the coefficients hold for
MOISTURE_PCT = (6.0, 14.0)
WIDTH_MM = (1.0, 20_000.0)
LENGTH_MM = (1.0, 100_000.0)
TEMPERATURE_C = (-40.0, 80.0)
ALLOWANCE_MM = (0.0, 1000.0)
COEFFICIENT = (0.0, 0.01)

DIRECTIONS = ("tangential", "radial")

METHOD = "Wood Handbook, FPL-GTR-190 (2010), chapter 13, coefficients of Table 13-5"
LEFT_OUT = "It is a mean: single pieces move more or less."


def with_moisture(width_mm: float, coefficient_per_pct: float, from_pct: float, to_pct: float) -> float:
    """Change of a width, or of a sheet's side, with moisture content.

    width_mm             the dimension that moves, mm, 1 to 20 000
    coefficient_per_pct  movement as a fraction of the width for 1 % moisture content, 1/%, 0 to 0.01
    from_pct             moisture content at that width, %, 6 to 14
    to_pct               moisture content it goes to, %, 6 to 14
    returns              change, mm; negative shrinks

    Source: Wood Handbook, FPL-GTR-190 (2010), chapter 13, change = width x coefficient x (to - from).
    For sheet goods the same line, with a coefficient for the plane of the sheet.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(with_moisture(200, 0.00365, 12, 8), 2)
    -2.92
    """
    within("width_mm", width_mm, *WIDTH_MM, "mm")
    within("coefficient_per_pct", coefficient_per_pct, *COEFFICIENT, "1/%", "Give a fraction for 1 %, not percent.")
    hint = "The coefficients hold from 6 to 14 % moisture content only; beyond that the movement is not known."
    within("from_pct", from_pct, *MOISTURE_PCT, "%", hint)
    within("to_pct", to_pct, *MOISTURE_PCT, "%", hint)
    return width_mm * coefficient_per_pct * (to_pct - from_pct)


def with_warmth(length_mm: float, coefficient_per_c: float, from_c: float, to_c: float) -> float:
    """Change of a length with temperature.

    length_mm          the length, mm, 1 to 100 000
    coefficient_per_c  linear expansion as a fraction of the length for 1 °C, 1/°C, 0 to 0.01
    from_c             temperature at that length, °C, -40 to 80
    to_c               temperature it goes to, °C, -40 to 80
    returns            change, mm; negative shrinks

    Source: definition of the coefficient of linear expansion, taken as constant over the range.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(with_warmth(2000, 0.000024, 5, 30), 2)
    1.2
    """
    within("length_mm", length_mm, *LENGTH_MM, "mm")
    within("coefficient_per_c", coefficient_per_c, *COEFFICIENT, "1/°C")
    within("from_c", from_c, *TEMPERATURE_C, "°C")
    within("to_c", to_c, *TEMPERATURE_C, "°C")
    return length_mm * coefficient_per_c * (to_c - from_c)


def movement_verdict(
    change_mm: float, allowance_mm: float, source: str = METHOD, working: tuple[tuple[str, str], ...] = ()
) -> Verdict:
    """Whether a gap or slotted hole lets the part move as much as it will.

    change_mm     change between the driest and the dampest, or the coldest and the warmest, mm, -1000 to 1000
    allowance_mm  how far the part may move in all before it is held, mm, 0 to 1000
    source        where the method and the coefficient come from
    working       inputs and steps, in order
    returns       verdict in mm

    Source: with_moisture or with_warmth for the figure; the allowance is what was measured or drawn.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> str(movement_verdict(-2.92, 3.5).word)
    'close'
    """
    within("change_mm", change_mm, -ALLOWANCE_MM[1], ALLOWANCE_MM[1], "mm")
    within("allowance_mm", allowance_mm, *ALLOWANCE_MM, "mm")
    return at_most(
        "movement", "Movement", abs(change_mm), allowance_mm, "mm", source, standing=LEFT_OUT, working=working
    )
