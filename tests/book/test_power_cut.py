"""What was acknowledged is there when the power comes back."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
MAY = os.geteuid() == 0 and Path("/dev/loop-control").exists() and bool(shutil.which("mkfs.ext4"))


@pytest.mark.slow
@pytest.mark.skipif(not MAY, reason="takes root, loop devices and mkfs.ext4")
def test_acknowledged_is_there_after_a_power_cut() -> None:
    """Entries, photographs and backups are in an image of the disk that was taken with nothing flushed for it."""
    command = [sys.executable, "-m", "tests.book.power_cut", "20"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 0, done.stdout + done.stderr
