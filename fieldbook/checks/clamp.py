"""What a lined clamp holds before it slips, and how hard its jaws press on what they clamp.

Dry friction under steady tension. Does not cover shaking, wet or greasy faces, edges and corners that
break off, nor jaws that do not lie flat.
"""

from __future__ import annotations

from .cautions import LEFT_OUT_OF_LOADS
from .limits import within
from .preload import SCATTER, likely_n
from .verdict import Verdict, at_most

SOURCE = "Dry friction: slip = faces · friction · bolts · tension; pressure = bolts · tension / area of one jaw"
PRELOAD_HIGH_N = 1e6
BOLTS_HIGH = 100
FACES_HIGH = 4
FRICTION_HIGH = 1.0
JAW_LOW_MM2, JAW_HIGH_MM2 = 1.0, 1e6
# A load may use this share of the slip load. It covers a tension 30 % below the nominal, what rubber, cork,
# felt or wood loses by creep, and friction tables that differ by a factor of two: common practice, no source.
TRUSTED_SHARE = 0.5
# A jaw may use this share of what the substrate bears. The tables tell the strength of sound new material; old plaster
# and stone have less, crumble at edges, and nobody has tried: common practice, no source.
BEARING_DIVISOR = 3.0


def slip_n(preload_n: float, bolts: int, faces: int, friction: float) -> float:
    """Force along the jaws at which the clamp begins to slip.

    preload_n  nominal tension of one bolt, N, 0 to 1 000 000
    bolts      how many bolts press the jaws together, no unit, 1 to 100
    faces      how many faces would have to slip, no unit, 1 to 4: two for a pair of jaws
    friction   coefficient of friction at rest, no unit, 0 to 1, of lining on fabric; the low end of the tables,
               or better a test
    returns    N, in the direction the load acts, whatever it is

    Source: dry friction, Shigley, Mechanical Engineering Design, 9th ed. (2011), chapter 8 (shear held by friction).
    Raises OutOfRange outside the limits above.

    >>> slip_n(800, 1, 2, 0.4)
    640.0
    """
    within("friction", friction, 0, FRICTION_HIGH, "")
    within("faces", faces, 1, FACES_HIGH, "")
    return faces * friction * _press_n(preload_n, bolts)


def pressure_n_mm2(preload_n: float, bolts: int, jaw_mm2: float) -> float:
    """Pressure on the fabric under one jaw.

    preload_n  nominal tension of one bolt, N, 0 to 1 000 000
    bolts      how many bolts press the jaws together, no unit, 1 to 100
    jaw_mm2    area in contact under one jaw, mm², 1 to 1 000 000
    returns    N/mm², spread evenly over the jaw

    Source: force over area.
    Raises OutOfRange outside the limits above.

    >>> pressure_n_mm2(2000, 2, 5000)
    0.8
    """
    within("jaw_mm2", jaw_mm2, JAW_LOW_MM2, JAW_HIGH_MM2, "mm²")
    return _press_n(preload_n, bolts) / jaw_mm2


def slip_verdict(preload_n: float, bolts: int, faces: int, friction: float, load_n: float) -> Verdict:
    """Whether the clamp may be trusted with a load along its jaws.

    preload_n                as for `slip_n`, N
    bolts, faces, friction   as for `slip_n`, no unit
    load_n                   force along the jaws, N, 0 to 1 000 000
    returns                  verdict, N, against half the slip load

    Source: as for `slip_n`; the half is common practice, no source.
    Raises OutOfRange outside the limits.

    >>> slip_verdict(1000, 1, 2, 0.2, 150).word.value
    'within'
    """
    slip = slip_n(preload_n, bolts, faces, friction)
    return at_most(
        "clamp",
        "The load along the jaws",
        within("load_n", load_n, 0, 1e6, "N"),
        slip * TRUSTED_SHARE,
        "N",
        SOURCE,
        after="The limit is half of what it slips at, for creep and scatter.",
        standing=LEFT_OUT_OF_LOADS,
        working=(
            ("tension of one bolt", f"{preload_n:g} N"),
            ("bolts", f"{bolts}"),
            ("faces", f"{faces}"),
            ("friction", f"{friction:g}"),
            ("slips at", f"{slip:.1f} N"),
        ),
    )


def pressure_verdict(preload_n: float, bolts: int, jaw_mm2: float, bearing_n_mm2: float) -> Verdict:
    """Whether the fabric bears the jaw, at the most tension that is likely and a third of its strength.

    preload_n, jaw_mm2  as for `pressure_n_mm2`, N and mm²
    bolts               as for `pressure_n_mm2`, no unit
    bearing_n_mm2       bearing strength of the substrate, N/mm², 0 to 1000, as the table of materials has it
    returns             verdict, N/mm², against a third of the strength

    Source: as for `pressure_n_mm2` and `preload.likely_n`; the third is common practice, no source.
    Raises OutOfRange outside the limits.

    >>> pressure_verdict(2000, 1, 2500, 2.5).word.value
    'over'
    """
    nominal = pressure_n_mm2(preload_n, bolts, jaw_mm2)
    return at_most(
        "clamp",
        "The pressure under the jaw, at the highest tension that is likely,",
        likely_n(_press_n(preload_n, bolts))[1] / jaw_mm2,
        within("bearing_n_mm2", bearing_n_mm2, 0, 1000, "N/mm²") / BEARING_DIVISOR,
        "N/mm²",
        SOURCE,
        step=0.001,
        after=f"The limit is a third of the bearing strength of {bearing_n_mm2:g} N/mm².",
        standing=LEFT_OUT_OF_LOADS,
        working=(
            ("tension of one bolt", f"{preload_n:g} N"),
            ("bolts", f"{bolts}"),
            ("jaw", f"{jaw_mm2:g} mm²"),
            ("nominal pressure", f"{nominal:.3f} N/mm²"),
            ("scatter", f"+ {SCATTER * 100:.0f} %"),
        ),
    )


def _press_n(preload_n: float, bolts: int) -> float:
    within("preload_n", preload_n, 0, PRELOAD_HIGH_N, "N")
    within("bolts", bolts, 1, BOLTS_HIGH, "")
    return preload_n * bolts
