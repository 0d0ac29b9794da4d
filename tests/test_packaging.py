"""What is installed from a wheel is all of Fieldbook, pages and templates with it."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from fieldbook import folders

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ("fieldbook", "demo_site", "static", "templates", "pyproject.toml", "README.md")
# What only a checkout needs: the lists of locked packages, and how data was made.
STAYS_BEHIND = {"fieldbook/set_up/locked.txt", "fieldbook/set_up/locked-test.txt"}
STAYS_BEHIND |= {f"fieldbook/demo_site/pictures/{name}.png" for name in ("phone", "face-page", "record-page")}
SHOW_PLACES = """
import json
from fieldbook import folders
print(json.dumps([str(folders.STATIC), str(folders.TEMPLATES), folders.demo_site().__name__]))
"""


def is_source(path: Path) -> bool:
    """Whether a file belongs to the sources, and is not something Python left beside them."""
    return path.is_file() and "__pycache__" not in path.parts


def installed_name(path: Path) -> str:
    """Where a file of the checkout lies in the wheel."""
    name = path.relative_to(ROOT).as_posix()
    return f"fieldbook/{name}" if name.startswith(("demo_site/", "static/", "templates/")) else name


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel built from a copy of the checkout, so that the building leaves nothing in it."""
    copy, out = tmp_path_factory.mktemp("checkout"), tmp_path_factory.mktemp("wheel")
    for name in SOURCES:
        if (ROOT / name).is_dir():
            shutil.copytree(ROOT / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(ROOT / name, copy)
    build = [
        sys.executable,
        "-c",
        "import sys; from setuptools import build_meta as b; b.build_wheel(sys.argv[1])",
        out,
    ]
    done = subprocess.run(build, cwd=copy, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    assert done.returncode == 0, done.stdout
    (built,) = out.glob("*.whl")
    return built


def test_wheel_holds_every_file_of_the_house(wheel):
    """No module, data file, page script or template is left out, and nothing else is put in."""
    folders = [ROOT / name for name in SOURCES if (ROOT / name).is_dir()]
    wanted = {
        installed_name(path) for folder in folders for path in folder.rglob("*") if is_source(path)
    } - STAYS_BEHIND
    with zipfile.ZipFile(wheel) as archive:
        held = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert held == wanted


def test_installed_package_finds_its_pages_and_templates(wheel, tmp_path):
    """Away from any checkout, scripts, templates and the invented site are found inside the package."""
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path)
    command = [sys.executable, "-c", SHOW_PLACES]
    told = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True).stdout
    inside = tmp_path.resolve() / "fieldbook"
    assert json.loads(told) == [str(inside / "static"), str(inside / "templates"), "fieldbook.demo_site"]


def test_checkout_finds_its_pages_and_templates():
    """In a checkout, static/ and templates/ are those beside the package."""
    assert (folders.STATIC, folders.TEMPLATES) == (ROOT / "static", ROOT / "templates")
