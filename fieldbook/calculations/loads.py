"""What fixings carry and hold: a group under its load, bolts tightened, clamps, connectors pulled out of wood."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from ..checks import clamp, fixing_group, preload, withdrawal
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.verdict import Verdict
from ..model.description import choice
from ..model.terms import Term
from .description import Calculation, Result, column, listed, missing, mm, number, row, table, whole, worst
from .face import X, Z

Row = tuple[float, ...]
PLACE = (-fixing_group.PLACE_HIGH_MM, fixing_group.PLACE_HIGH_MM)
FORCE = (-fixing_group.LOAD_HIGH_N, fixing_group.LOAD_HIGH_N)


def _fixing_group(
    fixings_mm: Sequence[Row],
    load_n: Row,
    at_mm: Row,
    standoff_mm: float,
    pull_n: float = 0,
    plate_mm: Row | None = None,
    areas: Sequence[float] | None = None,
    allowed_n: float | None = None,
) -> Result:
    plate = None if plate_mm is None else fixing_group.Plate(*plate_mm)
    parts = fixing_group.shear_parts_n(fixings_mm, load_n, at_mm, areas)
    shear = [math.hypot(*part) for part in parts]
    tension = fixing_group.tension_n(fixings_mm, load_n, at_mm, standoff_mm, pull_n, plate, areas)
    verdict = None if allowed_n is None else fixing_group.verdict(shear, tension, allowed_n)
    figures = {"shear_n": shear, "tension_n": tension, "shear_parts_n": parts, "left_out": LEFT_OUT_OF_LOADS}
    return Result(figures, (fixing_group.SOURCE,), verdict)


FIXING_GROUP = Calculation(
    "fixing-group",
    "Load on each fixing of a group",
    "Shear and tension of each fixing, N; with a limit a finding.",
    (
        table("fixings_mm", "Fixings", column("x", "x", "mm", *PLACE), column("z", "z", "mm", *PLACE),
              most=fixing_group.FIXINGS_HIGH, required=True, help="one fixing a line: x z"),
        row("load_n", "Load", column("fx", "Fx", "N", *FORCE), column("fz", "Fz", "N", *FORCE), required=True,
              help="to the right, upwards: a weight of 100 N is 0 -100"),
        row("at_mm", "Where it acts", X, Z, required=True, help="x z of the middle of the mass"),
        mm("standoff_mm", "How far out it acts", 0, fixing_group.STANDOFF_HIGH_MM, required=True, help="of the face"),
        number("pull_n", "Pull by people", "N", 0, fixing_group.LOAD_HIGH_N, help="straight out"),
        row("plate_mm", "What bears on the face",
              *(column(name, name) for name in ("left", "bottom", "right", "top")), help="left bottom right top"),
        listed("areas", "How large each fixing is", "", most=fixing_group.FIXINGS_HIGH,
               help="against the others, one a line in the order above"),
        number("allowed_n", "Limit for one fixing", "N", 0, fixing_group.LOAD_HIGH_N),
    ),
    {"fixings_mm": [[0, 0], [600, 0], [0, 900], [600, 900]], "load_n": [0, -180], "at_mm": [300, 450],
     "standoff_mm": 60, "pull_n": 200, "allowed_n": 250},
    _fixing_group,
)  # fmt: skip


def _clamp(
    preload_n: float,
    bolts: int,
    faces: int,
    friction: float,
    jaw_mm2: float | None = None,
    load_n: float | None = None,
    bearing_n_mm2: float | None = None,
) -> Result:
    figures: dict[str, Any] = {"slip_n": clamp.slip_n(preload_n, bolts, faces, friction)}
    verdicts: list[Verdict] = []
    if jaw_mm2 is not None:
        figures["pressure_n_mm2"] = clamp.pressure_n_mm2(preload_n, bolts, jaw_mm2)
    if load_n is not None:
        verdicts.append(clamp.slip_verdict(preload_n, bolts, faces, friction, load_n))
    if bearing_n_mm2 is not None:
        if jaw_mm2 is None:
            raise missing("jaw_mm2")
        verdicts.append(clamp.pressure_verdict(preload_n, bolts, jaw_mm2, bearing_n_mm2))
    figures |= {"verdicts": [verdict.as_dict() for verdict in verdicts], "left_out": LEFT_OUT_OF_LOADS}
    return Result(figures, (clamp.SOURCE,), worst(verdicts))


CLAMP = Calculation(
    "clamp",
    "What a clamp holds before it slips",
    "Slip load, N, and with the jaw’s area the pressure, N/mm²; with limits the findings.",
    (
        number("preload_n", Term.BOLT_TENSION, "N", 0, clamp.PRELOAD_HIGH_N, help="of one bolt", required=True),
        whole("bolts", "Bolts", 1, clamp.BOLTS_HIGH, required=True),
        whole("faces", Term.GRIPPING_FACES, 1, clamp.FACES_HIGH, required=True),
        number("friction", "Friction", "", 0, clamp.FRICTION_HIGH, required=True,
               help="the low end, between lining and fabric"),
        number("jaw_mm2", "Area under the jaw", "mm²", clamp.JAW_LOW_MM2, clamp.JAW_HIGH_MM2),
        number("load_n", "Force along the jaw", "N", 0, 1e6, help="what it has to hold"),
        number("bearing_n_mm2", "Bearing strength of the fabric", "N/mm²", 0, 1000),
    ),
    {"preload_n": 800, "bolts": 1, "faces": 2, "friction": 0.4, "jaw_mm2": 1200, "load_n": 150, "bearing_n_mm2": 2},
    _clamp,
)  # fmt: skip


def _preload(torque_nm: float, diameter_mm: float, nut_factor: float, grade: str | None = None) -> Result:
    nominal = preload.preload_n(torque_nm, diameter_mm, nut_factor)
    least, most = preload.likely_n(nominal)
    figures: dict[str, Any] = {"preload_n": nominal, "least_n": least, "most_n": most}
    verdict = None
    if grade is not None:
        figures["proof_fraction"] = nominal / preload.proof_load_n(diameter_mm, grade)
        verdict = preload.verdict(torque_nm, diameter_mm, nut_factor, grade)
    return Result(figures | {"left_out": LEFT_OUT_OF_LOADS}, (preload.SOURCE,), verdict)


PRELOAD = Calculation(
    "preload",
    "Bolt tension from the tightening torque",
    "Bolt tension from tightening torque: nominal, least and most, N; with the grade also the share of the proof load.",
    (
        number("torque_nm", "Tightening torque", "N m", 0, preload.TORQUE_HIGH_NM, required=True),
        mm("diameter_mm", "Diameter", preload.DIAMETER_LOW_MM, preload.DIAMETER_HIGH_MM, required=True),
        number("nut_factor", "Nut factor", "", preload.NUT_FACTOR_LOW, preload.NUT_FACTOR_HIGH, required=True,
               help="torque = factor × tension × diameter; 0.2 dry steel"),
        choice("grade", "Property class", *preload.GRADES, help="ISO 898-1"),
    ),
    {"torque_nm": 5, "diameter_mm": 8, "nut_factor": 0.2, "grade": "4.6"},
    _preload,
)  # fmt: skip


def _withdrawal(
    connector: Any, specific_gravity: float, diameter_mm: float, penetration_mm: float, tension_n: float | None = None
) -> Result:
    wood = (specific_gravity, diameter_mm, penetration_mm)
    figures = {
        "ultimate_n": withdrawal.ultimate_n(connector, *wood),
        "allowable_n": withdrawal.allowable_n(connector, *wood),
        "divisor": withdrawal.divisor(connector),
        "left_out": LEFT_OUT_OF_LOADS,
    }
    verdict = None if tension_n is None else withdrawal.verdict(connector, *wood, tension_n)
    return Result(figures, (withdrawal.SOURCE,), verdict)


WITHDRAWAL = Calculation(
    "withdrawal",
    "Pull-out of a nail or screw from wood",
    "Pull-out of a nail or a screw: mean ultimate and safe pull, N, and the divisor between them.",
    (
        choice("connector", "Connector", *withdrawal.CONNECTORS, required=True),
        # without bounds here: the check says that it is no density
        number("specific_gravity", "Specific gravity of the wood", help="as 0.48; see the materials", required=True),
        mm("diameter_mm", "Diameter", required=True),
        mm("penetration_mm", "Depth in the wood", 0, withdrawal.DEEPEST_MM, help="of the thread, or of the nail",
           required=True),
        number("tension_n", "Pull on it", "N", 0, 1e6),
    ),
    {"connector": "wood screw", "specific_gravity": 0.4, "diameter_mm": 4.5, "penetration_mm": 21, "tension_n": 60},
    _withdrawal,
    unread=frozenset({"connector"}),  # shorter words for them are taken as well
)  # fmt: skip

CALCULATIONS = (FIXING_GROUP, CLAMP, PRELOAD, WITHDRAWAL)
