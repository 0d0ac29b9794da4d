"""What a colour difference means to the eye, in words.

Source: common practice, no source; a difference of 1 is about what is just noticed side by side.
"""

from __future__ import annotations

from .limits import within

SOURCE = "Words for a colour difference (CIEDE2000): common practice, no source"
STEPS = (
    (1.0, "no difference is seen"),
    (2.0, "seen side by side only"),
    (5.0, "seen by whoever looks for it"),
    (float("inf"), "another colour"),
)


def seen(difference: float) -> str:
    """A colour difference in words.

    difference  CIEDE2000, without unit, 0 to 200
    returns     words

    Source: SOURCE.
    Raises OutOfRange outside the bounds.

    >>> seen(2.0425)
    'seen by whoever looks for it'
    """
    within("difference", difference, 0, 200, "")
    return next(words for limit, words in STEPS if difference < limit)
