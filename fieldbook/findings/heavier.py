"""Whether more weighs on what was agreed than did then: it grew heavier, or more hangs on it than it was made for."""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item
from .asking import Asked
from .load_paths import THE_FLOOR

# What a mass may come to when it is weighed anew: common practice, no source.
PLAY = 1.05


def heavier(asked: Asked, ruling: Item, thing: Item) -> Iterator[str]:
    """That a fitting, or the one a fixing holds, weighs more with all on it than when it was agreed to, in words.

    Then counts what it weighed with all that hung on it, or with what it was said to carry where that is more. Where
    its mass was not entered then, nobody agreed to any; where the floor or other fixings carry it, none is asked about.
    """
    site = asked.site
    fitting = site.get(thing.fitting) if thing.kind == "fixing" else thing
    if fitting is None or fitting.support == THE_FLOOR or (thing.kind == "fixing" and thing.carries_load == 0):
        return
    if thing.kind == "fixing" and site.then.get((ruling.id, thing.id), {}).get("carries_load") == 0:
        yield "it carries load now"
        return
    was = site.then.get((ruling.id, fitting.id), {})
    hung = site.all_hung_on(fitting)
    now = sum(asked.need(one, "mass_loaded_kg") for one in (fitting, *hung))
    weighs = f"{fitting.called} weighs {now:g} kg{' with what hangs on it' if hung else ''}"
    if was.get("support") == THE_FLOOR or (own := was.get("mass_loaded_kg")) is None:
        yield f"{weighs}, which {'the floor carried' if was.get('support') == THE_FLOOR else 'was not entered'} then"
        return
    hung_then = sum(site.then.get((ruling.id, one.id), {}).get("mass_loaded_kg") or 0.0 for one in hung)
    then = own + max(hung_then, was.get("carries_kg") or 0.0)
    if now > then * PLAY:
        yield f"{weighs}, not {then:g}"
