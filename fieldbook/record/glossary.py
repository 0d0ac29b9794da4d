"""The words a record uses, for someone who meets them for the first time; forms explain their fields by them too."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from functools import lru_cache

from ..checks.verdict import Word
from ..model.fields import Field
from ..model.kinds import KINDS

# What a finding can come to, from worst to best.
FINDING_WORDS = {
    Word.REFUSED: "the keeper said no to this; it is changed or given up",
    Word.OVER: "beyond the limit; it is moved, changed, or agreed again",
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
    "Contact radius": "from the middle of a plate, washer or jaw to its farthest corner; all within counts as touched",
    "Datum": "the mark that distances on a face are measured from: x to the right along it, z upwards",
    "Edition": "a numbered issue of this record; a later one says what changed since the one before",
    "Finding": "the answer of one question about one thing, in one of eight words, with figure, limit, margin and "
    "source where there are such: " + ", ".join(FINDING_WORDS),
    "Gripping faces": "how many faces of a clamp hold by friction; two where both jaws press on what carries",
    "Leaf": "the part of a door, shutter, casement or gate that swings",
    "Ledger": "the list of every entry ever made in the book; its checksum shows that none was changed since",
    "Margin": "of a keep-off zone or a clearance limit: what is kept free beyond what is stated, since nothing is "
    "measured or put up exactly. Of a finding: what is left between a figure and its limit, negative when that is "
    "passed",
    "Nut factor": "tells how much tension a tightening torque gives: torque is factor times tension times diameter",
    "Old fabric": "the building as it is protected; later work is what was added to it since",
    "Packer": "the shim between a fitting and the face behind it",
    "Projection": "how far a fitting stands out from its face",
    "Property class": "the strength of a bolt or screw, as stamped on its head",
    "Marks left": "what a fixing leaves behind when it is gone",
}


@lru_cache(maxsize=1024)  # some forms have a field for each item, and others come with time
def meaning_of(field: Field) -> tuple[str, str] | None:
    """The word and meaning that explain a field: one in its label, or a choice of it, else the kind it links to."""
    label, choices = field.label.replace("-", " "), {choice.capitalize() for choice in field.choices}
    for word in sorted(WORDS, key=len, reverse=True):
        if word in choices or re.search(rf"\b{word}s?\b", label, re.IGNORECASE):
            return word, WORDS[word]
    return (KINDS[field.to].label, KINDS[field.to].meaning) if field.to in KINDS else None


OF_EVERY_RECORD = frozenset({"room", "face", "zone", "limit", "hold", "member", "fitting", "fixing", "agreement"})
"""Kinds that drawings and findings speak of, whether there is one or not."""


def met_in(text: str, words: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """Those words and meanings that stand in a text, or in the meaning of one that does."""
    left, found = list(words), list[tuple[str, str]]()
    while now := [pair for pair in left if re.search(rf"\b{re.escape(pair[0])}(?:s|es)?\b", text, re.IGNORECASE)]:
        found += now
        left = [pair for pair in left if pair not in now]
        text = " ".join(meaning for _, meaning in now)
    return sorted(found, key=lambda pair: pair[0].lower())


def glossary(kinds_there: Collection[str] = tuple(KINDS)) -> tuple[tuple[str, str], ...]:
    """Each word and its meaning, in the order of the alphabet.

    kinds_there  of which there are entries: nobody meets the others
    """
    met = OF_EVERY_RECORD.union(kinds_there)
    kinds = {kind.label: kind.meaning for name, kind in KINDS.items() if name in met}
    answers = {word.capitalize(): f"of a finding: {meaning}" for word, meaning in FINDING_WORDS.items()}
    return tuple(sorted((kinds | WORDS | answers).items(), key=lambda pair: pair[0].lower()))
