"""What stands loose on top of another fitting: a case on a plinth, a box on a shelf."""

from __future__ import annotations

from ..book.site import Item, Site
from . import geometry

# Felt, feet and what a top is out of true lie between: common practice, no source.
NEAR_TOP_MM = 20.0


def stands_upon(site: Site, fitting: Item) -> Item | None:
    """What a fitting stands loose on; None where it hangs, is fastened, or stands on the floor."""
    return next((carrier for carrier in site.goes_through(fitting) if rests_on(site, fitting, carrier)), None)


def rests_on(site: Site, fitting: Item, carrier: Item) -> bool:
    """Whether a fitting that nothing fastens begins at the top of what carries it, and is not in front of that."""
    face = site[fitting.face]
    if carrier.face != fitting.face or geometry.overhead(face) or not geometry.is_upright(face):
        return False
    if any(fixing.stands for fixing in site.of(fitting, "fixing")):
        return False
    here, below = geometry.fitting_stretch(fitting), geometry.fitting_stretch(carrier)
    beside = here.x_to <= below.x_from or below.x_to <= here.x_from
    return not beside and abs(here.z_from - below.z_to) <= NEAR_TOP_MM
