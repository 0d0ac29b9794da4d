"""What the loggers of a room have written, read once for each file and mapping of its columns."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby
from pathlib import Path

from ..book.evidence import path_of
from ..book.site import Item, Site
from ..checks import humidity_band, logger, seasonal_level
from ..checks.humidity_record import DAY_S, Day, by_day
from ..checks.verdict import Verdict, not_known_because
from ..errors import FieldbookError, Missing

Found = Iterator[tuple[Item, Item | None, Verdict]]
Columns = tuple[tuple[str, str], ...]


def humidity(site: Site) -> Found:
    """Each logger's record held against the band of its own past."""
    for room in site.all("room"):
        for log in site.of(room, "log"):
            yield room, log, _verdict(site, log)


def _verdict(site: Site, log: Item) -> Verdict:
    try:
        return _band_verdict(*_named(site, log))
    except FieldbookError as error:
        return not_known_because("humidity-band", error, seasonal_level.SOURCE, "h")


def days(site: Site, log: Item) -> tuple[Day, ...]:
    """What each day of a logger's record was like. Raises as `read` does."""
    return _days(*_named(site, log))


def levels(site: Site, log: Item) -> tuple[tuple[float, float, float, float], ...]:
    """The band of a record day by day: (seconds, seasonal level, its lower and upper edge).

    Raises as `read` does, and OutOfRange for a record that is too short or has too much missing.
    """
    return _levels(*_named(site, log))


def read(site: Site, log: Item) -> logger.Log:
    """The readings a logger wrote.

    Raises Missing where the file is not here yet, and what reading a logger's file raises.
    """
    return _read(*_named(site, log))


def _named(site: Site, log: Item) -> tuple[Path, Columns, str | None]:
    names = {"time": log.time_column, "humidity": log.humidity_column}
    names |= {"date": log.date_column, "temperature": log.temperature_column}
    columns = tuple((what, heading) for what, heading in names.items() if heading)
    return path_of(site.folder, "log", log.sha256), columns, log.date_order


@lru_cache(maxsize=32)
def _read(path: Path, columns: Columns, date_order: str | None) -> logger.Log:
    if not path.exists():
        raise Missing("The logger's file is not in this book yet.", "Add it again.", field="sha256")
    return logger.read(logger.lines_of(path.read_bytes()), dict(columns), date_order)


@lru_cache(maxsize=32)
def _band_verdict(path: Path, columns: Columns, date_order: str | None) -> Verdict:
    log = _read(path, columns, date_order)
    found = seasonal_level.band(log.seconds, log.humidity_pct)
    beyond = seasonal_level.outside(log.seconds, log.humidity_pct, found, found.low, found.high)
    return humidity_band.humidity_verdict(found, beyond)


@lru_cache(maxsize=32)
def _days(path: Path, columns: Columns, date_order: str | None) -> tuple[Day, ...]:
    return tuple(by_day(_read(path, columns, date_order)))


@lru_cache(maxsize=32)
def _levels(path: Path, columns: Columns, date_order: str | None) -> tuple[tuple[float, float, float, float], ...]:
    log = _read(path, columns, date_order)
    found = seasonal_level.band(log.seconds, log.humidity_pct)
    by_date = groupby(enumerate(found.level, found.first), lambda item: log.seconds[item[0]] // DAY_S)
    firsts = (next(readings) for _, readings in by_date)
    return tuple((log.seconds[place], mean, mean + found.low, mean + found.high) for place, mean in firsts)
