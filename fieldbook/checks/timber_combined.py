"""A fastener in wood that is pulled and pushed sideways at once.

Does not cover forces that never come together: those are held one by one.
"""

from __future__ import annotations

from . import timber_design
from .limits import within
from .timber_dowel import sort_named
from .verdict import Verdict, at_most

SOURCE = (
    "EN 1995-1-1:2004+A1:2008, equations 8.27 (smooth nails: shares added) and 8.28 (others: squares added), 8.3.3, "
    "8.7.3 (second hand)"
)
SMOOTH = ("smooth nail", "square nail")
# From here on a share is shown as this: what has no resistance at all would be used without end.
SHARE_HIGH = 1000.0


def use(pull_share: float, shear_share: float, sort: str, *, touching: bool) -> float:
    """How much of a fastener is used by a pull and a sideways load together.

    pull_share   pull over the pull it holds, a fraction, 0 to 1000
    shear_share  sideways load over the one it holds, a fraction, 0 to 1000
    sort         one of `timber_dowel.SORTS`
    touching     whether the parts touch; where they do not, shares are added
    returns      fraction; 1 is all of it

    Source: EN 1995-1-1:2004+A1:2008, equations 8.27 and 8.28; added across a gap, as the safe side, no source.
    Raises OutOfRange outside the limits, NotAChoice for another sort.

    >>> use(0.6, 0.6, "smooth nail", touching=True), use(0.6, 0.6, "screw", touching=True)
    (1.2, 0.72)
    """
    within("pull_share", pull_share, 0, SHARE_HIGH, "")
    within("shear_share", shear_share, 0, SHARE_HIGH, "")
    sort_named(sort)
    return pull_share + shear_share if sort in SMOOTH or not touching else pull_share**2 + shear_share**2


def verdict(
    pull_n: tuple[float, float, float],
    shear_n: tuple[float, float, float],
    service_class: int,
    sort: str,
    *,
    touching: bool,
    working: tuple[tuple[str, str], ...] = (),
) -> Verdict:
    """Whether a fastener holds a pull and a sideways load at once.

    pull_n         pull for good, what people add, and characteristic resistance, N, as for `timber_design.worst`
    shear_n        the same sideways, N
    service_class  as for `timber_design.k_mod`, no unit
    sort           one of `timber_dowel.SORTS`
    touching       as for `use`
    working        what led to the resistances, for whoever does it again
    returns        verdict, %: the worst case's use

    Source: EN 1995-1-1:2004+A1:2008, equations 8.27 and 8.28, each case with its k_mod.
    Raises OutOfRange outside the limits, NotAChoice for another class or sort.

    >>> verdict((490.5, 0, 2432), (300, 100, 930), 1, "screw", touching=True).word.value
    'over'
    """
    together = [
        (use(min(pull.share, SHARE_HIGH), min(shear.share, SHARE_HIGH), sort, touching=touching), pull, shear)
        for pull, shear in zip(_uses(pull_n, service_class), _uses(shear_n, service_class), strict=True)
    ]
    most, pull, shear = max(together, key=lambda found: found[0])
    return at_most(
        "pull with shear",
        f"What pull and sideways load together use of the fastener ({pull.case.name})",
        100 * min(most, SHARE_HIGH),
        100,
        "%",
        f"{SOURCE}; {timber_design.SOURCE}",
        working=(
            *working,
            ("share of the pull", _shown(pull.share)),
            ("share of the sideways load", _shown(shear.share)),
            ("k_mod", f"{timber_design.k_mod(service_class, pull.case.duration):g} ({pull.case.duration})"),
        ),
    )


def _shown(share: float) -> str:
    return f"{share:.3f}" if share < SHARE_HIGH else "no resistance to speak of"


def _uses(loads_n: tuple[float, float, float], service_class: int) -> tuple[timber_design.Use, ...]:
    permanent_n, people_n, characteristic_n = loads_n
    return timber_design.uses(characteristic_n, permanent_n, people_n, service_class)
