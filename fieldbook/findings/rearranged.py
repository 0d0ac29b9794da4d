"""Whether a fitting may stand elsewhere or carry so much without asking: its room to move, asked of both at once."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from ..book.site import Item, Site
from .room_to_move import moved_to, room_to_move


class Rearranged(NamedTuple):
    """The state asked about, and what speaks against it, in words; empty: it is within its room to move.

    changed  what stands elsewhere or weighs more then: the fitting, what hangs on it, their fixings
    """

    changed: tuple[Item, ...]
    against: tuple[str, ...]


def rearranged(site: Site, fitting: Item, x_mm: float | None, mass_kg: float | None, today: date) -> Rearranged:
    """What a place along the face and a mass in all come to.

    x_mm     of its left edge, mm; None: it stays
    mass_kg  loaded, kg; None: as it was
    """
    against: list[str] = []
    there = site
    if x_mm is not None and x_mm != fitting.x_mm:
        there, worse = moved_to(site, fitting, x_mm, today)
        if fitting.moves_mm is None:
            against.append("It is not made to be moved.")
        elif abs(x_mm - fitting.x_mm) > fitting.moves_mm:
            against.append(f"It is made to be moved by {fitting.moves_mm:g} mm.")
        if worse is not None:
            against.append(f"{worse.subject.called}: {worse.verdict.own_sentence}")
    if mass_kg is not None:
        against += _load(there, there[fitting.id], mass_kg, today)
        loaded = Item("fitting", fitting.id, dict(there[fitting.id].values) | {"mass_loaded_kg": mass_kg})
        there = there.with_changed(loaded)
    changed = [
        one for one in there.everything().values() if one.kind in {"fitting", "fixing"} and one is not site[one.id]
    ]
    return Rearranged(tuple(changed), tuple(against))


def _load(site: Site, fitting: Item, mass_kg: float, today: date) -> list[str]:
    loaded = fitting.mass_loaded_kg
    if loaded is None:
        return ["What it may carry is not known: its loaded mass is not entered."]
    if mass_kg <= loaded:
        return []
    room = room_to_move(site, fitting, today)
    if room.more_kg is not None and mass_kg <= loaded + room.more_kg:
        return []
    most = f"{loaded + (room.more_kg or 0):g} kg"
    return [f"It may weigh at most {most} with all on it{f': {room.set_by}' if room.set_by else ''}."]
