"""A panel in front of an outer wall: how cold, and so how damp, it makes the wall behind it.

What covers the wall keeps the room's warmth from it, while the room's vapour still gets there.
It does not cover rising or driven damp, salts, summer, corners and reveals (measure the factor
there), or a gap that is open to the room at top and bottom, behind which the wall stays as warm
as before.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

from ..errors import NotAChoice, shown
from .air import (
    MOULD_HUMIDITY_PCT,
    OFFSET_C,
    PRESSURE_AT_ZERO_HPA,
    SLOPE,
    dew_point,
    surface_humidity,
    vapour_pressure,
)
from .limits import rounded_up, within
from .verdict import Verdict, at_most

SOURCE = (
    "Temperature factor and 80 % at the surface: EN ISO 13788 (second hand; 80 % read in BS 5250:2002, Annex D); "
    "resistances in a row: ISO 6946:2017 (from memory)"
)
TEMPERATURE_C = (-30.0, 45.0)
HUMIDITY_PCT = (1.0, 100.0)
FACTOR = (0.05, 0.99)
RESISTANCE = (0.0, 20.0)
# Resistance between room and surface for judging mould, m²K/W: EN ISO 13788, from memory.
INNER_M2K_W = 0.25
LEAST_DIFFERENCE_K = 5.0


# Thermal conductivity at its low end by group of materials, W/(m K): EN ISO 10456:2007, Table 3, from memory.
CONDUCTIVITY: Mapping[str, float] = {
    "species": 0.12,
    "sheet": 0.10,
    "plastic": 0.17,
    "glass": 1.0,
    "metal": 17.0,
    "lining": 0.05,
}
# Resistance of a closed layer of air with heat going sideways, mm: m²K/W: ISO 6946:2017, Table 8, from memory.
AIR_LAYER: Mapping[float, float] = {0: 0.0, 5: 0.11, 7: 0.13, 10: 0.15, 15: 0.17, 25: 0.18}
THICKNESS_MM = (0.0, 1000.0)


def cover_resistance(panel_mm: float, group: str, air_mm: float | None) -> float:
    """Thermal resistance of a panel and the closed air behind it.

    panel_mm  thickness of the panel, mm, 0 to 1000
    group     what it is of, one of CONDUCTIVITY
    air_mm    depth of the closed air behind it, mm, 0 to 1000; None: not known, and then the most that air can make
    returns   m²K/W, not below what the panel has

    Source: thickness over conductivity; EN ISO 10456:2007 and ISO 6946:2017 (from memory), straight lines between.
    Raises NotAChoice for another group, OutOfRange outside the limits above.

    >>> round(cover_resistance(12, "sheet", 20), 3)
    0.295
    """
    if group not in CONDUCTIVITY:
        remedy = f"Choose one of: {', '.join(CONDUCTIVITY)}."
        raise NotAChoice(f"{shown(group)} is no group of panels.", remedy, field="group", value=group)
    panel = within("panel_mm", panel_mm, *THICKNESS_MM, "mm") / 1000 / CONDUCTIVITY[group]
    if air_mm is None:
        return panel + max(AIR_LAYER.values())
    return panel + _air(within("air_mm", air_mm, *THICKNESS_MM, "mm"))


def temperature_factor(surface_c: float, inside_c: float, outside_c: float) -> float:
    """How near the inner surface of an outer wall comes to the room's temperature.

    surface_c  temperature of the inner surface, °C, -30 to 45
    inside_c   room air, °C, -30 to 45; at least 5 K warmer than outside
    outside_c  outside air, °C, -30 to 45
    returns    factor, no unit: 1 as warm as the room, 0 as cold as outside

    Source: EN ISO 13788, f = (T_si - T_e)/(T_i - T_e); with less than 5 K between a reading says nothing:
    common practice, no source.
    Raises OutOfRange outside the limits above.

    >>> round(temperature_factor(15.4314, 20, 0), 4)
    0.7716
    """
    for name, value in (("surface_c", surface_c), ("inside_c", inside_c), ("outside_c", outside_c)):
        within(name, value, *TEMPERATURE_C, "°C")
    hint = "Measure on a cold day, when the room is warmer than outside."
    within("inside_c", inside_c, outside_c + LEAST_DIFFERENCE_K, TEMPERATURE_C[1], "°C", hint)
    return (surface_c - outside_c) / (inside_c - outside_c)


def least_factor(inside_c: float, humidity_pct: float, outside_c: float) -> float:
    """The factor a wall needs for its surface to stay at 80 % humidity or less.

    inside_c      room air, °C, -30 to 45; at least 5 K warmer than outside
    humidity_pct  relative humidity of the room, %, 1 to 100
    outside_c     outside air, °C, -30 to 45
    returns       factor, no unit

    Source: EN ISO 13788, with the vapour pressure of air.vapour_pressure.
    Raises OutOfRange outside the limits above.

    >>> round(least_factor(20, 60, 0), 4)
    0.7716
    """
    within("humidity_pct", humidity_pct, *HUMIDITY_PCT, "%")
    surface_c = _temperature_of(vapour_pressure(inside_c) * humidity_pct / MOULD_HUMIDITY_PCT)
    return temperature_factor(surface_c, inside_c, outside_c)


def factor_behind(factor: float, cover_m2k_w: float) -> float:
    """The factor of the wall's surface once something covers it.

    factor       of the bare wall, no unit, 0.05 to 0.99
    cover_m2k_w  thermal resistance of panel and air behind it, m²K/W, 0 to 20
    returns      factor behind the cover, no unit

    Source: resistances in a row, f = 1 - R_inside/R_total, ISO 6946; R between room and surface 0.25 m²K/W.
    Raises OutOfRange outside the limits above.

    >>> round(factor_behind(0.75, 0.2), 4)
    0.625
    """
    within("factor", factor, *FACTOR, "")
    within("cover_m2k_w", cover_m2k_w, *RESISTANCE, "m²K/W")
    total = INNER_M2K_W / (1 - factor)
    return 1 - (INNER_M2K_W + cover_m2k_w) / (total + cover_m2k_w)


def covered_wall_verdict(
    factor: float, cover_m2k_w: float, inside_c: float, humidity_pct: float, outside_c: float
) -> Verdict:
    """Whether mould must be reckoned with on an outer wall behind what covers it.

    factor        temperature factor of the bare wall there, no unit, 0.05 to 0.99
    cover_m2k_w   thermal resistance of panel and air behind it, m²K/W, 0 to 20
    inside_c      room air in the coldest month, °C, -30 to 45
    humidity_pct  relative humidity of the room then, its uncertainty added, %, 1 to 100
    outside_c     mean outside air of that month, °C, -30 to 45
    returns       verdict on the humidity at the covered surface, %, against 80 %

    Source: SOURCE; vapour pressure at the wall as in the room.
    Raises OutOfRange outside the limits above.

    >>> str(covered_wall_verdict(0.8, 0.2, 18, 60, 2).word)
    'over'
    """
    within("humidity_pct", humidity_pct, *HUMIDITY_PCT, "%")
    within("inside_c", inside_c, *TEMPERATURE_C, "°C")
    within(
        "outside_c",
        outside_c,
        TEMPERATURE_C[0],
        inside_c,
        "°C",
        "A wall that is warmer outside is not cooled by a cover.",
    )
    bare_c = outside_c + factor * (inside_c - outside_c)
    covered = factor_behind(factor, cover_m2k_w)
    surface_c = outside_c + covered * (inside_c - outside_c)
    figure = surface_humidity(inside_c, humidity_pct, surface_c)
    working = (
        ("Factor of the bare wall", f"{factor:.3g}"),
        ("Factor behind the cover", f"{covered:.3f}"),
        ("Surface, bare", f"{bare_c:.1f} °C"),
        ("Surface, covered", f"{surface_c:.1f} °C"),
        ("Dew point of the room", f"{rounded_up(dew_point(inside_c, humidity_pct)):g} °C"),
    )
    return at_most(
        "covered-wall", "Humidity at the wall behind it", figure, MOULD_HUMIDITY_PCT, "%", SOURCE, close=5,
        standing="Left out: damp from the ground, driven rain, salts, and a gap that the room's air moves through.",
        working=working,
    )  # fmt: skip


def _air(depth_mm: float) -> float:
    """Resistance of a closed layer of air, m²K/W; beyond the table's last depth it stays as it is."""
    for (low, least), (high, most) in pairwise(AIR_LAYER.items()):
        if depth_mm <= high:
            return least + (most - least) * (depth_mm - low) / (high - low)
    return max(AIR_LAYER.values())


def _temperature_of(pressure_hpa: float) -> float:
    """Temperature at which saturated air has this pressure of vapour, °C: air.vapour_pressure solved for it."""
    exponent = math.log(pressure_hpa / PRESSURE_AT_ZERO_HPA)
    return OFFSET_C * exponent / (SLOPE - exponent)
