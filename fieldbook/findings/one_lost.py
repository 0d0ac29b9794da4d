"""What happens when one fixing of a fitting lets go, and how many must be in before anyone lets go of it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from ..book.site import Item
from ..checks import fixing_lost
from ..checks.cautions import LEFT_OUT_OF_LOADS
from ..checks.fixing_forces import Carried, Fixing
from ..checks.verdict import Verdict, share_used
from . import in_wood
from .asking import NEITHER, Asked, Question
from .both_sides import on_both_sides
from .finding import Outcome
from .fixing_loads import NEGLIGIBLE_N, Burden, Group, Share, bearers, burden_of, group_of, holds, lasting_on, shares
from .grips import slips_at_n
from .load_paths import BOTH, THE_FLOOR, is_overhead, mass_kg, support_of
from .off_plumb import as_plumb, first_blank, pulled
from .pulls import HELD
from .strengths import InWood, strength_of
from .verdicts import does_not_apply

SOURCE = "What hangs overhead must not fall when any one fixing lets go: common practice, no source"
ON_THE_FLOOR = "It stands on the floor."
STANDS = "It stands on the floor by its own weight; its fixings keep people from tipping it."
LASTING = "With one fixing gone, what hangs for good is looked at, without people."
Uses = Callable[[float, float], float]  # from a pull and a shear, N, to how much is used


def one_lost(asked: Asked, fitting: Item) -> Outcome:
    """How much of the hardest worked of the remaining fixings is used when any one lets go."""
    support = support_of(asked, fitting)
    own = bearers(asked.site, fitting)
    if support == THE_FLOOR:
        return does_not_apply("one-lost", ON_THE_FLOOR)
    if support == BOTH and own and not burden_of(asked, fitting).lasting:
        return does_not_apply("one-lost", STANDS)
    mass = mass_kg(asked, fitting)
    overhead = is_overhead(asked, fitting)
    if not overhead and mass <= fixing_lost.TWO_FIXINGS_KG:
        light = f"It weighs no more than {fixing_lost.TWO_FIXINGS_KG:g} kg, and is not overhead."
        return does_not_apply("one-lost", light)
    if not any(holds(fixing) for fixing in own) and asked.site.goes_through(fitting):
        return does_not_apply("one-lost", "It has no fixings of its own: what it hangs or stands on holds it.")
    share_of = shares(asked, fitting)
    used = _used(asked, own, share_of)
    group, acting = group_of(asked, fitting, own), burden_of(asked, fitting)

    def use(place: int, each: Carried) -> float:
        return used[place](each.pull_n, each.shear_n)

    def forces(part: Sequence[Fixing]) -> Sequence[Carried]:
        return lasting_on(_of(group, part), Burden(acting.lasting, ()))

    lost = fixing_lost.one_lost(group.fixings, forces, use)[0]
    least = fixing_lost.least_number(group.fixings, forces, use, mass, overhead)
    answer = in_wood.ruled(_verdict(own, lost, least, mass, overhead), _unruled(asked, own, share_of))
    return Outcome(answer, None, (LASTING,), (LEFT_OUT_OF_LOADS,))


def _unruled(asked: Asked, own: Sequence[Item], share_of: dict[str, Share]) -> tuple[tuple[str, str], ...]:
    """Why no published rule says what one of the fixings holds: (input, sentence) pairs, each once."""
    lasting = share_of.values()
    acts = (
        any(share.pull_n > NEGLIGIBLE_N for share in lasting),
        any(share.shear_n > NEGLIGIBLE_N for share in lasting),
    )
    held = (fixing for fixing in own if holds(fixing) and fixing.sort != "clamp")
    strengths = (strength_of(asked, fixing, share_of[fixing.id]) for fixing in held)
    in_woods = (strength.one for strength in strengths if isinstance(strength, InWood))
    return tuple(dict.fromkeys(reason for one in in_woods for reason in in_wood.unruled(one, *acts)))


def _used(asked: Asked, own: Sequence[Item], share_of: dict[str, Share]) -> list[Uses]:
    """For each fixing: from a pull and a shear that stay, N, to how much of it they use."""
    return [
        _grip(slips_at_n(asked, fixing))
        if fixing.sort == "clamp"
        else _as_it_hangs(asked, share_of[fixing.id], first_blank(asked.site, own))
        if holds(fixing)
        else _grip(math.inf)
        for fixing in own
    ]


def _as_it_hangs(asked: Asked, share: Share, blank: Item | None) -> Uses:
    """How much of a fixing is used by the worse way in which what hangs on it may lean, its other end counted."""
    used, both = strength_of(asked, share.fixing, share).use, on_both_sides(asked, share)
    behind = both.pull_n - share.pull_n, both.shear_n - share.shear_n

    def use(pull_n: float, shear_n: float) -> float:
        here = Share(share.fixing, shear_n + behind[1], 0.0, pull_n + behind[0], 0.0)
        return max(used(one.pull_n, one.shear_n) for one in pulled(asked, here, blank))

    return use


def _grip(limit_n: float) -> Uses:
    def use(pull_n: float, shear_n: float) -> float:
        force = math.hypot(pull_n, shear_n)
        return force / limit_n if limit_n > 0 else math.inf if force else 0.0

    return use


def _of(group: Group, part: Sequence[Fixing]) -> Group:
    return group._replace(fixings=tuple(part))


def _verdict(own: Sequence[Item], lost: fixing_lost.Lost, least: int | None, mass: float, overhead: bool) -> Verdict:
    where = "overhead" if overhead else "above 25 kg"
    needed = (
        "Not even all of its fixings do."
        if least is None
        else f"At least {least} of them must be in, in the order of their marks, before anyone lets go."
    )
    gone = own[lost.fixing].called
    working = (("weighs", f"{mass:g} kg, {where}"), ("first to let go", gone))
    beyond = " ".join(part for part in (f"When {gone} lets go, the rest does not hold.", lost.why) if part)
    what = f"When {gone} lets go, what is used of {'' if lost.hardest is None else own[lost.hardest].called}"
    return share_used("one-lost", what, lost.use, SOURCE, beyond=beyond, after=needed, working=working)


READS = HELD | dict.fromkeys(
    (
        "fixing.torque_nm",
        "fixing.nut_factor",
        "fixing.bolts",
        "fixing.friction_faces",
        "fixing.friction",
        "fixing.lining",
    ),
    NEITHER,
)

QUESTIONS = (Question("one-lost", "fitting", "Does it stay up when one fixing lets go?", as_plumb(one_lost), READS),)
