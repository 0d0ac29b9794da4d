"""The tension a bolt takes from the torque it is tightened with, against its proof load.

The same torque gives very different tensions: the figure is nominal, and what is built on it must
hold at the least and the most that are likely. Does not cover bolts of other than the tabled classes,
hot-dip galvanised bolts, nor what a soft lining loses afterwards.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from ..errors import NotAChoice
from .cautions import LEFT_OUT_OF_LOADS
from .limits import within
from .verdict import Verdict, at_most

SOURCE = "T = K·F·d, the usual relation of torque and tension; proof loads of EN ISO 898-1, coarse threads"
TORQUE_HIGH_NM = 1000.0
DIAMETER_LOW_MM, DIAMETER_HIGH_MM = 2.0, 36.0
NUT_FACTOR_LOW, NUT_FACTOR_HIGH = 0.08, 0.5
GRADES = ("4.6", "8.8")
# Share by which the tension differs from the nominal one when a torque wrench is used: a note of fastener
# makers' institutes says 25 % or more; nut factors for one and the same finish differ by a third between tables.
SCATTER = 0.30


def preload_n(torque_nm: float, diameter_mm: float, nut_factor: float) -> float:
    """Nominal tension in a bolt tightened with a torque.

    torque_nm    tightening torque, N·m, 0 to 1000
    diameter_mm  nominal thread diameter, mm, 2 to 36
    nut_factor   K of thread and face: about 0.2 for dry steel, less when greased, 0.2 to 0.3 for zinc; no unit,
                 0.08 to 0.5
    returns      N, give or take 30 % (`likely_n`)

    Source: Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-8: T = K·F·d.
    Raises OutOfRange outside the limits above.

    >>> preload_n(5, 8, 0.2)
    3125.0
    """
    within("torque_nm", torque_nm, 0, TORQUE_HIGH_NM, "N·m")
    within("diameter_mm", diameter_mm, DIAMETER_LOW_MM, DIAMETER_HIGH_MM, "mm")
    within("nut_factor", nut_factor, NUT_FACTOR_LOW, NUT_FACTOR_HIGH, "")
    return torque_nm * 1000 / (nut_factor * diameter_mm)


def likely_n(nominal_n: float) -> tuple[float, float]:
    """The least and the most tension that a nominal preload stands for.

    nominal_n  nominal preload, N, 0 to 10 000 000
    returns    least and most, N

    Source: scatter of at least 25 % with a torque wrench, from a note of fastener makers' institutes; 30 % here,
    because tables of nut factors differ by more than that for zinc.
    Raises OutOfRange outside the limits above.

    >>> likely_n(1000)
    (700.0, 1300.0)
    """
    within("nominal_n", nominal_n, 0, 1e7, "N")
    return nominal_n * (1 - SCATTER), nominal_n * (1 + SCATTER)


def proof_load_n(diameter_mm: float, grade: str) -> float:
    """Tension a bolt is proved to stand without lasting stretch.

    diameter_mm  nominal thread diameter, mm: 5, 6, 8, 10 or 12
    grade        property class, "4.6" or "8.8"
    returns      N

    Source: EN ISO 898-1, proof loads of coarse threads.
    Raises NotAChoice for a diameter or class that is not in the table.

    >>> proof_load_n(8, "8.8")
    21200.0
    """
    if grade not in GRADES:
        raise NotAChoice(
            f"is {grade}.", f"Choose one of: {', '.join(GRADES)}.", field="grade", value=grade, about="grade"
        )
    try:
        return _proof_loads()[diameter_mm, grade]
    except KeyError:
        sizes = ", ".join(f"{size:g}" for size in sorted({size for size, _ in _proof_loads()}))
        raise NotAChoice(
            f"is {diameter_mm:g}; there is no proof load for it here.",
            f"Choose one of: {sizes}; or leave the grade out.",
            field="diameter_mm",
            value=diameter_mm,
            about="diameter_mm",
        ) from None


def verdict(torque_nm: float, diameter_mm: float, nut_factor: float, grade: str) -> Verdict:
    """Whether a torque may stretch the bolt for good: the most likely tension against the proof load.

    torque_nm, diameter_mm  as for `preload_n`, N·m and mm
    nut_factor              as for `preload_n`, no unit
    grade                   property class, "4.6" or "8.8"
    returns                 verdict, N; a nominal preload of three quarters of the proof load, as is usual for a joint
                            that is taken apart again, comes out close

    Source: as for `preload_n`, `likely_n` and `proof_load_n`.
    Raises OutOfRange outside the limits, NotAChoice for a bolt that is not in the table.

    >>> verdict(5, 8, 0.2, "4.6").word.value
    'within'
    """
    nominal = preload_n(torque_nm, diameter_mm, nut_factor)
    return at_most(
        "preload",
        f"The tension this torque may reach in an M{diameter_mm:g} bolt of class {grade}",
        likely_n(nominal)[1],
        proof_load_n(diameter_mm, grade),
        "N",
        SOURCE,
        step=1,
        standing=LEFT_OUT_OF_LOADS,
        working=(
            ("torque", f"{torque_nm:g} N·m"),
            ("nut factor", f"{nut_factor:g}"),
            ("nominal tension", f"{nominal:.0f} N"),
            ("scatter", f"± {SCATTER * 100:.0f} %"),
        ),
    )


@cache
def _proof_loads() -> Mapping[tuple[float, str], float]:
    text = (files(__package__) / "data" / "bolts.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        (float(row["diameter_mm"]), grade): float(row[f"proof_n_{grade.replace('.', '_')}"])
        for row in rows
        for grade in GRADES
    }
