"""What is hung on a face for the photograph: survey targets and lettered cards."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from PIL import Image, ImageDraw, ImageFont

from .patch import Paint, Patch, stamp
from .shadows import Mark, shadow

VERMILION: Paint = (214, 66, 34)
CARD: Paint = (238, 236, 228)
INK: Paint = (38, 36, 34)


@lru_cache(maxsize=64)
def lettering(size_px: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    """The typeface Pillow brings, in a size."""
    return ImageFont.load_default(max(4, size_px))


def target(x_mm: float, z_mm: float, card_mm: float) -> Mark:
    """A survey target: a white card with black quarters and a vermilion disc on the very point."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        half = card_mm / 2
        picture = _lying(picture, patch, (x_mm - half, z_mm - half, x_mm + half, z_mm + half), card_mm / 22)

        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            on.rectangle((*at(x_mm - half, z_mm + half), *at(x_mm + half, z_mm - half)), fill=CARD)
            part = half * 0.86
            on.rectangle((*at(x_mm - part, z_mm + part), *at(x_mm, z_mm)), fill=INK)
            on.rectangle((*at(x_mm, z_mm), *at(x_mm + part, z_mm - part)), fill=INK)
            for radius, paint in ((0.5, CARD), (0.4, VERMILION)):
                x, y = at(x_mm, z_mm)
                reach = radius * half * scale
                on.ellipse((x - reach, y - reach, x + reach, y + reach), fill=paint)

        stamp(picture, patch, (x_mm - half, z_mm - half, x_mm + half, z_mm + half), pen)
        return picture

    return draw


def card(
    x_mm: float, z_mm: float, width_mm: float, height_mm: float, lines: tuple[str, ...], paint: Paint = CARD
) -> Mark:
    """A lettered card, its lower left corner at the point."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        box = (x_mm, z_mm, x_mm + width_mm, z_mm + height_mm)
        picture = _lying(picture, patch, box, 3)

        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            on.rectangle((*at(x_mm, z_mm + height_mm), *at(x_mm + width_mm, z_mm)), fill=paint)
            size = height_mm * scale / (len(lines) + 0.7)
            for number, words in enumerate(lines):
                middle = at(x_mm + width_mm / 2, z_mm + height_mm * (1 - (number + 0.85) / (len(lines) + 0.7)))
                on.text(middle, words, INK, lettering(round(size * 0.78)), anchor="mm")

        stamp(picture, patch, box, pen)
        return picture

    return draw


def _lying(picture: Image.Image, patch: Patch, box: tuple[float, float, float, float], thick_mm: float) -> Image.Image:
    """The shadow of something thin that lies on the face."""
    left, bottom, right, top = box
    return shadow(left, bottom, right, top, thick_mm)(picture, patch)
