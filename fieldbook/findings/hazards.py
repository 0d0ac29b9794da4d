"""Which of the usual cautions a fitting or a room calls for, from what the book holds about them."""

from __future__ import annotations

from collections.abc import Sequence

from ..book.site import Item, Site
from ..checks.cautions import CAUTIONS, Caution, applying, needs_engineer
from ..model.choices import HAZARDS
from . import geometry
from .acts import PIERCING, makes_hole
from .looked import hazards_at

# What is said where a hole, or a fixing on a ceiling, is entered.
MINDED = {"hole": ("hidden services", "asbestos", "old lead paint", "dust"), "overhead": ("overhead work",)}


def cautions_in(room: Item) -> tuple[Caution, ...]:
    """The cautions for the hazards entered for a room."""
    return tuple(CAUTIONS[hazard] for hazard in HAZARDS if hazard in (room.hazards or []))


def cautions_for(site: Site, fitting: Item) -> tuple[Caution, ...]:
    """The cautions a fitting calls for. A fact that is not entered counts as if it were so."""
    fixings = site.of(fitting, "fixing")
    hazards = _hazards(site, fitting)
    return applying(
        mass_kg=_mass(fitting),
        underside_mm=underside(site, fitting),
        within_reach=_within_reach(fitting),
        makes_holes=any(fixing.hole == "new" for fixing in fixings),
        disturbs_old_paint=_disturbs_old_paint(fixings, hazards),
        powered=bool(set(fitting.gives or []) & {"heat", "light"}),
        on_a_route=_on_a_route(site, fitting, hazards),
        uses_solvents=_uses_solvents(fitting, fixings),
    )


def cautions_of(site: Site, one: Item) -> tuple[Caution, ...]:
    """The cautions that an item of any kind calls for by itself; none for most kinds."""
    if one.kind == "fitting":
        return cautions_for(site, one)
    if one.kind == "finish":
        return (CAUTIONS["solvents and fumes"],)
    if one.kind != "fixing":
        return ()
    called_for = {"hole": makes_hole(site, one), "overhead": geometry.overhead(site[one.face])}
    return tuple(CAUTIONS[key] for when, keys in MINDED.items() if called_for[when] for key in keys)


def minded(site: Site) -> tuple[tuple[str, str, tuple[Caution, ...]], ...]:
    """What a fixing's form says while it is filled in: when, what that turns on, and the cautions.

    A hole turns on the sorts that make one by themselves, a ceiling on the faces that hang over the floor.
    """
    turns_on = {
        "hole": "|".join(sorted(PIERCING)),
        "overhead": " ".join(face.id for face in site.all("face") if geometry.overhead(face)),
    }
    return tuple((when, turns_on[when], tuple(CAUTIONS[key] for key in keys)) for when, keys in MINDED.items())


def engineer_decides(site: Site, fitting: Item) -> bool:
    """Whether an engineer decides on this fitting, whatever the load checks say."""
    return needs_engineer(_mass(fitting), underside(site, fitting), _within_reach(fitting))


def underside(site: Site, fitting: Item) -> float | None:
    """Height (mm) of a fitting's lower edge above the lowest floor in front of its face; None where z is no height."""
    face = site[fitting.face]
    if geometry.overhead(face) or not geometry.is_upright(face):
        return None
    return max(0.0, fitting.z_mm - min(z for _, z in geometry.floor_of(face)))


def _mass(fitting: Item) -> float | None:
    return fitting.mass_loaded_kg if fitting.mass_loaded_kg is not None else fitting.mass_empty_kg


def _within_reach(fitting: Item) -> bool | None:
    return None if fitting.climbable is None else bool(fitting.climbable)


def _hazards(site: Site, fitting: Item) -> list[str] | None:
    """The hazards about it; None when none were entered, which is not the same as there being none."""
    face = site[fitting.face]
    found = list(hazards_at(site, face))
    return None if site[face.room].hazards is None and not found else found


def _disturbs_old_paint(fixings: Sequence[Item], hazards: list[str] | None) -> bool | None:
    if hazards is not None:
        return "old lead paint" in hazards
    return None if any(fixing.fabric == "old fabric" for fixing in fixings) else False


def _uses_solvents(fitting: Item, fixings: Sequence[Item]) -> bool | None:
    if fitting.finishes or any(fixing.adhesive for fixing in fixings):
        return True
    return None if any(fixing.adhesive is None for fixing in fixings) else False


def _on_a_route(site: Site, fitting: Item, hazards: list[str] | None) -> bool | None:
    face = site[fitting.face]
    stretch = geometry.fitting_stretch(fitting)
    routes = [limit for limit in site.of(face, "limit") if limit.sort == "route"]
    if any(geometry.limit_value(limit, face).band.meets(stretch) for limit in routes):
        return True
    return None if hazards is None else "escape route" in hazards
