"""Where a fixing comes out on the other side of a wall: what it does there, and which agreements are about that."""

from __future__ import annotations

from typing import NamedTuple

from ..book.site import Item
from . import ages
from .acts import makes_hole
from .ages import OLD, fabric_at, known_to_mm, of_no_age
from .asking import Asked, NotEntered
from .before_hole import COMES_OUT
from .finding import Blank
from .geometry import place_of
from .rulings import BY_HOLD, NO, hold_at, latest, latest_at, latest_naming, may_be_used
from .through import READS as THROUGH
from .through import THROUGH_HOLES, comes_out, other_side

Rulings = dict[str, tuple[Item, set[str]]]
"""The agreements that rule what a thing does, by their ids, each with the acts it rules."""
NOWHERE = "It goes right through, and where on the other side is not entered."
READS = THROUGH | ages.READS


class ComesOut(NamedTuple):
    """The other side at the place where a fixing comes out.

    barred   an existing hold there that is not to be used
    rulings  what was agreed of what it does there
    lacking  what of that nobody was asked about, and whether it is old fabric
    """

    face: Item
    barred: Item | None
    rulings: Rulings
    lacking: tuple[str, ...]
    old: bool


def coming_out(asked: Asked, fixing: Item, things: list[Item]) -> ComesOut | None:
    """Where a fixing comes out; None where it does not. A yes or no that names one of `things` is to both its ends.

    Raises NotEntered where that turns on an entry. Where nobody entered what is behind, who named the fixing knew
    as much, and of any other yes it is asked.
    """
    if not (acts := _acts(asked, fixing)):
        return None
    site, face = asked.site, asked.site[fixing.face]
    named = {act: latest_naming(asked, things, act) for act in acts}
    other = other_side(site, face)
    if (other is None and all(named.values())) or not comes_out(asked, fixing):
        return None
    if other is None:
        raise NotEntered(Blank(face, "behind"), None, "", COMES_OUT)
    if (at := other.at(place_of(fixing))) is None:
        raise NotEntered(Blank(other.said, "behind_x_mm"), None, "", NOWHERE)
    rulings: Rulings = {}
    lacking = []
    for act in acts:
        there = latest_at(asked, other.face, at, fixing.contact_radius_mm, act)
        ruling = latest((one for one in (named[act], there) if one is not None), asked.today)
        if ruling is None:
            lacking.append(act)
        else:
            rulings.setdefault(ruling.id, (ruling, set()))[1].add(act)
    hold = hold_at(site, other.face, at)
    barred = hold if hold is not None and hold.may_be_used == NO else None
    old = bool(lacking) and _is_old(asked, other.face, at, fixing.contact_radius_mm)
    return ComesOut(other.face, barred, rulings, tuple(lacking), old)


def _acts(asked: Asked, fixing: Item) -> list[str]:
    """What it does where it comes out: a hole breaks out, and the nut of a bolt bears.

    A yes to an existing hole is to both its ends.
    """
    hold = asked.site.get(fixing.hold)
    bears = fixing.sort in THROUGH_HOLES and not (hold is not None and may_be_used(hold, asked.today))
    return [*(sorted(BY_HOLD) if bears else ()), *(["drilling"] if makes_hole(asked.site, fixing) else ())]


def _is_old(asked: Asked, face: Item, at: tuple[float, float], radius_mm: float) -> bool:
    """Whether any of what is entered of a face at a place is old; raises NotEntered where that is not entered."""
    deep = known_to_mm(asked.site, face, at)
    if not (age := fabric_at(asked.site, face, at, deep, radius_mm)):
        what = of_no_age(asked.site, face, at, deep, radius_mm)
        raise NotEntered(Blank(what, "layers" if what.kind == "face" else "age"), None, "", ages.NO_AGE)
    return age == OLD
