"""Sites made up by chance from the descriptions of the kinds, with blanks in them, for laws that hold of any site."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import Any

from fieldbook.book.site import Item, Site
from fieldbook.model import rules
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS

TODAY = date(2031, 3, 14)
WORDS = {
    ("fixing", "grips"): ("oak", "pine", "bog oak"),
    ("fixing", "bears_on"): ("brick", "limestone", "putty"),
    ("fixing", "lining"): ("felt", "cork", "rubber"),
    ("fixing", "material"): ("steel", "stainless steel A4", "brass"),
    ("member", "material"): ("oak", "C24", "larch"),
    ("fitting", "moving_part"): ("oak", "plywood", "steel"),
    ("patch", "material"): ("felt", "cork"),
    ("patch", "laid_against"): ("lime plaster", "oak"),
    ("face", "layers"): ("lime plaster", "oak", "brick", "rubble masonry"),
}
# What is usual of a number, so that most made-up things could stand somewhere: field -> low, high.
USUAL: Mapping[str, tuple[float, float]] = {
    "mass_empty_kg": (0.5, 40),
    "mass_loaded_kg": (1, 80),
    "centre_out_mm": (5, 300),
    "pull_n": (0, 400),
    "diameter_mm": (3, 12),
    "length_mm": (20, 120),
    "thread_mm": (10, 90),
    "penetration_mm": (0, 80),
    "contact_radius_mm": (2, 60),
    "torque_nm": (0.5, 20),
    "margin_mm": (0, 60),
    "thickness_mm": (5, 90),
    "packers_mm": (0, 20),
    "load_limit_n": (50, 3000),
    "stated_load_n": (50, 3000),
    "jaw_mm2": (200, 4000),
    "slope_deg": (0, 90),
    "behind_mm": (0, 40),
    "people_to_remove": (1, 4),
    "every_months": (1, 24),
}
SHARE_BLANK = 0.25


class Making:
    """One made-up site. `chance` decides everything, so that the same seed makes the same site."""

    def __init__(self, seed: int):
        self.chance = Random(seed)  # noqa: S311 - no secret
        self.items: dict[str, tuple[str, dict[str, Any]]] = {}

    def site(self) -> Site:
        """The whole site."""
        site = self.add("site", {})
        room = self.add("room", {"site": site, "plan": [[0, 0], [5000, 0], [5000, 4000], [0, 4000]]})
        faces = [self.face(room) for _ in range(self.chance.choice((1, 1, 2)))]
        hung: list[str] = []
        for face in faces:
            for kind, most in (("zone", 2), ("limit", 2), ("hold", 2), ("member", 2), ("patch", 1)):
                for _ in range(self.chance.randint(0, most)):
                    self.add(kind, {"face": face} | (self.limit() if kind == "limit" else {}))
            for _ in range(self.chance.randint(1, 2)):
                hung.append(self.fitting(face, hung))
        for kind, parent, most in (("reading", {"room": room}, 3), ("agreement", {"site": site}, 2)):
            for _ in range(self.chance.randint(0, most)):
                self.add(kind, dict(parent))
        for kind in ("decision", "finish"):
            if self.chance.random() < 0.3:
                self.add(kind, {"site": site})
        kind, values = self.items.pop(site)
        rest = [Item(one, item, held) for item, (one, held) in self.items.items()]
        made = Site(Item(kind, site, values), rest, Path("nowhere"), 1, "")
        rulings = [*made.all("agreement"), *made.all("decision")]
        made.then = {(one.id, thing.id): dict(thing.values) for one in rulings for thing in made.covered_by(one)}
        return made

    def face(self, room: str) -> str:
        size = {"width_mm": 3000.0, "height_mm": 2500.0, "left_mm": None, "bottom_mm": None}
        layers = [[self.chance.choice(WORDS["face", "layers"]), self.chance.choice((12, 25, 400)), "old"]]
        return self.add("face", {"room": room, "layers": self.chance.choice((None, layers))} | size)

    def limit(self) -> dict[str, Any]:
        """What a limit of some sort needs to be one."""
        x, z = self.chance.uniform(0, 2500), self.chance.uniform(0, 2000)
        band = {"x_from_mm": x, "x_to_mm": x + 400, "z_from_mm": z, "z_to_mm": z + 300}
        leaf = {"hinge_x_mm": x, "hinge_y_mm": 12.0, "swing_from_deg": 0.0, "swing_to_deg": 120.0}
        return self.chance.choice(
            (
                dict.fromkeys(band) | leaf | {"sort": "leaf", "boxes": [[0.0, 700.0, -50.0, -10.0]]},
                band | {"sort": "route", "available_mm": 1400.0, "clear_width_mm": self.chance.uniform(900, 1390)},
                dict.fromkeys(band) | {"sort": "headroom", "headroom_mm": 2000.0, "projection_mm": 90.0},
                band | {"sort": "flat", "projection_mm": self.chance.uniform(5, 200)},
                band | {"sort": "keep in view"},
            )
        )

    def fitting(self, face: str, others: list[str]) -> str:
        width, height = self.chance.choice((200.0, 600.0, 1100.0)), self.chance.choice((80.0, 400.0, 900.0))
        place = {"x_mm": self.chance.uniform(0, 3000 - width), "z_mm": self.chance.uniform(0, 2500 - height)}
        carrier = self.chance.choice([None, None, *others])
        fitting = self.add(
            "fitting", {"face": face, "width_mm": width, "height_mm": height, "hangs_on": carrier} | place
        )
        for _ in range(self.chance.randint(0, 4)):
            x = place["x_mm"] + self.chance.uniform(0, width)
            z = place["z_mm"] + self.chance.uniform(0, height)
            fixed = {"fitting": fitting, "face": face, "x_mm": x, "z_mm": z, "fitted_x_mm": None, "fitted_z_mm": None}
            self.add("fixing", fixed | {"other_fitting": None})
        return fitting

    def add(self, kind: str, given: dict[str, Any]) -> str:
        """One item that could be entered; a try that could not is made again."""
        item = str(uuid.UUID(int=self.chance.getrandbits(128), version=4))
        for _ in range(20):
            values = {field.name: self.value(kind, field) for field in KINDS[kind].fields} | given
            if not rules.findings(KINDS[kind], item, values, self.items.get):
                break
        else:
            values = {
                name: value if name in given or KINDS[kind].by_name[name].required else None
                for name, value in values.items()
            }
        self.items[item] = (kind, values)
        return item

    def value(self, kind: str, field: Field) -> Any:
        """A value of one field, or a blank."""
        if not field.required and self.chance.random() < SHARE_BLANK:
            return None
        return self.filled(kind, field)

    def filled(self, kind: str, field: Field) -> Any:
        """A value of one field."""
        chance = self.chance
        match field.type:
            case Type.NUMBER | Type.WHOLE:
                low, high = USUAL.get(field.name, (max(field.low, -3000), min(field.high, 3000)))
                low, high = max(low, field.low), min(high, field.high)
                return (
                    chance.randint(int(low), int(high))
                    if field.type is Type.WHOLE
                    else round(chance.uniform(low, high), 1)
                )
            case Type.YES_NO:
                return chance.choice((0, 1))
            case Type.CHOICE:
                return chance.choice([word for word in field.choices if word != "taken down"])
            case Type.CHOICES:
                return chance.sample(field.choices, chance.randint(1, len(field.choices)))
            case Type.DATE:
                return (TODAY - timedelta(days=chance.randint(-900, 900))).isoformat()
            case Type.MOMENT:
                return f"{TODAY - timedelta(days=chance.randint(0, 900))}T10:00:00+00:00"
            case Type.LINK | Type.LINKS:
                return self.linked(field)
            case Type.OUTLINE:
                x, z = chance.uniform(0, 2500), chance.uniform(0, 2000)
                return [[x, z], [x + 300, z], [x + 300, z + 250], [x, z + 250]]
            case Type.ROWS:
                return [[self.filled(kind, column) for column in field.columns] for _ in range(chance.randint(1, 2))]
        return chance.choice(WORDS.get((kind, field.name), ("something",)))

    def linked(self, field: Field) -> Any:
        known = [item for item, (kind, _) in self.items.items() if field.to in {"any", kind}]
        if field.type is Type.LINKS:
            return self.chance.sample(known, min(len(known), self.chance.randint(1, 3))) or None
        return self.chance.choice([None, *known])


def changed(site: Site, item: Item, **values: Any) -> Site:
    """The same site with other values in one item."""
    new = Item(item.kind, item.id, dict(item.values) | values)
    everything = [one for one in every(site) if one.id != item.id]
    if item.kind == "site":
        return Site(new, everything, site.folder, site.revision, site.digest, site.then)
    return Site(site.item, [*everything, new], site.folder, site.revision, site.digest, site.then)


def every(site: Site) -> Iterator[Item]:
    """All items of a site but the site itself."""
    return (one for kind in KINDS if kind != "site" for one in site.all(kind))


def could_be_entered(site: Site, item: Item, **values: Any) -> bool:
    """Whether an item could be entered with these values."""

    def find(known: str) -> tuple[str, Mapping[str, Any]] | None:
        one = site.get(known)
        return (one.kind, one.values) if one else None

    return not rules.findings(KINDS[item.kind], item.id, dict(item.values) | values, find)
