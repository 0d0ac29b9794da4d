"""Shadows that things in front of a face throw on it."""

from __future__ import annotations

from collections.abc import Callable

from PIL import Image

from .patch import Patch, darkened, part_of, veil

Mark = Callable[[Image.Image, Patch], Image.Image]


def shadow(
    left: float, bottom: float, right: float, top: float, deep_mm: float, way: tuple[float, float] = (0.55, -0.7)
) -> Mark:
    """The shadow of a box of this depth on the face behind it; `way` is how it falls, per mm of depth."""
    dx, dz = way[0] * deep_mm, way[1] * deep_mm
    blur = max(2.5, deep_mm * 0.28)
    reach = 3 * blur + 12
    box = (
        min(left, left + dx) - reach,
        min(bottom, bottom + dz) - reach,
        max(right, right + dx) + reach,
        max(top, top + dz) + reach,
    )
    outline = [(left, bottom), (right, bottom), (right, top), (left, top)]

    def draw(picture: Image.Image, patch: Patch) -> Image.Image:
        found = part_of(patch, *box)
        if found is None:
            return picture
        part, corner = found
        cast = _hull([(x + dx * share, z + dz * share) for share in (0, 1) for x, z in outline])
        shaded = darkened(
            picture.crop((*corner, corner[0] + part.size[0], corner[1] + part.size[1])), veil(part, cast, blur), 0.5
        )
        picture.paste(darkened(shaded, veil(part, outline, 4), 0.55), corner)
        return picture

    return draw


def _hull(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The convex outline of some points."""
    sides = []
    for ordered in (sorted(points), sorted(points, reverse=True)):
        side: list[tuple[float, float]] = []
        for x, z in ordered:
            while len(side) > 1 and (side[-1][0] - side[-2][0]) * (z - side[-2][1]) <= (side[-1][1] - side[-2][1]) * (
                x - side[-2][0]
            ):
                side.pop()
            side.append((x, z))
        sides += side[:-1]
    return sides
