"""What is tried only in the long run."""

from __future__ import annotations

from pathlib import Path

from tests.examples import is_long


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    """Power cuts take minutes, and a disk of their own."""
    return True if collection_path.name == "test_power_cut.py" and not is_long() else None
