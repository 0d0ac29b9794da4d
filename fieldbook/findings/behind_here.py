"""What stands against a hole at a place of a wall where it comes out on the other side: a no there, or nobody's yes."""

from __future__ import annotations

from ..book.site import Item
from .ages import LATER, OLD, fabric_at, known_to_mm, of_no_age
from .holes_agreed import not_to_hole
from .rulings import given, lapsed, latest_at, unsaid
from .through import far_side, other_side
from .zones_here import NO, PlaceAsked, Said

ASK, NOT_KNOWN = "ask the keeper", "not known"


def refused_behind(place: PlaceAsked, act: str, _: object) -> Said:
    """The no of the other side."""
    said = against_behind(place) if act == "drilling" else None
    return said if said is not None and said[0] == NO else None


def against_behind(place: PlaceAsked) -> Said:
    """What stands against it there; None where nothing does, where it does not come out, and where nobody said on what.

    Of the last, and of what was not looked for there, the answer before a hole tells.
    """
    comes_out, there = far_side(place.site, place.face, place.depth_mm)
    other = other_side(place.site, place.face)
    if not comes_out or there is None or other is None:
        return None
    out = f"It comes out on {there.called}"
    if (at := other.at(place.at)) is None:
        return NOT_KNOWN, f"{out}; where there is not entered.", None
    ruling = latest_at(place, there, at, place.radius_mm, "drilling")
    return _by_fabric(place, there, at, out) if ruling is None else _by_ruling(place, ruling, there, at, out)


def _by_ruling(place: PlaceAsked, ruling: Item, there: Item, at: tuple[float, float], out: str) -> Said:
    by = given(ruling)
    if ruling.answer == NO:
        return NO, f"{out}. {by}: no. {ruling.words}", ruling
    if why := lapsed(ruling, place.today) or not_to_hole(place, ruling, there, at, place.depth_mm):
        return ASK, f"{out}: {by}{why}", ruling
    return (NOT_KNOWN, f"{out}: {by}{why}", ruling) if (why := unsaid(ruling)) else None


def _by_fabric(place: PlaceAsked, there: Item, at: tuple[float, float], out: str) -> Said:
    deep = known_to_mm(place.site, there, at)
    age = fabric_at(place.site, there, at, deep, place.radius_mm)
    if age == OLD:
        return ASK, f"{out}, where nothing is agreed, and it is old fabric.", None
    if age != LATER:
        what = of_no_age(place.site, there, at, deep, place.radius_mm)
        return NOT_KNOWN, f"{out}; whether {what.called} is old or later work there is not entered.", None
    asks = place.site.item.asks_about_later_work
    return (ASK, f"{out}, where nothing is agreed; the keeper is asked about later work too.", None) if asks else None
