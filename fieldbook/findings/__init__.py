"""Every question of every thing of a gathered site, each with its one finding.

Checks are pure, so each answer is remembered by its inputs: when one input changes, only what
depends on it is reckoned again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date

from ..book.site import Item, Site
from ..checks.verdict import Verdict, Word
from . import appraisal, handling, loads
from .appraisal import rank
from .finding import WORST_FIRST, Finding
from .questions import QUESTIONS

# Answers that are not yet given by a question of their own; the name of the check says which question it is.
Appraiser = Callable[[Site], Iterable[tuple[Item, Item | None, Verdict]]]
APPRAISERS: tuple[Appraiser, ...] = (
    loads.load_path,
    handling.order,
)
_QUESTION_OF_CHECK: Mapping[tuple[str, str], str] = {
    ("withdrawal", ""): "pull",
    ("preload", ""): "tightening",
    ("fixing-group", ""): "load",
    ("removal", ""): "order",
    ("clamp", "N"): "slip",
    ("clamp", "N/mm²"): "pressure",
}


def appraise(site: Site, today: date | None = None) -> list[Finding]:
    """All findings of a site, as `appraisal.appraise` orders them."""
    found, legacy = appraisal.appraise(site, today), list(_legacy(site))
    return sorted([*found, *legacy], key=rank) if legacy else found


def _legacy(site: Site) -> Iterator[Finding]:
    asked = {question.name for question in QUESTIONS}
    for appraiser in APPRAISERS:
        for subject, against, verdict in appraiser(site):
            name = _QUESTION_OF_CHECK.get((verdict.check, verdict.unit)) or _QUESTION_OF_CHECK.get(
                (verdict.check, ""), verdict.check
            )
            if name not in asked:
                yield Finding(name, subject, against, verdict)


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
