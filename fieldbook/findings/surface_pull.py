"""Whether the surface under a pad or a magnet holds what that pulls at, as a pull on the spot shows."""

from __future__ import annotations

from ..book.site import Item
from ..checks.verdict import at_most
from .asking import Asked, NotEntered
from .finding import Blank, Outcome
from .fixing_loads import NEGLIGIBLE_N, Share, bearers
from .magnets import friction_of
from .strengths import shown_on_the_day
from .verdicts import does_not_apply

SURFACE = "What it holds is what its surface holds: a load stated for it, or a pull, stands for both."
# What a maker's figure says nothing of: as in `checks.stated_hold`.
UNDER = {
    "adhesive pad": "Its maker does not know this surface, whose paint or limewash lets go first; a pull on it shows.",
    "magnet": "Its maker's figure is for thick bare steel; paint, gaps and thin iron take most of it, as a pull shows.",
}
BESIDE = "Under it the surface is as sound as where another of its fitting was pulled."
ON_SURFACE = UNDER.keys()


def on_surface(asked: Asked, fixing: Item, share: Share) -> Outcome:
    """What a pad or a magnet pulls at, of which its maker knows nothing: shown by pulls at it and others beside it."""
    if fixing.stated_load_n is None or asked.need(fixing, "stated_by", share.force_n, "N") != "maker":
        return does_not_apply("carrier", SURFACE)
    alike = [one for one in bearers(asked.site, asked.site[fixing.fitting]) if one.sort == fixing.sort]
    tested = [one for one in alike if one.tested_n is not None]
    if not tested:
        raise NotEntered(Blank(fixing, "tested_n"), share.force_n, "N", UNDER[fixing.sort])
    shown = min((shown_on_the_day(asked, one, share) for one in tested), key=lambda one: one.limit_n)
    pulled = share.force_n
    if fixing.sort == "magnet" and share.whole_shear_n > NEGLIGIBLE_N:  # which holds sideways by friction alone
        pulled = share.whole_pull_n + share.whole_shear_n / friction_of(asked, fixing, share.force_n)
    what = f"The pull that {fixing.called} needs of its surface"
    verdict = at_most("carrier", what, pulled, shown.limit_n, "N", shown.source, after=shown.said)
    return Outcome(verdict, assumed=() if fixing in tested else (BESIDE,))
