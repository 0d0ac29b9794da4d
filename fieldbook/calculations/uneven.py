"""What an uneven wall asks for: build-ups, packers, panels cut to an opening, level lines."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import groupby
from operator import itemgetter
from typing import Any

from ..checks import fit_panel, level, opening, packers, projection
from ..checks.box import STOCK_HIGH_MM, STOCK_KINDS_HIGH, STOCK_LOW_MM
from ..model.description import choice, line
from .description import Calculation, Result, column, listed, missing, mm, number, row, table, whole
from .face import CORNER_HELP, Row, X, Z


def _projection(
    layers: Sequence[Mapping[str, Any]], packers_mm: Sequence[float] = (), clear_mm: float | None = None
) -> Result:
    built = [projection.Layer(one["name"], one["thickness_mm"], one["tolerance_mm"]) for one in layers]
    verdict = None if clear_mm is None else projection.verdict(built, packers_mm, clear_mm)
    return Result(projection.projection(built, packers_mm)._asdict(), (projection.SOURCE,), verdict)


PROJECTION = Calculation(
    "projection",
    "How far layers stand out in all",
    "How far a build-up stands out, mm; with the clear depth a finding.",
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
    "Packers behind each point of an uneven wall",
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
    "Largest panel for an opening that is out of square",
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
    "Floor heights and marks of a level line",
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
CALCULATIONS = (PROJECTION, PACKERS, FIT_PANEL, LEVEL)
