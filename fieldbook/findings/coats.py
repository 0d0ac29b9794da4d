"""How much of a finish the fittings of a phase take, or what has to be entered before that can be told."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ..book.site import Item
from ..checks.coating import coating_needed


@dataclass(frozen=True)
class Coated:
    """A finish and what it is for; how much of it that takes, or what has to be entered before that can be told.

    area_m2  of all of them, None where some of it is not entered; the area of a fitting counts for each of its finishes
    """

    finish: Item
    fittings: tuple[Item, ...]
    area_m2: float | None
    litres: float | None
    lacking: tuple[str, ...]


def coated(finish: Item, fittings: Iterable[Item]) -> Coated:
    """What those of some fittings that get a finish take of it."""
    those = tuple(one for one in fittings if finish.id in (one.finishes or []))
    lacking = [f"area to be coated of {one.called}" for one in those if one.coated_m2 is None]
    area = None if lacking else round(math.fsum(one.coated_m2 for one in those), 6)
    for words, value in (("number of coats", finish.coats), ("what one litre covers", finish.covers_m2_l)):
        if value is None:
            lacking.append(f"{words} of {finish.called}")
    litres = None if lacking or area is None else coating_needed(area, finish.coats, finish.covers_m2_l)
    return Coated(finish, those, area, litres, tuple(lacking))
