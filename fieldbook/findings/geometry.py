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
from ..errors import Missing, OutOfRange

# A wall that leans no farther is out of plumb, and z on it is a height: common practice, no source.
UPRIGHT_DEG = 1.0


def face_stretch(face: Item) -> Stretch:
    """The whole of a face."""
    left, bottom = face.left_mm or 0, face.bottom_mm or 0
    return Stretch(left, left + face.width_mm, bottom, bottom + face.height_mm)


def fitting_stretch(fitting: Item) -> Stretch:
    """The part of its face a fitting covers."""
    return Stretch(fitting.x_mm, fitting.x_mm + fitting.width_mm, fitting.z_mm, fitting.z_mm + fitting.height_mm)


def member_stretch(member: Item) -> Stretch:
    """The part of its face a board or timber covers."""
    return Stretch(member.x_mm, member.x_mm + member.width_mm, member.z_mm, member.z_mm + member.height_mm)


def fixing_stretch(fixing: Item) -> Stretch:
    """The part of its face a fixing touches."""
    x, z = place_of(fixing)
    return Stretch(x, x, z, z).widened(fixing.contact_radius_mm)


def fitting_outline(fitting: Item, moves_mm: float = 0) -> Outline:
    """The rectangle a fitting covers, as an outline; with `moves_mm`, wherever it may be set so far to either side."""
    return stretch_outline(fitting_stretch(fitting), moves_mm)


def stretch_outline(part: Stretch, moves_mm: float = 0) -> Outline:
    """The same of a part of a face."""
    left, right = part.x_from - moves_mm, part.x_to + moves_mm
    return ((left, part.z_from), (right, part.z_from), (right, part.z_to), (left, part.z_to))


def floor_of(face: Item) -> tuple[tuple[float, float], ...]:
    """The floor's profile in front of a face, (x, z) sorted by x; the lower edge where none was surveyed."""
    points = sorted((x, z) for x, z in face.floor or [])
    return tuple(points) or ((face.left_mm or 0, face.bottom_mm or 0),)


def zone_outline(zone: Item) -> Outline:
    """A zone's outline as the checks take it."""
    return outline_of(zone.outline)


def place_of(fixing: Item) -> tuple[float, float]:
    """Where a fixing is: as fitted when that was measured, else as planned."""
    x, z = fixing.fitted_x_mm, fixing.fitted_z_mm
    return (fixing.x_mm, fixing.z_mm) if x is None or z is None else (x, z)


def projection_of(fitting: Item) -> float | None:
    """How far a fitting stands out at worst: its layers with all their tolerances, mm."""
    if not fitting.build_up:
        return None
    return sum(thickness + (tolerance or 0) for _, thickness, tolerance in fitting.build_up)


def band_of(limit: Item) -> Stretch:
    """The part of its face a limit is about; a side that is not entered is open.

    A leaf limits wherever its sweep passes: of its band only the heights count.
    """
    ends = (limit.x_from_mm, limit.x_to_mm, limit.z_from_mm, limit.z_to_mm)
    if limit.sort == "leaf":
        ends = (None, None, *ends[2:])
    return Stretch(*(open_end if end is None else end for end, open_end in zip(ends, _OPEN, strict=True)))


def limit_value(limit: Item, face: Item, above_mm: float | None = None) -> Limit:
    """A clearance limit as the check takes it. Raises what `Leaf` raises.

    What must be seen leaves nothing in front of it, nor within its margin beside it. Under a ceiling or soffit
    headroom is what its height leaves; on a face that leans, where z is no height, it is held at every z.
    above_mm  how high such a face is above the floor, where that is known
    """
    band = band_of(limit)
    name, margin = limit_name(limit), limit.margin_mm
    if limit.sort == "leaf":
        boxes = tuple(tuple(box) for box in limit.boxes)
        leaf = Leaf((limit.hinge_x_mm, limit.hinge_y_mm), limit.swing_from_deg, limit.swing_to_deg, boxes)
        return Limit(name, band, margin, leaf, None, (), limit.id)
    if limit.sort == "keep in view":
        return Limit(name, band.widened(margin), 0, None, 0, (), limit.id)
    if limit.sort == "route":
        return Limit(name, band, margin, None, limit.available_mm - limit.clear_width_mm, (), limit.id)
    if limit.sort == "headroom" and overhead(face):
        left = None if above_mm is None else above_mm - limit.headroom_mm
        return Limit(name, band, margin, None, left, (), limit.id)
    if limit.sort == "headroom" and is_upright(face):
        below = tuple((x, z + limit.headroom_mm) for x, z in floor_of(face))
        return Limit(name, band, margin, None, limit.projection_mm, below, limit.id)
    if limit.sort == "headroom":  # its margin is one of height
        return Limit(name, band, 0, None, limit.projection_mm, (), limit.id)
    return Limit(name, band, margin, None, limit.projection_mm, (), limit.id)


def overhead(face: Item) -> bool:
    """Whether what stands on a face hangs over the floor."""
    return face.sort in {"ceiling", "soffit"}


def is_upright(face: Item) -> bool:
    """Whether z on a face is a height for certain."""
    return abs(face.slope_deg) <= UPRIGHT_DEG if face.slope_deg is not None else face.sort != "other"


def need_upright(face: Item, what: str) -> None:
    """Let pass only a face on which z is a height; raises OutOfRange, or Missing where nobody said how it leans.

    what  what is reckoned from that height
    """
    if face.slope_deg is None and face.sort == "other":
        raise Missing(
            f"How far {face.called} leans over is not entered, and {what} is worked out from heights.",
            "Measure its slope.",
            field="slope_deg",
        )
    if not is_upright(face):
        raise OutOfRange(
            f"{face.called} leans over by {face.slope_deg:g}°, where z is no height, "
            f"and {what} is worked out from heights.",
            "Measure it on the spot, and have it decided there.",
            field="slope_deg",
            value=face.slope_deg,
        )


def above_floor(site: Site, face: Item) -> float | None:
    """How high a ceiling or soffit is above the floor, mm; a ceiling's height may be entered with its room."""
    if face.above_floor_mm is None and face.sort == "ceiling":
        return site[face.room].ceiling_mm
    return face.above_floor_mm


def limit_name(limit: Item) -> str:
    """How a sentence calls a limit."""
    return f"{limit.mark} ({limit.name})" if limit.mark else limit.name


_OPEN = (Stretch().x_from, Stretch().x_to, Stretch().z_from, Stretch().z_to)


def known_materials(site: Site) -> materials.Known:
    """The table of materials with the site's own before it, made once a site."""
    return site.once(("materials",), lambda: materials.Known(own_materials(site)))


def own_materials(site: Site) -> list[dict[str, Any]]:
    """The site's own materials, as rows of the table of materials; those without a figure yet say nothing."""
    rows = []
    for own in site.all("material"):
        figures = {name: own.values[name] for name in materials.PROPERTIES if own.values[name] is not None}
        if figures:
            rows.append({"material": own.name, "group": own.group, "source": own.source} | figures)
    return rows
