"""In which order things come down, and what a stranger finds afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item, Site
from ..checks import removal, trace
from ..checks.verdict import Verdict, Word, not_known_because
from ..errors import FieldbookError
from . import consent

Found = Iterator[tuple[Item, Item | None, Verdict]]


def takedown_items(site: Site) -> list[removal.Thing]:
    """The fittings still up or still to go up, as the check of the order takes them."""
    up = {fitting.id: fitting for fitting in site.all("fitting") if fitting.stands}
    return [
        removal.Thing(
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
    said = consent.reference(site, fixing)
    return "" if said.endswith("(no)") else said
