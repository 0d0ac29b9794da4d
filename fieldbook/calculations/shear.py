"""Screws, nails and bolts that are pushed sideways, in wood and in steel."""

from __future__ import annotations

from typing import Any

from ..checks import (
    timber_dowel,
    timber_gap,
    timber_shear,
)
from ..checks.timber_design import LOAD_HIGH_N
from ..checks.timber_dowel import BOLT_HIGH_MM, LENGTH_HIGH_MM, THINNEST_MM
from ..checks.timber_shear import Mode, WoodPart
from ..checks.verdict import Verdict
from ..model.description import choice
from ..model.terms import Term
from .description import Calculation, Result, missing, mm, number, yes_no
from .joints import STRENGTH, density, loads


def _shear(
    sort: str,
    diameter_mm: float,
    strength_n_mm2: float,
    density_kg_m3: float,
    held_mm: float,
    predrilled: bool,
    wood: str = "softwood",
    angle_deg: float = 90,
    front_mm: float | None = None,
    front_density_kg_m3: float | None = None,
    plate_mm: float | None = None,
    gap_mm: float = 0,
    pull_holds_n: float = 0,
    end_grain: bool = False,
    permanent_n: float | None = None,
    people_n: float = 0,
    service_class: int | None = None,
) -> Result:
    moment = timber_dowel.yield_moment_nmm(diameter_mm, strength_n_mm2, sort == "square nail")
    embedment = timber_dowel.embedment_n_mm2(sort, diameter_mm, density_kg_m3, angle_deg, wood, predrilled)
    holding = WoodPart(embedment, held_mm)
    if front_mm is not None:
        front_density = front_density_kg_m3 or density_kg_m3
        front = timber_dowel.embedment_n_mm2(sort, diameter_mm, front_density, angle_deg, wood, predrilled)
        mode, source = _between(WoodPart(front, front_mm), holding, diameter_mm, moment, gap_mm, sort, pull_holds_n)
    elif gap_mm:
        mode = min(timber_gap.standing_out(holding, diameter_mm, moment, gap_mm), key=lambda one: one.load_n)
        source = timber_gap.SOURCE
    elif plate_mm is not None:
        mode = timber_shear.plate_to_wood(holding, diameter_mm, moment, plate_mm, sort, pull_holds_n)
        source = timber_shear.SOURCE
    else:
        raise missing("front_mm", "Give the thickness of the wood in front, or that of a steel plate.")
    figures = {
        "embedment_strength_n_mm2": embedment,
        "yield_moment_nmm": moment,
        "gives_where": mode.name,
        "characteristic_n": mode.load_n,
        "left_out": timber_gap.LEFT_OUT if gap_mm else timber_shear.LEFT_OUT,
    }
    verdict = None
    if permanent_n is not None:
        if service_class is None:
            raise missing("service_class")
        lacking = max(timber_dowel.least_embedment_mm(sort, diameter_mm) - held_mm, 0)
        loads = (permanent_n, people_n, service_class)
        verdict = _shear_verdict(mode, loads, gap_mm, diameter_mm, lacking, end_grain)
    return Result(figures, (source, timber_dowel.SOURCE), verdict)


def _between(
    front: WoodPart, holding: WoodPart, diameter_mm: float, moment: float, gap_mm: float, sort: str, pull_n: float
) -> tuple[Mode, str]:
    if gap_mm:
        modes = timber_gap.between_woods(front, holding, diameter_mm, moment, gap_mm)
        return min(modes, key=lambda one: one.load_n), timber_gap.SOURCE
    modes = timber_shear.wood_to_wood(front, holding, diameter_mm, moment)
    return timber_shear.weakest(modes, sort, pull_n), timber_shear.SOURCE


def _shear_verdict(
    mode: Mode, loads: tuple[float, float, int], gap_mm: float, diameter_mm: float, lacking_mm: float, end_grain: bool
) -> Verdict:
    common: dict[str, Any] = {"gap_mm": gap_mm, "lacking_mm": lacking_mm, "end_grain": end_grain}
    if gap_mm:
        return timber_gap.verdict(mode, *loads, diameter_mm=diameter_mm, **common)
    return timber_shear.verdict(mode, *loads, **common)


SHEAR = Calculation(
    "shear",
    "What a nail, screw or bolt in wood carries sideways",
    "What a nail, screw or bolt in wood holds that is pushed sideways, also across a gap, with a finding on the load.",
    (
        choice("sort", "Fastener", *timber_dowel.SORTS, required=True),
        mm("diameter_mm", "Diameter", THINNEST_MM, BOLT_HIGH_MM, required=True,
           help="of a screw 1.1 times its core, unless its smooth shank reaches well into the wood that holds"),
        number("strength_n_mm2", "Tensile strength of the metal", "N/mm²", *STRENGTH, required=True),
        density(required=True),
        mm("held_mm", "Length in the wood that holds", 1, LENGTH_HIGH_MM, required=True),
        yes_no("predrilled", Term.PILOT_HOLE, required=True),
        choice("wood", "Wood", *timber_dowel.WOODS, help="empty: softwood"),
        number("angle_deg", "Between load and grain", "°", 0, 90, help="empty: 90"),
        mm("front_mm", "Thickness of the wood in front", 1, LENGTH_HIGH_MM, group="What it holds"),
        density("front_density_kg_m3", "Density of the wood in front", help="empty: the same", group="What it holds"),
        mm("plate_mm", "Or thickness of a steel plate in front", 0.5, 100, group="What it holds"),
        mm("gap_mm", "Gap between them", 0, timber_gap.GAP_HIGH_MM, group="What it holds",
           help="plaster, packers or air; alone, how far out of the wood the load hangs"),
        number("pull_holds_n", "Pull it would hold", "N", 0, LOAD_HIGH_N, group="What it holds",
               help="characteristic; empty where it is not known or is used already"),
        yes_no("end_grain", "It stands in end grain", group="What it holds"),
        *loads("Load"),
    ),
    {"sort": "screw", "diameter_mm": 3.5, "strength_n_mm2": 500, "density_kg_m3": 350, "held_mm": 40,
     "predrilled": False, "plate_mm": 3, "permanent_n": 90, "people_n": 100, "service_class": 1},
    _shear,
)  # fmt: skip


CALCULATIONS = (SHEAR,)
