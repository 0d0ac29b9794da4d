"""Readings and loggers' files for a small site."""

from __future__ import annotations

from datetime import datetime, timedelta

from fieldbook.book.evidence import keep
from fieldbook.book.gathering import gather
from fieldbook.findings import Finding, appraise
from tests.sites import Surveyed

JANUARY, JULY = "2026-01-15T12:00:00+00:00", "2026-07-15T12:00:00+00:00"


def found(surveyed: Surveyed, question: str) -> list[Finding]:
    """The findings of one question."""
    return [one for one in appraise(gather(surveyed.book, surveyed.site)) if one.question == question]


def read(
    surveyed: Surveyed, quantity: str, value: float, unit: str, at: str = JULY, uncertainty: float | None = 0
) -> str:
    """Enter one reading, as sure as it can be unless said otherwise."""
    values = {"room": surveyed.room, "quantity": quantity, "value": value, "unit": unit, "at": at}
    return surveyed.book.write("reading", values | {"uncertainty": uncertainty})


def two_halves(surveyed: Surveyed, low: float = 45, high: float = 65, warm: tuple[float, float] = (20, 20)) -> None:
    """Humidity and warmth read once in each half of the year."""
    for at, humidity, temperature in ((JANUARY, low, warm[0]), (JULY, high, warm[1])):
        read(surveyed, "relative humidity", humidity, "%", at)
        read(surveyed, "air temperature", temperature, "°C", at)


def log_file(surveyed: Surveyed, lines: list[str], **more: str) -> str:
    """Keep a logger's file and enter it for the room."""
    content = "\n".join(["time;RH;T", *lines]).encode()
    columns = {"time_column": "time", "humidity_column": "RH", "temperature_column": "T"}
    values = {"room": surveyed.room, "name": "by the door", "size_bytes": len(content)} | columns | more
    return surveyed.book.write("log", values | {"sha256": keep(surveyed.book.folder, "log", content)})


def hours(first: str, count: int, humidity: float = 55) -> list[str]:
    """A reading an hour at 20 °C, swinging by 4 % in a day about a level."""
    start = datetime.fromisoformat(first)
    return [
        f"{(start + timedelta(hours=hour)).isoformat()};{humidity + (-4, 0, 4, 0)[hour // 6 % 4]:.1f};20"
        for hour in range(count)
    ]
