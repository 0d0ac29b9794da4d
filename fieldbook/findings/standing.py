"""What stands on the floor: whether it tips, whether it slides, and whether the floor is said to bear it."""

from __future__ import annotations

from functools import lru_cache

from ..book.site import Item
from ..checks import floor_load, standing
from ..checks.standing import Push, StandingPart
from . import again, geometry
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome
from .load_paths import ITS_FIXINGS, THE_FLOOR, mass_kg, support_of
from .standing_parts import FALL_MM_M, at_each_edge, states
from .upon import stands_upon
from .verdicts import does_not_apply

Feet = tuple[tuple[float, float], ...]
HANGS = "It stands neither on the floor nor loose on another fitting."
FIXED = "Its fixings keep it from it: they are held against what people do and what its weight beyond its base does."
MAY_BE_OFF = "What hangs on it may be off: it steadies nothing, except while somebody pulls at it."
AT_THE_FACE = "Its base begins at the face and stands in the middle of its width."
AMID = "Its base stands in the middle of its width."
UNSURVEYED = f"How the floor falls out from the face is not entered; {FALL_MM_M:g} mm on a metre are taken."
NO_PROFILE = f"The floor along the face is not surveyed; a fall of {FALL_MM_M:g} mm on a metre is taken."
ON_FEET = "Its weight is spread over what lies between its feet; below each of them the floor bears more."


def tipping(asked: Asked, fitting: Item) -> Outcome:
    """What tips a standing fitting against what steadies it, at its worst edge."""
    support = support_of(asked, fitting)
    if support != THE_FLOOR and not stands_upon(asked.site, fitting):
        return none_of("tipping", support)
    geometry.need_upright(asked.site[fitting.face], "what tips it")
    wide, deep, three = base_of(asked, fitting)
    back = fitting.base_out_mm or 0.0
    fall, assumed = _fall(asked, fitting)
    found = [
        (_tips(feet, parts, state.pushes, fall), feet, parts, state.pushes)
        for state in states(asked, fitting, back + deep)
        for feet in _feet(fitting.width_mm, wide, (back, back + deep), three)
        for parts in at_each_edge(state.parts, standing.edges(feet), fall)
    ]
    edge, feet, parts, pushes = max(found, key=lambda case: case[0].use)
    alone = (MAY_BE_OFF,) if len(parts) > 1 else ()
    by_hand = again.tipping(feet, parts, pushes, fall)
    where = AT_THE_FACE if fitting.base_out_mm is None else AMID
    return Outcome(standing.tipping_verdict(edge), None, (where, *alone, *assumed), again=by_hand)


def sliding(asked: Asked, fitting: Item) -> Outcome:
    """What pushes a standing fitting along against what friction holds."""
    support = support_of(asked, fitting)
    if support != THE_FLOOR and not stands_upon(asked.site, fitting):
        return none_of("sliding", support)
    friction = asked.need(fitting, "floor_friction")
    fall, assumed = _fall(asked, fitting)
    found = []
    for state in states(asked, fitting, 0.0):
        # By its own weight it slides alike however heavy; what people do moves it the easier the lighter it is.
        lightest = tuple(part.least for part in state.parts)
        pushes = tuple(push for push in state.pushes if push.level_n)
        found.append((standing.sliding_n(lightest, pushes, friction, fall), lightest, pushes))
    forces, lightest, pushes = max(found, key=lambda case: _use(*case[0]))
    by_hand = again.tipping(_square(fitting.width_mm), lightest, pushes, fall, friction)
    return Outcome(standing.sliding_verdict(*forces), None, assumed, again=by_hand)


def _use(pushed_n: float, held_n: float) -> float:
    return pushed_n / held_n if held_n else float("inf")


def _square(wide: float) -> tuple[tuple[float, float], ...]:
    """Feet for a calculation that wants some: how it slides does not turn on them."""
    return (0.0, 0.0), (wide, 0.0), (wide, wide), (0.0, wide)


def floor(asked: Asked, fitting: Item) -> Outcome:
    """The load on the floor below a standing fitting against what the floor is said to bear."""
    support = support_of(asked, fitting)
    if support == ITS_FIXINGS:
        return none_of("floor", support)
    mass = mass_kg(asked, fitting)
    wide, deep, three = base_of(asked, fitting)
    wide = wide / 2 if three else wide  # as much floor as lies between the feet
    load = floor_load.area_load_kn_m2(mass, wide, deep)
    room = asked.site[asked.site[fitting.face].room]
    limit = asked.need(room, "floor_limit_kn_m2", round(load, 2), "kN/m²")
    verdict = floor_load.verdict(f"The load of {fitting.called} on the floor", load, limit, "kN/m²")
    return Outcome(verdict, room, left_out=(ON_FEET,) if three else (), again=again.floor(mass, wide, deep, limit))


def base_of(asked: Asked, fitting: Item) -> tuple[float, float, bool]:
    """How wide and how deep what a thing stands on is, mm, and whether it stands on three feet of that.

    A base is seldom narrower than half of what stands on it: common practice, no source.
    """
    deep, whole = asked.need(fitting, "base_mm"), fitting.width_mm
    wide = min(asked.need(fitting, "base_width_mm", tried=(max(whole / 2, 10.0), whole)), whole)
    return wide, deep, asked.need(fitting, "stands_on") == "three feet"


def _feet(whole: float, wide: float, out: tuple[float, float], three: bool) -> tuple[Feet, ...]:
    """Where it may touch the floor, along it and out of the face: the corners of its base, or three feet either way."""
    left, right, amid, (back, front) = (whole - wide) / 2, (whole + wide) / 2, whole / 2, out
    if three:
        return ((left, back), (right, back), (amid, front)), ((amid, back), (right, front), (left, front))
    return (((left, back), (right, back), (right, front), (left, front)),)


def none_of(question: str, support: str) -> Outcome:
    """The answer for what does not stand by itself."""
    return does_not_apply(question, HANGS if support == ITS_FIXINGS else FIXED)


def _fall(asked: Asked, fitting: Item) -> tuple[float, tuple[str, ...]]:
    """How far the floor falls, mm on a metre, at the steepest that was measured along the face or out from it."""
    face = asked.site[fitting.face]
    points = sorted(face.floor or [])
    steps = [
        1000 * abs(after[1] - before[1]) / (after[0] - before[0])
        for before, after in zip(points, points[1:], strict=False)
        if after[0] > before[0]
    ]
    out = FALL_MM_M if face.floor_falls_mm_m is None else face.floor_falls_mm_m
    along = max(steps) if steps else FALL_MM_M
    told = (UNSURVEYED,) if face.floor_falls_mm_m is None else () if steps else (NO_PROFILE,)
    return min(standing.FALL_HIGH_MM_M, max(along, out)), told


@lru_cache(maxsize=1024)
def _tips(feet: Feet, parts: tuple[StandingPart, ...], pushes: tuple[Push, ...], fall: float) -> standing.Edge:
    return standing.tipping(feet, parts, pushes, fall)


READS = {
    "face.start_x_mm": NEITHER,
    "face.start_y_mm": NEITHER,
    "face.bearing_deg": NEITHER,
    "fitting.support": NEITHER,
    "fitting.x_mm": NEITHER,
    "fitting.z_mm": NEITHER,
    "fitting.width_mm": NEITHER,
    "fitting.height_mm": NEITHER,
    "fitting.base_mm": LESS,
    "fitting.base_out_mm": NEITHER,
    "fitting.base_width_mm": LESS,
    "fitting.stands_on": NEITHER,
    "fitting.mass_empty_kg": NEITHER,
    "fitting.mass_loaded_kg": NEITHER,
    "fitting.mass_is": NEITHER,
    "fitting.centre_out_mm": NEITHER,
    "fitting.centre_x_mm": NEITHER,
    "fitting.centre_z_mm": NEITHER,
    "fitting.build_up": NEITHER,
    "fitting.pull_n": MORE,
    "fitting.climbable": MORE,
    "fitting.hangs_on": NEITHER,
    "face.floor": NEITHER,
    "face.floor_falls_mm_m": MORE,
    "face.sort": NEITHER,
    "face.bottom_mm": NEITHER,
    "face.left_mm": NEITHER,
    "face.slope_deg": NEITHER,
}
NOT_OF_THE_FLOOR = {
    "fitting.pull_n",
    "fitting.climbable",
    "fitting.mass_empty_kg",
    "fitting.mass_is",
    "fitting.base_out_mm",
    "face.floor_falls_mm_m",
}
FLOOR_READS = {key: way for key, way in READS.items() if key not in NOT_OF_THE_FLOOR} | {
    "fitting.mass_loaded_kg": MORE,
    "room.floor_limit_kn_m2": LESS,
}
SLIDING_READS = {
    key: way
    for key, way in READS.items()
    if key not in ("fitting.base_out_mm", "fitting.base_width_mm", "fitting.stands_on")
} | {"fitting.floor_friction": LESS}

QUESTIONS = (
    Question("tipping", "fitting", "Does it stand without tipping?", tipping, READS),
    Question("sliding", "fitting", "Does it stand without sliding?", sliding, SLIDING_READS),
    Question("floor", "fitting", "Is the floor said to bear it?", floor, FLOOR_READS),
)
