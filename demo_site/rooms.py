"""The four rooms, and what is booked of them, in one place."""

from __future__ import annotations

from collections.abc import Mapping

from . import asked_besides, bonded_store, clerks_office, stair_passage, weighing_hall, weighing_hall_fittings
from .booking import Values

_ROOMS = (weighing_hall, clerks_office, stair_passage, bonded_store)


def _all(name: str) -> tuple[Values, ...]:
    return tuple(item for part in (*_ROOMS, weighing_hall_fittings) for item in getattr(part, name, ()))


def _with(items: tuple[Values, ...], besides: Mapping[str, Values]) -> tuple[Values, ...]:
    return tuple(item | besides.get(item["mark"], {}) for item in items)


ROOMS = _with(tuple(room.ROOM for room in _ROOMS), asked_besides.ROOMS)
FACES = _with(_all("FACES"), asked_besides.FACES)
ZONES, LIMITS, HOLDS = _all("ZONES"), _all("LIMITS"), _all("HOLDS")
MEMBERS, PATCHES = _all("MEMBERS"), _all("PATCHES")
BUILD_UPS = (weighing_hall_fittings.ON_THE_FRAME,)
FITTINGS = _with(_all("FITTINGS"), asked_besides.FITTINGS)
FIXINGS = _with(_all("FIXINGS"), asked_besides.FIXINGS)
