"""All findings of a site, kept from one time to the next: what nothing has changed for is not asked again.

While a thing is asked about, the site notes what is looked at. When the site is appraised again, only that is asked
again for which something was looked at that has changed since: of each thing what is at stake together, so that a
load that changes has nothing measured again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from functools import partial
from operator import itemgetter
from typing import Any, NamedTuple

from ..book.site import Item, Site, keys_of
from ..checks.verdict import FINE, STOP
from .asking import Question, find_all
from .finding import WORST_FIRST, Finding
from .questions import AT_STAKE, BY_STAKE, CONSEQUENCES, OF_KIND

Rank = tuple[int, int, int, float]
MOST_KEPT = 8  # sites whose findings are kept at a time

_STAKE = {name: CONSEQUENCES.index(at_stake) for name, at_stake in AT_STAKE.items()}
_BAD = {word: (0 if word in STOP else 2 if word in FINE else 1, place) for place, word in enumerate(WORST_FIRST)}


Ranked = tuple[Rank, Finding]


class Appraisal(NamedTuple):
    """Everything that was asked of a site on a day.

    of_thing  (id of a thing, what is at stake, the day) -> its findings about that
    ordered   all of them as a list is shown
    """

    site: Site
    today: date
    of_thing: Mapping[tuple[str, str, date], tuple[Ranked, ...]]
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
    if before is not None:
        changed = changed_between(before.site, site)
        if not changed:
            return before
        site.take_over(before.site, changed)
    of_thing: dict[tuple[str, str, date], tuple[Ranked, ...]] = {}
    for thing in _things(site):
        for stake, questions in BY_STAKE[thing.kind].items():
            key = (thing.id, stake, today)
            kept = site.worked.get(key)
            of_thing[key] = kept.value if kept else site.once(key, partial(_ask, site, thing, questions, today))
    known = before.of_thing if before is not None else {}
    new = [one for key, ranked in of_thing.items() if known.get(key) is not ranked for one in ranked]
    gone = {id(one) for key, ranked in known.items() if of_thing.get(key) is not ranked for one in ranked}
    ordered = [one for one in before.ordered if id(one) not in gone] if before is not None else []
    ordered += new
    ordered.sort(key=itemgetter(0))
    return Appraisal(site, today, of_thing, ordered)


def _things(site: Site) -> Iterator[Item]:
    for kind in OF_KIND:
        yield from (one for one in ([site.item] if kind == "site" else site.all(kind)) if one.stands)


def _ask(site: Site, thing: Item, questions: Iterable[Question], today: date) -> tuple[Ranked, ...]:
    return tuple((rank(found), found) for found in find_all(questions, thing, site, today))


def changed_between(one: Site, other: Site) -> set[Any]:
    """What whoever looked at something that is not the same in both has noted."""
    before, after = one.everything(), other.everything()
    changed: set[Any] = set() if one.beyond == other.beyond else {other.item.id}
    for key in before.keys() | after.keys():
        was, now = before.get(key), after.get(key)
        if was is None or now is None or was.values != now.values:
            changed.update(keys_of(was) if was else ())
            changed.update(keys_of(now) if now else ())
    if one.then != other.then:
        pairs = one.then.keys() | other.then.keys()
        changed.update(thing for pair in pairs if one.then.get(pair) != other.then.get(pair) for thing in pair)
    return changed


def rank(finding: Finding) -> Rank:
    """Where a finding stands in a list."""
    margin = finding.verdict.margin
    group, word = _BAD[finding.verdict.word]
    return group, _STAKE[finding.question], word, float("inf") if margin is None else margin
