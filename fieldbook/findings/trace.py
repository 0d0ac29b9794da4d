"""Whether the trace a fixing is said to leave is what its hole, its glue and a test patch mean."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from ..book.site import Item
from ..checks.lining import STAINS, is_known
from ..checks.verdict import Verdict, Word
from ..model.choices import TRACES
from . import ages, fabric, named, patches
from .acts import is_glued
from .asking import NEITHER, Asked, NotEntered, Question
from .finding import Outcome
from .touch import IN_A_HOLE, is_bare, lining_of
from .verdicts import does_not_apply

NOTHING_LEFT = does_not_apply("trace", "It joins two fittings and leaves nothing in the building.")
SOURCE = "What a hole, a glue or a stain leaves behind: common practice, no source"
NONE, CLEANS_OFF, OLD_HOLE = TRACES[:3]
LATER_WORK, OLD_FABRIC = "later work", "old fabric"
NEW_HOLE = {LATER_WORK: "a new hole in later work", OLD_FABRIC: "a new hole in old fabric"}
SHOWN = {"no trace": NONE, patches.CLEANS_OFF: CLEANS_OFF}


class Meant(NamedTuple):
    """The least trace that something about a fixing means, why, and whether more has to be feared."""

    trace: str
    why: str
    unsure: bool = False


def left_by(asked: Asked, fixing: Item) -> Outcome:
    """The expected trace held against the most that anything about the fixing means."""
    if fixing.fabric not in NEW_HOLE:
        return NOTHING_LEFT
    return Outcome(_expected(asked, fixing))


def _expected(asked: Asked, fixing: Item) -> Verdict:
    means: list[Meant] = []
    lacking = None
    try:
        means.extend(_meant(asked, fixing))
    except NotEntered as lack:  # what is over by the rest stays over
        lacking = lack
    if lacking is not None and not any(TRACES.index(fixing.trace) < TRACES.index(one.trace) for one in means):
        raise lacking
    most = max(means, key=lambda one: (TRACES.index(one.trace), one.unsure))
    if TRACES.index(fixing.trace) < TRACES.index(most.trace):
        sentence = f"“{fixing.trace}” is expected, but {most.why} leaves {most.trace}."
        if fixing.fabric == LATER_WORK and most.trace == NEW_HOLE[OLD_FABRIC]:
            sentence += " Enter that it goes into old fabric."
        return _found(Word.OVER, sentence)
    worst = TRACES.index(NEW_HOLE[fixing.fabric])  # a mark that stays is no worse than a hole there
    unsure = next((one for one in means if one.unsure and TRACES.index(fixing.trace) < worst), None)
    if unsure:
        sentence = (
            f"“{fixing.trace}” is expected, but {unsure.why} may leave a mark that stays. Lay a test patch of it."
        )
        return _found(Word.NOT_KNOWN, sentence)
    return _found(Word.WITHIN, f"“{fixing.trace}” is expected; {most.why} leaves {most.trace}.")


def _meant(asked: Asked, fixing: Item) -> Iterator[Meant]:
    made = "new hole" if fixing.hole == "new" else fixing.sort if fixing.sort in IN_A_HOLE else ""
    if fixing.hole == "existing":
        yield Meant(OLD_HOLE, "an existing hole")
    elif not made:
        yield Meant(NONE, "contact alone")
    yet_old = ages.said_later_yet_old(asked, fixing)
    into, behind = (OLD_FABRIC, " through to what is old behind") if yet_old else (fixing.fabric, "")
    if made and fixing.hole != "existing":
        yield Meant(NEW_HOLE[into], f"a {made}{behind}")
    if into == LATER_WORK:
        asked.need(asked.site[fixing.face], "layers")  # what is said of it is held to what it meets
    if is_glued(asked, fixing):
        yield from _on_surface(asked, fixing, asked.need(fixing, "material"), "the glue", CLEANS_OFF)
    if not is_bare(lining := lining_of(asked, fixing)):
        yield from _on_surface(asked, fixing, lining, lining, _least(lining))


def _least(lining: str) -> str | None:
    """The least that a lining leaves which may leave more; None for one of which that is known."""
    if named.words(lining) & set(STAINS):
        return CLEANS_OFF
    return None if is_known(lining) or named.is_metal(lining) else NONE


def _on_surface(asked: Asked, fixing: Item, material: str, called: str, least: str | None) -> Iterator[Meant]:
    """What a lining or a glue means, by its test patches where there are any; else the least that it may leave."""
    face, stays = asked.site[fixing.face], NEW_HOLE[fixing.fabric]
    laid = patches.of(asked, face, material, fabric.touched(asked, fixing))
    for patch in laid:
        found = asked.need(patch, "found")
        asked.need(patch, "looked_on")
        why = f"{called} on {patch.laid_against}, as {patch.called} shows,"
        yield Meant(SHOWN[found], why) if found in SHOWN else Meant(stays, why)
    if not laid and least is not None:
        yield Meant(least, called, unsure=True)


def _found(word: Word, sentence: str) -> Verdict:
    return Verdict("trace-expected", word, None, None, None, "", sentence, SOURCE)


QUESTIONS = (
    Question(
        "trace",
        "fixing",
        "Are the marks it is said to leave those its hole, its glue and its lining mean?",
        left_by,
        {
            **fabric.READS,
            **ages.READS,
            **dict.fromkeys(
                (
                    *("fixing.fabric", "fixing.sort", "fixing.adhesive", "fixing.material"),
                    *("fixing.lining", "patch.material", "patch.laid_against", "patch.looked_on"),
                ),
                NEITHER,
            ),
            "fixing.penetration_mm": "more",
            "fixing.trace": "less",
            "patch.found": "more",
        },
    ),
)
