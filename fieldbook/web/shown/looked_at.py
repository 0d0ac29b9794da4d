"""What is looked at rather than read of a room: its plan, and the photographs taken in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...book.site import Item, Site
from ...drawing.drafting import Drawn
from ...drawing.room_plan import is_placed, room_plan
from ...findings import Finding


def plan_of(site: Site, room: Item, findings: Iterable[Finding]) -> Drawn | None:
    """The plan of a room, each face with the sign of what is worst on it; None where nothing of it is known."""
    if not room.plan and not any(is_placed(face) for face in site.of(room, "face")):
        return None
    return room_plan(site, room, findings, interactive=True)


def photographs_in(site: Site, room: Item) -> Iterator[tuple[Item, list[Item]]]:
    """The photographs of a room, then of each face with what is on it, as one walks along; none is left empty."""
    if own := list(site.photographs_of(room)):
        yield room, own
    for face in site.of(room, "face"):
        things = [
            face,
            *(one for kind in ("zone", "limit", "hold", "member", "fitting", "patch") for one in site.of(face, kind)),
            *site.fixings_on(face),
        ]
        if pictures := [picture for one in things for picture in site.photographs_of(one)]:
            yield face, pictures
