"""What the desk alone can answer, for phones to have with them: what is over, room to move, phases, the workshop."""

from __future__ import annotations

from datetime import date
from typing import Any

from ..book.site import Site
from ..model.choices import FITTED
from .due import stopping
from .phase_order import FIRST, phases
from .phases import meets, worsened
from .room_to_move import room_to_move
from .told_workshop import told_workshop


def told_phones(site: Site, today: date) -> dict[str, Any]:
    """The answers about the fittings of a site that stand, by id.

    returns  open: what is refused or over, in sentences, gravest first; room, of what is made to be moved or to carry:
             stretches of the left edge, mm, how much more it may carry, kg (None: not known), and what sets that;
             phases: each with what it brings, what comes down for it, what it does to earlier ones and what it makes
             worse; workshop: the sheets of each phase, see told_workshop
    """
    made_for_it = [
        one
        for one in site.all("fitting")
        if one.state == FITTED and (one.moves_mm is not None or one.carries_kg is not None)
    ]
    rooms = {one.id: room_to_move(site, one, today)._asdict() for one in made_for_it}
    return {
        "open": stopping(site, today),
        "room": rooms,
        "phases": [_phase(site, one, today) for one in phases(site)],
        "workshop": told_workshop(site),
    }


def _phase(site: Site, phase: str, today: date) -> dict[str, Any]:
    worse = [
        {
            "subject": one.after.subject.id,
            "question": one.after.question,
            "was": one.before.word,
            "word": one.after.word,
            "sentence": one.after.verdict.sentence,
        }
        for one in worsened(site, phase, today)
    ]
    return {
        "name": phase,
        "brings": [one.id for one in site.all("fitting") if (one.phase or FIRST) == phase],
        "ends": [one.id for one in site.all("fitting") if phase and one.until_phase == phase],
        "meets": [[one.later.id, one.does, one.earlier.id] for one in meets(site, phase)],
        "worse": worse,
    }
