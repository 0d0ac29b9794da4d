"""What to do at once when something happened to a fitting, from what the record knows of it.

Whoever stands there may be no fitter: what is heavy, high, glazed, live or not known is made safe and left to others.
Mirrored by static/phone/book/happened.js. Source: common practice, no source.
"""

from __future__ import annotations

from typing import NamedTuple

from ..book.site import Item, Site

LEAVE, MAKE_SAFE, TAKE_OFF = "leave it", "make it safe", "take it off"
LIGHT_KG = 5
WITHIN_REACH_MM = 1_800
HANGS_LOOSE = ("a knock", "loose", "fallen", "broken")


class WhatToDo(NamedTuple):
    """What is done now, in words; whom to call, "" where nobody is entered; the urgency class of EN 16096."""

    act: str
    words: tuple[str, ...]
    call: str
    urgency: str


def what_to_do(site: Site, fitting: Item | None, happened: str) -> WhatToDo:
    """What whoever stands there does now.

    fitting   it happened to; None: something else, or nobody knows
    happened  as an observation has it
    """
    call, damp = site.item.call or site.item.keeper or "", happened == "damp"
    words = []
    if fitting is not None and is_live(fitting) and (damp or happened in HANGS_LOOSE):
        where = (site.item.isolators or "where is not entered").rstrip(". ")
        words.append(f"It is lit or heated: touch no metal of it. Switch it off where it is shut off: {where}.")
    if damp:
        words.append(
            "Where the water comes from is the first question. Move nothing that is wet and swollen; note how far it"
            " reaches."
        )
    if happened not in HANGS_LOOSE:
        leave = "Leave it as it is, photograph it from where you stand, and report it."
        return WhatToDo(LEAVE, (*words, leave), call, "3" if damp else "2")
    reason = not_by_hand(site, fitting) if fitting else "what it is, is not known"
    if reason:
        safe = "Keep people from beneath and in front of it. Do not retighten or lift it."
        return WhatToDo(MAKE_SAFE, (*words, safe, f"Leave it to others: {reason}."), call, "3")
    off = "One person may take it off, by its steps, and lay it flat out of the way. Touch no wall with a tool."
    return WhatToDo(TAKE_OFF, (*words, off), call, "3")


def not_by_hand(site: Site, fitting: Item) -> str:
    """Why somebody who is no fitter takes it down by no means; "" where nothing speaks against it."""
    mass = fitting.mass_loaded_kg if fitting.mass_loaded_kg is not None else fitting.mass_empty_kg
    first = ", ".join(one.mark for one in off_before(site, fitting))
    people = fitting.people_to_remove
    few = f"it takes {people} people" if people else "how many it takes is not entered"
    against = (
        (mass is None, "how heavy it is, is not entered"),
        (mass is not None and mass > LIGHT_KG, f"it weighs {mass or 0:g} kg"),
        (fitting.z_mm + fitting.height_mm > WITHIN_REACH_MM, "it is not within reach from the floor"),
        (fitting.glass not in {None, "none"}, "it is glazed"),
        (is_live(fitting), "it is lit or heated"),
        (people != 1, few),
        (bool(first), f"{first} would have to come off first"),
        (not fitting.removal, "how it comes off is not entered"),
        (fitting.glass is None, "whether it is glazed is not entered"),
        (not fitting.gives, "whether it is lit or heated is not entered"),
    )
    return next((words for speaks, words in against if speaks), "")


def is_live(fitting: Item) -> bool:
    """Whether it is said to give off light or heat."""
    return any(one != "nothing" for one in fitting.gives or ())


def off_before(site: Site, fitting: Item) -> list[Item]:
    """What hangs on a fitting, is fixed to it or covers it, and comes off first."""
    up = [one for one in site.all("fitting") if one.stands and one.id != fitting.id]
    return [one for one in up if fitting in site.goes_through(one) or fitting.id in (one.covers or ())]
