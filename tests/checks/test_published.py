"""Published figures say where they come from."""

from __future__ import annotations

import pytest

from fieldbook.checks.material_rows import TABLE, table_rows
from tests.checks import published

FILES = sorted(published.FOLDER.glob("*.csv")) + [TABLE]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_file_of_figures_without_source_is_reported(path):
    """Every file of figures names its source, how it was transcribed and how sure it is, above the header."""
    above = [line for line in path.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    missing = [heading for heading in published.HEADINGS if not any(line.startswith(heading) for line in above)]
    assert not missing


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_file_of_figures_has_rows_of_equal_length(path):
    """No cell is missing, so no figure stands in a neighbour's column."""
    rows = published.rows(path.name) if path != TABLE else [dict(row) for row in table_rows()]
    assert rows
    assert all(None not in row and len(row) == len(rows[0]) for row in rows)
