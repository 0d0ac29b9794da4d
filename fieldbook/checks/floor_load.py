"""What a standing thing puts on a floor, over an area, along a line and at a point, and how hard people lean.

An old floor was seldom designed for any of these figures: what it may carry is for whoever is in charge of the
building, or an engineer, to say.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from ..errors import NotAChoice, UnsuitableShape
from .cautions import LEFT_OUT_OF_LOADS
from .face_load import FORCE_HIGH_N, GRAVITY_M_S2, MASS_HIGH_KG
from .limits import within
from .verdict import Verdict, at_most

SOURCE = "Weight over area, length or foot, held against EN 1991-1-1:2002, 6.3.1 (characteristic values, no factors)"
# Half of the narrowest base that is entered: as much as lies between three feet.
EXTENT_LOW_MM, EXTENT_HIGH_MM = 5.0, 100_000.0
# Highest place at which people's push on a barrier is taken, mm: EN 1991-1-1:2002, 6.4.
LEANING_HEIGHT_MM = 1_200.0


class FloorCategory(NamedTuple):
    """Imposed loads of one category of use.

    area_kn_m2  load over the area, kN/m²
    point_kn    load on a square of 50 mm, kN
    level_kn_m  push on a barrier or partition, lowest and highest figure a nation may set, kN/m
    """

    area_kn_m2: float
    point_kn: float
    level_kn_m: tuple[float, float]


# EN 1991-1-1:2002, Tables 6.1, 6.2 and 6.12, recommended values; all from memory, and national annexes set others.
CATEGORIES: Mapping[str, FloorCategory] = {
    "C1": FloorCategory(3.0, 4.0, (0.2, 1.0)),  # areas with tables
    "C2": FloorCategory(4.0, 4.0, (0.8, 1.0)),  # areas with fixed seats
    "C3": FloorCategory(5.0, 4.0, (0.8, 1.0)),  # museums, exhibition rooms and the ways through them
    "C4": FloorCategory(5.0, 7.0, (0.8, 1.0)),  # areas for dancing and exercise
    "C5": FloorCategory(5.0, 4.5, (3.0, 5.0)),  # areas of large crowds
}


def area_load_kn_m2(mass_kg: float, wide_mm: float, deep_mm: float) -> float:
    """What a thing puts on the floor, over the rectangle it stands on.

    mass_kg           mass with its load, kg, 0 to 100 000
    wide_mm, deep_mm  sides of what it stands on, mm, 5 to 100 000
    returns           kN/m²

    Source: weight over area, with gravity of 9.81 m/s².
    Raises OutOfRange outside the limits.

    >>> round(area_load_kn_m2(300, 1200, 500), 3)
    4.905
    """
    within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg")
    within("wide_mm", wide_mm, EXTENT_LOW_MM, EXTENT_HIGH_MM, "mm")
    within("deep_mm", deep_mm, EXTENT_LOW_MM, EXTENT_HIGH_MM, "mm")
    return mass_kg * GRAVITY_M_S2 / (wide_mm * deep_mm) * 1000


def line_load_kn_m(mass_kg: float, length_mm: float) -> float:
    """What a thing that stands along a line puts on the floor.

    mass_kg    mass with its load, kg, 0 to 100 000
    length_mm  length it stands on, mm, 10 to 100 000
    returns    kN/m

    Source: weight over length, with gravity of 9.81 m/s².
    Raises OutOfRange outside the limits.

    >>> round(line_load_kn_m(300, 1200), 4)
    2.4525
    """
    within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg")
    return mass_kg * GRAVITY_M_S2 / within("length_mm", length_mm, 10, EXTENT_HIGH_MM, "mm")


def foot_load_kn(mass_kg: float, centre_mm: Sequence[float], feet_mm: Sequence[Sequence[float]]) -> float:
    """The most that any one foot can carry, on a floor that no thing of four feet stands on evenly.

    mass_kg    mass with its load, kg, 0 to 100 000
    centre_mm  (x, y) of its centre of mass, mm
    feet_mm    (x, y) of its feet, mm; 1 to 12
    returns    kN, on the hardest pressed foot when it rocks on any two or three of them

    Source: statics: the most a foot takes is found where the thing rests on it and on at most two more.
    Raises OutOfRange outside the limits, UnsuitableShape where the centre does not lie between the feet.

    >>> table = [(0, 0), (1000, 0), (1000, 600), (0, 600)]
    >>> round(foot_load_kn(120, (500, 300), table), 4)
    0.5886
    """
    within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg")
    within("feet_mm", len(feet_mm), 1, 12, "feet")
    for number in (*centre_mm, *(number for foot in feet_mm for number in foot)):
        within("feet_mm", number, -EXTENT_HIGH_MM, EXTENT_HIGH_MM, "mm")
    most = max((_part(foot, centre_mm, feet_mm) for foot in range(len(feet_mm))), default=0.0)
    if most == 0:
        raise UnsuitableShape(
            "The centre of mass does not lie between the feet: the thing would tip.",
            "Measure the feet and the centre of mass again.",
            field="centre_mm",
            value=list(centre_mm),
        )
    return mass_kg * GRAVITY_M_S2 / 1000 * most


def level_push(category: str, wide_mm: float, height_mm: float) -> tuple[float, float]:
    """How hard a crowd leans on a thing, level with the floor, and at which height.

    category   C1 to C5, category of use of the room
    wide_mm    how wide the thing is to the crowd, mm, 1 to 100 000
    height_mm  how high it is, mm, 1 to 100 000
    returns    N, by the highest figure that a nation may set, and mm: its own height, but no more than 1 200

    Source: EN 1991-1-1:2002, 6.4 and Table 6.12, values from memory.
    Raises NotAChoice for another category, OutOfRange outside the limits.

    >>> level_push("C3", 900, 1500)
    (900.0, 1200.0)
    """
    if category not in CATEGORIES:
        raise NotAChoice(
            f"There is no category {category}.",
            f"Choose one of: {', '.join(CATEGORIES)}.",
            field="category",
            value=category,
        )
    push = CATEGORIES[category].level_kn_m[1] * within("wide_mm", wide_mm, 1, EXTENT_HIGH_MM, "mm")
    return push, min(within("height_mm", height_mm, 1, EXTENT_HIGH_MM, "mm"), LEANING_HEIGHT_MM)


def verdict(what: str, figure: float, limit: float, unit: str) -> Verdict:
    """Whether a load on a floor keeps within what somebody entitled has said it may carry.

    what     the load in words, to begin the sentence with
    figure   kN/m², kN/m or kN, 0 to 1 000 000
    limit    the same, 0 to 1 000 000
    unit     which of them
    returns  verdict, in that unit

    Source: EN 1991-1-1:2002, 6.3.1: characteristic load against characteristic load.
    Raises OutOfRange outside the limits.

    >>> verdict("The load on the floor", 4.905, 5.0, "kN/m²").word.value
    'close'
    """
    within("figure", figure, 0, FORCE_HIGH_N, unit)
    within("limit", limit, 0, FORCE_HIGH_N, unit)
    return at_most("floor-load", what, figure, limit, unit, SOURCE, step=0.01, standing=LEFT_OUT_OF_LOADS)


def _part(foot: int, centre: Sequence[float], feet: Sequence[Sequence[float]]) -> float:
    """The greatest part of the weight that a foot can take: by itself, with one other, or with two others."""
    x, y = (centre[axis] - feet[foot][axis] for axis in (0, 1))
    others = [(other[0] - feet[foot][0], other[1] - feet[foot][1]) for other in feet]
    if abs(x) < 1e-9 and abs(y) < 1e-9:
        return 1.0
    most = 0.0
    for place, (ax, ay) in enumerate(others):
        reach = ax * ax + ay * ay
        # On the line to one other foot, to a hundredth of a millimetre.
        if reach and abs(ax * y - ay * x) <= 0.01 * reach**0.5 and 0 < ax * x + ay * y <= reach:
            most = max(most, 1 - (ax * x + ay * y) / reach)
        for bx, by in others[:place]:
            cross = ax * by - ay * bx
            if cross:
                first, second = (x * by - y * bx) / cross, (ax * y - ay * x) / cross
                if first >= 0 and second >= 0 and first + second <= 1:
                    most = max(most, 1 - first - second)
    return most
