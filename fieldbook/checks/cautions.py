"""The usual cautions, in plain words, and which of them a piece of work calls for.

The words are our own and replace no local code, no consent and no licensed trade. A caution is
left out only where a stated fact rules it out: what is not known counts as if it were so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from .limits import within

# kg. Above it the load path goes to an engineer whatever the figures say: common practice, no source.
ENGINEER_MASS_KG = 20.0
# mm above the floor. From here a thing that falls meets a head: common practice, no source.
OVERHEAD_UNDERSIDE_MM = 1800.0
# kg. Smallest figure of the lifting filter in HSE INDG143 (rev4), figure 1.
LIFTING_MASS_KG = 3.0
# What every verdict on a load says at its end.
LEFT_OUT_OF_LOADS = (
    "Left out: fatigue, impact, an unknown substrate and the true strength of old fabric. Anything overhead, "
    f"above {ENGINEER_MASS_KG:g} kg, or that people can climb or lean on goes to an engineer."
)
HEAVIEST_KG = 100_000.0
HIGHEST_MM = 100_000.0


@dataclass(frozen=True)
class Caution:
    """One caution: the hazard it is about, a heading, what can hurt, and to whom it is left."""

    key: str
    title: str
    text: str
    left_to: str


CAUTIONS: Mapping[str, Caution] = {
    caution.key: caution
    for caution in (
        Caution(
            "loads",
            "Loads and fixings",
            "The load figures are for a still load on sound material. They leave out fatigue, shaking and impact, "
            "a substrate nobody has opened, and the true strength of old fabric, which only a test on the spot "
            "shows. Where the keeper agrees to it, prove each fixing by a pull before anything hangs from it.",
            f"Above {ENGINEER_MASS_KG:g} kg, or wherever a failure could hurt someone, a structural engineer "
            "decides, under the local building code.",
        ),
        Caution(
            "overhead work",
            "Things above people",
            f"What hangs with its underside {OVERHEAD_UNDERSIDE_MM:g} mm or more above the floor falls on heads. Give "
            "it a second, independent hold, keep people out from under it while it goes up, and work from a "
            "platform or tower rather than a ladder.",
            "A structural engineer decides on the fixings; the local rules for work at height decide how to get there.",
        ),
        Caution(
            "leaning or climbing",
            "What people can climb on or lean on",
            "Anything within reach is leaned on, pulled at, sat on and climbed by someone, sooner or later, with a "
            "person's whole weight. These checks do not show that a fitting withstands it.",
            "A structural engineer decides, under the local code for barriers and handrails.",
        ),
        Caution(
            "lifting",
            "Lifting and carrying",
            "The lifting guideline is a filter for occasional lifts by fit people in good posture; it is no safe "
            "limit. Grip, reach, stairs, twisting and repeated lifts all lower it. Think the lift through first, "
            "and have one person more than it takes.",
            "Whoever is in charge of the work assesses the lift under the local rules for manual handling.",
        ),
        Caution(
            "dust",
            "Dust",
            "Drilling, cutting and sanding stone, brick, mortar, plaster and wood sets free dust that scars lungs, "
            "silica above all. Take it away at the tool, damp where the fabric allows, wear a fitted mask of the "
            "right class, and do not sweep dry.",
            "Local limits for dust at work apply.",
        ),
        Caution(
            "old lead paint",
            "Old paint with lead",
            "Paint on old wood, iron and plaster is taken to hold lead until a test shows none. Do not sand dry, "
            "burn or scrape it; keep dust and flakes out of food, clothes and the homes of children.",
            "Testing and removal go by the local rules for lead, where needed by a licensed firm.",
        ),
        Caution(
            "asbestos",
            "Asbestos",
            "Boards, pipe lagging, floor tiles, textured coats, ropes and seals of the twentieth century can "
            "hold asbestos, in an old building too. Ask for the asbestos register first. Where there is doubt, do "
            "not drill, cut, break or brush: stop, and keep others away.",
            "Sampling and removal are for a licensed surveyor and a licensed firm.",
        ),
        Caution(
            "hidden services",
            "Hidden cables and pipes",
            "Cables, gas, water and heating run where no drawing shows them. Ask, trace from what is visible, use a "
            "detector and do not trust it alone, and have the supplies off before a hole is made.",
            "Work on any service found is for the licensed trade.",
        ),
        Caution(
            "escape route",
            "Escape routes",
            "A fitting may not narrow a way out, hide a sign, a call point or an extinguisher, hold a door from "
            "opening or closing, or add what burns along the route. The clearance figures here do not show that a "
            "route suffices.",
            "The person responsible for fire safety and the local fire code decide.",
        ),
        Caution(
            "electricity",
            "Electricity",
            "Lamps, their leads and drivers, and metal fittings near them can shock and can start a fire. The checks "
            "here look at weight and light, not at wiring, earthing or heat.",
            "Connection, earthing and testing are for a licensed electrician under the local wiring rules.",
        ),
        Caution(
            "solvents and fumes",
            "Solvents and fumes",
            "Paints, varnishes, strippers, adhesives and cleaners give off vapour that dulls the mind, harms lungs and "
            "skin, and catches fire from a spark or a pilot light. Read the safety data sheet, open windows, keep "
            "flames and heaters away, wear the gloves and the mask it names. Rags soaked in drying oil heat up by "
            "themselves: spread them flat outdoors or keep them under water in a closed tin.",
            "The safety data sheet and the local rules for hazardous substances decide; the keeper is asked first.",
        ),
    )
}


def applying(
    *,
    mass_kg: float | None = None,
    underside_mm: float | None = None,
    within_reach: bool | None = None,
    makes_holes: bool | None = None,
    disturbs_old_paint: bool | None = None,
    powered: bool | None = None,
    on_a_route: bool | None = None,
    uses_solvents: bool | None = None,
) -> tuple[Caution, ...]:
    """The cautions that a piece of work calls for, in the order of `CAUTIONS`.

    mass_kg             mass of the heaviest piece handled or hung, kg, 0 to 100 000
    underside_mm        height of its underside above the floor, mm, 0 to 100 000
    within_reach        whether a person can climb, sit, pull or lean on it
    makes_holes         whether anything is drilled, cut or sanded in the building
    disturbs_old_paint  whether old paint is drilled, rubbed, clamped or taken off
    powered             whether it has a lamp, a lead or any other electrical part
    on_a_route          whether it stands along a way people use to get out
    uses_solvents       whether anything is painted, oiled, glued or cleaned with more than water
    returns             cautions; None for a fact means not known, and then its caution is among them

    Source: common practice, no source; the smallest lifting figure from HSE INDG143 (rev4), figure 1.
    Raises OutOfRange for a mass or a height outside the limits above.

    >>> [caution.key for caution in applying(mass_kg=2, underside_mm=900, within_reach=False, makes_holes=False,
    ...                                      disturbs_old_paint=False, powered=True, on_a_route=False,
    ...                                      uses_solvents=False)]
    ['loads', 'electricity']
    """
    if mass_kg is not None:
        within("mass_kg", mass_kg, 0, HEAVIEST_KG, "kg")
    if underside_mm is not None:
        within("underside_mm", underside_mm, 0, HIGHEST_MM, "mm")
    called_for = {
        "loads": True,
        "overhead work": underside_mm is None or underside_mm >= OVERHEAD_UNDERSIDE_MM,
        "leaning or climbing": within_reach,
        "lifting": mass_kg is None or mass_kg > LIFTING_MASS_KG,
        "dust": makes_holes,
        "old lead paint": disturbs_old_paint,
        "asbestos": makes_holes,
        "hidden services": makes_holes,
        "escape route": on_a_route,
        "electricity": powered,
        "solvents and fumes": uses_solvents,
    }
    return tuple(caution for key, caution in CAUTIONS.items() if called_for[key] is not False)


def needs_engineer(mass_kg: float | None, underside_mm: float | None, within_reach: bool | None) -> bool:
    """Whether an engineer decides on this fitting, whatever the load checks say.

    mass_kg       mass hung, kg, 0 to 100 000
    underside_mm  height of its underside above the floor, mm, 0 to 100 000
    within_reach  whether a person can climb, sit, pull or lean on it
    returns       True when any fact calls for it or is not known

    Source: common practice, no source.
    Raises OutOfRange for a mass or a height outside the limits above.

    >>> needs_engineer(25, 900, False)
    True
    """
    keys = {caution.key for caution in applying(mass_kg=mass_kg, underside_mm=underside_mm, within_reach=within_reach)}
    return mass_kg is None or mass_kg > ENGINEER_MASS_KG or bool(keys & {"overhead work", "leaning or climbing"})
