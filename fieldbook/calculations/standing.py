"""Statics of what hangs and stands: pull from one-sided contact, one fixing lost, tipping and sliding."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from ..checks import face_load, fixing_forces, fixing_lost, standing
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.face_load import FORCE_HIGH_N, MASS_HIGH_KG, PLACE_HIGH_MM
from ..checks.fixing_forces import Carried, Contact, Fixing
from ..checks.plate_contact import PAD_MM2
from ..checks.verdict import Verdict, share_used
from ..model.fields import Field, Type
from .description import Calculation, Result, column, number, row, table, worst, yes_no

Row = tuple[float, ...]
PLACE = (-PLACE_HIGH_MM, PLACE_HIGH_MM)
X, Y, Z = (column(axis, axis, "mm", *PLACE) for axis in "xyz")


def _plate_contact(
    fixings: Sequence[Mapping[str, Any]],
    mass_kg: float,
    centre_mm: Row,
    slope_deg: float = 0,
    pull_n: float = 0,
    down_n: float = 0,
    outline_mm: Sequence[Row] = (),
    pads_mm: Sequence[Row] = (),
    pad_mm2: float = PAD_MM2,
    softness_mm2: float | None = None,
    strength_n: float | None = None,
    overhead: bool = False,
) -> Result:
    group = [Fixing(one["x_mm"], one["z_mm"], one["size"] or 1.0, one["holds"] is not False) for one in fixings]
    contact = Contact(outline_mm, pads_mm, pad_mm2)
    cases = _cases(mass_kg, centre_mm, slope_deg, pull_n, down_n, outline_mm or [(f.x_mm, f.z_mm) for f in group])

    def forces(part: Sequence[Fixing]) -> list[Carried]:
        return fixing_forces.worst([fixing_forces.carried(part, case, contact, softness_mm2) for case in cases])

    found = forces(group)
    figures: dict[str, Any] = {
        "shear_n": [each.shear_n for each in found],
        "pull_n": [each.pull_n for each in found],
        "left_out": LEFT_OUT_OF_LOADS,
    }
    if strength_n is None:
        return Result(figures, (fixing_forces.SOURCE,))

    def use(_: int, each: Carried) -> float:
        return each.force_n / strength_n

    hardest = max(found, key=lambda each: each.force_n)
    whole = _use_verdict("load", "What the hardest worked fixing uses of its strength", use(0, hardest))
    verdicts = [whole]
    if sum(fixing.holds for fixing in group) > 1:
        lost = fixing_lost.one_lost(group, forces, use)[0]
        figures |= {"worst_to_lose": lost.fixing + 1, "use_when_lost": _told(lost.use)}
        what = f"What the rest uses of its strength when fixing {lost.fixing + 1} lets go"
        verdicts.append(_use_verdict("one-lost", what, lost.use))
    figures["least_number"] = fixing_lost.least_number(group, forces, use, mass_kg, overhead)
    figures["verdicts"] = [verdict.as_dict() for verdict in verdicts]
    return Result(figures, (fixing_forces.SOURCE,), worst(verdicts))


def _cases(
    mass_kg: float, centre_mm: Row, slope_deg: float, pull_n: float, down_n: float, outline_mm: Sequence[Row]
) -> list[face_load.Resultant]:
    """What the weight comes to alone, and with each thing people do, one at a time."""
    weight = face_load.weight(mass_kg, centre_mm, slope_deg)
    people = face_load.people(outline_mm, max(2 * centre_mm[2], 0), pull_n, down_n, slope_deg)
    return [face_load.resultant(forces) for forces in ([weight], *([weight, one] for one in people))]


def _use_verdict(check: str, what: str, use: float) -> Verdict:
    beyond = f"{what}: many times all of it. Take stronger fixings, or more of them."
    return share_used(check, what, use, fixing_forces.SOURCE, beyond=beyond, standing=LEFT_OUT_OF_LOADS)


def _told(use: float) -> float | None:
    """A share as a figure; where nothing holds there is none."""
    return use if math.isfinite(use) else None


PLATE_CONTACT = Calculation(
    "plate-contact",
    "Load on each fixing of a thing that presses on the wall",
    "Shear and pull of each fixing of a rigid thing against a face that may lean; with a strength, one fixing lost.",
    (
        table("fixings", "Fixings", column("x_mm", "x", "mm", *PLACE), column("z_mm", "z", "mm", *PLACE),
              number("size", "size against the others", "", 1e-6, 1e6), yes_no("holds", "holds"),
              most=fixing_forces.FIXINGS_HIGH, required=True,
              help="one a line: x; z; size against the others; yes, or no for a wedge or prop"),
        number("mass_kg", "Mass", "kg", 0, MASS_HIGH_KG, required=True),
        row("centre_mm", "Centre of mass", X, Z, column("out", "out", "mm", *PLACE), required=True,
              help="x z out of the face"),
        number("slope_deg", "The face leans", "°", -90, 90, help="over whoever stands below: wall 0, ceiling 90"),
        number("pull_n", "Pull by people", "N", 0, FORCE_HIGH_N, help="straight out, at any corner"),
        number("down_n", "Lean by people", "N", 0, FORCE_HIGH_N, help="straight down on the front edge"),
        Field("outline_mm", "What lies on the face", Type.OUTLINE, unit="mm", columns=(X, Z), high=1_000,
              help="one corner a line: x z; empty: it bears at fixings and pads alone"),
        table("pads_mm", "Packers and feet", X, Z, help="one a line: x z"),
        number("pad_mm2", "Size of each", "mm²", 1, 1e6),
        number("softness_mm2", "A fixing’s stiffness over the ground’s", "mm²", fixing_forces.SOFTNESS_LOW_MM2,
               fixing_forces.SOFTNESS_HIGH_MM2, help="empty: the worst from hard to soft ground"),
        number("strength_n", "What one fixing holds", "N", 0.1, FORCE_HIGH_N, help="in any direction"),
        yes_no("overhead", "It hangs above people"),
    ),
    {"fixings": [{"x_mm": 50, "z_mm": 30}, {"x_mm": 750, "z_mm": 30}, {"x_mm": 50, "z_mm": 470},
                 {"x_mm": 750, "z_mm": 470}], "mass_kg": 14, "centre_mm": [400, 250, 45], "pull_n": 150,
     "outline_mm": [[0, 0], [800, 0], [800, 500], [0, 500]], "strength_n": 400},
    _plate_contact,
)  # fmt: skip


def _tipping(
    feet_mm: Sequence[Row],
    parts: Sequence[Row],
    pushes: Sequence[Row] = (),
    fall_mm_m: float = 0,
    friction: float | None = None,
) -> Result:
    standing_parts = [standing.StandingPart(*part) for part in parts]
    people = [standing.Push(*push) for push in pushes]
    edge = standing.tipping(feet_mm, standing_parts, people, fall_mm_m)
    verdicts = [standing.tipping_verdict(edge)]
    figures: dict[str, Any] = {
        "edge_mm": edge.along_mm,
        "tipping_nmm": edge.tipping_nmm,
        "steadying_nmm": edge.steadying_nmm,
        "use": _told(edge.use),
    }
    if friction is not None:
        pushed, held = standing.sliding_n(standing_parts, people, friction, fall_mm_m)
        figures |= {"pushed_n": pushed, "friction_holds_n": held}
        verdicts.append(standing.sliding_verdict(pushed, held))
    figures["verdicts"] = [verdict.as_dict() for verdict in verdicts]
    return Result(figures, (standing.SOURCE,), worst(verdicts))


TIPPING = Calculation(
    "tipping",
    "Whether a standing thing tips or slides",
    "The edge a standing thing is nearest to tipping over, and with a friction whether it slides.",
    (
        table("feet_mm", "Feet", X, Y, least=3, most=standing.FEET_HIGH, help="one a line: x y on the floor",
              required=True),
        table("parts", "Parts that stand", column("kg", "mass", "kg", 0, MASS_HIGH_KG), X, Y,
              column("height", "height", "mm", *PLACE), required=True, help="one a line: mass, x y height of it"),
        table("pushes", "What people do", column("level", "level push", "N", 0, FORCE_HIGH_N),
              column("at", "at height", "mm", *PLACE), column("down", "weight put on", "N", 0, FORCE_HIGH_N), X, Y,
              help="one a line: level push N, its height mm, weight put on N, x y of that"),
        number("fall_mm_m", "The floor falls", "mm/m", 0, standing.FALL_HIGH_MM_M),
        number("friction", "Friction of the feet", "", 1e-6, standing.FRICTION_HIGH, help="the lowest met"),
    ),
    {"feet_mm": [[0, 0], [600, 0], [600, 450], [0, 450]], "parts": [[38, 300, 225, 620]],
     "pushes": [[120, 1100, 0, 0, 0]], "fall_mm_m": 6, "friction": 0.3},
    _tipping,
)  # fmt: skip

CALCULATIONS = (PLATE_CONTACT, TIPPING)
