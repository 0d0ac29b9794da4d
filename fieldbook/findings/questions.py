"""The questions that each kind of thing has to answer; none is left out, and none is silent.

A question is added where its subject is: a `Question` in that module's QUESTIONS, the module in SUBJECTS,
and its name in AT_STAKE.
"""

from __future__ import annotations

from collections.abc import Mapping

from . import (
    before_hole,
    carriers,
    clearance,
    consent,
    fire,
    gives_off,
    glass,
    grips,
    humidity,
    keep_off,
    lifting,
    lighting,
    loads,
    movement,
    one_lost,
    own_mark,
    phase_order,
    place,
    projection,
    pulls,
    spacing,
    specialist,
    standing,
    taking_down,
    touch,
    trace,
    wall_load,
)
from .asking import Question

# What is at stake if the answer is no, the gravest first; a list of findings is in this order.
PEOPLE, OLD_FABRIC, CONSENT, FUNCTION = "people", "old fabric", "consent", "function"
CONSEQUENCES = (PEOPLE, OLD_FABRIC, CONSENT, FUNCTION)

QUESTIONS: tuple[Question, ...] = (
    *place.QUESTIONS,
    *own_mark.QUESTIONS,
    *keep_off.QUESTIONS,
    *clearance.QUESTIONS,
    *projection.QUESTIONS,
    *before_hole.QUESTIONS,
    *specialist.QUESTIONS,
    *loads.QUESTIONS,
    *pulls.QUESTIONS,
    *spacing.QUESTIONS,
    *grips.QUESTIONS,
    *carriers.QUESTIONS,
    *wall_load.QUESTIONS,
    *one_lost.QUESTIONS,
    *standing.QUESTIONS,
    *taking_down.QUESTIONS,
    *phase_order.QUESTIONS,
    *lifting.QUESTIONS,
    *movement.QUESTIONS,
    *humidity.QUESTIONS,
    *lighting.QUESTIONS,
    *consent.QUESTIONS,
    *touch.QUESTIONS,
    *trace.QUESTIONS,
    *fire.QUESTIONS,
    *glass.QUESTIONS,
    *gives_off.QUESTIONS,
)

OF_KIND: Mapping[str, tuple[Question, ...]] = {
    kind: tuple(question for question in QUESTIONS if question.kind == kind)
    for kind in dict.fromkeys(question.kind for question in QUESTIONS)
}

AT_STAKE: Mapping[str, str] = {
    **dict.fromkeys(
        (
            "load",
            "pull",
            "shear",
            "together",
            "spacing",
            "slip",
            "carrier",
            "carries",
            "wall",
            "one-lost",
            "specialist",
            "lifting",
        ),
        PEOPLE,
    ),
    **dict.fromkeys(
        ("tipping", "sliding", "floor", "before-hole", "phase"),
        PEOPLE,
    ),
    **dict.fromkeys(("fire", "glass"), PEOPLE),
    **dict.fromkeys(("keep-off", "pressure", "touch", "trace", "movement", "humidity"), OLD_FABRIC),
    **dict.fromkeys(("consent",), CONSENT),
    **dict.fromkeys(
        ("place", "mark", "clearance", "projection", "light", "ultraviolet", "fading", "gives-off"), FUNCTION
    ),
    **dict.fromkeys(("tightening", "locking", "order", "condensing"), FUNCTION),
}
"""Name of a question -> what is at stake."""


BY_WHAT = {"reading.": "the air", "log.": "the air", "zone.": "zones"}
"""What many things look at: they are asked what turns on it again without the rest."""


def _together(question: Question) -> str:
    """What a question is about, what is at stake in it: what turns on the air or on zones stands by itself."""
    turning = (by for start, by in BY_WHAT.items() if any(name.startswith(start) for name in question.reads))
    return ", by ".join((AT_STAKE[question.name], *dict.fromkeys(turning)))


BY_STAKE: Mapping[str, Mapping[str, tuple[Question, ...]]] = {
    kind: {
        about: tuple(question for question in questions if _together(question) == about)
        for about in dict.fromkeys(map(_together, questions))
    }
    for kind, questions in OF_KIND.items()
}
"""Kind -> what is at stake -> the questions about it, which are asked again together."""
