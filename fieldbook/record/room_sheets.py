"""A room as the record shows it: its plan, its faces drawn to scale, and what was read and seen in it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from datetime import datetime

from ..book.site import Item, Site, by_mark
from ..drawing.before_after import BeforeAfter, before_after, first_and_last
from ..drawing.bow import bow
from ..drawing.diagrams import humidity_of, light_of
from ..drawing.elevation import elevation, scale_on
from ..drawing.room_plan import room_plan
from ..drawing.underlay import photographs_under
from ..findings import Finding, hazards
from .answers import answers, in_common
from .contents import FaceSheet, ReadingSummary, RoomSheet

COLUMN_MM = 83.0
"""Width of one of two columns on a page."""

DRAWING_MM = ((COLUMN_MM, 138.0), (112.0, 150.0), (172.0, 165.0))
"""Room for the drawing of a face, width and height, mm: in one of two columns, with words beside it, or alone."""

SMALLEST_SCALE = 100
"""1 to so much: what would be drawn smaller gets more of the page's width."""

PLAN_MM, PLOT_MM, BOW_MM = (COLUMN_MM, 100.0), (COLUMN_MM, 40.0), (COLUMN_MM, 62.0)
"""Room for a room's plan, a plot of what was read in it, and the bow of a face."""


def room_sheet(site: Site, room: Item, findings: Sequence[Finding]) -> RoomSheet:
    """One room with its faces, drawn."""
    return RoomSheet(
        room=room,
        plan=_plan(site, room, findings) if room.plan else "",
        plots=tuple(filter(None, (_plot(of, site, room) for of in (humidity_of, light_of)))),
        faces=tuple(face_sheet(site, face, findings) for face in site.of(room, "face")),
        readings=_readings(site, room),
        logs=tuple(site.of(room, "log")),
        observations=tuple(sorted(site.of(room, "observation"), key=lambda seen: seen.at)),
        answers=answers(one for one in findings if room_of(site, one.subject) == room and not in_common(one)),
        cautions=hazards.cautions_in(room),
    )


def _plan(site: Site, room: Item, findings: Sequence[Finding]) -> str:
    return room_plan(site, room, findings, paper_width_mm=PLAN_MM[0], paper_height_mm=PLAN_MM[1], alone=False)


def _plot(of: Callable[..., str | None], site: Site, room: Item) -> str | None:
    return of(site, room, paper_width_mm=PLOT_MM[0], paper_height_mm=PLOT_MM[1])


def room_of(site: Site, item: Item) -> Item | None:
    """The room an item belongs to; None for fittings and fixings, which have sheets of their own, and for the site."""
    while item.kind not in {"room", "site", "fitting", "fixing"}:
        item = site.parent(item) or site.item
    return item if item.kind == "room" else None


def face_sheet(site: Site, face: Item, findings: Sequence[Finding]) -> FaceSheet:
    """One face, drawn at the largest standard scale that fits."""
    least = max(SMALLEST_SCALE, scale_on(site, face, *DRAWING_MM[-1]))
    width_mm, height_mm = next(paper for paper in DRAWING_MM if scale_on(site, face, *paper) <= least)
    return FaceSheet(
        face=face,
        width_mm=width_mm,
        drawing=elevation(site, face, findings, paper_width_mm=width_mm, paper_height_mm=height_mm, alone=False),
        under=next(iter(photographs_under(site, face)), None) if face.picture_under != "left out" else None,
        pair=_pair(site, face),
        bow=bow(site, face, paper_width_mm=BOW_MM[0], paper_height_mm=BOW_MM[1], alone=False) if face.surface else "",
        zones=tuple(site.of(face, "zone")),
        limits=tuple(site.of(face, "limit")),
        holds=tuple(site.of(face, "hold")),
        members=tuple(site.of(face, "member")),
        patches=tuple(site.of(face, "patch")),
        fittings=tuple(site.of(face, "fitting")),
    )


def _pair(site: Site, face: Item) -> BeforeAfter | None:
    two = first_and_last(site, face)
    return before_after(site, face, *two) if two else None


def _readings(site: Site, room: Item) -> tuple[ReadingSummary, ...]:
    alike: dict[tuple[str, str, str, str], list[Item]] = defaultdict(list)
    for reading in site.of(room, "reading"):
        things = [one for link in (reading.fitting, reading.fixing) if (one := site.get(link))]
        face = "" if things or reading.face not in site else reading.face
        where = ", ".join(filter(None, (*(one.called for one in things), reading.of)))
        alike[reading.quantity, reading.unit, face, where].append(reading)
    in_order = sorted(alike, key=lambda key: (*key[:2], by_mark(site[key[2]]) if key[2] else (), key[3]))
    return tuple(_reading_summary(*key[:2], _where(site, *key[2:]), alike[key]) for key in in_order)


def _where(site: Site, face: str, where: str) -> str:
    return ", ".join(filter(None, (site[face].called if face else "", where)))


def _reading_summary(quantity: str, unit: str, where: str, readings: list[Item]) -> ReadingSummary:
    in_time = sorted(readings, key=lambda reading: datetime.fromisoformat(reading.at))
    values = [reading.value for reading in readings]
    instruments = tuple(dict.fromkeys(reading.instrument for reading in in_time if reading.instrument))
    span = (min(values), max(values), in_time[0], in_time[-1])
    return ReadingSummary(quantity, unit, where, len(readings), *span, instruments)
