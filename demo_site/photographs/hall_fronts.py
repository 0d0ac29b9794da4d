"""The fittings of the weighing hall as they look once they are up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PIL import Image, ImageDraw

from ..booking import Values
from . import prints
from .making import ash, bounds, frame_round, places, plain, printed, reach
from .patch import Paint, Patch, stamp
from .solids import Block

CHALK: Paint = (232, 227, 212)
STEEL: Paint = (50, 50, 52)


def hanging_frame(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D1: uprights and rails of ash, on feet, clamped to the dado."""
    left, bottom, right, top = bounds(fitting)
    back, out = reach(fitting, 2), reach(fitting)
    uprights = [left + 35 + n * (right - left - 70) / 3 for n in range(4)]
    blocks = [Block((left, right), (back, out), (z, z + 70), ash(f"rail{z}")) for z in (1150, top - 120)]
    blocks += [Block((x - 35, x + 35), (back, out), (bottom, top), ash(f"upright{x}", True)) for x in uprights]
    blocks += [
        Block((x - 55, x + 55), (0, out + 60), (bottom, bottom + 40), ash(f"foot{x}"))
        for x in (uprights[0], uprights[-1])
    ]
    for x, z in places([one for one in fixings if one["sort"] == "clamp"]):
        blocks.append(Block((x - 30, x + 30), (0, out + 14), (z - 52, z - 20), plain(STEEL, "clamp")))
        blocks.append(Block((x - 30, x + 30), (out, out + 14), (z - 52, z + 46), plain(STEEL, "clamp")))
        blocks.append(Block((x - 5, x + 5), (out, out + 42), (z - 12, z - 2), plain((120, 116, 110), "bolt")))
        blocks.append(Block((x - 22, x + 22), (out + 22, out + 30), (z - 14, z), plain((150, 132, 84), "wing")))
    return blocks


def panel_on_the_beam(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D2: a panel with words and a drawing of the beam."""
    left, bottom, right, top = bounds(fitting)
    back, out = reach(fitting, 3), reach(fitting, 4)

    box = (left, bottom, right, top)
    front = printed(box, plain(CHALK, "D2"), partial(prints.great_beam, box), places(fixings))
    board = Block((left, right), (back, out), (bottom, top), ash("D2 edge"), front)
    return [
        board,
        *frame_round(
            (left, bottom, right, top), 22, (out, reach(fitting)), lambda seed, upright: ash("D2" + seed, upright)
        ),
    ]


def case(fitting: Values, _: Sequence[Values]) -> list[Block]:
    """D4: a glazed case with weights and seals."""
    left, bottom, right, top = bounds(fitting)
    back, out = reach(fitting, 1), reach(fitting)

    def glass(patch: Patch) -> Image.Image:
        picture = plain((66, 60, 54), "case")(patch)
        stamp(picture, patch, (left, bottom, right, top), partial(prints.weights_and_seals, (left, bottom, right, top)))
        gleam = [(left + 120, bottom), (left + 330, bottom), (left + 620, top), (left + 410, top)]

        def shine(on: ImageDraw.ImageDraw, at: Callable, _scale: float) -> None:
            on.polygon([at(*corner) for corner in gleam], fill=(236, 242, 246, 40))
            on.polygon([at(x + 260, z) for x, z in gleam], fill=(236, 242, 246, 22))

        stamp(picture, patch, (left, bottom, right, top), shine)
        return picture

    body = Block((left, right), (back, out - 8), (bottom, top), ash("case", True), glass)
    return [
        body,
        *frame_round((left, bottom, right, top), 34, (out - 8, out), lambda seed, upright: ash("case" + seed, upright)),
    ]


def sign(fitting: Values, _: Sequence[Values]) -> list[Block]:
    """D5: a steel sign on two straps."""
    left, bottom, right, top = bounds(fitting)

    front = printed(
        (left, bottom, right, top), plain((44, 50, 52), "sign"), partial(prints.beam_sign, (left, bottom, right, top))
    )
    straps = [Block((-84, 84), (0, 8), (z - 20, z + 20), plain((38, 38, 40), "strap")) for z in (bottom + 50, top - 50)]
    plate = Block((left, right), (7, reach(fitting)), (bottom + 84, top - 84), plain(STEEL, "edge"), front)
    bolts = [
        Block((x - 8, x + 8), (8, 18), (z - 8, z + 8), plain((130, 128, 124), "nut"))
        for x in (-52, 52)
        for z in (bottom + 50, top - 50)
    ]
    return [*straps, plate, *bolts]
