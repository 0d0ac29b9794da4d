"""The order of taking down: what hangs on a thing or covers it comes off before it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from ..errors import FieldbookError, UnknownItem, UnsuitableShape
from .limits import within

SOURCE = "Topological order of what hangs on and what covers what, Python's graphlib"
ITEMS_HIGH = 10_000
PEOPLE_HIGH = 50
MINUTES_HIGH = 10_000.0


class RemovalCycle(FieldbookError):
    """Things that each would have to come off before the other."""

    code = "removal-cycle"


@dataclass(frozen=True)
class Thing:
    """A thing that is to come down.

    id                what it is told apart by: in a book its id, by hand its name
    hangs_on, covers  ids of other items, which come off after this one
    people, minutes   what it takes; None where nobody has said
    title             how a sentence calls it; "": by its id
    """

    id: str
    hangs_on: tuple[str, ...] = ()
    covers: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    people: int | None = None
    minutes: float | None = None
    title: str = ""

    @property
    def name(self) -> str:
        """How a sentence calls it."""
        return self.title or self.id


@dataclass(frozen=True)
class Step:
    """One thing to take down. Things of the same stage stand in no one's way and may change places.

    after  ids of what has to be off before it
    """

    stage: int
    item: Thing
    after: tuple[str, ...]


def steps(items: Sequence[Thing]) -> list[Step]:
    """The order in which things come down.

    items    what is to come down, each id once, up to 10 000; people 1 to 50, minutes 0 to 10 000
    returns  a step for each item, stage by stage and within a stage in the order given

    Source: Python's graphlib.TopologicalSorter, of two rules: what hangs on a thing, and what covers it, comes off
    first.
    Raises RemovalCycle, with the names in turn, where things wait for each other; UnknownItem for an id that is
    not among the items; UnsuitableShape for an id given twice; OutOfRange outside the limits.

    >>> [step.item.name for step in steps([Thing("rail"), Thing("panel", hangs_on=("rail",))])]
    ['panel', 'rail']
    """
    within("items", len(items), 0, ITEMS_HIGH, "items")
    by_id = _by_id(items)
    after = _waits_for(items, by_id)
    sorter = TopologicalSorter(after)
    try:
        sorter.prepare()
    except CycleError as cycle:
        raise _in_words([by_id[one].name for one in cycle.args[1]]) from None
    places = {one: place for place, one in enumerate(by_id)}
    taken: list[Step] = []
    stage = 0
    while sorter.is_active():
        stage += 1
        ready = sorted(sorter.get_ready(), key=places.__getitem__)
        taken += [Step(stage, by_id[one], tuple(after[one])) for one in ready]
        sorter.done(*ready)
    return taken


def _by_id(items: Sequence[Thing]) -> Mapping[str, Thing]:
    by_id: dict[str, Thing] = {}
    for place, item in enumerate(items):
        if item.id in by_id:
            raise UnsuitableShape(
                f"“{item.name}” is named twice.",
                "Give each thing a name of its own.",
                field=f"items[{place}].name",
                value=item.name,
            )
        by_id[item.id] = item
    return by_id


def _waits_for(items: Sequence[Thing], by_id: Mapping[str, Thing]) -> dict[str, list[str]]:
    """For each id, what has to be off before it, each once and in the order given."""
    after: dict[str, dict[str, None]] = {one: {} for one in by_id}
    for place, item in enumerate(items):
        for field, others in (("hangs_on", item.hangs_on), ("covers", item.covers)):
            for other in others:
                if other not in by_id:
                    raise UnknownItem(
                        f"“{item.name}” {field.replace('_', ' ')} “{other}”, which is not in the list.",
                        "Add it, or correct the name.",
                        field=f"items[{place}].{field}",
                        value=other,
                    )
                after[other][item.id] = None
    return {one: list(waits) for one, waits in after.items()}


def _in_words(cycle: Iterable[str]) -> RemovalCycle:
    names = list(cycle)
    chain = ", then ".join(f"“{name}”" for name in names)
    return RemovalCycle(
        f"These wait for each other to come off: {chain}.",
        "Correct what hangs on or covers what.",
        field="items",
        value=names,
    )
