"""Where scripts, templates and the invented site lie: beside the package in a checkout, inside it once installed."""

from __future__ import annotations

import os
from importlib import import_module
from pathlib import Path
from types import ModuleType

PACKAGE = Path(__file__).resolve().parent


def _folder(name: str) -> Path:
    inside = PACKAGE / name
    return inside if inside.is_dir() else PACKAGE.parent / name


STATIC = _folder("static")
TEMPLATES = _folder("templates")


def environment_of_a_child() -> dict[str, str]:
    """This process's environment, in which a child finds this very package."""
    return os.environ | {
        "PYTHONPATH": os.pathsep.join(filter(None, (str(PACKAGE.parent), os.environ.get("PYTHONPATH"))))
    }


def demo_site() -> ModuleType:
    """The package that makes the invented site."""
    inside = (PACKAGE / "demo_site").is_dir()
    return import_module("fieldbook.demo_site" if inside else "demo_site")
