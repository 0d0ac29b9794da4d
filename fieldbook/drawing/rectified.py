"""A photograph laid flat: a picture of a face to scale, as if the camera had stood square before all of it.

What stands out of the face, or lies behind it, is in the wrong place in it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from io import BytesIO
from typing import Any

from PIL import Image

from ..book.book import Book
from ..book.photographs import reduced
from ..book.site import Item
from ..checks.clearance import Stretch
from ..checks.picture_plane import Plane, plane_of
from ..errors import FieldbookError

MARK_PX = 2.0
"""How well a mark is set where nothing is entered, px: a fingertip on a phone, common practice, no source."""
EDGE, NEAR = 0.75, 0.15
"""Share of half the diagonal from which a lens is minded, and of the diagonal within which a mark holds: practice."""
LONGEST_PX = 1600  # what it is made from and what it becomes are never larger: memory stays within some 20 MB
FAINT = 0.7  # share of white, for what lies under a drawing
PAPER = (255, 255, 255)


def plane_in(photograph: Item) -> Plane:
    """The face as a photograph shows it, by the marks entered for it; raises what `plane_of` raises."""
    rows: Sequence[Sequence[Any]] = photograph.plane_marks or ()
    pairs = [(*row[:4], row[4] or 0.0) for row in rows]
    return plane_of(pairs, photograph.mark_px or MARK_PX)


def bent_there(photograph: Item, plane: Plane, across_px: float, down_px: float) -> bool:
    """Whether a wide lens may bend lines at a point of a photograph: near its edge, and no mark is near to hold it."""
    width, height = photograph.width_px, photograph.height_px
    if not width or not height:
        return False
    diagonal = math.hypot(width, height)
    out = math.hypot(across_px - width / 2, down_px - height / 2) / (diagonal / 2)
    near = min(math.hypot(mark.across_px - across_px, mark.down_px - down_px) for mark in plane.pairs)
    return out > EDGE and near >= NEAR * diagonal


def plane_or_none(photograph: Item) -> Plane | None:
    """The same, or None where its marks make none."""
    if not photograph.plane_marks or not photograph.plane_face:
        return None
    try:
        return plane_in(photograph)
    except FieldbookError:
        return None


def laid_flat(
    book: Book, photograph: Item, part: Stretch, *, faint: bool = False, longest_px: int = LONGEST_PX
) -> bytes:
    """A part of the face a photograph of the book measures, as `rectified` gives it.

    Raises what `plane_in` and `reduced` raise.
    """
    copy = reduced(book, photograph.sha256, LONGEST_PX)
    return rectified(copy, photograph.width_px, plane_in(photograph), part, faint=faint, longest_px=longest_px)


def rectified(
    copy: bytes,
    width_px: int | None,
    plane: Plane,
    part: Stretch,
    *,
    faint: bool = False,
    longest_px: int = LONGEST_PX,
) -> bytes:
    """A JPEG of a part of a face, seen squarely; white where the photograph does not reach.

    copy        a copy of the photograph, upright, of any size
    width_px    the width of the photograph the plane's marks were set on; None: as the copy has it
    part        the part of the face, mm; it fills the picture
    faint       whether it is paled to lie under a drawing
    longest_px  the longer side of what it becomes
    """
    with Image.open(BytesIO(copy)) as opened:
        picture = opened.convert("RGB")
    picture.thumbnail((LONGEST_PX, LONGEST_PX))
    share = picture.width / width_px if width_px else 1.0
    wide, high = part.x_to - part.x_from, part.z_to - part.z_from
    px_per_mm = longest_px / max(wide, high)
    size = max(1, round(wide * px_per_mm)), max(1, round(high * px_per_mm))
    step = wide / size[0], high / size[1]
    rows = [
        (a * step[0], -b * step[1], a * part.x_from + b * part.z_to + c) for a, b, c in plane.matrix
    ]  # from the new picture's pixels to mm, and on to the photograph
    (a, b, c), (d, e, f), (g, h, i) = rows
    flat = _laid(picture, size, [share * part / i for part in (a, b, c, d, e, f)] + [g / i, h / i])
    if faint:
        flat = Image.blend(flat, Image.new("RGB", flat.size, PAPER), FAINT)
    buffer = BytesIO()
    flat.save(buffer, "JPEG", quality=85)
    return buffer.getvalue()


def _laid(picture: Image.Image, size: tuple[int, int], data: list[float]) -> Image.Image:
    """The picture taken through a perspective; what lies beside it, or behind the camera, is paper."""
    flat = picture.transform(size, Image.Transform.PERSPECTIVE, data, Image.Resampling.BICUBIC, fillcolor=PAPER)
    g, h = data[6:]
    corners = [g * x + h * y + 1 for x, y in ((0, 0), (size[0], 0), (0, size[1]), size)]
    if min(corners) > 0:
        return flat
    # behind the horizon a perspective shows the picture again, upside down: that part is left out
    behind = Image.new("L", size, 255)
    pixels = behind.load()
    assert pixels is not None
    for y in range(size[1]):
        for x in range(size[0]):
            if g * x + h * y + 1 <= 0:
                pixels[x, y] = 0
    return Image.composite(flat, Image.new("RGB", size, PAPER), behind)
