"""A place of a face that is asked about, and what its zones say there about an act."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from ..book.site import Item, Site
from ..checks.keep_off import disc_distance
from ..checks.limits import rounded_down
from . import walls
from .finding import Blank
from .keep_off import why
from .looked import ASBESTOS, hazards_at
from .through import far_side
from .zones_seen import zones_of

NO = "no"
Said = tuple[str, str, Item | None] | None
"""An answer, why, and what it is held against; None where something else decides."""


@dataclass(frozen=True)
class PlaceAsked:
    """What is asked: where on which face, how wide a footprint, how deep a hole (None: any), on which day.

    sized  whether the footprint was told; where it was not, the place itself is looked at, and nothing is fine there
    """

    site: Site
    face: Item
    at: tuple[float, float]
    radius_mm: float
    depth_mm: float | None
    today: date
    sized: bool = True


def zones_at(place: PlaceAsked, act: str) -> Iterator[tuple[Item, float]]:
    """The zones that forbid an act, with the distance of the footprint's edge."""
    return ((zone, distance) for zone, distance, missing in _forbidding(place, act) if not missing)


def _forbidding(place: PlaceAsked, act: str) -> Iterator[tuple[Item, float, tuple[Blank, ...]]]:
    for one in zones_of(place.site, place.face):
        if act in one.forbids:
            yield one.item, disc_distance(one.outline, place.at, place.radius_mm), one.missing


def perhaps(place: PlaceAsked, act: str) -> str:
    """A sentence on a zone of the next wall that may reach here; "" for none."""
    for zone, distance, missing in _forbidding(place, act):
        if missing and distance < zone.margin_mm and not _bears(place, act, zone):
            return f"{why(zone, act)} It may reach round the corner: {walls.where(missing)}"
    return ""


def forbidden(place: PlaceAsked, act: str, near: Sequence[tuple[Item, float]]) -> Said:
    """What zones forbid: all of them hold."""
    struck = [(zone, distance) for zone, distance in near if distance < zone.margin_mm and not _bears(place, act, zone)]
    if struck:
        # Before a hole the zone that leaves the least depth decides; else the one that reaches nearest.
        zone, distance = min(
            struck, key=lambda pair: (may_go(pair[0]) if act == "drilling" else 0.0, pair[1] - pair[0].margin_mm)
        )
        where = (
            f"{rounded_down(distance):g} mm from it" if distance >= 0 else f"{-rounded_down(distance):g} mm inside it"
        )
        deep = _depth_told(zone) if act == "drilling" else ""
        return NO, f"{why(zone, act)} The edge lies {where}; {zone.margin_mm:g} mm must be kept.{deep}", zone
    _, behind = far_side(place.site, place.face, place.depth_mm)
    for face in (place.face, behind) if act == "drilling" else ():
        if face is not None and (there := hazards_at(place.site, face).get(ASBESTOS)):
            entered = f"Asbestos is entered for this {there.kind}" if face is place.face else _behind(there)
            return NO, f"{entered}: no hole until whoever is licensed has said where and how.", None
    return None


def _behind(there: Item) -> str:
    return f"Asbestos is entered for {there.called}, where it comes out"


def _depth_told(zone: Item) -> str:
    if may_go(zone) > 0:
        return f" A hole may go {may_go(zone):g} mm deep there."
    if zone.safe_depth_mm:
        return f" Of the {zone.safe_depth_mm:g} mm that may be penetrated the margin leaves nothing."
    return ""


def _bears(place: PlaceAsked, act: str, zone: Item) -> bool:
    """Whether a zone about depth leaves room for the hole that is asked about."""
    room = may_go(zone)
    return act == "drilling" and room > 0 and (place.depth_mm is None or place.depth_mm <= room)


def may_go(zone: Item) -> float:
    """How deep a hole may go in a zone, mm; 0 where not at all."""
    return 0.0 if zone.safe_depth_mm is None else max(zone.safe_depth_mm - zone.margin_mm, 0.0)
