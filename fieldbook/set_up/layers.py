"""The tests in layers: format, lint, types and scripts side by side, then pytest's fast tests, then the rest.

Used by the set-up, so it is standard library only and readable by an old Python.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from ..errors import FieldbookError
from .needs import last_complaint, run, say

TYPES = Path("tests") / "types"
INSTALLED = TYPES / "node_modules" / "locked.json"
# A disk in memory: every entry of every test book is written through to disk, which costs nothing there.
IN_MEMORY, ROOM_BYTES = Path("/dev/shm"), 2_000_000_000  # noqa: S108 - pytest makes a folder of its own in it
LONG_S = 24 * 60 * 60  # what one test of the long run may take before it is taken to hang
MOST_WORKERS = 4
# Two processes more than there are cores, for those that wait for a browser or a server.
EVERY_CORE = ("-n", str(min((os.cpu_count() or 1) + 2, MOST_WORKERS)), "--dist=loadgroup")
# The same examples in the same order each time.
FIXED = ("--hypothesis-profile=fixed", "--randomly-seed=1")
ALONE, BESIDE_OTHERS = "alone", "not alone"
PYTEST = {
    (): (*EVERY_CORE, *FIXED, "-m", BESIDE_OTHERS),
    # Nothing here waits: a process for each core.
    ("--fast",): ("-n", "auto", f"--maxprocesses={MOST_WORKERS}", "--dist=loadgroup", *FIXED, "-m", "not slow"),
    # Other examples each time, and many more of them; the header says the seed.
    ("--long",): (
        *EVERY_CORE,
        "--hypothesis-profile=long",
        "--randomly-seed=default",
        "-o",
        f"faulthandler_timeout={LONG_S}",
        "-m",
        BESIDE_OTHERS,
    ),
}


class TypeCheckerMissing(FieldbookError):
    """TypeScript, which checks the scripts' types, could not be installed."""

    code = "type-checker-missing"


def checks(python: str, root: Path, *, fast: bool = False) -> Mapping[str, Sequence[str]]:
    """What each layer before pytest is called, and the command that runs it in the checkout.

    fast  without the tests that other browsers beside them would disturb: nothing else starts one meanwhile
    """
    browsers = root / "tests" / "browser"
    alone = (python, "-m", "pytest", "-q", "-m", ALONE, *FIXED, str(browsers.relative_to(root)))
    scripts = sorted(str(script.relative_to(root)) for script in (root / "tests" / "js").rglob("*.test.js"))
    return {
        "format": (python, "-m", "ruff", "format", "--check", "."),
        "lint": (python, "-m", "ruff", "check", "."),
        "types": (python, "-m", "mypy"),
        "types of the scripts": (str(TYPES / "node_modules" / ".bin" / "tsc"), "--project", str(TYPES)),
        "tests of the scripts": ("node", "--test", "--test-reporter=dot", *scripts),
    } | ({} if fast or not browsers.is_dir() else {"tests that run alone": alone})


def run_checks(python: str, root: Path, *, fast: bool) -> int:
    """Run every layer before pytest, all at once; say how each ended, in order. The first status that is not 0."""

    def outcome(command: Sequence[str]) -> subprocess.CompletedProcess[str]:
        return run(command, root)

    os.environ["PYTHON_OF_TESTS"] = python  # the scripts' tests ask it what the desk says
    layers = checks(python, root, fast=fast)
    with ThreadPoolExecutor() as pool:
        done = dict(zip(layers, pool.map(outcome, layers.values()), strict=True))
    for name, one in done.items():
        say(f"{name}: {'failed' if one.returncode else 'passed'}")
        if one.returncode:
            say(f"{one.stdout.rstrip()}\nTo repeat: {' '.join(map(str, one.args))}")
    return next((one.returncode for one in done.values() if one.returncode), 0)


def install_type_checker(root: Path) -> None:
    """Let npm install exactly the TypeScript that is locked; nothing when it is there.

    Raises TypeCheckerMissing.
    """
    lock = root / TYPES / "package-lock.json"
    wanted = {"locked": hashlib.sha256(lock.read_bytes()).hexdigest()}
    installed = root / INSTALLED
    if installed.exists() and json.loads(installed.read_text(encoding="utf-8")) == wanted:
        return
    say("Installing the locked TypeScript, which checks the types of the scripts")
    done = run([shutil.which("npm") or "npm", "ci", "--no-audit", "--no-fund", "--loglevel=error"], root / TYPES)
    if done.returncode:
        raise TypeCheckerMissing(
            f"npm could not install TypeScript: {last_complaint(done.stdout)}.",
            "See that this machine has a network and reaches npm's registry, then run the same command again.",
            field="packages",
        )
    installed.write_text(json.dumps(wanted), encoding="utf-8")


def lie_in_memory() -> None:
    """Let the tests' files lie in memory where there is room for them, unless it was said where they are to lie."""
    is_there = "TMPDIR" not in os.environ and os.access(IN_MEMORY, os.W_OK)
    if is_there and shutil.disk_usage(IN_MEMORY).free >= ROOM_BYTES:
        os.environ["TMPDIR"] = str(IN_MEMORY)


def stay_compiled() -> None:
    """Let Python keep what it compiled: the tests start hundreds of programs, each of which would compile it anew."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
