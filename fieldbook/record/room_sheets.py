"""A room as the record shows it: its plan, its faces drawn to scale, and what was read and seen in it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime

from ..book.site import Item, Site, by_mark
from ..drawing.bow import bow
from ..drawing.diagrams import humidity_of, light_of
from ..drawing.elevation import elevation, scale_on
from ..drawing.room_plan import room_plan
from ..findings import Finding, hazards
from .answers import answers
from .contents import FaceSheet, ReadingSummary, RoomSheet

UPRIGHT_MM, ACROSS_MM = (172.0, 208.0), (261.0, 150.0)
"""Room for a drawing on an upright page and on one turned, width and height, mm."""

BESIDE_MM, WORDS_MM = 60.0, 25.0
"""Height a photograph of the datum takes above a drawing, and that of the words it stands beside."""


def room_sheet(site: Site, room: Item, findings: Sequence[Finding]) -> RoomSheet:
    """One room with its faces, drawn."""
    return RoomSheet(
        room=room,
        plan=room_plan(site, room, findings) if room.plan else "",
        plots=tuple(filter(None, (of(site, room, paper_width_mm=UPRIGHT_MM[0]) for of in (humidity_of, light_of)))),
        faces=tuple(face_sheet(site, face, findings) for face in site.of(room, "face")),
        readings=_readings(site, room),
        logs=tuple(site.of(room, "log")),
        observations=tuple(sorted(site.of(room, "observation"), key=lambda seen: seen.at)),
        answers=answers(finding for finding in findings if _room_of(site, finding.subject) == room),
        cautions=hazards.cautions_in(room),
    )


def _room_of(site: Site, item: Item) -> Item | None:
    """The room an item belongs to; None for fittings and fixings, which have sheets of their own, and for the site."""
    while item.kind not in {"room", "site", "fitting", "fixing"}:
        item = site.parent(item) or site.item
    return item if item.kind == "room" else None


def face_sheet(site: Site, face: Item, findings: Sequence[Finding]) -> FaceSheet:
    """One face, drawn on the paper upright, or across where that makes the drawing larger."""
    wide = scale_on(site, face, *ACROSS_MM) < scale_on(site, face, *UPRIGHT_MM)
    width_mm, height_mm = ACROSS_MM if wide else UPRIGHT_MM
    drawing = elevation(site, face, findings, paper_width_mm=width_mm, paper_height_mm=height_mm)
    return FaceSheet(
        face=face,
        drawing=drawing,
        bow=bow(site, face, paper_width_mm=width_mm, paper_height_mm=height_mm) if face.surface else "",
        wide=wide,
        room_beside=drawing.height_mm <= height_mm - BESIDE_MM + WORDS_MM,
        zones=tuple(site.of(face, "zone")),
        limits=tuple(site.of(face, "limit")),
        holds=tuple(site.of(face, "hold")),
        members=tuple(site.of(face, "member")),
        patches=tuple(site.of(face, "patch")),
        fittings=tuple(site.of(face, "fitting")),
    )


def _readings(site: Site, room: Item) -> tuple[ReadingSummary, ...]:
    alike: dict[tuple[str, str, str], list[Item]] = defaultdict(list)
    for reading in site.of(room, "reading"):
        alike[reading.quantity, reading.unit, reading.face if reading.face in site else ""].append(reading)
    in_order = sorted(alike, key=lambda key: (*key[:2], by_mark(site[key[2]]) if key[2] else ()))
    return tuple(_reading_summary(*key[:2], site.get(key[2]), alike[key]) for key in in_order)


def _reading_summary(quantity: str, unit: str, face: Item | None, readings: list[Item]) -> ReadingSummary:
    in_time = sorted(readings, key=lambda reading: datetime.fromisoformat(reading.at))
    values = [reading.value for reading in readings]
    instruments = tuple(dict.fromkeys(reading.instrument for reading in in_time if reading.instrument))
    span = (min(values), max(values), in_time[0], in_time[-1])
    return ReadingSummary(quantity, unit, face.called if face else "", len(readings), *span, instruments)
