"""The set-up from Python alone: what it refuses, brings, says, and leaves as it is the second time."""

from __future__ import annotations

import ast
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from importlib.metadata import requires
from pathlib import Path

import pytest
from packaging.markers import default_environment
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from fieldbook import bootstrap
from fieldbook.set_up import layers, needs
from fieldbook.set_up.needs import INSTALL_COMMANDS, NEEDS, Need

ROOT = Path(__file__).resolve().parent.parent.parent
WORKERS = f"-n {min((os.cpu_count() or 1) + 2, 4)}"
PARTS = ("__init__.py", "bootstrap.py", "errors.py", *(f"set_up/{part}.py" for part in ("__init__", "layers", "needs")))
NPM = "/bin/mkdir -p node_modules/.bin && /bin/ln -sf /bin/true node_modules/.bin/tsc && echo brought >> ../../npm"
FLOUR = Need("flour, for the bread", lambda: Path("flour").exists(), dict.fromkeys(INSTALL_COMMANDS, ("flour-fine",)))


def pins(*names: str) -> dict[str, str]:
    """Package -> exact version, as the named lists lock it."""
    lines = [
        line
        for name in names
        for line in (ROOT / "fieldbook" / "set_up" / name).read_text(encoding="utf-8").splitlines()
    ]
    pairs = [line.rstrip(" \\").split("==") for line in lines if line and not line.startswith(("#", " "))]
    return {canonicalize_name(name): version for name, version in pairs}


def programs(folder: Path, **scripts: str) -> str:
    """Put shell scripts into a folder, for a path that holds nothing else."""
    for name, script in scripts.items():
        program = folder / name.replace("_", "-")
        program.write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
        program.chmod(0o755)
    return str(folder)


@pytest.fixture
def bare_path(tmp_path, monkeypatch):
    """A folder that is the whole path, and beside it a current folder without flour."""
    (tmp_path / "bin").mkdir()
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    monkeypatch.chdir(tmp_path)
    return tmp_path / "bin"


@pytest.fixture
def checkout(tmp_path):
    """A small checkout with the real set-up in it, whose only locked package stands in for pytest."""
    return small_checkout(tmp_path)


def small_checkout(folder):
    """Make it in this folder, without an environment."""
    package = folder / "a checkout" / "fieldbook"
    (package / "set_up").mkdir(parents=True)
    for part in PARTS:
        shutil.copy(ROOT / "fieldbook" / part, package / part)
    (package / "__main__.py").write_text("import sys\nprint('demonstration:', *sys.argv[1:])\n", encoding="utf-8")
    wheel = folder / "stand_in-1.0-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        archive.writestr("pytest.py", "import sys, fieldbook\nprint('tests:', *sys.argv[1:])\nsys.exit(5)\n")
        for checker in ("ruff", "mypy"):
            archive.writestr(f"{checker}.py", "import sys\nprint(*sys.argv[1:])\nsys.exit('wrong' in sys.argv)\n")
        archive.writestr("stand_in-1.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: stand-in\nVersion: 1.0\n")
        archive.writestr(
            "stand_in-1.0.dist-info/WHEEL", "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n"
        )
        archive.writestr("stand_in-1.0.dist-info/RECORD", "")
    for lock in (package / "set_up" / "locked.txt", package.parent / layers.TYPES / "package-lock.json"):
        lock.parent.mkdir(parents=True, exist_ok=True)
        lock.write_text("# nothing\n", encoding="utf-8")
    script = package.parent / "tests" / "js" / "sweep.test.js"
    script.parent.mkdir()
    script.touch()
    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    locked = f"stand-in @ {wheel.as_uri()} --hash=sha256:{digest}\n"
    (package / "set_up" / "locked-test.txt").write_text(locked, encoding="utf-8")
    return package.parent


def run_in(checkout: Path, path: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Start the set-up as a person does, with no package index and only these programs on the path."""
    environment = {"PATH": path, "HOME": os.environ.get("HOME", "/"), "PIP_NO_INDEX": "1"}
    return subprocess.run(
        [sys.executable, "-m", "fieldbook.bootstrap", *arguments],
        cwd=checkout,
        env=environment,
        capture_output=True,
        text=True,
    )


@pytest.mark.parametrize("part", PARTS)
def test_set_up_can_be_read_by_an_old_python(part):
    """A Python that is too old gets as far as the sentence that says so."""
    ast.parse((ROOT / "fieldbook" / part).read_text(encoding="utf-8"), feature_version=(3, 7))


@pytest.mark.parametrize(
    ("version", "system", "field", "value"),
    [
        ((3, 10, 13), "posix", "python", "3.10.13"),
        ((3, 9, 0), "nt", "python", "3.9.0"),
        ((3, 12, 1), "nt", "system", "nt"),
    ],
)
def test_unsuitable_python_or_system_is_refused(version, system, field, value):
    """An old Python and an unknown system are named, each as its own fault."""
    with pytest.raises(bootstrap.SetUpFailed) as refusal:
        bootstrap.refuse_unsuitable_python(version, system)
    assert (refusal.value.field, refusal.value.value) == (field, value)


def test_oldest_supported_python_is_the_one_declared():
    """The set-up and the project's metadata agree on the oldest Python."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["requires-python"] == ">={}.{}".format(*bootstrap.OLDEST_PYTHON)
    bootstrap.refuse_unsuitable_python((*bootstrap.OLDEST_PYTHON, 0), "posix")


@pytest.mark.parametrize(
    ("manager", "command"),
    [
        ("apt-get", "sudo apt-get install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 poppler-utils qpdf"),
        ("dnf", "sudo dnf install pango harfbuzz poppler-utils qpdf"),
        ("pacman", "sudo pacman -S --needed pango harfbuzz poppler qpdf"),
        ("brew", "brew install pango poppler qpdf"),
    ],
)
def test_command_to_type_is_that_of_the_package_manager(manager, command):
    """What is absent can be brought by one line, typed as it stands."""
    absent = [need for need in NEEDS if need.what.startswith(("Pango", "pdftoppm"))]
    assert needs.install_command(manager, absent).endswith(f": {command}")


def test_every_need_has_packages_for_every_package_manager():
    """No need leaves a person without a command to type; other engines than Chromium's are wanted where they are."""
    short = [need for need in NEEDS if set(need.packages) != set(INSTALL_COMMANDS)]
    assert [need.what.split(",")[0] for need in short] == ["WebKit's driver and Xvfb", "Firefox"]


@pytest.mark.parametrize(("manager", "is_wanted"), [("apt_get", True), ("dnf", False), ("nothing", False)])
def test_webkit_is_wanted_where_it_can_be_had(bare_path, manager, is_wanted):
    """On Debian the tests are not done without the engine of an iPhone; elsewhere they are."""
    programs(bare_path, **{manager: ""})
    assert any(need.what.startswith("WebKit") for need in needs.needed_for("test")) is is_wanted
    assert not any(need.what.startswith("WebKit") for need in needs.needed_for("demo"))


def test_absent_need_without_package_manager_is_named(bare_path, capsys):
    """On a system with none of the known package managers the need is told all the same."""
    assert needs.provide([FLOUR]) == [FLOUR]
    assert "Missing: flour, for the bread." in capsys.readouterr().out


def test_absent_need_is_installed_by_root_with_apt(bare_path, monkeypatch, capsys):
    """Root's apt-get fetches its lists and installs without a question, and nothing is left to type."""
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    programs(bare_path, env='shift; "$@"', apt_get=f': > flour; echo "$@" >> {bare_path}/said')
    assert needs.provide([FLOUR]) == []
    update, install = (bare_path / "said").read_text(encoding="utf-8").splitlines()
    assert update.endswith(" update")
    assert install.endswith(" install --yes --no-install-recommends flour-fine")
    assert "Missing" not in capsys.readouterr().out


def test_absent_need_is_installed_with_sudo_that_asks_no_password(bare_path, monkeypatch):
    """A person whose sudo asks nothing is spared the typing."""
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    programs(bare_path, sudo='[ "$1" = -n ] && [ "$2" = true ] || : > flour', apt_get="")
    assert needs.provide([FLOUR]) == []


def test_package_the_system_lacks_keeps_no_other_away(bare_path, monkeypatch):
    """Where all together fails for one that is not there, each is installed by itself."""
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    yeast = Need("yeast", lambda: False, dict.fromkeys(INSTALL_COMMANDS, ("yeast-none",)))
    lacking = 'case "$*" in *yeast-none*) exit 100;; *install*) : > flour;; esac'
    programs(bare_path, env='shift; "$@"', apt_get=lacking)
    assert needs.provide([yeast, FLOUR]) == [yeast]


@pytest.mark.parametrize("sudo", [{}, {"sudo": "exit 1"}])
def test_absent_need_is_only_told_to_a_person_without_rights(bare_path, monkeypatch, capsys, sudo):
    """Without root's rights nothing is tried; the command to type is said."""
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    programs(bare_path, apt_get=": > flour", **sudo)
    assert needs.provide([FLOUR]) == [FLOUR]
    assert "sudo apt-get install flour-fine" in capsys.readouterr().out


def test_failure_of_apt_is_told_with_its_reason(bare_path, monkeypatch, capsys):
    """What apt-get complains of is passed on, and the need stays absent."""
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    programs(bare_path, env='shift; "$@"', apt_get="echo 'E: No such package: flour'; echo done; exit 100")
    assert needs.provide([FLOUR]) == [FLOUR]
    assert "apt-get install failed: E: No such package: flour\n" in capsys.readouterr().out


def test_present_need_starts_nothing(bare_path, capsys):
    """When all is there, no package manager is looked for and nothing is said."""
    programs(bare_path, apt_get=f": > {bare_path}/said")
    Path("flour").touch()
    assert needs.provide([FLOUR]) == []
    assert not (bare_path / "said").exists()
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize(
    ("output", "line"),
    [
        ("Reading\nERROR: no room.\nbye\n", "ERROR: no room"),
        ("Error: [Errno 13] denied\n", "Error: [Errno 13] denied"),
        ("one\n\n  two  \n\n", "two"),
        ("", "it said nothing"),
    ],
)
def test_complaint_is_the_line_that_tells_what_went_wrong(output, line):
    """Of all that a program prints, its last error is passed on, or its last line."""
    assert needs.last_complaint(output) == line


@pytest.mark.parametrize("arguments", [[], ["dmeo"], ["--help"]])
def test_unknown_command_is_wrong_use(arguments, capsys):
    """Anything but demo or test is answered by one line that names the two."""
    assert bootstrap.main(arguments) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "demo" in said
    assert "test" in said


def test_demonstration_is_set_up_once_and_gets_its_arguments(checkout, bare_path):
    """The first run makes the environment and starts; the second starts at once; a changed lock is installed."""
    first = run_in(checkout, str(bare_path), "demo", "--port", "8123", "--dir", "a place")
    assert first.returncode == 0, first.stderr
    assert first.stdout.endswith("demonstration: demo --port 8123 --dir a place\n")
    assert "Making the virtual environment" in first.stdout
    second = run_in(checkout, str(bare_path), "demo")
    assert not re.search("Making|Installing", second.stdout)
    assert second.stdout.endswith("demonstration: demo\n")
    (checkout / "fieldbook" / "set_up" / "locked.txt").write_text("# still nothing\n", encoding="utf-8")
    third = run_in(checkout, str(bare_path), "demo")
    assert "Installing" in third.stdout
    assert "Making" not in third.stdout
    launched = subprocess.run(
        [checkout / ".venv/bin/fieldbook", "demo", "a b"], capture_output=True, text=True, cwd="/"
    )
    assert launched.stdout == "demonstration: demo a b\n"


EQUIPMENT = {"chromium": "", "pdftoppm": "", "qpdf": "", "node": "", "npm": NPM}


@pytest.fixture
def equipped(bare_path):
    """A path with stand-ins for all that the tests need."""
    return programs(bare_path, **EQUIPMENT)


@pytest.fixture(scope="session")
def furnished_checkout(tmp_path_factory):
    """A small checkout whose tests have run once: its environment and its type checker are there."""
    folder = tmp_path_factory.mktemp("furnished")
    (folder / "bin").mkdir()
    checkout = small_checkout(folder)
    done = run_in(checkout, programs(folder / "bin", **EQUIPMENT), "test", "-k", "nothing")
    assert done.stdout.endswith("tests: -k nothing\n"), done.stderr
    return checkout


def test_tests_get_their_arguments_and_their_exit_status(furnished_checkout, equipped):
    """The test packages are installed, pytest is given what was typed, and its exit status is handed back."""
    done = run_in(furnished_checkout, equipped, "test", "-k", "sweep")
    assert done.stdout.endswith("tests: -k sweep\n"), done.stderr
    assert done.returncode == 5


@pytest.mark.parametrize(
    ("arguments", "given", "not_given"),
    [
        ([], [WORKERS, "--hypothesis-profile=fixed", "--randomly-seed=1", "-m not alone"], []),
        (["--fast"], ["-n auto", "--hypothesis-profile=fixed", "--randomly-seed=1", "-m not slow"], ["alone"]),
        (["--long"], [WORKERS, "--hypothesis-profile=long", "--randomly-seed=default", "-m not alone"], []),
    ],
)
def test_layers_come_in_order(furnished_checkout, equipped, arguments, given, not_given):
    """Each layer before pytest is named as passed; then pytest gets what makes the run fixed, fast or long."""
    done = run_in(furnished_checkout, equipped, "test", *arguments)
    *said, last = done.stdout.splitlines()
    assert said[-5:] == [f"{name}: passed" for name in layers.checks("python", furnished_checkout)], done.stderr
    assert last.startswith("tests: -n ")
    assert [part for part in given if part not in last] == []
    assert [part for part in not_given if f" {part} " in last] == []
    assert done.returncode == 5


def test_failing_layer_is_shown_with_how_to_repeat_it(furnished_checkout, equipped, bare_path):
    """When a test in JavaScript fails, the whole does, with the runner's exit status and words; it knew the Python."""
    path = programs(bare_path, node='echo "not as $PYTHON_OF_TESTS says"; exit 3')
    done = run_in(furnished_checkout, path, "test")
    assert done.returncode == 3
    assert "format: passed" in done.stdout
    python = furnished_checkout.resolve() / ".venv" / "bin" / "python"
    again = "To repeat: node --test --test-reporter=dot tests/js/sweep.test.js\n"
    assert done.stdout.endswith(f"tests of the scripts: failed\nnot as {python} says\n{again}")


def test_type_checker_is_brought_once_for_each_lock(furnished_checkout, equipped, bare_path):
    """npm is asked when the lock has changed, and not again; where it cannot bring it, its own complaint is told."""
    brought = furnished_checkout / "npm"
    run_in(furnished_checkout, equipped, "test")
    before = brought.read_text(encoding="utf-8")
    (furnished_checkout / layers.TYPES / "package-lock.json").write_text("# another\n", encoding="utf-8")
    path = programs(bare_path, npm="echo 'npm error network'; exit 1")
    done = run_in(furnished_checkout, path, "test")
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert "npm error network" in done.stderr
    path = programs(bare_path, npm=NPM)
    for _ in range(2):
        run_in(furnished_checkout, path, "test")
    assert brought.read_text(encoding="utf-8") == before + "brought\n"


@pytest.mark.parametrize(
    ("free", "said", "lies"), [(3e9, {}, True), (1e6, {}, False), (3e9, {"TMPDIR": "/tmp"}, False)]
)
def test_files_of_tests_lie_in_memory_where_there_is_room(monkeypatch, tmp_path, free, said, lies):
    """A small disk in memory is left alone, and so is a place that was named."""
    monkeypatch.setattr(layers, "IN_MEMORY", tmp_path)
    monkeypatch.setattr(shutil, "disk_usage", lambda _: shutil._ntuple_diskusage(free, 0, free))
    monkeypatch.delenv("TMPDIR", raising=False)
    for name, value in said.items():
        monkeypatch.setenv(name, value)
    layers.lie_in_memory()
    assert (os.environ.get("TMPDIR") == str(tmp_path)) is lies


def test_tests_do_not_start_without_a_browser(checkout, bare_path):
    """What the tests need is named before any time is spent, with exit status 1 and no trace."""
    done = run_in(checkout, str(bare_path), "test")
    assert done.returncode == 1
    assert "Missing: Chromium" in done.stdout
    assert done.stderr.count("\n") == 1
    assert not (checkout / ".venv").exists()


def test_package_that_cannot_be_had_is_told_on_one_line(furnished_checkout, equipped):
    """Without a network the package that failed is named, and a later run takes up from there."""
    lock = furnished_checkout / "fieldbook" / "set_up" / "locked.txt"
    lock.write_text(f"not-to-be-had==1.0 --hash=sha256:{'0' * 64}\n", encoding="utf-8")
    failed = run_in(furnished_checkout, equipped, "demo")
    assert failed.returncode == 1
    assert failed.stderr.count("\n") == 1
    assert "not-to-be-had==1.0" in failed.stderr
    lock.write_text("# nothing again\n", encoding="utf-8")
    done = run_in(furnished_checkout, equipped, "demo")
    assert "Installing" in done.stdout
    assert done.stdout.endswith("demonstration: demo\n")


@pytest.mark.parametrize("digest", [f" --hash=sha256:{'0' * 64}", ""])
def test_package_whose_digest_is_not_the_locked_one_is_not_installed(furnished_checkout, equipped, digest):
    """What an index gives under the locked name and version is taken only if its bytes are the locked ones."""
    lists = furnished_checkout / "fieldbook" / "set_up"
    wanted = (lists / "locked-test.txt").read_text(encoding="utf-8").partition(" --hash")[0]
    (lists / "locked.txt").write_text(f"{wanted}{digest}\n", encoding="utf-8")
    failed = run_in(furnished_checkout, equipped, "demo")
    (lists / "locked.txt").write_text("# nothing at last\n", encoding="utf-8")
    assert (failed.returncode, "Installing" in failed.stdout) == (1, True)
    assert failed.stderr.startswith("pip could not install the locked packages")


def test_every_locked_package_has_digests():
    """No line of the lists could be filled by whatever an index gives."""
    for name in ("locked.txt", "locked-test.txt"):
        text = (ROOT / "fieldbook" / "set_up" / name).read_text(encoding="utf-8")
        blocks = re.split(r"\n(?=[A-Za-z])", "\n".join(line for line in text.splitlines() if not line.startswith("#")))
        assert len(blocks) == len(pins(name))
        assert [block for block in blocks if not re.search(r"--hash=sha256:[0-9a-f]{64}", block)] == []


def test_demonstration_goes_on_without_pango(monkeypatch, capsys):
    """Only what the demonstration cannot start without stops it; the rest is named."""
    monkeypatch.setattr(bootstrap, "prepare_environment", lambda locks: print("prepared"))
    monkeypatch.setattr(bootstrap, "provide", lambda wanted: [need for need in wanted if "Pango" in need.what])
    bootstrap.set_up("demo")
    assert capsys.readouterr().out.endswith("prepared\n")
    monkeypatch.setattr(bootstrap, "provide", lambda wanted: [need for need in wanted if "venv" in need.what])
    with pytest.raises(bootstrap.SetUpFailed):
        bootstrap.set_up("demo")


def test_every_direct_dependency_is_locked_within_its_bounds():
    """What pyproject.toml asks for is in the lists, at a version it allows."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    running, all_pins = pins("locked.txt"), pins("locked.txt", "locked-test.txt")
    extras = project["optional-dependencies"]
    for locked, wanted in (
        (running, project["dependencies"] + extras["lan"] + extras["heic"] + extras["dxf"]),
        (all_pins, extras["test"]),
    ):
        for requirement in map(Requirement, wanted):
            assert locked[canonicalize_name(requirement.name)] in requirement.specifier


@pytest.mark.parametrize("python", ["3.11", "3.12", "3.13"])
@pytest.mark.parametrize(("platform", "system"), [("linux", "Linux"), ("darwin", "Darwin")])
@pytest.mark.parametrize("lists", [("locked.txt",), ("locked.txt", "locked-test.txt")])
def test_locked_packages_need_nothing_that_is_not_locked(lists, python, platform, system):
    """Installed without looking for more, the lists leave no package short of another."""
    target = default_environment() | {
        "python_version": python,
        "python_full_version": f"{python}.0",
        "sys_platform": platform,
        "platform_system": system,
        "extra": "",
    }
    locked = pins(*lists) | {"pip": "26"}  # which every new environment holds
    for name in pins(*lists):
        for requirement in map(Requirement, requires(name) or []):
            if requirement.marker is None or requirement.marker.evaluate(target):
                assert locked[canonicalize_name(requirement.name)] in requirement.specifier, (
                    f"{name} needs {requirement}"
                )
