"""Whether somebody looked for what is not recorded: nothing recorded is not nothing there."""

from __future__ import annotations

from ..book.site import Item, Site
from ..book.wording import day
from ..model.choices import LOOKED_FOR
from .finding import Blank

ZONES, SWINGS, SERVICES, ASBESTOS, LEAD_PAINT = LOOKED_FOR


def looked(site: Site, face: Item, what: str) -> str:
    """By whom, how and when something was looked for on a face or in its room; "" where nobody did."""
    for place in (face, site.parent(face)):
        for one, by, how, on in (place and place.looked_for) or ():
            if one == what:
                return f"looked for by {by} ({how}, {day(on)})"
    return ""


def not_looked(face: Item, what: str) -> Blank:
    """What is missing where nobody looked."""
    return Blank(face, "looked_for", f"a look for {what} on {face.called}")
