"""What somebody entitled has decided about a thing: it is shown as that, and never as within.

A decision counts on the day it is asked on: given by then (a no counts at once), not past its end, about this
question, and naming the thing or the fitting it belongs to. A yes is about the thing as it was. The latest rules; on
one day the no.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from ..book.site import Item, Site
from ..book.wording import day
from ..checks.verdict import Verdict, Word
from .ahead import come
from .finding import Finding

ENGINEER = ("structural engineer",)
CARE = ("conservator", "keeper")
# Question -> who may decide it: common practice, no source.
ENTITLED = {
    **dict.fromkeys(
        ("load", "pull", "shear", "together", "spacing", "slip", "pressure", "carrier", "carries"), ENGINEER
    ),
    **dict.fromkeys(("one-lost", "tipping", "sliding", "floor", "glass"), ENGINEER),
    "fire": ("fire officer",),
    **dict.fromkeys(("touch", "gives-off", "humidity", "light", "fading"), CARE),
}


# With more of these, or with another of those, a yes is asked for again: common practice, no source.
MORE_IS_WORSE = ("mass_loaded_kg", "pull_n", "climbable", "carries_kg")
OTHERWISE = ("face", "hangs_on", "other_fitting", "sort", "fabric", "hold", "member", "gives")


def decisions_on(site: Site, subject: Item, today: date) -> Sequence[Item]:
    """The decisions about a thing, or the fitting it belongs to, that count on a day, the one that rules first."""
    about = site.naming(subject.id, "decision")
    if subject.kind == "fixing":
        about = (*about, *site.naming(subject.fitting, "decision"))
    if not about:
        return about
    fitting = site.get(subject.fitting) if subject.kind == "fixing" else None
    things = [subject] if fitting is None else [subject, fitting]
    now = today.isoformat()
    given = [one for one in about if one.answer == "no" or come(one.on, today)]
    counting = [one for one in given if one.until is None or now <= one.until]
    counting = [one for one in counting if one.answer == "no" or not any(outgrown(site, one, it) for it in things)]
    return sorted(counting, key=lambda one: (one.on, one.answer == "no"), reverse=True)


def outgrown(site: Site, decision: Item, thing: Item) -> bool:
    """Whether a thing is no longer what was decided on: it carries more, or is held in another way.

    What was not entered then is no change, but for what hangs on it now and did not then.
    """
    then = site.then.get((decision.id, thing.id), {})
    if not then or _differs(then, thing):
        return bool(then)
    hung = site.all_hung_on(thing) if thing.kind == "fitting" else []
    return any(_hung_otherwise(site, decision, other) for other in hung)


def _differs(then: Mapping[str, Any], thing: Item) -> bool:
    known = [(name, then[name]) for name in (*MORE_IS_WORSE, *OTHERWISE) if then.get(name) is not None]
    return any(_other(name, was, thing.values.get(name)) for name, was in known)


def _hung_otherwise(site: Site, decision: Item, other: Item) -> bool:
    """Whether something hung on since weighs more, or hangs or is fixed there only now."""
    joints = [(fixing, "other_fitting") for fixing in site.of(other, "fixing") if fixing.stands]
    for one, link in ((other, "hangs_on"), *joints):
        then = site.then.get((decision.id, one.id), {})
        if _differs(then, one) or (one.values[link] is not None and then.get(link) != one.values[link]):
            return True
    return False


def _other(name: str, was: Any, now: Any) -> bool:
    return now != was if name in OTHERWISE else (now or 0) > was


def in_words(decision: Item) -> str:
    """Who decided, by which document, until when, and what."""
    until = f", until {day(decision.until)}" if decision.until else ""
    kept = ", kept with the record" if decision.kept_as else ""
    return f"{decision.document} of {day(decision.on)}{until}{kept}: {decision.words}"


def applied(site: Site, finding: Finding, decided: Sequence[Item]) -> Finding:
    """A finding as a decision has it, of those about its thing: agreed, or refused; its figure stays."""
    roles = ENTITLED.get(finding.question, ())
    ruling = ruling_of(decided, finding.question, roles)
    if ruling is None or (finding.word is Word.DOES_NOT_APPLY and ruling.answer == "yes"):
        return finding
    kept = site.get(ruling.kept_as)
    papers = (kept,) if kept is not None else ()
    return finding._replace(verdict=_verdict(finding.verdict, ruling), missing=(), papers=papers)


def ruling_of(decided: Sequence[Item], question: str, roles: Sequence[str]) -> Item | None:
    """The decision of some roles on a question that rules, of those that count."""
    return next((one for one in decided if one.question == question and one.role in roles), None)


def _verdict(verdict: Verdict, ruling: Item) -> Verdict:
    word = Word.AGREED if ruling.answer == "yes" else Word.REFUSED
    said = "Decided" if ruling.answer == "yes" else "Refused"
    sentence = f"{said} by the {ruling.role} ({in_words(ruling)})"
    return replace(verdict, word=word, sentence=sentence, missing=())
