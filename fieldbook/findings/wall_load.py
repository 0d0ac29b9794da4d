"""Whether a thin partition carries all that hangs on it, on both of its sides together."""

from __future__ import annotations

from ..book.site import Item
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.face_load import GRAVITY_M_S2
from ..checks.verdict import Verdict, at_most
from . import named, walls
from .asking import LESS, MORE, NEITHER, Asked, NotEntered, Question
from .finding import WORST_FIRST, Blank, Outcome
from .load_paths import ITS_FIXINGS, THE_FLOOR, carried, mass_kg, people_pull_n, support_of
from .through import READS, other_side, thickness_mm
from .verdicts import does_not_apply

# A wall of brick or board no thicker is a partition; what is lighter no partition minds: common practice, no source.
PARTITION_MM = 150.0
LIGHT_N = 250.0
SOURCE = "Weights and people's pulls added, against the load agreed for the wall"
ALL_AT_ONCE = "People pull at all that hangs on it at once."
MAY_BE_BEHIND = "What hangs on {} may hang on its other side; with that it carries {:.1f} N."
Parts = tuple[tuple[str, float], ...]


def wall(asked: Asked, fitting: Item) -> Outcome:
    """All that hangs on both sides of the wall a fitting hangs on, against what that may carry."""
    site, face = asked.site, asked.site[fitting.face]
    if not walls.is_wall(face):
        return does_not_apply("wall", "It hangs on no wall.")
    if support_of(asked, fitting) == THE_FLOOR:
        return does_not_apply("wall", "The floor carries it.")
    other = other_side(site, face)
    sides = [face, *([other.face] if other else [])]
    agreed = [one for one in sides if one.load_limit_n is not None]
    if not agreed and (why := _no_partition(face, thickness_mm(site, face))):
        return does_not_apply("wall", why)
    parts = tuple(part for one in sides for part in _on(asked, one))
    whole = sum(force for _, force in parts)
    if not agreed and whole <= LIGHT_N:
        return does_not_apply("wall", f"No more than {LIGHT_N:g} N hang on it in all.")
    if not agreed and (why := _no_partition(face, _need_thickness(asked, face))):
        return does_not_apply("wall", why)
    least = min(agreed, key=lambda one: one.load_limit_n, default=face)
    limit = asked.need(least, "load_limit_n", whole, "N")
    said = asked.need(least, "load_said_by", whole, "N")
    verdict = _verdict(" and ".join(one.called for one in sides), parts, limit, said)
    if other is None:
        _ask_of_the_other_side(asked, face, verdict)
    return Outcome(verdict, least, (ALL_AT_ONCE,))


def _no_partition(face: Item, thick_mm: float | None) -> str:
    """Why a wall is no thin partition, for all that is entered; "" where it is or may be one."""
    if thick_mm is not None:
        return f"It is {thick_mm:g} mm thick, and no thin partition." if thick_mm > PARTITION_MM else ""
    if any(thickness is None and named.is_mineral(name) for name, thickness, _ in face.layers or ()):
        return "It is a wall of stone or brick of which nobody entered that it is thin."
    return ""


def _need_thickness(asked: Asked, face: Item) -> float:
    """How thick a wall is: asked for by what it is made of, where that is not entered."""
    thick = thickness_mm(asked.site, face)
    if thick is None:
        asked.need(face, "layers")
        thick = asked.need(face, "wall_mm")
    return thick


def _on(asked: Asked, face: Item) -> Parts:
    """What each fitting that a wall carries brings to it with all that hangs on it, with its mark, N."""
    return asked.once(("on the wall", face.id), lambda: tuple(_each(asked, face)))


def _each(asked: Asked, face: Item) -> list[tuple[str, float]]:
    site, found = asked.site, []
    fixed = (site.get(one.fitting) for one in site.fixings_on(face) if one.stands and one.fabric != "another fitting")
    there = dict.fromkeys([*site.of(face, "fitting"), *(one for one in fixed if one is not None)])
    for one in there:  # what is fixed to it comes with all its weight, whichever wall it is drawn on
        if one.stands and not site.goes_through(one) and (support := support_of(asked, one)) != THE_FLOOR:
            weight = mass_kg(asked, one) * GRAVITY_M_S2 if support == ITS_FIXINGS else 0.0
            people = sum(people_pull_n(asked, part) for part in carried(asked.site, one))
            found.append((one.called, weight + people))
    return found


def _ask_of_the_other_side(asked: Asked, face: Item, alone: Verdict) -> None:
    """Raise NotEntered where a wall of another room may be the other side, and what hangs there changes the word."""
    assert alone.figure is not None and alone.limit is not None
    others = [one for one in asked.site.all("face") if one.room != face.room and walls.is_wall(one)]
    for other in others:
        there = sum(force for _, force in _on(asked, other)) if other_side(asked.site, other) is None else 0.0
        word = at_most("wall", "", alone.figure + there, alone.limit, "N", SOURCE).word
        if WORST_FIRST.index(word) < WORST_FIRST.index(alone.word):
            why = MAY_BE_BEHIND.format(other.called, alone.figure + there)
            raise NotEntered(Blank(face, "behind"), alone.figure, "N", why)


def _verdict(called: str, parts: Parts, limit: float, said: str) -> Verdict:
    return at_most(
        "wall",
        f"All that hangs on {called}",
        sum(force for _, force in parts),
        limit,
        "N",
        SOURCE,
        after=f"Stated by: {said}. {LEFT_OUT_OF_LOADS}",
        working=tuple((mark, f"{force:.1f} N") for mark, force in parts),
    )


QUESTIONS = (
    Question(
        "wall",
        "fitting",
        "Does a thin wall carry all that hangs on its two sides?",
        wall,
        READS
        | {
            "face.load_limit_n": LESS,
            "face.load_said_by": NEITHER,
            "face.sort": NEITHER,
            "face.slope_deg": NEITHER,
            "fitting.mass_loaded_kg": MORE,
            "fitting.pull_n": MORE,
            "fitting.climbable": MORE,
            "fitting.support": NEITHER,
            "fitting.hangs_on": NEITHER,
            "fitting.state": NEITHER,
            "fitting.z_mm": NEITHER,
            "fitting.x_mm": NEITHER,
            "fitting.width_mm": NEITHER,
            "fitting.height_mm": NEITHER,
            "fixing.state": NEITHER,
            "fixing.fabric": NEITHER,
        },
    ),
)
