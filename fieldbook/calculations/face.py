"""What stands on a face or in an opening: keep-off zones, clear depth, build-ups, packers, panels, level lines."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import groupby
from operator import itemgetter
from typing import Any

from ..checks import clearance, fit_panel, keep_off, level, opening, packers, projection
from ..checks.box import STOCK_HIGH_MM, STOCK_KINDS_HIGH, STOCK_LOW_MM
from ..checks.limits import rounded_down
from ..checks.sweep import FARTHEST_MM, Leaf
from ..errors import FieldbookError
from ..model.description import choice, line
from ..model.fields import Field, Type
from ..model.terms import Term
from .description import Calculation, Result, column, listed, missing, mm, number, row, table, whole

X, Y, Z = column("x", "x"), column("y", "y"), column("z", "z")
CORNER_HELP = "one corner a line: x z"
OUTLINE_HELP = f"{CORNER_HELP}, or: rectangle x z width height, or: circle x z radius"
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


def _projection(
    layers: Sequence[Mapping[str, Any]], packers_mm: Sequence[float] = (), clear_mm: float | None = None
) -> Result:
    built = [projection.Layer(one["name"], one["thickness_mm"], one["tolerance_mm"]) for one in layers]
    verdict = None if clear_mm is None else projection.verdict(built, packers_mm, clear_mm)
    return Result(projection.projection(built, packers_mm)._asdict(), (projection.SOURCE,), verdict)


PROJECTION = Calculation(
    "projection",
    "How far a build-up stands out, mm; with the clear depth a verdict.",
    (
        table("layers", "Layers", line("name", "layer", required=True),
              column("thickness_mm", "thickness", "mm", 0, projection.THICKNESS_HIGH_MM),
              column("tolerance_mm", "tolerance ±", "mm", 0, projection.TOLERANCE_HIGH_MM),
              most=projection.LAYERS_HIGH, required=True,
              help="from the face outwards, one a line: layer; thickness mm; tolerance mm"),
        listed("packers_mm", "Packers behind it", "mm", 0, projection.THICKNESS_HIGH_MM, least=0,
               help="one a line; the thickest counts"),
        mm("clear_mm", "Clear depth there", 0, 100_000),
    ),
    {"layers": [{"name": "rail", "thickness_mm": 22, "tolerance_mm": 0.5},
                {"name": "panel", "thickness_mm": 12, "tolerance_mm": 0.4}], "packers_mm": [3, 5], "clear_mm": 60},
    _projection,
)  # fmt: skip


def _packers(
    points_mm: Sequence[Row], plane: str, stock_mm: Sequence[float] | None = None, least_mm: float = 0
) -> Result:
    if stock_mm is None:
        wanted = packers.packers_mm(points_mm, plane, least_mm)
        return Result({"packers_mm": wanted, "out_of_plane_mm": 0.0}, (packers.SOURCE,))
    made_of, off = packers.from_box(points_mm, plane, stock_mm, least_mm)
    sums = [float(round(math.fsum(pieces), 2)) for pieces in made_of]
    return Result({"packers_mm": sums, "made_of": made_of, "out_of_plane_mm": off}, (packers.SOURCE,))


PACKERS = Calculation(
    "packers",
    "The packer behind each point, mm, and what it is made of from the box.",
    (
        table("points_mm", "Fixings", X, Z, column("proud", "proud"), most=packers.POINTS_HIGH, required=True,
              help="one fixing a line: x z proud; proud is how far the wall stands out there"),
        choice("plane", "The work is to be", *packers.PLANES, required=True, help="plumb: upright; free: it may lean"),
        listed("stock_mm", "Thicknesses in the box", "mm", STOCK_LOW_MM, STOCK_HIGH_MM, most=STOCK_KINDS_HIGH),
        mm("least_mm", "Thinnest packer wanted", 0, packers.PACKER_HIGH_MM),
    ),
    {"points_mm": [[0, 0, 4.5], [300, 0, 1], [600, 0, 0]], "plane": "plumb", "stock_mm": [0.5, 1, 2]},
    _packers,
)  # fmt: skip


def _fit_panel(
    gap_mm: float,
    corners_mm: Sequence[Row] | None = None,
    sides_mm: Row | None = None,
    diagonals_mm: Row | None = None,
) -> Result:
    if corners_mm is not None:
        measured = opening.from_corners(corners_mm)
    elif sides_mm is None or diagonals_mm is None:
        raise missing("sides_mm" if sides_mm is None else "diagonals_mm")
    else:
        measured = opening.from_tape(sides_mm, diagonals_mm)
    panel = fit_panel.largest_panel(measured, gap_mm)
    figures = {
        "width_mm": panel.width_mm,
        "height_mm": panel.height_mm,
        "turned_deg": panel.turned_deg,
        "panel_mm": panel.corners_mm,
        "gaps_mm": fit_panel.gaps_mm(measured, panel),
        "opening_mm": measured.corners_mm,
        "angles_deg": opening.angles_deg(measured.corners_mm),
        "out_of_square_mm": opening.out_of_square_mm(measured),
        "misfit_mm": measured.misfit_mm,
    }
    return Result(figures, (fit_panel.SOURCE,))


FIT_PANEL = Calculation(
    "fit-panel",
    "The largest panel, mm, and how far the opening is out of square.",
    (
        mm("gap_mm", "Gap all round", 0, fit_panel.GAP_HIGH_MM, required=True),
        row("sides_mm", "Sides by tape", *(column(name, name) for name in ("bottom", "right", "top", "left")),
              help="bottom right top left", group="Measured by tape"),
        row("diagonals_mm", "Diagonals by tape", column("rising", "from lower left"), column("falling", "the other"),
              help="from lower left, then the other", group="Measured by tape"),
        table("corners_mm", "Corners", X, Z, least=4, most=4, group="Or by its corners",
              help=f"{CORNER_HELP}; four, from the lower left, anticlockwise"),
    ),
    {"sides_mm": [900, 1403, 896, 1400], "diagonals_mm": [1667, 1661], "gap_mm": 3},
    _fit_panel,
)  # fmt: skip


def _level(
    readings: Sequence[Mapping[str, Any]],
    line_mm: float | None = None,
    distance_m: float | None = None,
    tolerance_mm_per_m: float | None = None,
) -> Result:
    groups = groupby(readings, key=itemgetter("setup"))
    found = level.levels([[(one["point"], one["reading_mm"]) for one in group] for _, group in groups])
    figures: dict[str, Any] = found._asdict()
    verdict = None
    if line_mm is not None:
        figures["mark_mm"] = level.marks_mm(found.floor_mm, line_mm)
    if found.closing_error_mm is not None and distance_m is not None:
        if tolerance_mm_per_m is None:
            raise missing("tolerance_mm_per_m")
        verdict = level.verdict(found.closing_error_mm, distance_m, tolerance_mm_per_m)
    return Result(figures, (level.SOURCE,), verdict)


LEVEL = Calculation(
    "level",
    "Floor heights and marks for a level line, mm, and the closing error of the round.",
    (
        table("readings", "Readings", whole("setup", "set-up", 1, level.SETUPS_HIGH, required=True),
              line("point", "point", required=True),
              column("reading_mm", "reading", "mm", level.READING_LOW_MM, level.READING_HIGH_MM), required=True,
              help="one a line: number of the set-up; point; reading mm. More reading is a lower floor"),
        mm("line_mm", "Level line", 0, level.LINE_HIGH_MM, help="how far above the floor at the first point"),
        number("distance_m", "Distance out", "m", 0, 1000, help="half the round, to judge how it closes"),
        number("tolerance_mm_per_m", "Instrument ±", "mm/m", 0, 10),
    ),
    {"readings": [{"setup": 1, "point": "A", "reading_mm": 1320}, {"setup": 1, "point": "B", "reading_mm": 1355},
                  {"setup": 2, "point": "B", "reading_mm": 1290}, {"setup": 2, "point": "A", "reading_mm": 1256}],
     "line_mm": 1400, "distance_m": 5, "tolerance_mm_per_m": 0.3},
    _level,
)  # fmt: skip

CALCULATIONS = (KEEP_OFF, CLEARANCE, PROJECTION, PACKERS, FIT_PANEL, LEVEL)
