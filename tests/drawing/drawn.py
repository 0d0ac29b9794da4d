"""Sites made straight from values, and drawings read back: what the tests of drawings share."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from shapely import Polygon, box
from shapely.affinity import rotate

from fieldbook.book.site import Item, Site
from fieldbook.drawing import drafting as d
from fieldbook.drawing.symbols import FIXING_MM
from fieldbook.model.choices import LOOKED_FOR
from fieldbook.model.kinds import KINDS

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d*\.?\d+")
SQUARE = re.compile(rf"M(\S+) (\S+)h{2 * FIXING_MM:g}v{2 * FIXING_MM:g}h-{2 * FIXING_MM:g}Z")
# Somebody looked for everything that can be looked for on a face, so that what was not found is not there.
LOOKED = [[what, "the surveyor", "with a torch", "2026-05-04"] for what in LOOKED_FOR]


@dataclass
class Wall:
    """A site of one room and one wall, to which more is added item by item."""

    items: list[Item] = field(default_factory=list)
    numbers: Iterator[int] = field(default_factory=lambda: count(1))

    def __post_init__(self) -> None:
        self.site_item = self._item("site", name="Customs shed")
        self.room = self.add("room", site=self.site_item.id, mark="R1", name="Long room")
        size = {"width_mm": 4000, "height_mm": 2600}
        self.face = self.add("face", room=self.room.id, mark="R1-N", name="North wall", sort="wall", **size)

    def _item(self, kind: str, **values: Any) -> Item:
        empty = {one.name: None for one in KINDS[kind].fields}
        assert set(values) <= set(empty)
        return Item(kind, f"00000000-0000-7000-8000-{next(self.numbers):012d}", empty | values)

    def add(self, kind: str, **values: Any) -> Item:
        """An item with these values and no others."""
        item = self._item(kind, **values)
        self.items.append(item)
        return item

    def change(self, item: Item, **values: Any) -> Item:
        """The item with other values, in its place."""
        changed = Item(item.kind, item.id, {**item.values, **values})
        self.items[self.items.index(item)] = changed
        if item.id == self.face.id:
            self.face = changed
        if item.id == self.room.id:
            self.room = changed
        return changed

    def zone(self, **more: Any) -> Item:
        """A keep-off zone of 600 by 400 mm that forbids drilling."""
        outline = [[500, 1500], [1100, 1500], [1100, 1900], [500, 1900]]
        values = {"mark": "K1", "name": "Old paint", "outline": outline, "forbids": ["drilling"], "margin_mm": 50}
        return self.add("zone", **{"face": self.face.id, "reason": "painted scheme below"} | values | more)

    def limit(self, **more: Any) -> Item:
        """A door hung at x = 1,000 that opens to 160°."""
        swing = {"hinge_x_mm": 1000, "hinge_y_mm": 12, "swing_from_deg": 0, "swing_to_deg": 160}
        values = {
            "mark": "L1",
            "name": "Door",
            "sort": "leaf",
            "leaf": "door",
            "boxes": [[0, 800, -50, -10]],
            "margin_mm": 0,
        }
        return self.add("limit", **{"face": self.face.id} | values | swing | more)

    def fitting(self, **more: Any) -> Item:
        """A planned rail of 1,000 by 80 mm that stands out 23 mm at worst."""
        place = {"x_mm": 2000, "z_mm": 1500, "width_mm": 1000, "height_mm": 80}
        values = {"mark": "D1", "name": "Rail", "state": "planned", "build_up": [["rail", 22, 1]]}
        return self.add("fitting", **{"face": self.face.id} | values | place | more)

    def fixing(self, fitting: Item, **more: Any) -> Item:
        """A planned clamp without a hole."""
        values = {"mark": "D1.1", "sort": "clamp", "state": "planned", "x_mm": 2100, "z_mm": 1540, "hole": "none"}
        contact = {"contact_radius_mm": 12, "fabric": "old fabric", "trace": "none"}
        return self.add("fixing", **{"face": self.face.id, "fitting": fitting.id} | values | contact | more)

    def hold(self, **more: Any) -> Item:
        """A hole that may be used."""
        values = {"mark": "H1", "sort": "hole", "x_mm": 3000, "z_mm": 2000, "may_be_used": "yes"}
        return self.add("hold", **{"face": self.face.id} | values | more)

    @property
    def site(self) -> Site:
        """The site as gathered."""
        return Site(self.site_item, self.items, Path(), 1, "0" * 64)


def read(drawing: str) -> ElementTree.Element:
    """The drawing as a tree; fails when it is not well-formed."""
    return ElementTree.fromstring(drawing)


def words_of(drawing: str) -> list[str]:
    """What is lettered, in order."""
    return [element.text or "" for element in read(drawing).iter(f"{SVG}text")]


def of_item(drawing: str, item: Item) -> list[ElementTree.Element]:
    """The groups drawn for an item."""
    return [element for element in read(drawing).iter() if element.get("data-item") == item.id]


def paths_of(drawing: str, item: Item) -> list[ElementTree.Element]:
    """The paths drawn for an item."""
    return [path for group in of_item(drawing, item) for path in group.iter(f"{SVG}path")]


def points_of(path: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of a path that is made of M and L only."""
    figures = [float(figure) for figure in NUMBER.findall(path.get("d", ""))]
    return list(zip(figures[::2], figures[1::2], strict=True))


def symbol_at(drawing: str, item: Item) -> tuple[float, float]:
    """The middle of the square symbol of a fixing without a hole, on paper."""
    squares = [match for path in paths_of(drawing, item) if (match := SQUARE.fullmatch(path.get("d", "")))]
    (square,) = squares
    return float(square[1]) + FIXING_MM, float(square[2]) + FIXING_MM


def face_place(drawing: str, x: float, y: float) -> tuple[float, float]:
    """The place on the face that a point of the drawing shows, as its root tells."""
    root = read(drawing)
    scale, left, top = (float(root.get(f"data-{name}", "")) for name in ("scale", "left-mm", "top-mm"))
    return x * scale + left, top - y * scale


def text_boxes(drawing: str) -> list[tuple[str, Polygon]]:
    """Each piece of lettering with the room it takes at most: from its base line up by its capitals."""
    found = []
    for text in read(drawing).iter(f"{SVG}text"):
        x, y, size = (float(text.get(name, "0")) for name in ("x", "y", "font-size"))
        height = size * d.CAPITAL_SHARE
        width = d.width_of(text.text or "", height, bold=text.get("font-weight") is not None)
        left = x - width * {"start": 0, "middle": 0.5, "end": 1}[text.get("text-anchor", "start")]
        room = box(left, y - height, left + width, y)
        found.append((text.text or "", rotate(room, -90, (x, y)) if text.get("transform") else room))
    return found
