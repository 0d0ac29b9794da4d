"""Every question of every thing of a gathered site, each with its one finding.

Checks are pure, so each answer is remembered by its inputs: when one input changes, only what
depends on it is reckoned again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..book.site import Item
from ..checks.verdict import Word
from .appraisal import appraise as appraise
from .appraisal import rank as rank
from .finding import WORST_FIRST, Finding


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
