"""Whether fittings and fixings stand where they may: keep-off zones and clearance limits."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from ..book.site import Item, Site
from ..checks import clearance as clearance_check
from ..checks import keep_off as keep_off_check
from ..checks.clearance import Stretch
from ..checks.keep_off import Outline
from ..checks.verdict import Verdict, not_known, not_known_because
from ..errors import FieldbookError
from . import geometry

Found = Iterator[tuple[Item, Item | None, Verdict]]


def keep_off(site: Site) -> Found:
    """Each fixing and fitting held against every zone of its face that forbids what it does."""
    for face in site.all("face"):
        zones = [(zone, frozenset(zone.forbids), geometry.zone_outline(zone)) for zone in site.of(face, "zone")]
        for fixing in site.fixings_on(face):
            if fixing.stands and fixing.fabric != "another fitting":
                acts = fixing_acts(fixing)
                for zone, forbids, outline in zones:
                    if against := acts & forbids:
                        yield fixing, zone, _fixing_in_zone(fixing, against, zone, outline)
        for fitting in site.of(face, "fitting"):
            acts, footprint = fitting_acts(fitting), geometry.fitting_outline(fitting)
            for zone, forbids, outline in zones if fitting.stands else ():
                if acts & forbids:
                    yield fitting, zone, _area(zone.called, outline, footprint, zone.margin_mm)


def fixing_acts(fixing: Item) -> set[str]:
    """What a fixing does to the fabric, in the words a zone forbids it with."""
    acts = {"contact"}
    if fixing.hole == "new":
        acts.add("drilling")
    if fixing.adhesive or fixing.sort == "adhesive pad":
        acts.add("adhesive")
    if fixing.carries_load:
        acts.add("load")
    return acts


def fitting_acts(fitting: Item) -> set[str]:
    """What a fitting does beyond its fixings."""
    return set(fitting.gives or []) | ({"contact"} if fitting.touches_face else set())


def _fixing_in_zone(fixing: Item, against: set[str], zone: Item, outline: Outline) -> Verdict:
    """The verdict on a fixing that does something a zone forbids."""
    radius = fixing.contact_radius_mm
    if against == {"drilling"}:  # only the hole matters there, not the plate over it
        if fixing.diameter_mm is None:
            return _not_entered("diameter_mm", f"The hole's diameter near {zone.called} is not entered.")
        radius = fixing.diameter_mm / 2
    penetration = safe_depth = None
    if zone.safe_depth_mm is not None and fixing.hole != "none":
        if fixing.penetration_mm is None:
            return _not_entered("penetration_mm", f"How deep it goes in {zone.called} is not entered.")
        penetration, safe_depth = fixing.penetration_mm, zone.safe_depth_mm
    return _disc(zone.called, outline, geometry.place_of(fixing), radius, zone.margin_mm, penetration, safe_depth)


def _not_entered(field: str, sentence: str) -> Verdict:
    return not_known("keep-off", (field,), sentence, keep_off_check.SOURCE, "mm")


def clearance(site: Site) -> Found:
    """What stands out, held against the clear depth over the part of the face it takes up."""
    for face in site.all("face"):
        for subject, stretch, projection in _standing_out(site, face) if site.of(face, "limit") else ():
            try:
                values = tuple(geometry.limits_of(site, face))
                by = clearance_check.clear_depth(values, stretch).limited_by
                yield subject, site[by.id] if by else None, _clearance(projection, values, stretch)
            except FieldbookError as error:
                yield subject, None, not_known_because("clearance", error, clearance_check.SOURCE, "mm")


def _standing_out(site: Site, face: Item) -> Iterator[tuple[Item, Stretch, float | None]]:
    """Fittings, and the fixings that stand out by themselves or lie outside their fitting."""
    for fitting in site.of(face, "fitting"):
        if fitting.stands:
            yield fitting, geometry.fitting_stretch(fitting), geometry.projection_of(fitting)
    for fixing in site.fixings_on(face):
        part = geometry.fixing_stretch(fixing)
        holder = site.get(fixing.fitting)
        inside = holder and holder.face == face.id and part.meets(geometry.fitting_stretch(holder))
        if fixing.stands and (fixing.stands_out_mm is not None or not inside):
            yield fixing, part, fixing.stands_out_mm


@lru_cache(maxsize=65_536)
def _disc(
    zone: str,
    outline: Outline,
    point: tuple[float, float],
    radius: float,
    margin: float,
    penetration: float | None,
    safe_depth: float | None,
) -> Verdict:
    try:
        distance = keep_off_check.disc_distance(outline, point, radius)
        return keep_off_check.keep_off_verdict(zone, distance, margin, penetration, safe_depth)
    except FieldbookError as error:
        return not_known_because("keep-off", error, keep_off_check.SOURCE, "mm")


@lru_cache(maxsize=16_384)
def _area(zone: str, outline: Outline, footprint: Outline, margin: float) -> Verdict:
    try:
        return keep_off_check.keep_off_verdict(zone, keep_off_check.area_distance(outline, footprint), margin)
    except FieldbookError as error:
        return not_known_because("keep-off", error, keep_off_check.SOURCE, "mm")


@lru_cache(maxsize=16_384)
def _clearance(projection: float | None, limits: tuple[clearance_check.Limit, ...], stretch: Stretch) -> Verdict:
    try:
        return clearance_check.projection_verdict(projection, limits, stretch)
    except FieldbookError as error:
        return not_known_because("clearance", error, clearance_check.SOURCE, "mm")
