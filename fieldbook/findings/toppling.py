"""What tips a thing that stands on the floor over the front of its base, where its fixings alone keep it from that."""

from __future__ import annotations

from collections.abc import Iterator

from ..book.site import Item
from ..checks.face_load import Force
from . import geometry
from .asking import MORE, NEITHER, Asked
from .load_paths import front_mm, place_on, weights
from .standing_parts import FALL_MM_M, floor_below, from_foot

LEAST_BASE_MM = 10.0
READS = {"fitting.base_mm": NEITHER, "fitting.base_out_mm": NEITHER, "face.floor_falls_mm_m": MORE}


def head_pulls(asked: Asked, fitting: Item, top_mm: float) -> Iterator[Force]:
    """What pulls its head off the face for good: each weight beyond the front of its base, at its highest fixing.

    A part that stands inside the base steadies, and is not counted on: it may be off. Its foot is taken to stay.

    top_mm  where its highest fixing is, on its face
    """
    geometry.need_upright(asked.site[fitting.face], "what tips it")
    face = asked.site[fitting.face]
    fall = FALL_MM_M if face.floor_falls_mm_m is None else face.floor_falls_mm_m
    arm = max(1.0, top_mm - floor_below(asked, fitting))
    for weight in weights(asked, fitting):
        _, out, up = from_foot(asked, weight.at_mm, weight.part, fitting)
        deepest = max(LEAST_BASE_MM, out, front_mm(asked, fitting))
        base = asked.need(fitting, "base_mm", tried=(LEAST_BASE_MM, deepest))
        beyond = out + up * fall / 1000 - (fitting.base_out_mm or 0.0) - base
        if beyond > 0:
            x, _, _ = place_on(asked, weight.at_mm, asked.site[weight.part.face], face)
            yield Force(0.0, 0.0, weight.force_n * beyond / arm, x, top_mm, 0.0)
