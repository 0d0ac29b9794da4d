"""What is painted, scratched, cracked or hung on a face: drawn on the picture of its surface.

Each function takes its measures and gives a mark: something that draws itself on a patch.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random

from PIL import Image, ImageChops, ImageDraw

from .cards import lettering
from .patch import Paint, Patch, darkened, lit, noise, stamp, together, veil
from .shadows import Mark, shadow


def inscription(
    x_mm: float, z_mm: float, width_mm: float, height_mm: float, lines: tuple[str, ...], paint: Paint = (46, 42, 40)
) -> Mark:
    """Words painted on a limewashed field, worn by two centuries."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        right, top = x_mm + width_mm, z_mm + height_mm
        if not patch.meets(x_mm, z_mm, right, top):
            return picture
        seed = "".join(lines)
        wear = together(
            noise(patch, seed, 60, gain=0.9),
            noise(patch, seed + "fine", 13, gain=0.8),
            noise(patch, seed + "large", 420, gain=0.5),
        )
        field = veil(patch, [(x_mm, z_mm), (right, z_mm), (right, top), (x_mm, top)], 6)
        field = ImageChops.multiply(
            field, wear.point([max(120, min(225, 225 - 3 * (value - 150))) for value in range(256)])
        )
        picture = Image.composite(
            lit(patch.blank((214, 200, 168)), noise(patch, seed + "lime", 40, gain=0.14)), picture, field
        )
        kept = wear.point([max(24, min(225, 236 - 4 * (value - 132))) for value in range(256)])

        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            _ruled(on, at, scale, (x_mm, z_mm, right, top), paint)
            row = height_mm * 0.84 / len(lines)
            for number, words in enumerate(lines):
                middle = at(x_mm + width_mm / 2, top - height_mm * 0.08 - (number + 0.5) * row)
                size = row * scale * 0.86
                long = lettering(100).getlength(words) / 100
                font = lettering(round(min(size, width_mm * 0.9 * scale / long)))
                on.text(
                    middle,
                    words,
                    paint,
                    font,
                    anchor="mm",
                    stroke_width=max(1, round(font.size * 0.018)),
                    stroke_fill=paint,
                )

        stamp(picture, patch, (x_mm, z_mm, right, top), pen, kept)
        return picture

    return draw


def _ruled(
    on: ImageDraw.ImageDraw, at: Callable, scale: float, box: tuple[float, float, float, float], paint: Paint
) -> None:
    left, bottom, right, top = box
    for inset, width in ((26, 9), (44, 3)):
        corners = (*at(left + inset, top - inset), *at(right - inset, bottom + inset))
        on.rectangle(corners, outline=paint, width=max(1, round(width * scale)))


def crack(points: tuple[tuple[float, float], ...], width_mm: float, seed: str) -> Mark:
    """A crack along the points, wandering, with finer ones off it."""
    chance = Random(seed)  # noqa: S311
    main = _wandering(points, chance, 34)
    twigs = []
    for x, z in main[3:-3:5]:
        angle = chance.uniform(0, 2 * math.pi)
        reach = chance.uniform(60, 240)
        twigs.append(_wandering(((x, z), (x + reach * math.cos(angle), z + reach * math.sin(angle))), chance, 18))

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        xs, zs = [x for x, _ in main], [z for _, z in main]
        box = (min(xs) - 300, min(zs) - 300, max(xs) + 300, max(zs) + 300)

        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            for line, wide in ((main, width_mm), *((twig, width_mm / 3) for twig in twigs)):
                for number, (here, there) in enumerate(zip(line, line[1:], strict=False)):
                    thick = (
                        wide
                        * (0.45 + 0.55 * math.sin(math.pi * (number + 0.5) / len(line)))
                        * (0.7 + 0.6 * ((number * 7919) % 10) / 10)
                    )
                    ends = (*at(*here), *at(*there))
                    on.line(
                        [value + thick * scale * 0.8 for value in ends],
                        fill=(232, 224, 206, 110),
                        width=max(1, round(thick * scale)),
                    )
                    on.line(ends, fill=(34, 28, 24, 235), width=max(1, round(thick * scale)))

        stamp(picture, patch, box, pen)
        return picture

    return draw


def _wandering(points: tuple[tuple[float, float], ...], chance: Random, step_mm: float) -> list[tuple[float, float]]:
    line = [points[0]]
    for here, there in zip(points, points[1:], strict=False):
        steps = max(2, round(math.dist(here, there) / step_mm))
        for step in range(1, steps + 1):
            share = step / steps
            shake = 0 if step == steps else step_mm * 0.34
            line.append(
                (
                    here[0] + (there[0] - here[0]) * share + chance.uniform(-shake, shake),
                    here[1] + (there[1] - here[1]) * share + chance.uniform(-shake, shake),
                )
            )
    return line


def conduit(
    x_mm: float, z_from: float, z_to: float, wide_mm: float = 25, paint: Paint = (196, 192, 182), saddles: float = 620
) -> Mark:
    """A later pipe up the wall, with its saddles; it stands out of the face a little and throws a shadow."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        picture = shadow(x_mm - wide_mm / 2, z_from, x_mm + wide_mm / 2, z_to, wide_mm * 1.1)(picture, patch)

        def pen(on: ImageDraw.ImageDraw, at: Callable, _scale: float) -> None:
            strips = 12
            for strip in range(strips):
                place = (strip + 0.5) / strips * 2 - 1
                shade = 0.62 + 0.42 * math.sqrt(max(0.0, 1 - (place + 0.35) ** 2)) - 0.16 * max(0.0, place)
                tone = tuple(max(0, min(255, round(part * shade))) for part in paint)
                left = x_mm + wide_mm / 2 * (place - 1 / strips)
                on.rectangle((*at(left, z_to), *at(left + wide_mm / strips + 0.6, z_from)), fill=tone)
            z = z_from + saddles / 2
            while z < z_to:
                on.rectangle(
                    (*at(x_mm - wide_mm * 1.1, z + 11), *at(x_mm + wide_mm * 1.1, z - 11)),
                    fill=tuple(part - 34 for part in paint),
                )
                on.rectangle(
                    (*at(x_mm - wide_mm * 0.55, z + 13), *at(x_mm + wide_mm * 0.55, z - 13)),
                    fill=tuple(part - 12 for part in paint),
                )
                z += saddles

        stamp(picture, patch, (x_mm - wide_mm * 2, z_from, x_mm + wide_mm * 2, z_to), pen)
        return picture

    return draw


def stain(
    x_mm: float,
    z_mm: float,
    width_mm: float,
    height_mm: float,
    seed: str,
    paint: Paint = (226, 222, 212),
    strength: float = 0.8,
) -> Mark:
    """A bloom of salts or damp with a ragged edge."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        if not patch.meets(x_mm - 200, z_mm - 200, x_mm + width_mm + 200, z_mm + height_mm + 200):
            return picture
        body = veil(
            patch,
            [(x_mm, z_mm), (x_mm + width_mm, z_mm), (x_mm + width_mm, z_mm + height_mm), (x_mm, z_mm + height_mm)],
            min(width_mm, height_mm) / 6,
        )
        ragged = together(
            noise(patch, seed, 150, gain=1.1),
            noise(patch, seed + "fine", 26, gain=0.8),
            noise(patch, seed + "grain", 8, gain=0.5),
        )
        mask = ImageChops.multiply(
            body, ragged.point([max(0, min(255, round((value - 104) * 3.4 * strength))) for value in range(256)])
        )
        return Image.composite(lit(patch.blank(paint), noise(patch, seed + "tone", 18, gain=0.14)), picture, mask)

    return draw


def strokes(
    lines: tuple[tuple[tuple[float, float], ...], ...], width_mm: float, paint: tuple[int, int, int, int]
) -> Mark:
    """Lines scratched, pencilled or chalked on the face."""
    points = [point for line in lines for point in line]
    box = (
        min(x for x, _ in points) - 20,
        min(z for _, z in points) - 20,
        max(x for x, _ in points) + 20,
        max(z for _, z in points) + 20,
    )

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            for line in lines:
                on.line(
                    [at(*point) for point in line], fill=paint, width=max(1, round(width_mm * scale)), joint="curve"
                )

        stamp(picture, patch, box, pen)
        return picture

    return draw


def written(
    x_mm: float, z_mm: float, height_mm: float, words: tuple[str, ...], paint: tuple[int, int, int, int]
) -> Mark:
    """Words written small, one under the other, each line a little askew."""
    chance = Random("".join(words))  # noqa: S311
    shakes = [chance.uniform(-0.15, 0.15) * height_mm for _ in words]
    wide = max(len(line) for line in words) * height_mm * 0.8
    box = (x_mm - 20, z_mm - len(words) * height_mm * 1.5, x_mm + wide, z_mm + height_mm)

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            for number, line in enumerate(words):
                place = at(x_mm + shakes[number] * 2, z_mm - number * height_mm * 1.4 + shakes[number])
                on.text(place, line, paint, lettering(round(height_mm * scale)), anchor="ls")

        stamp(picture, patch, box, pen, noise(patch, words[0], 9, gain=0.9).point(lambda value: min(255, 120 + value)))
        return picture

    return draw


def stop(x_mm: float, z_mm: float, radius_mm: float, paint: Paint = (206, 198, 178)) -> Mark:
    """A stopped or open hole, or the head of a screw: a small round thing with a light and a dark edge."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        def pen(on: ImageDraw.ImageDraw, at: Callable, scale: float) -> None:
            x, y = at(x_mm, z_mm)
            reach, edge = radius_mm * scale, max(1.0, radius_mm * scale * 0.18)
            for shift, tone in (
                (edge, tuple(round(part * 0.42) for part in paint)),
                (-edge * 0.6, tuple(min(255, part + 34) for part in paint)),
                (0, paint),
            ):
                on.ellipse((x - reach + shift, y - reach + shift, x + reach + shift, y + reach + shift), fill=tone)

        stamp(
            picture,
            patch,
            (x_mm - 2 * radius_mm, z_mm - 2 * radius_mm, x_mm + 2 * radius_mm, z_mm + 2 * radius_mm),
            pen,
        )
        return picture

    return draw


def tone(
    left: float, bottom: float, right: float, top: float, to: float, edge_mm: float, paint: Paint = (24, 20, 16)
) -> Mark:
    """A part of the face gone darker: dirt, damp, smoke."""

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        if not patch.meets(left - edge_mm, bottom - edge_mm, right + edge_mm, top + edge_mm):
            return picture
        mask = veil(patch, [(left, bottom), (right, bottom), (right, top), (left, top)], edge_mm)
        return darkened(picture, mask, to, paint)

    return draw
