"""How a verdict can be reckoned again by hand, with `fieldbook calc`."""

from __future__ import annotations

import json
from typing import Any

from .. import gather
from ..gather import Item, Site
from ..verdicts import Finding
from ..verdicts.places import fixing_acts

PLACES = 9  # along the stretch a leaf is held against


def repeated(site: Site, finding: Finding) -> tuple[str, str] | None:
    """The name of the calculation and the JSON to give it; None where the working is a subtraction."""
    make = _PAYLOADS.get(finding.verdict.check)
    if make is None or finding.against is None or finding.verdict.figure is None:
        return None
    payload = make(site, finding.subject, finding.against)
    return payload and (finding.verdict.check, json.dumps(payload, ensure_ascii=False))


def _keep_off(_: Site, subject: Item, zone: Item) -> dict[str, Any] | None:
    if subject.kind != "fixing":
        return None
    hole_only = fixing_acts(subject) & set(zone.forbids) == {"drilling"}
    return {
        "zone_mm": zone.outline,
        "margin_mm": zone.margin_mm,
        "point_mm": gather.place_of(subject),
        "radius_mm": subject.diameter_mm / 2 if hole_only else subject.contact_radius_mm,
    }


def _clearance(_: Site, subject: Item, limit: Item) -> dict[str, Any] | None:
    if limit.sort != "leaf":
        return None
    stretch = gather.fitting_stretch(subject) if subject.kind == "fitting" else gather.fixing_stretch(subject)
    around = stretch.widened(limit.margin_mm)
    step = (around.x_to - around.x_from) / (PLACES - 1)
    return {
        "leaf": {
            "hinge_mm": [limit.hinge_x_mm, limit.hinge_y_mm],
            "from_deg": limit.swing_from_deg,
            "to_deg": limit.swing_to_deg,
            "boxes_mm": limit.boxes,
        },
        "margin_mm": limit.margin_mm,
        "x_mm": [around.x_from + place * step for place in range(PLACES)],
    }


_PAYLOADS = {"keep-off": _keep_off, "clearance": _clearance}
