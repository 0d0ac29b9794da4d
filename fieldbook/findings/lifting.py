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
    hands = max(fitting.z_mm + fitting.height_mm / 2 - floor_below(asked.site, fitting), 0)
    reach, people = asked.need(fitting, "lift_reach"), asked.need(fitting, "people_to_remove")
    team = min(people, max(lifting.TEAM_SHARES))
    set_down = min(hands, fitting.height_mm / 2)
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
        },
    ),
)
