"""What a wire or strap that does not hang plumb does to the hook or strap it hangs on, besides its weight.

It pulls level as well, and nobody enters which way: straight out of the face or along it, the worse of both counts.
How far it leans is asked for only where the answer would not be fine with a wire that leans as far as slings do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import wraps

from ..book.site import Item, Site
from ..checks.hanging_wire import SLING_DEG, sideways_n
from ..checks.verdict import FINE, Word
from .asking import Asked, NotEntered, label_of
from .finding import Outcome
from .fixing_loads import Share, bearers, holds
from .load_paths import slope_deg

HANGS = frozenset({"hook", "strap"})
Answer = Callable[[Asked, Item], Outcome]


def as_plumb(answer: Answer) -> Answer:
    """An answer that takes a wire of which nobody entered how it leans to hang plumb, where that changes no word."""

    @wraps(answer)
    def asking(asked: Asked, thing: Item) -> Outcome:
        try:
            return answer(asked, thing)
        except NotEntered as lack:
            key = (lack.blank.item.id, lack.blank.field)
            if lack.blank.field != "off_plumb_deg" or key in asked.taken:
                raise
            plumb = answer(_with(asked, key, 0.0), thing)  # what else lacks is asked for, with its figure
            try:
                leaning = answer(_with(asked, key, SLING_DEG), thing)
            except NotEntered:
                raise lack from None
            word = leaning.verdict.word
            if word is not plumb.verdict.word and word not in FINE:
                raise
            told = f"{label_of(lack.blank)} is not entered; it is taken as plumb, and up to {SLING_DEG:g}° holds too."
            return (leaning if word is Word.CLOSE else plumb)._replace(assumed=(*plumb.assumed, told))

    return asking


def _with(asked: Asked, key: tuple[str, str], lean_deg: float) -> Asked:
    return Asked(asked.site, asked.today, {**asked.taken, key: lean_deg})


def pulled(asked: Asked, share: Share, blank: Item | None = None) -> tuple[Share, ...]:
    """What a fixing carries where its wire leans along the face, and where it leans out of it; as it is for any other.

    blank  the fixing of which the lean is asked for where it is not entered of this one: of many that are asked about
           together one stands for all
    """
    fixing = share.fixing
    if fixing.sort not in HANGS or share.force_n == 0:
        return (share,)
    lean = fixing.off_plumb_deg
    if lean is None and not hangs_alone(asked.site, fixing):
        lean = asked.need(blank or fixing, "off_plumb_deg", share.force_n, "N")
    if not lean:
        return (share,)
    slope = slope_deg(asked, asked.site[fixing.face])
    for_good, whole = (
        _both_ways(*forces, lean, slope)
        for forces in ((share.shear_n, share.pull_n), (share.whole_shear_n, share.whole_pull_n))
    )
    return tuple(
        Share(fixing, shear, all_shear - shear, pull, all_pull - pull)
        for (shear, pull), (all_shear, all_pull) in zip(for_good, whole, strict=True)
    )


def hangs_alone(site: Site, fixing: Item) -> bool:
    """Whether a fixing holds its fitting alone, which then hangs plumb below it unless something else is entered."""
    return sum(holds(one) for one in bearers(site, site[fixing.fitting])) == 1


def hardest(asked: Asked, share: Share, blank: Item | None = None) -> Share:
    """The one of them with the greatest force."""
    return max(pulled(asked, share, blank), key=lambda one: one.force_n)


def first_blank(site: Site, fixings: Sequence[Item]) -> Item | None:
    """The first hook or strap of which nobody entered how its wire hangs."""
    hanging = (one for one in fixings if one.sort in HANGS and one.off_plumb_deg is None)
    return next((one for one in hanging if not hangs_alone(site, one)), None)


def _both_ways(shear_n: float, pull_n: float, lean_deg: float, slope_deg: float) -> tuple[tuple[float, float], ...]:
    """Shear and pull where a wire leans along a face, and where it leans out of it, N."""
    slope = math.radians(slope_deg)
    weight = shear_n * math.cos(slope) + max(pull_n * math.sin(slope), 0.0)
    level = sideways_n(weight, lean_deg)
    along = math.hypot(shear_n, level) if slope_deg == 0 else shear_n + level
    out = pull_n + level * math.cos(slope), shear_n + level * abs(math.sin(slope))
    return (along, pull_n), (out[1], out[0])
