"""The short verdicts that many questions share."""

from __future__ import annotations

from functools import lru_cache

from ..checks.verdict import Verdict, Word
from .finding import WORST_FIRST, Outcome


@lru_cache(maxsize=1024)
def does_not_apply(question: str, why: str) -> Outcome:
    """The outcome of a question that does not concern a thing, with the reason."""
    return Outcome(Verdict(question, Word.DOES_NOT_APPLY, None, None, None, "", why, ""))


def worse(one: Verdict, other: Verdict) -> Verdict:
    """The one that decides: the worse word, then the smaller share of its limit that is left."""
    return min(one, other, key=badness)


def badness(verdict: Verdict) -> tuple[int, float]:
    """What verdicts are compared by, least for the worst; margins of other units by their share of the limit."""
    return WORST_FIRST.index(verdict.word), verdict.left / (abs(verdict.limit or 0) or 1)
