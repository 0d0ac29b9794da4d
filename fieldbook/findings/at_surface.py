"""How damp it gets at the surface of a face: the air of its room, and before a cold wall, the air that touches it."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import NamedTuple

from ..book.site import Item
from ..checks import air
from ..checks.range_seen import halves_lacking
from ..errors import Missing
from . import readings
from .asking import Asked

AT_THE_SAME_TIME = timedelta(hours=1)
COLD_HALF = "October to March"

READS = {**readings.READS, "face.outer_wall": "neither"}


class Together(NamedTuple):
    """A surface and the air read at one time, at their unfavourable ends: °C and %; outside_c: None where not read."""

    at: str
    surface_c: float
    inside_c: float
    humidity_pct: float
    outside_c: float | None


def highest_pct(asked: Asked, face: Item) -> float:
    """The highest relative humidity at the surface of a face, %, with what the readings may be off.

    Raises NotEntered where the room's air or a cold wall's surface was not read through the year, and
    Missing where nobody said whether it is an outer wall.
    """
    outer = asked.need(face, "outer_wall")
    known = face.outer_wall is not None
    about = face.id, outer, known
    told: float = asked.told_once(("highest at the surface", *about), lambda later: _highest(later, *about))
    return told


def wood_moisture_pct(asked: Asked, face: Item) -> float:
    """The highest moisture content read in the wood of a face, of its room where none was read on it, %.

    Raises NotEntered where none was read.
    """
    return asked.once(("wood at the surface", face.id), lambda: _wood(asked, face))


def _wood(asked: Asked, face: Item) -> float:
    quantity, room = "wood moisture content", asked.site[face.room]
    found = readings.measured(asked, room, quantity)
    here = [one for one in found if one.face == face.id] or found
    if not here:
        words = f"a reading of the wood moisture content of {face.called}, at its dampest"
        raise asked.lack(room, "reading", words, quantity=quantity)
    return max(readings.span_of(one)[1] for one in here)


def _highest(asked: Asked, of_face: str, outer: int, known: bool) -> float:
    face = asked.site[of_face]
    room = asked.site[face.room]
    seen = min(readings.seen(asked, room, "relative humidity").high, 100.0)
    if not outer:
        return seen
    read = together(asked, face)
    if COLD_HALF in halves_lacking([datetime.fromisoformat(one.at).timestamp() for one in read]):
        if not known:
            reason = f"Nobody said whether {face.called} is an outer wall, which is colder than the air."
            raise Missing(reason, "Enter it on the face.", field="outer_wall")
        words = f"the surface temperature of {face.called} with the air, from {COLD_HALF}"
        raise asked.lack(room, "reading", words, quantity="surface temperature")
    at_wall = (air.surface_humidity(one.inside_c, one.humidity_pct, one.surface_c) for one in read)
    return min(max(seen, *at_wall), 100.0)


def together(asked: Asked, face: Item) -> list[Together]:
    """The readings of a face's surface that were taken together with the air."""
    room = asked.site[face.room]
    surfaces = [one for one in readings.measured(asked, room, "surface temperature") if one.face == face.id]
    if not surfaces:
        return []
    warmth = readings.measured(asked, room, "air temperature")
    damp = readings.measured(asked, room, "relative humidity")
    outside = readings.measured(asked, room, "outside temperature")
    found = []
    for surface in surfaces:
        air_then, damp_then, out_then = (beside(others, surface) for others in (warmth, damp, outside))
        if air_then is not None and damp_then is not None:
            found.append(
                Together(
                    surface.at,
                    readings.span_of(surface)[0],
                    readings.span_of(air_then)[1],
                    min(readings.span_of(damp_then)[1], 100.0),
                    out_then.value if out_then else None,
                )
            )
    return found


def beside(others: list[Item], reading: Item) -> Item | None:
    """The reading nearest in time to another, if it was taken within an hour of it."""
    at = datetime.fromisoformat(reading.at)
    near = [(abs(datetime.fromisoformat(other.at) - at), other) for other in others]
    best = min(near, key=lambda pair: pair[0], default=None)
    return best[1] if best and best[0] <= AT_THE_SAME_TIME else None
