"""Loggers' files for made-up sites, written once: fourteen months, three days, and one that is no logger's."""

from __future__ import annotations

import atexit
import shutil
import tempfile
from functools import lru_cache
from pathlib import Path
from random import Random
from typing import Any

from fieldbook.book.evidence import keep
from tests.findings.climate import hours

FOLDER = Path(tempfile.mkdtemp())  # here, since a test must leave nothing behind that it made
atexit.register(shutil.rmtree, FOLDER, ignore_errors=True)


@lru_cache(maxsize=1)
def _kept() -> tuple[str, ...]:
    files = (hours("2029-12-01T00:00:00+00:00", 24 * 420), hours("2031-01-01T00:00:00+00:00", 72), ["no reading"])
    return tuple(keep(FOLDER, "log", "\n".join(["time;RH;T", *lines]).encode()) for lines in files)


def some(chance: Random) -> dict[str, Any]:
    """The fields of a logger's file that name one of them and its columns."""
    named = {"time_column": "time", "humidity_column": "RH", "temperature_column": "T", "date_column": None}
    return named | {"sha256": chance.choice(_kept()), "date_order": None}
