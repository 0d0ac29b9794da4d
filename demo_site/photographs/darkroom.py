"""From a scene to a photograph: what the lens, the film and the file do to it."""

from __future__ import annotations

import math
from functools import lru_cache
from io import BytesIO
from random import Random

from PIL import Image, ImageChops, ImageFilter

from .camera import HEIGHT_PX, WIDTH_PX

QUALITY = 85
METERED_BELOW = 215
AIM = 104


def developed(picture: Image.Image, seed: str) -> bytes:
    """A JPEG: bright places bloom a little, corners darken, shadows lift, and there is a trace of grain."""
    picture = _exposed(picture)
    bright = picture.convert("L").point([max(0, value - 205) * 4 for value in range(256)])
    glow = Image.merge(
        "RGB", [bright.reduce(8).filter(ImageFilter.GaussianBlur(7)).resize(picture.size, Image.Resampling.BICUBIC)] * 3
    )
    picture = ImageChops.screen(picture, glow.point(lambda value: value * 0.34))
    picture = picture.point(_curve())
    picture = ImageChops.multiply(picture, _vignette())
    grain = Image.frombytes("L", (WIDTH_PX // 2, HEIGHT_PX // 2), Random(seed).randbytes(WIDTH_PX * HEIGHT_PX // 4))  # noqa: S311
    grain = grain.point([122 + value // 20 for value in range(256)]).resize(picture.size, Image.Resampling.BILINEAR)
    picture = ImageChops.overlay(picture, Image.merge("RGB", (grain, grain, grain)))
    buffer = BytesIO()
    picture.save(buffer, "JPEG", quality=QUALITY, subsampling=0)
    return buffer.getvalue()


def _exposed(picture: Image.Image) -> Image.Image:
    """As a camera meters it: what is not a window comes to a middling grey, and the brightest parts are held."""
    tones = picture.convert("L").histogram()
    dark = sum(tones[:METERED_BELOW]) or 1
    mean = sum(value * count for value, count in enumerate(tones[:METERED_BELOW])) / dark
    gain = max(1.0, min(2.2, AIM / mean))
    table = [
        round(255 * (1 - math.exp(-gain * 1.25 * value / 255)) / (1 - math.exp(-gain * 1.25))) for value in range(256)
    ]
    return picture.point(table * 3)


@lru_cache(maxsize=1)
def _curve() -> list[int]:
    """A gentle contrast curve, a little warmer in the lights and cooler in the shadows."""
    table = []
    for lift, gain in ((0.0, 1.02), (1.0, 1.0), (3.0, 0.97)):
        for value in range(256):
            share = value / 255
            bent = share - 0.045 * math.sin(2 * math.pi * share)
            table.append(max(0, min(255, round(255 * bent * gain + lift))))
    return table


@lru_cache(maxsize=1)
def _vignette() -> Image.Image:
    small = bytearray()
    for row in range(30):
        for column in range(40):
            far = math.hypot((column - 19.5) / 20, (row - 14.5) / 20)
            small.append(round(255 * (1 - 0.2 * min(1.2, far) ** 2.6)))
    grey = Image.frombytes("L", (40, 30), bytes(small)).resize((WIDTH_PX, HEIGHT_PX), Image.Resampling.BICUBIC)
    return Image.merge("RGB", (grey, grey, grey))
