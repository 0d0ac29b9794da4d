"""Glass that hangs over people or that they can fall against: whether it breaks safely."""

from __future__ import annotations

from ..book.site import Item
from ..checks.glazing import glazing_verdict
from . import geometry
from .asking import NEITHER, Asked, Question
from .finding import Outcome
from .verdicts import does_not_apply

NO_GLASS = does_not_apply("glass", "It has no glass.")
# What hangs higher can fall on people but is out of their way: common practice, no source.
REACH_MM = 2000.0
# A pane that leans over further is overhead glazing: BS 5516-2:2004, sloping overhead glazing (from memory).
LEANS_DEG = 15.0
OVERHEAD = frozenset(("ceiling", "soffit"))
# The least class that goes by each name, as EN 12600 writes it: toughened to EN 12150-1, laminated to EN 14449
# (second hand). Other glass is plain glass.
CLASSES = {"toughened": "3(C)3", "laminated": "3(B)3", "other glass": "none"}
MARKED = "The glass is what its mark in the corner says; look for it."
HELD = "How the pane is held, its size and its load are left out; ask whoever made it, and an engineer overhead."


def breaking(asked: Asked, fitting: Item) -> Outcome:
    """The glass of a fitting, where it is."""
    glass = asked.need(fitting, "glass")
    if glass == "none":
        return NO_GLASS
    overhead = _leans_over(asked, fitting) or _underside(asked, fitting) >= REACH_MM
    verdict = glazing_verdict(overhead, not overhead, CLASSES[glass])
    if verdict is None:
        raise AssertionError("glass is overhead or within reach")
    return Outcome(verdict, assumed=(MARKED,), left_out=(HELD,))


def _leans_over(asked: Asked, fitting: Item) -> bool:
    face = asked.site[fitting.face]
    if face.sort == "other" or face.slope_deg is not None:
        return bool(asked.need(face, "slope_deg") > LEANS_DEG)
    return face.sort in OVERHEAD


def _underside(asked: Asked, fitting: Item) -> float:
    """Height of its lower edge above the floor where that is lowest, mm."""
    return fitting.z_mm - min(z for _, z in geometry.floor_of(asked.site[fitting.face]))


QUESTIONS = (
    Question(
        "glass",
        "fitting",
        "Does its glass break safely, over people and within their reach?",
        breaking,
        dict.fromkeys(
            (
                *("fitting.glass", "fitting.z_mm", "face.sort", "face.slope_deg"),
                *("face.floor", "face.left_mm", "face.bottom_mm"),
            ),
            NEITHER,
        ),
    ),
)
