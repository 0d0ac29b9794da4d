"""Two photographs of one face, laid flat in the part both show: what was there before beside what is there after."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..checks.picture_plane import Plane
from ..errors import UnsuitableShape
from .elevation import drawn_part
from .rectified import plane_in
from .underlay import photographs_under

STEPS = 60  # places asked along each side of a face: what both show is known to a sixtieth of it

Place = tuple[float, float]  # x and z on the face, mm


@dataclass(frozen=True)
class BeforeAfter:
    """Two photographs of a face in the order they were taken.

    part       the part of the face that both show, mm
    middle_mm  how far one place may lie from itself in the two, in 95 cases of 100, in the middle of the part
    within_mm  the same at its worst corner
    changes    what was entered as seen on the face since the first was taken, in order of time
    """

    face: Item
    before: Item
    after: Item
    part: Stretch
    middle_mm: float
    within_mm: float
    changes: tuple[Item, ...]


def first_and_last(site: Site, face: Item) -> tuple[Item, Item] | None:
    """The last photograph of a face and the first that shows a part of the same; None where there are no such two.

    Only those that measure on it, and were taken on different days or for different purposes.
    """
    taken = photographs_under(site, face)
    for after, before in combinations(taken, 2):
        if _told(before) != _told(after) and _places(face, before, after):
            first = next(one for one in reversed(taken) if _told(one) != _told(after) and _places(face, one, after))
            return first, after
    return None


def _told(taken: Item) -> tuple[str, str]:
    return taken.purpose, (taken.taken_at or "")[:10]


def before_after(site: Site, face: Item, one: Item, other: Item) -> BeforeAfter:
    """Two photographs of a face, and what both show of it.

    Raises UnsuitableShape where they share no part of it, and what `plane_in` raises.
    """
    before, after = sorted((one, other), key=lambda taken: (taken.taken_at or "", taken.id))
    seen = [one for one in site.all("observation") if one.face == face.id and one.at >= (before.taken_at or "")]
    changes = tuple(sorted(seen, key=lambda one: (one.at, one.id)))
    places, part = _shared(face, before, after), shared_part(face, before, after)
    centre = (part.x_from + part.x_to) / 2, (part.z_from + part.z_to) / 2
    middle = min(places, key=lambda place: math.dist(place, centre))
    planes = plane_in(before), plane_in(after)
    apart = [sum(_within(plane, place) for plane in planes) for place in (middle, *_outermost(places))]
    return BeforeAfter(face, before, after, part, apart[0], max(apart), changes)


def shared_part(face: Item, one: Item, other: Item) -> Stretch:
    """The part of a face, mm, that two photographs both show. Raises UnsuitableShape where there is none."""
    xs, zs = zip(*_shared(face, one, other), strict=True)
    across, up = _step(drawn_part(face))
    return Stretch(min(xs) - across / 2, max(xs) + across / 2, min(zs) - up / 2, max(zs) + up / 2)


def _step(whole: Stretch) -> Place:
    return (whole.x_to - whole.x_from) / STEPS, (whole.z_to - whole.z_from) / STEPS


def _shared(face: Item, one: Item, other: Item) -> list[Place]:
    places = _places(face, one, other)
    if not places:
        raise UnsuitableShape(
            "The two photographs show no part of the face in common.",
            "Choose two that show the same part, or look at the marks they are measured by.",
            field="after",
        )
    return places


def _places(face: Item, one: Item, other: Item) -> list[Place]:
    """Places of a face, evenly spread, that both show."""
    whole, shown = drawn_part(face), [(plane_in(picture), picture) for picture in (one, other)]
    across, up = _step(whole)
    return [
        (x, z)
        for x in (whole.x_from + across * (step + 0.5) for step in range(STEPS))
        for z in (whole.z_from + up * (step + 0.5) for step in range(STEPS))
        if all(_shows(plane, picture, (x, z)) for plane, picture in shown)
    ]


def _shows(plane: Plane, photograph: Item, place: Place) -> bool:
    width, height = photograph.width_px, photograph.height_px
    point = plane.seen(*place)
    return point is not None and (not width or not height or (0 <= point[0] <= width and 0 <= point[1] <= height))


def _outermost(places: list[Place]) -> set[Place]:
    ways = (lambda at: at[0] + at[1], lambda at: at[0] - at[1])
    return {end(places, key=way) for way in ways for end in (min, max)}


def _within(plane: Plane, place: Place) -> float:
    point = plane.seen(*place)
    assert point is not None  # it is among the places both show
    return plane.place(*point).within_mm
