"""Parts cut out of stock of several sizes: offcuts first, then whole pieces in hand, then what costs least.

Lengths and sheets alike, by straight cuts from edge to edge. The cheapest way is not always found; beside it stands
what no way can cost less than. Does not cover curved parts, faults in the wood, nor whether a rest is worth keeping.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..errors import OutOfRange
from .cutting import KERF_HIGH_MM, PARTS_HIGH, SIZE_HIGH_MM, SIZE_LOW_MM, Part, Piece, Stock, piece_of, ways_of
from .cutting_bound import SHARE_NOISE, least_stock
from .guillotine import PartToPlace, Way
from .limits import within
from .several_sizes import Laid, Size, least_laid

SOURCE = (
    "Guillotine cutting by best fit out of what there is, offcuts first, then out of what is bought, several orders "
    "and sizes tried: common practice, no source; lower bound by area"
)
OFFCUT, IN_HAND, TO_BUY = "offcut", "in hand", "to buy"
KEPT_MM = 100.0  # what is worth keeping of a rest, each way: common practice, no source
COUNT_HIGH, PRICE_HIGH = 500, 1e6
PRICE_LOW = 1e-6  # a gift is still opened last


class Offer(NamedTuple):
    """Stock of one size, mm: offcut, in hand or to buy; how many there are, and what one costs.

    many   None: as many as it takes, of what can be bought
    price  None: not known; asked of what can be bought alone
    """

    source: str
    length_mm: float
    width_mm: float | None
    many: int | None = None
    price: float | None = None


class LeftOver(NamedTuple):
    """A rest in one piece: of which piece of the stock, its size, mm."""

    stock: int
    length_mm: float
    width_mm: float | None

    @property
    def is_kept(self) -> bool:
        """Whether it is large enough to be used again."""
        return self.length_mm >= KEPT_MM and (self.width_mm is None or self.width_mm >= KEPT_MM)


class Taken(NamedTuple):
    """How many of an offer are cut, the parts out of each, numbered from 1, what is left of each, the share used."""

    offer: Offer
    needed: int
    pieces: tuple[Piece, ...]
    left: tuple[LeftOver, ...]
    used_share: float


class CutFrom(NamedTuple):
    """Where all parts come out of; the price of what is bought, and one that no way can be below.

    price, least_price  None where a price is not known
    at_least            number of pieces that no way can do with less than; None where there is more than one size
    """

    taken: tuple[Taken, ...]
    price: float | None
    least_price: float | None
    at_least: int | None


def cut_from(parts: Sequence[Part], offers: Sequence[Offer], kerf_mm: float) -> CutFrom:
    """How parts come out of stock of several sizes.

    parts    what to cut, 1 to 500; sides 1 to 50 000 mm
    offers   what to cut from, 1 or more; sides 1 to 50 000 mm, 1 to 500 of each, price 0 to 1 000 000, without unit
    kerf_mm  saw cut, 0 to 50 mm
    returns  what is taken of each offer. Offcuts are filled before a whole piece in hand is begun, and those before
             anything is bought; of what is bought the least price is looked for where all prices are known, else the
             least area

    Source: SOURCE.
    Raises OutOfRange outside the limits, for a part that fits into nothing, and where what there is does not suffice;
    UnsuitableShape for parts with and stock without width, NotAChoice for another grain.

    >>> battens = [Part("batten", 900, count=3)]
    >>> found = cut_from(battens, [Offer("offcut", 950, None, 1), Offer("to buy", 2400, None, None, 7.5)], 3)
    >>> [(one.offer.source, one.needed) for one in found.taken], found.price
    ([('offcut', 1), ('to buy', 1)], 7.5)
    """
    within("parts", sum(part.count for part in parts), 1, PARTS_HIGH, "parts")
    within("kerf_mm", kerf_mm, 0, KERF_HIGH_MM, "mm")
    priced = all(one.price is not None for one in offers if one.source == TO_BUY)
    sizes = [_size(place, offer, kerf_mm, priced) for place, offer in enumerate(offers)]
    ways = [_ways(place, part, offers, sizes, kerf_mm) for place, part in enumerate(parts)]
    blanks = [PartToPlace(place, ways[place]) for place, part in enumerate(parts) for _ in range(part.count)]
    least = _least(blanks, sizes)
    laid = least_laid(blanks, sizes, least)
    if laid is None:
        raise OutOfRange(
            "The parts do not come out of what there is.",
            "Enter what else can be bought, or cut fewer.",
            field="offers",
            value=len(offers),
        )
    taken = (_taken(at, laid, parts, offer, kerf_mm) for at, offer in enumerate(offers))
    price = math.fsum(offers[at].price or 0 for at in laid.opened if offers[at].source == TO_BUY)
    at_least = round(least / sizes[0].worth) if len(sizes) == 1 and sizes[0].worth else None
    cut = tuple(one for one in taken if one.needed)
    return CutFrom(cut, price if priced else None, min(least, price) if priced else None, at_least)


def _size(place: int, offer: Offer, kerf_mm: float, priced: bool) -> Size:
    """A kerf is lost between pieces but not at the edge, and so is added to parts and stock alike."""
    if offer.many is not None:
        within(f"offers[{place}].many", offer.many, 1, COUNT_HIGH, "pieces")
    length = within(f"offers[{place}].length_mm", offer.length_mm, SIZE_LOW_MM, SIZE_HIGH_MM, "mm") + kerf_mm
    width = 1.0
    if offer.width_mm is not None:
        width = within(f"offers[{place}].width_mm", offer.width_mm, SIZE_LOW_MM, SIZE_HIGH_MM, "mm") + kerf_mm
    if offer.source != TO_BUY:
        return Size(length, width, offer.source == OFFCUT, offer.many or 1, 0.0)
    price = within(f"offers[{place}].price", offer.price or 0, 0, PRICE_HIGH, "")
    return Size(length, width, False, offer.many, max(price, PRICE_LOW) if priced else length * width)


def _ways(place: int, part: Part, offers: Sequence[Offer], sizes: Sequence[Size], kerf_mm: float) -> tuple[Way, ...]:
    """The ways a part may lie in one of the offers at least."""
    ways: dict[Way, None] = {}
    refusal = OutOfRange("There is nothing to cut from.", "Enter stock.", field="offers", value=0)
    for offer, size in zip(offers, sizes, strict=True):
        stock = Stock(offer.length_mm, offer.width_mm, kerf_mm)
        try:
            ways |= dict.fromkeys(ways_of(place, part, stock, size.length, size.width))
        except OutOfRange as error:
            refusal = error
    if not ways:
        raise refusal
    return tuple(ways)


def _least(blanks: Sequence[PartToPlace], sizes: Sequence[Size]) -> float:
    """A worth no way can be below: what of the area is not there has to be had where area is cheapest."""
    there = [size for size in sizes if not size.worth and any(size.holds(blank) for blank in blanks)]
    had = [size for size in sizes if size.worth]
    area = math.fsum(blank.area for blank in blanks) - math.fsum(size.area * (size.many or 1) for size in there)
    if area <= 0 or not had:
        return 0.0
    if len(had) > 1:
        return area * min(size.worth / size.area for size in had)
    number = math.ceil(area / had[0].area - SHARE_NOISE)
    if not there:
        ways = [[way[:2] for way in blank.ways] for blank in blanks]
        number = max(number, least_stock(ways, had[0].length, had[0].width))
    return number * had[0].worth


def _taken(at: int, laid: Laid, parts: Sequence[Part], offer: Offer, kerf_mm: float) -> Taken:
    used = {place.stock for place in laid.places}
    cut = [number for number, one in enumerate(laid.opened) if one == at and number in used]
    number_of = {number: place for place, number in enumerate(cut, 1)}
    stock = Stock(offer.length_mm, offer.width_mm, kerf_mm)
    pieces = sorted(
        (piece_of(parts[one.part], one._replace(stock=number_of[one.stock]), stock) for one in laid.places
         if one.stock in number_of), key=lambda piece: (piece.stock, piece.x_mm, piece.y_mm),
    )  # fmt: skip
    sheets = offer.width_mm is not None
    rests = [
        LeftOver(
            number_of[rest.stock], round(rest.length - kerf_mm, 3), round(rest.width - kerf_mm, 3) if sheets else None
        )
        for rest in laid.rests
        if rest.stock in number_of
    ]
    left = sorted(rest for rest in rests if rest.length_mm > 0 and (rest.width_mm is None or rest.width_mm > 0))
    area = math.fsum(piece.length_mm * (piece.width_mm or 1.0) for piece in pieces)
    share = area / (offer.length_mm * (offer.width_mm or 1.0) * len(cut)) if cut else 0.0
    return Taken(offer, len(cut), tuple(pieces), tuple(left), share)
