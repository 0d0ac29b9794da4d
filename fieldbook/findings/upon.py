"""What stands loose on top of another fitting: a case on a plinth, a box on a shelf."""

from __future__ import annotations

from ..book.site import Item, Site
from . import geometry

# Felt, feet and what a top is out of true lie between: common practice, no source.
NEAR_TOP_MM = 20.0


def stands_upon(site: Site, fitting: Item) -> Item | None:
    """What carries a fitting that nothing fastens, where it begins at the top of that; None where it hangs."""
    face = site[fitting.face]
    if geometry.overhead(face) or not geometry.is_upright(face):
        return None
    if any(fixing.stands for fixing in site.of(fitting, "fixing")):
        return None
    here = geometry.fitting_stretch(fitting)
    for carrier in site.goes_through(fitting):
        below = geometry.fitting_stretch(carrier)
        beside = here.x_to <= below.x_from or below.x_to <= here.x_from
        if carrier.face == fitting.face and not beside and abs(here.z_from - below.z_to) <= NEAR_TOP_MM:
            return carrier
    return None
