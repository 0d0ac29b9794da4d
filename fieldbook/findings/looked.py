"""Whether somebody looked for what is not recorded: nothing recorded is not nothing there; and hazards that are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..book.site import Item, Site
from ..book.wording import day
from ..model.choices import LOOKED_FOR
from .ahead import OnADay, come
from .finding import Blank
from .named import hazards_in

ZONES, SWINGS, SERVICES, ASBESTOS, LEAD_PAINT = LOOKED_FOR


def looked(asked: OnADay, face: Item, what: str) -> str:
    """By whom, how and when something was looked for on a face or in its room; "" where nobody did.

    A look of a day that has not come is none yet.
    """
    for by, how, on in _looks(asked.site, face, what):
        if come(on, asked.today):
            return f"looked for by {by} ({how}, {day(on)})"
    return ""


def ahead(asked: OnADay, face: Item, *sought: str) -> str:
    """That a look is entered for a day to come, as a sentence to stand behind another; "" where none is."""
    for what in sought:
        for _, _, on in _looks(asked.site, face, what):
            if not come(on, asked.today):
                return f" A look for {what} is dated {day(on)}, a day that has not come."
    return ""


def _looks(site: Site, face: Item, what: str) -> Iterator[tuple[str, str, str]]:
    for place in (face, site.parent(face)):
        for one, by, how, on in (place and place.looked_for) or ():
            if one == what:
                yield by, how, on


def not_looked(face: Item, what: str) -> Blank:
    """What is missing where nobody looked."""
    return Blank(face, "looked_for", f"a look for {what} on {face.called}")


def hazards_at(site: Site, face: Item) -> Mapping[str, Item]:
    """Hazard -> where it is entered: for the room of a face, or on the face in the name of a layer, board or timber."""
    names = [name for name, *_ in face.layers or ()] + [member.material for member in site.of(face, "member")]
    said = {hazard: face for name in names for hazard in hazards_in(name or "")}
    room = site[face.room]
    return said | dict.fromkeys(room.hazards or (), room)
