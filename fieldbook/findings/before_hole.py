"""What has to be looked for before a hole is made: services in the wall, asbestos, old lead paint."""

from __future__ import annotations

from ..book.site import Item
from ..book.wording import joined
from ..checks.verdict import Verdict, Word
from .acts import makes_hole
from .asking import MORE, NEITHER, Asked, Question
from .finding import Outcome
from .looked import ASBESTOS, LEAD_PAINT, SERVICES, looked, not_looked

SOURCE = "Common practice, no source; the rules of the place on services, asbestos and lead decide"
FIRST = (SERVICES, ASBESTOS, LEAD_PAINT)
NO_HOLE = Verdict("before-hole", Word.DOES_NOT_APPLY, None, None, None, "", "It makes no new hole.", SOURCE)
FOUND_ASBESTOS = "Asbestos is entered for {room}: no hole until whoever is licensed for it has said where and how."
CAUTION = "Isolate and prove dead what is live; stop at anything unexpected behind the surface."


def before_hole(asked: Asked, fixing: Item) -> Outcome:
    """Whether services, asbestos and lead paint were looked for where a fixing makes a new hole."""
    site = asked.site
    if not makes_hole(site, fixing):
        return Outcome(NO_HOLE)
    face = site[fixing.face]
    room = site[face.room]
    if "asbestos" in (room.hazards or ()):
        return _said(Word.OVER, FOUND_ASBESTOS.format(room=room.called), room)
    seen = {what: looked(site, face, what) for what in FIRST}
    missing = tuple(not_looked(face, what) for what in FIRST if not seen[what])
    if missing:
        sentence = f"Before a hole in {face.called}, look for {joined(what for what in FIRST if not seen[what])}."
        verdict = Verdict("before-hole", Word.NOT_KNOWN, None, None, None, "", sentence, SOURCE, ("looked_for",))
        return Outcome(verdict, missing=missing)
    how = "; ".join(f"{what} {words}" for what, words in seen.items())
    if "old lead paint" in (room.hazards or ()):
        paint = f"Old lead paint is entered for {room.called}: no dry sanding, no heat, dust taken at the tool."
        return _said(Word.CLOSE, f"{paint} {how[:1].upper()}{how[1:]}.", room)
    return _said(Word.WITHIN, f"{how[:1].upper()}{how[1:]}. {CAUTION}", None)


def _said(word: Word, sentence: str, against: Item | None) -> Outcome:
    return Outcome(Verdict("before-hole", word, None, None, None, "", sentence, SOURCE), against)


QUESTIONS = (
    Question(
        "before-hole",
        "fixing",
        "Before a new hole: were services, asbestos and lead paint looked for?",
        before_hole,
        {
            "fixing.hole": NEITHER,
            "fixing.sort": NEITHER,
            "fixing.fabric": NEITHER,
            "fixing.penetration_mm": MORE,
            "hold.depth_mm": NEITHER,
            "face.looked_for": NEITHER,
            "room.looked_for": NEITHER,
            "room.hazards": NEITHER,
        },
    ),
)
