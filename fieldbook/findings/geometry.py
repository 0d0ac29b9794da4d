"""The fields of items as the values the checks take: the thin module between a gathered site and the checks.

Lengths in mm on the item's face.
"""

from __future__ import annotations

from typing import Any

from ..book.site import Item, Site
from ..checks import materials
from ..checks.clearance import Limit, Stretch
from ..checks.keep_off import Outline, outline_of
from ..checks.sweep import Leaf


def face_stretch(face: Item) -> Stretch:
    """The whole of a face."""
    left, bottom = face.left_mm or 0, face.bottom_mm or 0
    return Stretch(left, left + face.width_mm, bottom, bottom + face.height_mm)


def fitting_stretch(fitting: Item) -> Stretch:
    """The part of its face a fitting covers."""
    return Stretch(fitting.x_mm, fitting.x_mm + fitting.width_mm, fitting.z_mm, fitting.z_mm + fitting.height_mm)


def fixing_stretch(fixing: Item) -> Stretch:
    """The part of its face a fixing touches."""
    x, z = place_of(fixing)
    return Stretch(x, x, z, z).widened(fixing.contact_radius_mm)


def fitting_outline(fitting: Item) -> Outline:
    """The rectangle a fitting covers, as an outline."""
    part = fitting_stretch(fitting)
    return ((part.x_from, part.z_from), (part.x_to, part.z_from), (part.x_to, part.z_to), (part.x_from, part.z_to))


def floor_of(face: Item) -> tuple[tuple[float, float], ...]:
    """The floor's profile in front of a face, (x, z) sorted by x; the lower edge where none was surveyed."""
    points = sorted((x, z) for x, z in face.floor or [])
    return tuple(points) or ((face.left_mm or 0, face.bottom_mm or 0),)


def zone_outline(zone: Item) -> Outline:
    """A zone's outline as the checks take it."""
    return outline_of(zone.outline)


def place_of(fixing: Item) -> tuple[float, float]:
    """Where a fixing is: as fitted when that was measured, else as planned."""
    if fixing.fitted_x_mm is not None and fixing.fitted_z_mm is not None:
        return fixing.fitted_x_mm, fixing.fitted_z_mm
    return fixing.x_mm, fixing.z_mm


def projection_of(fitting: Item) -> float | None:
    """How far a fitting stands out at worst: its layers with all their tolerances, mm."""
    if not fitting.build_up:
        return None
    return sum(thickness + (tolerance or 0) for _, thickness, tolerance in fitting.build_up)


def limit_value(limit: Item, face: Item) -> Limit:
    """A clearance limit as the check takes it. Raises what `Leaf` raises."""
    band = Stretch(
        *(
            value if value is not None else other
            for value, other in zip(
                (limit.x_from_mm, limit.x_to_mm, limit.z_from_mm, limit.z_to_mm), _OPEN, strict=True
            )
        )
    )
    leaf, projection = None, limit.projection_mm
    below: tuple[tuple[float, float], ...] = ()
    if limit.sort == "leaf":
        boxes = tuple(tuple(box) for box in limit.boxes)
        leaf = Leaf((limit.hinge_x_mm, limit.hinge_y_mm), limit.swing_from_deg, limit.swing_to_deg, boxes)
    elif limit.sort == "route":
        projection = limit.available_mm - limit.clear_width_mm
    elif limit.sort == "headroom":
        below = tuple((x, z + limit.headroom_mm) for x, z in floor_of(face))
    return Limit(limit_name(limit), band, limit.margin_mm, leaf, projection, below, limit.id)


def limit_name(limit: Item) -> str:
    """How a sentence calls a limit."""
    return f"{limit.mark} ({limit.name})" if limit.mark else limit.name


_OPEN = (Stretch().x_from, Stretch().x_to, Stretch().z_from, Stretch().z_to)


def limits_of(site: Site, face: Item) -> list[Limit]:
    """All clearance limits of a face as the check takes them."""
    return [limit_value(limit, face) for limit in site.of(face, "limit")]


def known_materials(site: Site) -> materials.Known:
    """The table of materials with the site's own before it, made once a site."""
    site.all("material")  # noted each time, since what is kept depends on it
    if "_materials" not in site.__dict__:
        site.__dict__["_materials"] = materials.Known(own_materials(site))
    return site.__dict__["_materials"]


def own_materials(site: Site) -> list[dict[str, Any]]:
    """The site's own materials, as rows of the table of materials; those without a figure yet say nothing."""
    rows = []
    for own in site.all("material"):
        figures = {name: own.values[name] for name in materials.PROPERTIES if own.values[name] is not None}
        if figures:
            rows.append({"material": own.name, "group": own.group, "source": own.source} | figures)
    return rows
