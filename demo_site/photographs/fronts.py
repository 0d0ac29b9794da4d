"""Which fitting looks like what; one that was never put up has no look."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..booking import Values
from . import hall_fronts, inner_fronts
from .solids import Block

_DRAWN: dict[str, Callable[[Values, Sequence[Values]], list[Block]]] = {
    "D1": hall_fronts.hanging_frame,
    "D2": hall_fronts.panel_on_the_beam,
    "D4": hall_fronts.case,
    "D5": hall_fronts.sign,
    "D7": inner_fronts.lamp,
    "D8": inner_fronts.rack,
    "D9": inner_fronts.chart,
    "D10": inner_fronts.channel,
    "D11": inner_fronts.plan,
    "D13": inner_fronts.shelf,
}


def solids(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """The blocks a fitting is made of, the farthest from the eye first."""
    draw = _DRAWN.get(fitting["mark"])
    return draw(fitting, fixings) if draw else []
