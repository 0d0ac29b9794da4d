"""What the loggers of a room have written, read once for each file and mapping of its columns."""

from __future__ import annotations

import hashlib
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from itertools import groupby
from pathlib import Path

from ..book.evidence import path_of
from ..book.site import Item, Site
from ..book.wording import day
from ..checks import after_band as after
from ..checks import logger, seasonal_level
from ..checks.humidity_record import DAY_S, Day, by_day
from ..checks.verdict import Verdict
from ..errors import Missing, OutOfRange
from .ahead import OnADay

Columns = tuple[tuple[str, str], ...]
Named = tuple[Path, Columns, str | None]


def after_band(asked: OnADay, log: Item) -> Verdict:
    """The time after a record's first thirteen months, held against the band made of them.

    Raises as `written` does, and OutOfRange for a record that is too short or has too much missing.
    """
    file = named(asked.site, log)
    written(file, asked.today)
    return _after_band(*file)


def days(site: Site, log: Item) -> tuple[Day, ...]:
    """What each day of a logger's record was like. Raises as `read` does."""
    return _days(*named(site, log))


def days_come(asked: OnADay, log: Item) -> tuple[Day, ...]:
    """The same, for what is reckoned from them. Raises as `written` does."""
    file = named(asked.site, log)
    written(file, asked.today)
    return _days(*file)


def levels(site: Site, log: Item) -> tuple[tuple[float, float, float, float], ...]:
    """The band of a record day by day: (seconds, seasonal level, its lower and upper edge).

    Raises as `read` does, and OutOfRange for a record that is too short or has too much missing.
    """
    return _levels(*named(site, log))


def read(site: Site, log: Item) -> logger.Log:
    """The readings a logger wrote.

    Raises Missing where the file is not here yet, or not as it came, and what reading a logger's file raises.
    """
    return read_named(*named(site, log))


def written(file: Named, today: date) -> logger.Log:
    """What a logger wrote by a day. Raises as `read` does, and OutOfRange for a record that reaches past the day."""
    log = read_named(*file)
    last = datetime.fromtimestamp(log.seconds[-1], UTC).date()
    if last > today + timedelta(days=1):  # a day past any time zone
        reason = f"The record reaches to {day(last.isoformat())}, a day that has not come."
        raise OutOfRange(reason, "Set the logger’s clock, and correct the times in its file.", field="sha256")
    return log


def named(site: Site, log: Item) -> Named:
    """What a record is told apart by: its file, its columns and the order of its dates."""
    names = {"time": log.time_column, "humidity": log.humidity_column}
    names |= {"date": log.date_column, "temperature": log.temperature_column}
    columns = tuple((what, heading) for what, heading in names.items() if heading)
    return path_of(site.folder, "log", log.sha256), columns, log.date_order


@lru_cache(maxsize=32)
def read_named(path: Path, columns: Columns, date_order: str | None) -> logger.Log:
    """The same as `read`, by what a record is told apart by."""
    if not path.exists():
        raise Missing("The logger's file is not in this book yet.", "Add it again.", field="sha256")
    try:
        content = path.read_bytes()
    except OSError as error:
        reason = f"The logger's file cannot be read: {error.strerror}."
        raise Missing(reason, "Bring it back from a backup.", field="sha256") from None
    if hashlib.sha256(content).hexdigest() != path.name:  # a figure that changed on the disk looks like any other
        raise Missing("The logger's file is not as it came.", "Bring it back from a backup.", field="sha256")
    return logger.read(logger.lines_of(content), dict(columns), date_order)


@lru_cache(maxsize=32)
def _after_band(path: Path, columns: Columns, date_order: str | None) -> Verdict:
    log = read_named(path, columns, date_order)
    first = after.reference_end(log.seconds)
    band = seasonal_level.band(log.seconds[:first], log.humidity_pct[:first])
    return after.after_band_verdict(after.time_after(log.seconds, log.humidity_pct, band, first), band)


@lru_cache(maxsize=32)
def _days(path: Path, columns: Columns, date_order: str | None) -> tuple[Day, ...]:
    return tuple(by_day(read_named(path, columns, date_order)))


@lru_cache(maxsize=32)
def _levels(path: Path, columns: Columns, date_order: str | None) -> tuple[tuple[float, float, float, float], ...]:
    log = read_named(path, columns, date_order)
    found = seasonal_level.band(log.seconds, log.humidity_pct)
    by_date = groupby(enumerate(found.level, found.first), lambda item: log.seconds[item[0]] // DAY_S)
    firsts = (next(readings) for _, readings in by_date)
    return tuple((log.seconds[place], mean, mean + found.low, mean + found.high) for place, mean in firsts)
