"""The faces of the clerks’ office and the stair passage as found; the measures are those of the survey."""

from __future__ import annotations

from collections.abc import Mapping

from . import cards, marks, openings
from .look import (
    BUFF,
    Look,
    bands,
    boarded,
    boards_above,
    bricks,
    flagged,
    floor_at,
    framed,
    lime,
    planked,
    rail,
    side_at,
    slate,
    wall_at,
)
from .scene import Surface, rectangle
from .solids import ALONG, OUT, Block

_OFFICE = {"floor": planked("office"), "ceiling": lime("office ceiling", (218, 214, 204), 0.2)}
_PASSAGE = {"floor": flagged("passage"), "ceiling": boards_above("passage", (168, 164, 148))}
_HOLLOW = (
    *((3990, 1330), (4290, 1210), (4590, 1330), (4660, 1620)),
    *((4460, 1850), (4120, 1830), (3950, 1600), (3990, 1330)),
)  # chalked round the hollow plaster, as the zone K13 has it
_LOOSE = ((1400, 1480), (1660, 1440), (1760, 1700), (1690, 1960), (1400, 1900), (1400, 1480))
_COATS = (
    *((198, 190, 168), (122, 132, 110), (172, 146, 108), (96, 108, 120), (188, 170, 140)),
    *((150, 96, 74), (206, 202, 190), (134, 128, 116), (176, 166, 142), (110, 120, 100)),
)
_SUMS = (
    "3 tun  14 cwt  2",
    "2     7     1",
    "11    19    0",
    "17    1     3",
    "High 4.20  low 10.35",
    "High 5.05  low 11.10",
)
_BORDER = tuple(
    line
    for n in range(66)
    for line in (
        ((n * 80 + 8, 2600), (n * 80 + 40, 2660), (n * 80 + 72, 2600)),
        ((n * 80 + 24, 2600), (n * 80 + 40, 2628), (n * 80 + 56, 2600)),
    )
) + (((0, 2580), (5216, 2580)), ((0, 2682), (5216, 2682)))
_OFFICE_SOUTH = bands(lime("R2-S wall", (200, 192, 170), 0.4), (1250, boarded("R2-S", (118, 102, 78))))
_AROUND_BREAST = (
    floor_at(planked("office"), -8, (-1700, 3500), (-385, 4200)),
    wall_at(_OFFICE_SOUTH, -385, (-1700, 3500), (-8, 2920)),
    side_at(lime("R2-E"), -1700, (-385, 4200), (-8, 2920)),
    side_at(lime("R2-W"), 3500, (-385, 4200), (-8, 2920)),
    Surface(
        (0, 0, 2920),
        ALONG,
        OUT,
        rectangle(-1700, -385, 3500, 4200),
        lime("office ceiling", (218, 214, 204), 0.2),
        (0, 0, -1),
    ),
)


LOOKS: Mapping[str, Look] = {
    "R2-N": Look(
        lime("R2-N", (206, 198, 176), 0.35),
        (1700, 3400, 2500),
        (
            marks.strokes(_BORDER, 9, (116, 60, 46, 190)),
            marks.strokes((_HOLLOW,), 5, (246, 246, 240, 210)),
            marks.crack(((4520, 1240), (4630, 1500), (4600, 1780)), 2.4, "hollow"),
        ),
        (openings.window((1900, 3300), (950, 2450), 180, 4, 4, 38),),
        (
            Block((1780, 1900), (0, 28), (930, 2560), rail("architrave", (188, 182, 162))),
            Block((3300, 3420), (0, 28), (930, 2560), rail("architrave", (188, 182, 162))),
            Block((1780, 3420), (0, 30), (2450, 2560), rail("head", (188, 182, 162))),
            Block((1740, 3460), (0, 90), (915, 950), rail("board", (186, 180, 160))),
            Block((3612, 3834), (0, 28), (1640, 2020), rail("lamp board", (176, 168, 146))),
            Block((0, 5216), (0, 20), (-15, 190), rail("skirting", (120, 112, 92))),
        ),
        _OFFICE | {"left": bands(lime("R2-W"), (1250, boarded("R2-W", (112, 96, 74)))), "right": lime("R2-E")},
        4380,
    ),
    "R2-W": Look(
        bands(lime("R2-W", (206, 198, 176)), (1250, boarded("R2-W", (118, 102, 78), 148, 0.7))),
        (4200, 2500, 2100),
        (
            marks.written(650, 1050, 44, _SUMS, (58, 54, 50, 200)),
            *(marks.stop(x, z, 3.5, (40, 32, 24)) for x, z in ((1962, 1096), (2344, 1098), (2690, 1094), (3040, 1097))),
            marks.stop(412, 205, 4, (60, 54, 48)),
        ),
        (openings.dark_doorway((3320, 4160), (-10, 2010), 90, 64),),
        (
            Block((0, 3240), (0, 16), (-10, 170), rail("skirting", (96, 82, 62))),
            Block((0, 3240), (0, 34), (1216, 1250), rail("capping", (126, 110, 84))),
            *framed((3320, 4160), 2010, -10, "architrave", (150, 138, 110)),
            *openings.ledged_leaf(812, (5, 2000), (-50, -8), (3320, 12), 62, (122, 108, 84)),
        ),
        _OFFICE | {"left": lime("R2-S"), "right": lime("R2-N", (206, 198, 176))},
        5200,
    ),
    "R2-S": Look(
        lime("R2-S", (204, 196, 174), 0.4),
        (2800, 2600, 2300),
        (
            marks.tone(300, 980, 1510, 1900, 0.8, 240, (60, 48, 36)),
            marks.crack(((1420, 1500), (1400, 1700), (1470, 1890)), 2, "breast"),
            marks.strokes((_LOOSE,), 4, (246, 246, 240, 170)),
            marks.stop(470, 2060, 9, (60, 54, 50)),
            marks.stop(1330, 2064, 9, (60, 54, 50)),
        ),
        (openings.hearth((455, 1355), (-8, 980), 420),),
        (
            Block((300, 455), (0, 40), (-8, 1130), slate("mantel")),
            Block((1355, 1510), (0, 40), (-8, 1130), slate("mantel")),
            Block((300, 1510), (0, 44), (980, 1180), slate("mantel")),
            Block((150, 1660), (0, 190), (1180, 1240), lime("marbled", (78, 76, 76), 0.6)),
        ),
        {},
        4200,
        _AROUND_BREAST,
        1700,
    ),
    "R3-W": Look(
        lime("R3-W", (204, 200, 186), 0.5),
        (400, 1700, 2500),
        (
            marks.tone(0, -12, 4860, 420, 0.8, 260),
            *(
                cards.card(2090 + 31 * step, 1400, 29, 300, ("",), paint)
                for step, paint in enumerate(_COATS)
            ),
            marks.tone(3980, -12, 4070, 2760, 0.93, 30),
            marks.stop(1240, 980, 16, (74, 58, 48)),
        ),
        (),
        (),
        _PASSAGE | {"left": lime("R3-S"), "right": lime("R3-N"), "opposite": bricks("R3-E", BUFF)},
        1738,
    ),
    "R3-E": Look(
        bricks("R3-E", BUFF),
        (4200, 1650, 2500),
        (marks.tone(0, -12, 4852, 420, 0.82, 240), cards.card(1640, 180, 86, 86, ("",), (222, 220, 212))),
        (openings.dark_doorway((3600, 4480), (-12, 2040), 100, 70),),
        framed((3600, 4480), 2040, -12, "architrave", (150, 146, 130)),
        _PASSAGE | {"left": lime("R3-N"), "right": lime("R3-S"), "opposite": lime("R3-W", (204, 200, 186), 0.5)},
        1740,
    ),
}  # fmt: skip
