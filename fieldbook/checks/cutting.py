"""Parts to cut, and the sheets or lengths they come out of, saw cuts and grain included.

Every layout can be cut with straight cuts from edge to edge. The least number is not always found; beside it
stands a number that no layout can do with less than, and where the two agree nothing better exists. Does not
cover curved parts nor faults in the wood; `stock_in_hand` lays out stock of several sizes.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import itemgetter
from typing import NamedTuple

from ..errors import NotAChoice, OutOfRange, UnsuitableShape
from .cutting_bound import least_stock
from .guillotine import NOISE_MM, PartToPlace, Place, Way, fewest_sheets
from .limits import within

SOURCE = (
    "Guillotine cutting: largest parts first into the best fitting rest, the rest split in two, several orders and "
    "rules tried; lower bound by area and after Martello and Toth (1990)"
)
GRAINS = ("along", "across", "any")
PARTS_HIGH = 500
SIZE_LOW_MM, SIZE_HIGH_MM = 1.0, 50_000.0
KERF_HIGH_MM = 50.0
TRIM_HIGH_MM = 1000.0


class Part(NamedTuple):
    """A part to cut, mm, and how many. Its grain runs along its length, across it, or any way.

    A part cut from lengths has no width.
    """

    name: str
    length_mm: float
    width_mm: float | None = None
    grain: str = "along"
    count: int = 1  # type: ignore[assignment]  # over a tuple's own, which nobody asks


class Stock(NamedTuple):
    """A sheet, its grain along its length, or a length without width, mm; kerf of the saw; edges to trim off."""

    length_mm: float
    width_mm: float | None
    kerf_mm: float
    trim_mm: float = 0.0


class Piece(NamedTuple):
    """Where a part lies: which sheet or length (from 1), lower left corner and size in the sheet's axes, mm."""

    stock: int
    part: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float | None
    turned: bool


class Layout(NamedTuple):
    """How many sheets or lengths, the number no layout can do with less than, the pieces, and the share used."""

    needed: int
    at_least: int
    pieces: tuple[Piece, ...]
    used_share: float


def layout(parts: Sequence[Part], stock: Stock) -> Layout:
    """How parts come out of sheets or lengths of one size.

    parts    what to cut, 1 to 500; sides 1 to 50 000 mm
    stock    what to cut from, sides 1 to 50 000 mm, kerf 0 to 50 mm, trim 0 to 1000 mm
    returns  the layout; pieces keep at least a kerf between them and lie within the trimmed edges

    Source: guillotine cutting by best fit: common practice, no source; each part and the stock are taken larger by
    one kerf, so that a cut is lost between pieces but not at the edge.
    Raises OutOfRange outside the limits and for a part that does not fit at all, NotAChoice for another grain,
    UnsuitableShape for parts with and without width mixed.

    >>> layout([Part("back rail", 1415, 85), Part("batten", 865, 44)], Stock(1525, 305, 2.8)).needed
    1
    """
    within("parts", sum(part.count for part in parts), 1, PARTS_HIGH, "parts")
    within("stock.kerf_mm", stock.kerf_mm, 0, KERF_HIGH_MM, "mm")
    within("stock.trim_mm", stock.trim_mm, 0, TRIM_HIGH_MM, "mm")
    length = _side("stock.length_mm", stock.length_mm) - 2 * stock.trim_mm + stock.kerf_mm
    width = 1.0
    if stock.width_mm is not None:
        width = _side("stock.width_mm", stock.width_mm) - 2 * stock.trim_mm + stock.kerf_mm
    ways = [ways_of(place, part, stock, length, width) for place, part in enumerate(parts)]
    blanks = [PartToPlace(place, ways[place]) for place, part in enumerate(parts) for _ in range(part.count)]
    at_least = least_stock([[way[:2] for way in blank.ways] for blank in blanks], length, width)
    needed, places = fewest_sheets(blanks, length, width, at_least)
    used = math.fsum(part.count * part.length_mm * (part.width_mm or 1.0) for part in parts)
    share = used / (stock.length_mm * (stock.width_mm or 1.0) * needed)
    pieces = sorted((piece_of(parts[place.part], place, stock) for place in places), key=itemgetter(0, 2, 3))
    return Layout(needed, at_least, tuple(pieces), share)


def ways_of(place: int, part: Part, stock: Stock, length: float, width: float) -> tuple[Way, ...]:
    """How a part may lie in a sheet, with one kerf on its length and width; a length counts as 1 mm wide.

    place   of the part in the list, without unit, from 0
    length  of the sheet within its trimmed edges and with one kerf, mm
    width   the same, mm

    Source: as for `layout`; raises what it raises.
    """
    long = _side(f"parts[{place}].length_mm", part.length_mm) + stock.kerf_mm
    if (part.width_mm is None) != (stock.width_mm is None):
        raise UnsuitableShape(
            f"“{part.name}” and what it is cut from must both have a width, or both be lengths without one.",
            "Give both widths for sheets, none for lengths.",
            field=f"parts[{place}].width_mm",
            value=part.width_mm,
        )
    if part.grain not in GRAINS:
        raise NotAChoice(
            f"The grain of “{part.name}” is {part.grain}.",
            f"Choose one of: {', '.join(GRAINS)}.",
            field=f"parts[{place}].grain",
            value=part.grain,
        )
    if part.width_mm is None:
        ways: tuple[Way, ...] = ((long, 1.0, False),)
    else:
        wide = _side(f"parts[{place}].width_mm", part.width_mm) + stock.kerf_mm
        along, across = (long, wide, False), (wide, long, True)
        ways = {"along": (along,), "across": (across,)}.get(part.grain, (along, across))
    fitting = tuple(way for way in ways if way[0] <= length + NOISE_MM and way[1] <= width + NOISE_MM)
    if not fitting:
        raise OutOfRange(
            f"“{part.name}” is larger than what it is to be cut from, as its grain has to lie.",
            "Use larger stock, make the part of two, or let its grain run another way.",
            field=f"parts[{place}].length_mm",
            value=part.length_mm,
        )
    return fitting


def _side(name: str, side_mm: float) -> float:
    return within(name, side_mm, SIZE_LOW_MM, SIZE_HIGH_MM, "mm")


def piece_of(part: Part, place: Place, stock: Stock) -> Piece:
    """A place in the stock as it is bought, trimmed edges included.

    Source: as for `layout`.
    """
    sheet = stock.width_mm is not None
    length, width = (part.width_mm, part.length_mm) if place.turned else (part.length_mm, part.width_mm)
    y = place.y + stock.trim_mm if sheet else 0.0
    return Piece(place.stock, part.name, place.x + stock.trim_mm, y, length or 0.0, width, place.turned)
