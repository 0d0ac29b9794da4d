"""What a material does to the old surface it lies on, by a published rule or by a test patch."""

from __future__ import annotations

from functools import lru_cache

from ..book.site import Item
from ..checks.lining import lining_verdict
from ..checks.metal_and_damp import corrodes_when_wet, metal_and_damp_verdict
from ..checks.metal_pair import PLACES, metal_pair_verdict
from ..checks.verdict import FINE, Verdict, not_known
from ..checks.wood_and_metal import wood_and_metal_verdict
from . import at_surface, named, patches
from .asking import Asked
from .verdicts import badness

# By the damp of the room’s timber, service classes of EN 1995-1-1; which place is which: common practice, no source.
PLACE_OF_DAMP = dict(zip(("dry", "damp", "wet"), PLACES, strict=True))
ANY_PCT = 100.0

READS = {**patches.READS, **at_surface.READS, "room.damp": "neither"}


def of(asked: Asked, face: Item, material: str, surfaces: tuple[str, ...]) -> Verdict:
    """The worst of what a material does to each of the surfaces it lies on.

    surfaces  names of layers and boards
    Raises NotEntered for what a rule needs and nobody measured.
    """
    if named.is_metal(material) and (tender := [one for one in surfaces if named.is_tender(one)]):
        return patches.settle(asked, face, material, tender, _unread(material, tender[0]))
    if not named.is_metal(material):
        return patches.settle(asked, face, material, surfaces, _lining(asked, face, material))
    each = (
        patches.settle(asked, face, material, (surface,), _metal(asked, face, material, surface))
        for surface in surfaces
    )
    return min(each, key=badness)


def _lining(asked: Asked, face: Item, material: str) -> Verdict:
    general = _under(material, None)
    if "surface_humidity_pct" not in general.missing:
        return general
    return _under(material, at_surface.highest_pct(asked, face))


@lru_cache(maxsize=1024)
def _under(lining: str, humidity_pct: float | None) -> Verdict:
    return lining_verdict(lining, humidity_pct)


def _metal(asked: Asked, face: Item, material: str, surface: str) -> Verdict:
    """What a bare metal and one surface do to each other: the worst of all that its name says it is."""
    found = []
    if named.is_wood(surface):
        found.append(_on_wood(asked, face, material, surface))
    if named.is_metal(surface):
        found.append(_on_metal(asked, face, material, surface))
    if named.is_mineral(surface):
        wetness = at_surface.highest_pct(asked, face) if corrodes_when_wet(material) else ANY_PCT
        found.append(metal_and_damp_verdict(material, wetness))
    return min(found, key=badness, default=_unread(material, surface))


def _on_wood(asked: Asked, face: Item, material: str, surface: str) -> Verdict:
    """What is measured is asked for only where it matters."""
    found = wood_and_metal_verdict(surface, material, None, closed=False)
    if "moisture_pct" not in found.missing:
        return found
    return wood_and_metal_verdict(surface, material, at_surface.wood_moisture_pct(asked, face), closed=False)


def _on_metal(asked: Asked, face: Item, material: str, surface: str) -> Verdict:
    found = metal_pair_verdict(material, surface, None)
    if found.word in FINE or not found.missing:
        return found
    room = asked.site[face.room]
    return metal_pair_verdict(material, surface, PLACE_OF_DAMP[asked.need(room, "damp", found.figure, "V")])


def _unread(material: str, surface: str) -> Verdict:
    """No rule is taken for a name of what is tender, or one that says neither stone, brick, plaster, wood nor metal."""
    remedy = "Lay a test patch; or, where it is bare stone, plaster, wood or metal, say so: “oak panelling”."
    sentence = f"No rule is known for {material} on “{surface}”. {remedy}"
    return not_known("touch", ("patch",), sentence, "no published source found")
