"""What logger 2 wrote in the clerks’ office: fourteen months, each half hour, as its program exports it.

When a weekly reading was taken the file agrees with it; between, the day and the weather swing
about the line from one to the next. Like such files it has lines before the headings, decimal commas,
empty cells, days without a battery, and a clock that is put forward and back.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from random import Random

from . import watched
from .booking import Values

FIRST, LAST = datetime(2025, 1, 12, 9, tzinfo=UTC), datetime(2026, 3, 19, 9, tzinfo=UTC)
WITHOUT_BATTERY = ((datetime(2025, 8, 4, 17, tzinfo=UTC), timedelta(days=5, hours=16)),)
EMPTY_SHARE = 0.002  # of the cells
HOUR, STEP = timedelta(hours=1), timedelta(minutes=30)
# how far a day and the weather go to either side, °C and % RH; how much of the weather lasts a step
DAY_C, DAY_PCT = 0.9, 1.5
WEATHER_C, WEATHER_PCT, LASTS = 0.2, 0.12, 0.985

Anchor = tuple[datetime, float, float]

LOG: Values = {
    "room": "R2",
    "name": watched.LOGGERS["R2"],
    "date_column": "Date",
    "time_column": "Time",
    "humidity_column": "RH %",
    "temperature_column": "Temp. °C",
    "instrument": "Logger 2, ±3 % RH, ±0.4 °C",
}


def file() -> bytes:
    """The file, byte for byte the same each time."""
    lines = ["Logger 2;clerks’ office", "Read out;19.03.2026", "Date;Time;Temp. °C;RH %"]
    return "\r\n".join([*lines, *_rows(), ""]).encode("utf-8-sig")


def _rows() -> Iterator[str]:
    chance = Random("logger 2")  # noqa: S311
    for at, air_c, humidity_pct in _steps(chance):
        if any(start <= at < start + length for start, length in WITHOUT_BATTERY):
            continue
        there = chance.random() >= EMPTY_SHARE
        local = at + _summer(at)
        cells = (f"{air_c:.1f}", f"{humidity_pct:.1f}") if there else ("", "")
        yield f"{local:%d.%m.%Y;%H:%M};{';'.join(cells)}".replace(".", ",").replace(",", ".", 2)


def _summer(at: datetime) -> timedelta:
    """What the clock on the quay is ahead by, which is put forward and back at one o'clock universal time."""
    changes = [[datetime.fromisoformat(f"{day}T01:00+00:00") for day in year] for year in watched.SUMMER_TIME]
    return HOUR if any(start <= at < end for start, end in changes) else timedelta(0)


def _steps(chance: Random) -> Iterator[Anchor]:
    anchors = _anchors()
    for before, after in pairwise(anchors):
        yield from list(_between(before, after, chance))[:-1]
    yield anchors[-1]


def _anchors() -> list[Anchor]:
    """The weekly readings of the office’s logger, carried on level at both ends."""
    readings = [one for one in watched.climate() if one["room"] == LOG["room"]]
    at = [datetime.fromisoformat(one["at"]).astimezone(UTC) for one in readings[::2]]
    values = [one["value"] for one in readings]
    weekly = list(zip(at, values[::2], values[1::2], strict=True))
    return [(FIRST, *weekly[0][1:]), *weekly, (LAST, *weekly[-1][1:])]


def _between(before: Anchor, after: Anchor, chance: Random) -> Iterator[Anchor]:
    """Step by step from one reading to the next, which the swings leave as they are."""
    steps = round((after[0] - before[0]) / STEP)
    weather = _weather(steps, chance)
    for step in range(steps + 1):
        at, share = before[0] + step * STEP, step / steps
        of_day = math.cos(2 * math.pi * (at.hour + at.minute / 60 - 15) / 24)
        swing = of_day * min(1, step / 12, (steps - step) / 12)
        air = before[1] + share * (after[1] - before[1]) + DAY_C * swing + WEATHER_C * weather[step]
        humidity = before[2] + share * (after[2] - before[2]) - DAY_PCT * swing - WEATHER_PCT * weather[step]
        yield at, air, min(humidity, 97.0)


def _weather(steps: int, chance: Random) -> Sequence[float]:
    """Swings that last, and are nothing at both ends."""
    swings = [0.0]
    for _ in range(steps):
        swings.append(LASTS * swings[-1] + chance.gauss(0, 1))
    return [swing - swings[-1] * step / steps for step, swing in enumerate(swings)]
