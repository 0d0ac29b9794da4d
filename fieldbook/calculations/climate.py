"""Air, wood and light: dew point, moisture content, movement, exposure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..checks import air, light, materials, moisture, movement
from ..checks.limits import within
from ..errors import UnknownField, UnsuitableShape, WrongUse
from ..model.description import choice, line
from ..model.terms import Term
from .description import Calculation, Result, missing, mm, number, table, whole, yes_no


def _air(temperature_c: float, humidity_pct: float, surface_c: float | None = None) -> Result:
    dew_point = air.dew_point(temperature_c, humidity_pct)
    figures = {
        "dew_point_c": dew_point,
        "absolute_humidity_g_m3": air.absolute_humidity(temperature_c, humidity_pct),
    }
    if surface_c is None:
        return Result(figures, (air.SOURCE,))
    figures |= {
        "margin_c": surface_c - dew_point,
        "surface_humidity_pct": air.surface_humidity(temperature_c, humidity_pct, surface_c),
    }
    return Result(figures, (air.SOURCE,), air.condensation_verdict(temperature_c, humidity_pct, surface_c))


AIR = Calculation(
    "air",
    "Dew point and moisture in the air",
    "Dew point and water content of the air and, where a surface is given, its margin.",
    (
        number("temperature_c", "Air temperature", "°C", *air.TEMPERATURE_C, required=True),
        number("humidity_pct", "Relative humidity", "%", *air.HUMIDITY_PCT, required=True),
        number("surface_c", "Surface temperature", "°C", *air.TEMPERATURE_C,
               help="of a wall or pane, to see whether it stays dry"),
    ),
    {"temperature_c": 18, "humidity_pct": 65, "surface_c": 13},
    _air,
)  # fmt: skip


def _moisture(
    temperature_c: float, humidity_pct: float | None = None, moisture_content_pct: float | None = None
) -> Result:
    if humidity_pct is not None and moisture_content_pct is not None:
        reason = "Humidity and moisture content are both given."
        raise WrongUse(reason, "Give one; the other is calculated.", field="humidity_pct")
    if moisture_content_pct is not None:
        found = {"humidity_pct": moisture.humidity_for(temperature_c, moisture_content_pct)}
    elif humidity_pct is not None:
        found = {"moisture_content_pct": moisture.equilibrium(temperature_c, humidity_pct)}
    else:
        raise missing("humidity_pct", "Give it, or the moisture content.")
    return Result(found, (moisture.SOURCE,))


MOISTURE = Calculation(
    "moisture",
    "Moisture of wood from the air around it",
    "Moisture content from the air, or the humidity that a moisture content calls for.",
    (
        number("temperature_c", "Air temperature", "°C", *moisture.TEMPERATURE_C, required=True),
        number("humidity_pct", "Relative humidity", "%", *moisture.HUMIDITY_PCT),
        number("moisture_content_pct", "Moisture content", "%", 0, 100,
               help="in place of the humidity, to go the other way"),
    ),
    {"temperature_c": 12, "humidity_pct": 70},
    _moisture,
)  # fmt: skip

# which keys go with which sort of part
PARTS: Mapping[str, tuple[str, ...]] = {
    "species": ("direction", "width_mm", "from_pct", "to_pct"),
    "sheet": ("length_mm", "from_pct", "to_pct"),
    "material": ("length_mm", "from_c", "to_c"),
}


def _movement(own_rows: Sequence[Mapping[str, Any]] = (), allowance_mm: float | None = None, **given: Any) -> Result:
    sort = _sort_of(given)
    if not isinstance(own_rows, (list, tuple)):
        raise UnsuitableShape("is no list.", "Give a list of rows of materials.", field="own_rows", about="own_rows")
    material = materials.lookup(given[sort], own_rows, field=sort)
    property_name = {"species": f"{given.get('direction')}_per_pct", "sheet": "in_plane_per_pct"}
    figure = material.figure(property_name.get(sort, "thermal_per_c"), field=sort)
    size, start, end = (given[key] for key in PARTS[sort] if key != "direction")
    if sort == "sheet":
        within("length_mm", size, *movement.WIDTH_MM, "mm")
    moves = movement.with_warmth if sort == "material" else movement.with_moisture
    change = moves(size, figure.value, start, end)
    cited = figure.cited()
    steps = (("Coefficient", f"{figure.value:.6g} of the size for 1 {'°C' if sort == 'material' else '%'}"),)
    if allowance_mm is None:
        return Result({"change_mm": change}, (cited,), steps=steps)
    verdict = movement.movement_verdict(change, allowance_mm, cited)
    return Result({"change_mm": change, "margin_mm": verdict.margin}, (cited,), verdict, steps)


def _sort_of(given: Mapping[str, Any]) -> str:
    """Wood, sheet or the rest, with all its keys and none of another's."""
    sorts = [sort for sort in PARTS if sort in given]
    if len(sorts) != 1:
        words = f"{' and '.join(sorts)} are both" if sorts else "None of species, sheet, material is"
        remedy = "Give one: species for wood, sheet for boards, material for the rest."
        raise WrongUse(f"{words} given.", remedy, field="species")
    keys = PARTS[sorts[0]]
    for key in given:
        if key not in {sorts[0], *keys}:
            raise UnknownField(f"goes with no {sorts[0]}.", "Leave it out.", field=key, value=given[key], about=key)
    for key in keys:
        if key not in given:
            raise missing(key)
    return sorts[0]


MOVEMENT = Calculation(
    "movement",
    "How far a part swells, shrinks or expands",
    "Movement of a wooden part, a sheet, or a metal, plastic or glass part.",
    (
        line("species", "Species", group="Wood"),
        choice("direction", "Across the grain", *movement.DIRECTIONS, help="flat-sawn or quarter-sawn", group="Wood"),
        mm("width_mm", "Width", *movement.WIDTH_MM, group="Wood"),
        line("sheet", "Sheet goods", group="Or a sheet"),
        line("material", "Metal, plastic or glass", group="Or what does not take up water"),
        mm("length_mm", "Length", *movement.LENGTH_MM, help="of a sheet, metal, plastic or glass",
           group="Or what does not take up water"),
        number("from_pct", "Moisture content from", "%", *movement.MOISTURE_PCT, help="of wood or a sheet",
               group="Between what"),
        number("to_pct", "Moisture content to", "%", *movement.MOISTURE_PCT, group="Between what"),
        number("from_c", "Temperature from", "°C", *movement.TEMPERATURE_C, help="of metal, plastic or glass",
               group="Between what"),
        number("to_c", "Temperature to", "°C", *movement.TEMPERATURE_C, group="Between what"),
        mm("allowance_mm", Term.MOVEMENT_GAP, *movement.ALLOWANCE_MM, group="Between what"),
        table("own_rows", "Materials of your own", line("material", "material", required=True),
              choice("group", "group", *materials.GROUPS, required=True),
              *(number(name, name, unit) for name, (unit, _, _) in materials.PROPERTIES.items()),
              line("source", "source", required=True), group="A material that is not in the table",
              help=f"one a line: material; group; {'; '.join(materials.PROPERTIES)}; source"),
    ),
    {"species": "white oak", "direction": "tangential", "width_mm": 300, "from_pct": 8, "to_pct": 13,
     "allowance_mm": 4},
    _movement,
    unread=frozenset({"own_rows"}),  # the table of materials reads them as its own
)  # fmt: skip


def _light(
    lux: float,
    hours_per_year: float,
    category: str,
    blue_wool: int | None = None,
    uv_filtered: bool | None = None,
) -> Result:
    exposure = light.exposure(lux, hours_per_year)
    limit = light.CATEGORIES[category]
    figures: dict[str, Any] = {"exposure_lux_h": exposure, "limit_lux_h": limit.lux_h, "limit_lux": limit.lux}
    sources: tuple[str, ...] = (light.SOURCE,)
    if blue_wool is not None:
        # unfiltered light is the worse case, so it is what stands when nothing is said
        figures["years_to_noticeable_fade"] = light.years_to_noticeable_fade(exposure, blue_wool, bool(uv_filtered))
        figures["uv_filtered"] = bool(uv_filtered)
        sources += (light.DOSE_SOURCE,)
    elif uv_filtered is not None:
        reason = "says nothing without a blue wool grade."
        raise WrongUse(reason, "Give the grade as well.", field="uv_filtered", about="uv_filtered")
    return Result(figures, sources, light.light_verdict(lux, hours_per_year, category))


LIGHT = Calculation(
    "light",
    "Light on a colour in a year",
    "Exposure of a year against its category and, with a blue wool grade, how long the colour lasts.",
    (
        number("lux", "Illuminance", "lx", *light.LUX, required=True),
        number("hours_per_year", "Hours of light in a year", "h", *light.HOURS_PER_YEAR, required=True),
        choice("category", "Sensitivity to light", *light.CATEGORIES, help="by the categories of CIE 157",
               required=True),
        whole("blue_wool", "Blue wool grade", *light.BLUE_WOOL, help="of the finish, 1 to 8"),
        yes_no("uv_filtered", "Ultraviolet filtered out", help="only with a blue wool grade"),
    ),
    {"lux": 90, "hours_per_year": 2400, "category": "medium", "blue_wool": 4, "uv_filtered": True},
    _light,
)  # fmt: skip

CALCULATIONS = (AIR, MOISTURE, MOVEMENT, LIGHT)
