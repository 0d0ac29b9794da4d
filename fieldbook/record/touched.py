"""What touches, or touched, the fabric: holes, pressed places and linings on trial, room by room and in all."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from math import pi

from ..book.site import Item, Site
from ..book.wording import NO_BREAK, count
from ..checks.limits import rounded_up

CM2 = 100.0  # mm² in one cm²


@dataclass(frozen=True)
class Touch:
    """What so many fixings and fittings do to the fabric.

    old_holes   existing holes and fixing points used again
    new_later   new holes in later work; new_old in old fabric
    pressed_cm2 what presses without a hole, by the radius of what touches: at most so much
    stuck       places where something is stuck on
    bearing     fittings that bear on the face with more than their fixings
    patches     linings and finishes laid out on trial
    """

    old_holes: int = 0
    new_later: int = 0
    new_old: int = 0
    pressed_cm2: float = 0.0
    stuck: int = 0
    bearing: int = 0
    patches: int = 0

    @property
    def new(self) -> int:
        """Holes that were not there before."""
        return self.new_later + self.new_old

    @property
    def words(self) -> str:
        """In words, what there is of it; old holes and new ones always, where there is anything at all."""
        if self == Touch():
            return "nothing"
        new = self.new
        parts = [
            f"{count(self.old_holes, 'old hole')} used again",
            f"{new} new ({self.new_old} in old fabric)" if new else "0 new",
            f"{rounded_up(self.pressed_cm2, 1):g}{NO_BREAK}cm² pressed" if self.pressed_cm2 else "",
            f"{count(self.stuck, 'place')} stuck" if self.stuck else "",
            f"{count(self.bearing, 'thing')} bearing on the face itself" if self.bearing else "",
            f"{count(self.patches, 'test patch', 'test patches')}" if self.patches else "",
        ]
        return ", ".join(filter(None, parts))

    def __add__(self, other: Touch) -> Touch:
        return Touch(*(getattr(self, one.name) + getattr(other, one.name) for one in fields(self)))


@dataclass(frozen=True)
class RoomTouch:
    """What is up, planned and gone in one room; `room` is None for all rooms together."""

    room: Item | None
    up: Touch
    planned: Touch
    gone: Touch


def touched(site: Site) -> tuple[RoomTouch, ...]:
    """What touches the fabric in each room, and at the end in all."""
    rooms = [_room(site, room) for room in site.all("room")]
    total = RoomTouch(
        None, _sum(one.up for one in rooms), _sum(one.planned for one in rooms), _sum(one.gone for one in rooms)
    )
    return (*rooms, total)


def _room(site: Site, room: Item) -> RoomTouch:
    faces = site.of(room, "face")
    here = [fitting for face in faces for fitting in site.of(face, "fitting")]
    fixings = [fixing for face in faces for fixing in site.fixings_on(face)]
    patches = Touch(patches=sum(len(site.of(face, "patch")) for face in faces))
    up, planned, gone = (
        _of([one for one in fixings if one.state == state], [one for one in here if one.state == state])
        for state in ("fitted", "planned", "taken down")
    )
    return RoomTouch(room, up + patches, planned, gone)


def _of(fixings: Sequence[Item], fittings: Sequence[Item]) -> Touch:
    return _sum(map(_fixing, fixings)) + Touch(bearing=sum(bool(one.touches_face) for one in fittings))


def _fixing(fixing: Item) -> Touch:
    if fixing.fabric == "another fitting":
        return Touch()
    if fixing.hole == "existing":
        return Touch(old_holes=1)
    if fixing.hole == "new":
        return Touch(new_old=1) if fixing.fabric == "old fabric" else Touch(new_later=1)
    stuck = bool(fixing.adhesive) or fixing.sort == "adhesive pad"
    return Touch(pressed_cm2=pi * fixing.contact_radius_mm**2 / CM2, stuck=int(stuck))


def _sum(parts: Iterable[Touch]) -> Touch:
    return sum(parts, Touch())
