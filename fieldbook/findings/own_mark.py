"""Whether a thing has a mark that tells it from all others."""

from __future__ import annotations

from ..book.site import Item
from ..checks.verdict import Verdict, Word
from .asking import Asked, Question
from .finding import Outcome

SOURCE = "the marks entered"
ONE_MARK = Verdict("mark", Word.WITHIN, None, None, None, "", "No other has this mark.", SOURCE)


def mark(asked: Asked, item: Item) -> Outcome:
    """Whether a mark tells one thing from all others on the site."""
    others = asked.site.same_mark(item)
    if not others:
        return Outcome(ONE_MARK)
    sentence = f"{item.mark} is the mark of {len(others) + 1} things: which is meant is not known. Give each its own."
    return Outcome(Verdict("mark", Word.NOT_KNOWN, None, None, None, "", sentence, SOURCE), others[0])


QUESTIONS = tuple(Question("mark", kind, "Has it a mark of its own?", mark, {}) for kind in ("fitting", "fixing"))
