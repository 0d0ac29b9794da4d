"""The four rooms, and what is booked of them, in one place."""

from __future__ import annotations

from . import bonded_store, clerks_office, stair_passage, weighing_hall, weighing_hall_fittings
from .booking import Values

_ROOMS = (weighing_hall, clerks_office, stair_passage, bonded_store)


def _all(name: str) -> tuple[Values, ...]:
    return tuple(item for part in (*_ROOMS, weighing_hall_fittings) for item in getattr(part, name, ()))


ROOMS = tuple(room.ROOM for room in _ROOMS)
FACES, ZONES, LIMITS, HOLDS = _all("FACES"), _all("ZONES"), _all("LIMITS"), _all("HOLDS")
FITTINGS, FIXINGS = _all("FITTINGS"), _all("FIXINGS")
