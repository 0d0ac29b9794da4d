"""Damp air: dew point, absolute humidity, and whether a surface in it will sweat.

Source: Magnus form with the constants of Sonntag (1990), as in WMO-No. 8, over water; other
sets in use differ by up to 0.05 K in the dew point. Humidity is over water at every
temperature, as sensors give it, so below 0 °C the dew point lies under the frost point (0.2 K
at 0 °C and 90 %). It does not cover salts in a wall, which draw water from drier air.
"""

from __future__ import annotations

import math

from .limits import rounded_down, rounded_up, within
from .verdict import Verdict, Word

SOURCE = "Magnus form, constants of Sonntag (1990), WMO-No. 8"

TEMPERATURE_C = (-45.0, 60.0)
HUMIDITY_PCT = (1.0, 100.0)

# saturation vapour pressure over water at 0 °C, hPa; the two numbers of the exponent, - and °C
PRESSURE_AT_ZERO_HPA = 6.112
SLOPE = 17.62
OFFSET_C = 243.12
# gas constant of water vapour, J/(kg K)
VAPOUR_CONSTANT = 461.5
# 0 °C, K
ZERO_K = 273.15

# Humidity at a surface above which mould must be reckoned with if it lasts for days:
# BS 5250:2002, Annex D, after EN ISO 13788.
MOULD_HUMIDITY_PCT = 80.0


def vapour_pressure(temperature_c: float) -> float:
    """Pressure of water vapour in saturated air.

    temperature_c  air temperature, °C, -45 to 60
    returns        pressure over water, hPa

    Source: Magnus form, constants of Sonntag (1990), WMO-No. 8; 0.3 % low at 20 °C.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(vapour_pressure(20), 2)
    23.33
    """
    within("temperature_c", temperature_c, *TEMPERATURE_C, "°C")
    return PRESSURE_AT_ZERO_HPA * math.exp(SLOPE * temperature_c / (OFFSET_C + temperature_c))


def dew_point(temperature_c: float, humidity_pct: float) -> float:
    """Temperature at which air of this humidity would begin to condense.

    temperature_c  air temperature, °C, -45 to 60
    humidity_pct   relative humidity over water, %, 1 to 100
    returns        dew point over water, °C; below 0 °C frost forms a little earlier than this says

    Source: Magnus form, constants of Sonntag (1990), WMO-No. 8, solved for temperature.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(dew_point(20, 65), 2)
    13.22
    """
    within("temperature_c", temperature_c, *TEMPERATURE_C, "°C")
    _within_humidity(humidity_pct)
    exponent = math.log(humidity_pct / 100) + SLOPE * temperature_c / (OFFSET_C + temperature_c)
    return OFFSET_C * exponent / (SLOPE - exponent)


def absolute_humidity(temperature_c: float, humidity_pct: float) -> float:
    """Mass of water in the air.

    temperature_c  air temperature, °C, -45 to 60
    humidity_pct   relative humidity over water, %, 1 to 100
    returns        water, g/m³

    Source: ideal gas law with R = 461.5 J/(kg K) and the pressure of vapour_pressure.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(absolute_humidity(20, 50), 1)
    8.6
    """
    _within_humidity(humidity_pct)
    pascal = vapour_pressure(temperature_c) * humidity_pct
    return 1000 * pascal / (VAPOUR_CONSTANT * (temperature_c + ZERO_K))


def surface_humidity(temperature_c: float, humidity_pct: float, surface_c: float) -> float:
    """Relative humidity of the air in contact with a colder or warmer surface.

    temperature_c  air temperature, °C, -45 to 60
    humidity_pct   relative humidity over water, %, 1 to 100
    surface_c      temperature of the surface, °C, -45 to 60
    returns        relative humidity at the surface, %; above 100 it condenses

    Source: the same vapour pressure in the room and at the surface; vapour_pressure.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(surface_humidity(20, 60, 14))
    88
    """
    _within_humidity(humidity_pct)
    within("surface_c", surface_c, *TEMPERATURE_C, "°C")
    return humidity_pct * vapour_pressure(temperature_c) / vapour_pressure(surface_c)


def condensation_verdict(temperature_c: float, humidity_pct: float, surface_c: float) -> Verdict:
    """Whether a surface stays above the dew point, with the dew point as the figure.

    temperature_c  air temperature, °C, -45 to 60
    humidity_pct   relative humidity over water, %, 1 to 100
    surface_c      temperature of the surface, °C, -45 to 60
    returns        verdict in °C: over when the margin is under 0.1 K (formulas differ by 0.05 K),
                   close when the humidity at the surface is above 80 %

    Source: SOURCE; 80 %: BS 5250:2002, Annex D, after EN ISO 13788.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> str(condensation_verdict(20, 60, 14).word)
    'close'
    """
    at_surface_pct = surface_humidity(temperature_c, humidity_pct, surface_c)
    dew_c = dew_point(temperature_c, humidity_pct)
    margin_c = rounded_down(surface_c - dew_c)
    if margin_c <= 0:
        word, meaning = Word.OVER, "water condenses on it"
    elif at_surface_pct > MOULD_HUMIDITY_PCT:
        word, meaning = Word.CLOSE, f"above {MOULD_HUMIDITY_PCT:g} % at the surface mould grows if it lasts for days"
    else:
        word, meaning = Word.WITHIN, "it stays dry"
    side = "above" if margin_c >= 0 else "below"
    return Verdict(
        check="air",
        word=word,
        figure=rounded_up(dew_c),
        limit=rounded_down(surface_c),
        margin=margin_c,
        unit="°C",
        sentence=f"The surface at {surface_c:g} °C is {abs(margin_c):g} K {side} the dew point"
        f" of {rounded_up(dew_c):g} °C: {meaning}.",
        source=f"{SOURCE}; 80 % at a surface: BS 5250:2002, Annex D",
        working=(
            ("Air temperature", f"{temperature_c:g} °C"),
            ("Relative humidity", f"{humidity_pct:g} %"),
            ("Surface temperature", f"{surface_c:g} °C"),
            ("Dew point", f"{rounded_up(dew_c):g} °C"),
            ("Humidity at the surface", f"{rounded_up(at_surface_pct):g} %"),
        ),
    )


def _within_humidity(humidity_pct: float) -> float:
    hint = "If this is a fraction, give it in percent: 65, not 0.65."
    return within("humidity_pct", humidity_pct, *HUMIDITY_PCT, "%", hint)
