"""What a nail, screw or bolt meets in wood when it is pushed sideways: how hard the wood bears, when the metal yields.

Characteristic values. Does not cover staples, boards and panels, nor wood that is wet or decayed.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from ..errors import NotAChoice, shown
from .limits import within

SOURCE = "EN 1995-1-1:2004+A1:2008, 8.3.1, 8.5.1 and 8.7.1 (second hand)"

# Characteristic density of wood, kg/m³: from a little below EN 338 class C14 to above D70.
DENSITY_LOW, DENSITY_HIGH = 250.0, 1000.0
# Thickest shank the nail's rules hold for, and thickest bolt (8.3.1.1(5), 8.5.1.1(2)).
NAIL_HIGH_MM, BOLT_HIGH_MM = 8.0, 30.0
THINNEST_MM = 1.5
# A screw up to this effective diameter is reckoned as a nail, a thicker one as a bolt (8.7.1).
AS_NAIL_MM = 6.0
STRENGTH_LOW_N_MM2, STRENGTH_HIGH_N_MM2 = 300.0, 1500.0
LENGTH_HIGH_MM = 1000.0

# k90 = first + 0.015 d (8.33): how much softer the wood is across the grain.
WOODS: Mapping[str, float] = {"softwood": 1.35, "LVL": 1.30, "hardwood": 0.90}


class Sort(NamedTuple):
    """A sort of fastener: share of its resistance the rope effect may add (8.2.2(2)), and its least embedment in
    diameters for a sideways load (8.3.1.2, 8.7.2(3)); 0 for what goes right through."""

    rope_share: float
    embedment: float


SORTS: Mapping[str, Sort] = {
    "smooth nail": Sort(0.15, 8),
    "square nail": Sort(0.25, 8),
    "threaded nail": Sort(0.50, 6),
    "screw": Sort(1.0, 6),
    "bolt": Sort(0.25, 0),
    "dowel": Sort(0.0, 0),
}


def sort_named(sort: str) -> Sort:
    """The sort of fastener of that name.

    sort     one of SORTS
    returns  the sort, without unit

    Source: EN 1995-1-1:2004+A1:2008, 8.2.2(2), 8.3.1.2(1) and 8.7.2(3); 15 % and 50 % from memory.
    Raises NotAChoice for another sort.

    >>> sort_named("bolt").rope_share
    0.25
    """
    if sort not in SORTS:
        raise NotAChoice(f"sort is {shown(sort)}.", f"Choose one of: {', '.join(SORTS)}.", field="sort", value=sort)
    return SORTS[sort]


def least_embedment_mm(sort: str, diameter_mm: float) -> float:
    """How deep a fastener must stand in the wood that holds it, for the rules on a sideways load to hold.

    sort         one of SORTS
    diameter_mm  nominal diameter (of a screw: over the thread), mm, 1.5 to 30
    returns      mm; of a screw its thread; 0 for a bolt, which goes through

    Source: EN 1995-1-1:2004+A1:2008, 8.3.1.2(1), 8.7.2(3).
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> least_embedment_mm("screw", 5)
    30.0
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    return float(sort_named(sort).embedment * diameter_mm)


def effective_diameter_mm(shank_mm: float, root_mm: float, smooth_in_holding_mm: float) -> float:
    """The diameter a screw is reckoned with: its shank where that reaches well into the wood that holds, else its core.

    shank_mm              diameter of the smooth shank, mm, 1.5 to 30
    root_mm               diameter of the core in the thread, mm, 1 to 30
    smooth_in_holding_mm  length of smooth shank in the member that holds the point, mm, 0 to 1000
    returns               mm: the shank where 4 of its diameters stand there, else 1.1 cores (the shank at most)

    Source: EN 1995-1-1:2004+A1:2008, 8.7.1(2) and (3).
    Raises OutOfRange outside the limits.

    >>> round(effective_diameter_mm(5, 3.2, 0), 2)
    3.52
    """
    within("shank_mm", shank_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("root_mm", root_mm, 1, BOLT_HIGH_MM, "mm")
    within("smooth_in_holding_mm", smooth_in_holding_mm, 0, LENGTH_HIGH_MM, "mm")
    return shank_mm if smooth_in_holding_mm >= 4 * shank_mm else min(shank_mm, 1.1 * root_mm)


def yield_moment_nmm(diameter_mm: float, strength_n_mm2: float, square: bool = False) -> float:
    """Bending moment at which the metal gives.

    diameter_mm     of the shank, the effective one of a screw, or the side of a square nail, mm, 1.5 to 30
    strength_n_mm2  tensile strength of the metal, N/mm², 300 to 1500
    square          whether it is a square nail
    returns         characteristic yield moment, N·mm

    Source: EN 1995-1-1:2004+A1:2008, equations 8.14 (nails) and 8.30 (bolts, and screws by 8.7.1).
    Raises OutOfRange outside the limits.

    >>> round(yield_moment_nmm(10, 400), 1)
    47772.9
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("strength_n_mm2", strength_n_mm2, STRENGTH_LOW_N_MM2, STRENGTH_HIGH_N_MM2, "N/mm²")
    return (0.45 if square else 0.30) * strength_n_mm2 * diameter_mm**2.6


def nail_embedment_n_mm2(diameter_mm: float, density_kg_m3: float, predrilled: bool) -> float:
    """How hard wood bears against a nail or a thin screw, at any angle to the grain.

    diameter_mm    as for `yield_moment_nmm`, mm, 1.5 to 8
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000; above 500 only where predrilled
    predrilled     whether a hole was drilled for it
    returns        characteristic embedment strength, N/mm²

    Source: EN 1995-1-1:2004+A1:2008, equations 8.15 and 8.16; denser wood is predrilled by 8.3.1.1(2).
    Raises OutOfRange outside the limits.

    >>> round(nail_embedment_n_mm2(3.1, 350, False), 4)
    20.4396
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, NAIL_HIGH_MM, "mm")
    high = DENSITY_HIGH if predrilled else 500.0
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, high, "kg/m³", "Denser wood than 500 kg/m³ is predrilled.")
    return 0.082 * density_kg_m3 * ((1 - 0.01 * diameter_mm) if predrilled else diameter_mm**-0.3)


def bolt_embedment_n_mm2(diameter_mm: float, density_kg_m3: float, angle_deg: float, wood: str) -> float:
    """How hard wood bears against a bolt or a thick screw.

    diameter_mm    as for `yield_moment_nmm`, mm, 1.5 to 30
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000
    angle_deg      between the load and the grain, degrees, 0 to 90
    wood           "softwood", "hardwood" or "LVL"
    returns        characteristic embedment strength, N/mm²

    Source: EN 1995-1-1:2004+A1:2008, equations 8.31 to 8.33.
    Raises OutOfRange outside the limits, NotAChoice for another wood.

    >>> round(bolt_embedment_n_mm2(10, 350, 0, "softwood"), 2), round(bolt_embedment_n_mm2(10, 350, 90, "softwood"), 2)
    (25.83, 17.22)
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
    within("angle_deg", angle_deg, 0, 90, "°")
    if wood not in WOODS:
        raise NotAChoice(f"wood is {shown(wood)}.", f"Choose one of: {', '.join(WOODS)}.", field="wood", value=wood)
    along = 0.082 * (1 - 0.01 * diameter_mm) * density_kg_m3
    softer = WOODS[wood] + 0.015 * diameter_mm
    turned = math.radians(angle_deg)
    return along / (softer * math.sin(turned) ** 2 + math.cos(turned) ** 2)


def embedment_n_mm2(
    sort: str, diameter_mm: float, density_kg_m3: float, angle_deg: float, wood: str, predrilled: bool
) -> float:
    """How hard wood bears against a fastener of any sort: the rule for nails or for bolts, as it applies.

    sort           one of SORTS
    diameter_mm    of the shank, or the effective one of a screw, mm, 1.5 to 30
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000
    angle_deg      between the load and the grain, degrees, 0 to 90
    wood           "softwood", "hardwood" or "LVL"
    predrilled     whether a hole was drilled for it
    returns        characteristic embedment strength, N/mm²

    Source: EN 1995-1-1:2004+A1:2008, 8.3.1.1(5) and 8.7.1: nails to 8 mm, screws to 6 mm as nails, the rest as bolts.
    Raises as for `nail_embedment_n_mm2` and `bolt_embedment_n_mm2`, NotAChoice for another sort.

    >>> round(embedment_n_mm2("screw", 6.16, 350, 0, "softwood", True), 4)
    26.9321
    """
    sort_named(sort)
    thin = {"screw": AS_NAIL_MM, "bolt": 0.0, "dowel": 0.0}.get(sort, NAIL_HIGH_MM)
    if diameter_mm <= thin:
        return nail_embedment_n_mm2(diameter_mm, density_kg_m3, predrilled)
    return bolt_embedment_n_mm2(diameter_mm, density_kg_m3, angle_deg, wood)
