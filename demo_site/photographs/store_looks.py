"""The faces of the bonded store as found; the measures are those of the survey."""

from __future__ import annotations

from collections.abc import Mapping

from . import cards, marks, masonry, openings
from .look import Look, beams, boards_above, bricks, flagged, stone
from .scene import Surface, rectangle
from .solids import ALONG, OUT, UP

_STORE = {"floor": flagged("store"), "ceiling": boards_above("store", (96, 84, 66))}
_CASKS = (
    ((130, 1180), (180, 1330), (230, 1180)),
    ((150, 1240), (210, 1240)),
    ((270, 1190), (270, 1330), (360, 1260), (270, 1190)),
    ((140, 1400), (210, 1500), (280, 1400), (210, 1450), (140, 1400)),
    ((330, 1390), (330, 1510), (400, 1450)),
    ((330, 1450), (420, 1390)),
)
_STORE_WINDOW = (
    Surface(
        (560, 0, 0),
        OUT,
        UP,
        rectangle(0, 900, 760, 2000),
        openings.daylight((0, 760), (900, 2000), 3, 4),
        (-1, 0, 0),
        glows=True,
    ),
    Surface((0, 0, 0), OUT, UP, rectangle(0, 0, 760, 2640), lambda patch: patch.blank((70, 68, 64)), ALONG),
)


LOOKS: Mapping[str, Look] = {
    "R4-N": Look(
        stone("R4-N"),
        (4700, 2400, 2000),
        (
            marks.tone(0, -35, 6050, 410, 0.66, 90),
            marks.stain(0, 240, 6050, 230, "salts R4", (206, 202, 190), 0.75),
            marks.stop(1500, 1420, 9, (34, 30, 26)),
            marks.stop(2334, 1499, 9, (34, 30, 26)),
            marks.stop(1220, 626, 12, (132, 134, 136)),
            marks.crack(((3960, 1300), (4220, 1260), (4560, 1420), (4650, 1760)), 7, "bulge"),
        ),
        (openings.window((4960, 5720), (900, 2000), 560, 3, 4, 20),),
        beams(0, 6050, (2310, 2640), 4100, 1500),
        _STORE | {"left": stone("R4-W"), "right": bricks("R4-E")},
        4180,
    ),
    "R4-E": Look(
        bricks("R4-E"),
        (700, 2200, 1900),
        (
            marks.tone(0, -30, 4180, 600, 0.7, 260),
            marks.stain(0, 80, 4180, 420, "salts E", (206, 200, 188), 0.6),
            marks.stop(3420, 1980, 45, (62, 52, 46)),
            *(cards.card(2440, z, 230, 290, ("",), (134, 128, 118)) for z in (320, 1780)),
        ),
        (openings.dark_doorway((1500, 2500), (-30, 2100), 340, 40),),
        (
            *openings.gate((0, 980), (20, 2080), (2520, 30), 128),
            *beams(-300, 4480, (2310, 2640), 6000, 1500),
        ),
        _STORE | {"left": stone("R4-N"), "right": stone("R4-S")},
        6000,
    ),
    "R4-R": Look(
        lambda patch: masonry.plaster(patch, "R4-R", (168, 162, 148), 0.8),
        (520, 700, 1500),
        (marks.strokes(_CASKS, 8, (92, 84, 72, 235)), marks.tone(0, 900, 560, 1040, 0.8, 90)),
        (),
        (),
        {
            "floor": lambda patch: masonry.plaster(patch, "sill", (150, 144, 132), 0.8),
            "ceiling": lambda patch: masonry.plaster(patch, "lintel", (140, 134, 122), 0.6),
        },
        760,
        _STORE_WINDOW,
    ),
}  # fmt: skip
