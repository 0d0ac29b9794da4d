"""What is asked before somebody signs how a building was left."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...book.site import Site
from ...errors import FieldbookError, Missing
from ...findings.taking_down import not_said
from ...model.kinds import STATEMENT, Kind

REMEDY = "Enter it first, or say under “Remarks” why it is signed without."


def asked_first(kind: Kind, site: Site | None, values: Mapping[str, Any]) -> list[FieldbookError]:
    """Whether a statement would be signed though nobody has said what was found; the phone's page asks alike."""
    if kind is not STATEMENT or site is None or values.get("words"):
        return []
    down = (site.get(item, "fitting") for item in values.get("items") or [])
    lacking = ", ".join(one.mark for one in not_said(site, filter(None, down)))
    return [Missing(f"What was found at {lacking} is not entered.", REMEDY, field="words")] if lacking else []
