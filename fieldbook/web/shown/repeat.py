"""How a finding can be reckoned again by hand: the JSON that `fieldbook calc`, or its page, takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from flask import url_for

from ...book.site import Item, Site
from ...calculations.catalogue import CALCULATIONS
from ...checks import materials, preload, removal
from ...errors import FieldbookError
from ...findings import Finding, geometry, handling, loads
from ..forms.of_calculation import in_the_address
from .commands import command_for

Payload = dict[str, Any]


@dataclass(frozen=True)
class Again:
    """One calculation with what it is reckoned from."""

    name: str
    payload: Payload

    @property
    def command(self) -> str:
        """What to type."""
        return command_for(self.name, self.payload)

    @property
    def address(self) -> str:
        """The page that does the same, filled in."""
        return url_for("calculations.show", name=self.name, **in_the_address(CALCULATIONS[self.name], self.payload))


def repeated(site: Site, finding: Finding) -> Again | None:
    """How to do a finding again; None where nothing was reckoned, or no more than a subtraction."""
    if finding.again is not None:
        return Again(finding.again.name, dict(finding.again.payload))
    make = _PAYLOADS.get(finding.verdict.check)
    if make is None or finding.verdict.figure is None:
        return None
    try:
        payload = make(site, finding.subject, finding.against)
    except FieldbookError:
        return None
    entered = {key: value for key, value in (payload or {}).items() if value is not None}
    return Again(finding.verdict.check, entered) if entered else None


def _fixing_group(site: Site, _: Item, fitting: Item) -> Payload:
    load, part = loads.weight(site, fitting), geometry.fitting_stretch(fitting)
    places = [geometry.place_of(bearer) for bearer in loads.bearers(site, fitting)]
    xs, zs = zip(*places, strict=True)
    return {
        "fixings_mm": places,
        "load_n": [0, -load.force_n],
        "at_mm": load.at_mm,
        "standoff_mm": load.out_mm,
        "pull_n": load.pull_n,
        "plate_mm": [min(part.x_from, *xs), min(part.z_from, *zs), max(part.x_to, *xs), max(part.z_to, *zs)],
    }


def _share(site: Site, fixing: Item, fitting: Item) -> loads.Share:
    return next(share for share in loads.shares(site, fitting) if share.fixing.id == fixing.id)


def _withdrawal(site: Site, fixing: Item, fitting: Item) -> Payload:
    wood = materials.lookup(fixing.grips, geometry.own_materials(site))
    return {
        "connector": fixing.sort,
        "specific_gravity": wood.figure("specific_gravity").value,
        "diameter_mm": fixing.diameter_mm,
        "penetration_mm": fixing.penetration_mm,
        "tension_n": _share(site, fixing, fitting).tension_n,
    }


def _preload(_: Site, fixing: Item, __: Item) -> Payload:
    return {name: fixing.values[name] for name in ("torque_nm", "diameter_mm", "nut_factor", "grade")}


def _clamp(site: Site, fixing: Item, fitting: Item) -> Payload:
    share = _share(site, fixing, fitting)
    fabric = materials.lookup(fixing.bears_on, geometry.own_materials(site)) if fixing.bears_on else None
    return {
        "preload_n": preload.preload_n(fixing.torque_nm, fixing.diameter_mm, fixing.nut_factor),
        "bolts": fixing.bolts,
        "faces": fixing.friction_faces,
        "friction": fixing.friction,
        "load_n": (share.shear_n**2 + share.tension_n**2) ** 0.5,
        "jaw_mm2": fixing.jaw_mm2,
        "bearing_n_mm2": fabric and fixing.jaw_mm2 and fabric.figure("bearing_n_mm2").value,
    }


def _removal(site: Site, *_: object) -> Payload:
    items = handling.takedown_items(site)
    titles = Counter(item.name for item in items)
    names = {item.id: item.name if titles[item.name] == 1 else f"{item.name} ({item.id})" for item in items}
    return {"items": [_takedown(item, names) for item in items]}


def _takedown(item: removal.Thing, names: Mapping[str, str]) -> Payload:
    others = {key: [names[one] for one in getattr(item, key)] for key in ("hangs_on", "covers")}
    rest = {"tools": item.tools, "people": item.people, "minutes": item.minutes}
    return _filled({"name": names[item.id]} | others | rest)


def _filled(values: Mapping[str, Any]) -> Payload:
    """What of these is there, lists as JSON has them."""
    return {key: list(value) if isinstance(value, tuple) else value for key, value in values.items() if value}


_PAYLOADS: Mapping[str, Callable[..., Payload | None]] = {
    "fixing-group": _fixing_group,
    "withdrawal": _withdrawal,
    "preload": _preload,
    "clamp": _clamp,
    "removal": _removal,
}
