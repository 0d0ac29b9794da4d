"""A test patch: what a hidden piece laid on the fabric has shown, and for how long.

A patch shows the time it lay and no more. It does not show another place, another damp or
another batch of the same stuff.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from ..errors import OutOfRange
from .days import in_words
from .limits import within
from .verdict import Verdict, Word, not_known

SOURCE = "Test patch on the spot; how long it has to lie: common practice, no source"

# fewer days show nothing; a patch that lay as long as the display is to stand shows all of it
LEAST_DAYS = 28
STAYS_DAYS = (1.0, 365_250.0)


def patch_verdict(
    what: str, laid_on: date | None, seen_on: date | None, trace_seen: bool | None, stays_days: float | None
) -> Verdict:
    """What a test patch says of the time a thing is to stay.

    what        what was laid on what, to begin the sentence with
    laid_on     when it was laid; None: not known
    seen_on     when it was last lifted and looked under; None: not yet
    trace_seen  whether anything was to be seen under it; None: not known
    stays_days  how long the thing itself is to stay, days, 1 to 365 250; None: not known, and counts as longer
    returns     verdict in days: over with a trace, within where it lay at least as long, close where it lay shorter

    Source: SOURCE.
    Raises OutOfRange outside the limits above, and for a patch that was looked under before it was laid.

    >>> str(patch_verdict("Cork on limewash", date(2026, 3, 1), date(2026, 6, 1), False, 3650).word)
    'close'
    """
    if stays_days is not None:
        within("stays_days", stays_days, *STAYS_DAYS, "days")
    if laid_on is None or seen_on is None or trace_seen is None:
        given = (("laid_on", laid_on), ("seen_on", seen_on), ("trace_seen", trace_seen))
        missing = tuple(name for name, value in given if value is None)
        return not_known("patch", missing, f"{what}: lay a test patch and look under it.", SOURCE, "days")
    days = (seen_on - laid_on).days
    if days < 0:
        reason = f"{what} is said to have been looked under {-days} days before it was laid."
        raise OutOfRange(reason, "Correct one of the two dates.", field="seen_on", value=seen_on.isoformat())
    lay = f"{what} lay {days} days, to {in_words(seen_on)}"
    if trace_seen:
        return Verdict("patch", Word.OVER, days, stays_days, None, "days", f"{lay}, and left a mark.", SOURCE)
    if days < LEAST_DAYS:
        found = not_known("patch", ("seen_on",), f"{lay}: it shows nothing before {LEAST_DAYS}.", SOURCE, "days")
        return replace(found, figure=days)
    if stays_days is not None and days >= stays_days:
        sentence = f"{lay}, as long as it is to stay, without a mark."
        return Verdict("patch", Word.WITHIN, days, stays_days, days - stays_days, "days", sentence, SOURCE)
    sentence = f"{lay} without a mark; it shows no more than that time. Look under it again each year."
    return Verdict("patch", Word.CLOSE, days, stays_days, None, "days", sentence, SOURCE)


def settled_by(general: Verdict, patch: Verdict | None) -> Verdict:
    """The word that stands: a patch settles what no rule does, and a trace under it outweighs any rule.

    general  what the published rule says
    patch    what a test patch on this very fabric says; None where there is none
    returns  the verdict that stands; a patch without a trace does not make good what a rule forbids

    Source: common practice, no source.
    Raises nothing.

    >>> settled_by(not_known("lining", ("patch",), "No rule.", "none"), None).sentence
    'No rule.'
    """
    if patch is None or (patch.word is Word.NOT_KNOWN and not patch.figure):
        return general
    if general.word is Word.NOT_KNOWN or patch.word is Word.OVER:
        return patch
    return general
