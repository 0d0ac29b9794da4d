"""What fittings are made of: timber, paint, print, mouldings and the heads of screws."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from PIL import Image, ImageDraw

from ..booking import Values
from . import joinery
from .patch import Paint, Patch, lit, noise, stamp, together
from .scene import Painter
from .solids import Block

Box = tuple[float, float, float, float]


def ash(seed: str, upright: bool = False) -> Painter:
    """Ash, oiled."""
    return lambda patch: joinery.timber(patch, seed, joinery.ASH, along_x=not upright)


def oak(seed: str, upright: bool = False) -> Painter:
    """Oak, waxed dark."""
    return lambda patch: joinery.timber(patch, seed, (104, 78, 52), along_x=not upright)


def plain(paint: Paint, seed: str = "plain") -> Painter:
    """Even paint or metal."""
    return lambda patch: lit(
        patch.blank(paint), together(noise(patch, seed, 200, gain=0.06), noise(patch, seed + "fine", 5, gain=0.06))
    )


def bounds(fitting: Values) -> Box:
    """Left, bottom, right and top of a fitting, mm."""
    x, z = fitting["x_mm"], fitting["z_mm"]
    return x, z, x + fitting["width_mm"], z + fitting["height_mm"]


def reach(fitting: Values, layers: int | None = None) -> float:
    """How far its layers, or the first few of them, stand out, mm."""
    return sum(row[1] for row in fitting["build_up"][:layers])


def places(fixings: Sequence[Values]) -> list[tuple[float, float]]:
    """Where fixings sit: as fitted where that was measured."""
    return [(one.get("fitted_x_mm", one["x_mm"]), one.get("fitted_z_mm", one["z_mm"])) for one in fixings]


def screw_heads(spots: Sequence[tuple[float, float]], radius: float = 6) -> Callable:
    """Pan heads with their slots, for `stamp`."""

    def draw(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
        for number, place in enumerate(spots):
            x, y = at(*place)
            reach = radius * scale
            for shift, tone in ((0.3, (60, 56, 50, 150)), (-0.08, (236, 234, 226, 255)), (0.0, (176, 174, 168, 255))):
                on.ellipse(
                    (
                        x - reach + shift * reach,
                        y - reach + shift * reach,
                        x + reach + shift * reach,
                        y + reach + shift * reach,
                    ),
                    fill=tone,
                )
            angle = 0.7 + number
            dx, dy = reach * 0.8 * math.cos(angle), reach * 0.8 * math.sin(angle)
            on.line((x - dx, y - dy, x + dx, y + dy), fill=(60, 58, 54), width=max(1, round(reach * 0.26)))

    return draw


def printed(box: Box, ground: Painter, draw: Callable, heads: Sequence[tuple[float, float]] = ()) -> Painter:
    """A ground with something printed on it, and the heads of its screws."""

    def paint(patch: Patch) -> Image.Image:
        picture = ground(patch)
        stamp(picture, patch, box, draw)
        if heads:
            stamp(picture, patch, box, screw_heads(heads))
        return picture

    return paint


def frame_round(box: Box, wide: float, out: tuple[float, float], paint: Callable[[str, bool], Painter]) -> list[Block]:
    """Four mouldings round a box."""
    left, bottom, right, top = box
    return [
        Block((left, left + wide), out, (bottom, top), paint("left", True)),
        Block((right - wide, right), out, (bottom, top), paint("right", True)),
        Block((left + wide, right - wide), out, (bottom, bottom + wide), paint("low", False)),
        Block((left + wide, right - wide), out, (top - wide, top), paint("top", False)),
    ]
