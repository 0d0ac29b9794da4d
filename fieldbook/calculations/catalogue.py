"""The list of calculations that can be done by hand: name -> function of the payload."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from ..checks import (
    air,
    clamp,
    clearance,
    colour_difference,
    cutting,
    fit_panel,
    fixing_group,
    humidity_band,
    keep_off,
    level,
    lifting,
    light,
    moisture,
    movement,
    packers,
    preload,
    projection,
    removal,
    trace,
    withdrawal,
)
from ..errors import WrongUse

CALCULATIONS: Mapping[str, Callable[[Any], dict[str, Any]]] = {
    "air": air.calculate,
    "clamp": clamp.calculate,
    "clearance": clearance.calculate,
    "colour-difference": colour_difference.calculate,
    "fit-panel": fit_panel.calculate,
    "fixing-group": fixing_group.calculate,
    "humidity-band": humidity_band.calculate,
    "keep-off": keep_off.calculate,
    "level": level.calculate,
    "lifting": lifting.calculate,
    "light": light.calculate,
    "moisture": moisture.calculate,
    "movement": movement.calculate,
    "packers": packers.calculate,
    "preload": preload.calculate,
    "projection": projection.calculate,
    "removal": removal.calculate,
    "trace": trace.calculate,
    "withdrawal": withdrawal.calculate,
    "yield": cutting.calculate,
}


def calculate(name: str, payload: Any) -> dict[str, Any]:
    """Do the named calculation.

    Raises WrongUse for an unknown name; otherwise what the calculation raises.
    """
    try:
        calculation = CALCULATIONS[name]
    except KeyError:
        raise WrongUse(
            f"There is no calculation “{name}”.",
            f"The calculations are: {', '.join(sorted(CALCULATIONS))}.",
            field="name",
            value=name,
        ) from None
    return calculation(payload)
