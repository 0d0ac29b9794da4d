"""What bolts, machine screws and threaded rod are made of, and the area on which they carry.

The figures stand in data/bolt_classes.csv and data/threads.csv. Coarse metric threads. Does not cover fine threads,
inch threads, wrought iron, nor bolts without a mark on the head.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import NamedTuple

from ..errors import NotAChoice, shown

# Stainless steels a class of strength is stamped with: A2 is about 1.4301, A4 about 1.4401 (second hand).
STAINLESS_GRADES = ("A1", "A2", "A3", "A4", "A5")


class Metal(NamedTuple):
    """A property class: strengths, N/mm², the factor on strength for shear through the thread, and how sure that is."""

    name: str
    tensile_n_mm2: float
    yield_n_mm2: float
    thread_factor: float
    status: str


def metal(named: str) -> Metal:
    """The property class of that name.

    named    as stamped on the head: "4.6" to "10.9", or "A2-70" and the like; A1 to A5 with 50, 70 or 80
    returns  strengths in N/mm²

    Source: EN 1993-1-8:2005, Table 3.1, after ISO 898-1; ISO 3506-1 for stainless steel.
    Raises NotAChoice for another class.

    >>> metal("A4-70").yield_n_mm2
    450.0
    """
    known = _metals()
    grade, _, strength = named.upper().partition("-") if isinstance(named, str) else ("", "", "")
    if grade in STAINLESS_GRADES and strength.isdigit() and strength in known:
        return known[strength]._replace(name=f"{grade}-{strength}")
    steel = {name: one for name, one in known.items() if not name.isdigit()}
    if named not in steel:
        raise NotAChoice(
            f"{shown(named)} is not a class of bolt that has a figure here.",
            f"Read it off the head: {', '.join(steel)}, or A2-70 and the like. A plain head is of unknown class.",
            field="metal",
            value=named,
        )
    return steel[named]


def stress_area_mm2(diameter_mm: float) -> float:
    """Area on which a threaded bolt carries.

    diameter_mm  nominal diameter of a coarse metric thread, mm, one of 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20
    returns      nominal stress area, mm²

    Source: ISO 898-1, coarse threads.
    Raises NotAChoice for another diameter.

    >>> stress_area_mm2(6)
    20.1
    """
    if diameter_mm not in _areas():
        sizes = ", ".join(f"M{size:g}" for size in _areas())
        reason = f"There is no stress area for a thread of {shown(diameter_mm)} mm."
        raise NotAChoice(reason, f"Choose one of: {sizes}.", field="diameter_mm", value=diameter_mm)
    return _areas()[diameter_mm]


def yield_load_n(diameter_mm: float, of: Metal) -> float:
    """Pull at which a bolt begins to stretch for good.

    diameter_mm  as for `stress_area_mm2`, mm
    of           its metal
    returns      N, from the nominal yield strength or 0.2 % limit; no partial factor

    Source: ISO 3506-1 and ISO 898-1: stress area times yield strength.
    Raises NotAChoice for another diameter.

    >>> yield_load_n(8, metal("A2-70"))
    16470.0
    """
    return stress_area_mm2(diameter_mm) * of.yield_n_mm2


def _rows(name: str) -> list[dict[str, str]]:
    text = (files(__package__) / "data" / name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))


@cache
def _areas() -> Mapping[float, float]:
    return {float(row["diameter_mm"]): float(row["stress_area_mm2"]) for row in _rows("threads.csv")}


@cache
def _metals() -> Mapping[str, Metal]:
    return {
        row["class"]: Metal(
            row["class"],
            float(row["tensile_n_mm2"]),
            float(row["yield_n_mm2"]),
            float(row["alpha_v_thread"]),
            row["status"],
        )
        for row in _rows("bolt_classes.csv")
    }
