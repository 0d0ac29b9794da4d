"""Every question of every thing of a gathered site, each with its one finding.

Checks are pure, so each answer is remembered by its inputs: when one input changes, only what
depends on it is reckoned again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date

from ..book.site import Item, Site
from ..checks.verdict import FINE, STOP, Verdict, Word
from . import handling, loads, places
from .asking import find
from .finding import WORST_FIRST, Finding
from .questions import AT_STAKE, CONSEQUENCES, OF_KIND, QUESTIONS

# Answers that are not yet given by a question of their own; the name of the check says which question it is.
Appraiser = Callable[[Site], Iterable[tuple[Item, Item | None, Verdict]]]
APPRAISERS: tuple[Appraiser, ...] = (
    places.keep_off,
    places.clearance,
    loads.load_path,
    handling.order,
    handling.consents,
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
    """All findings of a site: what stops the work, then what is not known, then what is fine.

    Within each, the gravest consequence comes first, then the worse word, then the least margin.
    today  the day they are asked on, for what ends; None: this day
    """
    return sorted(_findings(site, today or date.today()), key=rank)


def _findings(site: Site, today: date) -> Iterator[Finding]:
    for kind, questions in OF_KIND.items():
        for subject in [site.item] if kind == "site" else site.all(kind):
            if subject.stands:
                for question in questions:
                    yield find(question, subject, site, today)
    asked = {question.name for question in QUESTIONS}
    for appraiser in APPRAISERS:
        for subject, against, verdict in appraiser(site):
            name = _QUESTION_OF_CHECK.get((verdict.check, verdict.unit)) or _QUESTION_OF_CHECK.get(
                (verdict.check, ""), verdict.check
            )
            if name not in asked:
                yield Finding(name, subject, against, verdict)


def rank(finding: Finding) -> tuple[int, int, int, float]:
    """Where a finding stands in a list."""
    word, margin = finding.verdict.word, finding.verdict.margin
    return (
        0 if word in STOP else 2 if word in FINE else 1,
        CONSEQUENCES.index(AT_STAKE[finding.question]),
        WORST_FIRST.index(word),
        margin if margin is not None else float("inf"),
    )


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
