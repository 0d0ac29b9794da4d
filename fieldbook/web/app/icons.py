"""The mark of the app as pictures of any size: the ring and cross of a marked-out point, as `static/desk/mark.svg`."""

from __future__ import annotations

from functools import cache
from io import BytesIO

from PIL import Image, ImageDraw

PAPER, INK = "#fdfcf9", "#1a1a1a"
FINER = 4  # drawn larger and made smaller, which smooths the edges
SAFE_SHARE = 0.8  # of a maskable icon: what a round mask leaves standing


@cache
def icon(size_px: int, maskable: bool = False) -> bytes:
    """PNG of the mark on paper, to its edges; maskable, with room around it for any mask a phone lays over it."""
    whole = size_px * FINER
    image = Image.new("RGB", (whole, whole), PAPER)
    draw = ImageDraw.Draw(image)
    unit = whole / 32 * (SAFE_SHARE if maskable else 1)
    pen, middle = round(2 * unit), whole / 2
    ring = 10 * unit
    draw.ellipse((middle - ring, middle - ring, middle + ring, middle + ring), outline=INK, width=pen)
    arm, half = 14 * unit, pen / 2
    draw.rectangle((middle - half, middle - arm, middle + half, middle + arm), fill=INK)
    draw.rectangle((middle - arm, middle - half, middle + arm, middle + half), fill=INK)
    buffer = BytesIO()
    image.reduce(FINER).save(buffer, "PNG", optimize=True)
    return buffer.getvalue()
