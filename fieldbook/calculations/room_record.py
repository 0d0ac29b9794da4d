"""What a logger's record says of a room: its humidity through the year, the band of its past, what timber feels."""

from __future__ import annotations

import io
import statistics
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from itertools import groupby
from typing import Any

from ..checks import logger, logger_clock, moisture
from ..checks.humidity_band import HOUR_S, humidity_verdict
from ..checks.humidity_record import DAY_S, Day, by_day, moisture_range, spacing
from ..checks.seasonal_level import SOURCE, Band, band, outside
from ..checks.verdict import Verdict, not_known_because
from ..errors import FieldbookError, UnsuitableShape, UnsuitableText, WrongUse
from ..model.description import choice, line, note
from ..model.terms import Term
from .description import Calculation, Result, number

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


def _humidity_band(
    columns: Mapping[str, str],
    csv: Any = None,
    rows: Any = None,
    date_order: str | None = None,
    temperature_c: float | None = None,
) -> Result:
    log = _log(csv, rows, columns, date_order)
    reasons: list[str] = []
    of_the_year, verdict = _of_the_year(log, reasons)
    figures = _of_the_record(log) | of_the_year | _for_movement(by_day(log), temperature_c, reasons)
    return Result(figures | {"not_known": reasons}, (SOURCE, moisture.SOURCE), verdict)


def _log(csv: Any, rows: Any, columns: Mapping[str, str], date_order: str | None) -> logger.Log:
    if (csv is None) == (rows is None):
        given = "both missing" if csv is None else "both given"
        raise WrongUse(f"csv and rows are {given}.", "Give one of them.", field="csv")
    if csv is not None:
        if not isinstance(csv, str):
            raise UnsuitableText("is no text.", "Give the file’s text.", field="csv", about="csv")
        return logger.read(io.StringIO(csv, newline=None), columns, date_order)
    if not isinstance(rows, (list, tuple)) or len(rows) > MOST_ROWS:
        raise UnsuitableShape(
            f"is no list of at most {MOST_ROWS:,}.", "Give lists of cells.", field="rows", about="rows"
        )
    return logger.read_rows(rows, columns, date_order)


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


def _of_the_year(log: logger.Log, not_known: list[str]) -> tuple[dict[str, Any], Verdict]:
    try:
        found = band(log.seconds, log.humidity_pct)
    except FieldbookError as error:
        not_known.append(f"{error.reason} {error.remedy}")
        return dict.fromkeys(OF_THE_YEAR), not_known_because("humidity-band", error, SOURCE, "h")
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
    )
    return dict(zip(OF_THE_YEAR, values, strict=True)), humidity_verdict(found, beyond)


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


HUMIDITY_BAND = Calculation(
    "humidity-band",
    "Humidity of a room, from a logger’s record",
    "What a logger’s record says of a room’s humidity.",
    (
        note("csv", "The logger’s file as text", help="or choose the file itself", required=True),
        line("columns.time", Term.TIME_COLUMN, required=True),
        line("columns.humidity", Term.HUMIDITY_COLUMN, required=True),
        line("columns.date", Term.DATE_COLUMN, help="only where date and time stand apart"),
        line("columns.temperature", Term.TEMPERATURE_COLUMN),
        choice("date_order", Term.DATE_ORDER, *logger_clock.DATE_ORDERS, help="only where the file leaves it open"),
        number("temperature_c", "Usual temperature", "°C", *moisture.TEMPERATURE_C,
               help="for days the logger has none"),
    ),
    {"csv": "when;RH %\n2025-01-01 00:00;61,5\n2025-01-01 01:00;62\n2025-01-01 02:00;60,5",
     "columns": {"time": "when", "humidity": "RH %"}, "temperature_c": 12},
    _humidity_band,
    unread=frozenset({"csv"}),  # longer than any note, and its tabs are its own
    further={"rows": "csv"},
)  # fmt: skip

CALCULATIONS = (HUMIDITY_BAND,)
