"""How a thing has gone past what a yes to it was given to: moved, larger, heavier, deeper, glued, or with
another trace.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from ..book.site import Item
from ..book.wording import joined
from ..checks.trace import TRACES
from . import geometry
from .acts import need_depth
from .asking import Asked, NotEntered
from .heavier import heavier
from .holes_agreed import past_agreed
from .rulings import is_of_place

PLAY_MM = 5.0


def changes(asked: Asked, ruling: Item, thing: Item, done: set[str]) -> Iterator[str]:
    """How a thing has gone past what was agreed, in words.

    done  what of all it does is held to this agreement
    """
    then = None
    if not is_of_place(ruling, asked.site, thing):
        then = asked.site.then.get((ruling.id, thing.id))
        if then is None:
            yield "it was not there yet"
            return
    told = [*_past(asked, ruling, thing, then, done)]
    yield from told
    if then is not None and "load" in done:
        try:
            yield from heavier(asked, ruling, thing)
        except NotEntered:
            if not told:  # it is to be asked about again, whatever it weighs
                raise


def _past(asked: Asked, ruling: Item, thing: Item, then: Mapping[str, Any] | None, done: set[str]) -> Iterator[str]:
    """The same but for its weight."""
    if then is not None:
        yield from _moved(ruling, thing, then)
    if ruling.acts and (more := done.difference(ruling.acts)):
        yield f"nothing was agreed of {joined(sorted(more))}"
    if thing.kind == "fixing":
        yield from _done_to_fabric(asked, ruling, thing, then, done)


def _moved(ruling: Item, thing: Item, then: Mapping[str, Any]) -> Iterator[str]:
    play = PLAY_MM if ruling.play_mm is None else ruling.play_mm
    was = Item(thing.kind, thing.id, dict.fromkeys(thing.values) | dict(then))
    if was.values.get("x_mm") is None:
        return
    if was.face != thing.face:
        yield "it is on another face"
    place, place_then = _place(thing), _place(was)
    for axis, now, before in zip("xz", place, place_then, strict=True):
        if abs(now - before) > play:
            yield f"{axis} is {now:g} mm, not {before:g} ± {play:g} mm"
    for name, words in (("width_mm", "width"), ("height_mm", "height")) if thing.kind == "fitting" else ():
        if thing.values[name] > was.values[name] + play:
            yield f"its {words} is {thing.values[name]:g} mm, not {was.values[name]:g}"
    yield from _touches(thing, was, play) if thing.kind == "fixing" else _bears(thing, was)


def _touches(fixing: Item, was: Item, play: float) -> Iterator[str]:
    """How what touches the fabric has changed."""
    if was.sort is not None and fixing.sort != was.sort:
        yield f"its type is {fixing.sort}, not {was.sort}"
    if was.contact_radius_mm is not None and fixing.contact_radius_mm > was.contact_radius_mm + play:
        yield f"it reaches {fixing.contact_radius_mm:g} mm round its middle, not {was.contact_radius_mm:g}"
    if was.lining is not None and fixing.lining != was.lining:
        yield f"its lining is {fixing.lining or 'not entered'}, not {was.lining}"


def _bears(fitting: Item, was: Item) -> Iterator[str]:
    """How what a fitting does to the face by itself has changed."""
    if was.touches_face == 0 and fitting.touches_face:
        yield "it touches the wall itself now"
    if more := set(fitting.gives or ()) - set(was.gives or ()) - {"nothing"} if was.gives is not None else ():
        yield f"it gives off {joined(sorted(more))} now"


def _place(thing: Item) -> tuple[float, float]:
    return geometry.place_of(thing) if thing.kind == "fixing" else (thing.x_mm, thing.z_mm)


def _done_to_fabric(
    asked: Asked, ruling: Item, fixing: Item, then: Mapping[str, Any] | None, done: set[str]
) -> Iterator[str]:
    need_depth(asked, fixing)
    if "drilling" in done:
        depth = asked.need(fixing, "penetration_mm")
        most = ruling.depth_mm if ruling.depth_mm is not None else then and then.get("penetration_mm")
        if most is None:
            yield f"how deep it may go is not agreed; it goes {depth:g} mm deep"
        elif depth > most:
            yield f"it goes {depth:g} mm deep, not {most:g}"
        if then is not None and then.get("hole") != fixing.hole:
            yield "it needs another hole now"
        if ruling.holes is not None and (drilled := past_agreed(asked, ruling)):
            yield f"{drilled} new holes are planned or made, not {ruling.holes}"
    worst = ruling.trace if ruling.trace is not None else then and then.get("trace")
    if worst is not None and TRACES.index(fixing.trace) > TRACES.index(worst):
        yield f"it leaves {fixing.trace}, not {worst}"
    if "adhesive" in done and then is not None and not ruling.acts and not then.get("adhesive"):
        yield "it is glued now"
