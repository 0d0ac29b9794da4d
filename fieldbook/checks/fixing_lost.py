"""What a group of fixings still holds when one lets go, and how many must be in before anyone lets go of the work."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from ..errors import FieldbookError
from .face_load import MASS_HIGH_KG
from .fixing_forces import Carried, Fixing, holding
from .limits import within

# kg. Above it one fixing is never enough before hands come off: common practice, no source.
TWO_FIXINGS_KG = 25.0

Forces = Callable[[Sequence[Fixing]], Sequence[Carried]]
Use = Callable[[int, Carried], float]


class Lost(NamedTuple):
    """What happens when one fixing lets go.

    fixing   which one, counted from 0
    hardest  the one then hardest worked, counted from 0; None where the rest does not hold at all
    use      how much of that one's strength is used, no unit; infinite where the rest does not hold at all
    why      in words, where the rest does not hold
    """

    fixing: int
    hardest: int | None
    use: float
    why: str = ""


def one_lost(
    fixings: Sequence[Fixing],
    forces: Forces,
    use: Use,
) -> list[Lost]:
    """For each fixing that holds: does the rest hold when it lets go?

    fixings  2 or more, mm
    forces   what each of some fixings carries, N, as `carried` or `worst` give it
    use      how much of its strength fixing number i then uses, no unit, 1 being all of it
    returns  one for each fixing that holds, the worst first

    Source: common practice, no source: an overhead thing shall not fall when any one fixing lets go.
    Raises Missing where nothing holds.

    >>> alike = lambda group: [Carried(0, 0, 80 / len(group)) for _ in group]
    >>> one_lost([Fixing(-200, 0), Fixing(200, 0)], alike, lambda place, each: each.pull_n / 100)[0].use
    0.8
    """
    holding(fixings)
    found = [_without(fixings, lost, forces, use) for lost, fixing in enumerate(fixings) if fixing.holds]
    return sorted(found, key=lambda each: -each.use)


def least_number(
    fixings: Sequence[Fixing],
    forces: Forces,
    use: Use,
    mass_kg: float,
    overhead: bool,
) -> int | None:
    """How many fixings must be in before anyone lets go, when they go in in the order given.

    fixings       mm, in the order they go in
    forces, use   as for `one_lost`
    mass_kg       of what is held up, kg, 0 to 100 000; above 25 kg one fixing is never enough
    overhead      whether it hangs above people; then one is never enough either
    returns       number of fixings, or None where even all of them do not do

    Source: common practice, no source.
    Raises Missing where nothing holds; OutOfRange for a mass outside the limits.

    >>> alike = lambda group: [Carried(0, 0, 280 / len(group)) for _ in group]
    >>> least_number([Fixing(x, 0) for x in (0, 90, 180, 270)], alike, lambda place, each: each.pull_n / 100, 28, True)
    3
    """
    holding(fixings)
    least = 2 if within("mass_kg", mass_kg, 0, MASS_HIGH_KG, "kg") > TWO_FIXINGS_KG or overhead else 1
    for number in range(1, len(fixings) + 1):
        part = fixings[:number]
        if sum(fixing.holds for fixing in part) < least:
            continue
        try:
            uses = [use(place, each) for place, each in enumerate(forces(part)) if part[place].holds]
        except FieldbookError:
            continue
        if max(uses) <= 1:
            return number
    return None


def _without(
    fixings: Sequence[Fixing],
    lost: int,
    forces: Forces,
    use: Use,
) -> Lost:
    left = [place for place in range(len(fixings)) if place != lost]
    if not any(fixings[place].holds for place in left):
        return Lost(lost, None, math.inf, "Nothing else holds.")
    try:
        found = forces([fixings[place] for place in left])
    except FieldbookError as error:
        return Lost(lost, None, math.inf, error.reason)
    uses = [(use(place, each), place) for place, each in zip(left, found, strict=True) if fixings[place].holds]
    most, place = max(uses)
    return Lost(lost, place, most)
