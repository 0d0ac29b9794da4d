"""What the years do: damp behind what covers a wall, metals that touch, colours that fade."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..checks import covered_wall, light, metal_pair
from ..model.description import choice, line
from .description import Calculation, Result, number, whole, yes_no


def _covered_wall(
    surface_c: float,
    measured_inside_c: float,
    measured_outside_c: float,
    cover_m2k_w: float,
    inside_c: float,
    humidity_pct: float,
    outside_c: float,
) -> Result:
    factor = covered_wall.temperature_factor(surface_c, measured_inside_c, measured_outside_c)
    figures = {
        "factor": factor,
        "factor_behind": covered_wall.factor_behind(factor, cover_m2k_w),
        "least_factor": covered_wall.least_factor(inside_c, humidity_pct, outside_c),
    }
    verdict = covered_wall.covered_wall_verdict(factor, cover_m2k_w, inside_c, humidity_pct, outside_c)
    return Result(figures, (covered_wall.SOURCE,), verdict)


COLD_DAY: Mapping[str, Any] = {"group": "Measured together on a cold day"}
WINTER: Mapping[str, Any] = {"group": "In the coldest month"}
COVERED_WALL = Calculation(
    "covered-wall",
    "Damp behind what covers an outer wall",
    "How damp an outer wall gets at its surface behind what covers it, against the humidity mould needs.",
    (
        number("surface_c", "Inner surface of the wall", "°C", *covered_wall.TEMPERATURE_C, required=True, **COLD_DAY),
        number("measured_inside_c", "Room air", "°C", *covered_wall.TEMPERATURE_C, required=True, **COLD_DAY),
        number("measured_outside_c", "Outside air", "°C", *covered_wall.TEMPERATURE_C, required=True, **COLD_DAY,
               help="at least 5 K colder than the room"),
        number("cover_m2k_w", "Thermal resistance of the cover", "m²K/W", *covered_wall.RESISTANCE, required=True,
               help="panel and still air behind it; 0 for the bare wall"),
        number("inside_c", "Room air", "°C", *covered_wall.TEMPERATURE_C, required=True, **WINTER),
        number("humidity_pct", "Relative humidity", "%", *covered_wall.HUMIDITY_PCT, required=True, **WINTER,
               help="its uncertainty added"),
        number("outside_c", "Mean outside air", "°C", *covered_wall.TEMPERATURE_C, required=True, **WINTER),
    ),
    {"surface_c": 13, "measured_inside_c": 17, "measured_outside_c": 1, "cover_m2k_w": 0.2, "inside_c": 16,
     "humidity_pct": 58, "outside_c": 2},
    _covered_wall,
)  # fmt: skip


def _metal_pair(one: str, other: str, place: str | None = None, kept_apart: bool | None = None) -> Result:
    difference = metal_pair.difference_v(metal_pair.metal(one, "one"), metal_pair.metal(other, "other"))
    verdict = metal_pair.metal_pair_verdict(one, other, place, kept_apart)
    return Result({"difference_v": difference}, (metal_pair.SOURCE,), verdict)


METAL_PAIR = Calculation(
    "metal-pair",
    "Whether two metals may touch",
    "Whether two metals may touch where they are, by the difference of their anodic indexes.",
    (
        line("one", "One metal", required=True, help="as stainless steel A4, cast iron, brass"),
        line("other", "The other", required=True),
        choice("place", "Where they are", *metal_pair.PLACES),
        yes_no("kept_apart", "Something dry keeps them apart", help="everywhere, bolts included"),
    ),
    {"one": "cast iron", "other": "stainless steel A4", "place": list(metal_pair.PLACES)[0]},
    _metal_pair,
)  # fmt: skip


def _fading(
    lux: float,
    hours_per_year: float,
    blue_wool: int,
    uv_filtered: bool = False,
    stands_years: float | None = None,
) -> Result:
    exposure = light.exposure(lux, hours_per_year)
    years = light.years_to_noticeable_fade(exposure, blue_wool, uv_filtered)
    figures = {"exposure_lux_h": exposure, "years_to_noticeable_fade": years, "uv_filtered": uv_filtered}
    verdict = None if stands_years is None else light.fading_verdict(years, stands_years)
    return Result(figures, (light.DOSE_SOURCE,), verdict)


FADING = Calculation(
    "fading",
    "Years until a colour fades",
    "Years until a finish has changed by what one can just see, against the years it is to stand.",
    (
        number("lux", "Illuminance", "lx", *light.LUX, required=True),
        number("hours_per_year", "Hours of light in a year", "h", *light.HOURS_PER_YEAR, required=True),
        whole("blue_wool", "Blue wool grade", *light.BLUE_WOOL, required=True, help="1 (fugitive) to 8"),
        yes_no("uv_filtered", "Ultraviolet filtered out", help="empty: no, the worse"),
        number("stands_years", "Years it is to stand", "years", *light.STANDS_YEARS),
    ),
    {"lux": 120, "hours_per_year": 2100, "blue_wool": 4, "uv_filtered": True, "stands_years": 10},
    _fading,
)  # fmt: skip

CALCULATIONS = (COVERED_WALL, METAL_PAIR, FADING)
