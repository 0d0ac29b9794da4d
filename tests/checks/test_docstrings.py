"""Every method can be audited from its docstring: where it comes from, in which units, and by an example."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType

import pytest

from fieldbook import checks

MODULES = sorted(module.name for module in pkgutil.walk_packages(checks.__path__))

# Modules, and single functions as module.function, that are no methods and so have no source.
NO_METHODS = {
    "cautions": "chooses words; reckons nothing",
    "material_rows": "reads the table of materials; its rows carry their sources",
    "limits": "compares and rounds numbers of any unit, which is given beside them",
    "verdict": "the shape of an answer, in any unit",
    "logger.lines_of": "turns bytes into text",
    "keep_off.outline_of": "the same outline in another shape",
    "sweep.outline": "a picture of the leaf, not a figure",
}

# How a parameter's name ends when it tells the unit, and how a docstring's line tells it otherwise.
UNIT_ENDINGS = (
    *("mm", "mm2", "mm4", "cm", "m", "m2", "m3", "km"),
    *("kg", "g", "n", "kn", "nm", "nmm", "n_mm", "pa", "kpa", "mpa", "n_mm2", "kg_m3"),
    *("c", "k", "pct", "lx", "lx_h", "klx_h", "w", "wh", "deg", "rad"),
    *("s", "min", "h", "days", "months", "years", "ppm", "um", "px", "count", "ratio"),
)
UNIT_WORDS = re.compile(
    r"mm[²2⁴4]?|µW/lm|\bm[²³]?\b|µm|\bkg\b|\bg\b|\bk?N\b|N·m|\b[kM]?Pa\b|°C?|\bK\b|%|\blx\b|\bW\b|"
    r"\b(?:s|h|seconds|minutes|hours|days|months|years)\b|"
    r"without unit|no unit|dimensionless|grade|the same|number of|how many|fraction"
)


def methods_in(module: ModuleType) -> Iterator[tuple[str, Callable[..., object]]]:
    """The public functions a module defines, by module.function, but for those that are no methods."""
    short = module.__name__.removeprefix(f"{checks.__name__}.")
    for name, function in inspect.getmembers(module, inspect.isfunction):
        apart = {short, f"{short}.{name}"} & NO_METHODS.keys()
        if function.__module__ == module.__name__ and not name.startswith("_") and not apart:
            yield f"{short}.{name}", function


def findings_about(name: str, function: Callable[..., object]) -> Iterator[str]:
    """What an auditor would miss in a method's docstring, in words."""
    docstring = inspect.getdoc(function) or ""
    if not re.search(r"^Sources?: \S", docstring, re.MULTILINE):
        yield f"{name}: no line of its docstring begins with “Source: ”"
    for parameter in inspect.signature(function).parameters.values():
        if re.search(r"\b(?:float|int)\b", _words(parameter.annotation)) and not _has_unit(parameter.name, docstring):
            yield f"{name}: neither the name {parameter.name} nor a line about it in the docstring tells its unit"


def _words(annotation: object) -> str:
    return annotation if isinstance(annotation, str) else inspect.formatannotation(annotation)


def _has_unit(parameter: str, docstring: str) -> bool:
    if parameter.endswith(tuple(f"_{ending}" for ending in UNIT_ENDINGS)):
        return True
    about = re.findall(rf"\b{parameter}\b(.*)", docstring.split(">>>")[0])
    return any(UNIT_WORDS.search(line) for line in about)


@pytest.mark.parametrize("name", MODULES)
def test_every_method_tells_its_source_and_units(name):
    """Whoever doubts a method finds its source and the unit of each number it takes."""
    module = importlib.import_module(f"{checks.__name__}.{name}")
    findings = [finding for method in methods_in(module) for finding in findings_about(*method)]
    assert not findings, "\n".join(findings)


@pytest.mark.parametrize("name", MODULES)
def test_every_example_in_a_docstring_holds(name):
    """The examples can be typed as they stand, and give what they say."""
    assert doctest.testmod(importlib.import_module(f"{checks.__name__}.{name}")).failed == 0


@pytest.mark.parametrize("name", sorted(NO_METHODS))
def test_every_exception_is_still_there(name):
    """An exception goes when what it was made for goes."""
    module, _, function = name.partition(".")
    assert module in MODULES
    assert not function or hasattr(importlib.import_module(f"{checks.__name__}.{module}"), function)


def without_anything(load: float) -> float:
    """Twice the load."""
    return 2 * load


def with_everything(load_n: float, reaction: float, name: str, corners: tuple[float, float]) -> float:
    """Something of a load.

    reaction  the wall's share, no unit, 0 to 1
    corners   x and z, mm

    Source: arithmetic.
    """
    return load_n * reaction * corners[0] * len(name)


def test_method_without_source_and_unit_is_reported():
    """A missing source and a number without a unit are each told."""
    source, unit = findings_about("loads.without_anything", without_anything)
    assert "Source" in source
    assert "load" in unit


def test_units_in_names_and_in_docstrings_both_count():
    """A unit may stand at the end of the name or in the docstring's line about it."""
    assert list(findings_about("loads.with_everything", with_everything)) == []
