"""The fittings of the office, the passage and the store as they look once they are up."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PIL import Image

from ..booking import Values
from . import prints
from .making import ash, bounds, frame_round, oak, places, plain, printed, reach, screw_heads
from .patch import Paint, Patch, lit, noise
from .solids import Block

CHALK: Paint = (232, 227, 212)
SEA: Paint = (178, 192, 190)
LAND: Paint = (216, 204, 172)


def lamp(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D7: a lamp on an arm."""
    left, bottom, right, top = bounds(fitting)
    box, middle, board, pad = (left, bottom, right, top), (left + right) / 2, reach(fitting, 1), reach(fitting, 2)
    brass, axis = plain((150, 126, 70), "brass"), board + 222

    def shade(patch: Patch) -> Image.Image:
        return lit(patch.blank((62, 74, 66)), noise(patch, "shade", 60, gain=0.12))

    grain = oak("lamp", True)
    blocks = [
        Block((left, right), (board, pad), (bottom, top), grain, printed(box, grain, screw_heads(places(fixings), 5))),
        Block((middle - 9, middle + 9), (pad, axis - 10), (top - 58, top - 40), brass),
        Block((middle - 14, middle + 14), (pad, pad + 12), (top - 90, top - 10), brass),
    ]
    for step in range(26):
        wide = 70 - step * 1.6 - step * step * 0.012
        z = bottom + 60 + step * 4.4
        blocks.append(Block((middle - wide, middle + wide), (axis - wide, axis + wide), (z, z + 4.6), shade))
    bulb = plain((252, 240, 206), "bulb")
    blocks.append(Block((middle - 24, middle + 24), (axis - 24, axis + 24), (bottom + 44, bottom + 60), bulb))
    return blocks


def rack(fitting: Values, _: Sequence[Values]) -> list[Block]:
    """D8: pigeon-holes with letters."""
    left, bottom, right, top = bounds(fitting)
    out = reach(fitting)

    box = (left, bottom, right, top)
    front = printed(box, ash("rack"), partial(prints.letters, box))
    return [Block((left, right), (3, out), (bottom, top), ash("rack side", True), front)]


def chart(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D9: a framed chart on pads at its ears."""
    left, bottom, right, top = bounds(fitting)
    left, right = left + 46, right - 46  # the frame itself; its ears reach further
    back, out = reach(fitting, 1), reach(fitting)
    inner = (left + 36, bottom + 36, right - 36, top - 36)

    props = places([one for one in fixings if one["sort"] == "prop"])
    pads = [Block((x - 20, x + 20), (0, back), (z - 20, z + 20), plain((166, 122, 76), "cork")) for x, z in props]
    pads += [
        Block((x - 26, x + 26), (back, back + 3), (z - 22, z + 22), plain((176, 150, 84), "ear")) for x, z in props
    ]
    board = Block(
        (left, right),
        (back, out - 10),
        (bottom, top),
        oak("chart", True),
        printed((left, bottom, right, top), plain((214, 200, 168), "paper"), partial(prints.harbour_chart, inner)),
    )
    return [
        *pads,
        board,
        *frame_round((left, bottom, right, top), 40, (back, out), lambda seed, upright: oak("chart" + seed, upright)),
    ]


def channel(fitting: Values, _: Sequence[Values]) -> list[Block]:
    """D10: a channel for a lead."""
    left, bottom, right, top = bounds(fitting)
    return [Block((left, right), (2, reach(fitting)), (bottom, top), ash("channel", True))]


def plan(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D11: a large plan on battens."""
    left, bottom, right, top = bounds(fitting)
    back, out = reach(fitting, 2), reach(fitting, 3)

    heads = places(fixings)
    battens = [
        Block((x - 30, x + 30), (0, back), (bottom + 20, top - 20), ash(f"batten{x}", True))
        for x in (left + 60, right - 60)
    ]
    board = Block(
        (left, right),
        (back, out),
        (bottom, top),
        ash("plan edge"),
        printed(
            (left, bottom, right, top),
            plain(CHALK, "D11"),
            partial(prints.quay_plan, (left, bottom, right, top)),
            heads,
        ),
    )
    return [
        *battens,
        board,
        *frame_round(
            (left, bottom, right, top), 24, (out, reach(fitting)), lambda seed, upright: oak("plan" + seed, upright)
        ),
    ]


def shelf(fitting: Values, fixings: Sequence[Values]) -> list[Block]:
    """D13: a shelf with gauging tools."""
    left, bottom, right, top = bounds(fitting)
    back = reach(fitting, 2)
    heads = places([one for one in fixings if one["sort"] in ("bolt", "coach screw")])
    board = Block(
        (left, right),
        (5, back),
        (bottom, top),
        oak("shelf back"),
        printed((left, bottom, right, top), oak("shelf back"), screw_heads(heads, 10)),
    )
    blocks = [board, Block((left, right), (back, reach(fitting)), (bottom + 86, bottom + 112), oak("shelf"))]
    rust = plain((58, 46, 40), "rust")
    for n, (wide, tall) in enumerate(((24, 210), (60, 120), (18, 250), (86, 90), (30, 180), (54, 150))):
        x = left + 90 + n * 130
        blocks.append(
            Block(
                (x, x + wide),
                (back + 60, back + 60 + wide * 0.7),
                (bottom + 112, bottom + 112 + tall),
                rust if n % 2 else plain((206, 172, 96), "brass"),
            )
        )
    return blocks
