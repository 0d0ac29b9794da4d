"""Every check done on a gathered site, worst answer first.

Checks are pure, so each answer is remembered by its inputs: when one input changes, only what
depends on it is reckoned again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from ..book.site import Item, Site
from ..checks.verdict import Verdict, Word
from . import climate, handling, loads, logs, places

WORST_FIRST = list(Word)


@dataclass(frozen=True)
class Finding:
    """One verdict about an item, and the item it was held against, if any."""

    subject: Item
    against: Item | None
    verdict: Verdict


Appraiser = Callable[[Site], Iterable[tuple[Item, Item | None, Verdict]]]
APPRAISERS: tuple[Appraiser, ...] = (
    places.keep_off,
    places.clearance,
    loads.load_path,
    handling.lift,
    handling.order,
    handling.consents,
    climate.lit,
    climate.condensing,
    climate.moving,
    logs.humidity,
)


def appraise(site: Site) -> list[Finding]:
    """All findings of a site; over first, then not known, close, within; least margin first."""
    return sorted(_findings(site), key=_rank)


def _findings(site: Site) -> Iterator[Finding]:
    for appraiser in APPRAISERS:
        for subject, against, verdict in appraiser(site):
            yield Finding(subject, against, verdict)


def _rank(finding: Finding) -> tuple[int, float]:
    margin = finding.verdict.margin
    return WORST_FIRST.index(finding.verdict.word), margin if margin is not None else float("inf")


def about(findings: Iterable[Finding], item: Item) -> list[Finding]:
    """The findings about one item."""
    return [finding for finding in findings if finding.subject.id == item.id]


def worst(findings: Iterable[Finding]) -> Word | None:
    """The worst word among findings; None when there are none."""
    words = [finding.verdict.word for finding in findings]
    return min(words, key=WORST_FIRST.index, default=None)


def counts(findings: Iterable[Finding]) -> dict[Word, int]:
    """How many findings have each word, worst first."""
    words = [finding.verdict.word for finding in findings]
    return {word: words.count(word) for word in WORST_FIRST}


def worst_words(findings: Iterable[Finding]) -> Mapping[str, Word]:
    """Item id -> the worst word found about it."""
    worst: dict[str, Word] = {}
    for finding in findings:
        word, key = finding.verdict.word, finding.subject.id
        if key not in worst or WORST_FIRST.index(word) < WORST_FIRST.index(worst[key]):
            worst[key] = word
    return worst
