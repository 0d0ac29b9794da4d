"""Boards, adhesives, paints and linings inside a closed case: whether they give off what harms the things in it.

No limit for old objects is published; a material is accepted by a test or by an adviser. It does
not cover dust, pests or the humidity in the case.
"""

from __future__ import annotations

import re
from dataclasses import replace

from ..errors import NotAChoice, shown
from .limits import within
from .verdict import Verdict, Word, not_known

SOURCE = (
    "Accelerated corrosion test with silver, copper and lead: D. Thickett and L. Lee, Selection of Materials for the "
    "Storage or Display of Museum Objects, British Museum Occasional Paper 111, 2004 (second hand; the six months of "
    "a temporary use from memory)"
)
# what a test may have said, the best first
RESULTS = ("permanent", "temporary", "unsuitable")
TEMPORARY_DAYS = 183.0
STAYS_DAYS = (1.0, 365_250.0)
# by a word in its name: give off nothing when bare and clean
INERT = ("glass", "steel", "aluminium", "brass", "stainless", "ceramic", "stone", "iron")
_BETWEEN = re.compile(r"[,;+/]|\band\b|\bwith\b|\bon\b")
# words of a coating or a glue, which count before what they lie on
COATINGS = ("paint", "painted", "lacquer", "lacquered", "varnish", "varnished", "powder", "coated", "glued", "adhesive")


def giving_off_verdict(
    material: str, closed: bool | None, result: str | None, stays_days: float | None
) -> Verdict | None:
    """Whether a material may stay in a closed case with old things.

    material    as entered: "medium density fibreboard", "contact adhesive"
    closed      whether the case is closed; None: not known
    result      what a test of this very stuff said, one of RESULTS; None: not tested
    stays_days  how long it is to stay, days, 1 to 365 250; None: not known, and counts as longer than six months
    returns     verdict; None where the question does not arise: the case is open

    Source: SOURCE; bare glass, metal, stone and ceramic give off nothing: the same (from memory).
    Raises NotAChoice for another result, OutOfRange outside the limits above.

    >>> str(giving_off_verdict("plywood", True, None, None).word)
    'not known'
    """
    if closed is False:
        return None
    if stays_days is not None:
        within("stays_days", stays_days, *STAYS_DAYS, "days")
    if result is not None and result not in RESULTS:
        remedy = f"Choose one of: {', '.join(RESULTS)}."
        raise NotAChoice(f"result is {shown(result)}.", remedy, field="result", value=result)
    if result is not None:
        found = _tested(material, result, stays_days)
        if found.word is Word.OVER and closed is None:
            sentence = f"{found.sentence} Enter whether the case is closed."
            return replace(found, word=Word.NOT_KNOWN, sentence=sentence, missing=("closed",))
        return found
    parts = [set(re.findall(r"[^\W_]+", part)) for part in _BETWEEN.split(material.casefold())]
    if all(words & set(INERT) and not words & set(COATINGS) for words in parts):
        return _found(Word.WITHIN, f"Bare {material} gives off nothing.")
    sentence = (
        f"Boards, glues, paints and fabrics give off acids and sulphur in a closed case, and no limit is published. "
        f"Have {material} tested with what it is to lie with, seal it in metal foil, or let air through the case."
    )
    return not_known("giving-off", ("result",), sentence, SOURCE)


def _tested(material: str, result: str, stays_days: float | None) -> Verdict:
    if result == "permanent":
        return _found(Word.WITHIN, f"{material} passed a test for permanent use; another batch has to pass it again.")
    if result == "unsuitable":
        return _found(Word.OVER, f"{material} failed its test; it may not be shut in with old things.")
    if stays_days is None:
        sentence = f"{material} passed a test for six months only. Enter how long it is to stay."
        return not_known("giving-off", ("stays_days",), sentence, SOURCE, "days")
    word = Word.CLOSE if stays_days <= TEMPORARY_DAYS else Word.OVER
    sentence = f"{material} passed a test for six months only, and is to stay {stays_days:g} days."
    margin = TEMPORARY_DAYS - stays_days
    return Verdict("giving-off", word, stays_days, TEMPORARY_DAYS, margin, "days", sentence, SOURCE)


def _found(word: Word, sentence: str) -> Verdict:
    return Verdict("giving-off", word, None, None, None, "", sentence, SOURCE)
