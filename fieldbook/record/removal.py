"""The fittings of a site in the order they come down."""

from __future__ import annotations

from dataclasses import dataclass

from ..book.site import Item, Site
from ..checks import removal
from ..errors import FieldbookError
from ..findings.taking_down import takedown_items


@dataclass(frozen=True)
class RemovalStep:
    """One fitting to take down; those of one stage may change places. `after` are what must be off before it."""

    stage: int
    fitting: Item
    after: tuple[Item, ...]
    tools: tuple[str, ...]


@dataclass(frozen=True)
class Removal:
    """The order of taking down.

    steps    every fitting that is up or planned, first to last; none when no order can be given
    problem  why none can, naming the fittings that wait for each other; "" when all is well
    """

    steps: tuple[RemovalStep, ...]
    problem: str = ""


def removal_of(site: Site) -> Removal:
    """The order in which the fittings of a site come down; within a stage, room by room."""
    try:
        steps = removal.steps(takedown_items(site))
    except FieldbookError as error:
        return Removal((), f"{error.reason} {error.remedy}")
    rooms = {room.id: place for place, room in enumerate(site.all("room"))}
    told = [
        RemovalStep(step.stage, site[step.item.id], tuple(site[other] for other in step.after), step.item.tools)
        for step in steps
    ]
    return Removal(tuple(sorted(told, key=lambda step: (step.stage, rooms[site[step.fitting.face].room]))))
