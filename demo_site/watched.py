"""What was measured and seen over the first year: readings and observations."""

from __future__ import annotations

import math
from datetime import date, timedelta
from random import Random

from .booking import Values

FIRST_DAY = date(2025, 3, 17)
WEEKS = 53
SUMMER_TIME = ("2025-03-30", "2025-10-26"), ("2026-03-29", "2026-10-25")
LOGGERS = {
    "R1": "Logger 1, on the beam’s rail, 1.6 m up",
    "R2": "Logger 2, on the cupboard, away from the radiator",
    "R4": "Logger 3, on the cask rack, 1.2 m up",
}


def moment(day: str, clock: str) -> str:
    """A day and a time on the quay, with the offset from universal time that held then."""
    summer = any(start <= day < end for start, end in SUMMER_TIME)
    return f"{day}T{clock}:00+0{int(summer)}:00"


def climate() -> list[Values]:
    """Temperature and relative humidity at three loggers, one reading a week for a year.

    The air outside follows the year with the weather on top; each room takes that air in, damped by
    its walls, and adds its own moisture. So the figures hang together as a real year’s do.
    """
    chance = Random("Marrow Quay")  # noqa: S311
    readings = []
    for week in range(WEEKS):
        day = FIRST_DAY + timedelta(days=7 * week)
        into_year = day.timetuple().tm_yday
        weather = chance.gauss(0, 1.5)
        winter = math.cos(2 * math.pi * (into_year - 25) / 365)
        outside_c = 10.2 - 6.3 * winter + weather
        vapour_hpa = _saturated_hpa(outside_c - 3.6 + 1.6 * winter + chance.gauss(0, 0.7))
        slow_c = 10.4 - 4.3 * math.cos(2 * math.pi * (into_year - 58) / 365) + 0.2 * weather
        rooms = {
            "R1": (0.75 * outside_c + 0.25 * slow_c + 1.4, vapour_hpa + 0.4),
            "R2": (max(0.5 * outside_c + 0.5 * slow_c + 6.0, 14.5) + chance.gauss(0, 0.4), vapour_hpa + 0.4),
            "R4": (slow_c, min(vapour_hpa + 1.2, (0.93 + chance.gauss(0, 0.015)) * _saturated_hpa(slow_c))),
        }
        for room, (air_c, inside_hpa) in rooms.items():
            humidity = 100 * inside_hpa / _saturated_hpa(air_c)
            logged = {"room": room, "at": moment(day.isoformat(), "09:00"), "instrument": LOGGERS[room]}
            taken = logged | {"taken_by": "volunteer"}
            readings.append(
                taken | {"quantity": "air temperature", "value": round(air_c, 1), "unit": "°C", "uncertainty": 0.4}
            )
            readings.append(
                taken | {"quantity": "relative humidity", "value": round(humidity), "unit": "%", "uncertainty": 3}
            )
    return readings


def _saturated_hpa(air_c: float) -> float:
    """Saturation pressure over water, Magnus form with the constants of WMO-No. 8."""
    return 6.112 * math.exp(17.62 * air_c / (243.12 + air_c))


def _at_places(quantity: str, unit: str, shared: Values, *places: tuple) -> list[Values]:
    return [
        shared | {"quantity": quantity, "unit": unit, "x_mm": x, "z_mm": z, "value": value} for x, z, value in places
    ]


_LEVEL: Values = {"instrument": "rotating laser and staff", "uncertainty": 1, "taken_by": "fitter"}
_PINS: Values = {"instrument": "pin meter, set to softwood", "uncertainty": 1.5, "taken_by": "fitter"}
_LUX: Values = {"instrument": "lux meter, flat on the face", "uncertainty": 5, "taken_by": "conservation adviser"}

_UV: Values = {"instrument": "ultraviolet meter", "uncertainty": 10, "taken_by": "conservation adviser"}
_HYGROMETER: Values = {"instrument": "hand-held hygrometer", "uncertainty": 3, "taken_by": "fitter"}

SPOT_READINGS: tuple[Values, ...] = (
    *_at_places(
        "level", "mm", _LEVEL | {"room": "R1", "face": "R1-N", "at": moment("2025-03-11", "11:20")},
        (0, -4, 1504), (1500, -9, 1509), (3000, -16, 1516), (4500, -22, 1522), (6000, -18, 1518), (7500, -8, 1508),
        (9178, 6, 1494),
    ),
    *_at_places(
        "level", "mm", _LEVEL | {"room": "R3", "face": "R3-W", "at": moment("2025-03-12", "14:05")},
        (0, -12, 1512), (1600, -7, 1507), (3200, -1, 1501), (4860, 2, 1498),
    ),
    *_at_places(
        "wood moisture content", "% moisture content",
        _PINS | {"room": "R1", "face": "R1-N", "at": moment("2025-03-11", "12:10")},
        (600, 400, 17.5), (2600, 400, 16.8), (6100, 400, 15.2), (8600, 400, 15.9), (6050, 1165, 14.8),
    ),
    *_at_places(
        "wood moisture content", "% moisture content",
        _PINS | {"room": "R2", "face": "R2-W", "at": moment("2025-03-12", "10:15")},
        (400, 300, 14.1), (2000, 300, 12.9), (3000, 1000, 12.2),
    ),
    *_at_places(
        "damp meter units", "meter units",
        {"instrument": "pin meter, comparing only", "taken_by": "fitter", "room": "R4", "face": "R4-N"}
        | {"at": moment("2025-03-13", "10:40")},
        (500, 150, 88), (500, 400, 71), (500, 800, 34), (3000, 150, 93), (3000, 400, 76), (3000, 800, 41),
    ),
    *_at_places(
        "illuminance", "lx", _LUX | {"room": "R1", "face": "R1-N", "at": moment("2025-05-06", "12:00")},
        (2100, 2600, 86), (6685, 1600, 142), (7890, 1600, 118),
    ),
    *_at_places(
        "illuminance", "lx", _LUX | {"room": "R2", "face": "R2-W", "at": moment("2025-05-07", "12:30")},
        (1000, 900, 124), (2500, 900, 96),
    ),
    *_at_places(
        "ultraviolet", "µW/lm", _LUX | {"room": "R2", "face": "R2-W", "at": moment("2025-05-07", "12:35")}
        | {"instrument": "ultraviolet meter", "note": "Window film put up in 2024 still works."},
        (1000, 900, 22),
    ),
    *(
        {"room": room, "quantity": quantity, "unit": unit, "value": value, "at": at} | meter
        for quantity, unit, meter, figures in (
            ("illuminance", "lx", _LUX, (("R3", 64), ("R4", 38))),
            ("ultraviolet", "µW/lm", _UV, (("R1", 160), ("R3", 120), ("R4", 45))),
        )
        for room, value in figures
        for at in (moment("2025-05-07", "12:50"),)
    ),
    *(
        {"room": "R3", "quantity": quantity, "unit": unit, "value": value, "at": moment(day, "10:30")} | _HYGROMETER
        for day, air_c, humidity in (("2025-07-14", 18.2, 66), ("2026-01-19", 7.4, 71))
        for quantity, unit, value in (("air temperature", "°C", air_c), ("relative humidity", "%", humidity))
    ),
    *_at_places(
        "surface temperature", "°C",
        {"instrument": "infra-red thermometer", "uncertainty": 1, "taken_by": "fitter", "room": "R2", "face": "R2-N"}
        | {"at": moment("2026-01-19", "09:10")},
        (3720, 1830, 13.1),
    ),
    *_at_places(
        "surface temperature", "°C",
        {"instrument": "infra-red thermometer", "uncertainty": 1, "taken_by": "fitter", "room": "R4", "face": "R4-N"}
        | {"at": moment("2025-03-13", "10:50")},
        (3000, 200, 6.4), (3000, 1400, 7.1), (3000, 2200, 7.8),
    ),
    *_at_places(
        "pull", "N",
        {"instrument": "spring balance, 500 N", "uncertainty": 10, "taken_by": "fitter", "room": "R2", "face": "R2-S"}
        | {"at": moment("2025-05-07", "15:20"), "note": "Held a minute; nothing moved."},
        (470, 2060, 240), (1330, 2064, 240),
    ),
    {"room": "R4", "quantity": "air temperature", "value": 7.6, "unit": "°C", "at": moment("2025-03-13", "10:45"),
     "instrument": "hand-held hygrometer", "uncertainty": 0.5, "taken_by": "fitter"},
    {"room": "R4", "quantity": "relative humidity", "value": 76, "unit": "%", "at": moment("2025-03-13", "10:45"),
     "instrument": "hand-held hygrometer", "uncertainty": 3, "taken_by": "fitter"},
    {"room": "R1", "quantity": "mass", "value": 15.8, "unit": "kg", "at": moment("2025-05-06", "09:10"),
     "instrument": "hanging scale", "uncertainty": 0.1, "taken_by": "fitter", "note": "D4, empty."},
    {"room": "R1", "quantity": "distance", "value": 2028, "unit": "mm", "at": moment("2025-03-12", "09:40"),
     "instrument": "laser measure", "uncertainty": 2, "taken_by": "fitter", "note": "Partition to the beam’s rail."},
)  # fmt: skip

OBSERVATIONS: tuple[Values, ...] = (
    {"room": "R1", "face": "R1-N", "what": "Inscription powders", "at": moment("2025-03-11", "10:30"),
     "condition_class": "2", "urgency_class": "1", "recommendation_class": "2", "x_mm": 2100, "z_mm": 2600,
     "words": "The black comes off on a swab; the ground holds.", "seen_by": "conservation adviser"},
    {"room": "R1", "face": "R1-N", "what": "Crack from the window head", "at": moment("2025-03-11", "10:45"),
     "condition_class": "2", "urgency_class": "2", "recommendation_class": "2", "x_mm": 5700, "z_mm": 3400,
     "words": "1 to 4 mm wide, 1.3 m long, through two stones. Tell-tales quiet since 2023.", "seen_by": "fitter"},
    {"room": "R1", "face": "R1-N", "what": "Salts above the dado", "at": moment("2025-03-11", "10:55"),
     "condition_class": "1", "urgency_class": "1", "recommendation_class": "1", "x_mm": 1100, "z_mm": 1500,
     "words": "White bloom, limewash blown in patches up to a hand wide.", "seen_by": "conservation adviser"},
    {"room": "R1", "face": "R1-C", "what": "Paint flakes at the foot of the column",
     "at": moment("2025-03-11", "11:40"),
     "condition_class": "2", "urgency_class": "1", "recommendation_class": "2", "x_mm": 0, "z_mm": 480,
     "words": "All coats loose to the iron; flakes on the flags. Taken to hold lead.", "seen_by": "fitter"},
    {"room": "R2", "face": "R2-N", "what": "Plaster hollow beside the window", "at": moment("2025-03-12", "09:50"),
     "condition_class": "2", "urgency_class": "2", "recommendation_class": "2", "x_mm": 4300, "z_mm": 1500,
     "words": "Sounds hollow over 600 by 600 mm, 13 mm proud, no cracks yet.", "seen_by": "conservation adviser"},
    {"room": "R2", "face": "R2-S", "what": "Plaster loose on the breast", "at": moment("2025-03-12", "10:05"),
     "condition_class": "3", "urgency_class": "2", "recommendation_class": "2", "x_mm": 1580, "z_mm": 1700,
     "words": "Moves under the hand. Propping to be considered.", "seen_by": "conservation adviser"},
    {"room": "R3", "face": "R3-W", "what": "Old wall sound", "at": moment("2025-03-12", "13:40"),
     "condition_class": "0", "urgency_class": "0", "recommendation_class": "0",
     "words": "Leans 16 mm back at the top, bows 11 mm; no cracks, no hollow places.", "seen_by": "fitter"},
    {"room": "R4", "face": "R4-N", "what": "Loose stones and bulge", "at": moment("2025-03-13", "10:20"),
     "condition_class": "3", "urgency_class": "2", "recommendation_class": "3", "x_mm": 4300, "z_mm": 1650,
     "words": "Two stones move by hand. Nothing within 1 m until they are pinned.", "seen_by": "structural engineer"},
    {"room": "R1", "fitting": "D1", "what": "Linings after five months", "at": moment("2025-10-14", "10:10"),
     "condition_class": "0", "urgency_class": "0", "recommendation_class": "1",
     "words": "Felt dry, capping unmarked; one nut a quarter turn loose, set again.", "seen_by": "fitter"},
    {"room": "R4", "fitting": "D13", "what": "Gauging tools rusting", "at": moment("2025-10-14", "11:30"),
     "condition_class": "2", "urgency_class": "2", "recommendation_class": "2",
     "words": "Rust on every edge after one summer. The shelf itself is sound.", "seen_by": "fitter"},
    {"room": "R2", "face": "R2-S", "fitting": "D9", "what": "Hair crack beside the chart",
     "at": moment("2025-10-14", "12:00"), "condition_class": "1", "urgency_class": "2", "recommendation_class": "2",
     "x_mm": 1402, "z_mm": 1706, "words": "40 mm long, new since May, where the loose plaster begins. The pad beside "
     "it is nearer than was planned: move it, or take it away.", "seen_by": "fitter"},
    {"room": "R4", "face": "R4-N", "what": "Joints after taking down", "at": moment("2026-02-10", "15:10"),
     "condition_class": "0", "urgency_class": "0", "recommendation_class": "0", "x_mm": 1940, "z_mm": 1150,
     "words": "Two joints pointed in lime; peg holes open as found.", "seen_by": "fitter"},
)  # fmt: skip
