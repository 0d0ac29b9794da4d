"""The calculations that do the figures of loads again by hand, with what each takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from ..checks import timber_dowel, timber_pull
from ..checks.standing import Push, StandingPart
from . import in_wood
from .finding import Recalculation
from .fixing_loads import RAIL_FIXINGS, Group
from .load_paths import Weight

Distances = Iterable[tuple[str, float]]

# So thin a plate holds no head straight, as is taken for granted of the part in front.
THIN_PLATE_MM = 0.5


def pull_in_wood(one: in_wood.Fastener, lasting_n: float, people_n: float) -> Recalculation | None:
    """The pull on a screw; None for what no calculation takes: other fasteners, end grain, a thicker screw."""
    if one.sort != "screw" or one.wood.end_grain or one.diameter_mm > timber_pull.RULE_HIGH_MM:
        return None
    given: dict[str, Any] = {
        "diameter_mm": one.diameter_mm,
        "thread_mm": one.wood.thread_mm,
        "density_kg_m3": one.wood.density_kg_m3,
        "core_mm": in_wood.CORE_SHARE * one.diameter_mm,
        "strength_n_mm2": in_wood.SOFT_N_MM2,
        "count": one.together,
    }
    return Recalculation("screw-pull", given | _loads(one, lasting_n, people_n))


def shear_in_wood(one: in_wood.Fastener, lasting_n: float, people_n: float) -> Recalculation | None:
    """The sideways load on a fastener; None where too little of it stands in the wood."""
    wood = one.wood
    stands_mm = wood.length_mm if one.sort == "smooth nail" else wood.thread_mm
    if stands_mm < timber_dowel.least_embedment_mm(one.sort, one.diameter_mm):
        return None
    given: dict[str, Any] = {
        "sort": one.sort,
        "diameter_mm": in_wood.effective_mm(one),
        "strength_n_mm2": in_wood.metal_n_mm2(one),
        "density_kg_m3": wood.density_kg_m3,
        "held_mm": max(1.0, wood.length_mm),
        "predrilled": one.predrilled,
        "wood": wood.kind,
        "end_grain": wood.end_grain,
    }
    front = {"gap_mm": one.arm_mm} if wood.gap_mm > 0 else {"plate_mm": THIN_PLATE_MM}
    return Recalculation("shear", given | front | _loads(one, lasting_n, people_n))


def both_in_wood(one: in_wood.Fastener, pulls_n: tuple[float, float], shears_n: tuple[float, float]) -> Recalculation:
    """Pull and sideways load at once on a fastener, each for good and by people."""
    given: dict[str, Any] = {"sort": one.sort, "service_class": one.wood.service_class}
    given |= {"pull_holds_n": in_wood.together_n(one), "shear_holds_n": in_wood.shear_mode(one).load_n}
    given |= {"pull_permanent_n": pulls_n[0], "pull_people_n": pulls_n[1], "touching": one.wood.gap_mm == 0}
    return Recalculation("pull-with-shear", given | {"shear_permanent_n": shears_n[0], "shear_people_n": shears_n[1]})


def spacing(
    wood: Mapping[str, Any], drilled: bool, angle_deg: float, pushed: bool, measured: Distances
) -> Recalculation:
    """How far a fastener stays from edge, end and the next; a screw is pulled as well.

    wood    sort, diameter and density, as the calculation calls them
    pushed  whether a load pushes it down, as it does not overhead
    """
    given = {**wood, "predrilled": drilled, "angle_deg": angle_deg, "pulled": wood["sort"] == "screw"}
    given |= {} if pushed else {"pushed": False}
    return Recalculation("spacing", given | {f"{name}_measured_mm": mm for name, mm in measured})


def carrier(forces_n: Iterable[float], limit_n: float) -> Recalculation:
    """All that uses a hold, a board or a timber."""
    return Recalculation("carrier", {"forces_n": list(forces_n), "limit_n": limit_n})


def hole_side(shear_n: float, diameter_mm: float, length_mm: float, bearing_n_mm2: float) -> Recalculation:
    """What presses on the side of a hole in masonry."""
    given = {"shear_n": shear_n, "diameter_mm": diameter_mm, "length_mm": length_mm, "bearing_n_mm2": bearing_n_mm2}
    return Recalculation("hole-side", given)


def floor(mass_kg: float, wide_mm: float, deep_mm: float, limit_kn_m2: float) -> Recalculation:
    """What stands on a floor."""
    given = {"mass_kg": mass_kg, "wide_mm": wide_mm, "deep_mm": deep_mm, "limit_kn_m2": limit_kn_m2}
    return Recalculation("floor-load", given)


def _loads(one: in_wood.Fastener, lasting_n: float, people_n: float) -> dict[str, Any]:
    return {"permanent_n": lasting_n, "people_n": people_n, "service_class": one.wood.service_class}


def bolt(grade: str, diameter_mm: float, shears_n: tuple[float, float], pulls_n: tuple[float, float]) -> Recalculation:
    """What a bolt of steel carries, for good and by people; its head countersunk."""
    given: dict[str, Any] = {"metal": grade, "diameter_mm": diameter_mm, "countersunk": True}
    given |= {"shear_permanent_n": shears_n[0], "shear_people_n": shears_n[1]}
    return Recalculation("bolt", given | {"pull_permanent_n": pulls_n[0], "pull_people_n": pulls_n[1]})


def load(group: Group, weight: Weight, corner: tuple[float, float], slope_deg: float) -> Recalculation | None:
    """How the weight of one thing goes over its fixings; None where they are a rail, some of them give way, or its back
    is not told.
    """
    wide, high = (len({getattr(one, name) for one in group.fixings}) for name in ("x_mm", "z_mm"))
    alike = len({one.size for one in group.fixings}) == 1
    if group.bears is None or max(wide, high) >= RAIL_FIXINGS or not alike:
        return None
    x, z, out = weight.at_mm
    given: dict[str, Any] = {
        "fixings": [{"x_mm": one.x_mm, "z_mm": one.z_mm, "holds": one.holds} for one in group.fixings],
        "mass_kg": weight.mass_kg,
        "centre_mm": [x - corner[0], z - corner[1], out],
        "slope_deg": slope_deg,
        "pad_mm2": group.pad_mm2,
    }
    return Recalculation("plate-contact", given | ({"outline_mm": group.outline_mm} if group.bears else {}))


def tipping(
    feet_mm: tuple[tuple[float, float], ...],
    parts: tuple[StandingPart, ...],
    pushes: tuple[Push, ...],
    fall: float,
    friction: float | None = None,
) -> Recalculation:
    """What tips a standing thing; with a friction, whether it slides as well."""
    given: dict[str, Any] = {"feet_mm": feet_mm, "parts": parts, "pushes": pushes, "fall_mm_m": fall}
    given |= {} if friction is None else {"friction": friction}
    return Recalculation(
        "tipping",
        {name: [list(row) for row in rows] if isinstance(rows, tuple) else rows for name, rows in given.items()},
    )
