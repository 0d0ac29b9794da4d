"""Equilibrium moisture content of timber: what wood takes up from the air it hangs in.

Source: Wood Handbook, FPL-GTR-282 (2021) and FPL-GTR-190 (2010), Equation 4-5. The handbook
gives one curve for all species, midway between taking up and giving off; species differ most in
damp air, and a tenth of a percent means nothing in practice. It does not cover boards made
with resin, which stay drier than solid wood, nor wood that liquid water reaches.
"""

from __future__ import annotations

from .limits import within

SOURCE = "Wood Handbook, FPL-GTR-282 (2021), Equation 4-5"

# what Table 4-2, which the equation stands for, covers
TEMPERATURE_C = (-1.1, 132.2)
HUMIDITY_PCT = (5.0, 95.0)

# halvings of 90 % humidity until the step is smaller than any instrument could show
HALVINGS = 50


def equilibrium(temperature_c: float, humidity_pct: float) -> float:
    """Moisture content that wood comes to in steady air.

    temperature_c  air temperature, °C, -1.1 to 132.2
    humidity_pct   relative humidity, %, 5 to 95
    returns        moisture content, % of oven-dry mass

    Source: Wood Handbook, FPL-GTR-282 (2021), Equation 4-5, form in °C.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(equilibrium(20, 65), 2)
    12.0
    """
    within("temperature_c", temperature_c, *TEMPERATURE_C, "°C")
    within("humidity_pct", humidity_pct, *HUMIDITY_PCT, "%", "If this is a fraction, give it in percent: 65, not 0.65.")
    w = 349 + 1.29 * temperature_c + 0.0135 * temperature_c**2
    k = 0.805 + 0.000736 * temperature_c - 0.00000273 * temperature_c**2
    k1 = 6.27 - 0.00938 * temperature_c - 0.000303 * temperature_c**2
    k2 = 1.91 + 0.0407 * temperature_c - 0.000293 * temperature_c**2
    kh = k * humidity_pct / 100
    held = k1 * kh + k1 * k2 * kh**2
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + held))


def humidity_for(temperature_c: float, moisture_content_pct: float) -> float:
    """Humidity at which wood keeps a moisture content: the inverse of equilibrium.

    temperature_c         air temperature, °C, -1.1 to 132.2
    moisture_content_pct  moisture content, % of oven-dry mass, what 5 to 95 % humidity gives
    returns               relative humidity, %

    Source: Wood Handbook, FPL-GTR-282 (2021), Equation 4-5, solved by halving the interval.
    Raises OutOfRange outside the limits above, NotANumber for what is no number.

    >>> round(humidity_for(20, 12))
    65
    """
    low, high = HUMIDITY_PCT
    least, most = equilibrium(temperature_c, low), equilibrium(temperature_c, high)
    within("moisture_content_pct", moisture_content_pct, least, most, "%")
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if equilibrium(temperature_c, middle) < moisture_content_pct:
            low = middle
        else:
            high = middle
    return high
