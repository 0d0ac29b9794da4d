"""What a screw passes through on its way into a face: how much of it, and of its thread, stands in each layer.

Only thread in the wood that holds carries a pull; plaster, lath and air in front of it are a gap over which
a sideways load bends the screw. Does not cover a screw driven at a slant, nor holes that break out at the back.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ..errors import Missing, NotAChoice
from .limits import within

LAYERS_HIGH = 50
DEEP_HIGH_MM = 10_000.0
LENGTH_HIGH_MM = 1000.0


class FaceLayer(NamedTuple):
    """One layer of a face, from the surface inwards.

    thickness_mm  None where nobody knows how thick it is, as the last usually
    """

    material: str
    thickness_mm: float | None
    is_wood: bool


class InLayer(NamedTuple):
    """What of a screw stands in one layer, mm: all of it, its thread, its smooth shank."""

    layer: FaceLayer
    length_mm: float
    thread_mm: float
    shank_mm: float


class Hold(NamedTuple):
    """The wood that holds: what of the screw stands in it, and what lies in front that holds nothing, mm.

    through  whether the point comes out behind it
    """

    reach: InLayer
    gap_mm: float
    through: bool


def reaches(layers: Sequence[FaceLayer], length_mm: float, thread_mm: float) -> tuple[InLayer, ...]:
    """How much of a screw stands in each layer.

    layers     from the surface inwards, 1 to 50; thickness 0 to 10 000 mm
    length_mm  of the screw behind the surface, point and all, mm, 0 to 1000
    thread_mm  of its thread from the point up, mm, 0 to 1000; one longer than that ends at the surface
    returns    a reach for each layer it gets to, in order, mm

    Source: geometry; thread and shank are told apart because EN 1995-1-1 8.7.2 counts thread alone.
    Raises OutOfRange outside the limits; Missing where it goes on behind the last layer, or one whose
    thickness nobody knows.

    >>> plaster, oak = FaceLayer("lime plaster", 25, False), FaceLayer("oak", 60, True)
    >>> [reach.length_mm for reach in reaches([plaster, oak], 30, 30)]
    [25.0, 5.0]
    """
    within("layers", len(layers), 1, LAYERS_HIGH, "")
    within("length_mm", length_mm, 0, LENGTH_HIGH_MM, "mm")
    smooth = length_mm - min(length_mm, within("thread_mm", thread_mm, 0, LENGTH_HIGH_MM, "mm"))
    found: list[InLayer] = []
    front = 0.0
    for place, layer in enumerate(layers, start=1):
        if front >= length_mm:
            break
        back = float(length_mm)
        if layer.thickness_mm is not None:
            back = min(back, front + within("thickness_mm", layer.thickness_mm, 0, DEEP_HIGH_MM, "mm"))
        elif place < len(layers):
            raise _unknown(f"How thick the {layer.material} is", "thickness_mm")
        threaded = max(0.0, back - max(front, smooth))
        found.append(InLayer(layer, back - front, threaded, back - front - threaded))
        front = back
    if front < length_mm:
        raise _unknown(f"What lies deeper than {front:g} mm, where the screw goes to {length_mm:g} mm,", "layers")
    return tuple(found)


def hold(layers: Sequence[FaceLayer], length_mm: float, thread_mm: float, holding: int | None = None) -> Hold | None:
    """The wood that holds a screw: the one with most of the thread, unless it is said which.

    layers     as for `reaches`
    length_mm  as for `reaches`, mm
    thread_mm  as for `reaches`, mm
    holding    place of the layer that holds, no unit, counted from 0 at the surface; None for the one with most thread
    returns    what stands in it and what lies in front, mm; None where the screw gets to no wood

    Source: geometry; EN 1995-1-1:2004+A1:2008, 8.7.2: the thread in the member that holds.
    Raises as for `reaches`, NotAChoice for a layer that is not wood or that the screw does not get to.

    >>> found = hold([FaceLayer("lime plaster", 25, False), FaceLayer("oak", 60, True)], 30, 30)
    >>> found.reach.thread_mm, found.gap_mm
    (5.0, 25.0)
    """
    got = reaches(layers, length_mm, thread_mm)
    woods = [place for place, reach in enumerate(got) if reach.layer.is_wood]
    if holding is not None and holding not in woods:
        raise NotAChoice(
            f"Layer {holding} does not hold the screw: it is no wood, or the screw does not get there.",
            "Name a layer of wood that the screw reaches, counted from 0 at the surface.",
            field="holding",
            value=holding,
        )
    if not woods:
        return None
    place = max(woods, key=lambda wood: got[wood].thread_mm) if holding is None else holding
    in_front = 0.0
    for reach in reversed(got[:place]):
        if reach.layer.is_wood:
            break
        in_front += reach.length_mm
    return Hold(got[place], in_front, place < len(got) - 1)


def _unknown(what: str, field: str) -> Missing:
    return Missing(f"{what} is not known.", "Open or probe the layer, and enter what was found.", field=field)
