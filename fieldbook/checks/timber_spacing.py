"""How far nails, screws and bolts must stay from edge and end of wood and from each other, so that it does not split.

Does not cover wood already split or checked along the grain, boards and panels, nor staples.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from ..errors import NotAChoice, OutOfRange, shown
from .limits import within
from .timber_dowel import (
    AS_NAIL_MM,
    BOLT_HIGH_MM,
    DENSITY_HIGH,
    DENSITY_LOW,
    THINNEST_MM,
    WOODS,
    sort_named,
)
from .verdict import Verdict, Word, not_known, word_for

SOURCE = "EN 1995-1-1:2004+A1:2008, Tables 8.2, 8.4 and 8.6, 8.3.1.2, 10.4.5 (second hand and, in part, from memory)"
# Above this the wood is dense, and above the next it is always drilled for (8.3.1.1(2), Table 8.2), kg/m³.
DENSE, DRILLED = 420.0, 500.0
# Spacing of nails where the part in front is a steel plate (8.3.1.4).
PLATE_SHARE = 0.7
# Softwood is drilled for screws and nails above this diameter (10.4.5(2), 8.3.1.1(2)), mm.
UNDRILLED_HIGH_MM = 6.0
# How little may be left for a distance not to be close, mm: what a hole is set out to; common practice, no source.
CLOSE_MM = 3.0

WORDS: Mapping[str, str] = {
    "along": "the distance to the next fastener along the grain",
    "across": "the distance to the next fastener across the grain",
    "loaded_end": "the distance to the end it is pushed towards",
    "unloaded_end": "the distance to the end it is pushed away from",
    "loaded_edge": "the distance to the edge it is pushed towards",
    "unloaded_edge": "the distance to the edge it is pushed away from",
    "end": "the distance from the middle of the thread to the end",
    "edge": "the distance from the middle of the thread to the edge",
    "thickness": "the thickness of the wood",
}


class Distances(NamedTuple):
    """Least distances, mm, in the order of the tables: a1, a2, a3t, a3c, a4t, a4c."""

    along: float
    across: float
    loaded_end: float
    unloaded_end: float
    loaded_edge: float
    unloaded_edge: float


class _Rule(NamedTuple):
    """A column of Table 8.2, in diameters: (base, what |cos α| or sin α adds) for each distance.

    along, edge  for thin (below 5 mm) and thick shanks
    """

    along: tuple[tuple[float, float], tuple[float, float]]
    across: tuple[float, float]
    loaded_end: tuple[float, float]
    unloaded_end: float
    loaded_edge: tuple[tuple[float, float], tuple[float, float]]
    unloaded_edge: float


_LIGHT = _Rule(((5, 5), (5, 7)), (5, 0), (10, 5), 10, ((5, 2), (5, 5)), 5)
_HEAVY = _Rule(((7, 8), (7, 8)), (7, 0), (15, 5), 15, ((7, 2), (7, 5)), 7)
_DRILLED = _Rule(((4, 1), (4, 1)), (3, 1), (7, 5), 7, ((3, 2), (3, 4)), 3)


def needs_drilling(sort: str, diameter_mm: float, density_kg_m3: float, wood: str) -> bool:
    """Whether a hole has to be drilled for the fastener.

    sort           one of `timber_dowel.SORTS`
    diameter_mm    of the shank (of a screw: smooth shank), mm, 1.5 to 30
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000
    wood           "softwood", "hardwood" or "LVL"
    returns        True for any bolt, above 6 mm, in wood above 500 kg/m³, and for every screw in hardwood

    Source: EN 1995-1-1:2004+A1:2008, 8.3.1.1(2) and 10.4.5(2) (from memory).
    Raises OutOfRange outside the limits, NotAChoice for another sort or wood.

    >>> needs_drilling("screw", 5, 350, "softwood"), needs_drilling("screw", 4, 530, "hardwood")
    (False, True)
    """
    _check(sort, diameter_mm, density_kg_m3)
    if wood not in WOODS:
        raise NotAChoice(f"wood is {shown(wood)}.", f"Choose one of: {', '.join(WOODS)}.", field="wood", value=wood)
    always = sort in ("bolt", "dowel") or (sort == "screw" and wood == "hardwood")
    return always or diameter_mm > UNDRILLED_HIGH_MM or density_kg_m3 > DRILLED


def required_mm(
    sort: str,
    diameter_mm: float,
    density_kg_m3: float,
    angle_deg: float,
    *,
    predrilled: bool,
    steel_plate: bool = False,
) -> Distances:
    """Least distances of a fastener that is pushed sideways.

    sort           one of `timber_dowel.SORTS` but "dowel"
    diameter_mm    nominal diameter, of a screw over its thread, mm, 1.5 to 30
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 1000; above 500 only where predrilled
    angle_deg      between the force and the grain, degrees, 0 to 90
    predrilled     whether a hole was drilled for it
    steel_plate    whether the part in front is a steel plate, which lets nails stand closer to each other
    returns        distances, mm

    Source: EN 1995-1-1:2004+A1:2008, Table 8.2 (nails, and screws to 6 mm), 8.3.1.4, Table 8.4 (bolts, thicker screws).
    Departs from 8.7.1 in taking a screw's outer diameter instead of the effective one: the safe side.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> required_mm("screw", 5, 350, 0, predrilled=False)[:4]
    (60.0, 25.0, 75.0, 50.0)
    """
    _check(sort, diameter_mm, density_kg_m3)
    if sort == "dowel":
        raise NotAChoice("sort is dowel.", "Dowels have a table of their own, not held here.", field="sort", value=sort)
    turned = math.radians(within("angle_deg", angle_deg, 0, 90, "°"))
    cosine, sine = round(math.cos(turned), 12), round(math.sin(turned), 12)
    if sort == "bolt" or (sort == "screw" and diameter_mm > AS_NAIL_MM):
        return _bolt_distances(diameter_mm, cosine, sine)
    rule = _rule(density_kg_m3, predrilled)
    thick = diameter_mm >= 5
    closer = PLATE_SHARE if steel_plate else 1.0
    return Distances(
        closer * _sum(rule.along[thick], cosine) * diameter_mm,
        closer * _sum(rule.across, sine) * diameter_mm,
        _sum(rule.loaded_end, cosine) * diameter_mm,
        float(rule.unloaded_end * diameter_mm),
        _sum(rule.loaded_edge[thick], sine) * diameter_mm,
        float(rule.unloaded_edge * diameter_mm),
    )


def required_for_pull_mm(diameter_mm: float) -> Mapping[str, float]:
    """Least distances of a screw that is pulled straight.

    diameter_mm  over the thread, mm, 1.5 to 30
    returns      mm: "along" and "across" to the next screw, "end" and "edge" from the middle of the thread, and the
                 "thickness" of the wood

    Source: EN 1995-1-1:2004+A1:2008, Table 8.6 and 8.7.2(2): 7, 5, 10, 4 and 12 diameters.
    Raises OutOfRange outside the limits.

    >>> required_for_pull_mm(5)["end"]
    50
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    diameters = {"along": 7, "across": 5, "end": 10, "edge": 4, "thickness": 12}
    return {name: times * diameter_mm for name, times in diameters.items()}


def also_pulled(least_mm: Mapping[str, float], diameter_mm: float) -> dict[str, float]:
    """Least distances of a screw that is pushed sideways and pulled: of both rules the longer.

    least_mm     of the sideways load, mm, 0 to 1000 (`Distances._asdict()`)
    diameter_mm  over the thread, mm, 1.5 to 30
    returns      mm, by the same names

    Source: EN 1995-1-1:2004+A1:2008, Tables 8.2, 8.4 and 8.6.
    Raises OutOfRange outside the limits.

    >>> also_pulled({"loaded_end": 60.0, "along": 20.0}, 5)
    {'loaded_end': 60.0, 'along': 35}
    """
    pulled = required_for_pull_mm(diameter_mm)
    return {name: max(mm, pulled[name.rpartition("_")[2]]) for name, mm in least_mm.items()}


def not_pushed(least_mm: Mapping[str, float]) -> dict[str, float]:
    """Least distances of a fastener that nothing pushes along the wood, as overhead: no end and no edge is loaded.

    least_mm  of a sideways load, mm, 0 to 1000 (`Distances._asdict()`)
    returns   mm, by the same names

    Source: EN 1995-1-1:2004+A1:2008, Table 8.2, a3c and a4c for a3t and a4t.
    Raises nothing.

    >>> not_pushed(Distances(60.0, 25.0, 75.0, 50.0, 35.0, 25.0)._asdict())["loaded_end"]
    50.0
    """
    return {**least_mm, "loaded_end": least_mm["unloaded_end"], "loaded_edge": least_mm["unloaded_edge"]}


def least_thickness_mm(diameter_mm: float, density_kg_m3: float, splits_easily: bool) -> float:
    """How thick wood must be to take a nail or thin screw without drilling.

    diameter_mm    nominal diameter, mm, 1.5 to 8
    density_kg_m3  characteristic density of the wood, kg/m³, 250 to 500
    splits_easily  whether it splits easily, as fir, spruce, Douglas fir and larch do; if not sure, it does
    returns        mm

    Source: EN 1995-1-1:2004+A1:2008, equations 8.18 and 8.19 (from memory).
    Raises OutOfRange outside the limits.

    >>> least_thickness_mm(4, 350, False)
    28
    """
    within("diameter_mm", diameter_mm, THINNEST_MM, 8, "mm")
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DRILLED, "kg/m³", "Denser wood is drilled.")
    excess = (13 * diameter_mm - 30) * density_kg_m3
    return max(14 * diameter_mm, excess / 200) if splits_easily else max(7 * diameter_mm, excess / 400)


def verdict(required: Mapping[str, float], measured: Mapping[str, float | None]) -> Verdict:
    """Whether the distances of a fastener are enough.

    required  least distances by name, mm, 0 to 1000 (`Distances._asdict()`, or `required_for_pull_mm`)
    measured  distances by the same names, mm, 0 to 100 000; None where nobody measured; a name that is missing is a
              neighbour, end or edge that is not there
    returns   verdict, mm, on the distance that falls shortest; over before not known before the rest

    Source: EN 1995-1-1:2004+A1:2008, Tables 8.2, 8.4, 8.6.
    Raises OutOfRange outside the limits, NotAChoice for a distance that is not among the required.

    >>> verdict({"loaded_end": 75.0}, {"loaded_end": 60.0}).margin
    -15.0
    """
    for name in measured:
        if name not in required:
            known = f"Choose among: {', '.join(required)}."
            raise NotAChoice(f"There is no least distance {shown(name)}.", known, field="measured", value=name)
    given = {name: within(name, mm, 0, 100_000, "mm") for name, mm in measured.items() if mm is not None}
    missing = tuple(name for name, mm in measured.items() if mm is None)
    shortest = min(given, key=lambda name: given[name] - required[name], default=None)
    if shortest is not None:
        found = _at_least(shortest, given[shortest], required[shortest])
        if found.word is Word.OVER or not missing:
            return found
    wanted = "; ".join(f"{WORDS.get(name, name)}, at least {required[name]:g} mm" for name in missing)
    sentence = f"Not measured: {wanted}." if missing else "No distance is given, so none can be held against the rules."
    return not_known("spacing", missing or tuple(required), sentence, SOURCE, "mm")


def _at_least(name: str, given_mm: float, least_mm: float) -> Verdict:
    margin = round(given_mm - least_mm, 9)
    left = f"{margin:g} mm more than" if margin >= 0 else f"{-margin:g} mm less than"
    what = WORDS.get(name, name)
    sentence = f"{what[0].upper()}{what[1:]} is {given_mm:g} mm, {left} the {least_mm:g} mm it takes."
    return Verdict("spacing", word_for(margin, CLOSE_MM), given_mm, least_mm, margin, "mm", sentence, SOURCE)


def _bolt_distances(diameter_mm: float, cosine: float, sine: float) -> Distances:
    return Distances(
        (4 + cosine) * diameter_mm,
        4.0 * diameter_mm,
        max(7 * diameter_mm, 80.0),
        max(1 + 6 * sine, 4) * diameter_mm,
        max(2 + 2 * sine, 3) * diameter_mm,
        3.0 * diameter_mm,
    )


def _rule(density_kg_m3: float, predrilled: bool) -> _Rule:
    if predrilled:
        return _DRILLED
    if density_kg_m3 > DRILLED:
        raise OutOfRange(
            f"density_kg_m3 is {density_kg_m3:g} kg/m³; above {DRILLED:g} kg/m³ wood splits unless it is drilled.",
            "Drill it, or enter that it was drilled.",
            field="density_kg_m3",
            value=density_kg_m3,
        )
    return _HEAVY if density_kg_m3 > DENSE else _LIGHT


def _sum(terms: tuple[float, float], turned: float) -> float:
    return terms[0] + terms[1] * turned


def _check(sort: str, diameter_mm: float, density_kg_m3: float) -> None:
    sort_named(sort)
    within("diameter_mm", diameter_mm, THINNEST_MM, BOLT_HIGH_MM, "mm")
    within("density_kg_m3", density_kg_m3, DENSITY_LOW, DENSITY_HIGH, "kg/m³")
