"""What a bolt that goes right through a wall carries for the fittings on both of its sides."""

from __future__ import annotations

from ..book.site import Item, Site
from .asking import Asked, NotEntered
from .finding import Blank
from .fixing_loads import Share, carries
from .through import READS as THROUGH
from .through import THROUGH_HOLES, other_side, same_as, thickness_mm

READS = THROUGH
MAY_BE_SAME = "It goes right through, and on the other side {} may be the same bolt."


def on_both_sides(asked: Asked, share: Share) -> Share:
    """A fixing's share with that of the bolt it is on the other side, added as if they pulled one way.

    Raises NotEntered where it comes out and bolts of other walls may be the same, for nobody entered what is behind.
    """
    fixing = share.fixing
    if fixing.sort not in THROUGH_HOLES or fixing.hole == "none":
        return share
    site = asked.site
    unknown = other_side(site, site[fixing.face]) is None and _is_through(site, fixing)
    if unknown and (may_be := next((one for one in _through(site) if one.face != fixing.face), None)):
        raise NotEntered(Blank(site[fixing.face], "behind"), share.force_n, "N", MAY_BE_SAME.format(may_be.called))
    for one in same_as(site, fixing):
        if (there := carries(asked, one)) is not None:
            share = Share(fixing, *(here + more for here, more in zip(share[1:], there[1:], strict=True)))
    return share


def _through(site: Site) -> list[Item]:
    """The bolts that come out on a face of which nobody entered what is behind, made once a site."""

    def made() -> list[Item]:
        bolts = (one for one in site.all("fixing") if one.stands and one.carries_load != 0 and _is_through(site, one))
        return [one for one in bolts if other_side(site, site[one.face]) is None]

    return site.once(("through",), made)


def _is_through(site: Site, fixing: Item) -> bool:
    """Whether a bolt goes through its wall for certain."""
    if fixing.sort not in THROUGH_HOLES or fixing.hole == "none" or fixing.fabric == "another fitting":
        return False
    thick = thickness_mm(site, site[fixing.face])
    return thick is not None and fixing.penetration_mm is not None and fixing.penetration_mm >= thick
