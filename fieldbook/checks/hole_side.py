"""How hard a fixing presses on the side of its hole in masonry.

It does not cover wood and metal, a hole near an edge or a joint, nor what pulls a fixing out.
"""

from __future__ import annotations

from . import fixing_forces
from .cautions import LEFT_OUT_OF_LOADS
from .clamp import BEARING_DIVISOR
from .limits import within
from .verdict import Verdict, at_most

FORCE_HIGH_N = 1e6
DIAMETER_HIGH_MM, LENGTH_HIGH_MM = 200.0, 2000.0
BEARING_HIGH_N_MM2 = 1000.0
SPREAD = "The load is spread evenly along the hole, less the plaster in front."
SOURCE = fixing_forces.SOURCE


def verdict(shear_n: float, diameter_mm: float, length_mm: float, bearing_n_mm2: float) -> Verdict:
    """The sideways force on a fixing against what the side of its hole bears, at a third of its strength.

    shear_n        what pushes the fixing along the face, N, 0 to 1 000 000
    diameter_mm    of the hole, mm, 0 to 200
    length_mm      of the hole in what bears, plaster in front left out, mm, 0 to 2000
    bearing_n_mm2  bearing strength of that, N/mm², 0 to 1000, as the table of materials has it
    returns        verdict, N

    Source: force over diameter times length, SOURCE; the third, as of a jaw, is common practice, no source.
    Raises OutOfRange outside the limits.

    >>> verdict(120, 8, 30, 2.0).limit
    160.0
    """
    within("shear_n", shear_n, 0, FORCE_HIGH_N, "N")
    within("diameter_mm", diameter_mm, 0, DIAMETER_HIGH_MM, "mm")
    within("length_mm", length_mm, 0, LENGTH_HIGH_MM, "mm")
    within("bearing_n_mm2", bearing_n_mm2, 0, BEARING_HIGH_N_MM2, "N/mm²")
    return at_most(
        "carrier",
        "What presses on the side of its hole",
        shear_n,
        diameter_mm * length_mm * bearing_n_mm2 / BEARING_DIVISOR,
        "N",
        SOURCE,
        after=f"The limit is a third of the bearing strength of {bearing_n_mm2:g} N/mm². {LEFT_OUT_OF_LOADS}",
        working=(("hole", f"{diameter_mm:g} mm, {length_mm:g} mm in what bears"),),
    )
