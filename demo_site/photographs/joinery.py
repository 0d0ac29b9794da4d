"""How boards, planks, oak, ash and painted iron look."""

from __future__ import annotations

import math
from random import Random

from PIL import Image, ImageDraw

from .patch import Paint, Patch, lit, noise, slope, together

DADO_GREEN: Paint = (98, 110, 92)
ASH: Paint = (186, 160, 118)
OAK: Paint = (122, 92, 60)
DEAL: Paint = (140, 112, 78)
IRON: Paint = (52, 54, 56)


def boards(
    patch: Patch, seed: str, paint: Paint, pitch_mm: float = 148, wear: float = 0.5, upright: bool = True
) -> Image.Image:
    """Painted boards with a bead at each joint, worn at knee and hand height."""
    if not upright:
        turned = boards(_turned(patch), seed, paint, pitch_mm, wear)
        return turned.transpose(Image.Transpose.ROTATE_90).resize(patch.size)
    picture = _tones(patch, seed, paint, pitch_mm, 6)
    grain = together(
        noise(patch, seed + "large", 600, 500, gain=0.12),
        noise(patch, seed + "grain", 7, 240, gain=0.13),
        noise(patch, seed + "fine", 4, 40, gain=0.08),
    )
    picture = lit(lit(picture, grain), _profile(patch, pitch_mm))
    scuffs = together(
        noise(patch, seed + "scuff", 9, 42),
        noise(patch, seed + "fine", 4, 12, gain=0.5),
        noise(patch, seed + "where", 260, 300, gain=0.9),
    )
    bare = scuffs.point([max(0, min(215, round((value - 246 + 22 * wear) * 7))) for value in range(256)])
    return Image.composite(lit(patch.blank((136, 118, 90)), grain), picture, bare)


def _turned(patch: Patch) -> Patch:
    return Patch(-patch.top, patch.left, -patch.bottom, patch.right, patch.scale)


def _tones(patch: Patch, seed: str, paint: Paint, pitch_mm: float, spread: int) -> Image.Image:
    """Each board a little lighter or darker than its neighbours."""
    picture = patch.blank(paint)
    pen = ImageDraw.Draw(picture)
    first = math.floor(patch.left / pitch_mm)
    for number in range(first, math.ceil(patch.right / pitch_mm) + 1):
        shift = Random(f"{seed}{number}").uniform(-spread, spread)  # noqa: S311
        left, right = patch.px(number * pitch_mm, 0)[0], patch.px((number + 1) * pitch_mm, 0)[0]
        tone = tuple(max(0, min(255, round(part + shift))) for part in paint)
        pen.rectangle((left, 0, right, patch.size[1]), fill=tone)
    return picture


def _profile(patch: Patch, pitch_mm: float) -> Image.Image:
    """Shading across the boards: the dark of the joint, the light and shade of its bead."""
    width = patch.size[0] * 3
    row = Image.new("L", (width, 1), 128)
    for place in range(width):
        at = (patch.left + place / 3 / patch.scale) % pitch_mm
        row.putpixel((place, 0), _shade(at, pitch_mm))
    return row.resize((patch.size[0], 1), Image.Resampling.BOX).resize(patch.size)


def _shade(at_mm: float, pitch_mm: float) -> int:
    if at_mm < 3:
        return 34
    if at_mm < 13:
        return round(128 + 44 * math.cos(math.pi * (at_mm - 3) / 10))
    if at_mm < 16:
        return 84
    return 140 if pitch_mm - at_mm < 2.5 else 128


def timber(patch: Patch, seed: str, paint: Paint, along_x: bool = True) -> Image.Image:
    """Planed timber with its grain along x or along z."""
    long, short = (380, 7) if along_x else (7, 380)
    grain = together(
        noise(patch, seed + "ring", long, short, gain=0.15),
        noise(patch, seed + "fine", long / 4, short / 2.6, gain=0.1),
        noise(patch, seed + "large", 300, gain=0.1),
    )
    return lit(patch.blank(paint), grain)


def planks(patch: Patch, seed: str, paint: Paint = DEAL, pitch_mm: float = 176) -> Image.Image:
    """Bare, trodden floor planks, running along the second axis."""
    picture = _tones(patch, seed, paint, pitch_mm, 9)
    grain = together(
        noise(patch, seed + "foot", 500, 700, gain=0.12),
        noise(patch, seed + "grain", 9, 420, gain=0.14),
        noise(patch, seed + "fine", 4, 60, gain=0.1),
    )
    picture = lit(picture, grain)
    pen = ImageDraw.Draw(picture)
    for number in range(math.floor(patch.left / pitch_mm), math.ceil(patch.right / pitch_mm) + 1):
        x = patch.px(number * pitch_mm, 0)[0]
        pen.line((x, 0, x, patch.size[1]), fill=(40, 32, 24), width=max(1, round(5 * patch.scale)))
    return picture


def iron(patch: Patch, seed: str, paint: Paint = IRON, flaking: float = 0.35) -> Image.Image:
    """Cast or wrought iron under many coats of paint, rusting where they have gone."""
    grain = together(noise(patch, seed + "large", 260, gain=0.14), noise(patch, seed + "grain", 6, gain=0.1))
    bumps = together(slope(patch, seed + "coat", 60, 0.14), slope(patch, seed + "coat2", 15, 0.12))
    picture = lit(lit(patch.blank(paint), grain), bumps)
    loss = together(noise(patch, seed + "loss", 120, 160, gain=1.1), noise(patch, seed + "loss2", 22, gain=0.8))
    gone = loss.point([max(0, min(240, round((value - 236 + 40 * flaking) * 12))) for value in range(256)])
    rust = lit(patch.blank((112, 66, 40)), noise(patch, seed + "rust", 9, gain=0.5))
    return Image.composite(rust, picture, gone)
