"""What the parts of some fittings can be cut from: the stock in hand and what can be bought, by what it is called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.stock_in_hand import IN_HAND, OFFCUT, TO_BUY, Offer, Taken
from ..errors import Missing
from .making import stock_of

SOURCES = {"offcut": OFFCUT, "whole": IN_HAND}  # what is entered -> as the check has it


class InHand(NamedTuple):
    """Stock that nothing before has a claim on.

    rows  what, length mm, width mm, count, sort, as they are entered with the site
    held  what is not counted, since nobody can say yet how much of it an earlier phase takes
    """

    rows: tuple[tuple[str, float | None, float | None, int, str], ...]
    held: tuple[str, ...] = ()

    def without(self, what: str, cut: Sequence[Taken]) -> InHand:
        """What is left when these pieces of it are cut: rests that are kept are offcuts from then on."""
        gone = {
            (one.offer.source, one.offer.length_mm, one.offer.width_mm): one.needed
            for one in cut
            if one.offer.source != TO_BUY
        }
        rows = []
        for name, length, width, count, sort in self.rows:
            less = 0
            if called(name) == called(what) and length is not None:
                size = SOURCES[sort], length, width
                less = min(count, gone.get(size, 0))
                gone[size] = gone.get(size, 0) - less
            rows.append((name, length, width, count - less, sort))
        kept = Counter((rest.length_mm, rest.width_mm) for one in cut for rest in one.left if rest.is_kept)
        rows += [(what, length, width, many, "offcut") for (length, width), many in kept.items()]
        return self._replace(rows=tuple(row for row in rows if row[3]))

    def without_counted(self, what: str, number: int) -> InHand:
        """What is left when so many are used of what is not cut."""
        rows = []
        for name, length, width, count, sort in self.rows:
            less = min(count, number) if called(name) == called(what) and length is None else 0
            number -= less
            rows.append((name, length, width, count - less, sort))
        return self._replace(rows=tuple(row for row in rows if row[3]))

    def holding(self, what: str) -> InHand:
        """What is left when nobody can say how much of something is used: all of it is held back."""
        kept = tuple(row for row in self.rows if called(row[0]) != called(what))
        return self if kept == self.rows else InHand(kept, (*self.held, what))


def in_hand(site: Site) -> InHand:
    """All that is entered with the site."""
    return InHand(tuple(tuple(row) for row in site.item.stock or []))


def called(words: str | None) -> str:
    """Words as they are compared: whatever their capitals and spaces."""
    return " ".join((words or "").casefold().split())


def offers_for(site: Site, fittings: Sequence[Item], hand: InHand) -> tuple[tuple[Offer, ...], float]:
    """What fittings that are cut from the same can be cut from, and the widest kerf of the saws, mm.

    The size that stands with a fitting can be bought too, at a price that is not known unless it stands in the prices.
    Raises Missing, with the field, where kerf or stock are not entered.
    """
    name = called(fittings[0].cut_from)
    if not name:
        own = stock_of(fittings[0])
        return (Offer(TO_BUY, own.length_mm, own.width_mm),), own.kerf_mm
    offers = [
        Offer(SOURCES[sort], length, width, count)
        for what, length, width, count, sort in hand.rows
        if called(what) == name and length is not None
    ]
    bought = {
        (length, width): Offer(TO_BUY, length, width, None, price)
        for what, length, width, price in site.item.prices or []
        if called(what) == name and length is not None
    }
    for one in fittings:
        if one.stock_length_mm is not None:
            size = one.stock_length_mm, one.stock_width_mm
            bought.setdefault(size, Offer(TO_BUY, *size))
        if one.kerf_mm is None:
            raise Missing(f"The kerf of the saw for {one.called} is not entered.", "Enter it.", field="kerf_mm")
    if not offers and not bought:
        reason = f"Of “{fittings[0].cut_from}” no size is entered."
        remedy = "Enter it among the stock or the prices of the site, or the size with the fitting."
        raise Missing(reason, remedy, field="cut_from", value=name)
    return (*offers, *bought.values()), max(one.kerf_mm for one in fittings)


def counted(site: Site, hand: InHand, what: str) -> tuple[int, float | None]:
    """How many are in hand of what is not cut, and what one costs; None where that is not entered."""
    there = sum(count for name, length, _, count, _ in hand.rows if called(name) == called(what) and length is None)
    prices = (row[3] for row in site.item.prices or [] if called(row[0]) == called(what) and row[1] is None)
    return there, next(prices, None)
