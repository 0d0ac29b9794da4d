"""Where on its face a thing stands, in cells of half a metre: so that what stands near is found without a search."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

CELL_MM = 500

Cell = tuple[str, int, int]
"""A face's id, and the cell across and up."""


def cells_of(kind: str, values: Mapping[str, Any]) -> Iterator[Cell]:
    """The cells in which a fitting or a fixing stands."""
    if kind == "fixing":
        x, z = place_of(values)
        yield from cells_in(values["face"], x, x, z, z)
    else:
        x, z = values["x_mm"], values["z_mm"]
        yield from cells_in(values["face"], x, x + values["width_mm"], z, z + values["height_mm"])


def cells_in(face: str, x_from: float, x_to: float, z_from: float, z_to: float) -> Iterator[Cell]:
    """The cells a rectangle of a face touches."""
    for across in range(math.floor(x_from / CELL_MM), math.floor(x_to / CELL_MM) + 1):
        for up in range(math.floor(z_from / CELL_MM), math.floor(z_to / CELL_MM) + 1):
            yield face, across, up


def place_of(values: Mapping[str, Any]) -> tuple[Any, Any]:
    """Where a fixing is: as fitted when that was measured, else as planned."""
    x, z = values.get("fitted_x_mm"), values.get("fitted_z_mm")
    return (values.get("x_mm"), values.get("z_mm")) if x is None or z is None else (x, z)
