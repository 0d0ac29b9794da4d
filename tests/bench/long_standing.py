"""A site of long standing for measurements: thirty walls, 3,600 fixings ticked off one by one, and years of looks."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

from fieldbook.book.entering import enter
from fieldbook.book.opening import create_book

ENTRIES, ROOMS, FACES, FITTINGS, FIXINGS = 20_000, 6, 5, 6, 20
FIXING = {"sort": "clamp", "contact_radius_mm": 12, "hole": "none", "fabric": "old fabric", "trace": "none"}
Line = dict[str, Any]


def line(kind: str, item: str, **values: Any) -> Line:
    """One line as `fieldbook enter` reads it."""
    return {"kind": kind, "item": item, "set": values}


def wall(room: int, face: int) -> list[Line]:
    """A face with a zone, and fittings planned with their fixings; the ids say which is whose."""
    on, mark = f"r{room}f{face}", f"{room + 1}.{face + 1}"
    said = [line("face", on, room=f"r{room}", mark=mark, name="Wall", sort="wall", width_mm=9000, height_mm=3200)]
    outline = [[0, 0], [9000, 0], [9000, 900], [0, 900]]
    reason = {"outline": outline, "forbids": ["drilling", "contact"], "margin_mm": 50, "reason": "old boards"}
    said.append(line("zone", f"{on}z", face=on, name="Dado", **reason))
    for number in range(FITTINGS):
        fitting, name, left = f"{on}d{number}", f"D{mark}.{number + 1}", 300 + 1400 * number
        size = {"x_mm": left, "z_mm": 1000, "width_mm": 1200, "height_mm": 900}
        said.append(line("fitting", fitting, face=on, mark=name, name="Case", state="planned", **size))
        for at in range(FIXINGS):
            place = {"mark": f"{name}.{at + 1}", "x_mm": left + 55 * at, "z_mm": 1050 + 37 * (at % 20)}
            own = {"fitting": fitting, "face": on, "state": "planned"} | place | FIXING
            said.append(line("fixing", f"{fitting}x{at}", **own))
    return said


def lines() -> list[Line]:
    """All of it, in the order in which it happened."""
    chance, said = random.Random(9), [line("site", "site", name="Customs shed", keeper="caretaker")]
    for room in range(ROOMS):
        said.append(line("room", f"r{room}", site="site", mark=f"R{room + 1}", name="Store"))
        for face in range(FACES):
            said += wall(room, face)
    for planned in [one for one in said if one["kind"] == "fixing"]:
        said.append(line("fixing", planned["item"], state="fitted", fitted_on="2021-04-12", fitted_by="fitter"))
    fittings = [one["item"] for one in said if one["kind"] == "fitting"]
    while len(said) < ENTRIES:
        fitting = chance.choice(fittings)
        when = f"20{chance.randint(21, 25)}-{chance.randint(1, 12):02}-{chance.randint(1, 28):02}T10:00:00+00:00"
        about = {"room": fitting[:2], "face": fitting[:4], "fitting": fitting, "condition_class": "0"}
        said.append(line("observation", f"o{len(said)}", what="all nuts felt", at=when, urgency_class="0", **about))
    return said


def furnish(folder: Path) -> None:
    """A new book of it."""
    with create_book(folder) as book:
        enter(book, lines(), folder)
