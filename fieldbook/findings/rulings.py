"""The agreements that bear on a thing or a place, and what a yes of one stands on: its end, its conditions, its holes.

The findings, the answer at a point and the record all ask here, so that none says agreed where another does not.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from ..book.site import Item, Site
from ..book.wording import day
from ..checks.keep_off import disc_distance, outline_of
from ..model.choices import FORBIDDEN
from . import geometry
from .acts import makes_hole
from .ahead import OnADay, come

NO, CONDITIONS = "no", "yes, with conditions"
# What is done to an existing hold that is used again, to which a yes to it is a yes.
BY_HOLD = frozenset({"contact", "load"})


def latest(rulings: Iterable[Item], today: date) -> Item | None:
    """The agreement that rules: the latest, on one day the no; a yes of a day to come, only where no other is there."""

    def rank(one: Item) -> tuple[bool, str, bool, str]:
        no = one.answer == NO
        return no or come(one.on, today), one.on, no, one.id

    return max(rulings, key=rank, default=None)


def latest_on(asked: OnADay, things: list[Item], acts: set[str]) -> Item | None:
    """The one that rules a thing: about one of these things, or about their face with all these acts."""
    site = asked.site
    about = [ruling for thing in things for ruling in site.rulings_on(thing)]
    face = site.get(things[0].face)
    if face is not None:
        about += [one for one in site.rulings_on(face) if _does(one, acts) and _covers(one, things[0])]
    return latest(about, asked.today)


def latest_to(asked: OnADay, things: list[Item], act: str) -> Item | None:
    """The one that rules one act of a thing: about one of these things, or about their face."""
    site, face = asked.site, asked.site.get(things[0].face)
    own = (one for thing in things for one in site.rulings_on(thing))
    about = [one for one in own if one.answer == NO or act in (one.acts or FORBIDDEN)]
    if face is not None:
        about += [one for one in site.rulings_on(face) if _does(one, {act}) and _covers(one, things[0])]
    return latest(about, asked.today)


def latest_at(asked: OnADay, face: Item, at: tuple[float, float], radius_mm: float, act: str) -> Item | None:
    """The one about a face that rules an act of a round footprint at a place of it."""
    about = (one for one in asked.site.rulings_on(face) if _does(one, {act}) and _reaches(one, at, radius_mm))
    return latest(about, asked.today)


def _does(ruling: Item, acts: set[str]) -> bool:
    """Whether what is agreed for a face is about these acts: all of a yes, one of a no; a no without acts is to all."""
    if ruling.answer == NO:
        return bool(acts & set(ruling.acts or FORBIDDEN))
    return acts <= set(ruling.acts or ())


def _reaches(ruling: Item, at: tuple[float, float], radius_mm: float) -> bool:
    """Whether its area holds all of a round footprint, or, of a no, touches it."""
    if ruling.outline is None:
        return True
    return disc_distance(outline_of(ruling.outline), at, 0) <= (radius_mm if ruling.answer == NO else -radius_mm)


def _covers(ruling: Item, thing: Item) -> bool:
    if ruling.outline is None:
        return True
    if thing.kind == "fixing":
        return _reaches(ruling, geometry.place_of(thing), thing.contact_radius_mm)
    inside = [_reaches(ruling, corner, 0) for corner in geometry.fitting_outline(thing)]
    return any(inside) if ruling.answer == NO else all(inside)


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


def holes_under(site: Site, ruling: Item) -> list[Item]:
    """The fixings that stand, make a hole and are covered by a yes: named, of a fitting named, or in its area."""
    if ruling.answer == NO:
        return []
    named = [one for link in ruling.items or () if (one := site.get(link))]
    faces = [one for one in named if one.kind == "face"] if _does(ruling, {"drilling"}) else []
    on_faces = [one for face in faces for one in site.fixings_on(face) if _covers(ruling, one)]
    fixings = dict.fromkeys([*(one for one in site.covered_by(ruling) if one.kind == "fixing"), *on_faces])
    return [one for one in fixings if one.stands and makes_hole(site, one)]
