"""What is to be bought for a phase, by item, with what it costs: stock to cut and hardware, less what is in hand."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..book.site import Site
from ..checks.stock_in_hand import TO_BUY
from .stock import counted
from .workshop import Lot, Workshop


@dataclass(frozen=True)
class ToBuy:
    """So many of one item; what it is for where it has no name; length and width of stock to cut, mm.

    price  of one; None where it is not entered
    """

    what: str
    length_mm: float | None
    width_mm: float | None
    wanted: int
    there: int
    price: float | None

    @property
    def number(self) -> int:
        """How many have to be bought."""
        return max(0, self.wanted - self.there)

    @property
    def together(self) -> float | None:
        """What they cost; None where the price is not known, 0 where none has to be bought."""
        if not self.number:
            return 0.0
        return None if self.price is None else self.number * self.price


@dataclass(frozen=True)
class Shopping:
    """The list, the sum of all known prices, and the items whose price is not known."""

    items: tuple[ToBuy, ...]
    total: float
    unknown: tuple[str, ...]


def shopping_of(site: Site, made: Workshop) -> Shopping:
    """The shopping list of a phase.

    Parts that could not be laid out are no part of it; what stands in their lot says why.
    """
    hardware = (ToBuy(what, None, None, number, *counted(site, made.hand, what)) for what, number in made.hardware)
    items = [*_stock(made.lots), *hardware]
    return Shopping(
        tuple(items),
        math.fsum(one.together or 0 for one in items),
        tuple(one.what for one in items if one.together is None),
    )


def _stock(lots: Iterable[Lot]) -> Iterable[ToBuy]:
    for lot in lots:
        for one in lot.cut.taken if lot.cut else ():
            offer = one.offer
            there = 0 if offer.source == TO_BUY else one.needed
            yield ToBuy(lot.called, offer.length_mm, offer.width_mm, one.needed, there, offer.price)
