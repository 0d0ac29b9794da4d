"""Windows, doors, shutters, the gate and the hearth, as they stand in the faces."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from PIL import Image, ImageDraw, ImageFilter

from . import joinery, masonry
from .patch import Paint, Patch, darkened, lit, noise, relief, shape, soft, stamp, veil
from .scene import Painter
from .solids import Block, Recess

CREAM: Paint = (204, 196, 172)
GLASS_DEEP_MM = 30


def limewashed_reveal(patch: Patch) -> Image.Image:
    """The side of an opening."""
    return masonry.plaster(patch, "reveal", (208, 202, 188), 0.2)


def daylight(x: tuple[float, float], z: tuple[float, float], columns: int, rows: int) -> Painter:
    """A bright sky over water and roofs, through glazing bars."""

    def paint(patch: Patch) -> Image.Image:
        picture = _outside(patch, x, z)

        def bars(on: ImageDraw.ImageDraw, at: Callable, _scale: float) -> None:
            for count, (low, high), across in ((columns, x, True), (rows, z, False)):
                for number in range(count + 1):
                    middle = low + (high - low) * number / count
                    half = 26 if number in (0, count) else (22 if across and number * 2 == count else 11)
                    box = (
                        (middle - half, z[1], middle + half, z[0])
                        if across
                        else (x[0], middle + half, x[1], middle - half)
                    )
                    on.rectangle((*at(box[0], box[1]), *at(box[2], box[3])), fill=(122, 120, 112))
                    on.rectangle(
                        (
                            *at(box[0], box[1]),
                            *at(box[0] + (6 if across else x[1] - x[0]), box[3] if across else box[1] - 6),
                        ),
                        fill=(168, 164, 152),
                    )

        stamp(picture, patch, (x[0], z[0], x[1], z[1]), bars)
        return picture

    return paint


def _outside(patch: Patch, x: tuple[float, float], z: tuple[float, float], horizon: float = 0.34) -> Image.Image:
    """Sky, the far side of the harbour and water, out of focus and overexposed."""
    small = Image.new("RGB", (96, 96))
    pen = ImageDraw.Draw(small)
    chance = Random("harbour")  # noqa: S311
    line = round(96 * (1 - horizon))
    for row in range(96):
        sky = row / line
        tone = (226 + 16 * sky, 233 + 10 * sky, 240 + 4 * sky) if row < line else (206, 214, 216)
        pen.line((0, row, 96, row), fill=tuple(round(part) for part in tone))
    left = 0
    while left < 96:
        wide, high = chance.randrange(7, 18), chance.randrange(5, 15)
        pen.rectangle((left, line - high, left + wide, line), fill=(178 + chance.randrange(24),) * 3)
        left += wide
    for mast in (21, 26, 63):
        pen.line((mast, line - 34, mast, line), fill=(168, 166, 160))
    small = small.filter(ImageFilter.GaussianBlur(1.6))
    whole = small.resize(
        (max(2, round((x[1] - x[0]) * patch.scale)), max(2, round((z[1] - z[0]) * patch.scale))),
        Image.Resampling.BICUBIC,
    )
    picture = patch.blank((236, 240, 244))
    picture.paste(whole, tuple(round(value) for value in patch.px(x[0], z[1])))
    return picture


def window(
    x: tuple[float, float], z: tuple[float, float], deep: float, columns: int = 4, rows: int = 4, splay: float = 60
) -> Recess:
    """A window in a splayed recess."""
    glass = (x[0] + splay, x[1] - splay)
    return Recess(x, z, deep, limewashed_reveal, daylight(glass, z, columns, rows), bright=True, splay=splay)


def quay_doorway(x: tuple[float, float], z: tuple[float, float], deep: float) -> Recess:
    """The great doorway, open to the quay."""

    def paint(patch: Patch) -> Image.Image:
        picture = _outside(patch, x, (z[0] - 200, z[1] + 400), 0.42)
        stones = lit(patch.blank((196, 192, 184)), noise(patch, "quay", 160, 40, gain=0.1))
        edge = [(x[0], z[0] - 100), (x[1], z[0] - 100), (x[1], z[0] + 420), (x[0], z[0] + 420)]
        return Image.composite(stones, picture, veil(patch, edge, 8))

    return Recess(x, z, deep, limewashed_reveal, paint, bright=True)


def dark_doorway(x: tuple[float, float], z: tuple[float, float], deep: float, dim: int = 46) -> Recess:
    """A doorway to a room without light."""

    def paint(patch: Patch) -> Image.Image:
        return lit(patch.blank((dim, dim - 2, dim - 6)), noise(patch, "gloom", 700, gain=0.3))

    return Recess(x, z, deep, limewashed_reveal, paint)


def hearth(x: tuple[float, float], z: tuple[float, float], deep: float) -> Recess:
    """A fireplace, sooted."""

    def soot(patch: Patch) -> Image.Image:
        return lit(masonry.brick(patch, "hearth", (60, 54, 50)), noise(patch, "soot", 240, gain=0.4)).point(
            lambda value: value * 0.55
        )

    return Recess(x, z, deep, soot, soot, splay=90)


def ledged_leaf(
    width: float,
    z: tuple[float, float],
    across: tuple[float, float],
    hinge: tuple[float, float],
    angle_deg: float,
    paint: Paint,
) -> list[Block]:
    """A boarded leaf with ledges, strap hinges and a handle, turned to an angle."""

    def front(patch: Patch) -> Image.Image:
        picture = joinery.boards(patch, "leaf", paint, 158, 0.5)
        for share in (0.14, 0.5, 0.86):
            middle = z[0] + share * (z[1] - z[0])
            picture = _ledge(picture, patch, (10, middle - 62, width - 10, middle + 62), paint)
        for share in (0.14, 0.86):
            middle = z[0] + share * (z[1] - z[0])
            stamp(picture, patch, (0, middle - 30, width * 0.72, middle + 30), _strap(width * 0.7, middle))
        return picture

    def edge(patch: Patch) -> Image.Image:
        return joinery.timber(patch, "edge", tuple(round(part * 0.9) for part in paint), along_x=False)

    leaf = Block((0, width), across, z, edge, front, hinge, angle_deg)
    return [leaf]


def _ledge(picture: Image.Image, patch: Patch, box: tuple[float, float, float, float], paint: Paint) -> Image.Image:
    left, bottom, right, top = box
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    under = veil(patch, [(x + 8, y - 16) for x, y in corners], 6)
    picture = darkened(picture, under, 0.45)
    ledge = joinery.timber(patch, "ledge", tuple(min(255, round(part * 1.05)) for part in paint))
    ledge = lit(ledge, relief(soft(shape(patch, corners), patch, 3), 1.2))
    return Image.composite(ledge, picture, shape(patch, corners))


def _strap(reach: float, middle: float) -> Callable:
    def draw(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
        for shift, tone in (((6, -8), (20, 18, 16, 120)), ((0, 0), (54, 52, 50, 255))):
            dx, dz = shift
            corners = [
                (0, middle + 24),
                (reach * 0.85, middle + 13),
                (reach, middle + 20),
                (reach + 12, middle),
                (reach, middle - 20),
                (reach * 0.85, middle - 13),
                (0, middle - 24),
            ]
            on.polygon([at(x + dx, y + dz) for x, y in corners], fill=tone)
        for x in (40, reach * 0.4, reach * 0.8):
            px, py = at(x, middle)
            on.ellipse((px - 7 * scale, py - 7 * scale, px + 7 * scale, py + 7 * scale), fill=(96, 92, 88))

    return draw


def knob(u: float, z: float, out: tuple[float, float], hinge: tuple[float, float], angle_deg: float) -> Block:
    """A handle: a short dark bar that stands off a leaf."""

    def dark(patch: Patch) -> Image.Image:
        return lit(patch.blank((64, 60, 56)), noise(patch, "knob", 30, gain=0.3))

    return Block((u - 30, u + 30), out, (z - 90, z + 90), dark, None, hinge, angle_deg)


def gate(x: tuple[float, float], z: tuple[float, float], hinge: tuple[float, float], angle_deg: float) -> list[Block]:
    """An iron gate of upright bars, turned to an angle; its bars stand between x from and to along the leaf."""

    def dark(patch: Patch) -> Image.Image:
        return joinery.iron(patch, "gate", (58, 58, 60), 0.9)

    bars = [
        Block((u, u + 22), (-11, 11), z, dark, None, hinge, angle_deg)
        for u in range(round(x[0]), round(x[1]) - 10, 116)
    ]
    rails = [
        Block(x, (-16, 16), (z[0] + up, z[0] + up + 60), dark, None, hinge, angle_deg)
        for up in (60, (z[1] - z[0]) / 2, z[1] - z[0] - 140)
    ]
    lock = Block(
        (x[1] - 80, x[1] - 20),
        (-55, 55),
        (z[0] + (z[1] - z[0]) / 2 - 70, z[0] + (z[1] - z[0]) / 2 + 90),
        dark,
        None,
        hinge,
        angle_deg,
    )
    return [*bars, *rails, lock]
