"""What Fieldbook needs of the system itself, that pip cannot bring: libraries, typefaces, programs.

Used by the set-up, so it is standard library only and readable by an old Python. Where this may
use apt-get it installs what is absent; elsewhere it says what to type.
"""

from __future__ import annotations

import ctypes
import importlib
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

INSTALL_COMMANDS = {
    "apt-get": "sudo apt-get install",
    "dnf": "sudo dnf install",
    "pacman": "sudo pacman -S --needed",
    "brew": "brew install",
}

# The names under which WeasyPrint looks for each library: Linux, then macOS.
PANGO_LIBRARIES = (
    ("libgobject-2.0.so.0", "libgobject-2.0.0.dylib"),
    ("libfontconfig.so.1", "libfontconfig.1.dylib"),
    ("libharfbuzz.so.0", "libharfbuzz.0.dylib"),
    ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib"),
    ("libpango-1.0.so.0", "libpango-1.0.dylib"),
    ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib"),
)
FONT_FOLDERS = (
    "/usr/share/fonts",
    "/usr/local/share/fonts",
    "~/.local/share/fonts",
    "~/.fonts",
    "/Library/Fonts",
    "~/Library/Fonts",
)


@dataclass(frozen=True)
class Need:
    """Something of the system's own that pip cannot bring.

    what      in plain words, with what it is for
    present   whether it is there
    packages  its packages' names, by package manager; done without where a manager is not named
    only_for  the one command that uses it, or None for both
    required  whether the demonstration cannot start without it; the tests want everything
    """

    what: str
    present: Callable[[], bool]
    packages: Mapping[str, tuple[str, ...]]
    only_for: str | None = None
    required: bool = False


def has_modules_for_environments() -> bool:
    """Whether this Python can make a virtual environment; some systems pack that apart."""
    importlib.invalidate_caches()
    return all(find_spec(name) for name in ("venv", "ensurepip"))


def has_pango() -> bool:
    """Whether every library that sets the record's type can be loaded."""
    return all(any(map(_loads, names)) for names in PANGO_LIBRARIES)


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def has_fonts() -> bool:
    """Whether Inter, and DejaVu Sans for the signs Inter lacks, lie in a folder for fonts."""
    folders = [Path(folder).expanduser() for folder in FONT_FOLDERS]
    return all(any(any(folder.rglob(name)) for folder in folders) for name in ("Inter[-.V]*", "DejaVuSans[-.]*"))


def has_program(*names: str) -> bool:
    """Whether one of these programs is on the path."""
    return any(map(shutil.which, names))


def has_webkit() -> bool:
    """Whether WebKit can be driven, on a display that shows nothing."""
    browsers = Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")
    return has_program("WebKitWebDriver") and has_program("Xvfb") and any(browsers)


NEEDS = (
    Need(
        "Python's own modules venv and ensurepip, for the virtual environment",
        has_modules_for_environments,
        {
            "apt-get": ("python{}.{}-venv".format(*sys.version_info),),
            "dnf": ("python3-libs",),
            "pacman": ("python",),
            "brew": ("python",),
        },
        required=True,
    ),
    Need(
        "Pango and HarfBuzz, for the record as PDF",
        has_pango,
        {
            "apt-get": ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0"),
            "dnf": ("pango", "harfbuzz"),
            "pacman": ("pango", "harfbuzz"),
            "brew": ("pango",),
        },
    ),
    Need(
        "the typefaces Inter and DejaVu Sans, for the record as PDF",
        has_fonts,
        {
            "apt-get": ("fonts-inter", "fonts-dejavu-core"),
            "dnf": ("rsms-inter-fonts", "dejavu-sans-fonts"),
            "pacman": ("inter-font", "ttf-dejavu"),
            "brew": ("font-inter", "font-dejavu"),
        },
    ),
    Need(
        "Chromium, for the tests of the pages",
        lambda: has_program("chromium", "chromium-browser"),
        dict.fromkeys(INSTALL_COMMANDS, ("chromium",)),
        only_for="test",
    ),
    Need(
        "pdftoppm and qpdf, for the tests of the record",
        lambda: has_program("pdftoppm") and has_program("qpdf"),
        {
            "apt-get": ("poppler-utils", "qpdf"),
            "dnf": ("poppler-utils", "qpdf"),
            "pacman": ("poppler", "qpdf"),
            "brew": ("poppler", "qpdf"),
        },
        only_for="test",
    ),
    Need(
        "Node.js and npm, for the tests of the scripts and the check of their types",
        lambda: has_program("node") and has_program("npm"),
        {
            "apt-get": ("nodejs", "npm"),
            "dnf": ("nodejs", "nodejs-npm"),
            "pacman": ("nodejs", "npm"),
            "brew": ("node",),
        },
        only_for="test",
    ),
    Need(
        "WebKit's driver and Xvfb, for the test of the app in the engine of an iPhone",
        has_webkit,
        {"apt-get": ("webkit2gtk-driver", "xvfb")},
        only_for="test",
    ),
    Need(
        "Firefox, for the test of the app in its engine",
        lambda: has_program("firefox-esr", "firefox"),
        {"apt-get": ("firefox-esr",), "dnf": ("firefox",), "pacman": ("firefox",)},
        only_for="test",
    ),
)


def say(line: str) -> None:
    """One plain line about what is being done, at once."""
    print(line, flush=True)


def package_manager() -> str | None:
    """The system's package manager, of those whose package names are known here."""
    return next((manager for manager in INSTALL_COMMANDS if shutil.which(manager)), None)


def needed_for(command: str) -> list[Need]:
    """What a command needs on this system."""
    manager = package_manager()
    wanted = [need for need in NEEDS if need.only_for in (None, command)]
    return [need for need in wanted if manager in need.packages or set(need.packages) == set(INSTALL_COMMANDS)]


def way_to_root() -> list[str] | None:
    """What to put before a command so that it runs as root: nothing, sudo, or None when it may not."""
    if os.geteuid() == 0:
        return []
    if shutil.which("sudo") and run(["sudo", "-n", "true"]).returncode == 0:
        return ["sudo", "-n"]
    return None


def install_command(manager: str | None, needs: Iterable[Need]) -> str:
    """What to type to bring these, with that package manager."""
    needs = list(needs)
    if manager is None:
        return "No package manager known here was found; bring them in this system's own way."
    return "Install with: " + " ".join([INSTALL_COMMANDS[manager], *packages_for(manager, needs)])


def packages_for(manager: str, needs: Iterable[Need]) -> list[str]:
    """The packages that bring these needs, in order."""
    return [package for need in needs for package in need.packages[manager]]


def provide(needs: Sequence[Need]) -> list[Need]:
    """Bring what is absent where that is allowed; say what still is, and what to type; give that back."""
    absent = [need for need in needs if not need.present()]
    manager = package_manager() if absent else None
    prefix = way_to_root() if manager == "apt-get" else None
    if prefix is not None:
        install_with_apt(prefix, packages_for("apt-get", absent))
        absent = [need for need in absent if not need.present()]
        # One package that a system does not have keeps all the others away.
        for need in absent if len(absent) > 1 else ():
            install_with_apt(prefix, packages_for("apt-get", [need]))
        absent = [need for need in absent if not need.present()]
    for need in absent:
        say(f"Missing: {need.what}.")
    if absent:
        say(install_command(manager, absent))
    return absent


def install_with_apt(prefix: list[str], packages: list[str]) -> None:
    """Install Debian packages; a failure is said, and shows itself again in what is still absent."""
    say(f"Installing with apt-get, which may take some minutes: {' '.join(packages)}")
    apt = [*prefix, "env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q", "-o", "DPkg::Lock::Timeout=120"]
    for step in (["update"], ["install", "--yes", "--no-install-recommends", *packages]):
        done = run([*apt, *step])
        if done.returncode:
            say(f"apt-get {step[0]} failed: {last_complaint(done.stdout)}")


def last_complaint(output: str) -> str:
    """The line of a program's output that says what went wrong: its last error, or else its last line."""
    lines = [line.strip() for line in output.splitlines() if line.strip()] or ["it said nothing"]
    errors = [line for line in lines if line.lower().startswith(("e:", "error"))]
    return (errors or lines)[-1].rstrip(".")


def run(command: Sequence[str], folder: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run a command that asks nothing, here or in a folder, keeping all it says."""
    return subprocess.run(
        command,
        cwd=folder,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        errors="replace",
    )
