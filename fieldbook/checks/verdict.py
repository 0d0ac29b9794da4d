"""The answer of a check, in one of a few words, with everything needed to doubt it."""

from __future__ import annotations

import math
from dataclasses import asdict, dataclass, field
from enum import StrEnum
from typing import Any

from ..errors import FieldbookError
from .limits import rounded_down, rounded_up

# Share of a limit below which what is left counts as close: common practice, no source.
CLOSE_SHARE = 0.2
# As much as this of what is there may be told as a share; of next to nothing everything is an endless share.
MOST_TOLD = 100.0


class Word(StrEnum):
    """What a question can come to; the order is from worst to best."""

    REFUSED = "refused"
    OVER = "over"
    NOT_AGREED = "not agreed"
    NOT_KNOWN = "not known"
    CLOSE = "close"
    WITHIN = "within"
    AGREED = "agreed"
    DOES_NOT_APPLY = "does not apply"


STOP = frozenset({Word.REFUSED, Word.OVER})
UNKNOWN = frozenset({Word.NOT_AGREED, Word.NOT_KNOWN})
PLAINLY_FINE = frozenset({Word.WITHIN, Word.AGREED, Word.DOES_NOT_APPLY})
FINE = frozenset({Word.CLOSE, Word.WITHIN, Word.AGREED, Word.DOES_NOT_APPLY})


@dataclass(frozen=True)
class Verdict:
    """One answer, with everything needed to doubt it and to do it again.

    check     name of the check, as `fieldbook calc` knows it
    word      what it comes to
    figure    what was reckoned, in unit (None when not known or when there is none)
    limit     what it is held against, in unit
    margin    how much is left, in unit; negative when over
    sentence  the answer in plain words
    source    edition, equation or table of the method
    missing   names of inputs that were not there or were outside the method's range
    working   (label, figure with unit) pairs: inputs and steps, in order
    standing  what the sentence ends with whatever the figures; under a table it is said once
    """

    check: str
    word: Word
    figure: float | None
    limit: float | None
    margin: float | None
    unit: str
    sentence: str
    source: str
    missing: tuple[str, ...] = ()
    working: tuple[tuple[str, str], ...] = field(default=())
    standing: str = ""

    @property
    def left(self) -> float:
        """The margin as it is compared: what is over without one is further over than any figure says."""
        if self.margin is not None:
            return self.margin
        return -math.inf if self.word is Word.OVER else math.inf

    @property
    def own_sentence(self) -> str:
        """The sentence without what it ends with whatever the figures."""
        return self.sentence.removesuffix(self.standing).rstrip()

    def as_dict(self) -> dict[str, Any]:
        """The same verdict as plain values, for JSON."""
        return asdict(self)


def word_for(margin: float, close: float) -> Word:
    """Over below zero, close below `close`, else within. A margin that is no number is over."""
    if not margin >= 0:
        return Word.OVER
    return Word.CLOSE if margin < close else Word.WITHIN


def not_known(check: str, missing: tuple[str, ...], sentence: str, source: str, unit: str = "") -> Verdict:
    """The verdict when an input is missing or outside the method's range."""
    return Verdict(check, Word.NOT_KNOWN, None, None, None, unit, sentence, source, missing)


def not_known_because(check: str, error: FieldbookError, source: str, unit: str = "") -> Verdict:
    """The verdict when a method refused its inputs: the refusal says why."""
    return not_known(check, (error.field or "",), f"{error.reason} {error.remedy}", source, unit)


def at_most(
    check: str,
    what: str,
    figure: float,
    limit: float,
    unit: str,
    source: str,
    *,
    step: float = 0.1,
    close: float | None = None,
    after: str = "",
    standing: str = "",
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """The verdict on a figure that may not exceed a limit.

    what   the figure in words, to begin the sentence with
    step   what figures are shown to, in unit: the figure up, what is left down; the word goes by the figure itself
    close  how much must be left for it not to be close, in unit; None: a fifth of the limit
    after     what the sentence goes on with
    standing  what it ends with whatever the figures, such as what the method leaves out
    """
    margin = round(limit - figure, 9)  # beyond that is arithmetic noise
    word = word_for(margin, round(CLOSE_SHARE * limit, 9) if close is None else close)
    figure, limit, margin = _shown(figure, limit, margin, step), as_entered(limit, step), rounded_down(margin, step)
    left = f"{margin:.10g} {unit} below" if margin >= 0 else f"{-margin:.10g} {unit} above"
    held = f", {left} the limit of {limit:.10g} {unit}"
    if unit == "N" and limit == 0 > margin:
        held = "; nothing that may be relied on holds it"
    sentence = f"{what} is {figure:.10g} {unit}{held}. {after}".strip()
    sentence = f"{sentence} {standing}".strip()
    return Verdict(check, word, figure, limit, margin, unit, sentence, source, working=working, standing=standing)


def share_used(
    check: str,
    what: str,
    use: float,
    source: str,
    *,
    beyond: str,
    after: str = "",
    standing: str = "",
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """The verdict on how much of what holds is used, in %; without a figure where next to nothing holds.

    use     what acts over what holds, a fraction; without end where nothing holds
    beyond  what is said instead of a figure that would say no more: what holds nothing, and what to do
    after, standing, working  as for `at_most`
    """
    if use < MOST_TOLD:
        return at_most(check, what, 100 * use, 100, "%", source, after=after, standing=standing, working=working)
    sentence = " ".join(part for part in (beyond, after, standing) if part)
    return Verdict(check, Word.OVER, None, 100, None, "%", sentence, source, (), working, standing)


def _shown(figure: float, limit: float, margin: float, step: float) -> float:
    """The figure as it is shown: rounded up, but never past a limit that it keeps."""
    shown = rounded_up(figure, step)
    while margin >= 0 and shown > limit and step > 1e-6:
        step /= 10
        shown = rounded_up(figure, step)
    return min(shown, limit) if margin >= 0 else shown


def as_entered(limit: float, step: float = 0.1) -> float:
    """A limit as it is quoted: one told to a thousandth stands as it was entered, one that was reckoned is cut short.

    step  what a reckoned limit is rounded down to, in its unit
    """
    return limit if limit == round(limit, 3) else rounded_down(limit, step)
