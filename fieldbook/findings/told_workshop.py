"""The workshop sheets as phones bring them along: what is cut out of what, drilled, bought and coated."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby
from typing import Any

from ..book.site import Item, Site
from ..checks.stock_in_hand import Taken
from .shopping import ToBuy, shopping_of
from .workshop import Batch, Lot, phases_of, workshop_of


def told_workshop(site: Site) -> list[dict[str, Any]]:
    """The sheets of each phase that something is planned in, in their order, without a share for mistakes.

    returns  cut: of each stock its parts [name, length, width, count, ids of what for], what each piece of it is cut
             into, and why it cannot be laid out; drill: ids of fittings made alike and the places of their holes;
             buy: what, length, width, how many; finishes: id, coats, litres or what is lacking, ids of what for
    """
    return [_phase(site, phase) for phase in phases_of(site)]


def _phase(site: Site, phase: str) -> dict[str, Any]:
    made = workshop_of(site, phase)
    return {
        "name": phase,
        "cut": [_cut(lot) for lot in made.lots],
        "drill": [_drilled(batch) for batch in made.batches],
        "buy": [_bought(one) for one in shopping_of(site, made).items if one.number],
        "finishes": [
            [one.finish.id, one.finish.coats, one.litres, list(one.lacking), _ids(one.fittings)]
            for one in made.finishes
        ],
    }


def _cut(lot: Lot) -> dict[str, Any]:
    return {
        "what": lot.called,
        "parts": [
            [part.name, part.length_mm, part.width_mm, part.count, _ids(fittings)] for part, fittings in lot.parts
        ],
        "pieces": [piece for taken in (lot.cut.taken if lot.cut else ()) for piece in _pieces(taken)],
        "refusal": f"{lot.refusal.reason} {lot.refusal.remedy}" if lot.refusal else None,
    }


def _pieces(taken: Taken) -> Iterable[list[Any]]:
    """Each piece of the stock: where from, length, width, and its parts [name, length, width, along, up]."""
    offer = taken.offer
    for _, parts in groupby(taken.pieces, key=lambda piece: piece.stock):
        cut = [[one.part, one.length_mm, one.width_mm, one.x_mm, one.y_mm] for one in parts]
        yield [offer.source, offer.length_mm, offer.width_mm, cut]


def _drilled(batch: Batch) -> dict[str, Any]:
    return {
        "fittings": _ids(batch.fittings),
        "holes": [[hole.fixing.id, hole.along_mm, hole.up_mm] for hole in batch.holes],
    }


def _bought(one: ToBuy) -> list[Any]:
    return [one.what, one.length_mm, one.width_mm, one.number]


def _ids(items: Iterable[Item]) -> list[str]:
    return [one.id for one in items]
