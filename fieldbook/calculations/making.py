"""What is made at the bench: parts cut from stock, colours matched."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..checks import colour_difference, cutting
from ..model.description import choice, line
from .description import Calculation, Result, column, mm, row, table, whole


def _yield(parts: Sequence[Mapping[str, Any]], stock: Mapping[str, float]) -> Result:
    wanted = [
        cutting.Part(
            one["name"], one["length_mm"], one["width_mm"], one["grain"] or cutting.GRAINS[0], one["count"] or 1
        )
        for one in parts
    ]
    given: dict[str, Any] = {"width_mm": None, **stock}
    found = cutting.layout(wanted, cutting.Stock(**given))
    pieces = [piece._asdict() for piece in found.pieces]
    return Result({**found._asdict(), "pieces": pieces, "out_of_one": found.needed == 1}, (cutting.SOURCE,))


SIZE = (cutting.SIZE_LOW_MM, cutting.SIZE_HIGH_MM)
YIELD = Calculation(
    "yield",
    "Cutting plan from sheets or lengths",
    "Cutting plan: the sheets or lengths it takes, and where each part lies in them, mm.",
    (
        table("parts", "Parts to cut", line("name", "part", required=True), column("length_mm", "length", "mm", *SIZE),
              mm("width_mm", "width", *SIZE), whole("count", "count", 1, cutting.PARTS_HIGH),
              choice("grain", "grain", *cutting.GRAINS), most=cutting.PARTS_HIGH, required=True,
              help="one a line: part; length mm; width mm (empty for lengths); count; along, across or any"),
        mm("stock.length_mm", "Stock length", *SIZE, required=True),
        mm("stock.width_mm", "Stock width", *SIZE, help="empty for lengths"),
        mm("stock.kerf_mm", "Kerf", 0, cutting.KERF_HIGH_MM, required=True),
        mm("stock.trim_mm", "Edges to trim off", 0, cutting.TRIM_HIGH_MM),
    ),
    {"parts": [{"name": "case side", "length_mm": 1215, "width_mm": 140, "count": 6, "grain": "along"},
               {"name": "cleat", "length_mm": 1345, "width_mm": 58, "count": 3, "grain": "along"}],
     "stock": {"length_mm": 2440, "width_mm": 1220, "kerf_mm": 2.8}},
    _yield,
)  # fmt: skip


def _colour_difference(lab1: tuple[float, ...], lab2: tuple[float, ...]) -> Result:
    return Result({"delta_e00": colour_difference.ciede2000(lab1, lab2)}, (colour_difference.SOURCE,))


LAB = (
    column("L*", "L*", "", *colour_difference.LIGHTNESS),
    *(column(axis, axis, "", *colour_difference.OPPONENT) for axis in ("a*", "b*")),
)
COLOUR_DIFFERENCE = Calculation(
    "colour-difference",
    "How far two colours differ",
    "Colour difference of two CIELAB colours.",
    (
        row("lab1", "First colour", *LAB, help="L* a* b*", required=True),
        row("lab2", "Second colour", *LAB, help="L* a* b*", required=True),
    ),
    {"lab1": [62, 4, 18], "lab2": [60.5, 5, 20]},
    _colour_difference,
)

CALCULATIONS = (YIELD, COLOUR_DIFFERENCE)
