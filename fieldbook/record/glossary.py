"""The words a record uses, for someone who meets them for the first time."""

from __future__ import annotations

from ..model.kinds import KINDS

# Words that are no kind of entry; the kinds bring their own meanings.
WORDS = {
    "Adviser": "the conservation adviser: whoever speaks for the protection of the building",
    "As fitted": "where something really is, measured after it went up; it may differ from what was planned",
    "CIELAB": "three figures for a colour: L* from black 0 to white 100, a* from green to red, b* from blue to yellow; "
    "good for matching only together with the reference white and how they were got",
    "Clear depth": "how far something may stand out from a face at one place before it meets what must stay free",
    "Datum": "the mark that distances on a face are measured from: x to the right along it, z upwards",
    "Edition": "a numbered issue of this record; a later one says what changed since the one before",
    "Ledger": "the list of every entry ever made in the book, none ever changed; its digest vouches for all of it",
    "Margin": "what is left between a figure and its limit; negative when the limit is passed",
    "Old fabric": "the building as it is protected; later work is what was added to it since",
    "Packer": "the shim between a fitting and the face behind it",
    "Projection": "how far a fitting stands out from its face",
    "Trace": "what a fixing leaves behind when it is gone",
    "Verdict": "the answer of a check: within its limit, close to it, over it, or not known as something is missing",
}


def glossary() -> tuple[tuple[str, str], ...]:
    """Each word and its meaning, in the order of the alphabet."""
    kinds = {kind.label: kind.meaning for kind in KINDS.values()}
    return tuple(sorted((kinds | WORDS).items(), key=lambda pair: pair[0].lower()))
