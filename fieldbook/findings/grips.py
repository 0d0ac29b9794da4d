"""What is tightened and what grips: slip, pressure on the fabric, the bolt's own tension, and the nut that stays."""

from __future__ import annotations

from datetime import date
from functools import lru_cache

from ..book.site import Item
from ..checks import bolt_class, clamp, preload
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.face_load import GRAVITY_M_S2
from ..checks.tightness import tightness_verdict
from ..checks.verdict import Verdict, at_most
from . import geometry
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome, Recalculation
from .fixing_loads import PRESS_ONLY, bearers, carries, holds
from .load_paths import ITS_FIXINGS, carried, mass_kg, people_pull_n, support_of
from .magnets import friction_of
from .pulls import CARRIES_NOTHING, LOADED
from .verdicts import does_not_apply

NO_JAW = "It presses on nothing with a jaw."
NOT_TIGHT = "No torque is set for it: it holds by its shape, and its tension is not counted on."
BOLTED = {"bolt", "machine screw"}
YIELD_SOURCE = "ISO 3506-1 and ISO 898-1: stress area times yield strength"
AS_PRESSED = {
    "prop": "It is jammed no harder than stated; all the weight and all that people add count where that is more.",
    "wedge": "It is driven no harder than stated.",
    "weight": "It weighs no more than stated.",
}


def slip(asked: Asked, fixing: Item) -> Outcome:
    """The load on a clamp, along and out of the face, against what it may be trusted with."""
    if fixing.sort != "clamp":
        return does_not_apply("slip", "It does not hold by friction.")
    share = carries(asked, fixing)
    if share is None:
        return does_not_apply("slip", CARRIES_NOTHING)
    along = share.force_n
    tension = tension_n(asked, fixing, along)
    bolts, faces = (asked.need(fixing, name, along, "N") for name in ("bolts", "friction_faces"))
    friction = friction_of(asked, fixing, along)
    given = {"preload_n": tension, "bolts": bolts, "faces": faces, "friction": friction, "load_n": along}
    verdict = _slip(tension, bolts, faces, friction, along)
    return Outcome(verdict, asked.site[fixing.fitting], again=Recalculation("clamp", given))


def pressure(asked: Asked, fixing: Item) -> Outcome:
    """The pressure of a jaw on what it presses on, or of a prop, a wedge or a weight."""
    if fixing.sort == "clamp":
        tension = tension_n(asked, fixing)
        bolts, jaw = asked.need(fixing, "bolts"), asked.need(fixing, "jaw_mm2")
        bears = _bearing(asked, fixing)
        given = {"preload_n": tension, "bolts": bolts, "faces": 1, "friction": 0, "jaw_mm2": jaw}
        again = Recalculation("clamp", given | {"bearing_n_mm2": bears})
        return Outcome(_pressure(tension, bolts, jaw, bears), None, again=again)
    if fixing.sort not in PRESS_ONLY:
        return does_not_apply("pressure", NO_JAW)
    pressed = pressed_n(asked, fixing)
    area = asked.need(fixing, "jaw_mm2", pressed, "N")
    return Outcome(_under_prop(pressed, area, _bearing(asked, fixing)), None, (AS_PRESSED[fixing.sort],))


def pressed_n(asked: Asked, fixing: Item) -> float:
    """What a wedge, weight or prop is stated to press with, N; a prop with all it may come to take where that is more.

    Where nothing but props keeps a thing up they are jammed, as a rod between two walls is, however little it weighs.
    """
    if fixing.sort != "prop":
        return float(asked.need(fixing, "stated_load_n"))
    fitting = asked.site[fixing.fitting]
    pulls = sum(people_pull_n(asked, part) for part in carried(asked.site, fitting))
    hung = mass_kg(asked, fitting) * GRAVITY_M_S2 + pulls
    jammed = support_of(asked, fitting) == ITS_FIXINGS and not any(map(holds, bearers(asked.site, fitting)))
    stated = asked.need(fixing, "stated_load_n", hung, "N") if jammed else fixing.stated_load_n or 0.0
    return max(hung, stated)


def tightening(asked: Asked, fixing: Item) -> Outcome:
    """The tension its torque may give a bolt against what stretches it for good."""
    if fixing.sort not in BOLTED | {"clamp"}:
        return does_not_apply("tightening", "It is not tightened with a torque.")
    if fixing.sort in BOLTED and fixing.torque_nm is None:
        return does_not_apply("tightening", NOT_TIGHT)
    torque, diameter, factor = (asked.need(fixing, name) for name in ("torque_nm", "diameter_mm", "nut_factor"))
    most = preload.likely_n(preload.preload_n(torque, diameter, factor))[1]
    grade = asked.need(fixing, "grade", most, "N")
    given = {"torque_nm": torque, "diameter_mm": diameter, "nut_factor": factor}
    if grade in preload.GRADES:
        return Outcome(
            _proof(torque, diameter, factor, grade), None, again=Recalculation("preload", given | {"grade": grade})
        )
    return Outcome(_yield(torque, diameter, factor, grade), None, again=Recalculation("preload", given))


def locking(asked: Asked, fixing: Item) -> Outcome:
    """What keeps a nut tight that has to stay so, and when somebody looks."""
    if fixing.sort not in BOLTED | {"clamp"}:
        return does_not_apply("locking", "It has no nut that has to stay tight.")
    if fixing.sort in BOLTED and fixing.torque_nm is None:
        return does_not_apply("locking", NOT_TIGHT)
    kept, looked = asked.need(fixing, "locking"), asked.need(fixing, "looked_at_on")
    return Outcome(tightness_verdict(kept, date.fromisoformat(looked), asked.today))


def tension_n(asked: Asked, fixing: Item, figure: float | None = None) -> float:
    """Nominal tension of one bolt of a clamp, N."""
    unit = "N" if figure is not None else ""
    given = [asked.need(fixing, name, figure, unit) for name in ("torque_nm", "diameter_mm", "nut_factor")]
    return preload.preload_n(*given)


def slips_at_n(asked: Asked, fixing: Item) -> float:
    """What a clamp may be trusted with, N."""
    tension = tension_n(asked, fixing)
    bolts, faces = asked.need(fixing, "bolts"), asked.need(fixing, "friction_faces")
    return clamp.slip_n(tension, bolts, faces, friction_of(asked, fixing)) * clamp.TRUSTED_SHARE


def _bearing(asked: Asked, fixing: Item) -> float:
    named = asked.need(fixing, "bears_on")
    return (
        geometry.known_materials(asked.site).lookup(named, "bears_on").figure("bearing_n_mm2", field="bears_on").value
    )


@lru_cache(maxsize=4096)
def _slip(tension: float, bolts: int, faces: int, friction: float, along: float) -> Verdict:
    return clamp.slip_verdict(tension, bolts, faces, friction, along)


@lru_cache(maxsize=4096)
def _pressure(tension: float, bolts: int, jaw_mm2: float, bearing: float) -> Verdict:
    return clamp.pressure_verdict(tension, bolts, jaw_mm2, bearing)


@lru_cache(maxsize=4096)
def _under_prop(pressed_n: float, jaw_mm2: float, bearing: float) -> Verdict:
    return at_most(
        "pressure",
        "The pressure under it",
        pressed_n / jaw_mm2,
        bearing / clamp.BEARING_DIVISOR,
        "N/mm²",
        clamp.SOURCE,
        step=0.001,
        after=f"The limit is a third of the bearing strength of {bearing:g} N/mm². {LEFT_OUT_OF_LOADS}",
        working=(("pressed with", f"{pressed_n:.1f} N"), ("over", f"{jaw_mm2:g} mm²")),
    )


@lru_cache(maxsize=4096)
def _proof(torque: float, diameter: float, factor: float, grade: str) -> Verdict:
    return preload.verdict(torque, diameter, factor, grade)


@lru_cache(maxsize=4096)
def _yield(torque: float, diameter: float, factor: float, grade: str) -> Verdict:
    """For classes without a proof load here, the tension at which the bolt begins to stretch for good."""
    most = preload.likely_n(preload.preload_n(torque, diameter, factor))[1]
    what = f"The tension this torque may reach in an M{diameter:g} bolt of class {grade}"
    limit = bolt_class.yield_load_n(diameter, bolt_class.metal(grade))
    return at_most("preload", what, most, limit, "N", YIELD_SOURCE, step=1, after=LEFT_OUT_OF_LOADS)


TIGHTENED = {
    "fixing.sort": NEITHER,
    "fixing.torque_nm": NEITHER,
    "fixing.diameter_mm": NEITHER,
    "fixing.nut_factor": NEITHER,
}
PRESSED = {"material.bearing_n_mm2": LESS, "fixing.bolts": NEITHER, "fixing.jaw_mm2": LESS, "fixing.bears_on": NEITHER}

QUESTIONS = (
    Question(
        "slip",
        "fixing",
        "Does the clamp hold without slipping?",
        slip,
        LOADED
        | TIGHTENED
        | {
            "fixing.bolts": LESS,
            "fixing.friction_faces": LESS,
            "fixing.friction": LESS,
            "material.friction": LESS,
            "fixing.lining": NEITHER,
        },
    ),
    Question(
        "pressure",
        "fixing",
        "Does the fabric bear what presses on it?",
        pressure,
        TIGHTENED
        | PRESSED
        | {"fitting.mass_loaded_kg": MORE, "fitting.pull_n": MORE, "fitting.climbable": MORE}
        | {"fixing.stated_load_n": NEITHER}
        | dict.fromkeys(
            (
                "fitting.centre_out_mm",
                "fitting.centre_x_mm",
                "fitting.centre_z_mm",
                "fitting.build_up",
                "fitting.x_mm",
                "fitting.z_mm",
                "fitting.width_mm",
                "fitting.height_mm",
                "fitting.support",
                "fitting.hangs_on",
                "face.slope_deg",
                "face.sort",
                "face.floor",
                "face.left_mm",
                "face.bottom_mm",
                "fixing.carries_load",
            ),
            NEITHER,
        ),
    ),
    Question(
        "tightening",
        "fixing",
        "Does its torque leave the bolt whole?",
        tightening,
        TIGHTENED | {"fixing.grade": NEITHER},
    ),
    Question(
        "locking",
        "fixing",
        "Does its nut stay tight, and who looks?",
        locking,
        {"fixing.sort": NEITHER, "fixing.torque_nm": NEITHER, "fixing.locking": NEITHER, "fixing.looked_at_on": LESS},
    ),
)
