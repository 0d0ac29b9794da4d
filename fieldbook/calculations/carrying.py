"""What carries: all that uses a hold or a board, a floor, and a fastener in wood pulled and pushed at once."""

from __future__ import annotations

from collections.abc import Sequence

from ..checks import floor_load, hanging_wire, hole_side, timber_combined, timber_dowel
from ..checks.face_load import FORCE_HIGH_N, MASS_HIGH_KG
from ..checks.timber_design import LOAD_HIGH_N
from ..checks.verdict import at_most
from ..model.description import choice
from .description import Calculation, Result, listed, mm, number, whole, yes_no

ADDED = "Forces added as if they pulled one way, against the load agreed"


def _carrier(forces_n: Sequence[float], limit_n: float) -> Result:
    whole_n = sum(forces_n)
    verdict = at_most("carrier", "The force from all that uses it", whole_n, limit_n, "N", ADDED)
    return Result({"force_n": whole_n}, (ADDED,), verdict)


CARRIER = Calculation(
    "carrier",
    "Load on one hole, board or timber",
    "All that uses one existing hole, board or timber, added up, N, with a finding on the load agreed for it.",
    (
        listed("forces_n", "Forces", "N", 0, FORCE_HIGH_N, required=True, help="of each fixing, one a line"),
        number("limit_n", "Load agreed", "N", 0, FORCE_HIGH_N, required=True),
    ),
    {"forces_n": [74, 118.5], "limit_n": 260},
    _carrier,
)


def _hole_side(shear_n: float, diameter_mm: float, length_mm: float, bearing_n_mm2: float) -> Result:
    verdict = hole_side.verdict(shear_n, diameter_mm, length_mm, bearing_n_mm2)
    return Result({"bears_n": verdict.limit}, (hole_side.SOURCE,), verdict)


HOLE_SIDE = Calculation(
    "hole-side",
    "Pressure on the side of a hole in masonry",
    "What a fixing that is pushed sideways presses on the side of its hole in masonry, N, with a finding.",
    (
        number("shear_n", "Sideways load", "N", 0, hole_side.FORCE_HIGH_N, required=True),
        mm("diameter_mm", "Diameter of the hole", 0, hole_side.DIAMETER_HIGH_MM, required=True),
        mm("length_mm", "Length in what bears", 0, hole_side.LENGTH_HIGH_MM, required=True,
           help="without the plaster in front"),
        number("bearing_n_mm2", "Bearing strength", "N/mm²", 0, hole_side.BEARING_HIGH_N_MM2, required=True),
    ),
    {"shear_n": 96, "diameter_mm": 7, "length_mm": 44, "bearing_n_mm2": 1.6},
    _hole_side,
)  # fmt: skip


def _floor(mass_kg: float, wide_mm: float, deep_mm: float, limit_kn_m2: float | None = None) -> Result:
    load = floor_load.area_load_kn_m2(mass_kg, wide_mm, deep_mm)
    figures = {"load_kn_m2": load}
    if limit_kn_m2 is None:
        return Result(figures, (floor_load.SOURCE,))
    verdict = floor_load.verdict("The load on the floor", load, limit_kn_m2, "kN/m²")
    return Result(figures, (floor_load.SOURCE,), verdict)


FLOOR = Calculation(
    "floor-load",
    "Load on the floor",
    "What a standing thing puts on the floor, kN/m², with a limit a finding.",
    (
        number("mass_kg", "Mass", "kg", 0, MASS_HIGH_KG, required=True, help="with its load"),
        mm("wide_mm", "Width of its base", floor_load.EXTENT_LOW_MM, floor_load.EXTENT_HIGH_MM, required=True),
        mm("deep_mm", "Depth of its base", floor_load.EXTENT_LOW_MM, floor_load.EXTENT_HIGH_MM, required=True),
        number("limit_kn_m2", "What the floor may carry", "kN/m²", 0, 1000),
    ),
    {"mass_kg": 86, "wide_mm": 920, "deep_mm": 410, "limit_kn_m2": 3},
    _floor,
)


def _together(
    sort: str,
    pull_holds_n: float,
    shear_holds_n: float,
    pull_permanent_n: float = 0,
    pull_people_n: float = 0,
    shear_permanent_n: float = 0,
    shear_people_n: float = 0,
    service_class: int = 3,
    touching: bool = False,
) -> Result:
    verdict = timber_combined.verdict(
        (pull_permanent_n, pull_people_n, pull_holds_n),
        (shear_permanent_n, shear_people_n, shear_holds_n),
        service_class,
        sort,
        touching=touching,
    )
    return Result({"use_pct": verdict.figure}, (timber_combined.SOURCE,), verdict)


TOGETHER = Calculation(
    "pull-with-shear",
    "Nail or screw in wood, pulled and pushed sideways at once",
    "A fastener in wood that is pulled and pushed sideways at once, by what it holds of each, with a finding.",
    (
        choice("sort", "Fastener", *timber_dowel.SORTS, required=True),
        number("pull_holds_n", "Pull it holds", "N", 0, LOAD_HIGH_N, required=True, help="characteristic"),
        number("shear_holds_n", "Sideways load it holds", "N", 0, LOAD_HIGH_N, required=True, help="characteristic"),
        number("pull_permanent_n", "Pull for good", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("pull_people_n", "Pull by people", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("shear_permanent_n", "Sideways for good", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("shear_people_n", "Sideways by people", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        whole("service_class", "Service class", 1, 3, help="1 indoors, 2 damp at times, 3 outdoors; empty: 3"),
        yes_no("touching", "The parts touch", help="empty: no; then shares are added"),
    ),
    {"sort": "screw", "pull_holds_n": 1900, "shear_holds_n": 1150, "pull_permanent_n": 210,
     "shear_permanent_n": 160, "shear_people_n": 90, "service_class": 2, "touching": True},
    _together,
)  # fmt: skip


def _hanging_wire(weight_n: float, off_plumb_deg: float) -> Result:
    given = weight_n, off_plumb_deg
    figures = {"tension_n": hanging_wire.tension_n(*given), "sideways_n": hanging_wire.sideways_n(*given)}
    return Result(figures, (hanging_wire.SOURCE,))


HANGING_WIRE = Calculation(
    "hanging-wire",
    "Pull of a slanting wire or strap",
    "What a wire that does not hang plumb pulls with: its tension, and how hard it pulls to the side, N.",
    (
        number("weight_n", "Weight on it", "N", 0, hanging_wire.FORCE_HIGH_N, required=True,
               help="its share of 9.81 times the mass"),
        number("off_plumb_deg", "Leans from the plumb", "°", 0, hanging_wire.MOST_DEG, required=True),
    ),
    {"weight_n": 88, "off_plumb_deg": 30},
    _hanging_wire,
)  # fmt: skip

CALCULATIONS = (CARRIER, HOLE_SIDE, FLOOR, TOGETHER, HANGING_WIRE)
