"""Whether what is met at a place of a face is old fabric or later work."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..book.site import Item, Site
from . import geometry
from .acts import PIERCING
from .asking import MORE, NEITHER, Asked, NotEntered
from .finding import Blank

OLD, LATER = "old", "later"
ANY_DEPTH_MM = 100.0  # a hole of any depth is taken to go so deep: common practice, no source
NO_AGE = "Whether all that it meets there is old or later is not entered."
AS_ENTERED = "What the face is made of is not entered; that it is later work there is as the fixing says."
READS = {"face.layers": NEITHER, "fixing.penetration_mm": MORE} | dict.fromkeys(
    (
        *("member.age", "member.x_mm", "member.z_mm", "member.width_mm", "member.height_mm"),
        *("member.behind_mm", "member.thickness_mm", "fixing.contact_radius_mm"),
    ),
    NEITHER,
)


def fabric_at(
    site: Site, face: Item, at: tuple[float, float], depth_mm: float | None = 0.0, radius_mm: float = 0.0
) -> str:
    """Old where anything met down to a depth is old, later where all of it is, "" where that is not entered.

    depth_mm   how far in, mm; 0: the surface; None: through everything
    radius_mm  of what touches it there
    """
    ages = [age for _, age in _met(site, face, at, depth_mm, radius_mm)]
    if OLD in ages:
        return OLD
    return LATER if ages and all(age == LATER for age in ages) else ""


def said_later_yet_old(asked: Asked, fixing: Item) -> bool:
    """Whether a fixing is said to go into later work where what it meets is entered as old.

    What lies on a surface of no age, or goes into a face of which nothing is entered, is taken at its word. Raises
    NotEntered where the answer turns on how deep a fixing goes, or on the age of something it goes through.
    """
    if fixing.fabric != "later work":
        return False
    face, at, radius = asked.site[fixing.face], geometry.place_of(fixing), fixing.contact_radius_mm
    if fabric_at(asked.site, face, at, 0.0, radius) == OLD:
        return True
    if fixing.hole == "none" and fixing.sort not in PIERCING:
        return False
    depth = fixing.penetration_mm
    unsure = fabric_at(asked.site, face, at, None, radius) == OLD or (
        face.layers and _deeper(asked.site, face, at, None)
    )
    if depth is None and unsure:
        depth = asked.need(fixing, "penetration_mm")
    met = list(_met(asked.site, face, at, depth, radius))
    return any(age == OLD for _, age in met) or any(_is_old(asked, *one) for one in met)


def _is_old(asked: Asked, thing: Item, age: str | None) -> bool:
    if age is None and thing.kind == "face":
        if thing.layers:
            raise NotEntered(Blank(thing, "layers"), None, "", NO_AGE)
        return False
    return (age or asked.need(thing, "age")) == OLD


def taken_at_its_word(site: Site, fixing: Item) -> tuple[str, ...]:
    """What is assumed of a fixing that is said to go into later work, on a face of which nothing is entered."""
    return (AS_ENTERED,) if fixing.fabric == "later work" and not site[fixing.face].layers else ()


def of_no_age(
    site: Site, face: Item, at: tuple[float, float], depth_mm: float | None = 0.0, radius_mm: float = 0.0
) -> Item:
    """The first of what is met down to a depth of which nobody entered whether it is old: a board, or the face."""
    return next((one for one, age in _met(site, face, at, depth_mm, radius_mm) if age is None), face)


def _met(
    site: Site, face: Item, at: tuple[float, float], depth_mm: float | None, radius_mm: float
) -> Iterator[tuple[Item, str | None]]:
    """What is met, with its age, None where it is not entered. A board at the surface stands before the layers."""
    boards = [one for one in site.of(face, "member") if covers(one, at, radius_mm)]
    surface = [one for one in boards if one.behind_mm == 0]
    yield from (
        (board, board.age)
        for board in boards
        if board in surface or depth_mm is None or depth_mm > (board.behind_mm or 0)
    )
    whole = [board for board in surface if covers(board, at, -radius_mm)]
    if whole and depth_mm is not None and all(depth_mm <= (board.thickness_mm or 0) for board in whole):
        return
    front = 0.0
    for place, (_, thickness, age) in enumerate(face.layers or ()):
        if place == 0 or depth_mm is None or front < depth_mm:
            yield face, age
        front += thickness or 0  # where it is not entered, what lies behind may be met
    if not face.layers or _deeper(site, face, at, depth_mm):
        yield face, None


def _deeper(site: Site, face: Item, at: tuple[float, float], depth_mm: float | None) -> bool:
    """Whether a depth is beyond all that is entered there; a layer of no known thickness goes on for ever."""
    return (ANY_DEPTH_MM if depth_mm is None else depth_mm) > known_to_mm(site, face, at)


def known_to_mm(site: Site, face: Item, at: tuple[float, float]) -> float:
    """How deep it is entered what a face is made of at a place, mm: its layers, and boards and timbers behind them."""
    thick = [math.inf if thickness is None else thickness for _, thickness, _ in face.layers or ()]
    known = math.fsum(thick)
    for board in sorted(site.of(face, "member"), key=lambda one: (one.behind_mm or 0.0, one.id)):
        if covers(board, at) and (board.behind_mm or 0.0) <= known:
            known = max(known, (board.behind_mm or 0.0) + (board.thickness_mm or 0.0))
    return known


def covers(member: Item, at: tuple[float, float], radius_mm: float = 0.0) -> bool:
    """Whether a board or timber lies at a place, or touches a round footprint there; below 0: holds all of it."""
    x, z = at
    beside = max(member.x_mm - x, x - member.x_mm - member.width_mm)
    above = max(member.z_mm - z, z - member.z_mm - member.height_mm)
    return (math.hypot(beside, above) if min(beside, above) > 0 else max(beside, above)) <= radius_mm
