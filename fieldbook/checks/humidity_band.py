"""What a logger's record says of a room: its humidity through the year, the band of EN 15757, what timber feels.

The method of the band is in seasonal_level, the record in humidity_record and logger. It does
not say what band a collection bears; it says what the room's own past has been.
"""

from __future__ import annotations

import io
import statistics
from bisect import bisect_right
from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import groupby
from typing import Any

from ..errors import FieldbookError, WrongUse
from . import logger, moisture
from .humidity_record import DAY_S, Day, by_day, moisture_range, spacing
from .inputs import Inputs
from .limits import rounded_up
from .seasonal_level import SOURCE, Band, Outside, band, outside
from .verdict import Verdict, Word

HOUR_S = 3600.0
YEAR_S = 365 * DAY_S
# rows that may be given as JSON; a file as text may have any number
MOST_ROWS = 5_000_000

OF_THE_YEAR = (
    "yearly_mean_pct",
    "seasonal_cycle_pct",
    "percentile_low_pct",
    "percentile_high_pct",
    "outside_percentiles",
    "band_low_pct",
    "band_high_pct",
    "outside_band",
    "longest_outside_h",
    "longest_outside_from",
)


def humidity_verdict(found: Band, beyond: Outside) -> Verdict:
    """Whether the humidity kept within its band.

    found    the band, % RH
    beyond   what lies outside it, s
    returns  verdict on the longest time outside, in hours; the limit is none at all

    Source: SOURCE.
    Raises nothing.

    >>> str(humidity_verdict(Band(3600, 0, [], -4, 4, -10, 10), Outside(0, 0, None)).word)
    'within'
    """
    hours = rounded_up(beyond.longest_s / HOUR_S)
    limits = f"{found.low:+.1f} to {found.high:+.1f} % RH about the seasonal level"
    if beyond.readings:
        word, sentence = Word.OVER, f"The humidity left {limits}, once for {hours:.10g} h on end."
    else:
        word, sentence = Word.WITHIN, f"The humidity kept within {limits}."
    working = (
        ("7th percentile", f"{found.percentile_low:+.1f} % RH"),
        ("93rd percentile", f"{found.percentile_high:+.1f} % RH"),
        ("Readings outside", str(beyond.readings)),
    )
    return Verdict("humidity-band", word, hours, 0.0, -hours, "h", sentence, SOURCE, working=working)


def calculate(payload: Any) -> dict[str, Any]:
    """What a logger's record says of a room's humidity.

    payload  {"csv": the file as text, or "rows": lists of cells with the header first,
             "columns": {"time", "humidity", "date"?, "temperature"?: header names},
             "date_order": "day first" or "month first" and "temperature_c": °C, -1.1 to 132.2, may be left out}
    returns  of the record: from, to (ISO 8601), readings, empty (lines), clock_put_back (times), every_h, gaps,
             longest_gap_h, missing_pct, mean_pct, lowest_pct, highest_pct;
             of the year: yearly_mean_pct (the last 365 days), seasonal_cycle_pct (level by month),
             percentile_low_pct, percentile_high_pct, outside_percentiles (readings), band_low_pct, band_high_pct,
             outside_band (readings), longest_outside_h, longest_outside_from, verdict;
             for movement: driest_day_pct, dampest_day_pct, from_pct, to_pct;
             not_known: reasons for what is null. In h and %

    Source: SOURCE; for from_pct and to_pct moisture.SOURCE.
    Raises WrongUse unless one of csv and rows is given, and what reading the record raises.

    >>> record = "t,h" + chr(10) + "2024-01-01,50" + chr(10) + "2024-01-02,60"
    >>> calculate({"csv": record, "columns": {"time": "t", "humidity": "h"}})["mean_pct"]
    55.0
    """
    inputs = Inputs(payload, ("csv", "rows", "columns", "date_order", "temperature_c"))
    temperature_c = inputs.number_or("temperature_c", None, *moisture.TEMPERATURE_C, "°C")
    log = _log(inputs)
    not_known: list[str] = []
    answer = _of_the_record(log) | _of_the_year(log, not_known) | _for_movement(by_day(log), temperature_c, not_known)
    return answer | {"not_known": not_known}


def _log(inputs: Inputs) -> logger.Log:
    if inputs.has("csv") == inputs.has("rows"):
        given = "both given" if inputs.has("csv") else "both missing"
        raise WrongUse(f"csv and rows are {given}.", "Give one of them.", field="csv")
    columns = inputs.get("columns")
    date_order = inputs.get("date_order") if inputs.has("date_order") else None
    if inputs.has("rows"):
        return logger.read_rows(inputs.entries("rows", "rows of cells", MOST_ROWS), columns, date_order)
    return logger.read(io.StringIO(inputs.text("csv"), newline=None), columns, date_order)


def _of_the_record(log: logger.Log) -> dict[str, Any]:
    spaced = spacing(log.seconds)
    return {
        "from": _written(log.seconds[0]),
        "to": _written(log.seconds[-1]),
        "readings": len(log.seconds),
        "empty": log.empty,
        "clock_put_back": log.clock_put_back,
        "every_h": spaced.usual_s / HOUR_S,
        "gaps": spaced.gaps,
        "longest_gap_h": spaced.longest_s / HOUR_S if spaced.gaps else 0.0,
        "missing_pct": 100 * spaced.missing,
        "mean_pct": statistics.fmean(log.humidity_pct),
        "lowest_pct": min(log.humidity_pct),
        "highest_pct": max(log.humidity_pct),
    }


def _of_the_year(log: logger.Log, not_known: list[str]) -> dict[str, Any]:
    try:
        found = band(log.seconds, log.humidity_pct)
    except FieldbookError as error:
        not_known.append(f"{error.reason} {error.remedy}")
        return dict.fromkeys(OF_THE_YEAR) | {"verdict": str(Word.NOT_KNOWN)}
    if found.usual_s > HOUR_S:
        not_known.append("Swings shorter than the time between readings: EN 15757 asks for a reading an hour.")
    last_year = log.humidity_pct[bisect_right(log.seconds, log.seconds[-1] - YEAR_S) :]
    percentiles = outside(log.seconds, log.humidity_pct, found, found.percentile_low, found.percentile_high)
    beyond = outside(log.seconds, log.humidity_pct, found, found.low, found.high)
    values = (
        statistics.fmean(last_year),
        _by_month(log.seconds, found),
        found.percentile_low,
        found.percentile_high,
        percentiles.readings,
        found.low,
        found.high,
        beyond.readings,
        beyond.longest_s / HOUR_S,
        None if beyond.longest_from_s is None else _written(beyond.longest_from_s),
        str(humidity_verdict(found, beyond).word),
    )
    return dict(zip((*OF_THE_YEAR, "verdict"), values, strict=True))


def _by_month(seconds: Sequence[float], found: Band) -> dict[str, float]:
    """The seasonal cycle: the mean of the level in each month."""
    months: dict[str, list[float]] = {}
    for day, group in groupby(enumerate(found.level, found.first), lambda item: seconds[item[0]] // DAY_S):
        months.setdefault(_written(day * DAY_S)[:7], []).extend(level for _, level in group)
    return {month: statistics.fmean(levels) for month, levels in months.items()}


def _for_movement(days: Sequence[Day], temperature_c: float | None, not_known: list[str]) -> dict[str, Any]:
    means = [day.mean_pct for day in days]
    answer = {"driest_day_pct": min(means), "dampest_day_pct": max(means), "from_pct": None, "to_pct": None}
    try:
        answer["from_pct"], answer["to_pct"] = moisture_range(days, temperature_c)
    except FieldbookError as error:
        not_known.append(f"{error.reason} {error.remedy}")
    return answer


def _written(seconds: float) -> str:
    return (datetime(1970, 1, 1) + timedelta(seconds=seconds)).isoformat()
