"""What a stranger finds after everything has come down, counted, and who agreed to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ..errors import NotAChoice
from .limits import within
from .verdict import Verdict, Word

SOURCE = "Count of the fixings by what each leaves behind; whether it had to be agreed: common practice, no source"
FIXINGS_HIGH = 100_000

# From the least to the most that is left behind.
TRACES = (
    "none",
    "a mark that cleans off",
    "an old hole used again",
    "a new hole in later work",
    "a new hole in old fabric",
)
NOTHING = TRACES[0]
# The fabric of a fixing that joins two fittings; what it leaves is in our own work and needs no one's consent.
OWN_WORK = "another fitting"


class Left(NamedTuple):
    """What one fixing leaves: its trace, in what fabric, and the consent that covers it, "" where there is none."""

    name: str
    trace: str
    fabric: str
    consent: str = ""


class Count(NamedTuple):
    """How many fixings leave one trace in one fabric, under which consents, and which are covered by none."""

    trace: str
    fabric: str
    count: int  # type: ignore[assignment]  # over a tuple's own, which nobody asks
    consents: tuple[str, ...]
    uncovered: tuple[str, ...]


def counts(fixings: Sequence[Left]) -> list[Count]:
    """The marks counted by kind and by fabric.

    fixings  what each leaves, up to 100 000
    returns  a count for each kind and fabric that occurs, the heaviest trace first, fabrics by name; a trace other
             than none, in anything but another fitting, without a consent is uncovered

    Source: arithmetic.
    Raises NotAChoice for a trace that is not in `TRACES`, OutOfRange for too many fixings.

    >>> counts([Left("F1", "a mark that cleans off", "old fabric", "A1")])[0].count
    1
    """
    within("fixings", len(fixings), 0, FIXINGS_HIGH, "fixings")
    for place, fixing in enumerate(fixings):
        if fixing.trace not in TRACES:
            raise NotAChoice(
                f"The mark left by {fixing.name} is {fixing.trace}.",
                f"Choose one of: {', '.join(TRACES)}.",
                field=f"fixings[{place}].trace",
                value=fixing.trace,
            )
    groups: dict[tuple[int, str], list[Left]] = {}
    for fixing in fixings:
        groups.setdefault((-TRACES.index(fixing.trace), fixing.fabric), []).append(fixing)
    return [_count(group) for _, group in sorted(groups.items())]


def verdict(fixings: Sequence[Left]) -> Verdict:
    """Whether every trace is covered by a consent.

    fixings  what each leaves, up to 100 000
    returns  verdict: over where a trace is uncovered, with the names

    Source: whatever is done to old fabric has to be agreed: common practice, no source.
    Raises as `counts` does.

    >>> verdict([Left("F1", "a new hole in old fabric", "old fabric")]).sentence
    '1 of 1 marks is covered by no consent: F1.'
    """
    table = counts(fixings)
    left = sum(row.count for row in table if row.trace != NOTHING and row.fabric != OWN_WORK)
    uncovered = [name for row in table for name in row.uncovered]
    if not uncovered:
        sentence = (
            f"Every mark left is covered by a consent ({left})." if left else "Nothing is left behind in the building."
        )
        return Verdict("trace", Word.WITHIN, 0, 0, 0, "", sentence, SOURCE)
    verb = "is" if len(uncovered) == 1 else "are"
    sentence = f"{len(uncovered)} of {left} marks {verb} covered by no consent: {', '.join(uncovered)}."
    return Verdict("trace", Word.OVER, len(uncovered), 0, -len(uncovered), "", sentence, SOURCE)


def _count(group: Sequence[Left]) -> Count:
    trace, fabric = group[0].trace, group[0].fabric
    consents = sorted({fixing.consent for fixing in group if fixing.consent})
    needs_consent = trace != NOTHING and fabric != OWN_WORK
    uncovered = [fixing.name for fixing in group if needs_consent and not fixing.consent]
    return Count(trace, fabric, len(group), tuple(consents), tuple(uncovered))
