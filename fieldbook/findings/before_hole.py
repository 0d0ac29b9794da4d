"""What has to be looked for before a hole is made: services in the wall, asbestos, old lead paint."""

from __future__ import annotations

from dataclasses import replace

from ..book.site import Item, Site
from ..book.wording import joined
from ..checks.verdict import FINE, Verdict, Word
from .acts import joins_ours, makes_hole, may_deepen, taken_as_deep
from .asking import MORE, NEITHER, Asked, NotEntered, Question
from .finding import Blank, Outcome
from .looked import ASBESTOS, LEAD_PAINT, SERVICES, ahead, hazards_at, looked, not_looked
from .through import READS, comes_out, other_side
from .verdicts import badness, does_not_apply

SOURCE = "Common practice, no source; the rules of the place on services, asbestos and lead decide"
FIRST = (SERVICES, ASBESTOS, LEAD_PAINT)
NO_HOLE = "It makes no new hole."
AS_SAID = "By what is entered it uses a hole that is there already."
NO_DEEPER = "It goes no deeper than the hole that is there already."
NOT_SAID = "Whether the hole that is there is deep enough is not entered."
FOUND_ASBESTOS = "Asbestos is entered for {there}: no hole until whoever is licensed for it has said where and how."
MINDED = {
    LEAD_PAINT: "Old lead paint is entered for {there}: no dry sanding, no heat, dust taken at the tool.",
    "hidden services": "Hidden services are entered for {there}: find them at the very place, and prove dead what "
    "is live.",
}
NOT_FOUND = "What was looked for, and is not among the hazards of {room}, was not found."
COMES_OUT = "It goes right through, and nobody entered what is on the other side."
AS_SHALLOW = (
    "How deep it goes, and how long it is, is not entered; it is taken to end before the other side of the wall."
)
CAUTION = "Isolate and prove dead what is live; stop at anything unexpected behind the surface."


def before_hole(asked: Asked, fixing: Item) -> Outcome:
    """Whether services, asbestos and lead paint were looked for where a fixing makes a new hole."""
    site = asked.site
    if joins_ours(asked, fixing):
        return does_not_apply("before-hole", NO_HOLE)
    if may_deepen(site, fixing):
        return _if_deeper(asked, fixing)
    if not makes_hole(site, fixing):
        return _no_hole(site, fixing)
    return _of_hole(asked, fixing)


def _no_hole(site: Site, fixing: Item) -> Outcome:
    if fixing.hole != "existing":
        return does_not_apply("before-hole", NO_HOLE)
    taken = taken_as_deep(site, fixing)
    return does_not_apply("before-hole", AS_SAID if taken else NO_DEEPER)._replace(assumed=taken)


def _if_deeper(asked: Asked, fixing: Item) -> Outcome:
    """A hole that may have to be made deeper: how deep it goes is asked for unless the answer to a hole is fine."""
    found = _of_hole(asked, fixing)
    if found.verdict.word not in FINE:
        raise NotEntered(Blank(fixing, "penetration_mm"), None, "", NOT_SAID)
    return found._replace(assumed=(NOT_SAID, *found.assumed))


def _of_hole(asked: Asked, fixing: Item) -> Outcome:
    face = asked.site[fixing.face]
    found = _in(asked, face)
    if found.verdict.word not in FINE:
        return found
    if not comes_out(asked, fixing):
        unsaid = fixing.penetration_mm is None and fixing.length_mm is None
        return found._replace(assumed=(*found.assumed, AS_SHALLOW)) if unsaid else found
    other = other_side(asked.site, face)
    if other is None:
        raise NotEntered(Blank(face, "behind"), None, "", COMES_OUT)
    there = _in(asked, other.face)
    worse = min(found, there, key=lambda one: badness(one.verdict))
    told = f"{worse.verdict.sentence} It comes out on {other.face.called}."
    return worse._replace(verdict=replace(worse.verdict, sentence=told))


def _in(asked: Asked, face: Item) -> Outcome:
    """What was looked for, and is known of, on one face that a hole goes into or comes out of."""
    site = asked.site
    room, hazards = site[face.room], hazards_at(site, face)
    if there := hazards.get(ASBESTOS):
        return _said(Word.OVER, FOUND_ASBESTOS.format(there=there.called), there)
    seen = {what: looked(asked, face, what) for what in FIRST}
    unseen = [what for what in FIRST if not seen[what]]
    if unseen:
        sentence = f"Before a hole in {face.called}, look for {joined(unseen)}.{ahead(asked, face, *unseen)}"
        verdict = Verdict("before-hole", Word.NOT_KNOWN, None, None, None, "", sentence, SOURCE, ("looked_for",))
        return Outcome(verdict, missing=tuple(not_looked(face, what) for what in unseen))
    how = "; ".join(f"{what} {words}" for what, words in seen.items())
    assumed = (NOT_FOUND.format(room=room.called),)
    if found := [one for one in MINDED if one in hazards]:
        told = " ".join(MINDED[one].format(there=hazards[one].called) for one in found)
        return _said(Word.CLOSE, f"{told} {how[:1].upper()}{how[1:]}.", hazards[found[0]])._replace(assumed=assumed)
    return _said(Word.WITHIN, f"{how[:1].upper()}{how[1:]}. {CAUTION}", None)._replace(assumed=assumed)


def _said(word: Word, sentence: str, against: Item | None) -> Outcome:
    return Outcome(Verdict("before-hole", word, None, None, None, "", sentence, SOURCE), against)


QUESTIONS = (
    Question(
        "before-hole",
        "fixing",
        "Before a new hole: were services, asbestos and lead paint looked for?",
        before_hole,
        READS
        | {
            "fixing.hole": NEITHER,
            "fixing.sort": NEITHER,
            "fixing.fabric": NEITHER,
            "fixing.penetration_mm": MORE,
            "hold.depth_mm": NEITHER,
            "face.looked_for": NEITHER,
            "room.looked_for": NEITHER,
            "room.hazards": NEITHER,
            "face.layers": NEITHER,
            "member.material": NEITHER,
        },
    ),
)
