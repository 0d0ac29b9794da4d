"""In which order things come down: what hangs on another, is fixed to it or covers it, comes off first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from ..book.site import Item, Site
from ..checks import removal
from ..checks.verdict import Verdict, Word
from .asking import NEITHER, Asked, Question
from .finding import Outcome, Recalculation


def takedown_items(site: Site) -> list[removal.Thing]:
    """The fittings still up or still to go up, as the check of the order takes them."""
    things = [_told(site, fitting) for fitting in site.all("fitting") if fitting.stands]
    up = {thing.id for thing in things}
    return [replace(thing, covers=tuple(other for other in thing.covers if other in up)) for thing in things]


def _told(site: Site, fitting: Item) -> removal.Thing:
    """One of them, asked of all its fixings: most of what changes of these leaves it as it is."""
    thing: removal.Thing = site.told_once(("comes down", fitting.id), partial(_thing, fitting=fitting.id))
    return thing


def _thing(site: Site, fitting: str) -> removal.Thing:
    one = site[fitting]
    return removal.Thing(
        one.id,
        tuple(other.id for other in site.goes_through(one)),
        tuple(one.covers or ()),
        tuple(sorted({each.removal_tool for each in site.of(one, "fixing") if each.stands and each.removal_tool})),
        one.people_to_remove,
        one.minutes_to_remove,
        one.title,
    )


def not_said(site: Site, fittings: Iterable[Item]) -> list[Item]:
    """The fixings of which nobody has said what they left, now that what they held is down.

    Those never put in left nothing.
    """
    fixings = (fixing for fitting in fittings for fixing in site.of(fitting, "fixing"))
    return [one for one in fixings if not one.trace_found and _was_in(one)]


def _was_in(fixing: Item) -> bool:
    return fixing.state == "fitted" if fixing.stands else bool(fixing.taken_down_on)


def order(asked: Asked, _: Item) -> Outcome:
    """Whether everything can come down in some order."""
    items = takedown_items(asked.site)
    try:
        steps = removal.steps(items)
    except removal.RemovalCycle as cycle:
        sentence = f"{cycle.reason} {cycle.remedy}"
        return Outcome(Verdict("removal", Word.OVER, None, None, None, "", sentence, removal.SOURCE))
    stages = max((step.stage for step in steps), default=0)
    what = f"{len(steps)} fittings come" if len(steps) != 1 else "1 fitting comes"
    sentence = f"{what} down in {stages} stage{'' if stages == 1 else 's'}."
    verdict = Verdict("removal", Word.WITHIN, len(steps), None, None, "", sentence, removal.SOURCE)
    return Outcome(verdict, again=Recalculation("removal", {"items": _payload(items)}))


def _payload(items: Sequence[removal.Thing]) -> list[dict[str, Any]]:
    """The items as the calculation takes them: by name, with the id where two are called alike."""
    titles = Counter(item.name for item in items)
    names = {item.id: item.name if titles[item.name] == 1 else f"{item.name} ({item.id})" for item in items}
    return [_row(item, names) for item in items]


def _row(item: removal.Thing, names: Mapping[str, str]) -> dict[str, Any]:
    row: dict[str, Any] = {key: [names[one] for one in getattr(item, key)] for key in ("hangs_on", "covers")}
    row |= {"tools": list(item.tools), "people": item.people, "minutes": item.minutes}
    return {"name": names[item.id]} | {key: value for key, value in row.items() if value}


QUESTIONS = (
    Question(
        "order",
        "site",
        "Can everything come down in some order?",
        order,
        dict.fromkeys(
            (
                "fitting.state",
                "fitting.hangs_on",
                "fitting.covers",
                "fitting.people_to_remove",
                "fitting.minutes_to_remove",
                "fixing.other_fitting",
                "fixing.removal_tool",
                "fixing.state",
            ),
            NEITHER,
        ),
    ),
)
