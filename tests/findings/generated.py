"""Sites made up by chance from the descriptions of the kinds, with blanks in them, for laws that hold of any site.

About half of them are carefully surveyed: little is blank, what belongs together fits, and most questions are decided.
"""

from __future__ import annotations

import hashlib
import json
import uuid
from collections.abc import Iterator, Mapping
from datetime import timedelta
from random import Random
from typing import Any

from fieldbook.book.site import Item, Site
from fieldbook.model import rules
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from tests.findings import likely, logged
from tests.findings.likely import TODAY as TODAY

SHARE_BLANK, SHARE_LIKELY = 0.25, 0.85
WIDE, HIGH = 3000.0, 2500.0


class Making:
    """One made-up site. `chance` decides everything, so that the same seed makes the same site."""

    def __init__(self, seed: int):
        self.chance = Random(seed)  # noqa: S311 - no secret
        self.items: dict[str, tuple[str, dict[str, Any]]] = {}
        self.careful = self.chance.random() < 0.6
        self.blank = self.chance.choice((0.0, 0.04)) if self.careful else SHARE_BLANK

    def site(self) -> Site:
        """The whole site."""
        site = self.add("site", {})
        room = self.room(site)
        for kind in ("finish", "material"):
            if self.chance.random() < 0.4:
                self.add(kind, {"site": site})
        hung: list[str] = []
        for face in [self.face(room) for _ in range(self.chance.choice((1, 1, 2)))]:
            for _ in range(self.chance.randint(1, 2)):
                hung.append(self.fitting(face, hung))
        if len(hung) > 1 and self.chance.random() < 0.1:
            self.items[hung[0]][1]["covers"] = [hung[1]]
        self.rulings(site)
        kind, values = self.items.pop(site)
        rest = [Item(one, item, held) for item, (one, held) in self.items.items()]
        made = Site(Item(kind, site, values), rest, logged.FOLDER, 1, "")
        rulings = [*made.all("agreement"), *made.all("decision")]
        made.then = {(one.id, thing.id): dict(thing.values) for one in rulings for thing in made.bears_on(one)}
        return made

    def room(self, site: str) -> str:
        """A room with what was measured in it."""
        looked = {"looked_for": likely.LOOKED} if self.careful and self.chance.random() < 0.8 else {}
        room = self.add("room", {"site": site, "plan": [[0, 0], [5000, 0], [5000, 4000], [0, 4000]]} | looked)
        for _ in range(self.chance.randint(0, 3)):
            quantity, unit, low, high = self.chance.choice(likely.MEASURED)
            what = {"quantity": quantity, "unit": unit, "value": round(self.chance.uniform(low, high), 1)}
            self.add("reading", {"room": room} | what)
        if self.careful:
            self.through_the_year(room)
        if self.chance.random() < 0.15:
            self.add("log", {"room": room} | logged.some(self.chance))
        return room

    def through_the_year(self, room: str, face: str | None = None) -> None:
        """What is measured in winter and in summer."""
        for days in self.chance.choice(((-60, -250), (-60, -250), (-60,))):
            at = f"{likely.TODAY + timedelta(days=days)}T10:00:00+00:00"
            for quantity, unit, low, high in likely.MEASURED:
                if (quantity == "surface temperature") == (face is not None):
                    value = round(self.chance.uniform(low, high), 1)
                    what = {"quantity": quantity, "unit": unit, "value": value, "at": at}
                    self.add("reading", {"room": room, "face": face} | what)

    def face(self, room: str) -> str:
        """A face with what is on it."""
        size = {"width_mm": WIDE, "height_mm": HIGH, "left_mm": None, "bottom_mm": None}
        face = self.add("face", {"room": room} | size)
        if self.careful:
            self.through_the_year(room, face)
        for kind, most in (("zone", 2), ("limit", 2), ("hold", 2), ("patch", 1)):
            for _ in range(self.chance.randint(0, most)):
                self.add(kind, {"face": face} | (self.limit() if kind == "limit" else {}))
        for _ in range(self.chance.randint(0, 2)):
            behind = {"x_mm": 0.0, "z_mm": 0.0, "width_mm": WIDE, "height_mm": HIGH} if self.careful else {}
            self.add("member", {"face": face} | behind)
        return face

    def limit(self) -> dict[str, Any]:
        """What a limit of some sort needs to be one."""
        x, z = self.chance.uniform(0, 2500), self.chance.uniform(0, 2000)
        band = {"x_from_mm": x, "x_to_mm": x + 400, "z_from_mm": z, "z_to_mm": z + 300}
        opens = self.chance.choice((60.0, 90.0, 120.0, 175.0))
        leaf = {"hinge_x_mm": x, "hinge_y_mm": self.chance.choice((12.0, 0.0, -60.0)), "swing_from_deg": 0.0}
        leaf |= {"swing_to_deg": opens, "boxes": [[0.0, self.chance.choice((300.0, 700.0)), -50.0, -10.0]]}
        return self.chance.choice(
            (
                dict.fromkeys(band) | leaf | {"sort": "leaf"},
                band | {"sort": "route", "available_mm": 1400.0, "clear_width_mm": self.chance.uniform(900, 1390)},
                dict.fromkeys(band) | {"sort": "headroom", "headroom_mm": 2000.0, "projection_mm": 90.0},
                band | {"sort": "flat", "projection_mm": self.chance.uniform(5, 200)},
                band | {"sort": "keep in view"},
            )
        )

    def fitting(self, face: str, others: list[str]) -> str:
        """A fitting with its fixings, in a row and alike where it is carefully entered."""
        width, height = self.chance.choice((200.0, 600.0, 1100.0)), self.chance.choice((80.0, 400.0, 900.0))
        carrier = self.chance.choice([None, None, None, *others])
        place = {"x_mm": self.chance.uniform(0, WIDE - width), "z_mm": self.chance.uniform(0, HIGH - height)}
        number = self.chance.choice((0, 1, 2, 2, 4, 4))
        upright = self.items[face][1]["sort"] not in {"ceiling", "soffit", "other"}
        if self.careful and upright and self.chance.random() < 0.2:
            place |= {name: self.chance.choice(values) for name, values in likely.STANDS.items()}
            carrier, number = None, self.chance.choice((0, 0, 2))
        heavy = self.careful and carrier is None and "support" not in place and self.chance.random() < 0.4
        if heavy:
            place |= {name: self.chance.choice(values) for name, values in likely.HEAVY.items()}
            number = self.chance.choice((2, 4, 6))
        elif self.careful and "support" not in place and place["z_mm"] > 100:
            place |= {"support": self.chance.choice(("its fixings", None))}  # it does not reach the floor
        values = {"face": face, "width_mm": width, "height_mm": height, "hangs_on": carrier} | place
        fitting = self.add("fitting", values)
        entered = self.items[fitting][1]
        if entered["base_width_mm"] is not None:  # a narrower one is no ordinary value of it
            entered["base_width_mm"] = max(entered["base_width_mm"], width / 2)
        sort = self.chance.choice(("hook", "strap")) if heavy else self.value("fixing", KINDS["fixing"].by_name["sort"])
        for one in range(number):
            across = (one + 0.5) / number if self.careful else self.chance.random()
            up = (0.85, 0.15)[one % 2 if number > 2 else 0] if self.careful else self.chance.random()
            at = {"x_mm": place["x_mm"] + across * width, "z_mm": place["z_mm"] + up * height}
            self.fixing(fitting, face, sort if self.careful else None, at, carrier)
        return fitting

    def fixing(self, fitting: str, face: str, sort: str | None, at: Mapping[str, float], carrier: str | None) -> None:
        """A fixing with what belongs to its sort, None for any; to what carries its fitting, or to the face."""
        given: dict[str, Any] = {"fitting": fitting, "face": face, **at, "fitted_x_mm": None, "fitted_z_mm": None}
        given["other_fitting"] = None
        if sort is not None:
            belongs = likely.KITS[sort].items()
            given |= {"sort": sort} | {name: self.chance.choice(values) for name, values in belongs}
            given["fabric"] = self.chance.choice(likely.LIKELY["fixing.fabric"])
            if carrier is not None and self.chance.random() < 0.7:
                given |= {"fabric": "another fitting", "other_fitting": carrier, "hold": None, "member": None}
            else:
                given |= {"hold": self.on_face("hold", face), "member": self.on_face("member", face)}
            given["trace"] = likely.TRACE_OF.get((given["hole"], given["fabric"]), "none")
        self.add("fixing", given)

    def on_face(self, kind: str, face: str) -> str | None:
        """Some item of a kind on a face, or none."""
        here = [item for item, (known, values) in self.items.items() if known == kind and values["face"] == face]
        return self.chance.choice(here) if here and self.chance.random() < 0.8 else None

    def rulings(self, site: str) -> None:
        """What the keeper and specialists said: of careful sites, mostly about all that stands."""
        things = [item for item, (kind, _) in self.items.items() if kind in {"fitting", "fixing"}]
        fittings = [item for item in things if self.items[item][0] == "fitting"]
        all_of_it = {"items": things} if self.careful and self.chance.random() < 0.7 else {}
        for _ in range(self.chance.randint(0, 2)):
            self.add("agreement", {"site": site} | all_of_it)
        roles = ("structural engineer", "electrician", "fire officer", "conservator")
        if self.careful and self.chance.random() < 0.3:  # all who have to decide have
            asked = {"site": site, "items": fittings, "question": "specialist", "answer": "yes", "until": None}
            for role in roles:
                self.add("decision", asked | {"role": role})
        for role in self.chance.sample(roles[:3], self.chance.randint(0, 2)):
            self.add("decision", {"site": site, "role": role} | ({"items": fittings} if self.careful else {}))

    def add(self, kind: str, given: dict[str, Any]) -> str:
        """One item that could be entered; a try that could not is made again."""
        item = str(uuid.UUID(int=self.chance.getrandbits(128), version=4))
        mark = {KINDS[kind].numbered_by: f"{kind[0].upper()}{len(self.items)}"} if self.chance.random() < 0.97 else {}
        if kind == "material":
            mark = {}  # its name is what it is
        for _ in range(20):
            values = {field.name: self.value(kind, field) for field in KINDS[kind].fields} | mark | given
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
        if not field.required and self.chance.random() < self.blank:
            return None
        if f"{kind}.{field.name}" in likely.LIKELY and self.chance.random() < SHARE_LIKELY:
            return self.chance.choice(likely.LIKELY[f"{kind}.{field.name}"])
        return self.filled(kind, field)

    def ordinary(self, kind: str, field: Field) -> Any:
        """A value that is ordinary for a field: one that is likely of it, or any where none is said to be."""
        often = [value for value in likely.LIKELY.get(f"{kind}.{field.name}", ()) if value is not None]
        return self.chance.choice(often) if often else self.filled(kind, field)

    def filled(self, kind: str, field: Field) -> Any:
        """A value of one field."""
        chance = self.chance
        match field.type:
            case Type.NUMBER | Type.WHOLE:
                low, high = likely.USUAL.get(field.name, (max(field.low, -3000), min(field.high, 3000)))
                low, high = max(low, field.low), min(high, field.high)
                if field.type is Type.WHOLE:
                    return chance.randint(int(low), int(high))
                return round(chance.uniform(low, high), 1 if high - low > 1 else 9)
            case Type.YES_NO:
                return chance.choice((0, 1))
            case Type.CHOICE:
                return chance.choice([word for word in field.choices if word != "taken down"])
            case Type.CHOICES:
                return chance.sample(field.choices, chance.randint(1, len(field.choices)))
            case Type.DATE:
                return likely.day(chance.randint(-900, 900))
            case Type.MOMENT:
                return f"{likely.day(-chance.randint(0, 900))}T10:00:00+00:00"
            case Type.LINK | Type.LINKS:
                return self.linked(field)
            case Type.OUTLINE:
                x, z = chance.uniform(0, 2500), chance.uniform(0, 2000)
                return [[x, z], [x + 300, z], [x + 300, z + 250], [x, z + 250]]
            case Type.ROWS:
                return [[self.filled(kind, column) for column in field.columns] for _ in range(chance.randint(1, 2))]
        often = [word for word in likely.LIKELY.get(f"{kind}.{field.name}", ()) if word]
        return chance.choice(often or likely.WORDS.get(f"{kind}.{field.name}", ("something",)))

    def linked(self, field: Field) -> Any:
        known = [item for item, (kind, _) in self.items.items() if field.to in {"any", kind}]
        if field.type is Type.LINKS:
            return self.chance.sample(known, min(len(known), self.chance.randint(1, 3))) or None
        return self.chance.choice([None, *known])


def print_of(site: Site) -> str:
    """A few letters that tell one made-up site from another, in any process."""
    told = [[one.kind, one.id, dict(one.values)] for one in (site.item, *every(site))]
    then = [[*pair, dict(values)] for pair, values in site.then.items()]
    return hashlib.sha256(json.dumps([told, then]).encode()).hexdigest()[:10]


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
