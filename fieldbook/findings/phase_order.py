"""The phases of a display in their order, and whether what carries a thing stands as long as it does.

Phases follow each other as people count their names; what has none belongs to the first of all.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from ..book.site import Item, Site
from ..checks.verdict import Verdict, Word
from ..model.choices import FITTED
from ..model.order import counting
from .asking import NEITHER, Asked, Question
from .finding import Outcome
from .verdicts import does_not_apply

FIRST = ""
SOURCE = "The order of the phases entered"
BY_ITSELF = does_not_apply("phase", "No other fitting carries it.")


def phases(site: Site) -> list[str]:
    """The phases there are, the first in front."""
    return list(_places(site))


def phase_of(site: Site, item: Item) -> str:
    """The phase something is of; FIRST where none is entered, and for what is no part of a display."""
    fitting = site.get(item.fitting) if item.kind == "fixing" else item if item.kind == "fitting" else None
    return (fitting.phase or FIRST) if fitting else FIRST


def span(site: Site, fitting: Item) -> tuple[float, float]:
    """From which phase on a fitting is there, and with which it is gone, as places in their order; it may stay."""
    places = _places(site)
    return places[fitting.phase or FIRST], places[fitting.until_phase] if fitting.until_phase else math.inf


def at_one_time(site: Site, one: Item, other: Item) -> bool:
    """Whether two things may stand together: not where one is down by the phase in which the other goes up.

    What is up already stands, whatever was planned.
    """
    if one.state == FITTED and other.state == FITTED:
        return True
    first, second = (site.get(each.fitting) if each.kind == "fixing" else each for each in (one, other))
    return first is None or second is None or not (_gone_before(first, second) or _gone_before(second, first))


def _gone_before(one: Item, other: Item) -> bool:
    """Whether a fitting comes down for a phase in which, or after which, another goes up."""
    return bool(one.until_phase and other.phase) and counting(one.until_phase) <= counting(other.phase)


def _places(site: Site) -> Mapping[str, int]:
    def made(now: Site) -> Mapping[str, int]:
        every = now.all("fitting")
        named = {phase for one in every for phase in (one.phase, one.until_phase) if phase}
        blank = [FIRST] if any(not one.phase for one in every) else []
        return {name: place for place, name in enumerate([*blank, *sorted(named, key=counting)])}

    places: Mapping[str, int] = site.told_once(("phases",), made)
    return places


def carried_throughout(asked: Asked, fitting: Item) -> Outcome:
    """Whether a fitting comes down after it goes up, and what carries it is there all the while."""
    wrong = next(_wrong(asked.site, fitting), None)
    if wrong is not None:
        sentence, carrier = wrong
        return Outcome(Verdict("phase", Word.OVER, None, None, None, "", sentence, SOURCE), carrier)
    if not asked.site.goes_through(fitting):
        return BY_ITSELF
    sentence = "What carries it goes up no later, and comes down no earlier."
    return Outcome(Verdict("phase", Word.WITHIN, None, None, None, "", sentence, SOURCE))


def _wrong(site: Site, fitting: Item) -> Iterator[tuple[str, Item | None]]:
    start, end = span(site, fitting)
    if end <= start:
        yield f"It comes down for phase {fitting.until_phase} and goes up with {_named(fitting)}.", None
    for carrier in site.goes_through(fitting):
        there, gone = span(site, carrier)
        if there > start:
            when = f"{carrier.called}, which carries it, not before {_named(carrier)}"
            yield f"It goes up with {_named(fitting)}, and {when}.", carrier
        if gone < end:
            it = f"it only for phase {fitting.until_phase}" if fitting.until_phase else "it is to stay"
            yield f"{carrier.called}, which carries it, comes down for phase {carrier.until_phase}, and {it}.", carrier


def _named(fitting: Item) -> str:
    return f"phase {fitting.phase}" if fitting.phase else "the first phase"


QUESTIONS = (
    Question(
        "phase",
        "fitting",
        "Is what carries it there as long as it is?",
        carried_throughout,
        dict.fromkeys(
            (
                *("fitting.phase", "fitting.until_phase", "fitting.hangs_on", "fitting.state"),
                *("fixing.other_fitting", "fixing.state"),
            ),
            NEITHER,
        ),
    ),
)
