"""How stone, brick, plaster and flags look."""

from __future__ import annotations

import math
from functools import lru_cache
from random import Random

from PIL import Image, ImageDraw

from .patch import Paint, Patch, levelled, lit, noise, relief, slope, soft, together

FAR = 11_000  # mm; no surface here is longer
Corner = tuple[float, float]

STONES: tuple[Paint, ...] = (
    (142, 132, 116),
    (128, 121, 110),
    (154, 141, 120),
    (118, 113, 106),
    (147, 127, 104),
    (135, 133, 127),
    (160, 150, 132),
)
BRICKS: tuple[Paint, ...] = ((134, 78, 60), (146, 88, 66), (122, 70, 56), (152, 98, 74), (112, 66, 56), (140, 84, 70))
FLAGS: tuple[Paint, ...] = ((142, 137, 128), (152, 146, 134), (133, 129, 122), (147, 139, 126))
LIME_MORTAR: Paint = (176, 166, 146)


@lru_cache(maxsize=8)
def _rubble(seed: str) -> tuple[tuple[tuple[Corner, ...], int], ...]:
    """Outlines of the stones of a wall brought to rough courses, each with a number for its colour."""
    chance = Random(seed)  # noqa: S311
    stones = []
    z = -200.0
    while z < 5_000:
        course = chance.uniform(130, 300)
        x = chance.uniform(-500, -200)
        while x < FAR:
            long = course * chance.uniform(0.8, 2.3)
            if course > 210 and chance.random() < 0.3:
                split = course * chance.uniform(0.4, 0.6)
                stones.append((_stone(chance, x, z, long, split), chance.randrange(1000)))
                stones.append((_stone(chance, x, z + split, long, course - split), chance.randrange(1000)))
            else:
                stones.append((_stone(chance, x, z, long, course), chance.randrange(1000)))
            x += long
        z += course
    return tuple(stones)


def _stone(chance: Random, x: float, z: float, width: float, height: float) -> tuple[Corner, ...]:
    gap = chance.uniform(7, 15)
    middle_x, middle_z, half_x, half_z = x + width / 2, z + height / 2, width / 2 - gap, height / 2 - gap
    corners = []
    for step in range(14):
        angle = 2 * math.pi * (step + chance.uniform(-0.25, 0.25)) / 14
        # a rounded rectangle: between a circle and a square
        bulge = (abs(math.cos(angle)) ** 5 + abs(math.sin(angle)) ** 5) ** (-1 / 5) * chance.uniform(0.9, 1.04)
        corners.append((middle_x + half_x * bulge * math.cos(angle), middle_z + half_z * bulge * math.sin(angle)))
    return tuple(corners)


def _blocks(
    patch: Patch, blocks: tuple, paints: tuple[Paint, ...], ground: Paint, round_mm: float
) -> tuple[Image.Image, Image.Image]:
    """Blocks in their colours on the mortar, and a mask of them with rounded corners."""
    colours, mask = patch.blank(ground), Image.new("L", patch.size)
    pens = ImageDraw.Draw(colours), ImageDraw.Draw(mask)
    for corners, number in blocks:
        xs, zs = [corner[0] for corner in corners], [corner[1] for corner in corners]
        if not patch.meets(min(xs), min(zs), max(xs), max(zs)):
            continue
        outline = [patch.px(*corner) for corner in corners]
        paint, shift = paints[number % len(paints)], number // 10 % 19 - 9
        tone = tuple(max(0, min(255, part + shift)) for part in paint)
        pens[0].polygon(outline, fill=tone)
        pens[0].line([*outline, outline[0]], fill=tone, width=max(1, round(12 * patch.scale)))
        pens[1].polygon(outline, fill=255)
    edge = soft(mask, patch, round_mm)
    sharp = edge.point([max(0, min(255, (value - 105) * 6)) for value in range(256)])
    return Image.composite(colours, patch.blank(ground), sharp), edge


def rubble(patch: Patch, seed: str, limewash: float = 0.0) -> Image.Image:
    """Rubble brought to courses, in lime mortar; `limewash` 0 to 1 is how much of it is left on the stone."""
    picture, edge = _blocks(patch, _rubble(seed), STONES, LIME_MORTAR, 6)
    grain = together(
        noise(patch, seed + "large", 700, gain=0.14),
        noise(patch, seed + "stone", 95, 60, gain=0.2),
        noise(patch, seed + "vein", 60, 14, gain=0.1),
        noise(patch, seed + "pit", 12, gain=0.15),
        noise(patch, seed + "grain", 3.5, gain=0.16),
    )
    height = Image.blend(soft(edge, patch, 4.5), noise(patch, seed + "dress", 46, 34), 0.3)
    height = Image.blend(height, noise(patch, seed + "pit", 11), 0.09)
    if limewash:
        picture = _limewashed(picture, patch, seed, limewash)
        grain = levelled(grain, 0.6)
    return lit(lit(picture, grain), relief(height, 2.4 * min(1.15, max(0.45, 4 * patch.scale))))


def _limewashed(picture: Image.Image, patch: Patch, seed: str, share: float) -> Image.Image:
    worn = together(
        noise(patch, seed + "worn", 380),
        noise(patch, seed + "worn2", 70, gain=0.7),
        noise(patch, seed + "w3", 14, gain=0.3),
    )
    cover = worn.point([max(60, min(242, round((value - 128) * 2.2 + 255 * share))) for value in range(256)])
    return Image.composite(patch.blank((221, 214, 198)), picture, cover)


@lru_cache(maxsize=4)
def _brickwork(seed: str) -> tuple[tuple[tuple[Corner, ...], int], ...]:
    """English garden wall bond: three courses of stretchers to one of headers."""
    chance = Random(seed)  # noqa: S311
    bricks = []
    for course in range(-4, 62):
        headers = course % 4 == 0
        pitch = 112.5 if headers else 225
        x = -400 - (56 if headers else 112 * (course % 2))
        while x < FAR:
            left, right = x + 5 + chance.uniform(-2, 2), x + pitch - 5 + chance.uniform(-2, 2)
            low, high = course * 75 + 5 + chance.uniform(-1.5, 1.5), course * 75 + 70 + chance.uniform(-1.5, 1.5)
            bricks.append((((left, low), (right, low), (right, high), (left, high)), chance.randrange(1000)))
            x += pitch
    return tuple(bricks)


def brick(patch: Patch, seed: str, painted: Paint | None = None) -> Image.Image:
    """Later brickwork, bare or under a coat of distemper."""
    picture, edge = _blocks(patch, _brickwork(seed), BRICKS, (168, 160, 146), 3)
    grain = together(
        noise(patch, seed + "large", 800, gain=0.14),
        noise(patch, seed + "brick", 60, 25, gain=0.2),
        noise(patch, seed + "grain", 5, gain=0.15),
    )
    depth = 1.0
    if painted:
        worn = together(
            noise(patch, seed + "worn", 700),
            noise(patch, seed + "worn2", 26, gain=0.6),
            noise(patch, seed + "w3", 8, gain=0.4),
        )
        cover = worn.point([max(170, min(246, 246 - 2 * (value - 185))) for value in range(256)])
        picture = Image.composite(patch.blank(painted), picture, cover)
        grain, depth = levelled(grain, 0.45), 0.8
    height = Image.blend(soft(edge, patch, 2), noise(patch, seed + "face", 18), 0.16)
    return lit(lit(picture, grain), relief(height, depth * min(1.5, max(0.4, 2.5 * patch.scale))))


def plaster(patch: Patch, seed: str, paint: Paint = (216, 207, 188), stained: float = 0.3) -> Image.Image:
    """Lime plaster, hand-floated, with old stains."""
    grain = together(
        noise(patch, seed + "large", 1500, 1100, gain=0.09),
        noise(patch, seed + "cloud", 320, gain=0.06),
        noise(patch, seed + "blot", 60, gain=0.05),
        noise(patch, seed + "grain", 5, gain=0.08),
        noise(patch, seed + "sand", 2.2, gain=0.07),
    )
    picture = lit(patch.blank(paint), grain)
    stain = together(noise(patch, seed + "stain", 420, 800, gain=1.4), noise(patch, seed + "stain2", 55, 130, gain=0.6))
    brown = stain.point([max(0, min(255, round((value - 168) * 2.0 * stained))) for value in range(256)])
    picture = Image.composite(lit(patch.blank((176, 154, 118)), grain), picture, brown)
    float_marks = together(
        slope(patch, seed + "float", 520, 0.16),
        slope(patch, seed + "float2", 120, 0.13),
        slope(patch, seed + "float3", 26, 0.08),
    )
    return lit(picture, float_marks)


@lru_cache(maxsize=4)
def _paving(seed: str) -> tuple[tuple[tuple[Corner, ...], int], ...]:
    chance = Random(seed)  # noqa: S311
    stones = []
    z = -600.0
    while z < FAR:
        row = chance.uniform(420, 640)
        x = chance.uniform(-1500, -600)
        while x < FAR:
            long = chance.uniform(480, 980)
            low, high, left, right = z + 4, z + row - 4, x + 4, x + long - 4
            shake = [chance.uniform(-4, 4) for _ in range(8)]
            corners = (
                (left + shake[0], low + shake[1]),
                (right + shake[2], low + shake[3]),
                (right + shake[4], high + shake[5]),
                (left + shake[6], high + shake[7]),
            )
            stones.append((corners, chance.randrange(1000)))
            x += long
        z += row
    return tuple(stones)


def flags(patch: Patch, seed: str) -> Image.Image:
    """Worn stone flags, as a floor."""
    picture, edge = _blocks(patch, _paving(seed), FLAGS, (86, 82, 76), 6)
    grain = together(
        noise(patch, seed + "large", 900, gain=0.1),
        noise(patch, seed + "foot", 180, gain=0.09),
        noise(patch, seed + "grain", 9, gain=0.12),
    )
    height = Image.blend(soft(edge, patch, 5), noise(patch, seed + "worn", 150), 0.35)
    return lit(lit(picture, grain), relief(height, 1.5 * min(1.3, max(0.4, 4 * patch.scale))))
