"""The new holes that a yes covers: those drilled from where it is about, and those that come out there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from ..book.site import Item, Site, by_mark
from .acts import makes_hole
from .ahead import OnADay
from .asking import NOTHING_TAKEN, Asked, NotEntered
from .coming_out import NOWHERE
from .finding import Blank
from .geometry import place_of
from .rulings import AT_HOLD_MM, NO, covers, does, holds_on, reaches
from .through import comes_out, other_side, same_as


class HoleThere(NamedTuple):
    """A new hole as it is seen on a face.

    at    where; None where that is not entered
    lack  why it is not sure that it is there: what is not entered
    """

    fixing: Item
    face: Item
    at: tuple[float, float] | None
    lack: NotEntered | None = None


def holes_under(asked: Asked, ruling: Item) -> list[HoleThere]:
    """The holes of what stands and is covered by a yes, each once: named, of a fitting named, or where it is about."""
    if ruling.answer == NO:
        return []
    site = asked.site
    named = [one for link in ruling.items or () if (one := site.get(link))] if does(ruling, "drilling", ()) else []
    faces = list(dict.fromkeys(face for one in named for face in _faces(site, one)))
    there = [one for face in faces for one in site.fixings_on(face) if covers(ruling, face, one)]
    let_in = [one for part in named if part.kind in ("hold", "member") for one in site.let_into(part)]
    own = [one for one in site.covered_by(ruling) if one.kind == "fixing"]
    near = [one for one in dict.fromkeys([*own, *let_in, *there]) if one.stands and makes_hole(site, one)]
    out = [hole for face in faces for hole in _coming_out(asked, ruling, face)]
    out.sort(key=lambda hole: by_mark(hole.fixing))
    further = [hole for hole in out if not {hole.fixing, *same_as(site, hole.fixing)}.intersection(near)]
    return [*(HoleThere(one, site[one.face], place_of(one)) for one in near), *further]


def past_agreed(asked: Asked, ruling: Item) -> int:
    """How many holes there are where that is more than a yes is to; 0 where it is not.

    Raises NotEntered where one too many may come out there.
    """

    def counted() -> int:
        holes = holes_under(asked, ruling)
        lacking = [hole.lack for hole in holes if hole.lack is not None]
        if (sure := len(holes) - len(lacking)) > ruling.holes:
            return sure
        if len(holes) > ruling.holes:
            raise lacking[0]
        return 0

    past: int = asked.once(("holes", ruling.id), counted)
    return past


def not_to_hole(asked: OnADay, ruling: Item, face: Item, at: tuple[float, float], depth_mm: float | None) -> str:
    """Why a yes to holes is none to one at a place of a face, to stand behind its reference; "" where it is."""
    if ruling.depth_mm is None:
        return " agrees to a hole, and does not say how deep it may go."
    if depth_mm is not None and depth_mm > ruling.depth_mm:
        return f" agrees to {ruling.depth_mm:g} mm, not to {depth_mm:g} mm."
    if ruling.holes is None:
        return ""
    made = holes_under(Asked(asked.site, asked.today, NOTHING_TAKEN), ruling)
    there = (hole.at for hole in made if hole.face.id == face.id and hole.at is not None)
    here = any(math.dist(one, at) <= AT_HOLD_MM for one in there)
    if len(made) < ruling.holes or (here and len(made) == ruling.holes):
        return ""
    unsure = ", or may come out there" if any(hole.lack is not None for hole in made) else ""
    return f" agrees to {ruling.holes} new holes, and {len(made)} are planned or made{unsure}."


def _faces(site: Site, named: Item) -> tuple[Item, ...]:
    """A face that an agreement names, or all those of a room or of the site."""
    if named.kind == "face":
        return (named,)
    return site.of(named, "face") if named.kind == "room" else site.all("face") if named.kind == "site" else ()


def _coming_out(asked: Asked, ruling: Item, face: Item) -> Iterator[HoleThere]:
    """The holes drilled from the other side of a wall that come out where an agreement is about, or may."""
    site = asked.site
    behind = [site.get(face.behind, "face"), *site.pointing_at(face, "face", "behind")]
    for one in (one for other in dict.fromkeys(behind) if other is not None for one in site.fixings_on(other)):
        back = other_side(site, site[one.face])
        if back is None or back.face.id != face.id or not (one.stands and makes_hole(site, one)):
            continue
        at = back.at(place_of(one))
        anywhere = at is None and holds_on(ruling, face) is None
        if at is not None and not reaches(ruling, face, at, one.contact_radius_mm):
            continue
        try:
            if comes_out(asked, one):
                lack = NotEntered(Blank(back.said, "behind_x_mm"), None, "", NOWHERE) if anywhere else None
                yield HoleThere(one, face, at, lack)
        except NotEntered as lacking:
            yield HoleThere(one, face, at, lacking)
