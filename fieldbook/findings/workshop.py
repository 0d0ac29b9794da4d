"""What is made for the fittings of a phase: parts over all stock together, holes from one edge, hardware, finishes.

Fittings made alike are made together: what is drilled and counted is told once for all of them. Stock in hand is
counted once: phase by phase in their order, each has what the earlier ones leave, rests of what they buy included.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..book.makes import first_of
from ..book.site import Item, Site
from ..checks.cutting import Part
from ..checks.stock_in_hand import CutFrom, Offer, cut_from
from ..errors import FieldbookError
from ..model.choices import PLANNED
from ..model.order import counting
from .coats import Coated, coated
from .making import GRAINS
from .stock import InHand, called, in_hand, offers_for

WITHOUT_PHASE = ""


@dataclass(frozen=True)
class Lot:
    """What comes out of one sort of stock; `spare` parts of them are cut besides, for mistakes.

    called   what the stock is called, or what it is for
    cut      what is taken of which size; None where it cannot be laid out, and refusal says why
    kerf_mm  saw cut, mm; None where it is not entered
    """

    called: str
    parts: tuple[tuple[Part, tuple[Item, ...]], ...]
    spare: int
    kerf_mm: float | None
    cut: CutFrom | None
    refusal: FieldbookError | None


@dataclass(frozen=True)
class Drilled:
    """A fixing by its place on the fitting, mm from the left and from the lower edge."""

    fixing: Item
    along_mm: float
    up_mm: float


@dataclass(frozen=True)
class Batch:
    """Fittings made alike, and where their fixings sit on each; those that are turned count from the right."""

    fittings: tuple[Item, ...]
    holes: tuple[Drilled, ...]


@dataclass(frozen=True)
class Workshop:
    """All that is made for a phase; `hand` is the stock that earlier phases leave for it."""

    fittings: tuple[Item, ...]
    lots: tuple[Lot, ...]
    batches: tuple[Batch, ...]
    hardware: tuple[tuple[str, int], ...]
    finishes: tuple[Coated, ...]
    costs: tuple[Item, ...]
    hand: InHand


def phases_of(site: Site) -> list[str]:
    """The phases that something is planned in, in their order; "" where none is entered, which comes first."""
    return sorted({one.phase or WITHOUT_PHASE for one in site.all("fitting") if one.state == PLANNED}, key=_in_order)


def _in_order(phase: str) -> tuple[bool, object]:
    return phase != WITHOUT_PHASE, counting(phase)


def workshop_of(site: Site, phase: str, spare_pct: float = 0) -> Workshop:
    """What is made for the fittings that are planned in a phase.

    spare_pct  of each part so many more are cut, rounded upwards, %; of those of earlier phases as well
    """
    hand = in_hand(site)
    for earlier in phases_of(site):
        if earlier == phase:
            break
        hand = _left_by(_made(site, earlier, spare_pct, hand))
    return _made(site, phase, spare_pct, hand)


def _left_by(made: Workshop) -> InHand:
    """The stock in hand that a phase does not use."""
    hand = made.hand
    for lot in made.lots:
        hand = hand.without(lot.called, lot.cut.taken) if lot.cut else hand.holding(lot.called)
    for what, number in made.hardware:
        hand = hand.without_counted(what, number)
    return hand


def _made(site: Site, phase: str, spare_pct: float, hand: InHand) -> Workshop:
    fittings = [one for one in site.all("fitting") if one.state == PLANNED and (one.phase or WITHOUT_PHASE) == phase]
    fixings = [fixing for one in fittings for fixing in site.of(one, "fixing") if fixing.state == PLANNED]
    hardware = Counter(", ".join(filter(None, (one.sort, one.size, one.material))) for one in fixings)
    own = {one.id for one in fittings}
    return Workshop(
        tuple(fittings),
        tuple(_lots(site, fittings, spare_pct, hand)),
        tuple(_batches(site, fittings)),
        tuple(sorted(hardware.items())),
        tuple(coated(finish, fittings) for name in _finishes(fittings) if (finish := site.get(name)) is not None),
        tuple(one for one in site.all("cost") if one.fitting in own and one.state == "expected"),
        hand,
    )


def _finishes(fittings: Iterable[Item]) -> list[str]:
    return list(dict.fromkeys(name for one in fittings for name in one.finishes or []))


def _lots(site: Site, fittings: Sequence[Item], spare_pct: float, hand: InHand) -> Iterable[Lot]:
    """What is called the same is cut together; of what has no name, the same size with the same saw."""
    by_stock: dict[tuple[object, ...], list[Item]] = defaultdict(list)
    for one in fittings:
        size = (one.stock_length_mm, one.stock_width_mm, one.kerf_mm)
        if one.parts and one.cut_from:
            by_stock[(called(one.cut_from),)].append(one)
        elif one.parts:
            by_stock[(one.id,) if None in {size[0], size[2]} else size].append(one)
    return [_lot(site, those, spare_pct, hand) for those in by_stock.values()]


def _lot(site: Site, fittings: Sequence[Item], spare_pct: float, hand: InHand) -> Lot:
    alike: dict[Part, list[Item]] = defaultdict(list)
    for one in fittings:
        for name, length, width, count, grain in one.parts:
            alike[Part(name, length, width, GRAINS[grain], count)].append(one)
    parts = [(part._replace(count=part.count * len(those)), tuple(those)) for part, those in alike.items()]
    extra = [math.ceil(part.count * spare_pct / 100) for part, _ in parts]
    wanted = [part._replace(count=part.count + more) for (part, _), more in zip(parts, extra, strict=True)]
    kerf, cut, refusal = None, None, None
    try:
        offers, kerf = offers_for(site, fittings, hand)
        cut = _cut(tuple(wanted), offers, kerf)
    except FieldbookError as error:
        refusal = error
    name = fittings[0].cut_from or f"stock for {', '.join(one.called for one in fittings)}"
    return Lot(name, tuple(parts), sum(extra), kerf, cut, refusal)


@lru_cache(maxsize=256)
def _cut(parts: tuple[Part, ...], offers: tuple[Offer, ...], kerf_mm: float) -> CutFrom:
    return cut_from(parts, offers, kerf_mm)


def _batches(site: Site, fittings: Iterable[Item]) -> Iterable[Batch]:
    alike: dict[tuple[str, bool, tuple[tuple[float, float], ...]], list[Item]] = defaultdict(list)
    holes: dict[str, tuple[Drilled, ...]] = {}
    for one in fittings:
        holes[one.id] = _holes(site, one)
        places = tuple((hole.along_mm, hole.up_mm) for hole in holes[one.id])
        alike[first_of(site, one).id, bool(one.mirrored), places].append(one)
    return [Batch(tuple(those), holes[those[0].id]) for those in alike.values() if holes[those[0].id]]


def _holes(site: Site, fitting: Item) -> tuple[Drilled, ...]:
    found = [one for one in site.of(fitting, "fixing") if one.stands and one.face == fitting.face]
    return tuple(Drilled(one, round(one.x_mm - fitting.x_mm, 1), round(one.z_mm - fitting.z_mm, 1)) for one in found)
