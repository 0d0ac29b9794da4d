"""The words a record uses, for someone who meets them for the first time."""

from __future__ import annotations

from ..checks.verdict import Word
from ..model.kinds import KINDS

# What a finding can come to, from worst to best.
FINDING_WORDS = {
    Word.REFUSED: "the keeper said no to this; it is changed or given up",
    Word.OVER: "beyond the limit; it is moved, changed, or agreed anew",
    Word.NOT_AGREED: "the keeper has not said yes or no to it as it is now; nothing is done meanwhile",
    Word.NOT_KNOWN: "something is missing, or outside what the method holds for; the finding says what. It is no yes",
    Word.CLOSE: "inside the limit with little left; it is measured again before anything goes up",
    Word.WITHIN: "inside the limit, with room left",
    Word.AGREED: "the keeper said yes to this as it is now; their conditions stand beside it",
    Word.DOES_NOT_APPLY: "the question does not concern this thing, for the reason given",
}

# Words that are no kind of entry; the kinds bring their own meanings.
WORDS = {
    "Adviser": "the conservation adviser: whoever speaks for the protection of the building",
    "As fitted": "where something really is, measured after it went up; it may differ from what was planned",
    "CIELAB": "three figures for a colour: L* from black 0 to white 100, a* from green to red, b* from blue to yellow; "
    "good for matching only together with the reference white and how they were got",
    "Clear depth": "how far something may stand out from a face at one place before it meets what must stay free",
    "Datum": "the mark that distances on a face are measured from: x to the right along it, z upwards",
    "Edition": "a numbered issue of this record; a later one says what changed since the one before",
    "Finding": "the answer of one question about one thing, in one of eight words, with figure, limit, margin and "
    "source where there are such: " + ", ".join(FINDING_WORDS),
    "Ledger": "the list of every entry ever made in the book, none ever changed; its checksum vouches for all of it",
    "Margin": "what is left between a figure and its limit; negative when the limit is passed",
    "Old fabric": "the building as it is protected; later work is what was added to it since",
    "Packer": "the shim between a fitting and the face behind it",
    "Projection": "how far a fitting stands out from its face",
    "Marks left": "what a fixing leaves behind when it is gone",
}


def glossary() -> tuple[tuple[str, str], ...]:
    """Each word and its meaning, in the order of the alphabet."""
    kinds = {kind.label: kind.meaning for kind in KINDS.values()}
    answers = {word.capitalize(): f"of a finding: {meaning}" for word, meaning in FINDING_WORDS.items()}
    return tuple(sorted((kinds | WORDS | answers).items(), key=lambda pair: pair[0].lower()))
