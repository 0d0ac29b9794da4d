"""A patch of a surface to be painted: which part of it in mm, and how fine; with noise that stays put.

Everything is anchored to the surface, so that two photographs of one wall show the same stones.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter

TILE = 256
Paint = tuple[int, int, int]


@dataclass(frozen=True)
class Patch:
    """A rectangle of a surface, its edges in mm, at `scale` pixels a mm."""

    left: float
    bottom: float
    right: float
    top: float
    scale: float

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels."""
        return (
            max(1, round((self.right - self.left) * self.scale)),
            max(1, round((self.top - self.bottom) * self.scale)),
        )

    def px(self, x_mm: float, z_mm: float) -> tuple[float, float]:
        """Where a point of the surface lies in the picture of the patch."""
        return (x_mm - self.left) * self.scale, (self.top - z_mm) * self.scale

    def blank(self, paint: Paint) -> Image.Image:
        """The patch in one colour."""
        return Image.new("RGB", self.size, paint)

    def meets(self, left: float, bottom: float, right: float, top: float) -> bool:
        """Whether a rectangle of the surface shows in the patch."""
        return left < self.right and right > self.left and bottom < self.top and top > self.bottom


@lru_cache(maxsize=512)
def _tile(seed: str) -> Image.Image:
    return Image.frombytes("L", (TILE, TILE), Random(seed).randbytes(TILE * TILE))  # noqa: S311


def noise(patch: Patch, seed: str, wave_mm: float, wave_z_mm: float | None = None, gain: float = 1.0) -> Image.Image:
    """Smooth noise about mid-grey with bumps of about this size."""
    wave_z = wave_z_mm or wave_mm
    left, top = patch.left / wave_mm, -patch.top / wave_z
    columns, rows = patch.size[0] / patch.scale / wave_mm, patch.size[1] / patch.scale / wave_z
    first_column, first_row = math.floor(left) - 2, math.floor(top) - 2
    sheet = Image.new("L", (math.ceil(columns) + 6, math.ceil(rows) + 6))
    for x in range(-(first_column % TILE), sheet.width, TILE):
        for y in range(-(first_row % TILE), sheet.height, TILE):
            sheet.paste(_tile(seed), (x, y))
    box = (left - first_column, top - first_row, left - first_column + columns, top - first_row + rows)
    share = min(1.0, 8 / (min(wave_mm, wave_z) * patch.scale))
    if share < 0.5:  # smooth enough to be drawn small and made larger
        small = (max(2, round(patch.size[0] * share)), max(2, round(patch.size[1] * share)))
        smooth = levelled(sheet.resize(small, Image.Resampling.BICUBIC, box), gain)
        return smooth.resize(patch.size, Image.Resampling.BILINEAR)
    return levelled(sheet.resize(patch.size, Image.Resampling.BICUBIC, box), gain)


def levelled(grey: Image.Image, gain: float, middle: float = 128) -> Image.Image:
    """Contrast about mid-grey times `gain`, with the middle moved."""
    return grey.point([max(0, min(255, round(middle + (value - 128) * gain))) for value in range(256)])


def together(*greys: Image.Image) -> Image.Image:
    """The sum of noises about mid-grey."""
    total = greys[0]
    for grey in greys[1:]:
        total = ImageChops.add(total, grey, 1, -128)
    return total


def relief(height: Image.Image, strength: float) -> Image.Image:
    """Light and shade on a surface whose height is this grey, lit from the upper left; mid-grey is flat."""
    # Pillow reads a kernel's rows from the lowest up.
    kernel = ImageFilter.Kernel((3, 3), (0, 1, 1, -1, 0, 1, -1, -1, 0), scale=4 / max(strength, 0.01), offset=128)
    return height.filter(kernel)


def slope(patch: Patch, seed: str, wave_mm: float, gain: float) -> Image.Image:
    """Light and shade on gentle bumps of about this size, lit from the upper left; mid-grey is flat."""
    step = wave_mm / 6
    aside = Patch(patch.left + step, patch.bottom - step, patch.right + step, patch.top - step, patch.scale)
    there = noise(aside, seed, wave_mm, wave_mm * 0.75).resize(patch.size)
    return levelled(ImageChops.subtract(there, noise(patch, seed, wave_mm, wave_mm * 0.75), 1, 128), gain)


def lit(picture: Image.Image, grey: Image.Image) -> Image.Image:
    """The picture lighter where the grey is above the middle and darker where it is below."""
    return ImageChops.hard_light(picture, Image.merge("RGB", (grey, grey, grey)))


def darkened(picture: Image.Image, mask: Image.Image, to: float, tint: Paint = (18, 16, 15)) -> Image.Image:
    """The picture shaded under the mask; `to` is how much light is left."""
    shade = Image.blend(Image.new("RGB", picture.size, tint), picture, to)
    return Image.composite(shade, picture, mask)


def soft(mask: Image.Image, patch: Patch, radius_mm: float) -> Image.Image:
    """A mask blurred by a radius in mm."""
    return mask.filter(ImageFilter.GaussianBlur(radius_mm * patch.scale))


def veil(patch: Patch, corners: list[tuple[float, float]], edge_mm: float) -> Image.Image:
    """A mask of a polygon with soft edges, drawn small and made larger: a soft edge needs no more."""
    share = min(1.0, 3 / max(edge_mm * patch.scale, 0.1))
    coarse = Patch(patch.left, patch.bottom, patch.right, patch.top, patch.scale * share)
    return soft(shape(coarse, corners), coarse, edge_mm).resize(patch.size, Image.Resampling.BILINEAR)


def part_of(patch: Patch, left: float, bottom: float, right: float, top: float) -> tuple[Patch, tuple[int, int]] | None:
    """The part of a patch within a rectangle, and where in its picture that begins; None when there is none."""
    x0, y0 = (max(0, math.floor(value)) for value in patch.px(left, top))
    x1, y1 = (min(size, math.ceil(value)) for size, value in zip(patch.size, patch.px(right, bottom), strict=True))
    if x1 <= x0 or y1 <= y0:
        return None
    s = patch.scale
    return Patch(patch.left + x0 / s, patch.top - y1 / s, patch.left + x1 / s, patch.top - y0 / s, s), (x0, y0)


def shape(patch: Patch, corners: list[tuple[float, float]]) -> Image.Image:
    """A mask of a polygon given in mm."""
    mask = Image.new("L", patch.size)
    ImageDraw.Draw(mask).polygon([patch.px(*corner) for corner in corners], fill=255)
    return mask


def stamp(
    picture: Image.Image,
    patch: Patch,
    box: tuple[float, float, float, float],
    draw: Callable[[ImageDraw.ImageDraw, Callable[[float, float], tuple[float, float]], float], None],
    fade: Image.Image | None = None,
) -> None:
    """Draw something crisp on the picture, within a box of (left, bottom, right, top) mm.

    `draw` gets the pen, a function from mm to its pixels, and its pixels a mm; it draws three times
    as large, on nothing. `fade` is a mask of the whole patch through which it is seen.
    """
    if not patch.meets(*box):
        return
    left, top = (math.floor(value) for value in patch.px(box[0], box[3]))
    right, bottom = (math.ceil(value) for value in patch.px(box[2], box[1]))
    left, top, right, bottom = max(left, 0), max(top, 0), min(right, patch.size[0]), min(bottom, patch.size[1])
    if right <= left or bottom <= top:
        return
    layer = Image.new("RGBA", (3 * (right - left), 3 * (bottom - top)))

    def place(x_mm: float, z_mm: float) -> tuple[float, float]:
        x, y = patch.px(x_mm, z_mm)
        return 3 * (x - left), 3 * (y - top)

    draw(ImageDraw.Draw(layer), place, 3 * patch.scale)
    layer = layer.reduce(3)
    alpha = layer.getchannel("A")
    if fade is not None:
        alpha = ImageChops.multiply(alpha, fade.crop((left, top, right, bottom)))
    picture.paste(layer.convert("RGB"), (left, top), alpha)
