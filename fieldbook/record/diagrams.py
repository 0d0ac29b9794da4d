"""Diagrams of what a site holds: a fitting's load path, a room's humidity and light over time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime

from ..checks import seasonal_level
from ..checks.limits import rounded_up
from ..checks.verdict import Word
from ..errors import FieldbookError
from ..gather import Item, Site
from ..verdicts import Finding, about, climate, loads, logs, worst
from . import drafting as d
from .climate_plot import Bound, Series, climate_plot
from .load_path import Level, Part, load_path
from .wording import figure

LOAD_CHECKS = {"fixing-group", "withdrawal", "preload", "clamp"}
STEP_N = 1.0  # forces are shown rounded up to it


def load_path_of(site: Site, fitting: Item, findings: Iterable[Finding]) -> d.Drawn | None:
    """From what weighs on a fitting's fixings down to the fabric; None where something for it is not entered."""
    try:
        load, shares = loads.weight(site, fitting), loads.shares(site, fitting)
    except FieldbookError:
        return None
    of_loads = [finding for finding in findings if finding.verdict.check in LOAD_CHECKS]
    pull = f", {_force(load.pull_n)} pulled straight out" if load.pull_n else ""
    weight = f"{_force(load.force_n)} down, {figure(rounded_up(load.out_mm, 1), 'mm')} out of the face{pull}"
    tension = max(share.tension_n for share in shares)
    fixings = [_fixing(share, worst(about(of_loads, share.fixing))) for share in shares]
    return load_path(
        f"Load path of {fitting.called}",
        [
            Level(f"{fitting.called} with what hangs on it", [Part(figure(load.mass_kg, "kg"))], weight),
            Level("Its fixings", fixings, f"at most {_force(tension)} in tension"),
            Level("Fabric", [Part(words) for words in _fabric(share.fixing for share in shares)]),
        ],
    )


def _fixing(share: loads.Share, word: Word | None) -> Part:
    name = f"{share.fixing.called} {share.fixing.sort}"
    return Part(name, f"{_force(share.shear_n)} shear, {_force(share.tension_n)} tension", word)


def _fabric(fixings: Iterable[Item]) -> Iterator[str]:
    """What the fixings go into, each once, in their order."""
    yield from dict.fromkeys(f"{fixing.fabric}{f': {fixing.into}' if fixing.into else ''}" for fixing in fixings)


def _force(newtons: float) -> str:
    return figure(rounded_up(newtons, STEP_N), "N")


def humidity_of(site: Site, room: Item) -> d.Drawn | None:
    """A room's relative humidity over time, from readings and loggers, with band and limits; None without any."""
    series = [*_readings(site, room, "relative humidity", "readings"), *_logged(site, room)]
    bounds = [
        Bound(value, above, f"not {'above' if above else 'below'}")
        for value, above in ((room.humidity_low_pct, False), (room.humidity_high_pct, True))
        if value is not None
    ]
    return climate_plot(f"Relative humidity in {room.called}", "%", series, bounds) if series else None


def light_of(site: Site, room: Item) -> d.Drawn | None:
    """A room's illuminance over time with its limit; None without readings."""
    series = list(_readings(site, room, "illuminance", "readings"))
    bounds = [] if room.light_limit_lx is None else [Bound(room.light_limit_lx, True, "not above")]
    return climate_plot(f"Light in {room.called}", "lx", series, bounds) if series else None


def _readings(site: Site, room: Item, quantity: str, name: str) -> Iterator[Series]:
    values = [(datetime.fromisoformat(one.at), one.value) for one in climate.readings(site, room, quantity)]
    if values:
        yield Series(name, values)


def _logged(site: Site, room: Item) -> Iterator[Series]:
    """Each logger's record, and the band of EN 15757 where it is long enough; none that cannot be read."""
    for log in site.of(room, "log"):
        try:
            read = logs.read(site, log)
        except FieldbookError:
            continue
        times = [datetime.fromtimestamp(second, UTC) for second in read.seconds]
        yield Series(log.called, list(zip(times, read.humidity_pct, strict=True)))
        yield from _band(log, times, read.seconds, read.humidity_pct)


def _band(
    log: Item, times: list[datetime], seconds: Iterable[float], humidity_pct: Iterable[float]
) -> Iterator[Series]:
    try:
        found = seasonal_level.band(seconds, humidity_pct)
    except FieldbookError:
        return
    levels = list(zip(times[found.first :], found.level, strict=False))
    for name, departure in (("from", found.low), ("to", found.high)):
        yield Series(f"band of {log.called}, {name}", [(at, level + departure) for at, level in levels])
