"""What a fitting is made out of: its parts laid out on sheets or lengths, and its projection layer by layer."""

from __future__ import annotations

from functools import lru_cache

from ..book.site import Item
from ..checks import cutting, projection
from ..checks.cutting import Layout, Part, Stock
from ..checks.projection import Layer, Projection
from ..errors import Missing

GRAINS = {"along": "along", "either way": "any", None: "along"}  # what is entered -> as the check has it


def stock_of(fitting: Item) -> Stock:
    """What a fitting's parts are cut from; raises Missing, with the field, where it is not entered."""
    for field, words in (("stock_length_mm", "length of the stock"), ("kerf_mm", "kerf of the saw")):
        if fitting.values[field] is None:
            raise Missing(f"The {words} for {fitting.called} is not entered.", "Enter it.", field=field)
    return Stock(fitting.stock_length_mm, fitting.stock_width_mm, fitting.kerf_mm)


def layout_of(fitting: Item) -> Layout:
    """How a fitting's parts come out of its stock.

    Raises Missing where parts or stock are not entered, and what `cutting.layout` raises.
    """
    if not fitting.parts:
        raise Missing(f"The parts of {fitting.called} are not entered.", "Enter what is to be cut.", field="parts")
    stock = stock_of(fitting)
    parts = tuple(
        Part(name, length, width, GRAINS[grain], count) for name, length, width, count, grain in fitting.parts
    )
    return _layout(parts, stock)


@lru_cache(maxsize=256)
def _layout(parts: tuple[Part, ...], stock: Stock) -> Layout:
    return cutting.layout(parts, stock)


def projection_of(fitting: Item) -> Projection:
    """How far a fitting stands out: as drawn, likely, and at worst. What it is packed out with is one of its layers.

    Raises Missing without a build-up, and what `projection.projection` raises.
    """
    layers = [Layer(name, thickness, tolerance or 0) for name, thickness, tolerance in fitting.build_up or []]
    return projection.projection(layers)
