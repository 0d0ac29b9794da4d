"""How one fitting comes off: numbered steps, for somebody who has never seen it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..book.site import Item
from ..checks.limits import rounded_up
from .removal import RemovalStep

HANDS = 2
_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z])|\s*\n\s*")


@dataclass(frozen=True)
class Takedown:
    """How some fixings of a fitting come off or, where they are `down`, were to come off, with what was then `found`.

    Told once for all that are alike.
    """

    marks: str
    down: bool
    tool: str
    removal: str
    make_good: str
    trace: str
    consent: str
    found: str


@dataclass(frozen=True)
class ComingOff:
    """How a fitting comes off.

    stage   of the order of taking down; None where there is none, or it is down already
    before  fittings that must be off first
    hand_kg what is in each hand of the people entered, to a tenth upwards; None where people or mass are not
    tools   as entered for its fixings, each once
    steps   in words, first to last
    """

    stage: int | None
    before: tuple[Item, ...]
    hand_kg: float | None
    tools: tuple[str, ...]
    steps: tuple[str, ...]


def coming_off(fitting: Item, takedowns: Sequence[Takedown], step: RemovalStep | None) -> ComingOff:
    """What is entered of how a fitting and its fixings come off, put in order; of one that is gone, how it was to."""
    left = [one for one in takedowns if not one.down or not fitting.stands]
    mass = fitting.mass_empty_kg if fitting.mass_empty_kg is not None else fitting.mass_loaded_kg
    people = fitting.people_to_remove
    return ComingOff(
        stage=step.stage if step else None,
        before=step.after if step else (),
        hand_kg=rounded_up(mass / people / HANDS) if mass is not None and people else None,
        tools=tuple(dict.fromkeys(one.tool for one in left if one.tool)),
        steps=tuple(_steps(fitting, left)),
    )


def _steps(fitting: Item, left: Sequence[Takedown]) -> Iterator[str]:
    yield from filter(None, _SENTENCE.split((fitting.removal or "").strip()))
    for one in left:
        if one.removal:
            yield f"{one.marks}{f' ({one.tool})' if one.tool else ''}: {one.removal}"
    for one in left:
        if one.make_good:
            yield f"Then, at {one.marks}: {one.make_good}"
