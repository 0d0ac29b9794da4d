"""Cases that desk and phone must both answer alike: each file of `tests/cases` is run here and by tests/js."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from fieldbook.book.site import Item, Site
from fieldbook.model.kinds import KINDS

FOLDER = Path(__file__).parent


def cases(name: str) -> Any:
    """What one file of cases holds."""
    return json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))


def shared_site() -> Site:
    """The small site some cases are about, `site.json`."""
    return site_of_cases(cases("site"))


def site_of_cases(items: list[dict[str, Any]]) -> Site:
    """A site of items as cases list them, the first being the site itself."""
    first, *rest = [
        Item(one["kind"], one["id"], dict.fromkeys(KINDS[one["kind"]].by_name) | one["values"]) for one in items
    ]
    return Site(first, rest, Path(), 0, "")
