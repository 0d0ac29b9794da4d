"""Set Fieldbook up on a machine that has only Python, then start the demonstration or the tests.

    python3 -m fieldbook.bootstrap demo [what `fieldbook demo` takes]
    python3 -m fieldbook.bootstrap test            format, lint, types, scripts, all tests with fixed examples
    python3 -m fieldbook.bootstrap test --fast     the same without the slow tests
    python3 -m fieldbook.bootstrap test --long     all of it with random examples, and many more of them
    python3 -m fieldbook.bootstrap test [what pytest takes]

Standard library only, and written so that Python 3.7 can still read it: an old Python is then
refused in words, not with a trace. What pip cannot bring (Pango, fonts, a browser) comes from
the system's package manager where this may use it; elsewhere the command to type is printed.
"""

from __future__ import annotations

import hashlib
import json
import os
import shlex
import sys
import sysconfig
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import NoReturn

from .errors import FieldbookError, WrongUse
from .set_up.layers import PYTEST, install_type_checker, lie_in_memory, run_checks, stay_compiled
from .set_up.needs import last_complaint, needed_for, provide, run, say

OLDEST_PYTHON = (3, 11)
ROOT = Path(__file__).resolve().parent.parent
ENVIRONMENT = ROOT / ".venv"
PYTHON = ENVIRONMENT / "bin" / "python"
STAMP = ENVIRONMENT / "set-up.json"
LOCKS = {
    "demo": (ROOT / "fieldbook" / "set_up" / "locked.txt",),
    "test": (ROOT / "fieldbook" / "set_up" / "locked.txt", ROOT / "fieldbook" / "set_up" / "locked-test.txt"),
}


class SetUpFailed(FieldbookError):
    """The machine lacks something that cannot be brought from here."""

    code = "set-up-failed"


def refuse_unsuitable_python(version: tuple[int, ...], system: str) -> None:
    """Raise SetUpFailed for a Python that is too old, or a system this set-up does not know."""
    if version[:2] < OLDEST_PYTHON:
        raise SetUpFailed(
            "This is Python {}.{}; Fieldbook needs {}.{} or newer.".format(*version[:2], *OLDEST_PYTHON),
            "Install a newer one and start with it, for instance: python3.11 -m fieldbook.bootstrap demo.",
            field="python",
            value=".".join(map(str, version[:3])),
        )
    if system == "nt":
        raise SetUpFailed(
            "This set-up knows Linux and macOS, not Windows.",
            "On Windows run the same command inside its Linux subsystem (wsl).",
            field="system",
            value=system,
        )


def wanted_stamp(locks: Iterable[Path]) -> dict[str, str]:
    """What the environment must have been made from to be used as it is."""
    digests = {lock.name: hashlib.sha256(lock.read_bytes()).hexdigest() for lock in locks}
    return {"python": sys.version, "checkout": str(ROOT), **digests}


def is_set_up(wanted: Mapping[str, str]) -> bool:
    """Whether the environment was made from all of this."""
    return PYTHON.exists() and wanted.items() <= _read_stamp().items()


def _read_stamp() -> dict[str, str]:
    try:
        return dict(json.loads(STAMP.read_text(encoding="utf-8")))
    except (OSError, ValueError):
        return {}


def prepare_environment(locks: Sequence[Path]) -> None:
    """Make .venv hold exactly the locked versions and find this checkout; nothing when it does."""
    wanted = wanted_stamp(locks)
    if is_set_up(wanted):
        return
    if not _runs_this_python():
        say(f"Making the virtual environment {ENVIRONMENT}")
        made = run([sys.executable, "-m", "venv", "--clear", str(ENVIRONMENT)])
        if made.returncode:
            raise SetUpFailed(
                f"The virtual environment could not be made: {last_complaint(made.stdout)}.",
                f"See that {ROOT} can be written to and has room, then run the same command again.",
                field="environment",
                value=str(ENVIRONMENT),
            )
    install_packages(locks)
    _make_importable()
    STAMP.write_text(json.dumps({**_read_stamp(), **wanted}, indent=1), encoding="utf-8")


def _runs_this_python() -> bool:
    if not PYTHON.exists():
        return False
    answer = run([str(PYTHON), "-c", "import pip, sys; print(sys.version)"])
    return answer.returncode == 0 and answer.stdout.strip() == sys.version


def install_packages(locks: Iterable[Path]) -> None:
    """Install the locked versions, exactly, only files whose digests are locked too, and without looking for more."""
    say("Installing the locked Python packages; the first time this takes a minute or two")
    command = [str(PYTHON), "-m", "pip", "install", "--quiet", "--no-deps", "--no-input", "--disable-pip-version-check"]
    command.append("--require-hashes")
    for lock in locks:
        command += ["--requirement", str(lock)]
    done = run(command)
    if done.returncode:
        raise SetUpFailed(
            f"pip could not install the locked packages: {last_complaint(done.stdout)}.",
            "See that this machine has a network and reaches its package index, then run the same command again.",
            field="packages",
        )


def _make_importable() -> None:
    """Let the environment find this checkout, and put a `fieldbook` command into it."""
    packages = Path(sysconfig.get_path("purelib", "venv", vars={"base": str(ENVIRONMENT)}))
    (packages / "fieldbook.pth").write_text(f"{ROOT}\n", encoding="utf-8")
    launcher = PYTHON.with_name("fieldbook")
    launcher.write_text(f'#!/bin/sh\nexec {shlex.quote(str(PYTHON))} -m fieldbook "$@"\n', encoding="utf-8")
    launcher.chmod(0o755)


def set_up(command: str) -> None:
    """Everything that must be there before the command can start."""
    refuse_unsuitable_python(sys.version_info[:3], os.name)
    absent = provide(needed_for(command))
    if any(need.required or command == "test" for need in absent):
        raise SetUpFailed(
            f"The command {command} cannot start without what is named above.",
            "Install it, then run the same command again.",
            field="system",
        )
    if absent:
        say("Going on without: all but what is named above works.")
    prepare_environment(LOCKS[command])


def test(arguments: Sequence[str]) -> int:
    """Run the tests in layers, or pytest alone with what it is to be given; the status of a layer that failed."""
    os.chdir(ROOT)
    lie_in_memory()
    stay_compiled()
    layered = PYTEST.get(tuple(arguments))
    if layered is None:
        become("pytest", *arguments)
    install_type_checker(ROOT)
    return run_checks(str(PYTHON), ROOT, fast="--fast" in arguments) or become("pytest", *layered)


def become(module: str, *arguments: str) -> NoReturn:
    """Go on as a module of the environment, so that signals and the exit status are its own."""
    sys.stdout.flush()
    os.execv(PYTHON, [str(PYTHON), "-m", module, *arguments])  # noqa: S606 - no shell is wanted


def main(arguments: Sequence[str]) -> int:
    """Set up and start; the exit status is 2 for wrong use and 1 for a failed set-up."""
    try:
        if not arguments or arguments[0] not in LOCKS:
            raise WrongUse(
                "Say what to start: demo or test.",
                "Type python3 -m fieldbook.bootstrap demo, or … test.",
                field="command",
            )
        command, *rest = arguments
        set_up(command)
        if command == "demo":
            become("fieldbook", "demo", *rest)
        return test(rest)
    except FieldbookError as error:
        print(error, file=sys.stderr)
        return 2 if isinstance(error, WrongUse) else 1
    except OSError as error:
        print(f"The set-up stopped: {error}. See that {ROOT} can be written to and has room.", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
