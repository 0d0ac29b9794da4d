"""The photographs of the customs shed: drawn from known places with a known camera, so that what is
where in them is known to a fraction of a pixel."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from PIL import Image

from . import cards, fronts
from .camera import HEIGHT_PX, WIDTH_PX
from .darkroom import developed
from .faces import LOOKS, Look
from .patch import Patch
from .scene import Light, Surface, photographed, rectangle
from .shadows import shadow
from .shots import FACES, FITTINGS, FIXINGS, SHOTS, Shot
from .solids import ALONG, OUT, UP, Block, shell

THREADS = 2


@dataclass(frozen=True)
class Target:
    """Where one survey target is: on the face in mm, and in the photograph in pixels (0, 0 the upper left corner)."""

    x_mm: float
    z_mm: float
    x_px: float
    y_px: float


@dataclass(frozen=True)
class GroundTruth:
    """What is known of a photograph because it was drawn.

    photo, face   its name, and the mark of the face it shows
    size_px       width and height
    matrix        3 × 4 camera matrix: takes (x, y, z, 1) in mm of the face's axes to pixels times depth
    targets       the four survey targets, or none
    card_mm       side of a target's card; its vermilion disc is a fifth of that from middle to edge
    target_rgb    colour of the disc in full light
    """

    photo: str
    face: str
    size_px: tuple[int, int]
    matrix: tuple[tuple[float, float, float, float], ...]
    targets: tuple[Target, ...]
    card_mm: float
    target_rgb: tuple[int, int, int]


def ground_truth(photo_name: str) -> GroundTruth:
    """What is known of the photograph of this name; raises KeyError for a name there is none of."""
    shot = next((shot for shot in SHOTS if shot.name == photo_name), None)
    if shot is None:
        raise KeyError(photo_name)
    targets = tuple(Target(x, z, *shot.camera.seen((x, 0, z))[:2]) for x, z in shot.targets)
    return GroundTruth(
        shot.name, shot.face, (WIDTH_PX, HEIGHT_PX), shot.camera.matrix, targets, shot.card_mm, cards.VERMILION
    )


def drawn() -> Iterator[tuple[Shot, bytes]]:
    """Every photograph with its bytes, in the order they were taken; the same bytes each time."""
    with ThreadPoolExecutor(THREADS) as threads:
        yield from zip(SHOTS, threads.map(draw, SHOTS), strict=True)


def draw(shot: Shot) -> bytes:
    """The bytes of one photograph."""
    look = LOOKS[shot.face]
    light = Light(shot.light_at or look.light_at, share=shot.light_share)
    return developed(photographed(shot.camera, light, _scene(shot, look)), shot.name)


def _scene(shot: Shot, look: Look) -> list[Surface]:
    face = FACES[shot.face]
    left, bottom = face["left_mm"], face["bottom_mm"]
    right, top = left + face["width_mm"], bottom + face["height_mm"]
    up = [block for mark in shot.up for block in fronts.solids(FITTINGS[mark], FIXINGS[mark])]
    surfaces = [
        *look.behind,
        *shell({"x": (left - look.aside, right + look.aside), "z": (bottom, top)}, look.deep, look.sides),
    ]
    for recess in look.recesses:
        surfaces += recess.surfaces()
    surfaces.append(
        Surface(
            (0, 0, 0),
            ALONG,
            UP,
            rectangle(left, bottom, right, top),
            _face_painter(shot, look, up),
            OUT,
            tuple(recess.outline for recess in look.recesses),
            nooks=None if look.aside else (left, bottom, right, top),
        )
    )
    for block in (*look.solids, *up, *shot.things):
        surfaces += block.surfaces(shot.camera)
    return surfaces


def _face_painter(shot: Shot, look: Look, up: list[Block]):
    light = shot.light_at or look.light_at

    def paint(patch: Patch) -> Image.Image:
        picture = look.fabric(patch)
        for mark in (*look.marks, *shot.marks):
            picture = mark(picture, patch)
        for block in (*look.solids, *up):
            picture = _shaded(picture, patch, block, light)
        for x, z in shot.targets:
            picture = cards.target(x, z, shot.card_mm)(picture, patch)
        return picture

    return paint


def _shaded(picture: Image.Image, patch: Patch, block: Block, light: tuple[float, float, float]) -> Image.Image:
    """The face with the shadow of a block that stands in front of it."""
    near, out = block.v
    if block.angle_deg or near > 60 or not 0 < out < 400:
        return picture
    middle = (sum(block.u) / 2, sum(block.z) / 2)
    way = tuple(
        max(-0.9, min(0.9, (place - lamp) / light[1])) for place, lamp in zip(middle, (light[0], light[2]), strict=True)
    )
    return shadow(block.u[0], block.z[0], block.u[1], block.z[1], out, way)(picture, patch)
