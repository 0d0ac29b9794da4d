"""Which photographs were taken, from where, of what."""

from __future__ import annotations

from dataclasses import dataclass

from .. import rooms
from ..booking import Values
from ..watched import moment
from . import cards, marks
from .camera import Camera, Point
from .hall_looks import IN_THE_HALL
from .shadows import Mark
from .solids import Block

FACES: dict[str, Values] = {face["mark"]: face for face in rooms.FACES}
FITTINGS: dict[str, Values] = {fitting["mark"]: fitting for fitting in rooms.FITTINGS}
FIXINGS: dict[str, list[Values]] = {
    mark: [fixing for fixing in rooms.FIXINGS if fixing["fitting"] == mark] for mark in FITTINGS
}
FITTER, ADVISER = "fitter", "conservation adviser"


@dataclass(frozen=True)
class Shot:
    """One photograph.

    name      what the code calls it
    face      face in whose axes the camera stands; `subject` is the mark of what it is a photograph of
    day, clock  when it was taken
    up        marks of the fittings that were up
    targets   survey targets on the face, (x, z) in mm; `card_mm` is the side of their cards
    marks     what is on the face that day only, and `things` what stands in the room
    light_at  where the light comes from, if not as the face's look has it
    """

    name: str
    face: str
    subject: str
    purpose: str
    caption: str
    day: str
    clock: str
    camera: Camera
    up: tuple[str, ...] = ()
    targets: tuple[tuple[float, float], ...] = ()
    card_mm: float = 90
    marks: tuple[Mark, ...] = ()
    things: tuple[Block, ...] = ()
    by: str = FITTER
    at: tuple[float, float] | None = None
    light_at: Point | None = None
    light_share: float = 0.6

    def values(self) -> Values:
        """The fields of the photograph's entry that do not come from its bytes."""
        told = f" Targets at x z: {', '.join(f'{x:g} {z:g}' for x, z in self.targets)}." if self.targets else ""
        place = {"x_mm": self.at[0], "z_mm": self.at[1]} if self.at else {}
        return place | {
            "subject": self.subject,
            "purpose": self.purpose,
            "caption": self.caption + told,
            "taken_at": moment(self.day, self.clock),
            "taken_by": self.by,
        }


def _square(left: float, bottom: float, right: float, top: float) -> tuple[tuple[float, float], ...]:
    """Four targets, from the lower left round against the clock."""
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def _datum(mark: str, x: float, z: float, width: float = 190, height: float = 90) -> tuple[Mark, ...]:
    """The card that says which datum it is, and the point itself."""
    return (cards.card(x, z, width, height, (mark,)),)


SURVEY_1, SURVEY_2, SURVEY_3 = "2025-03-11", "2025-03-12", "2025-03-13"
FITTING_1, FITTING_2, INSPECTION, REMOVAL = "2025-05-06", "2025-05-07", "2025-10-14", "2026-02-10"

_POINTED = ((1605, 1134), (2280, 1166))

SHOTS: tuple[Shot, ...] = (
    Shot(
        "hall", "R1-N", "R1", "as found", "Weighing hall from the partition, towards the water", SURVEY_1, "10:05",
        Camera((3300, 6200, 1640), (4450, 0, 1760), 1040, 0.3), things=IN_THE_HALL, light_share=0.62,
    ),
    Shot(
        "r1-n-datum", "R1-N", "R1-N", "datum", "Bronze stud in the north-west corner.", SURVEY_1, "10:20",
        Camera((1150, 2300, 1330), (780, 0, 1080), 1250, -0.6), targets=_square(250, 480, 1450, 1650),
        marks=(*_datum("R1-N", 40, 830), marks.stop(8, 1000, 9, (150, 118, 62))), at=(0, 1000),
    ),
    Shot(
        "inscription", "R1-N", "K1", "evidence", "The inscription in raking light.", SURVEY_1, "10:34",
        Camera((1500, 2900, 1750), (2080, 0, 2480), 1250, 0.8), targets=_square(700, 1980, 3120, 3120), card_mm=130,
        by=ADVISER, at=(2100, 2600), light_at=(-900, 900, 2900), light_share=0.72,
    ),
    Shot(
        "crack", "R1-N", "K2", "evidence", "Crack from the window head to the boards.", SURVEY_1, "10:48",
        Camera((5100, 2700, 2050), (5760, 0, 3250), 1250, -0.9),
        targets=((6140, 2450), (6800, 2450), (6800, 3600), (5150, 3500)),
        at=(5700, 3400),
    ),
    Shot(
        "conduit", "R1-N", "K3", "evidence", "Conduit to the quay lamp, beside the east corner.", SURVEY_1, "10:58",
        Camera((7750, 2500, 1800), (8560, 0, 2050), 1250, 0.4), targets=_square(7700, 1350, 8640, 2700), card_mm=90,
    ),
    Shot(
        "r1-e-datum", "R1-E", "R1-E", "datum", "Cross on the iron of the left pintle.", SURVEY_1, "11:10",
        Camera((1900, 2500, 1500), (2260, 0, 1450), 1250, 0.5), targets=_square(1700, 700, 2900, 2050),
        marks=(*_datum("R1-E", 2780, 1350, 200, 90),), at=(3050, 1400),
    ),
    Shot(
        "ship", "R1-E", "K7", "evidence", "The scratched ship.", SURVEY_1, "11:16",
        Camera((1500, 2000, 1500), (1100, 0, 1610), 1250, -0.4), targets=_square(520, 1120, 1720, 2100),
        by=ADVISER, at=(1100, 1600), light_at=(-1200, 900, 2500), light_share=0.7,
    ),
    Shot(
        "quay-doors", "R1-E", "L1", "as found", "Left quay door on its way to the hook.", SURVEY_1, "11:24",
        Camera((2300, 5200, 1620), (3250, 0, 1500), 1150, 0.2), light_share=0.5,
    ),
    Shot(
        "r1-c-datum", "R1-C", "R1-C", "datum", "Column 2, top of the plinth.", SURVEY_1, "11:38",
        Camera((330, 1750, 1150), (20, 0, 720), 1250, 0.5),
        targets=_square(-50, 190, 50, 1080), card_mm=56, marks=(cards.card(-60, 12, 120, 56, ("R1-C",)),),
    ),
    Shot(
        "r1-s-datum", "R1-S", "R1-S", "datum", "Scratched cross over the ninth course.", SURVEY_2, "09:15",
        Camera((1150, 2350, 1300), (760, 0, 900), 1250, -0.5), targets=_square(260, 320, 1400, 1480),
        marks=(
            *_datum("R1-S", 60, 700),
            marks.strokes((((-0, 675), (40, 675)), ((20, 655), (20, 695))), 3, (236, 232, 222, 255)),
        ), at=(0, 675),
    ),
    Shot(
        "office", "R2-N", "R2", "as found", "Clerks’ office, window wall.", SURVEY_2, "09:35",
        Camera((2200, 4150, 1560), (2750, 0, 1430), 1080, 0.3), light_share=0.5,
    ),
    Shot(
        "r2-n-datum", "R2-N", "R2-N", "datum", "Tack under the window board.", SURVEY_2, "09:42",
        Camera((1400, 2000, 1150), (1300, 0, 880), 1250, 0.7), targets=_square(500, 380, 1620, 1420),
        marks=(cards.card(1560, 860, 170, 80, ("R2-N",)), marks.stop(1900, 900, 6, (190, 160, 84))), at=(1900, 950),
    ),
    Shot(
        "hollow-plaster", "R2-N", "K13", "evidence", "Hollow plaster, chalked round.", SURVEY_2, "09:52",
        Camera((4950, 2000, 1700), (4350, 0, 1540), 1250, -0.6), targets=_square(3700, 1020, 4880, 2060),
        by=ADVISER, light_at=(1500, 700, 1900), light_share=0.7, at=(4300, 1500),
    ),
    Shot(
        "r2-s-datum", "R2-S", "R2-S", "datum", "Left arris of the breast at the mantelshelf.", SURVEY_2, "10:02",
        Camera((700, 3000, 1500), (860, 0, 1330), 1250, -0.4), targets=_square(120, 1420, 1300, 2240), card_mm=90,
        marks=(cards.card(20, 1262, 170, 80, ("R2-S",)),), at=(0, 1240),
    ),
    Shot(
        "r2-w-datum", "R2-W", "R2-W", "datum", "Nail in the third board.", SURVEY_2, "10:18",
        Camera((1000, 2200, 1000), (820, 0, 660), 1250, 0.6), targets=_square(200, 320, 1560, 1130),
        marks=(cards.card(440, 210, 170, 80, ("R2-W",)),), at=(412, 205),
    ),
    Shot(
        "sums", "R2-W", "K14", "evidence", "Sums and tides in pencil on the dado.", SURVEY_2, "10:24",
        Camera((780, 1150, 1080), (980, 0, 900), 1250, -0.5), targets=_square(580, 640, 1400, 1160), card_mm=60,
        at=(1000, 900), light_at=(-600, 900, 1900), light_share=0.55,
    ),
    Shot(
        "r3-w-datum", "R3-W", "R3-W", "datum", "Mason’s mark on the quoin.", SURVEY_2, "13:30",
        Camera((950, 1640, 1250), (760, 0, 1080), 1150, 0.4), targets=_square(220, 560, 1300, 1600),
        marks=(
            *_datum("R3-W", 60, 1010),
            marks.strokes((((30, 1150), (60, 1210), (90, 1150)), ((44, 1178), (76, 1178))), 4, (98, 92, 82, 230)),
        ), at=(0, 1150),
    ),
    Shot(
        "passage", "R3-W", "R3", "as found", "Stair passage, old wall, towards the stair.", SURVEY_2, "13:38",
        Camera((400, 1250, 1600), (3400, 0, 1300), 1000, 0.4), light_share=0.5,
    ),
    Shot(
        "paint-ladder", "R3-W", "K19", "evidence", "Ladder of paint layers.", SURVEY_2, "13:46",
        Camera((2450, 1250, 1500), (2250, 0, 1550), 1250, 0.5), targets=_square(1920, 1220, 2560, 1860), card_mm=60,
        by=ADVISER,
    ),
    Shot(
        "r3-e-datum", "R3-E", "R3-E", "datum", "Chipped corner of a brick beside the stair door.", SURVEY_2, "14:20",
        Camera((900, 1640, 1250), (720, 0, 1000), 1150, -0.5), targets=_square(220, 480, 1300, 1540),
        marks=_datum("R3-E", 50, 860), at=(0, 900),
    ),
    Shot(
        "r4-n-datum", "R4-N", "R4-N", "datum", "Lead plug in the third joint.", SURVEY_3, "10:10",
        Camera((1500, 2300, 1150), (1250, 0, 820), 1250, 0.6), targets=_square(560, 460, 1960, 1380),
        marks=(cards.card(1250, 540, 190, 86, ("R4-N",)),), at=(1220, 626),
    ),
    Shot(
        "store", "R4-N", "R4", "as found", "Bonded store, north wall and window.", SURVEY_3, "10:14",
        Camera((2500, 4000, 1520), (3350, 0, 1230), 1080, -0.3), light_at=(5000, 1500, 1900), light_share=0.7,
    ),
    Shot(
        "r4-e-datum", "R4-E", "R4-E", "datum", "Upper pintle of the gate.", SURVEY_3, "11:05",
        Camera((3100, 2500, 1650), (2960, 0, 1600), 1250, 0.4), targets=_square(2760, 900, 3900, 2140), card_mm=90,
        marks=(cards.card(2560, 1890, 170, 80, ("R4-E",)),), at=(2520, 1930),
    ),
    Shot(
        "gate", "R4-E", "L10", "as found", "The gate half open.", SURVEY_3, "11:12",
        Camera((1500, 3900, 1500), (2350, 0, 1180), 1150, 0.3), light_share=0.66,
    ),
    Shot(
        "r4-r-datum", "R4-R", "R4-R", "datum", "Inner arris of the reveal at the sill, with the cask marks.",
        SURVEY_3, "11:30",
        Camera((200, 735, 1420), (290, 0, 1395), 820, 0.6), targets=_square(60, 1040, 500, 1780), card_mm=52,
        marks=(cards.card(8, 906, 88, 40, ("R4-R",)),), at=(0, 900),
    ),
    Shot(
        "frame-up", "R1-N", "D1", "as fitted", "Hanging frame with the panel on the beam.", FITTING_1, "15:40",
        Camera((6100, 4600, 1620), (7050, 0, 1280), 1250, 0.2), up=("D1", "D2"),
    ),
    Shot(
        "clamp", "R1-N", "D1.2", "as fitted", "Clamp on the capping, felt and cork under the jaw.", FITTING_1, "15:48",
        Camera((6720, 640, 1400), (6920, 40, 1160), 1350, -0.8), up=("D1", "D2"), at=(6911, 1166),
    ),
    Shot(
        "case-up", "R1-S", "D4", "as fitted", "Case for seals and weights.", FITTING_1, "16:05",
        Camera((3150, 2100, 1560), (3740, 0, 1330), 1250, -0.3), up=("D4",),
    ),
    Shot(
        "sign-up", "R1-C", "D5", "as fitted", "Sign strapped to column 2.", FITTING_1, "16:20",
        Camera((-420, 1500, 1700), (0, 0, 1700), 1250, 0.5), up=("D5",),
    ),
    Shot(
        "lamp-up", "R2-N", "D7", "as fitted", "Reading lamp clamped to the old lamp board.", FITTING_2, "10:30",
        Camera((3050, 1350, 1750), (3680, 0, 1760), 1250, 0.4), up=("D7",),
    ),
    Shot(
        "rack-up", "R2-W", "D8", "as fitted", "Letter rack in the old shelf’s holes.", FITTING_2, "11:50",
        Camera((1900, 2600, 1420), (2380, 0, 830), 1250, -0.4), up=("D8",),
    ),
    Shot(
        "channel-up", "R3-E", "D10", "at work", "Lead channel on its pads, before the plan covers it.",
        FITTING_2, "13:20",
        Camera((1200, 1640, 1350), (1680, 0, 1150), 1000, 0.5), up=("D10",),
    ),
    Shot(
        "plan-up", "R3-E", "D11", "as fitted", "Plan of the quay, over the lead channel.", FITTING_2, "14:40",
        Camera((1350, 1660, 1480), (1690, 0, 1330), 1000, 0.3), up=("D10", "D11"),
    ),
    Shot(
        "chart-up", "R2-S", "D9", "as fitted", "Chart on the two old hooks.", FITTING_2, "15:30",
        Camera((1250, 2500, 1620), (900, 0, 1560), 1250, 0.4), up=("D9",),
    ),
    Shot(
        "shelf-up", "R4-N", "D13", "as fitted", "Trial shelf with gauging tools.", FITTING_2, "16:40",
        Camera((1500, 1900, 1500), (1950, 0, 1260), 1250, -0.5), up=("D13",),
    ),
    Shot(
        "pad-too-near", "R2-S", "D9.6", "evidence", "Right middle pad: nearer to the loose plaster than planned.",
        INSPECTION, "12:04", Camera((1640, 400, 1800), (1378, 0, 1712), 1500, 0.6), up=("D9",), at=(1342, 1718),
    ),
    Shot(
        "shelf-down", "R4-N", "D13", "after removal", "Where the shelf was: two joints pointed, peg holes open.",
        REMOVAL, "15:05",
        Camera((1500, 1900, 1500), (1950, 0, 1260), 1250, -0.5), targets=_square(1340, 960, 2580, 1600), card_mm=80,
        marks=tuple(marks.stain(x - 55, z - 22, 110, 44, f"pointed {x}", (224, 216, 198)) for x, z in _POINTED),
    ),
)  # fmt: skip
