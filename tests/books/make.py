"""Freeze this version: `python -m tests.books.make` writes a small book and what this version says about it.

`VERSION.zip` is the book as a backup: every kind with every field filled, a photograph, a logger's file, an
edition, a withdrawn item, and two devices that disagree. `VERSION.json` holds the description of the kinds and every
item's values, as this version had them. Neither is ever made again: what was released does not change.
"""

from __future__ import annotations

import io
import json
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw

from fieldbook import __version__
from fieldbook.book import evidence, photographs
from fieldbook.book.backup import backup
from fieldbook.book.book import Book
from fieldbook.book.opening import create_book
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS
from fieldbook.phones import codes, devices
from fieldbook.record.compile import compile_record
from fieldbook.record.editions import issue_edition
from fieldbook.web.app.kinds_for_phones import registry

HERE = Path(__file__).parent
SQUARE = [[200, 300], [700, 300], [700, 900], [200, 900]]
LOGGED = "time;temperature;humidity\n" + "".join(
    f"2026-02-{day:02d} {hour:02d}:00;{11 + hour / 10:.1f};{58 + day % 7}\n" for day in range(1, 15) for hour in (4, 16)
)

# Where any value of the type would not do: what rules ask for, and what reads like a site.
SAID: Mapping[str, Mapping[str, Any]] = {
    "site": {"name": "Customs shed", "currency": "EUR"},
    "room": {"mark": "R1", "name": "Long room", "humidity_low_pct": 45, "humidity_high_pct": 65, "ceiling_mm": 3900,
             "plan": [[0, 0], [6000, 0], [6000, 4000], [0, 4000]]},
    "face": {"mark": "R1-N", "name": "North wall", "width_mm": 6000, "height_mm": 3600, "left_mm": 0, "bottom_mm": 0,
             "start_x_mm": 0, "start_y_mm": 0, "bearing_deg": 0, "floor": [[0, 0], [3000, -6], [6000, -11]],
             "surface": [[500, 800, 0], [2500, 900, 4], [4500, 1800, -3]],
             "layers": [["lime plaster", 22, "old"], ["rubble stone", 540, "old"]]},
    "zone": {"mark": "K1", "name": "Painted dado", "outline": SQUARE, "forbids": ["drilling", "contact"]},
    "limit": {"mark": "L1", "name": "Shutter", "sort": "leaf", "leaf": "shutter", "hinge_x_mm": 5200, "hinge_y_mm": 10,
              "swing_from_deg": 0, "swing_to_deg": 100, "boxes": [[0, 600, -45, -10]], "x_from_mm": 4000,
              "x_to_mm": 5900, "z_from_mm": 900, "z_to_mm": 2600, "available_mm": 1900, "clear_width_mm": 900},
    "hold": {"mark": "H1", "x_mm": 3300, "z_mm": 2100, "sort": "hook", "may_be_used": "yes"},
    "reading": {"quantity": "relative humidity", "value": 61, "unit": "%", "uncertainty": 2.5},
    "log": {"name": "logger beside the stove", "time_column": "time", "humidity_column": "humidity",
            "temperature_column": "temperature", "date_column": None},
    "observation": {"what": "hairline crack above the dado"},
    "fitting": {"mark": "D1", "name": "Lamp rail", "state": "fitted", "x_mm": 2400, "z_mm": 1900, "width_mm": 1150,
                "height_mm": 70, "build_up": [["rail", 21, 1]], "mass_empty_kg": 3.4, "mass_loaded_kg": 6.2,
                "fitted_on": "2026-04-14", "taken_down_on": None, "parts": [["rail", 1150, 70, 1, "along"]],
                "moving_part": "oak", "hangs_on": None, "covers": None},
    "fixing": {"mark": "D1.1", "state": "fitted", "sort": "clamp", "x_mm": 2600, "z_mm": 1935, "fitted_x_mm": 2602,
               "fitted_z_mm": 1934, "penetration_mm": 0, "length_mm": 60, "hole": "none", "trace": "none",
               "fabric": "old fabric", "contact_radius_mm": 14, "fitted_on": "2026-04-14", "taken_down_on": None,
               "fitted_place": None, "other_fitting": None, "grips": "oak", "bears_on": "oak"},
    "finish": {"mark": "P1", "name": "Rail green", "pigments": [["PG 17", 40], ["PBk 11", 60]]},
    "agreement": {"reference": "A1", "signature": [[0, 0, 0], [40, 25, 0], [90, 5, 1]], "agreed_revision": None},
    "task": {"what": "Wipe the rail with a dry cloth"},
    "photograph": {"caption": "the datum pin"},
    "cost": {"what": "lining", "amount": 38.5, "currency": "EUR"},
    "material": {"name": "felt from the sail loft", "group": "lining"},
}  # fmt: skip


class Maker:
    """Enters one item of each kind, parents first, and remembers their ids by kind."""

    def __init__(self, book: Book, device: str):
        self.book = book
        self.device = device
        self.ids: dict[str, str] = {}

    def everything(self) -> None:
        """One item of each kind, every field filled where that makes sense."""
        for kind in KINDS.values():
            values = {field.name: self._value(field) for field in kind.fields} | dict(SAID.get(kind.name, {}))
            if kind.name == "photograph":
                values |= vars(photographs.keep(self.book, picture()))
            if kind.name == "log":
                content = LOGGED.encode()
                values |= {"sha256": evidence.keep(self.book.folder, "log", content), "size_bytes": len(content)}
            filled = {name: value for name, value in values.items() if value is not None}
            self.ids[kind.name] = self.book.write(kind.name, filled, device=self.device)

    def _value(self, field: Field) -> Any:
        simple = {Type.LINE: f"{field.label.lower()} 1", Type.NOTE: f"{field.label}.\nIn two lines.", Type.YES_NO: 1,
                  Type.DATE: "2026-05-12", Type.MOMENT: "2026-05-12T10:20:00+01:00"}  # fmt: skip
        if field.type in {Type.NUMBER, Type.WHOLE}:
            return min(max(field.low, 1), field.high)
        if field.type is Type.CHOICE:
            return field.choices[0]
        if field.type is Type.CHOICES:
            return list(field.choices)
        if field.type in {Type.LINK, Type.LINKS}:
            target = self.ids.get("face" if field.to == "any" else field.to)
            return [target] if target and field.type is Type.LINKS else target
        if field.type is Type.ROWS:
            return [[self._value(column) for column in field.columns]]
        return simple.get(field.type)


def picture() -> bytes:
    """A small picture with something on it."""
    image = Image.new("RGB", (320, 240), (181, 164, 138))
    ImageDraw.Draw(image).ellipse((140, 100, 180, 140), fill=(90, 70, 40))
    buffer = io.BytesIO()
    image.save(buffer, "JPEG", quality=60)
    return buffer.getvalue()


def fill(book: Book) -> dict[str, str]:
    """Enter everything a frozen book holds; the ids by kind."""
    phone = devices.join(book, codes.new_join_code(book), "fitter's phone").device
    maker = Maker(book, phone)
    maker.everything()
    ids = maker.ids
    seen = book.revision()
    book.write("fitting", {"note": "as the desk has it"}, ids["fitting"], seen)
    book.write("fitting", {"note": "as the phone has it"}, ids["fitting"], seen, phone)
    withdrawn = {"face": ids["face"], "mark": "K2", "name": "Withdrawn", "outline": SQUARE, "forbids": ["light"]}
    gone = book.write("zone", withdrawn | {"margin_mm": 15, "reason": "measured on the wrong face"})
    book.withdraw(gone)
    issue_edition(book, compile_record(book, ids["site"]).edition)
    book.write("room", {"use": "show room"}, ids["room"])
    return ids


def described(book: Book) -> dict[str, Any]:
    """What this version says: its kinds, and the values of every item of the book."""
    items = {item["id"]: {"kind": kind} | item for kind in KINDS for item in book.items(kind, withdrawn=True)}
    return {"version": __version__, "registry": registry(), "items": items, "digest": book.digest()}


def main() -> None:
    """Write both files of this version, which must not be there yet."""
    archive, said = HERE / f"{__version__}.zip", HERE / f"{__version__}.json"
    if archive.exists() or said.exists():
        raise SystemExit(f"{__version__} is frozen already.")
    with tempfile.TemporaryDirectory() as folder, create_book(Path(folder) / "book") as book:
        fill(book)
        backup(book, archive)
        said.write_text(json.dumps(described(book), ensure_ascii=False, separators=(",", ":")) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
