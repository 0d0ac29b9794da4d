"""What the loggers of a room have written, read once for each file and mapping of its columns."""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from pathlib import Path

from ..book.evidence import path_of
from ..book.site import Item, Site
from ..checks import after_band as after
from ..checks import logger, seasonal_level
from ..checks.humidity_record import DAY_S, Day, by_day
from ..checks.verdict import Verdict
from ..errors import Missing

Columns = tuple[tuple[str, str], ...]
Named = tuple[Path, Columns, str | None]


def after_band(site: Site, log: Item) -> Verdict:
    """The time after a record's first thirteen months, held against the band made of them.

    Raises as `read` does, and OutOfRange for a record that is too short or has too much missing.
    """
    return _after_band(*named(site, log))


def days(site: Site, log: Item) -> tuple[Day, ...]:
    """What each day of a logger's record was like. Raises as `read` does."""
    return _days(*named(site, log))


def levels(site: Site, log: Item) -> tuple[tuple[float, float, float, float], ...]:
    """The band of a record day by day: (seconds, seasonal level, its lower and upper edge).

    Raises as `read` does, and OutOfRange for a record that is too short or has too much missing.
    """
    return _levels(*named(site, log))


def read(site: Site, log: Item) -> logger.Log:
    """The readings a logger wrote.

    Raises Missing where the file is not here yet, and what reading a logger's file raises.
    """
    return read_named(*named(site, log))


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
    return logger.read(logger.lines_of(path.read_bytes()), dict(columns), date_order)


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
