"""How the invented site is booked: short ways to put down what a surveyor puts down often.

Items name one another by their marks (`"face": "R1-N"`); `entering` turns marks into ids.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

Values = dict[str, Any]


def rectangle(x_mm: float, z_mm: float, width_mm: float, height_mm: float) -> list[list[float]]:
    """The outline of a rectangle from its lower left corner."""
    right, top = x_mm + width_mm, z_mm + height_mm
    return [[x_mm, z_mm], [right, z_mm], [right, top], [x_mm, top]]


def grid(x_mm: Sequence[float], z_mm: Sequence[float], proud_mm: Sequence[Sequence[float]]) -> list[list[float]]:
    """Surface readings booked as a table: a row for each height, from the lowest up."""
    return [[x, z, proud] for z, row in zip(z_mm, proud_mm, strict=True) for x, proud in zip(x_mm, row, strict=True)]


def floor(x_mm: Sequence[float], z_mm: Sequence[float]) -> list[list[float]]:
    """A floor profile booked in two lines."""
    return [[x, z] for x, z in zip(x_mm, z_mm, strict=True)]


def fixings(fitting: str, face: str, common: Values, *places: tuple) -> list[Values]:
    """The fixings of one fitting, which share most of what is said of them.

    A place is (number, x, z), then the as-fitted x and z where they were measured, then what is
    different about this one.
    """
    booked = []
    for number, x, z, *rest in places:
        own = rest.pop() if rest and isinstance(rest[-1], dict) else {}
        as_fitted = dict(zip(("fitted_x_mm", "fitted_z_mm"), rest, strict=False))
        mark = {"mark": f"{fitting}.{number}", "fitting": fitting, "face": face}
        booked.append(mark | {"x_mm": x, "z_mm": z} | as_fitted | common | own)
    return booked
