"""What each fixing of a group carries.

The fitting is taken as a rigid plate on a wall. In the plane the load is shared and its turning is taken
up about the centroid (elastic vector method). Out of the plane the plate pivots on the edge that presses
against the wall, and each fixing pulls in proportion to its distance from that edge. Does not cover a
plate or a wall that bends, prying, nor fixings of which some have play.

Axes of the face: x to the right, z up, forces with the same signs; a weight is a negative z force.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from ..errors import Missing, UnsuitableShape
from .cautions import LEFT_OUT_OF_LOADS
from .inputs import Inputs
from .limits import within
from .verdict import Verdict, at_most

SOURCE = (
    "Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-12 and equation 8-57 (shear); rigid plate "
    "pivoting on its compression edge (tension)"
)
FIXINGS_HIGH = 10_000
PLACE_HIGH_MM = 100_000.0
LOAD_HIGH_N = 1e6
STANDOFF_HIGH_MM = 10_000.0
# A turning moment below this is arithmetic noise, N·mm.
NEGLIGIBLE_NMM = 1e-3

Point = Sequence[float]


class Plate(NamedTuple):
    """Outline of what bears on the wall, mm in the axes of the face."""

    left: float
    bottom: float
    right: float
    top: float


def shear_parts_n(
    fixings_mm: Sequence[Point], load_n: Point, at_mm: Point, areas: Sequence[float] | None = None
) -> list[tuple[float, float]]:
    """What each fixing carries in the plane of the wall, as x and z parts.

    fixings_mm  (x, z) of each fixing, mm, -100 000 to 100 000; 1 to 10 000 fixings
    load_n      (Fx, Fz), N, -1 000 000 to 1 000 000 each
    at_mm       (x, z) where the load acts, mm, -100 000 to 100 000
    areas       how large each fixing is against the others, no unit, above 0; None: all alike
    returns     (Fx, Fz) carried by each fixing, N; together they equal the load and its moment

    Source: Shigley, Mechanical Engineering Design, 9th ed. (2011), section 8-12, equation 8-57.
    Raises OutOfRange outside the limits, UnsuitableShape where all fixings are at one point and the load turns it.

    >>> shear_parts_n([(0, 50), (0, -50)], (0, -200), (60, 0))
    [(120.0, -100.0), (-120.0, -100.0)]
    """
    shares = _shares(fixings_mm, areas)
    _check_load(load_n, at_mm)
    centre_x, centre_z = _centroid(fixings_mm, shares)
    moment = (at_mm[0] - centre_x) * load_n[1] - (at_mm[1] - centre_z) * load_n[0]
    arms = [(x - centre_x, z - centre_z) for x, z in fixings_mm]
    polar = sum(share * (x * x + z * z) for share, (x, z) in zip(shares, arms, strict=True))
    if abs(moment) <= NEGLIGIBLE_NMM:
        turn = 0.0
    elif polar > 0:
        turn = moment / polar
    else:
        raise UnsuitableShape(
            "All fixings are at one point, and the load does not act through it: nothing keeps the work from turning.",
            "Add a fixing at another place, or let the load act through this one.",
            field="fixings_mm",
            value=list(fixings_mm[0]),
        )
    return [
        (share * (load_n[0] - turn * z), share * (load_n[1] + turn * x))
        for share, (x, z) in zip(shares, arms, strict=True)
    ]


def tension_n(
    fixings_mm: Sequence[Point],
    load_n: Point,
    at_mm: Point,
    standoff_mm: float,
    pull_n: float = 0.0,
    plate_mm: Plate | None = None,
    areas: Sequence[float] | None = None,
) -> list[float]:
    """What pulls each fixing out of the wall.

    fixings_mm   (x, z) of each fixing, mm, -100 000 to 100 000; 1 to 10 000 fixings
    load_n       (Fx, Fz), N, -1 000 000 to 1 000 000 each
    at_mm        (x, z) where load and pull act, mm, -100 000 to 100 000
    standoff_mm  how far out of the wall the load acts, mm, 0 to 10 000
    pull_n       pull straight out of the wall, as by a person, N, 0 to 1 000 000
    plate_mm     left, bottom, right and top of what bears on the wall, mm; None: it pivots on the outermost
                 fixings, which gives the larger tensions
    areas        how large each fixing is against the others, no unit, above 0; None: all alike
    returns      tension of each fixing, N; the wall's pressure on the pivoting edge balances what exceeds the pull

    Source: rigid plate on its compression edge, T = M·y/Σy², textbook method for brackets. The pull is shared
    alike, its moment about the centroid is added to that of the load.
    Raises OutOfRange outside the limits, Missing where the fixings stand in one row and the plate is not given,
    UnsuitableShape for a plate that does not reach all fixings.

    >>> [round(pull, 3) for pull in tension_n([(0, 280)], (0, -100), (0, 0), 150, plate_mm=Plate(-20, 0, 20, 300))]
    [53.571]
    """
    shares = _shares(fixings_mm, areas)
    _check_load(load_n, at_mm)
    within("standoff_mm", standoff_mm, 0, STANDOFF_HIGH_MM, "mm")
    within("pull_n", pull_n, 0, LOAD_HIGH_N, "N")
    left, bottom, right, top = _bearing(fixings_mm, plate_mm)
    centre_x, centre_z = _centroid(fixings_mm, shares)
    top_out = pull_n * (at_mm[1] - centre_z) - load_n[1] * standoff_mm
    right_out = pull_n * (at_mm[0] - centre_x) - load_n[0] * standoff_mm
    tipped = _pivoted([z for _, z in fixings_mm], shares, top_out, bottom, top)
    swung = _pivoted([x for x, _ in fixings_mm], shares, right_out, left, right)
    return [pull_n * share + up + aside for share, up, aside in zip(shares, tipped, swung, strict=True)]


def verdict(shear_n: Sequence[float], tension_n: Sequence[float], allowed_n: float) -> Verdict:
    """Whether the hardest worked fixing of a group stays within what one fixing may carry.

    shear_n    shear of each fixing, N, 0 to 100 000 000
    tension_n  tension of each fixing, N, 0 to 100 000 000, in the same order
    allowed_n  what one fixing may carry in any direction, N, 0 to 1 000 000
    returns    verdict, N, on the resultant of shear and tension

    Source: as for `shear_parts_n` and `tension_n`.
    Raises OutOfRange outside the limits.

    >>> verdict([30, 0], [40, 20], 45).word.value
    'over'
    """
    within("allowed_n", allowed_n, 0, LOAD_HIGH_N, "N")
    whole = [
        math.hypot(within("shear_n", shear, 0, 1e8, "N"), within("tension_n", tension, 0, 1e8, "N"))
        for shear, tension in zip(shear_n, tension_n, strict=True)
    ]
    worst = max(range(len(whole)), key=whole.__getitem__)
    return at_most(
        "fixing-group",
        f"The force on fixing {worst + 1} of {len(whole)}, the hardest worked,",
        whole[worst],
        allowed_n,
        "N",
        SOURCE,
        after=LEFT_OUT_OF_LOADS,
        working=(("shear", f"{shear_n[worst]:.1f} N"), ("tension", f"{tension_n[worst]:.1f} N")),
    )


def calculate(payload: Any) -> dict[str, Any]:
    """Shear and tension of each fixing, N; with what is allowed a verdict.

    >>> calculate({"fixings_mm": [[0, 0], [0, 100]], "load_n": [0, -50], "at_mm": [0, 50],
    ...            "standoff_mm": 40})["tension_n"]
    [0.0, 20.0]
    """
    inputs = Inputs(
        payload,
        ("fixings_mm", "load_n", "at_mm", "standoff_mm", "pull_n", "plate_mm", "areas", "allowed_n"),
    )
    fixings = inputs.rows("fixings_mm", 2, most=FIXINGS_HIGH, unit="mm")
    load, at = inputs.row("load_n", 2, "N"), inputs.row("at_mm", 2, "mm")
    plate = Plate(*inputs.row("plate_mm", 4, "mm")) if inputs.has("plate_mm") else None
    areas = inputs.numbers("areas", most=FIXINGS_HIGH) if inputs.has("areas") else None
    parts = shear_parts_n(fixings, load, at, areas)
    shear = [math.hypot(*part) for part in parts]
    pull = inputs.number("pull_n") if inputs.has("pull_n") else 0.0
    tension = tension_n(fixings, load, at, inputs.number("standoff_mm"), pull, plate, areas)
    answer: dict[str, Any] = {"shear_n": shear, "tension_n": tension, "shear_parts_n": [list(part) for part in parts]}
    if inputs.has("allowed_n"):
        answer["verdict"] = verdict(shear, tension, inputs.number("allowed_n")).as_dict()
    return answer | {"source": SOURCE, "left_out": LEFT_OUT_OF_LOADS}


def _shares(fixings_mm: Sequence[Point], areas: Sequence[float] | None) -> list[float]:
    """Each fixing's part of the whole area; refuses places and areas that cannot be."""
    within("fixings_mm", len(fixings_mm), 1, FIXINGS_HIGH, "fixings")
    for place, point in enumerate(fixings_mm):
        for number in point:
            within(f"fixings_mm[{place}]", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    if areas is None:
        return [1 / len(fixings_mm)] * len(fixings_mm)
    if len(areas) != len(fixings_mm):
        raise UnsuitableShape(
            f"There are {len(areas)} areas for {len(fixings_mm)} fixings.",
            "Give one area for each fixing, or none.",
            field="areas",
            value=len(areas),
        )
    whole = sum(within(f"areas[{place}]", area, 1e-6, 1e6, "") for place, area in enumerate(areas))
    return [area / whole for area in areas]


def _check_load(load_n: Point, at_mm: Point) -> None:
    for number in load_n:
        within("load_n", number, -LOAD_HIGH_N, LOAD_HIGH_N, "N")
    for number in at_mm:
        within("at_mm", number, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")


def _centroid(fixings_mm: Sequence[Point], shares: Sequence[float]) -> tuple[float, float]:
    pairs = list(zip(shares, fixings_mm, strict=True))
    return sum(share * x for share, (x, _) in pairs), sum(share * z for share, (_, z) in pairs)


def _bearing(fixings_mm: Sequence[Point], plate_mm: Plate | None) -> Plate:
    xs, zs = [x for x, _ in fixings_mm], [z for _, z in fixings_mm]
    reached = Plate(min(xs), min(zs), max(xs), max(zs))
    if plate_mm is None:
        return reached
    for edge in plate_mm:
        within("plate_mm", edge, -PLACE_HIGH_MM, PLACE_HIGH_MM, "mm")
    inside = plate_mm.left <= reached.left and plate_mm.bottom <= reached.bottom
    if not (inside and reached.right <= plate_mm.right and reached.top <= plate_mm.top):
        raise UnsuitableShape(
            "A fixing lies outside the plate.",
            "Give the plate as left, bottom, right, top in the axes of the fixings.",
            field="plate_mm",
            value=list(plate_mm),
        )
    return plate_mm


def _pivoted(
    places_mm: Sequence[float], shares: Sequence[float], moment_nmm: float, low_mm: float, high_mm: float
) -> list[float]:
    """Tensions about the low edge for a moment that opens the high side, or the other way round."""
    if abs(moment_nmm) <= NEGLIGIBLE_NMM:
        return [0.0] * len(places_mm)
    arms = [place - low_mm if moment_nmm > 0 else high_mm - place for place in places_mm]
    second = sum(share * arm * arm for share, arm in zip(shares, arms, strict=True))
    if not second > 0:
        raise Missing(
            "The fixings stand in one row, so how far the fitting reaches past them decides what pulls them out.",
            "Give plate_mm: left, bottom, right and top of what bears on the wall.",
            field="plate_mm",
        )
    return [share * arm * abs(moment_nmm) / second for share, arm in zip(shares, arms, strict=True)]
