"""What the parts of some fittings can be cut from: the stock in hand and what can be bought, by what it is called."""

from __future__ import annotations

from collections.abc import Sequence

from ..book.site import Item, Site
from ..checks.stock_in_hand import IN_HAND, OFFCUT, TO_BUY, Offer
from ..errors import Missing
from .making import stock_of

SOURCES = {"offcut": OFFCUT, "whole": IN_HAND}  # what is entered -> as the check has it


def called(words: str | None) -> str:
    """Words as they are compared: whatever their capitals and spaces."""
    return " ".join((words or "").casefold().split())


def offers_for(site: Site, fittings: Sequence[Item]) -> tuple[tuple[Offer, ...], float]:
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
        for what, length, width, count, sort in site.item.stock or []
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


def counted(site: Site, what: str) -> tuple[int, float | None]:
    """How many are in hand of what is not cut, and what one costs; None where that is not entered."""
    there = sum(
        row[3] for row in site.item.stock or [] if called(row[0]) == called(what) and row[1] is None
    )  # what, length, width, count
    prices = (row[3] for row in site.item.prices or [] if called(row[0]) == called(what) and row[1] is None)
    return there, next(prices, None)
