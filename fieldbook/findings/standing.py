"""What stands on the floor: whether it tips, whether it slides, and whether the floor is said to bear it."""

from __future__ import annotations

from functools import lru_cache

from ..book.site import Item
from ..checks import floor_load, standing
from ..checks.standing import Push, StandingPart
from . import again, geometry
from .asking import LESS, MORE, NEITHER, Asked, Question
from .finding import Outcome
from .load_paths import ITS_FIXINGS, THE_FLOOR, carried, own_weight, support_of
from .standing_parts import at_each_edge, states
from .verdicts import does_not_apply

HANGS = "It does not stand on the floor."
FIXED = "Its fixings keep it from it: what they hold is held against what people do."
# Fall of a floor that nobody surveyed, mm on a metre: common practice, no source.
FALL_MM_M = 10.0
MAY_BE_OFF = "What hangs on it may be off: it steadies nothing, except while somebody pulls at it."
AT_THE_FACE = "Its base begins at the face and is as wide as it is."
UNSURVEYED = f"The floor is not surveyed; a fall of {FALL_MM_M:g} mm on a metre is taken."


def tipping(asked: Asked, fitting: Item) -> Outcome:
    """What tips a standing fitting against what steadies it, at its worst edge."""
    support = support_of(asked, fitting)
    if support != THE_FLOOR:
        return none_of("tipping", support)
    geometry.need_upright(asked.site[fitting.face], "what tips it")
    wide, deep = fitting.width_mm, asked.need(fitting, "base_mm")
    feet = ((0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep))
    fall, assumed = _fall(asked, fitting)
    found = [
        (_tips(feet, parts, state.pushes, fall), parts, state.pushes)
        for state in states(asked, fitting, deep)
        for parts in at_each_edge(state.parts, wide, deep, fall)
    ]
    edge, parts, pushes = max(found, key=lambda case: case[0].use)
    alone = (MAY_BE_OFF,) if len(parts) > 1 else ()
    by_hand = again.tipping(feet, parts, pushes, fall)
    return Outcome(standing.tipping_verdict(edge), None, (AT_THE_FACE, *alone, *assumed), again=by_hand)


def sliding(asked: Asked, fitting: Item) -> Outcome:
    """What pushes a standing fitting along against what friction holds."""
    support = support_of(asked, fitting)
    if support != THE_FLOOR:
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
    mass = sum(own_weight(asked, part).mass_kg for part in carried(asked.site, fitting))
    deep = asked.need(fitting, "base_mm")
    load = floor_load.area_load_kn_m2(mass, fitting.width_mm, deep)
    room = asked.site[asked.site[fitting.face].room]
    limit = asked.need(room, "floor_limit_kn_m2", round(load, 2), "kN/m²")
    verdict = floor_load.verdict(f"The load of {fitting.called} on the floor", load, limit, "kN/m²")
    return Outcome(verdict, room, again=again.floor(mass, fitting.width_mm, deep, limit))


def none_of(question: str, support: str) -> Outcome:
    """The answer for what does not stand by itself."""
    return does_not_apply(question, HANGS if support == ITS_FIXINGS else FIXED)


def _fall(asked: Asked, fitting: Item) -> tuple[float, tuple[str, ...]]:
    """How far the floor falls, mm on a metre, at the steepest that was measured."""
    points = sorted(asked.site[fitting.face].floor or [])
    steps = [
        1000 * abs(after[1] - before[1]) / (after[0] - before[0])
        for before, after in zip(points, points[1:], strict=False)
        if after[0] > before[0]
    ]
    if not steps:
        return FALL_MM_M, (UNSURVEYED,)
    return min(standing.FALL_HIGH_MM_M, max(steps)), ()


@lru_cache(maxsize=1024)
def _tips(
    feet: tuple[tuple[float, float], ...], parts: tuple[StandingPart, ...], pushes: tuple[Push, ...], fall: float
) -> standing.Edge:
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
}
FLOOR_READS = {key: way for key, way in READS.items() if key not in NOT_OF_THE_FLOOR} | {
    "fitting.mass_loaded_kg": MORE,
    "room.floor_limit_kn_m2": LESS,
}

QUESTIONS = (
    Question("tipping", "fitting", "Does it stand without tipping?", tipping, READS),
    Question("sliding", "fitting", "Does it stand without sliding?", sliding, READS | {"fitting.floor_friction": LESS}),
    Question("floor", "fitting", "Is the floor said to bear it?", floor, FLOOR_READS),
)
