"""Commands killed at calls of the system, SQLite's own among them, then said again: a script for a process of its own.

What Python tells of itself (`cut_short`) does not show what SQLite writes. Wants strace, which does the killing.

    python -m tests.book.killed_at_calls new|restore|backup|rebuild FOLDER EVERY

Prints as JSON how often it killed at each call, and what was not as it must be afterwards; ends with 3 where strace
may not look at another process.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from tests.book.cut_short import COMMANDS, found

CALLS = ("pwrite64", "write", "ftruncate", "fsync", "fdatasync", "rename", "unlink", "unlinkat", "mkdir", "rmdir")
MAY_NOT = 3  # how this ends where strace may not look at another process


def is_killed(act: Callable[[], object], call: str, number: int) -> bool:
    """Do it in a child that is killed as it makes this call the numberth time; False once it comes to its end."""
    ready, begin = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(begin)
        os.read(ready, 1)
        try:
            act()
        finally:
            os._exit(0)
    os.close(ready)
    injecting = ["-e", f"trace={call}", "-e", f"inject={call}:signal=KILL:when={number}"]
    tracer = subprocess.Popen(["strace", "-f", "-qq", "-o", "/dev/null", *injecting, "-p", str(child)])
    while "TracerPid:\t0\n" in Path(f"/proc/{child}/status").read_text():
        if tracer.poll() is not None:
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            raise SystemExit(MAY_NOT)
        os.sched_yield()
    os.close(begin)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    tracer.wait()
    return code == -signal.SIGKILL


def main(what: str, folder: Path, every: int) -> None:
    """Kill at each call the first time, the next, and so on to the last, each time from the start."""
    act, wrong, made = COMMANDS[what](folder)
    killed: Counter[str] = Counter()
    told: list[str] = []
    for call in CALLS:
        number = 1
        while is_killed(act, call, number):
            killed[call] += 1
            told += found(wrong, made, f"{call} {number}")
            number += every
        told += found(wrong, made, f"all without {call} {number}")
    print(json.dumps({"killed": killed, "wrong": told}))


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]))
