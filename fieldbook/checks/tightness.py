"""A nut or screw that has to stay tight: what keeps it, and when it is looked at next.

It does not say how much tension is left: linings, wood and paint creep, and only a turn of the
spanner shows it.
"""

from __future__ import annotations

import re
from datetime import date

from .days import in_words
from .verdict import Verdict, Word, not_known

SOURCE = "A clamp lives by its nut, so its locking and its next look are written down: common practice, no source"
SOON_DAYS = 30
NO_LOCKING = re.compile(r"(none|nothing|not?|without|n/a)(?![\w-]|\. ?\d)|[-–]?$", re.IGNORECASE)


def tightness_verdict(locking: str | None, looked_at_on: date | None, today: date) -> Verdict:
    """Whether something keeps a nut tight, and whether somebody will look.

    locking       its locking, as entered; "none" where nothing does; None: not known
    looked_at_on  when it is looked at next; None: not known
    today         the day the question is asked
    returns       verdict in days left: over without locking or when the day has passed, close in its last 30 days

    Source: SOURCE.
    Raises nothing.

    >>> str(tightness_verdict("lock nut", date(2027, 3, 1), date(2026, 11, 26)).word)
    'within'
    """
    if locking is not None and NO_LOCKING.match(locking.strip()):
        return Verdict(
            "tightness", Word.OVER, None, None, None, "", "Nothing keeps the nut from working loose.", SOURCE
        )
    missing = [("locking", locking), ("looked_at_on", looked_at_on)]
    if locking is None or looked_at_on is None:
        asked = {"locking": "its locking", "looked_at_on": "the day it is looked at next"}
        names = tuple(name for name, value in missing if value is None)
        sentence = f"The nut has to stay tight. Enter {' and '.join(asked[name] for name in names)}."
        return not_known("tightness", names, sentence, SOURCE, "days")
    days = (looked_at_on - today).days
    if days < 0:
        word, when = Word.OVER, f"was to be looked at on {in_words(looked_at_on)}, {-days} days ago"
    else:
        word = Word.CLOSE if days <= SOON_DAYS else Word.WITHIN
        when = f"is looked at on {in_words(looked_at_on)}"
    sentence = f"The nut is kept tight by {locking.strip()} and {when}."
    return Verdict("tightness", word, days, 0, days, "days", sentence, SOURCE)
