"""Published figures for the tests: one CSV each, its source, transcription and status in the lines above the header."""

from __future__ import annotations

import csv
from pathlib import Path

FOLDER = Path(__file__).parent / "data"
HEADINGS = ("# source: ", "# transcription: ", "# status: ")


def rows(name: str) -> list[dict[str, float | str]]:
    """The rows of a file of published figures, numbers as numbers."""
    with (FOLDER / name).open(encoding="utf-8", newline="") as lines:
        read = csv.DictReader(line for line in lines if not line.startswith("#"))
        return [{key: _value(cell) for key, cell in row.items()} for row in read]


def _value(cell: str) -> float | str:
    try:
        return float(cell)
    except ValueError:
        return cell
