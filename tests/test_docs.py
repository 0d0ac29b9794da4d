"""The documents say what is so."""

from __future__ import annotations

import argparse
import re
import tomllib
from pathlib import Path

import pytest

from fieldbook.calculations.catalogue import CALCULATIONS
from fieldbook.cli import main, parser
from fieldbook.set_up.layers import PYTEST

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "fieldbook", "static", "templates", "tests", "demo_site"}


def commands() -> dict[str, argparse.ArgumentParser]:
    """The commands of the program with their parsers."""
    (action,) = [one for one in parser()._actions if isinstance(one, argparse._SubParsersAction)]
    return dict(action.choices)


@pytest.mark.parametrize("name", sorted(set(commands()) - {"demo"}))
def test_every_command_stands_in_the_readme(name: str) -> None:
    """A command that nobody can read about is not there."""
    assert f"fieldbook {name} " in README


def test_every_option_the_readme_names_exists() -> None:
    """An option shown in the README's commands is one the command takes."""
    for name, options in re.findall(r"^fieldbook ([\w-]+)([^\n]*)", README, re.MULTILINE):
        known = {option for action in commands()[name]._actions for option in action.option_strings}
        assert set(re.findall(r"(?<!\S)--?[a-z][a-z-]*", options)) <= known


def test_both_set_up_commands_stand_in_the_readme_and_exist() -> None:
    """The two commands that do all the set-up are those of the bootstrap."""
    assert re.findall(r"^python3 -m fieldbook\.bootstrap (\w+)$", README, re.MULTILINE) == ["demo", "test"]
    assert (ROOT / "fieldbook" / "bootstrap.py").exists()


def test_every_way_to_run_the_tests_is_one_there_is() -> None:
    """The options the guide names are those of the set-up, all of them, and the files and scripts it names exist."""
    named = re.findall(r"^\| `python3 -m fieldbook\.bootstrap test ?([^`]*)`", DEVELOPERS, re.MULTILINE)
    assert {tuple(one.split()) for one in named if one.startswith("--") or not one} == set(PYTEST)
    paths = [word for one in named for word in one.split() if word.startswith("tests/")]
    paths += [f"{name.replace('.', '/')}.py" for name in re.findall(r"-m (tests\.[\w.]+)", DEVELOPERS)]
    assert paths
    assert [path for path in paths if not (ROOT / path).exists()] == []


def test_dependency_table_equals_the_bounds_in_pyproject() -> None:
    """Each runtime dependency has its bounds and a reason in DEVELOPERS.md; at most nine are needed to run at all."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    asked = project["dependencies"] + extras["lan"] + extras["heic"] + extras["dxf"]
    wanted = dict(re.match(r"([A-Za-z-]+)(.*)", one).groups() for one in asked)  # type: ignore[union-attr]
    table = re.findall(r"^\| ([A-Za-z-]+) \| (>=[^|]+) \| ([^|]+) \|$", DEVELOPERS, re.MULTILINE)
    assert {name: bounds for name, bounds, reason in table if reason.strip()} == wanted
    assert len(project["dependencies"]) <= 9


def test_top_level_holds_nothing_but_what_belongs_there() -> None:
    """A newcomer sees the design in the listing."""
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    made_by_tools = {name for name in found if name.endswith(".egg-info") or name in {"build", "__pycache__"}}
    assert found - made_by_tools == TOP_LEVEL


@pytest.mark.parametrize(
    "path", sorted(set(re.findall(r"`((?:fieldbook|static|templates|tests)/[\w./-]+)`", DEVELOPERS)))
)
def test_every_file_the_developers_page_names_exists(path: str) -> None:
    """A file named for contributors is there."""
    assert (ROOT / path.split("…")[0]).exists()


def test_every_calculation_is_listed_with_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    """`fieldbook calc` alone says of each calculation, in a sentence, what it is for."""
    assert main(["calc"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == sorted(CALCULATIONS)
    assert all(re.search(r"  [A-Z].{20,}\.$", line) for line in lines)
