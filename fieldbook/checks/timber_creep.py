"""How much further wood gives in the course of years under a load that stays.

Does not cover wood put up wet that dries under load, nor boards other than those named.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from ..errors import NotAChoice, shown
from .limits import within

SOURCE = "EN 1995-1-1:2004+A1:2008, Table 3.2 and 2.3.2.2 (second hand)"
# k_def in service classes 1, 2, 3; a board is not made for a class it has no figure in.
MATERIALS: Mapping[str, tuple[float, ...]] = {
    "solid timber": (0.60, 0.80, 2.00),
    "plywood": (0.80, 1.00, 2.50),
    "OSB/2": (2.25,),
    "OSB/3": (1.50, 2.25),
}
SAG_HIGH_MM = 1000.0


def k_def(material: str, service_class: int) -> float:
    """What the first sag under a lasting load is multiplied by, to give what is added in the end.

    material       "solid timber" (glued laminated timber and LVL too), "plywood", "OSB/2" or "OSB/3"
    service_class  1, 2 or 3, no unit, as far as the board is made for it
    returns        factor, no unit

    Source: EN 1995-1-1:2004+A1:2008, Table 3.2; OSB/3 from memory.
    Raises NotAChoice for another material, or a class it is not made for.

    >>> k_def("plywood", 2)
    1.0
    """
    if material not in MATERIALS:
        known = f"Choose one of: {', '.join(MATERIALS)}."
        raise NotAChoice(f"material is {shown(material)}.", known, field="material", value=material)
    classes = range(1, len(MATERIALS[material]) + 1)
    if isinstance(service_class, bool) or service_class not in classes:
        raise NotAChoice(
            f"service_class is {shown(service_class)}; {material} has a figure for {', '.join(map(str, classes))}.",
            "Choose another class, or a material made for this one.",
            field="service_class",
            value=service_class,
        )
    return MATERIALS[material][service_class - 1]


def joint_k_def(first: str, second: str, service_class: int) -> float:
    """The same factor for what gives at a joint of two materials.

    first, second  as for `k_def`
    service_class  as for `k_def`, no unit
    returns        factor, no unit: twice the materials' own, or twice the root of their product

    Source: EN 1995-1-1:2004+A1:2008, 2.3.2.2(3) and (4), equation 2.13.
    Raises as for `k_def`.

    >>> round(joint_k_def("solid timber", "plywood", 1), 3)
    1.386
    """
    return 2 * math.sqrt(k_def(first, service_class) * k_def(second, service_class))


def final_mm(at_once_mm: float, factor: float) -> float:
    """Sag or slip under a permanent load in the end.

    at_once_mm  sag or slip when the load comes on, mm, 0 to 1000
    factor      k_def of the material or the joint, no unit, 0 to 10
    returns     mm

    Source: EN 1995-1-1:2004+A1:2008, equation 2.3.
    Raises OutOfRange outside the limits.

    >>> final_mm(1, 0.6)
    1.6
    """
    within("at_once_mm", at_once_mm, 0, SAG_HIGH_MM, "mm")
    within("factor", factor, 0, 10, "")
    return at_once_mm * (1 + factor)
