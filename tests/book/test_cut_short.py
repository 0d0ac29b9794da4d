"""What is killed half way is never half there, and the same command said again does the whole."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.examples import is_long

pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(("what", "every"), [("new", 3), ("restore", 7), ("backup", 5)])
def test_command_killed_anywhere_can_be_said_again(tmp_path: Path, what: str, every: int) -> None:
    """Killed where it touches the file system, a command leaves a whole book or none, and then runs to its end."""
    command = [sys.executable, "-m", "tests.book.cut_short", what, str(tmp_path), "1" if is_long() else str(every)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=600)
    assert done.returncode == 0, done.stderr
    said = json.loads(done.stdout)
    assert said["killed"] > 4
    assert said["wrong"] == []
