"""Where the phone's files and the templates lie: beside the package in a checkout, inside it once installed."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _folder(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


STATIC = _folder("static")
TEMPLATES = _folder("templates")
