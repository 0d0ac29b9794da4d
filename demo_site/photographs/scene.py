"""Flat surfaces in space, lit, and photographed: the painter's way, from the farthest to the nearest."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from PIL import Image, ImageChops, ImageDraw

from .camera import HEIGHT_PX, NEAREST_MM, WIDTH_PX, Camera, Point, dot, unit
from .patch import Patch

MOST_PIXELS = 2_200_000
LEAST_PIXELS = 1.0
LIGHT_GRID = 22

Painter = Callable[[Patch], Image.Image]
Flat = tuple[float, float]


@dataclass(frozen=True)
class Light:
    """A soft light, such as a window, with what the room throws back.

    at      where it is, mm in the face's axes
    reach   distance at which it has half its strength, mm
    share   how much of all light comes from it, 0 to 1
    tint    colour of the light
    """

    at: Point
    reach: float = 3_200
    share: float = 0.62
    tint: tuple[int, int, int] = (255, 249, 238)

    def on(self, point: Point, normal: Point) -> float:
        """How bright a surface is there, about 0 to 1."""
        way = (self.at[0] - point[0], self.at[1] - point[1], self.at[2] - point[2])
        far = math.sqrt(dot(way, way)) or 1.0
        slant = max(0.0, dot(way, normal) / far)
        return (1 - self.share) + self.share * 1.55 * slant**0.7 / (1 + (far / self.reach) ** 2)


@dataclass(frozen=True)
class Surface:
    """A flat piece of the scene.

    origin, u, v   the corner it is measured from, and the directions of its own two axes
    corners        its outline in those axes, mm
    paint          gives the picture of any patch of it
    normal         direction it faces, for the light
    holes          outlines cut out of it
    glows          it gives light and is not lit itself
    """

    origin: Point
    u: Point
    v: Point
    corners: tuple[Flat, ...]
    paint: Painter
    normal: Point
    holes: tuple[tuple[Flat, ...], ...] = ()
    glows: bool = False
    nooks: tuple[float, float, float, float] | None = field(default=None)
    """Left, bottom, right and top of what closes it in: corners are darker. None where it stands free."""

    def point(self, flat: Flat) -> Point:
        """The point of the scene at a place of the surface."""
        a, b = flat
        return tuple(o + a * u + b * v for o, u, v in zip(self.origin, self.u, self.v, strict=True))  # type: ignore[return-value]


def rectangle(left: float, bottom: float, right: float, top: float) -> tuple[Flat, ...]:
    """Four corners."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def photographed(camera: Camera, light: Light, surfaces: Sequence[Surface]) -> Image.Image:
    """The picture of the surfaces; later ones lie in front of earlier ones."""
    picture = Image.new("RGB", (WIDTH_PX, HEIGHT_PX), (20, 19, 18))
    for surface in surfaces:
        _draw(picture, camera, light, surface)
    return picture


def _draw(picture: Image.Image, camera: Camera, light: Light, surface: Surface) -> None:
    seen = _in_sight(camera, surface, surface.corners)
    if _extent(seen) < LEAST_PIXELS:
        return
    flats = [_back(camera, surface, pixel) for pixel in seen]
    scale = _fineness(camera, surface, flats)
    pad = 3 / scale
    patch = Patch(
        min(a for a, _ in flats) - pad,
        min(b for _, b in flats) - pad,
        max(a for a, _ in flats) + pad,
        max(b for _, b in flats) + pad,
        scale,
    )
    texture = surface.paint(patch)
    if not surface.glows:
        texture = ImageChops.multiply(texture, _light_map(patch, surface, light))
    left, top = (max(0, math.floor(min(pixel[axis] for pixel in seen)) - 1) for axis in (0, 1))
    right = min(WIDTH_PX, math.ceil(max(pixel[0] for pixel in seen)) + 1)
    bottom = min(HEIGHT_PX, math.ceil(max(pixel[1] for pixel in seen)) + 1)
    if right <= left or bottom <= top:
        return
    window = (left, top, right, bottom)
    warped = texture.transform(
        (right - left, bottom - top),
        Image.Transform.PERSPECTIVE,
        _warp(camera, surface, patch, left, top),
        Image.Resampling.BILINEAR,
    )
    mask = _mask(window, [seen])
    holes = [_in_sight(camera, surface, hole) for hole in surface.holes]
    if any(len(hole) > 2 for hole in holes):
        mask = ImageChops.subtract(mask, _mask(window, [hole for hole in holes if len(hole) > 2]))
    picture.paste(warped, (left, top), mask)


def _extent(outline: list[Flat]) -> float:
    """Area of an outline."""
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _mask(window: tuple[int, int, int, int], outlines: list[list[Flat]], fill: int = 255) -> Image.Image:
    """Outlines filled with smooth edges."""
    left, top, right, bottom = window
    mask = Image.new("L", (3 * (right - left), 3 * (bottom - top)))
    pen = ImageDraw.Draw(mask)
    for outline in outlines:
        # Pillow draws to the middles of pixels: half a pixel less, or the edge creeps outwards.
        corners = [(3 * (x - left) - 0.5, 3 * (y - top) - 0.5) for x, y in outline]
        pen.polygon(corners, fill=fill)
        # A hair over its edge, so that no light shows between two surfaces that meet.
        pen.line([*corners, corners[0]], fill=fill, width=2)
    return mask.reduce(3)


def _in_sight(camera: Camera, surface: Surface, corners: Sequence[Flat]) -> list[Flat]:
    """The outline in pixels, cut to what is in front of the camera and inside the picture."""
    points = [surface.point(corner) for corner in corners]
    points = _cut(points, lambda point: camera.depth(point) - NEAREST_MM)
    pixels: list[tuple[float, ...]] = [camera.seen(point)[:2] for point in points]
    pixels = _cut(pixels, lambda pixel: pixel[0])
    pixels = _cut(pixels, lambda pixel: WIDTH_PX - pixel[0])
    pixels = _cut(pixels, lambda pixel: pixel[1])
    return _cut(pixels, lambda pixel: HEIGHT_PX - pixel[1])  # type: ignore[return-value]


def _cut(points: Sequence, inside: Callable[..., float]) -> list:
    """The part of a convex outline where `inside` is positive."""
    kept = []
    for number, point in enumerate(points):
        before = points[number - 1]
        here, there = inside(point), inside(before)
        if here * there < 0:
            share = there / (there - here)
            kept.append(tuple(b + share * (p - b) for p, b in zip(point, before, strict=True)))
        if here >= 0:
            kept.append(point)
    return kept


def _onto(camera: Camera, surface: Surface) -> list[list[float]]:
    """The 3 × 3 matrix from the surface's axes to pixels."""
    return [
        [dot(row[:3], surface.u), dot(row[:3], surface.v), dot(row[:3], surface.origin) + row[3]]
        for row in camera.matrix
    ]


def inverse(m: Sequence[Sequence[float]]) -> list[list[float]]:
    """Inverse of a 3 × 3 matrix, up to scale."""
    (a, b, c), (d, e, f), (g, h, i) = m
    return [
        [e * i - f * h, c * h - b * i, b * f - c * e],
        [f * g - d * i, a * i - c * g, c * d - a * f],
        [d * h - e * g, b * g - a * h, a * e - b * d],
    ]


def _back(camera: Camera, surface: Surface, pixel: Flat) -> Flat:
    rows = inverse(_onto(camera, surface))
    a, b, w = (row[0] * pixel[0] + row[1] * pixel[1] + row[2] for row in rows)
    return a / w, b / w


def _fineness(camera: Camera, surface: Surface, flats: list[Flat]) -> float:
    """Pixels a mm to paint with: what the nearest part is seen at, within reason."""
    best = 0.0
    middle = (sum(a for a, _ in flats) / len(flats), sum(b for _, b in flats) / len(flats))
    for a, b in [*flats, middle]:
        a, b = a + (middle[0] - a) * 0.2, b + (middle[1] - b) * 0.2
        here, along, up = (camera.seen(surface.point(flat)) for flat in ((a, b), (a + 1, b), (a, b + 1)))
        best = max(
            best, math.hypot(along[0] - here[0], along[1] - here[1]), math.hypot(up[0] - here[0], up[1] - here[1])
        )
    area = (max(a for a, _ in flats) - min(a for a, _ in flats)) * (max(b for _, b in flats) - min(b for _, b in flats))
    return max(0.02, min(best, math.sqrt(MOST_PIXELS / max(area, 1))))


def _warp(camera: Camera, surface: Surface, patch: Patch, left: int, top: int) -> tuple[float, ...]:
    """Coefficients that take a pixel of the window to a pixel of the painted patch."""
    rows = inverse(_onto(camera, surface))
    rows = [[row[0], row[1], row[0] * left + row[1] * top + row[2]] for row in rows]
    a, b, w = rows
    s = patch.scale
    x = [s * (a[n] - patch.left * w[n]) for n in range(3)]
    y = [s * (patch.top * w[n] - b[n]) for n in range(3)]
    return tuple(value / w[2] for value in (*x, *y, w[0], w[1]))


def _light_map(patch: Patch, surface: Surface, light: Light) -> Image.Image:
    """How bright the patch is, from a coarse grid made smooth; a cell is about 40 pixels."""
    width, height = (max(4, min(LIGHT_GRID, pixels // 40)) for pixels in patch.size)
    values = []
    for row in range(height):
        b = patch.top - (row + 0.5) / height * (patch.top - patch.bottom)
        for column in range(width):
            a = patch.left + (column + 0.5) / width * (patch.right - patch.left)
            values.append(light.on(surface.point((a, b)), surface.normal) * _nook(surface, a, b))
    bands = [bytes(max(0, min(255, round(part * value))) for value in values) for part in light.tint]
    small = Image.merge("RGB", [Image.frombytes("L", (width, height), band) for band in bands])
    return small.resize(patch.size, Image.Resampling.BICUBIC)


def _nook(surface: Surface, a: float, b: float) -> float:
    if surface.nooks is None:
        return 1.0
    left, bottom, right, top = surface.nooks
    shade = 1.0
    for distance in (a - left, right - a, b - bottom, top - b):
        shade *= 1 - 0.3 * math.exp(-max(0.0, distance) / 260)
    return shade


def facing(camera: Camera, surface: Surface) -> bool:
    """Whether the camera sees the front of it."""
    point = surface.point(surface.corners[0])
    return dot(unit((camera.at[0] - point[0], camera.at[1] - point[1], camera.at[2] - point[2])), surface.normal) > 0
