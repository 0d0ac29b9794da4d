"""What a fixing holds against what it carries: pull and shear in newtons, each with its line, and both together."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from ..book.site import Item
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.verdict import Verdict
from . import both_sides, toppling
from .asking import LESS, MORE, NEITHER, Asked, NotEntered, Question
from .both_sides import on_both_sides
from .finding import Outcome, Recalculation
from .fixing_loads import NEGLIGIBLE_N, Share, carries, holds
from .off_plumb import as_plumb, pulled
from .strengths import Strength, strength_of
from .verdicts import does_not_apply

CARRIES_NOTHING = "It is said to carry no load."
PRESSES = "It takes pressure alone, and makes no other fixing's share smaller."
BY_FRICTION = "It holds by friction: what it carries is held against its slip."
ON_THE_FLOOR = "What it holds stands on the floor."
NO_PULL, NO_SHEAR = "Nothing pulls it out of the face.", "Nothing pushes it along the face."
NOT_BOTH = "It is not pulled and pushed sideways at once."


def pull(asked: Asked, fixing: Item) -> Outcome:
    """The pull out of the face on a fixing against what it holds."""
    share = _share(asked, fixing, lambda one: one.whole_pull_n)
    if isinstance(share, str) or share.whole_pull_n <= NEGLIGIBLE_N:
        return does_not_apply("pull", share if isinstance(share, str) else NO_PULL)
    # A magnet's straight pull is held against what is stated of it: friction holds it sideways alone.
    carried = share._replace(shear_n=0.0, people_shear_n=0.0) if fixing.sort == "magnet" else share
    strength = _strength(asked, fixing, carried, share.whole_pull_n)
    return _outcome(asked, fixing, strength, strength.pull(share), strength.again("pull", share))


def shear(asked: Asked, fixing: Item) -> Outcome:
    """The load along the face on a fixing against what it holds."""
    share = _share(asked, fixing, lambda one: one.whole_shear_n)
    if isinstance(share, str) or share.whole_shear_n <= NEGLIGIBLE_N:
        return does_not_apply("shear", share if isinstance(share, str) else NO_SHEAR)
    strength = _strength(asked, fixing, share, share.whole_shear_n)
    return _outcome(asked, fixing, strength, strength.shear(share), strength.again("shear", share))


def together(asked: Asked, fixing: Item) -> Outcome:
    """Pull and shear at once on a fixing against what it holds."""
    share = _share(asked, fixing, lambda one: (min(one.whole_pull_n, one.whole_shear_n), one.force_n))
    if isinstance(share, str):
        return does_not_apply("together", share)
    if min(share.whole_pull_n, share.whole_shear_n) <= NEGLIGIBLE_N:
        return does_not_apply("together", NOT_BOTH)
    strength = _strength(asked, fixing, share, share.force_n)
    return _outcome(asked, fixing, strength, strength.both(share), strength.again("together", share))


def _share(asked: Asked, fixing: Item, how_bad: Callable[[Share], Any]) -> Share | str:
    """What a fixing carries, by the worse way its wire may lean, or why that is no question here."""
    if not holds(fixing):
        return PRESSES
    share = carries(asked, fixing)
    if share is None:
        return CARRIES_NOTHING
    share = on_both_sides(asked, share)
    return BY_FRICTION if fixing.sort == "clamp" else max(pulled(asked, share), key=how_bad)


def _strength(asked: Asked, fixing: Item, share: Share, carries_n: float) -> Strength:
    """What it holds; where an entry lacks for that, what it carries is told all the same, N."""
    try:
        return strength_of(asked, fixing, share)
    except NotEntered as lack:
        raise NotEntered(lack.blank, carries_n, "N", lack.why) from lack


def _outcome(asked: Asked, fixing: Item, strength: Strength, verdict: Verdict, again: Recalculation | None) -> Outcome:
    fitting = asked.site[fixing.fitting]
    return Outcome(verdict, fitting, strength.assumed, (LEFT_OUT_OF_LOADS,), again)


LOADED = {
    "fitting.mass_loaded_kg": MORE,
    "fitting.centre_out_mm": NEITHER,
    "fitting.centre_x_mm": NEITHER,
    "fitting.centre_z_mm": NEITHER,
    "fitting.build_up": NEITHER,
    "fitting.pull_n": MORE,
    "fitting.climbable": MORE,
    "fitting.touches_face": NEITHER,
    "fitting.support": NEITHER,
    "fitting.hangs_on": NEITHER,
    "fitting.face": NEITHER,
    "fitting.state": NEITHER,
    "fitting.x_mm": NEITHER,
    "fitting.z_mm": NEITHER,
    "fitting.width_mm": NEITHER,
    "fitting.height_mm": NEITHER,
    "face.slope_deg": NEITHER,
    "face.sort": NEITHER,
    "face.floor": NEITHER,
    "face.left_mm": NEITHER,
    "face.bottom_mm": NEITHER,
    "face.start_x_mm": NEITHER,
    "face.start_y_mm": NEITHER,
    "face.bearing_deg": NEITHER,
    "fixing.fitting": NEITHER,
    "fixing.face": NEITHER,
    "fixing.sort": NEITHER,
    "fixing.state": NEITHER,
    "fixing.x_mm": NEITHER,
    "fixing.z_mm": NEITHER,
    "fixing.fitted_x_mm": NEITHER,
    "fixing.fitted_z_mm": NEITHER,
    "fixing.carries_load": NEITHER,
    "fixing.contact_radius_mm": NEITHER,
    "fixing.diameter_mm": NEITHER,
    "fixing.other_fitting": NEITHER,
} | toppling.READS
"""What decides what a fixing carries."""

HELD = (
    LOADED
    | both_sides.READS
    | {
        "material.group": NEITHER,
        "material.characteristic_density_kg_m3": NEITHER,
        "material.bearing_n_mm2": LESS,
        "room.damp": MORE,
        "face.layers": NEITHER,
        "member.material": NEITHER,
        "member.behind_mm": MORE,
        "member.thickness_mm": LESS,
        "member.grain": NEITHER,
        "hold.load_limit_n": LESS,
        "hold.load_said_by": NEITHER,
        "fixing.lining": NEITHER,
        "fixing.friction": LESS,
        "material.friction": LESS,
        "fixing.hold": NEITHER,
        "fixing.member": NEITHER,
        "fixing.fabric": NEITHER,
        "fixing.hole": NEITHER,
        "fixing.grips": NEITHER,
        "fixing.into": NEITHER,
        "fixing.penetration_mm": LESS,
        "fixing.length_mm": NEITHER,
        "fixing.thread_mm": LESS,
        "fixing.head_mm": LESS,
        "fixing.predrilled": NEITHER,
        "fixing.packers_mm": MORE,
        "fixing.off_plumb_deg": MORE,
        "fixing.adhesive": NEITHER,
        "fixing.grade": NEITHER,
        "fixing.stated_load_n": LESS,
        "fixing.stated_by": NEITHER,
        "fixing.stated_source": NEITHER,
        "fixing.stated_on": NEITHER,
        "fixing.tested_n": LESS,
        "fixing.tested_on": NEITHER,
        "fixing.tested_by": NEITHER,
        "fixing.tested_held": LESS,
    }
)
"""What decides what a fixing holds, besides what it carries."""

QUESTIONS = (
    Question("pull", "fixing", "Does it hold what pulls it out of the face?", as_plumb(pull), HELD),
    Question("shear", "fixing", "Does it hold what pushes it along the face?", as_plumb(shear), HELD),
    Question("together", "fixing", "Does it hold pull and shear at once?", as_plumb(together), HELD),
)
