"""The logger's file of the customs shed: like a real one, and of one mind with the weekly readings."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from demo_site import logged, watched
from fieldbook.book.site import Site
from fieldbook.checks import logger
from fieldbook.checks.humidity_record import spacing
from fieldbook.checks.logger import Log
from fieldbook.findings import logs

COLUMNS = {what: logged.LOG[f"{what}_column"] for what in logger.COLUMNS}


@pytest.fixture(scope="module")
def read() -> Log:
    """The file as the check reads it."""
    return logger.read(logged.file().decode("utf-8-sig").splitlines(), COLUMNS)


def test_file_is_the_same_each_time() -> None:
    """Its digest may be relied on."""
    assert logged.file() == logged.file()


def test_file_has_what_makes_loggers_files_hard(read: Log) -> None:
    """Fourteen months, a clock that is put back, days that are missing, cells that are empty."""
    assert read.seconds[-1] - read.seconds[0] > 394 * 86_400
    assert read.clock_put_back == 1
    assert read.empty > 10
    spaced = spacing(read.seconds)
    assert (spaced.usual_s, spaced.gaps) == (1800, 1)
    assert all(0 <= value <= 100 for value in read.humidity_pct)


def test_weekly_readings_are_those_of_the_logger(read: Log) -> None:
    """What was noted in the room at nine o'clock is what the file has at nine o'clock."""
    by_time = dict(zip(read.seconds, zip(read.humidity_pct, read.temperature_c, strict=True), strict=True))
    compared = 0
    for noted in (one for one in watched.climate() if one["room"] == logged.LOG["room"]):
        at = datetime.fromisoformat(noted["at"])
        shift = 3600 if (at.month, at.day) > (10, 26) or at.year == 2026 else 0  # what the reader adds from there on
        written = by_time.get(at.replace(tzinfo=UTC).timestamp() + shift)
        if written is not None:
            place = 0 if noted["unit"] == "%" else 1
            assert written[place] == pytest.approx(noted["value"], abs=0.051)
            compared += 1
    assert compared > 100


def test_logger_is_in_the_book_and_can_be_read(shed_site: Site) -> None:
    """The office has its record, with the band of its past."""
    (log,) = shed_site.all("log")
    assert len(logs.days(shed_site, log)) > 394
    assert logs.levels(shed_site, log)
