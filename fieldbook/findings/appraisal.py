"""All findings of a site, kept from one time to the next: what nothing has changed for is not asked again.

While a thing is asked about, the site notes what is looked at. When the site is appraised again, only that is asked
again for which something was looked at that has changed since: of each thing what is at stake together, so that a
load that changes has nothing measured again.
"""

from __future__ import annotations

import gc
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from functools import partial
from operator import itemgetter
from typing import Any, NamedTuple

from ..book.site import Item, Site, by_mark, keys_of
from ..checks.verdict import FINE, STOP
from .answering import find_all
from .asking import Question
from .finding import WORST_FIRST, Finding
from .questions import AT_STAKE, BY_STAKE, CONSEQUENCES, OF_KIND, QUESTIONS

Rank = tuple[int, int, int, float]
MOST_KEPT = 8  # sites whose findings are kept at a time

_STAKE = {name: CONSEQUENCES.index(at_stake) for name, at_stake in AT_STAKE.items()}
_BAD = {word: (0 if word in STOP else 2 if word in FINE else 1, place) for place, word in enumerate(WORST_FIRST)}


Place = tuple[Rank, int, Any, int, str]
"""Where a finding stands in a list: its rank, then its kind, its mark, and its question. No two are alike."""
Ranked = tuple[Place, Finding]
Key = tuple[str, str, date]
_PLACE = itemgetter(0)
_KIND = {kind: place for place, kind in enumerate(OF_KIND)}
_QUESTION = {one.name: place for place, one in enumerate(QUESTIONS)}


class Appraisal(NamedTuple):
    """Everything that was asked of a site on a day.

    of_thing  (id of a thing, what is at stake, the day) -> its findings about that
    ordered   all of them as a list is shown
    """

    site: Site
    today: date
    of_thing: Mapping[Key, tuple[Ranked, ...]]
    ordered: list[Ranked]


_kept: dict[tuple[str, str], Appraisal] = {}


def appraise(site: Site, today: date | None = None) -> list[Finding]:
    """All findings of a site: what stops the work, then what is not known, then what is fine.

    Within each, the gravest consequence comes first, then the worse word, then the least margin.
    today  the day they are asked on, for what ends; None: this day
    """
    key, day = (str(site.folder), site.item.id), today or date.today()
    before = _kept.get(key)
    now = appraised(site, day, before if before and before.today == day else None)
    _kept.pop(key, None)
    _kept[key] = now
    while len(_kept) > MOST_KEPT:
        _kept.pop(next(iter(_kept)), None)
    return [finding for _, finding in now.ordered]


def appraised(site: Site, today: date, before: Appraisal | None = None) -> Appraisal:
    """The same, with what is kept of it; `before` is what was kept of the same site on the same day."""
    with _collecting_later():
        return _appraised(site, today, before)


@contextmanager
def _collecting_later() -> Iterator[None]:
    """Put off looking for rubbish: all that is made here is kept, and looking through it again and again takes long."""
    collects = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collects:
            gc.enable()


def _appraised(site: Site, today: date, before: Appraisal | None) -> Appraisal:
    if before is None:
        of_thing = {key: ranked for thing in _things(site) for key, ranked in _asked(site, thing, today)}
        ordered = [one for ranked in of_thing.values() for one in ranked]
        ordered.sort(key=_PLACE)
        return Appraisal(site, today, of_thing, ordered)
    changed = changed_between(before.site, site)
    return _again(site, today, before, changed) if changed else before


def _again(site: Site, today: date, before: Appraisal, changed: set[Any]) -> Appraisal:
    """What was found, asked again where something was looked at that has changed."""
    stale = site.take_over(before.site, changed)
    of_thing = dict(before.of_thing)
    gone = [one for key in stale for one in of_thing.pop(key, ())]
    ids = {key[0] for key in stale if key in before.of_thing} | {one for one in changed if isinstance(one, str)}
    everything = site.everything()
    things = (everything[one] for one in ids if one in everything)
    found = {
        key: ranked
        for thing in things
        if thing.kind in BY_STAKE and thing.stands
        for key, ranked in _asked(site, thing, today)
        if key not in of_thing
    }
    of_thing |= found
    new = [one for ranked in found.values() for one in ranked]
    return Appraisal(site, today, of_thing, _listed(before.ordered, gone, new))


def _listed(ordered: list[Ranked], gone: list[Ranked], new: list[Ranked]) -> list[Ranked]:
    """A list as it is without some findings and with others, of which most say the same as before."""
    found, was = dict(new), dict(gone)
    leaving = [(_at(ordered, place), None) for place in was if found.get(place) != was[place]]
    coming = [(_at(ordered, one[0]), one) for one in sorted(new, key=_PLACE) if was.get(one[0]) != one[1]]
    listed: list[Ranked] = []
    done = 0
    for at, one in sorted([*leaving, *coming], key=_PLACE):
        listed += ordered[done:at]
        if one is None:
            done = at + 1
        else:
            listed.append(one)
            done = max(done, at)
    return listed + ordered[done:]


def _at(ordered: list[Ranked], place: Place) -> int:
    return bisect_left(ordered, place, key=_PLACE)


def _things(site: Site) -> Iterator[Item]:
    for kind in OF_KIND:
        yield from (one for one in ([site.item] if kind == "site" else site.all(kind)) if one.stands)


def _asked(site: Site, thing: Item, today: date) -> Iterator[tuple[Key, tuple[Ranked, ...]]]:
    """All that is asked of a thing; what is known already is not asked again."""
    for stake, questions in BY_STAKE[thing.kind].items():
        key = (thing.id, stake, today)
        kept = site.worked.get(key)
        yield key, kept.value if kept else site.once(key, partial(_ask, site, thing, questions, today))


def _ask(site: Site, thing: Item, questions: Iterable[Question], today: date) -> tuple[Ranked, ...]:
    kind, mark = _KIND[thing.kind], by_mark(thing)
    found = find_all(questions, thing, site, today)
    return tuple(((rank(one), kind, mark, _QUESTION.get(one.question, 0), one.question), one) for one in found)


def changed_between(one: Site, other: Site) -> set[Any]:
    """What whoever looked at something that is not the same in both has noted."""
    before, after = one.everything(), other.everything()
    changed: set[Any] = set() if one.beyond == other.beyond else {other.item.id}
    for key in before.keys() | after.keys():
        was, now = before.get(key), after.get(key)
        if was is now:
            continue
        if was is None or now is None or was.values != now.values:
            changed.update(keys_of(was) if was else ())
            changed.update(keys_of(now) if now else ())
    if one.then != other.then:
        pairs = one.then.keys() | other.then.keys()
        changed.update(thing for pair in pairs if one.then.get(pair) != other.then.get(pair) for thing in pair)
    return changed


def rank(finding: Finding) -> Rank:
    """Where a finding stands in a list."""
    group, word = _BAD[finding.verdict.word]
    return group, _STAKE[finding.question], word, finding.verdict.left
