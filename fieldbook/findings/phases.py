"""Phases of a display: what stands by then, what a later one does to an earlier one, and what that makes worse."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.verdict import Word
from .appraisal import appraised
from .finding import WORST_FIRST, Finding
from .phase_order import FIRST, phases, span

ABOUT = {"fitting", "fixing"}


class Meets(NamedTuple):
    """What a thing of a later phase does to one of an earlier: hangs on, is fixed to, covers, stands over, shares."""

    later: Item
    does: str
    earlier: Item


class Worsened(NamedTuple):
    """An answer about something of an earlier phase, before a later one and with it."""

    before: Finding
    after: Finding


def stands_by(site: Site, phase: str) -> Site:
    """The site when a phase is done: what later ones bring is not there yet, and what comes down for it is gone."""
    order = phases(site)
    by = order.index(phase) if phase in order else len(order)

    def there(fitting: Item) -> bool:
        start, end = span(site, fitting)
        return start <= by < end

    gone = {one.id for one in site.all("fitting") if not there(one)}
    kept = [
        one
        for one in site.everything().values()
        if one.kind != "site" and one.id not in gone and not (one.kind == "fixing" and one.fitting in gone)
    ]
    return Site(site.item, kept, site.folder, site.revision, site.digest, site.then, beyond=site.beyond)


def meets(site: Site, phase: str) -> Iterator[Meets]:
    """What the things of a phase do to those of earlier ones that stand by then."""
    then = stands_by(site, phase)
    own = [one for one in then.all("fitting") if one.stands and (one.phase or FIRST) == phase]
    others = [one for one in then.all("fitting") if one.stands and (one.phase or FIRST) != phase]
    for later in own:
        joined = {fixing.other_fitting for fixing in then.of(later, "fixing") if fixing.stands}
        holds = _holds(then, later)
        for earlier in others:
            if later.hangs_on == earlier.id:
                yield Meets(later, "hangs on", earlier)
            elif earlier.id in joined:
                yield Meets(later, "is fixed to", earlier)
            if earlier.id in (later.covers or ()):
                yield Meets(later, "covers", earlier)
            if later.face == earlier.face and _overlap(later, earlier):
                yield Meets(later, "stands over", earlier)
            if shared := holds & _holds(then, earlier):
                yield Meets(later, f"shares {', '.join(sorted(then[link].called for link in shared))} with", earlier)


def worsened(site: Site, phase: str, today: date) -> list[Worsened]:
    """What a phase makes worse of what stood before it, the worst first: none of it happens unsaid."""
    known = phases(site)
    place = known.index(phase) if phase in known else 0
    if not place:
        return []
    before = _answers(stands_by(site, known[place - 1]), today)
    after = _answers(stands_by(site, phase), today)
    found = [
        Worsened(before[key], now)
        for key, now in after.items()
        if key in before and _rank(now.word) < _rank(before[key].word)
    ]
    return sorted(found, key=lambda one: _rank(one.after.word))


def _answers(site: Site, today: date) -> dict[tuple[str, str], Finding]:
    found = (finding for _, finding in appraised(site, today).ordered)
    return {(one.question, one.subject.id): one for one in found if one.subject.kind in ABOUT}


def _rank(word: Word) -> int:
    return WORST_FIRST.index(word)


def _holds(site: Site, fitting: Item) -> set[str]:
    fixings = [one for one in site.of(fitting, "fixing") if one.stands]
    return {link for one in fixings for link in (one.hold, one.member) if link and link in site}


def _overlap(one: Item, other: Item) -> bool:
    def across(start: str, size: str) -> bool:
        low, high = one.values[start], one.values[start] + one.values[size]
        return bool(low < other.values[start] + other.values[size] and other.values[start] < high)

    return across("x_mm", "width_mm") and across("z_mm", "height_mm")
