"""Whether fittings and fixings stand where they may: keep-off zones and clearance limits."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from .. import gather
from ..checks import clearance as clearance_check
from ..checks import keep_off as keep_off_check
from ..checks.clearance import Stretch
from ..checks.keep_off import Outline
from ..checks.verdict import Verdict, not_known, not_known_because
from ..errors import FieldbookError
from ..gather import Item, Site

Found = Iterator[tuple[Item, Item | None, Verdict]]
GONE = "taken down"


def keep_off(site: Site) -> Found:
    """Each fixing and fitting held against every zone of its face that forbids what it does."""
    for face in site.all("face"):
        zones = site.of(face, "zone")
        for fixing in site.fixings_on(face):
            if fixing.state != GONE and fixing.fabric != "another fitting":
                for zone in zones:
                    if verdict := _fixing_in_zone(fixing, zone):
                        yield fixing, zone, verdict
        for fitting in site.of(face, "fitting"):
            if fitting.state != GONE:
                for zone in zones:
                    if set(zone.forbids) & fitting_acts(fitting):
                        verdict = _area(
                            zone.called, gather.zone_outline(zone), gather.fitting_outline(fitting), zone.margin_mm
                        )
                        yield fitting, zone, verdict


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


def _fixing_in_zone(fixing: Item, zone: Item) -> Verdict | None:
    acts = fixing_acts(fixing) & set(zone.forbids)
    if not acts:
        return None
    if acts == {"drilling"}:
        # Only the hole matters there, not the plate over it.
        if fixing.diameter_mm is None:
            return not_known(
                "keep-off",
                ("diameter_mm",),
                f"The hole's diameter near {zone.called} is not entered.",
                keep_off_check.SOURCE,
                "mm",
            )
        radius = fixing.diameter_mm / 2
    else:
        radius = fixing.contact_radius_mm
    depth_matters = zone.safe_depth_mm is not None and fixing.hole != "none"
    if depth_matters and fixing.penetration_mm is None:
        return not_known(
            "keep-off",
            ("penetration_mm",),
            f"How deep it goes in {zone.called} is not entered.",
            keep_off_check.SOURCE,
            "mm",
        )
    return _disc(
        zone.called,
        gather.zone_outline(zone),
        gather.place_of(fixing),
        radius,
        zone.margin_mm,
        fixing.penetration_mm if depth_matters else None,
        zone.safe_depth_mm if depth_matters else None,
    )


def clearance(site: Site) -> Found:
    """What stands out, held against the clear depth over the part of the face it takes up."""
    for face in site.all("face"):
        limits = site.of(face, "limit")
        for subject, stretch, projection in _standing_out(site, face) if limits else ():
            try:
                values = tuple(gather.limits_of(site, face))
                by = clearance_check.clear_depth(values, stretch).limited_by
                yield subject, _named(limits, by), _clearance(projection, values, stretch)
            except FieldbookError as error:
                yield subject, None, not_known_because("clearance", error, clearance_check.SOURCE, "mm")


def _standing_out(site: Site, face: Item) -> Iterator[tuple[Item, Stretch, float | None]]:
    """Fittings, and the fixings that stand out by themselves or lie outside their fitting."""
    for fitting in site.of(face, "fitting"):
        if fitting.state != GONE:
            yield fitting, gather.fitting_stretch(fitting), gather.projection_of(fitting)
    for fixing in site.fixings_on(face):
        part = gather.fixing_stretch(fixing)
        inside = (
            (fitting := site.get(fixing.fitting))
            and fitting.face == face.id
            and part.meets(gather.fitting_stretch(fitting))
        )
        if fixing.state != GONE and (fixing.stands_out_mm is not None or not inside):
            yield fixing, part, fixing.stands_out_mm


def _named(limits: list[Item], name: str | None) -> Item | None:
    return next((limit for limit in limits if gather.limit_name(limit) == name), None)


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
