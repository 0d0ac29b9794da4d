"""What boards, glues and coatings give off to the things shut in with them."""

from __future__ import annotations

from ..book.site import Item
from ..checks.giving_off import giving_off_verdict
from ..checks.verdict import Verdict, Word
from ..errors import Missing
from .asking import MORE, NEITHER, Asked, Question
from .finding import Outcome
from .patches import A_YEAR_DAYS
from .verdicts import does_not_apply

OPEN = does_not_apply("gives-off", "It is not a closed case.")
NOT_TESTED = "not tested"
BY_ITSELF = "Dust, pests and the damp in the case are left out, and what the things in it give off themselves."


def in_case(asked: Asked, fitting: Item) -> Outcome:
    """What a closed case is made of, by its kind or by a test of it."""
    if not asked.need(fitting, "closed"):
        return OPEN
    if fitting.closed is None and fitting.made_of is None:  # nobody said yet that it is a case
        raise Missing("Nobody said whether it is a closed case.", "Enter it on the fitting.", field="closed")
    inside = asked.need(fitting, "made_of")
    verdict = _judged(inside, None, None)
    if verdict.word is not Word.WITHIN:
        result, years = asked.need(fitting, "tested_as"), asked.site.item.stands_years
        days = None if years is None else max(years * A_YEAR_DAYS, 1.0)
        verdict = _judged(inside, None if result == NOT_TESTED else result, days)
    return Outcome(verdict, left_out=(BY_ITSELF,))


def _judged(inside: str, result: str | None, days: float | None) -> Verdict:
    verdict = giving_off_verdict(inside, True, result, days)
    if verdict is None:
        raise AssertionError("the question arises of a closed case")
    return verdict


QUESTIONS = (
    Question(
        "gives-off",
        "fitting",
        "Do the things shut in with its boards, glues and coatings bear what those give off?",
        in_case,
        {
            "fitting.closed": NEITHER,
            "fitting.made_of": NEITHER,
            "fitting.tested_as": NEITHER,
            "site.stands_years": MORE,
        },
    ),
)
