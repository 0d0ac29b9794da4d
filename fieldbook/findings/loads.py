"""Where the weight of a fitting goes: over which fixings, into what else, or to the floor."""

from __future__ import annotations

from collections.abc import Sequence

from ..book.site import Item
from ..book.wording import marks
from ..checks import fixing_forces
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.limits import rounded_up
from ..checks.verdict import Verdict, Word
from . import again
from .asking import Asked, Question
from .finding import Outcome, Recalculation
from .fixing_loads import Share, bearers, group_of, holds, shares, standing
from .load_paths import OVERHEAD_SORTS, THE_FLOOR, Burden, Weight, burden, slope_deg, support_of, weights
from .pulls import LOADED

ONE_ROW = "Fixings are taken as alike in stiffness, or stiff by their diameters, the worse of both; none has play."
ALL_AT_ONCE = "People pull at one part at its worst place, and at the others in the middle, at the same time."


def load(asked: Asked, fitting: Item) -> Outcome:
    """Where a fitting's weight, and that of all it carries, goes."""
    parts = weights(asked, fitting)
    whole = sum(part.force_n for part in parts)
    others = [part.part.called for part in parts[1:]]
    what = f"{fitting.called} with {marks(others)}" if others else fitting.called
    sentence = f"{what} weighs {rounded_up(whole, 0.1):.10g} N. {_goes(asked, fitting)}"
    acting = burden(asked, fitting)
    working = tuple((part.part.title, f"{part.mass_kg:g} kg") for part in parts)
    verdict = Verdict(
        "load", Word.WITHIN, rounded_up(whole, 0.1), None, None, "N", sentence, fixing_forces.SOURCE, (), working
    )
    at_once = (ALL_AT_ONCE,) if len(acting.people) > 1 and others else ()
    unsaid = [one.called for one in bearers(asked.site, fitting) if one.carries_load is None and holds(one)]
    said = (f"Whether {marks(unsaid)} carry load is not entered; they are counted as carrying.",) if unsaid else ()
    assumed = (ONE_ROW, *at_once, *_taken(asked.site[fitting.face], fitting), *said)
    return Outcome(verdict, None, assumed, (LEFT_OUT_OF_LOADS,), _again(asked, fitting, parts, acting))


def _taken(face: Item, fitting: Item) -> tuple[str, ...]:
    """What stands for what is not entered of where its weight pulls and of who pulls at it."""
    taken = []
    if face.slope_deg is None and face.sort != "other":
        taken.append(f"{face.called} {'hangs level' if face.sort in OVERHEAD_SORTS else 'stands upright'}")
    if fitting.centre_x_mm is None or fitting.centre_z_mm is None:
        taken.append("the centre of mass is in the middle of its front view")
    if fitting.pull_n is None and fitting.climbable == 0:
        taken.append("nobody pulls at what nobody can lean or climb on")
    return (f"Where nothing else is entered: {'; '.join(taken)}.",) if taken else ()


def _again(asked: Asked, fitting: Item, parts: Sequence[Weight], acting: Burden) -> Recalculation | None:
    """Of one thing that hangs by itself and that nobody pulls at."""
    own = bearers(asked.site, fitting)
    if len(parts) > 1 or acting.people or not acting.lasting or not own:
        return None
    slope = slope_deg(asked, asked.site[fitting.face])
    return again.load(group_of(asked, fitting, own), parts[0], (fitting.x_mm, fitting.z_mm), slope)


def _goes(asked: Asked, fitting: Item) -> str:
    support = support_of(asked, fitting)
    if support == THE_FLOOR:
        return "The floor carries it."
    carriers = [other.called for other in asked.site.goes_through(fitting)]
    own = bearers(asked.site, fitting)
    if not own and not standing(asked.site, fitting) and carriers:
        return f"All of it goes through {marks(carriers)}."
    if not own:
        raise asked.lack(fitting, "fixing", f"what carries {fitting.called}: its fixings, or what it hangs on")
    hardest = max(shares(asked, fitting).values(), key=lambda share: share.force_n)
    through = f" They pass it on to {marks(carriers)}." if carriers else ""
    floor = (
        "The floor carries the weight; what people do, and what tips it, goes to"
        if support != "its fixings"
        else "It goes to"
    )
    return f"{floor} {len(own)} fixing{'s' if len(own) > 1 else ''}: {_hardest(hardest)}.{through}"


def _hardest(share: Share) -> str:
    shear, pull = rounded_up(share.whole_shear_n, 0.1), rounded_up(share.whole_pull_n, 0.1)
    return f"at most {shear:.10g} N along the face and {pull:.10g} N out of it, on {share.fixing.called}"


QUESTIONS = (Question("load", "fitting", "Where does its weight go?", load, LOADED),)
