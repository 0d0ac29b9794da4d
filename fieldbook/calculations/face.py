"""What must stay free on a face and in front of it: keep-off zones and clear depth."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..checks import clearance, keep_off
from ..checks.limits import rounded_down
from ..checks.sweep import FARTHEST_MM, Leaf
from ..errors import FieldbookError
from ..model.fields import Field, Type
from ..model.terms import Term
from .description import Calculation, Result, column, listed, missing, mm, number, row, table

X, Y, Z = column("x", "x"), column("y", "y"), column("z", "z")
CORNER_HELP = "one corner a line: x z"
OUTLINE_HELP = f"{CORNER_HELP}, or of a rectangle: x z width × height, or: circle x z radius"
Row = tuple[float, ...]


def _outline(name: str, label: str, **more: Any) -> Field:
    return Field(name, label, Type.OUTLINE, unit="mm", columns=(X, Z), high=10_000, **more)


def _keep_off(
    zone_mm: Sequence[Row],
    margin_mm: float = 0,
    point_mm: Row | None = None,
    radius_mm: float = 0,
    footprint_mm: Sequence[Row] | None = None,
    penetration_mm: float | None = None,
    safe_depth_mm: float | None = None,
) -> Result:
    zone = keep_off.outline_of(zone_mm)
    if footprint_mm is not None:
        distance = keep_off.area_distance(zone, keep_off.outline_of(footprint_mm))
    elif point_mm is not None:
        distance = keep_off.disc_distance(zone, (point_mm[0], point_mm[1]), radius_mm)
    else:
        raise missing("point_mm", "Give the middle of the contact, or its outline.")
    verdict = keep_off.keep_off_verdict("the zone", distance, margin_mm, penetration_mm, safe_depth_mm)
    return Result({"distance_mm": distance, "margin_left_mm": distance - margin_mm}, (keep_off.SOURCE,), verdict)


KEEP_OFF = Calculation(
    "keep-off",
    "Distance from a keep-off zone",
    "How far a footprint of any shape stays off a zone, and whether that will do.",
    (
        _outline("zone_mm", "Zone", help=OUTLINE_HELP, required=True),
        mm("margin_mm", "Margin", 0, keep_off.WIDEST_MM),
        row("point_mm", "Middle of the contact", X, Z, help="x z", group="A round footprint"),
        mm("radius_mm", Term.CONTACT_RADIUS, 0, keep_off.WIDEST_MM, help="to its far corner",
           group="A round footprint"),
        _outline("footprint_mm", "Outline of the contact", help=OUTLINE_HELP, group="Or a footprint of any shape"),
        mm("penetration_mm", Term.DEPTH_IN_WALL, 0, keep_off.WIDEST_MM, group="Where the zone is about depth"),
        mm("safe_depth_mm", Term.GREATEST_DEPTH, 0, keep_off.WIDEST_MM,
           group="Where the zone is about depth"),
    ),
    {"zone_mm": [[500, 1500], [1100, 1500], [1100, 1900], [500, 1900]], "margin_mm": 50, "point_mm": [1180, 1600],
     "radius_mm": 20},
    _keep_off,
)  # fmt: skip


def _clearance(
    leaf: Mapping[str, Any] | None = None,
    margin_mm: float = 0,
    x_mm: Sequence[float] | None = None,
    stretch_mm: Row | None = None,
    projection_mm: float | None = None,
    **limit_given: Any,
) -> Result:
    limit = _limit(leaf, margin_mm, **limit_given)
    figures: dict[str, Any] = {}
    verdict = None
    if x_mm is None and stretch_mm is None:
        raise missing("x_mm", "Give places along the face, or a stretch of it.")
    if x_mm is not None:
        figures["clear_mm"] = [_rounded(_depth_at(limit, x)) for x in x_mm]
    if stretch_mm is not None:
        stretch = clearance.Stretch(*stretch_mm)
        figures["clear_over_stretch_mm"] = _rounded(clearance.clear_depth([limit], stretch).depth_mm)
        if projection_mm is not None:
            verdict = clearance.projection_verdict(projection_mm, [limit], stretch)
    elif projection_mm is not None:
        raise missing("stretch_mm", "Give where it stands out.")
    return Result(figures, (clearance.SOURCE,), verdict)


def _limit(
    leaf: Mapping[str, Any] | None,
    margin_mm: float,
    available_mm: float | None = None,
    clear_width_mm: float | None = None,
    allowed_mm: float | None = None,
    below_mm: Sequence[Row] = (),
    band: Mapping[str, float] | None = None,
) -> clearance.Limit:
    around = clearance.Stretch(**{name.removesuffix("_mm"): edge for name, edge in (band or {}).items()})
    if leaf is not None:
        return clearance.Limit("the leaf", around, margin_mm, leaf=_leaf(leaf))
    if available_mm is not None:
        if clear_width_mm is None:
            raise missing("clear_width_mm")
        allowed_mm = clearance.route_projection(available_mm, clear_width_mm)
    if allowed_mm is None:
        raise missing("leaf", "Give a leaf, a route, or how far something may stand out.")
    below = tuple((x, z) for x, z in sorted(below_mm))
    return clearance.Limit("the limit", around, margin_mm, projection_mm=allowed_mm, below_mm=below)


def _leaf(given: Mapping[str, Any]) -> Leaf:
    for key in ("hinge_mm", "from_deg", "to_deg", "boxes_mm"):
        if key not in given:
            raise missing(f"leaf.{key}")
    try:
        return Leaf(given["hinge_mm"], given["from_deg"], given["to_deg"], tuple(given["boxes_mm"]))
    except FieldbookError as error:
        raise error.named(f"leaf.{error.field}", f"leaf.{error.field}") from error


def _depth_at(limit: clearance.Limit, x: float) -> float | None:
    """Beside a leaf the line at x itself, less the margin; under other limits the whole height there."""
    if limit.leaf is not None:
        return clearance.leaf_clear_depth(limit.leaf, x, x, limit.margin_mm)
    return clearance.clear_depth([limit], clearance.Stretch(x, x)).depth_mm


def _rounded(depth_mm: float | None) -> float | None:
    return None if depth_mm is None else rounded_down(depth_mm, 0.001)


CLEARANCE = Calculation(
    "clearance",
    "Clear depth in front of a wall",
    "The clear depth in front of a face, at places or over a stretch, beside a leaf or under another limit.",
    (
        row("leaf.hinge_mm", "Hinge", X, Y, help="x y; y out of the face, negative behind it", group="Leaf"),
        number("leaf.from_deg", "Swings from", "°", -720, 720, help="0° lies along +x, 90° points into the room",
               group="Leaf"),
        number("leaf.to_deg", "Swings to", "°", -720, 720, group="Leaf"),
        table("leaf.boxes_mm", "Boxes of leaf and handle", *(column(name, name) for name in ("u0", "u1", "v0", "v1")),
              most=100, group="Leaf",
              help="one box a line: u0 u1 v0 v1; u along the leaf from the hinge, v at 90° anticlockwise from u"),
        mm("available_mm", "Free width today", 0, FARTHEST_MM, group="Or a route"),
        mm("clear_width_mm", "Width to keep clear", 0, FARTHEST_MM, group="Or a route"),
        mm("allowed_mm", "May stand out at most", -FARTHEST_MM, FARTHEST_MM, group="Or headroom, or a flat limit"),
        table("below_mm", "Headroom", X, Z, group="Or headroom, or a flat limit",
              help="x z of the height below which it holds, one point a line; empty for a flat limit"),
        mm("band.x_from_mm", "From x", -FARTHEST_MM, FARTHEST_MM, group="Where it holds", help="empty: everywhere"),
        mm("band.x_to_mm", "To x", -FARTHEST_MM, FARTHEST_MM, group="Where it holds"),
        mm("band.z_from_mm", "From z", -FARTHEST_MM, FARTHEST_MM, group="Where it holds"),
        mm("band.z_to_mm", "To z", -FARTHEST_MM, FARTHEST_MM, group="Where it holds"),
        mm("margin_mm", "Margin", 0, clearance.WIDEST_MARGIN_MM, group="Where it holds"),
        listed("x_mm", "Places along the face", "mm", group="What is asked", help="x of each, one a line"),
        row("stretch_mm", "Or a stretch of it", *(column(name, name) for name in ("left", "right", "low", "high")),
              group="What is asked", help="left right low high: x x z z of what stands there"),
        mm("projection_mm", "How far it stands out", 0, FARTHEST_MM, group="What is asked"),
    ),
    {"leaf": {"hinge_mm": [1000, 12], "from_deg": 0, "to_deg": 160, "boxes_mm": [[0, 800, -50, -10]]},
     "margin_mm": 20, "x_mm": [100, 400, 700]},
    _clearance,
)  # fmt: skip


CALCULATIONS = (KEEP_OFF, CLEARANCE)
