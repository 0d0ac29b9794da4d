"""Layers described once under a name: faces and fittings take them by it, and follow when they are changed.

What has the layers of a build-up is taken to be made so: what was changed on a face or a fitting alone stays.
static/phone/book/build_ups.js takes them by their names as well; tests/cases/build_ups.json holds the two together.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..model.choices import PLANNED
from .makes import Following
from .site import Item, Site

KIND = "build_up"
TAKEN_BY = {"layers": "face", "build_up": "fitting"}  # field of a build-up, and of what takes it over -> kind of that


def by_name(site: Site, kind: str, field: str) -> dict[str, list[list[Any]]]:
    """Name -> layers of the build-ups that this field of a kind can take."""
    if TAKEN_BY.get(field) != kind:
        return {}
    return {one.name: one.values[field] for one in site.all(KIND) if one.values[field]}


def layers_named(site: Site, kind: str, field: str, text: str) -> list[list[Any]] | None:
    """The layers of the build-up that a text names, in small or large letters; None where it names none."""
    named = {name.lower(): rows for name, rows in by_name(site, kind, field).items()}
    return named.get(text.strip().lower())


def following(site: Site, build_up: Item, changed: Mapping[str, Any]) -> Following:
    """What follows a change of layers: planned fittings take it over; faces, and what stands, are asked about."""
    lines, taken_over, standing = [], [], []
    for field, kind in TAKEN_BY.items():
        before = build_up.values[field]
        if not changed.get(field) or not before:
            continue
        for one in (one for one in site.all(kind) if one.values[field] == before):
            if one.values.get("state") == PLANNED:
                taken_over.append(one)
                lines.append({"kind": kind, "item": one.id, "set": {field: changed[field]}})
            elif kind == "face" or one.stands:
                standing.append(one)
    return Following(list(lines), [], taken_over, standing)
