"""The agreements that bear on a thing or a place, and what a yes of one stands on: its end, its conditions, its holes.

The findings, the answer at a point and the record all ask here, so that none says agreed where another does not.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date

from ..book.site import Item, Site
from ..book.wording import day
from ..checks.keep_off import area_distance, disc_distance, holds_all_of, outline_of
from ..model.choices import FORBIDDEN
from . import ages, geometry
from .ahead import OnADay, come

NO, CONDITIONS = "no", "yes, with conditions"
AT_HOLD_MM = 5.0  # what setting out on uneven old walls can be trusted to; common practice, no source
# What is done to an existing hold that is used again, to which a yes to it is a yes.
BY_HOLD = frozenset({"contact", "load"})


def latest(rulings: Iterable[Item], today: date) -> Item | None:
    """The agreement that rules: the latest, on one day the no, and of two yeses of one day the one that grants less.

    A yes of a day to come rules only where no other is there.
    """

    def rank(one: Item) -> tuple[bool, str, bool, bool, float, float, str]:
        no, conditions = one.answer == NO, one.answer == CONDITIONS or bool(one.conditions)
        deep, holes = (-math.inf if most is None else -most for most in (one.depth_mm, one.holes))
        return no or come(one.on, today), one.on, no, conditions, deep, holes, one.id

    return max(rulings, key=rank, default=None)


def latest_to(asked: OnADay, things: list[Item], act: str) -> Item | None:
    """The one that rules one act of a thing: about one of these things, or about where the first of them is."""
    site, thing = asked.site, things[0]
    about = [one for own in things for one in site.rulings_on(own) if does(one, act, FORBIDDEN)]
    if (face := site.get(thing.face)) is not None:
        about += [one for one in _on_place(site, face) if does(one, act, ()) and covers(one, face, thing)]
    for part in (site.get(thing.hold), site.get(thing.member)) if thing.kind == "fixing" else ():
        about += _on_part(site, part, act) if part is not None else ()
    return latest(about, asked.today)


def latest_naming(asked: OnADay, things: list[Item], act: str) -> Item | None:
    """The one that rules one act among those that name one of some things."""
    about = (one for own in things for one in asked.site.rulings_on(own) if does(one, act, FORBIDDEN))
    return latest(about, asked.today)


def latest_at(asked: OnADay, face: Item, at: tuple[float, float], radius_mm: float, act: str) -> Item | None:
    """The one that rules an act of a round footprint at a place of a face: about the place, or a part that is there."""
    site = asked.site
    about = [one for one in _on_place(site, face) if does(one, act, ()) and reaches(one, face, at, radius_mm)]
    if (hold := hold_at(site, face, at)) is not None:
        about += _on_part(site, hold, act)
    for board in (one for one in site.of(face, "member") if ages.covers(one, at, radius_mm)):
        # A yes to a board is to what lies on it alone, and not on what lies before it or beside it.
        alone = board.behind_mm == 0 and ages.covers(board, at, -radius_mm)
        about += [one for one in _on_part(site, board, act) if one.answer == NO or alone]
    return latest(about, asked.today)


def is_of_place(ruling: Item, site: Site, thing: Item) -> bool:
    """Whether an agreement is about acts at a place, and not about a thing in one state."""
    face = site[thing.face]
    named = set(ruling.items or ())
    if ruling.acts and named & {face.id, face.room, site.item.id} and covers(ruling, face, thing):
        return True
    fitting = site.get(thing.fitting) if thing.kind == "fixing" else None
    return not any(ruling in site.rulings_on(one) for one in (thing, fitting) if one is not None)


def hold_at(site: Site, face: Item, at: tuple[float, float]) -> Item | None:
    """The existing hold that is at a place, the nearest of them."""
    near = [(math.hypot(one.x_mm - at[0], one.z_mm - at[1]), one.id, one) for one in site.of(face, "hold")]
    here = [one for one in near if one[0] <= max((one[2].diameter_mm or 0) / 2, AT_HOLD_MM)]
    return min(here)[2] if here else None


def _on_place(site: Site, face: Item) -> list[Item]:
    """The agreements that name a face, its room or the site."""

    def naming() -> list[Item]:
        places = (face, site.get(face.room), site.item)
        return [one for place in places if place is not None for one in site.rulings_on(place)]

    found: list[Item] = site.once(("rulings on", face.id), naming)
    return found


def _on_part(site: Site, part: Item, act: str) -> list[Item]:
    """Those about an act on a hold, board or timber: a yes to a hold without acts is to using it again."""
    without = tuple(BY_HOLD) if part.kind == "hold" else ()
    return [one for one in site.rulings_on(part) if does(one, act, without)]


def does(ruling: Item, act: str, without: Iterable[str]) -> bool:
    """Whether an agreement is about an act; one that lists none is, of a no, about all, of a yes about those given."""
    return act in (ruling.acts or (FORBIDDEN if ruling.answer == NO else without))


def holds_on(ruling: Item, face: Item) -> bool | None:
    """Whether it holds on all of a face; None where it is about an area of that. Of a room no area can be told."""
    if ruling.outline is None:
        return True
    return None if face.id in ruling.items else bool(ruling.answer == NO)


def reaches(ruling: Item, face: Item, at: tuple[float, float], radius_mm: float) -> bool:
    """Whether its area holds all of a round footprint, or, of a no, touches it."""
    if (whole := holds_on(ruling, face)) is not None:
        return whole
    return disc_distance(outline_of(ruling.outline), at, 0) <= (radius_mm if ruling.answer == NO else -radius_mm)


def covers(ruling: Item, face: Item, thing: Item) -> bool:
    if thing.kind == "fixing":
        return reaches(ruling, face, geometry.place_of(thing), thing.contact_radius_mm)
    if (whole := holds_on(ruling, face)) is not None:
        return whole
    area, footprint = outline_of(ruling.outline), geometry.fitting_outline(thing)
    return area_distance(area, footprint) <= 0 if ruling.answer == NO else holds_all_of(area, footprint)


def given(ruling: Item) -> str:
    """An agreement with who gave it and when."""
    return f"{ruling.reference}, given by {ruling.said_by} on {day(ruling.on)}"


def lapsed(ruling: Item, today: date) -> str:
    """Why a yes is none on a day, to stand behind its reference; "" where it counts.

    It is dated later, has ended, or its conditions are not met.
    """
    if not come(ruling.on, today):
        return ", a day that has not come."
    if not _in_time(ruling, today):
        return f", ended on {day(ruling.until)}."
    if ruling.conditions_met in ("no", "not yet"):
        return f": its conditions are not met: {_conditions(ruling)}."
    return ""


def unsaid(ruling: Item) -> str:
    """That nobody entered whether its conditions are met, to stand behind its reference; "" where that is no question.

    A yes that is written down with conditions has them, whichever yes was chosen.
    """
    if ruling.conditions_met is not None or not (ruling.answer == CONDITIONS or ruling.conditions):
        return ""
    return f": whether its conditions are met is not entered: {_conditions(ruling)}."


def may_be_used(hold: Item, today: date) -> bool:
    """Whether somebody said, on a day that has come where one is told, that an existing hold may be used."""
    return hold.may_be_used == "yes" and bool(hold.said_by) and (hold.said_on is None or come(hold.said_on, today))


def said_by(hold: Item) -> str:
    """Who said it of a hold, and when, as the end of a sentence; "" where nobody did."""
    said = f", said by {hold.said_by}" if hold.said_by else ""
    return f"{said} on {day(hold.said_on)}" if said and hold.said_on else said


def standing(ruling: Item, today: date) -> str:
    """What became of a yes, where it stands in a list; "" while it counts, and of a no."""
    if ruling.answer == NO:
        return ""
    if not come(ruling.on, today):
        return "not agreed: its day has not come"
    if lapsed(ruling, today):
        return "not agreed: its conditions are not met" if _in_time(ruling, today) else "not agreed: it has ended"
    return "not known: whether its conditions are met is not entered" if unsaid(ruling) else ""


def _in_time(ruling: Item, today: date) -> bool:
    return ruling.until is None or today <= date.fromisoformat(ruling.until)


def _conditions(ruling: Item) -> str:
    return (ruling.conditions or "–").rstrip(".")
