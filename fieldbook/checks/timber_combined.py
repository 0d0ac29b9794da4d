"""A fastener in wood that is pulled and pushed sideways at once.

Does not cover forces that never come together: those are held one by one.
"""

from __future__ import annotations

import math

from . import timber_design
from .limits import within
from .timber_dowel import sort_named
from .verdict import Verdict, share_used

SOURCE = (
    "EN 1995-1-1:2004+A1:2008, equations 8.27 (smooth nails: shares added) and 8.28 (others: squares added), 8.3.3, "
    "8.7.3 (second hand)"
)
SMOOTH = ("smooth nail", "square nail")
REMEDY = "Take one that stands deeper in the wood, or more of them."


def use(pull_share: float, shear_share: float, sort: str, *, touching: bool) -> float:
    """How much of a fastener is used by a pull and a sideways load together.

    pull_share   pull over the pull it holds, a fraction, 0 or more; without end where it holds none
    shear_share  sideways load over the one it holds, a fraction, likewise
    sort         one of `timber_dowel.SORTS`
    touching     whether the parts touch; where they do not, shares are added
    returns      fraction; 1 is all of it

    Source: EN 1995-1-1:2004+A1:2008, equations 8.27 and 8.28; added across a gap, as the safe side, no source.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> use(0.6, 0.6, "smooth nail", touching=True), use(0.6, 0.6, "screw", touching=True)
    (1.2, 0.72)
    """
    within("pull_share", pull_share, 0, math.inf, "")
    within("shear_share", shear_share, 0, math.inf, "")
    sort_named(sort)
    return pull_share + shear_share if sort in SMOOTH or not touching else pull_share**2 + shear_share**2


def verdict(
    pull_n: tuple[float, float, float],
    shear_n: tuple[float, float, float],
    service_class: int,
    sort: str,
    *,
    touching: bool,
    holds_no_pull: str = "",
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a fastener holds a pull and a sideways load at once.

    pull_n         pull for good, what people add, and characteristic resistance, N, as for `timber_design.worst`
    shear_n        the same sideways, N
    service_class  as for `timber_design.k_mod`, no unit
    sort           one of `timber_dowel.SORTS`
    touching       as for `use`
    holds_no_pull  why it holds no pull and what to do, where it holds none
    working        what led to the resistances, for whoever does it again
    returns        verdict, %: the worst case's use; without a figure where it holds next to nothing of one of them

    Source: EN 1995-1-1:2004+A1:2008, equations 8.27 and 8.28, each case with its k_mod.
    Raises OutOfRange outside the limits, NotAChoice for another class or sort.

    >>> verdict((490.5, 0, 2432), (300, 100, 930), 1, "screw", touching=True).word.value
    'over'
    """
    together = [
        (use(pull.share, shear.share, sort, touching=touching), pull, shear)
        for pull, shear in zip(_uses(pull_n, service_class), _uses(shear_n, service_class), strict=True)
    ]
    most, pull, shear = max(together, key=lambda found: found[0])
    return share_used(
        "pull with shear",
        f"What pull and sideways load together use of the fastener ({pull.case.name})",
        most,
        f"{SOURCE}; {timber_design.SOURCE}",
        beyond=_holds_little(pull, shear, holds_no_pull),
        working=(
            *working,
            ("share of the pull", _shown(pull.share)),
            ("share of the sideways load", _shown(shear.share)),
            ("k_mod", f"{timber_design.k_mod(service_class, pull.case.duration):g} ({pull.case.duration})"),
        ),
    )


def _shown(share: float) -> str:
    return f"{share:.3f}" if math.isfinite(share) else "nothing resists it"


def _holds_little(pull: timber_design.Use, shear: timber_design.Use, holds_no_pull: str) -> str:
    """What a fastener holds too little of for a share of it to say anything, and what to do."""
    name, one = ("pull", pull) if pull.share >= shear.share else ("sideways load", shear)
    with_it = "pushed sideways as well" if one is pull else "pulled as well"
    if one.resistance_n > 0:
        return f"The {name} on the fastener is many times what it holds, and it is {with_it}. {REMEDY}"
    why = holds_no_pull if one is pull and holds_no_pull else REMEDY
    return f"The fastener is {with_it}, and of the {name} on it it holds nothing at all. {why}"


def _uses(loads_n: tuple[float, float, float], service_class: int) -> tuple[timber_design.Use, ...]:
    permanent_n, people_n, characteristic_n = loads_n
    return timber_design.uses(characteristic_n, permanent_n, people_n, service_class)
