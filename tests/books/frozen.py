"""The frozen books, taken out of their archives, and descriptions of kinds that differ from this version's."""

from __future__ import annotations

import dataclasses
import json
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest

from fieldbook.model.description import Kind
from fieldbook.model.fields import Field
from fieldbook.model.kinds import KINDS

HERE = Path(__file__).parent
VERSIONS = sorted(path.stem for path in HERE.glob("*.zip"))


def unpacked(version: str, folder: Path) -> Path:
    """The folder of a frozen book, as that version left it."""
    with zipfile.ZipFile(HERE / f"{version}.zip") as archive:
        archive.extractall(folder)
    (folder / "contents.json").unlink()
    return folder


def said_by(version: str) -> dict[str, Any]:
    """What that version said of its kinds and of the book's items."""
    return json.loads((HERE / f"{version}.json").read_text(encoding="utf-8"))


def ids_by_kind(version: str) -> dict[str, str]:
    """The first item of each kind of a frozen book."""
    ids: dict[str, str] = {}
    for item, values in said_by(version)["items"].items():
        ids.setdefault(values["kind"], item)
    return ids


def registry_of(page: str) -> dict[str, Any]:
    """The description of every kind, as the phone's page brings it."""
    found = re.search(r'id="registry">(.*?)</script>', page)
    assert found
    return json.loads(found[1])


def describe(monkeypatch: pytest.MonkeyPatch, kind: Kind) -> None:
    """Let a kind be described so from here on, as if it stood so in `kinds.py`."""
    monkeypatch.setitem(KINDS, kind.name, kind)  # type: ignore[arg-type]


def changed(kind: Kind, field: str, /, **more: Any) -> Kind:
    """A kind with one field described otherwise."""
    return dataclasses.replace(kind, fields=tuple(field_changed(one, field, **more) for one in kind.fields))


def field_changed(one: Field, named: str, /, **more: Any) -> Field:
    """A field or column described otherwise, if it is the one of this name."""
    return dataclasses.replace(one, **more) if one.name == named else one


def without(kind: Kind, *names: str) -> Kind:
    """A kind as a version described it that did not have these fields yet."""
    return dataclasses.replace(kind, fields=tuple(one for one in kind.fields if one.name not in names))


def with_more(kind: Kind, *fields: Field) -> Kind:
    """A kind with further fields at its end."""
    return dataclasses.replace(kind, fields=(*kind.fields, *fields))
