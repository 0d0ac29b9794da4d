"""The parts of what stands on the floor, at their least and at their most, and what people do to each of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from ..book.site import Item, Site
from ..checks.clearance import highest
from ..checks.standing import Inside, Push, StandingPart
from ..errors import Missing
from . import geometry
from .asking import Asked
from .load_paths import carried, front_mm, own_weight, people_pull_n, place_on
from .upon import stands_upon

# Fall of a floor that nobody surveyed, mm on a metre: common practice, no source.
FALL_MM_M = 10.0


class Weighed(NamedTuple):
    """A part that stands, at its least and at its most."""

    least: StandingPart
    most: StandingPart


class State(NamedTuple):
    """What may stand, and what people do to it."""

    parts: tuple[Weighed, ...]
    pushes: tuple[Push, ...]


def states(asked: Asked, fitting: Item, deep_mm: float) -> list[State]:
    """What may stand: pulled at none but itself, at one part, and at all of them at once.

    What hangs on it may be off: it is counted on only while somebody pulls at it.
    deep_mm  how far out its base reaches
    """
    whole = carried(asked.site, fitting)
    pulled = [(part, pull) for part in whole if (pull := people_pull_n(asked, part))]
    pushes = {part.id: _pushes(asked, part, pull, fitting, deep_mm) for part, pull in pulled}
    below = {part.id: _below(asked.site, part) for part, _ in pulled}
    cases = [({fitting.id}, pushes.get(fitting.id, ()))]
    cases += [(below[part.id], pushes[part.id]) for part, _ in pulled if part.id != fitting.id]
    if len(pulled) > 1:
        cases.append((set().union(*below.values()), _at_once(pushes)))
    return [
        State(tuple(_weighed(asked, part, fitting, part.id in there) for part in whole), acts) for there, acts in cases
    ]


def at_each_edge(
    parts: Sequence[Weighed], edges: Iterable[Inside], fall_mm_m: float
) -> Iterator[tuple[StandingPart, ...]]:
    """The parts at the worse of their masses for each edge of the base: the least where they steady, else the most.

    edges  how far inside each edge a place lies, mm, by its x and y
    """
    for inside in edges:
        yield tuple(
            part.most if inside(part.most.x_mm, part.most.y_mm) < part.most.height_mm * fall_mm_m / 1000 else part.least
            for part in parts
        )


def floor_below(asked: Asked, fitting: Item) -> float:
    """The highest floor below a fitting, mm on its face; of what stands loose on another, the top of that."""
    if (carrier := stands_upon(asked.site, fitting)) is not None:
        return geometry.fitting_stretch(carrier).z_to
    part = geometry.fitting_stretch(fitting)
    return highest(geometry.floor_of(asked.site[fitting.face]), part.x_from, part.x_to)


def _below(site: Site, part: Item) -> set[str]:
    """The ids of a part and of all that its weight goes through."""
    found, waiting = {part.id}, [part]
    while waiting:
        for one in site.goes_through(waiting.pop()):
            if one.id not in found:
                found.add(one.id)
                waiting.append(one)
    return found


def _weighed(asked: Asked, part: Item, fitting: Item, there: bool) -> Weighed:
    """A part as it stands; one that need not be there may weigh nothing."""
    weight = own_weight(asked, part)
    place = from_foot(asked, weight.at_mm, part, fitting)
    most = StandingPart(weight.mass_kg, *place)
    if not there:
        return Weighed(most._replace(mass_kg=0.0), most)
    if asked.need(part, "mass_is") == "at most":
        raise Missing(
            f"{part.called} weighs at most so much, which steadies nothing for certain.",
            "Weigh it.",
            field="mass_is",
        )
    return Weighed(most._replace(mass_kg=min(asked.need(part, "mass_empty_kg"), weight.mass_kg)), most)


def from_foot(asked: Asked, at_mm: tuple[float, float, float], part: Item, fitting: Item) -> tuple[float, float, float]:
    """A place on a part from the lower left corner of what stands: along, out, and up from its floor."""
    x, z, out = place_on(asked, at_mm, asked.site[part.face], asked.site[fitting.face])
    return x - fitting.x_mm, out, max(0.0, z - floor_below(asked, fitting))


def _pushes(asked: Asked, part: Item, pull: float, fitting: Item, deep: float) -> tuple[Push, ...]:
    """A level pull at the top of a part, and as much weight put on each end of its front edge."""
    stretch, out = geometry.fitting_stretch(part), front_mm(asked, part)
    if part.id == fitting.id:
        out = max(deep, out)
    ends = [from_foot(asked, (x, stretch.z_to, out), part, fitting) for x in (stretch.x_from, stretch.x_to)]
    level = Push(level_n=pull, height_mm=max(up for _, _, up in ends))
    return (level, *(Push(down_n=pull, x_mm=x, y_mm=y) for x, y, _ in ends))


def _at_once(pushes: Mapping[str, tuple[Push, ...]]) -> tuple[Push, ...]:
    """All that is pulled level, at once: by their sum, at the height that turns as much."""
    levels = [acts[0] for acts in pushes.values()]
    whole = sum(push.level_n for push in levels)
    return (Push(level_n=whole, height_mm=sum(push.level_n * push.height_mm for push in levels) / whole),)
