"""What fittings and fixings do to the old fabric they touch or cover, by published rules or a test patch."""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item
from ..checks.verdict import Verdict, not_known
from . import ages, contact, covering, fabric, patches
from .acts import GLUED_ON, is_glued, joins_ours
from .asking import MORE, NEITHER, Asked, Question
from .finding import Outcome
from .verdicts import badness, does_not_apply

JOINS = does_not_apply("touch", "It touches another fitting, and nothing of the building.")
ON_LATER = does_not_apply("touch", "It touches later work, and no old fabric.")
YET_OLD = "It is said to go into later work, and reaches what is old there."
ALL_LATER = does_not_apply("touch", "All of the face is later work.")
NEITHER_TOUCHES = does_not_apply(
    "touch", "Nothing but its fixings touches the face, and it covers no part of an outer wall."
)
# What goes into a hole touches with its metal, whatever lies under its head.
IN_A_HOLE = frozenset(("wood screw", "coach screw", "machine screw", "bolt", "nail"))
BARE = frozenset(("none", "nothing", "no", "-"))
PAD_LININGS = ("none",)  # a pad sticks to what it lies on
GLUE = not_known(
    "touch",
    ("patch",),
    "No rule is published on what a glue leaves on old fabric or takes with it. Lay a test patch, or do without.",
    "no published source found",
)
SALTS = "Salts in the wall, and water that runs over it, are left out; look at what touches it at each visit."
COATED = "A coat of paint or limewash keeps nothing apart."


def of_fixing(asked: Asked, fixing: Item) -> Outcome:
    """The worst of what a fixing's lining, its metal and its glue do to each thing it touches."""
    if joins_ours(asked, fixing):
        return JOINS
    yet_old = ages.said_later_yet_old(asked, fixing)
    if fixing.fabric == "later work" and not yet_old:
        return ON_LATER._replace(assumed=ages.taken_at_its_word(asked.site, fixing))
    surfaces = fabric.touched(asked, fixing)
    worst = min(_of_contact(asked, fixing, surfaces), key=badness)
    assumed = (YET_OLD, COATED) if yet_old else (COATED,)
    return Outcome(worst, asked.site[fixing.face], assumed=assumed, left_out=(SALTS,))


def _of_contact(asked: Asked, fixing: Item, surfaces: tuple[str, ...]) -> Iterator[Verdict]:
    face = asked.site[fixing.face]
    if is_glued(asked, fixing):
        yield patches.settle(asked, face, asked.need(fixing, "material"), surfaces, GLUE)
    lining = lining_of(asked, fixing)
    bare = is_bare(lining)
    if not bare:
        yield contact.of(asked, face, lining, fabric.at_surface(asked, fixing))
    if bare or fixing.sort in IN_A_HOLE or fixing.hole != "none":
        yield contact.of(asked, face, asked.need(fixing, "material"), surfaces)


def lining_of(asked: Asked, fixing: Item) -> str:
    """What lies between a fixing and what it touches; raises NotEntered where nobody said."""
    lining: str = asked.need(fixing, "lining", tried=PAD_LININGS if fixing.sort == GLUED_ON else ())
    return lining


def is_bare(lining: str) -> bool:
    """Whether nothing lies between a fixing and what it touches."""
    return lining.strip().casefold() in BARE


def of_fitting(asked: Asked, fitting: Item) -> Outcome:
    """The worst of what the back of a fitting does to the surface it bears on, and to an outer wall it covers."""
    face = asked.site[fitting.face]
    if all(age == "later" for _, _, age in asked.need(face, "layers")):
        return ALL_LATER
    found = []
    if asked.need(fitting, "touches_face"):
        back = asked.need(fitting, "build_up")[0][0]
        verdict = contact.of(asked, face, back, fabric.behind(asked, fitting))
        found.append(Outcome(verdict, face, assumed=(COATED,), left_out=(SALTS,)))
    if covering.covers(asked, fitting):
        found.append(covering.of_wall(asked, fitting))
    return min(found, key=lambda one: badness(one.verdict), default=NEITHER_TOUCHES)


_ASKS = "Does what touches or covers old fabric leave it as it is?"
_READS = {
    **fabric.READS,
    **ages.READS,
    **contact.READS,
    **covering.READS,
    **dict.fromkeys(
        (
            *("fixing.fabric", "fixing.sort", "fixing.adhesive", "fixing.lining", "fixing.material"),
            *("fitting.touches_face", "fitting.x_mm", "fitting.z_mm"),
        ),
        NEITHER,
    ),
    "fixing.penetration_mm": MORE,
}

QUESTIONS = (
    Question("touch", "fitting", _ASKS, of_fitting, _READS),
    Question("touch", "fixing", _ASKS, of_fixing, _READS),
)
