"""Single fasteners: what screws, nails and bolts hold in wood and in steel, and how far they stay from edges."""

from __future__ import annotations

from typing import Any

from ..checks import (
    bolt,
    bolt_class,
    timber_dowel,
    timber_pull,
    timber_spacing,
)
from ..checks.timber_design import LOAD_HIGH_N
from ..checks.timber_dowel import BOLT_HIGH_MM, DENSITY_HIGH, DENSITY_LOW, LENGTH_HIGH_MM, THINNEST_MM
from ..errors import WrongUse
from ..model.description import choice, line
from ..model.fields import Field
from ..model.terms import Term
from .description import Calculation, Result, missing, mm, number, whole, yes_no

DENSITY_HELP = "characteristic, as 350 for C24 of EN 338; see the materials"
SERVICE_HELP = "1 heated indoors, 2 under a roof but damp at times, 3 in the open"
STRENGTH = (timber_dowel.STRENGTH_LOW_N_MM2, timber_dowel.STRENGTH_HIGH_N_MM2)


def density(name: str = "density_kg_m3", label: str = "Density of the wood", **more: Any) -> Field:
    more.setdefault("help", DENSITY_HELP)
    return number(name, label, "kg/m³", DENSITY_LOW, DENSITY_HIGH, **more)


def loads(what: str, group: str = "What it has to hold") -> tuple[Field, ...]:
    return (
        number("permanent_n", f"{what} for good", "N", 0, LOAD_HIGH_N, group=group),
        number("people_n", f"{what} by people", "N", 0, LOAD_HIGH_N, group=group, help="what they add"),
        whole("service_class", "Service class", 1, 3, group=group, help=SERVICE_HELP),
    )


def _screw_pull(
    diameter_mm: float,
    thread_mm: float,
    density_kg_m3: float,
    angle_deg: float = 90,
    core_mm: float | None = None,
    declared_n_mm2: float | None = None,
    declared_head_n_mm2: float | None = None,
    declared_density_kg_m3: float | None = None,
    head_mm: float | None = None,
    strength_n_mm2: float | None = None,
    count: int = 1,
    permanent_n: float | None = None,
    people_n: float = 0,
    service_class: int | None = None,
) -> Result:
    counted = timber_pull.counted_thread_mm(thread_mm, diameter_mm)
    strength, head_strength, source = _strengths(
        diameter_mm, counted, density_kg_m3, core_mm, declared_n_mm2, declared_head_n_mm2, declared_density_kg_m3
    )
    parts = {"withdrawal_n": timber_pull.withdrawal_n(strength, diameter_mm, counted, angle_deg)}
    if head_mm is not None:
        if head_strength is None:
            raise missing("declared_head_n_mm2", "Give the head strength the maker declares, or leave the head out.")
        parts["head_n"] = timber_pull.head_n(head_strength, head_mm)
    if strength_n_mm2 is not None:
        if core_mm is None:
            raise missing("core_mm")
        parts["metal_n"] = timber_pull.core_n(core_mm, strength_n_mm2)
    weakest = min(parts.values())
    figures = {"strength_n_mm2": strength, "counted_thread_mm": counted, **parts, "characteristic_n": weakest}
    verdict = None
    if permanent_n is not None:
        if service_class is None:
            raise missing("service_class")
        verdict = timber_pull.verdict(
            weakest, permanent_n, people_n, service_class, thread_mm=thread_mm, diameter_mm=diameter_mm,
            end_grain=False, count=count, strength_source=source,
        )  # fmt: skip
    return Result(figures | {"left_out": timber_pull.LEFT_OUT}, (timber_pull.SOURCE, source), verdict)


def _strengths(
    diameter_mm: float,
    counted_mm: float,
    density: float,
    core_mm: float | None,
    declared: float | None,
    declared_head: float | None,
    declared_density: float | None,
) -> tuple[float, float | None, str]:
    """Strength of thread and head, N/mm², and where they come from: declared, by rule, or as of a plain wood screw."""
    plain, plain_head = None, None
    if diameter_mm >= timber_pull.WOOD_SCREW_LOW_MM:
        plain, plain_head = timber_pull.wood_screw_n_mm2(diameter_mm, density)
    if declared is not None:
        if declared_density is None:
            raise missing("declared_density_kg_m3")
        head = declared_head and timber_pull.declared_n_mm2(declared_head, declared_density, density)
        strength = timber_pull.declared_n_mm2(declared, declared_density, density)
        return strength, head, "strength as its maker declares it"
    if core_mm is not None and counted_mm and diameter_mm >= timber_pull.RULE_LOW_MM:
        rule = timber_pull.parameter_n_mm2(diameter_mm, core_mm, counted_mm, density)
        return rule, plain_head, timber_pull.RULE_SOURCE
    if plain is None:
        reason = f"A screw of {diameter_mm:g} mm is in no table."
        raise WrongUse(reason, "Give the strength its maker declares.", field="declared_n_mm2")
    return plain, plain_head, timber_pull.WOOD_SCREW_SOURCE


SCREW_PULL = Calculation(
    "screw-pull",
    "What a screw in wood holds when it is pulled",
    "What a screw holds that is pulled straight out of wood, by design rules, with a finding on the pull.",
    (
        mm("diameter_mm", "Diameter over the thread", timber_pull.DIAMETER_LOW_MM, timber_pull.DIAMETER_HIGH_MM,
           required=True),
        mm("thread_mm", "Thread in the wood that holds", 0, LENGTH_HIGH_MM, help="point and all", required=True),
        density(required=True),
        number("angle_deg", "Between screw and grain", "°", timber_pull.LEAST_ANGLE_DEG, 90, help="empty: 90"),
        mm("core_mm", "Core of the thread", 1, timber_pull.DIAMETER_HIGH_MM,
           help="with it a screw of 6 to 12 mm goes by the rule of the standard"),
        number("declared_n_mm2", "Pull-out strength", "N/mm²", 0.1, 100, group="As its maker declares"),
        number("declared_head_n_mm2", "Head strength", "N/mm²", 0.1, 100, group="As its maker declares"),
        density("declared_density_kg_m3", "Declared for wood of", help="", group="As its maker declares"),
        mm("head_mm", "Head or washer", 3, 100, group="What else may give"),
        number("strength_n_mm2", "Tensile strength of the metal", "N/mm²", *STRENGTH, group="What else may give"),
        whole("count", "Screws pulled together", 1, 1000, group="What it has to hold"),
        *loads("Pull"),
    ),
    {"diameter_mm": 5, "thread_mm": 38, "density_kg_m3": 350, "permanent_n": 120, "people_n": 150, "service_class": 2},
    _screw_pull,
)  # fmt: skip


def _bolt(
    metal: str,
    diameter_mm: float,
    in_thread: bool = True,
    countersunk: bool = False,
    shear_permanent_n: float | None = None,
    shear_people_n: float = 0,
    pull_permanent_n: float | None = None,
    pull_people_n: float = 0,
) -> Result:
    of = bolt_class.metal(metal)
    shear = bolt.shear_n(diameter_mm, of, in_thread)
    tension = bolt.tension_n(diameter_mm, of, countersunk)
    figures = {"shear_n": shear, "tension_n": tension, "stress_area_mm2": bolt_class.stress_area_mm2(diameter_mm)}
    verdict = None
    if shear_permanent_n is not None or pull_permanent_n is not None:
        loads = ((shear_permanent_n or 0, shear_people_n), (pull_permanent_n or 0, pull_people_n))
        verdict = bolt.verdict_on_both(*loads, shear, tension)
    return Result(figures | {"left_out": bolt.LEFT_OUT}, (bolt.SOURCE,), verdict)


BOLT = Calculation(
    "bolt",
    "What a steel bolt carries",
    "Shear and pull that one bolt, machine screw or rod of steel carries, with a finding on both together.",
    (
        line("metal", "Class on the head", required=True, help="as 4.6, 8.8 or A4-70"),
        mm("diameter_mm", "Diameter", 3, 20, required=True, help="coarse thread"),
        yes_no("in_thread", "The thread lies where it is sheared", help="empty: yes, the weaker"),
        yes_no("countersunk", "Its head is countersunk"),
        number("shear_permanent_n", "Shear for good", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("shear_people_n", "Shear by people", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("pull_permanent_n", "Pull for good", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
        number("pull_people_n", "Pull by people", "N", 0, LOAD_HIGH_N, group="What it has to hold"),
    ),
    {"metal": "A2-70", "diameter_mm": 6, "shear_permanent_n": 240, "pull_permanent_n": 180, "pull_people_n": 300},
    _bolt,
)  # fmt: skip

MEASURED = {
    "along": "To the next along the grain",
    "across": "To the next across the grain",
    "loaded_end": "To the end it is pushed towards",
    "unloaded_end": "To the end it is pushed away from",
    "loaded_edge": "To the edge it is pushed towards",
    "unloaded_edge": "To the edge it is pushed away from",
}


def _spacing(
    sort: str,
    diameter_mm: float,
    density_kg_m3: float,
    predrilled: bool,
    angle_deg: float = 90,
    wood: str = "softwood",
    steel_plate: bool = False,
    pulled: bool = False,
    pushed: bool = True,
    **measured: float,
) -> Result:
    least = timber_spacing.required_mm(
        sort, diameter_mm, density_kg_m3, angle_deg, predrilled=predrilled, steel_plate=steel_plate
    )._asdict()
    if not pushed:
        least = timber_spacing.not_pushed(least)
    if pulled:
        least = timber_spacing.also_pulled(least, diameter_mm)
    figures: dict[str, Any] = {f"{name}_mm": value for name, value in least.items()}
    figures["needs_drilling"] = timber_spacing.needs_drilling(sort, diameter_mm, density_kg_m3, wood)
    given = {name: measured[f"{name}_measured_mm"] for name in MEASURED if f"{name}_measured_mm" in measured}
    verdict = timber_spacing.verdict(least, given) if given else None
    return Result(figures, (timber_spacing.SOURCE,), verdict)


SPACING = Calculation(
    "spacing",
    "Distance of nails and screws from edges and each other",
    "How far nails, screws and bolts stay from edge, end and each other in wood, with a finding on what is measured.",
    (
        choice("sort", "Fastener", *(sort for sort in timber_dowel.SORTS if sort != "dowel"), required=True),
        mm("diameter_mm", "Diameter", THINNEST_MM, BOLT_HIGH_MM, help="of a screw over its thread", required=True),
        density(required=True),
        yes_no("predrilled", Term.PILOT_HOLE, required=True),
        number("angle_deg", "Between load and grain", "°", 0, 90, help="empty: 90"),
        choice("wood", "Wood", *timber_dowel.WOODS, help="empty: softwood"),
        yes_no("steel_plate", "What it holds is a steel plate"),
        yes_no("pulled", "It is a screw that is pulled as well"),
        yes_no("pushed", "A load pushes it sideways", help="empty: yes; overhead it is only pulled"),
        *(mm(f"{name}_measured_mm", label, 0, 100_000, group="Measured") for name, label in MEASURED.items()),
    ),
    {"sort": "screw", "diameter_mm": 5, "density_kg_m3": 350, "predrilled": False, "angle_deg": 90,
     "loaded_edge_measured_mm": 55, "unloaded_end_measured_mm": 48},
    _spacing,
)  # fmt: skip

CALCULATIONS = (SCREW_PULL, BOLT, SPACING)
