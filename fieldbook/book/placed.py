"""Where a thing sits when it is put where something is already: a fixing in a hole that is there."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .site import Site

PLACE = ("x_mm", "z_mm")


def place_of_hold(site: Site | None, values: Mapping[str, Any]) -> dict[str, float]:
    """The place of the hole or fixing point that is used, where neither x nor z is given; {} where there is none."""
    hold = site.get(values.get("hold"), "hold") if site else None
    if hold is None or any(values.get(name) is not None for name in PLACE):
        return {}
    return {name: hold.values[name] for name in PLACE}
