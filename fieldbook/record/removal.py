"""The fittings of a site in the order they come down."""

from __future__ import annotations

from dataclasses import dataclass

from ..checks import removal
from ..gather import Item, Site

GONE = "taken down"


@dataclass(frozen=True)
class Step:
    """One fitting to take down; those of one stage may change places. `after` are what must be off before it."""

    stage: int
    fitting: Item
    after: tuple[Item, ...]
    tools: tuple[str, ...]


@dataclass(frozen=True)
class Removal:
    """The order of taking down.

    steps  every fitting that is up or planned, first to last; none when there is a ring
    ring   fittings that each would have to come off before the next, the last before the first
    """

    steps: tuple[Step, ...]
    ring: tuple[Item, ...] = ()

    @property
    def minutes(self) -> float:
        """Time for all steps whose time is entered."""
        return sum(step.fitting.minutes_to_remove or 0 for step in self.steps)


def removal_of(site: Site) -> Removal:
    """The order in which the fittings of a site come down, room by room where that is free."""
    faces = [face for room in site.all("room") for face in site.of(room, "face")]
    in_rooms = [fitting for face in faces for fitting in site.of(face, "fitting")]
    fittings = {fitting.id: fitting for fitting in in_rooms if fitting.state != GONE}
    try:
        steps = removal.steps([_item(site, fitting, fittings) for fitting in fittings.values()])
    except removal.RemovalCycle as cycle:
        return Removal((), tuple(fittings[name] for name in cycle.value[:-1]))  # the first is named again at its end
    return Removal(tuple(_step(step, fittings) for step in steps))


def _step(step: removal.Step, fittings: dict[str, Item]) -> Step:
    after = tuple(fittings[name] for name in step.after)
    return Step(step.stage, fittings[step.item.name], after, step.item.tools)


def _item(site: Site, fitting: Item, there: dict[str, Item]) -> removal.Item:
    """A fitting as the check takes it, named by its id because marks may be used twice."""
    fixings = [fixing for fixing in site.of(fitting, "fixing") if fixing.state != GONE]
    tools = dict.fromkeys(fixing.removal_tool for fixing in fixings if fixing.removal_tool)
    hangs_on = (fitting.hangs_on,) if fitting.hangs_on in there else ()
    covers = tuple(other for other in fitting.covers or [] if other in there)
    return removal.Item(fitting.id, hangs_on, covers, tuple(tools), fitting.people_to_remove, fitting.minutes_to_remove)
