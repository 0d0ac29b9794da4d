"""What people lift, in which order it comes down, and what a stranger finds afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..book.site import Item, Site
from ..checks import lifting, removal, trace
from ..checks.clearance import highest
from ..checks.verdict import Verdict, Word, not_known_because
from ..errors import FieldbookError, Missing
from . import geometry

Found = Iterator[tuple[Item, Item | None, Verdict]]
LIFTERS = "women"  # the lower figures of the guideline: nobody knows who will take it down
YES = {"yes", "yes, with conditions"}


def lift(site: Site) -> Found:
    """Each fitting's mass held against the lifting guideline, where it hangs and for the people said."""
    for fitting in site.all("fitting"):
        if fitting.stands:
            yield fitting, None, _lift(site, fitting)


def _lift(site: Site, fitting: Item) -> Verdict:
    try:
        if fitting.mass_empty_kg is None:
            raise Missing(f"The mass of {fitting.called} is not entered.", "Weigh or reckon it.", field="mass_empty_kg")
        hands = fitting.z_mm + fitting.height_mm / 2 - _floor_below(site, fitting)
        zone = lifting.worst_zone(max(hands, 0), max(hands, 0))
        reach = fitting.lift_reach or "far"  # the harder one, where the other is not entered
        guideline = lifting.guideline_kg(zone, reach, LIFTERS)
        verdict = lifting.verdict(fitting.mass_empty_kg, guideline, fitting.people_to_remove or 1)
        where = (("hands above the floor", f"{hands:.0f} mm, {zone}"), ("reach", reach), ("figures for", LIFTERS))
        return replace(verdict, working=(*where, *verdict.working))
    except FieldbookError as error:
        return not_known_because("lifting", error, lifting.SOURCE, "kg")


def _floor_below(site: Site, fitting: Item) -> float:
    face = site[fitting.face]
    part = geometry.fitting_stretch(fitting)
    return highest(geometry.floor_of(face), part.x_from, part.x_to)


def takedown_items(site: Site) -> list[removal.Item]:
    """The fittings still up or still to go up, as the check of the order takes them."""
    up = {fitting.id: fitting for fitting in site.all("fitting") if fitting.stands}
    return [
        removal.Item(
            fitting.id,
            tuple(other for other in [fitting.hangs_on] if other in up),
            tuple(other for other in fitting.covers or [] if other in up),
            tuple(sorted({one.removal_tool for one in site.of(fitting, "fixing") if one.stands and one.removal_tool})),
            fitting.people_to_remove,
            fitting.minutes_to_remove,
            fitting.title,
        )
        for fitting in up.values()
    ]


def order(site: Site) -> Found:
    """Whether everything can come down in some order."""
    try:
        steps = removal.steps(takedown_items(site))
    except removal.RemovalCycle as cycle:
        sentence = f"{cycle.reason} {cycle.remedy}"
        yield site.item, None, Verdict("removal", Word.OVER, None, None, None, "", sentence, removal.SOURCE)
        return
    except FieldbookError as error:
        yield site.item, None, not_known_because("removal", error, removal.SOURCE)
        return
    stages = max((step.stage for step in steps), default=0)
    sentence = f"{len(steps)} fittings come down in {stages} stages."
    yield site.item, None, Verdict("removal", Word.WITHIN, len(steps), None, None, "", sentence, removal.SOURCE)


def left_behind(site: Site) -> list[trace.Left]:
    """What each fixing leaves or will leave, with the consent that covers it."""
    return [
        trace.Left(fixing.called, fixing.trace, fixing.fabric, consent_of(site, fixing))
        for fixing in site.all("fixing")
    ]


def consent_of(site: Site, fixing: Item) -> str:
    """The reference of the consent for what a fixing leaves; "" when there is none, or it says no."""
    agreement = site.get(fixing.agreement)
    if agreement is not None:
        return agreement.reference if agreement.answer in YES else ""
    return fixing.consent or ""


def consents(site: Site) -> Found:
    """Whether every trace left in the building has been agreed to."""
    try:
        yield site.item, None, trace.verdict(left_behind(site))
    except FieldbookError as error:
        yield site.item, None, not_known_because("trace", error, trace.SOURCE)
