"""What was measured in a room: its readings by quantity, and the range its air has shown."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from datetime import date, datetime
from functools import lru_cache

from ..book.site import Item, Site
from ..checks import range_seen
from ..checks.measurement import QUANTITIES, Reading, checked, span
from ..checks.range_seen import LoggedRecord, Seen
from ..checks.verdict import STOP, Verdict
from ..errors import FieldbookError, Missing
from . import logs
from .ahead import come
from .asking import Asked, NotEntered
from .finding import Blank

UNSURE = {"reading": "uncertainty", "log": "uncertainty_pct"}
READS = {
    "reading.quantity": "neither",
    "reading.value": "neither",
    "reading.unit": "neither",
    "reading.uncertainty": "more",
    "log.uncertainty_pct": "more",
    "log.sha256": "neither",
    "log.time_column": "neither",
    "log.humidity_column": "neither",
    "log.temperature_column": "neither",
    "log.date_column": "neither",
    "log.date_order": "neither",
}


def items(site: Site, room: Item, quantity: str) -> list[Item]:
    """A room's readings of one quantity, in the order of time."""
    found = [reading for reading in site.of(room, "reading") if reading.quantity == quantity]
    return sorted(found, key=lambda reading: datetime.fromisoformat(reading.at))


def measured(asked: Asked, room: Item, quantity: str) -> list[Item]:
    """The same, for what is reckoned from them: those of a day that has come.

    Raises NotAChoice and OutOfRange for a reading in another unit than its quantity's, or that cannot be.
    """
    return [one for one in _checked(asked, room, quantity) if come(one.at, asked.today)]


def _checked(asked: Asked, room: Item, quantity: str) -> list[Item]:
    found = items(asked.site, room, quantity)
    for one in found:
        checked(quantity, one.unit, _reading(one))
    return found


def span_of(one: Item) -> tuple[float, float]:
    """The lowest and the highest that a reading may mean, in its unit."""
    return span(one.quantity, _reading(one))


def _reading(one: Item) -> Reading:
    """A reading as the checks take it; one that is less sure than all that can be is as unsure as that."""
    unsure = one.uncertainty
    if unsure is not None and one.quantity in QUANTITIES:
        unsure = min(unsure, QUANTITIES[one.quantity].high)
    return Reading(datetime.fromisoformat(one.at).timestamp(), one.value, unsure)


def of(asked: Asked, room: Item, quantity: str) -> list[Reading]:
    """The same as the checks take them, of which the worst counts; none while the days of all are still to come.

    Beside others, one that is dated ahead counts against its limit: it was read, on a day mistaken.
    """
    found = _checked(asked, room, quantity)
    return [_reading(one) for one in found] if any(come(one.at, asked.today) for one in found) else []


def needed(asked: Asked, room: Item, quantity: str) -> list[Reading]:
    """A room's readings of a quantity; raises NotEntered where there are none."""
    found = of(asked, room, quantity)
    if not found:
        raise asked.lack(room, "reading", f"a reading of the {quantity} in {room.called}", quantity=quantity)
    return found


def firm(verdict: Verdict, exact: Callable[[], Verdict], unsure: Iterable[Item]) -> Verdict:
    """A verdict on what was measured; where only the uncertainty taken for a reading makes it over, that is asked for.

    exact   the verdict with no uncertainty where none is entered
    unsure  the readings and loggers without one, the likeliest to decide first
    Raises NotEntered.
    """
    blank = next(iter(unsure), None)
    if blank is not None and verdict.word in STOP and exact().word not in STOP:
        raise NotEntered(Blank(blank, UNSURE[blank.kind]), verdict.figure, verdict.unit)
    return verdict


def unsure(asked: Asked, room: Item, quantity: str) -> list[Item]:
    """The readings of a quantity of which nobody entered how unsure they are, the highest first."""
    found = [one for one in items(asked.site, room, quantity) if one.uncertainty is None]
    return sorted(found, key=lambda one: -one.value)


def exact(found: Iterable[Reading]) -> list[Reading]:
    """Readings with no uncertainty where none is entered."""
    return [one if one.uncertainty is not None else one._replace(uncertainty=0.0) for one in found]


def seen(asked: Asked, room: Item, quantity: str, *, as_read: bool = False) -> Seen:
    """The range of a quantity that a room has shown, by its readings and its loggers.

    quantity  relative humidity or air temperature
    as_read   with no uncertainty where none is entered
    Raises NotEntered where it was not measured in both halves of the year.
    """
    site = asked.site
    sure = exact if as_read else list
    files = tuple((logs.named(site, log), _of_log(log, as_read)) for log in site.of(room, "log"))
    spots = tuple(sure(_reading(one) for one in measured(asked, room, quantity)))
    found, lacking = _seen(quantity, spots, files, asked.today)
    if found is None:
        words = f"the {quantity} in {room.called} from {' and from '.join(lacking)}"
        raise asked.lack(room, "reading", words, quantity=quantity)
    spans = [span(quantity, one) for one in sure(of(asked, room, quantity))]
    lows, highs = [low for low, _ in spans], [high for _, high in spans]
    return found._replace(low=min(found.low, *lows), high=max(found.high, *highs)) if spans else found


def _of_log(log: Item, as_read: bool) -> float | None:
    return 0.0 if as_read and log.uncertainty_pct is None else log.uncertainty_pct


@lru_cache(maxsize=256)
def _seen(
    quantity: str, readings: tuple[Reading, ...], files: tuple[tuple[logs.Named, float | None], ...], today: date
) -> tuple[Seen | None, tuple[str, ...]]:
    """The range seen, or None with the halves of the year that lack."""
    records = [record for file, sure in files if (record := _record(quantity, file, sure, today))]
    try:
        return range_seen.range_seen(quantity, readings, records), ()
    except Missing:
        times = [[one.at_s for one in readings], *(record.seconds for record in records)]
        return None, range_seen.halves_lacking(*times)


def _record(quantity: str, file: logs.Named, uncertainty: float | None, today: date) -> LoggedRecord | None:
    try:
        read = logs.written(file, today)
    except FieldbookError:  # a file that cannot be read is told by the question of the humidity
        return None
    if quantity == "relative humidity":
        return LoggedRecord(read.seconds, read.humidity_pct, uncertainty)
    values = [value for value in read.temperature_c if not math.isnan(value)]
    return LoggedRecord(read.seconds, values) if values else None


def spot_range(readings: list[Reading]) -> tuple[float, float]:
    """Lowest and highest relative humidity that spot readings may mean, %."""
    spans = [span("relative humidity", one) for one in readings]
    return min(low for low, _ in spans), max(high for _, high in spans)
