"""What people lift when a fitting goes up or comes down."""

from __future__ import annotations

from dataclasses import replace

from ..book.site import Item, Site
from ..checks import lifting
from ..checks.clearance import highest
from . import geometry
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome, Recalculation

SET_DOWN = "It is set down on the floor below it and carried out on the level; steps and doors are judged on the spot."
FLOOR_LEVEL = "The floor is level with the lower edge of the face; nobody measured it."
LIFTERS = "women"  # the lower figures of the guideline: nobody knows who will take it down


def lift(asked: Asked, fitting: Item) -> Outcome:
    """A fitting's mass held against the least that the guideline allows on its way to the floor."""
    mass = asked.need(fitting, "mass_empty_kg")
    hands, half = _hands_mm(asked, fitting)
    reach, people = asked.need(fitting, "lift_reach"), asked.need(fitting, "people_to_remove")
    team = min(people, max(lifting.TEAM_SHARES))
    set_down = min(hands, half)
    zone = lifting.worst_zone(hands, set_down)
    verdict = lifting.verdict(mass, lifting.guideline_kg(zone, reach, LIFTERS), team)
    path = f"from {hands:.0f} mm to {set_down:.0f} mm: {zone} counts"
    where = (("hands above the floor", path), ("reach", reach), ("figures for", LIFTERS))
    given = {"mass_kg": mass, "hands_mm": [hands, set_down], "reach": reach, "lifters": LIFTERS, "team": team}
    return Outcome(
        replace(verdict, working=(*where, *verdict.working)),
        assumed=(
            SET_DOWN,
            *(() if asked.site[fitting.face].floor else (FLOOR_LEVEL,)),
            *((f"There is no figure for {people} people; three are counted.",) if people > team else ()),
        ),
        again=Recalculation("lifting", given),
    )


def _hands_mm(asked: Asked, fitting: Item) -> tuple[float, float]:
    """How high it is held while it comes off, and where hands are when it is set down, mm above the floor.

    What comes off a ceiling or soffit is held as high as that is, and set down at the worst as low as the floor.
    """
    face = asked.site[fitting.face]
    if geometry.overhead(face):
        above = geometry.above_floor(asked.site, face)
        return (asked.need(face, "above_floor_mm") if above is None else above), 0.0
    geometry.need_upright(face, "how high it is lifted")
    return max(fitting.z_mm + fitting.height_mm / 2 - floor_below(asked.site, fitting), 0), fitting.height_mm / 2


def floor_below(site: Site, fitting: Item) -> float:
    """The highest the floor comes below a fitting, as z on its face."""
    part = geometry.fitting_stretch(fitting)
    return highest(geometry.floor_of(site[fitting.face]), part.x_from, part.x_to)


QUESTIONS = (
    Question(
        "lifting",
        "fitting",
        "Can it be lifted down by those who are said to do it?",
        lift,
        {
            "fitting.mass_empty_kg": MORE,
            "fitting.lift_reach": NEITHER,
            "fitting.people_to_remove": LESS,
            "fitting.x_mm": NEITHER,
            "fitting.z_mm": NEITHER,
            "fitting.width_mm": NEITHER,
            "fitting.height_mm": NEITHER,
            "face.floor": NEITHER,
            "face.bottom_mm": NEITHER,
            "face.left_mm": NEITHER,
            "face.sort": NEITHER,
            "face.slope_deg": NEITHER,
            "face.above_floor_mm": NEITHER,
            "room.ceiling_mm": NEITHER,
        },
    ),
)
