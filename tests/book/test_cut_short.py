"""What is killed half way is never half there, and the same command said again does the whole."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.book.killed_at_calls import MAY_NOT
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


@pytest.mark.skipif(not shutil.which("strace"), reason="takes strace")
@pytest.mark.parametrize("what", ["rebuild", "new", "restore", "backup"] if is_long() else ["rebuild"])
def test_command_killed_in_the_midst_of_what_is_written_can_be_said_again(tmp_path: Path, what: str) -> None:
    """Killed where SQLite or anything else writes, moves or brings to disk, below all that Python sees."""
    command = [sys.executable, "-m", "tests.book.killed_at_calls", what, str(tmp_path), "1" if is_long() else "97"]
    # A temporary file that was made and not unlinked yet, when SQLite was killed, lies where its like belong.
    own = os.environ | {"SQLITE_TMPDIR": str(tmp_path)}
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False, timeout=3_000, env=own)
    if done.returncode == MAY_NOT:
        pytest.skip("strace may not look at another process here")
    assert done.returncode == 0, done.stderr
    said = json.loads(done.stdout)
    assert sum(said["killed"].values()) > 4
    assert said["wrong"] == []
