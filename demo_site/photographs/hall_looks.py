"""The faces of the weighing hall as found; the measures are those of the survey."""

from __future__ import annotations

from collections.abc import Mapping

from PIL import Image

from . import cards, joinery, marks, openings
from .look import (
    Look,
    bands,
    beams,
    boarded,
    boards_above,
    bricks,
    dado,
    flagged,
    floor_at,
    framed,
    moved,
    rail,
    side_at,
    stone,
    wall_at,
)
from .patch import Patch
from .scene import Painter, Surface, rectangle
from .solids import ALONG, OUT, UP, Block

_HALL = {"floor": flagged("hall"), "ceiling": boards_above("hall")}
_TALLIES = tuple(
    ((6504 + 26 * n + 12 * (n // 5), 640 + 14 * (n % 3)), (6508 + 26 * n + 12 * (n // 5), 780 - 9 * (n % 2)))
    for n in range(7)
) + (((6496, 690), (6616, 742)), ((6510, 420), (6514, 560)), ((6536, 430), (6540, 552)), ((6562, 424), (6566, 566)))
_SHIP = (
    ((740, 1420), (860, 1340), (1300, 1330), (1460, 1430), (740, 1420)),
    ((920, 1425), (930, 1900)),
    ((1210, 1428), (1222, 1870)),
    ((930, 1890), (780, 1500), (1060, 1500), (930, 1890)),
    ((1222, 1860), (1090, 1510), (1380, 1520), (1222, 1860)),
    ((720, 1426), (640 + 60, 1500)),
    ((1460, 1430), (1500, 1560), (1222, 1850)),
    ((930, 1900), (1222, 1870)),
    ((700, 1330), (820, 1312), (960, 1326), (1110, 1310), (1280, 1322), (1490, 1306)),
)


def _shaded_floor(painter: Painter) -> Painter:
    """A floor with the shadow of the column's plinth on it."""

    def paint(patch: Patch) -> Image.Image:
        return marks.tone(-170, -230, 190, 70, 0.35, 45)(
            marks.tone(-150, -700, 420, 40, 0.72, 160)(painter(patch), patch), patch
        )

    return paint


def _chamfer(side: int) -> Surface:
    """The slanting side of the column, left or right of its flat."""
    slant = 2**-0.5
    return Surface(
        (80 * side, 0, 0),
        (side * slant, -slant, 0),
        UP,
        rectangle(0, 0, 43, 3960),
        _column_iron,
        (side * slant, slant, 0),
    )


def _column_iron(patch: Patch) -> Image.Image:
    return joinery.iron(patch, "R1-C", (64, 72, 70), 0.3)


_HALL_NORTH = bands(stone("R1-N", 0.7), (1180, boarded("R1-N")))
_AROUND_COLUMN = (
    floor_at(_shaded_floor(moved(flagged("hall"), 4600, 3300)), -150, (-4600, 4600), (-3300, 3000)),
    wall_at(moved(_HALL_NORTH, 4600), -3300, (-4600, 4600), (-150, 3930)),
    side_at(moved(stone("R1-W", 0.75), 3300), -4600, (-3300, 3000), (-150, 3930)),
    side_at(moved(stone("R1-E", 0.7), 3300), 4600, (-3300, 3000), (-150, 3930)),
    Surface((0, 0, 3930), ALONG, OUT, rectangle(-4600, -3300, 4600, 3000), boards_above("hall"), (0, 0, -1)),
    _chamfer(-1),
    _chamfer(1),
)


def _iron(seed: str) -> Painter:
    return lambda patch: joinery.iron(patch, seed, (56, 60, 60), 0.3)


def _scale(x: float, y: float) -> tuple[Block, ...]:
    """One pan of the great beam on its two irons."""
    return (
        *(Block((x + side - 5, x + side + 5), (y - 5, y + 5), (1420, 2540), _iron("hanger")) for side in (-330, 330)),
        Block((x - 380, x + 380), (y - 300, y + 300), (1390, 1424), rail("pan", (120, 92, 60))),
    )


IN_THE_HALL = (
    *_scale(1950, 2000),
    *_scale(3850, 2000),
    Block((2885, 2915), (1990, 2020), (2600, 4080), _iron("hanger")),
    Block((1900, 3900), (1980, 2030), (2530, 2610), _iron("beam")),
    Block((4500, 4720), (3080, 3300), (0, 4080), _iron("R1-C")),
    Block((4440, 4780), (3020, 3360), (-10, 150), _iron("plinth")),
)


LOOKS: Mapping[str, Look] = {
    "R1-N": Look(
        bands(stone("R1-N", 0.7), (1180, boarded("R1-N"))),
        (2600, 4600, 3300),
        (
            marks.tone(0, 1180, 9178, 1700, 0.86, 300),
            marks.stain(320, 1230, 1600, 560, "salts", (234, 232, 226), 0.8),
            marks.inscription(860, 2210, 2480, 780, ("ALL GOODS", "TO THE BEAM")),
            marks.crack(((5310, 2920), (5560, 3200), (5830, 3560), (6170, 4020)), 12, "R1-N"),
            marks.conduit(8850, 1190, 4080, 34),
            marks.strokes(_TALLIES, 5, (168, 158, 134, 230)),
            marks.stop(3620, 3120, 16, (66, 50, 42)),
        ),
        (openings.window((3900, 5300), (1350, 2950), 420),),
        (
            *dado(9178, 1180, -30),
            *openings.ledged_leaf(690, (1360, 2940), (-38, -6), (3900, 14), 172, (104, 114, 98)),
            *openings.ledged_leaf(690, (1360, 2940), (6, 38), (5300, 14), 8, (104, 114, 98)),
            openings.knob(630, 2100, (-34, 6), (5300, 14), 8),
            *beams(0, 9178, (3800, 4080), 6300, 2290),
        ),
        _HALL | {"left": stone("R1-W", 0.75), "right": stone("R1-E", 0.7)},
        6400,
    ),
    "R1-E": Look(
        stone("R1-E", 0.68),
        (4000, 2400, 2300),
        (
            marks.strokes(_SHIP, 7, (112, 102, 86, 205)),
            marks.tone(0, -20, 6405, 500, 0.8, 260),
            marks.tone(2560, 2330, 3050, 2630, 0.84, 60, (104, 62, 36)),
            *(marks.stop(x, z, 7, (52, 46, 40)) for x, z in ((2240, 1472), (2738, 1474), (2244, 2066), (2741, 2062))),
        ),
        (openings.quay_doorway((3050, 4950), (0, 2500), 560),),
        (
            *openings.ledged_leaf(945, (10, 2480), (-62, -8), (3050, 15), 118, (72, 92, 98)),
            openings.knob(835, 1080, (-8, 52), (3050, 15), 118),
            *openings.ledged_leaf(945, (10, 2480), (8, 62), (4950, 15), 176, (72, 92, 98)),
            *beams(-200, 6605, (3800, 4080), 6300, 2270),
        ),
        _HALL | {"left": _HALL_NORTH, "right": bricks("R1-S")},
        9100,
    ),
    "R1-S": Look(
        bricks("R1-S"),
        (2600, 5200, 3200),
        (
            marks.tone(0, 3650, 9205, 4080, 0.8, 120),
            marks.tone(0, -25, 9205, 380, 0.82, 220),
            marks.conduit(4390, 1250, 4080, 20, (188, 184, 172)),
            cards.card(4350, 1180, 80, 120, ("",), (214, 210, 198)),
        ),
        (openings.dark_doorway((7200, 8150), (-25, 2080), 110),),
        (*framed((7200, 8150), 2080, -25, "architrave", (150, 146, 130)), *beams(0, 9205, (3800, 4080), 6300, 2290)),
        _HALL | {"left": stone("R1-E", 0.7), "right": stone("R1-W", 0.75)},
        6400,
    ),
    "R1-C": Look(
        _column_iron,
        (-1900, 2600, 2600),
        (
            marks.stain(-80, 250, 160, 450, "flakes", (120, 76, 50), 1.0),
            marks.written(-50, 1210, 46, ("No 2",), (128, 132, 128, 255)),
        ),
        (),
        (Block((-150, 150), (-190, 44), (-150, 0), lambda patch: joinery.iron(patch, "plinth", (60, 66, 64), 0.6)),),
        {},
        3000,
        _AROUND_COLUMN,
        4200,
    ),
}  # fmt: skip
