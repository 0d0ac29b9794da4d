"""What makes up the look of a face: its fabric, what is on it, what stands before it and round it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from PIL import Image

from . import joinery, masonry
from .patch import Paint, Patch
from .scene import Painter, Surface, rectangle
from .shadows import Mark
from .solids import ALONG, OUT, UP, Block, Recess

WHITE: Paint = (214, 208, 194)
BUFF: Paint = (208, 194, 160)
GREY_GREEN: Paint = (86, 98, 84)


@dataclass(frozen=True)
class Look:
    """A face as found.

    fabric    picture of its surface
    marks     what is on it, in order
    recesses, solids  openings in it and what stands in front of it
    sides     pictures of floor, ceiling and the walls left and right of it
    deep      how far the room reaches in front of it, mm
    light_at  where the daylight comes from, mm in its axes
    behind    what is seen past a face that stands free, and `aside` how far floor and ceiling go beyond it, mm
    """

    fabric: Painter
    light_at: tuple[float, float, float]
    marks: tuple[Mark, ...] = ()
    recesses: tuple[Recess, ...] = ()
    solids: tuple[Block, ...] = ()
    sides: Mapping[str, Painter] = field(default_factory=dict)
    deep: float = 6000
    behind: tuple[Surface, ...] = ()
    aside: float = 0.0


def bands(upper: Painter, *lower: tuple[float, Painter]) -> Painter:
    """One fabric above others: each of those reaches up to its height in mm, the highest first."""

    def paint(patch: Patch) -> Image.Image:
        picture = upper(patch)
        for top_mm, painter in lower:
            first = max(0, round(patch.px(0, top_mm)[1]))
            if first >= patch.size[1]:
                continue
            height = patch.size[1] - first
            part = Patch(patch.left, patch.bottom, patch.right, patch.bottom + height / patch.scale, patch.scale)
            picture.paste(painter(part).resize((patch.size[0], height)), (0, first))
        return picture

    return paint


def stone(seed: str, limewash: float = 0.0) -> Painter:
    """Rubble, with a share of its limewash left."""
    return lambda patch: masonry.rubble(patch, seed, limewash)


def lime(seed: str, paint: Paint = WHITE, stained: float = 0.3) -> Painter:
    """Lime plaster."""
    return lambda patch: masonry.plaster(patch, seed, paint, stained)


def bricks(seed: str, painted: Paint | None = None) -> Painter:
    """Later brickwork, bare or painted."""
    return lambda patch: masonry.brick(patch, seed, painted)


def boarded(seed: str, paint: Paint = GREY_GREEN, pitch_mm: float = 148, wear: float = 0.5) -> Painter:
    """A boarded dado."""
    return lambda patch: joinery.boards(patch, seed, paint, pitch_mm, wear)


def moved(painter: Painter, x_mm: float, z_mm: float = 0) -> Painter:
    """The same fabric, begun further left and lower."""

    def paint(patch: Patch) -> Image.Image:
        return painter(Patch(patch.left + x_mm, patch.bottom + z_mm, patch.right + x_mm, patch.top + z_mm, patch.scale))

    return paint


def slate(seed: str) -> Painter:
    """Slate, as on a mantel."""
    return lambda patch: masonry.plaster(patch, seed, (78, 80, 84), 0.0)


def rail(seed: str, paint: Paint = GREY_GREEN) -> Painter:
    """A rail or beam along x."""
    return lambda patch: joinery.timber(patch, seed, paint)


def flagged(seed: str) -> Painter:
    """Flags underfoot."""
    return lambda patch: masonry.flags(patch, seed)


def planked(seed: str) -> Painter:
    """Planks underfoot."""
    return lambda patch: joinery.planks(patch, seed)


def boards_above(seed: str, paint: Paint = (120, 104, 82)) -> Painter:
    """Boards overhead."""
    return lambda patch: joinery.boards(patch, seed, paint, 130, 0.0)


def beams(x_from: float, x_to: float, z: tuple[float, float], deep: float, pitch: float) -> tuple[Block, ...]:
    """Beams that run out of the face, below the ceiling."""
    beam = rail("beam", (98, 80, 58))
    count = int((x_to - x_from) // pitch)
    return tuple(Block((x, x + 230), (0, deep), z, beam) for x in (x_from + pitch * (n + 0.5) for n in range(count)))


def dado(width: float, top: float, floor: float) -> tuple[Block, ...]:
    """Skirting and capping of a boarded dado."""
    return (
        Block((0, width), (0, 18), (floor, floor + 170), rail("skirting", (76, 86, 74))),
        Block((0, width), (0, 38), (top - 34, top), rail("capping", (92, 104, 90))),
    )


def floor_at(painter: Painter, z: float, x: tuple[float, float], y: tuple[float, float]) -> Surface:
    """A floor at a height, over a rectangle of x and y."""
    return Surface((0, 0, z), ALONG, OUT, rectangle(x[0], y[0], x[1], y[1]), painter, UP)


def wall_at(painter: Painter, y: float, x: tuple[float, float], z: tuple[float, float]) -> Surface:
    """A wall behind the face, at this y."""
    return Surface((0, y, 0), ALONG, UP, rectangle(x[0], z[0], x[1], z[1]), painter, OUT)


def side_at(painter: Painter, x: float, y: tuple[float, float], z: tuple[float, float]) -> Surface:
    """A wall beside the face, at this x."""
    return Surface((x, 0, 0), OUT, UP, rectangle(y[0], z[0], y[1], z[1]), painter, ALONG if x < 0 else (-1, 0, 0))


def framed(
    x: tuple[float, float], top: float, floor: float, seed: str, paint: Paint, wide: float = 80
) -> tuple[Block, ...]:
    """The architrave of a doorway."""
    side, height = rail(seed, paint), (floor, top + wide)
    return (
        Block((x[0] - wide, x[0]), (0, 24), height, side),
        Block((x[1], x[1] + wide), (0, 24), height, side),
        Block((x[0] - wide, x[1] + wide), (0, 26), (top, top + wide), side),
    )
