"""The booking of a face, the surveyor's old way: distance along it in the middle, plan left, finding right."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ...book.site import Item, Site
from ...book.wording import day, figure, joined
from ...checks.limits import rounded_up
from ...model.choices import PLANNED

FOUND = ("hold", "reading", "observation")


@dataclass(frozen=True)
class BookingLine:
    """One line of the booking.

    x_mm, x_to_mm  where it is along the face, or from where to where
    z_mm, z_to_mm  likewise upwards
    planned        what was agreed or planned, in words; found what was found or fitted
    found_first    whether it was found rather than planned, and is named on that side
    """

    item: Item
    x_mm: float
    x_to_mm: float | None
    z_mm: float | None
    z_to_mm: float | None
    planned: str = ""
    found: str = ""

    @property
    def found_first(self) -> bool:
        return self.item.kind in FOUND


def booking_of(site: Site, face: Item) -> list[BookingLine]:
    """Every thing on a face in the order one meets it from left to right."""
    things = [one for kind in ("zone", "limit", "hold", "fitting") for one in site.of(face, kind)]
    seen = [
        one
        for kind in ("reading", "observation")
        for one in site.all(kind)
        if one.face == face.id and one.x_mm is not None
    ]
    lines = [_LINES[one.kind](one, face) for one in (*things, *site.fixings_on(face), *seen)]
    return sorted(lines, key=lambda line: line.x_mm)


def _zone(zone: Item, _: Item) -> BookingLine:
    xs, zs = zip(*zone.outline, strict=True)
    words = f"no {joined(zone.forbids, 'or')}; margin {figure(zone.margin_mm, 'mm')}"
    return BookingLine(zone, min(xs), max(xs), min(zs), max(zs), words)


def _limit(limit: Item, face: Item) -> BookingLine:
    left = face.left_mm or 0
    x_from = left if limit.x_from_mm is None else limit.x_from_mm
    x_to = left + face.width_mm if limit.x_to_mm is None else limit.x_to_mm
    what = "to be kept in view" if limit.sort == "keep in view" else f"{limit.leaf or limit.sort} to stay free"
    words = f"{what}; margin {figure(limit.margin_mm, 'mm')}"
    return BookingLine(limit, x_from, x_to, limit.z_from_mm, limit.z_to_mm, words)


def _hold(hold: Item, _: Item) -> BookingLine:
    size = f", ⌀ {figure(hold.diameter_mm, 'mm')}" if hold.diameter_mm else ""
    return BookingLine(
        hold, hold.x_mm, None, hold.z_mm, None, "", f"{hold.sort}{size}; may be used: {hold.may_be_used}"
    )


def _fitting(fitting: Item, _: Item) -> BookingLine:
    size = f"{figure(fitting.width_mm)} × {figure(fitting.height_mm, 'mm')}"
    x_to, z_to = fitting.x_mm + fitting.width_mm, fitting.z_mm + fitting.height_mm
    return BookingLine(fitting, fitting.x_mm, x_to, fitting.z_mm, z_to, size, _state(fitting))


def _fixing(fixing: Item, _: Item) -> BookingLine:
    make = " ".join(filter(None, (fixing.sort, fixing.size)))
    found = _state(fixing)
    if fixing.fitted_x_mm is not None and fixing.fitted_z_mm is not None:
        off = math.hypot(fixing.fitted_x_mm - fixing.x_mm, fixing.fitted_z_mm - fixing.z_mm)
        place = f"x {figure(fixing.fitted_x_mm)}, z {figure(fixing.fitted_z_mm)}"
        found += f" at {place}: {figure(rounded_up(off), 'mm')} off the plan"
    elif fixing.fitted_place and fixing.state != PLANNED:
        found += f"; place {fixing.fitted_place}"
    return BookingLine(fixing, fixing.x_mm, None, fixing.z_mm, None, make, found)


def _state(item: Item) -> str:
    if item.state == PLANNED:
        return "not yet"
    return f"{item.state} {day(item.fitted_on if item.stands else item.taken_down_on)}".strip()


def _reading(reading: Item, _: Item) -> BookingLine:
    return BookingLine(
        reading, reading.x_mm, None, reading.z_mm, None, "", f"{figure(reading.value, reading.unit)}, {day(reading.at)}"
    )


def _observation(seen: Item, _: Item) -> BookingLine:
    return BookingLine(seen, seen.x_mm, None, seen.z_mm, None, "", f"seen {day(seen.at)}")


_LINES: Mapping[str, Callable[[Item, Item], BookingLine]] = {
    "zone": _zone,
    "limit": _limit,
    "hold": _hold,
    "fitting": _fitting,
    "fixing": _fixing,
    "reading": _reading,
    "observation": _observation,
}


BOOKED = _LINES.keys()


def without_place(site: Site, face: Item) -> Iterator[Item]:
    """Readings and observations on a face that no place was given for."""
    for kind in ("reading", "observation"):
        yield from (one for one in site.all(kind) if one.face == face.id and one.x_mm is None)


# Name in the address -> how it is called, and the kinds it shows; the first shows all.
SHOWN: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "": ("All", tuple(BOOKED)),
    "limits": ("Zones and limits", ("zone", "limit")),
    "work": ("Fittings and fixings", ("fitting", "fixing")),
    "found": ("Found there", FOUND),
}


def parts_of(
    site: Site, lines: Sequence[BookingLine], only: str, *, by_fitting: bool
) -> list[tuple[Item | None, list[BookingLine]]]:
    """Those lines of a booking that are to be shown, under the fitting each belongs to where that is asked for.

    only  a name of SHOWN; any other shows all
    """
    _, kinds = SHOWN.get(only, SHOWN[""])
    shown = [line for line in lines if line.item.kind in kinds]
    if not by_fitting:
        return [(None, shown)] if shown else []
    parts: dict[str, list[BookingLine]] = {}
    for line in shown:
        owner = line.item.id if line.item.kind == "fitting" else line.item.values.get("fitting") or ""
        parts.setdefault(owner, []).append(line)
    return [(site.get(owner), those) for owner, those in sorted(parts.items(), key=lambda part: part[0] == "")]
