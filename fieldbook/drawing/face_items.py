"""Everything that is drawn on a face: its outline and floor, zones, limits, holds, fittings and fixings.

Letters find their places before anything is painted, the widest first, so that hatching can leave them free.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping

from shapely import LinearRing, LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from ..book.site import Item, Site
from ..checks.clearance import Limit, Stretch, height_at
from ..checks.verdict import Word
from ..errors import FieldbookError
from ..findings import geometry
from . import drafting as d
from . import hatching, symbols
from .labels import words_beside
from .lettering import letters
from .placing import Box
from .section import swept
from .sheet import Sheet

Worst = Mapping[str, Word]
Bounds = tuple[Item, BaseGeometry, Polygon]  # a limit, the edge of where it holds, and where its letters may stand
LEAST_RING_MM = 0.3  # of paper: how far past its symbol what touches must reach to be drawn
GREATEST_RING_MM = 5.0  # of paper: letters stand outside what touches up to this radius, inside a larger one
LEAST_TICK_MM = 2.4  # of paper: a displacement too small to see at this scale is drawn this long

BAND_MM = 7.0  # of paper: how far from a headroom line its letters may stand


def draw_face_items(
    site: Site,
    face: Item,
    sheet: Sheet,
    worst: Worst,
    beside: Callable[[Item], str] = words_beside,
    about: Item | None = None,
) -> list[d.Drawn]:
    """All that lies on the part of the face that is drawn, in the order of painting.

    beside  what is written beside a zone or a limit
    about   the fitting that is drawn, if it is one: its fixings are lettered before all else, those of others not
    """
    zones = [item for item in site.of(face, "zone") if _zone_shape(sheet, item).intersects(_frame(sheet))]
    fittings = [item for item in site.of(face, "fitting") if geometry.fitting_stretch(item).meets(sheet.part)]
    fixings = [item for item in site.fixings_on(face) if geometry.fixing_stretch(item).meets(sheet.part)]
    holds = [
        item for item in site.of(face, "hold") if Stretch(item.x_mm, item.x_mm, item.z_mm, item.z_mm).meets(sheet.part)
    ]
    limits = list(limits_on(sheet, site, face))
    zones.sort(key=lambda item: -_zone_shape(sheet, item).area)
    _reserve(sheet, zones, limits, fittings, fixings, holds)
    outline, datum = _face(sheet, face), _datum(sheet)
    if about:
        _letter_fixings(sheet, [item for item in fixings if item.fitting == about.id], worst)
    for item in zones:
        _letter_zone(sheet, item, beside(item))
    drawn_fittings = [_fitting(sheet, item, worst.get(item.id)) for item in fittings]
    drawn_limits = [_limit(sheet, item, beside(item), edge, area) for item, edge, area in limits]
    if not about:
        _letter_fixings(sheet, fixings, worst)
    drawn_fixings = [_fixing(sheet, item) for item in fixings]
    drawn_holds = [_hold(sheet, item) for item in holds]
    free = hatching.letters_free(sheet.plan.letters)
    drawn_zones = [_zone(sheet, item, free) for item in zones]
    drawn = [*drawn_zones, *outline, *drawn_limits, *drawn_holds, *drawn_fittings, *drawn_fixings, *datum]
    return drawn + sheet.lettering.drawn()


def _reserve(
    sheet: Sheet, zones: list[Item], limits: list[Bounds], fittings: list[Item], fixings: list[Item], holds: list[Item]
) -> None:
    """Take the room of every symbol, and mark the lines that letters had better not run over."""
    for fixing in fixings:
        sheet.plan.take(_around(sheet.at(*geometry.place_of(fixing)), _reach(sheet, fixing) + 0.2))
    for hold in holds:
        sheet.plan.take(_around(sheet.at(hold.x_mm, hold.z_mm), symbols.HOLD_MM + 0.2))
    for fitting in fittings:
        sheet.plan.avoid(_corners(sheet.box(geometry.fitting_stretch(fitting))), closed=True)
    for zone in zones:
        sheet.plan.avoid(_zone_shape(sheet, zone).exterior.coords)
        sheet.plan.avoid(_margin(sheet, zone).coords)
    for _, edge, _ in limits:
        for line in getattr(edge, "geoms", [edge]):
            sheet.plan.avoid(line.coords)


def _letter_fixings(sheet: Sheet, fixings: list[Item], worst: Worst) -> None:
    """Letter fixings, those with the least choice of places first."""

    def choice(fixing: Item) -> int:
        at = sheet.at(*geometry.place_of(fixing))
        return sheet.plan.choice(letters(words_beside(fixing), d.FIGURE).size, at, _reach(sheet, fixing))

    for fixing in sorted(fixings, key=choice):
        at, ink = sheet.at(*geometry.place_of(fixing)), symbols.STATE_LINES[fixing.state].ink
        words = letters(words_beside(fixing), d.FIGURE, ink, word=worst.get(fixing.id))
        sheet.lettering.beside(fixing, words, at, _reach(sheet, fixing))


def _around(at: d.Point, reach: float) -> Box:
    return at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach


def _corners(area: Box) -> list[d.Point]:
    left, top, right, bottom = area
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def _frame(sheet: Sheet) -> Polygon:
    return box(*sheet.box(sheet.part))


def _face(sheet: Sheet, face: Item) -> list[d.Drawn]:
    whole = geometry.face_stretch(face)
    edge = box(sheet.x(whole.x_from), sheet.y(whole.z_to), sheet.x(whole.x_to), sheet.y(whole.z_from)).exterior
    sheet.plan.avoid(_corners(sheet.box(whole)), closed=True)
    outline = d.stroke(d.along(edge.intersection(_frame(sheet))), d.WIDE)
    if not face.floor:
        return [outline]
    profile = geometry.floor_of(face)
    inner = [x for x, _ in profile if sheet.part.x_from < x < sheet.part.x_to]
    points = [(x, height_at(profile, x)) for x in (sheet.part.x_from, *inner, sheet.part.x_to)]
    if max(z for _, z in points) < sheet.part.z_from:
        return [outline]
    floor = [sheet.at(x, z) for x, z in points]
    sheet.plan.avoid(floor)
    return [outline, symbols.ground(floor)]


def _datum(sheet: Sheet) -> list[d.Drawn]:
    if not Stretch(0, 0, 0, 0).meets(sheet.part):
        return []
    x, y = sheet.at(0, 0)
    sheet.plan.take((x - 1.6, y - symbols.DATUM_MM - 0.3, x + 1.6, y))
    sheet.lettering.beside(None, letters("0, 0", d.FIGURE), (x, y - symbols.DATUM_MM / 2), 1.8)
    return [symbols.datum((x, y))]


def _zone_shape(sheet: Sheet, zone: Item) -> Polygon:
    return Polygon([sheet.at(*corner) for corner in zone.outline]).buffer(0)


def _margin(sheet: Sheet, zone: Item) -> LinearRing:
    return _zone_shape(sheet, zone).buffer(zone.margin_mm / sheet.scale, quad_segs=4).exterior


def _letter_zone(sheet: Sheet, zone: Item, text: str) -> None:
    seen = _zone_shape(sheet, zone).intersection(_frame(sheet))
    words = letters(text, ink=d.VERMILION)
    middle = seen.representative_point()
    around = Polygon(_margin(sheet, zone)).intersection(_frame(sheet)).bounds
    sheet.lettering.within(zone, words, [(middle.x, middle.y)], seen, around)
    sheet.plan.avoid_area(seen)  # only now: its own letters may stand in it


def _zone(sheet: Sheet, zone: Item, free: BaseGeometry) -> d.Drawn:
    shape, frame = _zone_shape(sheet, zone), _frame(sheet)
    drawn = hatching.hatched(shape.intersection(frame), zone.forbids, free)
    drawn.append(d.stroke(d.along(shape.exterior.intersection(frame)), d.MEDIUM, d.VERMILION))
    if zone.margin_mm:
        drawn.append(d.stroke(d.along(_margin(sheet, zone).intersection(frame)), d.NARROW, d.VERMILION, d.DASHED))
    return sheet.item(zone, *drawn)


def limits_on(sheet: Sheet, site: Site, face: Item) -> Iterator[Bounds]:
    """Each limit that shows: the edge of where it holds, and where its letters may stand."""
    for item in site.of(face, "limit"):
        try:
            limit = geometry.limit_value(item, face)
        except FieldbookError:
            continue  # the notes under the drawing say why
        if item.sort == "headroom":
            if line := _headroom(sheet, limit):
                yield item, line, line.buffer(BAND_MM, cap_style="flat")
            continue
        band = _seen(limit, sheet.part)
        if band.meets(sheet.part):
            area = box(*sheet.box(band))
            yield item, area.exterior.difference(_frame(sheet).exterior), area


def _limit(sheet: Sheet, item: Item, text: str, edge: BaseGeometry, area: Polygon) -> d.Drawn:
    """The edge of where a limit holds, with what is written there."""
    middle = area.centroid
    sheet.lettering.within(item, letters(text, ink=d.VERMILION), [(middle.x, middle.y)], area)
    pen = d.MEDIUM if item.sort == "headroom" else d.NARROW
    dashes = d.LONG_DASHED_DOUBLE_DOTTED if item.sort == "leaf" else d.LONG_DASHED_DOTTED
    return sheet.item(item, d.stroke(d.along(edge), pen, d.VERMILION, dashes))


def _seen(limit: Limit, part: Stretch) -> Stretch:
    """Where a limit holds, on the part that is drawn: its band, and of a leaf only what it comes in front of."""
    band = limit.band
    left, right = max(band.x_from, part.x_from), min(band.x_to, part.x_to)
    if limit.leaf:
        before = swept(limit.leaf).intersection(box(-1e6, 0, 1e6, 1e6))
        if before.is_empty:
            return Stretch(math.inf, math.inf, math.inf, math.inf)
        left = max(left, before.bounds[0] - limit.margin_mm)
        right = min(right, before.bounds[2] + limit.margin_mm)
    return Stretch(left, right, max(band.z_from, part.z_from), min(band.z_to, part.z_to))


def _headroom(sheet: Sheet, limit: Limit) -> LineString | None:
    left, right = max(limit.band.x_from, sheet.part.x_from), min(limit.band.x_to, sheet.part.x_to)
    inner = [x for x, _ in limit.below_mm if left < x < right]
    profile = [(x, height_at(limit.below_mm, x)) for x in (left, *inner, right)]
    seen = [sheet.at(x, z) for x, z in profile if sheet.part.z_from <= z <= sheet.part.z_to]
    return LineString(seen) if left < right and len(seen) > 1 else None


def _hold(sheet: Sheet, hold: Item) -> d.Drawn:
    at = sheet.at(hold.x_mm, hold.z_mm)
    sheet.lettering.beside(hold, letters(words_beside(hold), d.FIGURE), at, symbols.HOLD_MM)
    return sheet.item(hold, symbols.hold(at, hold.sort, hold.may_be_used))


def _fitting(sheet: Sheet, fitting: Item, word: Word | None) -> d.Drawn:
    part = geometry.fitting_stretch(fitting)
    whole = box(sheet.x(part.x_from), sheet.y(part.z_to), sheet.x(part.x_to), sheet.y(part.z_from))
    area = sheet.box(part)
    ink = symbols.STATE_LINES[fitting.state].ink
    words = letters(words_beside(fitting), ink=ink, bold=True, word=word)
    sheet.lettering.within(fitting, words, _middles(area), box(*area))
    outline = d.along(whole.exterior.intersection(_frame(sheet)))
    return sheet.item(fitting, symbols.outline_of_state(outline, fitting.state))


def _middles(area: Box) -> list[d.Point]:
    """The middles of a box's sides: above, on the right, on the left, below."""
    left, top, right, bottom = area
    across, down = (left + right) / 2, (top + bottom) / 2
    return [(across, top), (right, down), (left, down), (across, bottom)]


def _fixing(sheet: Sheet, fixing: Item) -> d.Drawn:
    at = sheet.at(*geometry.place_of(fixing))
    drawn = [
        *_touched(sheet, fixing, at),
        *_displaced(sheet, fixing, at),
        symbols.fixing(at, fixing.hole, fixing.state),
    ]
    return sheet.item(fixing, *drawn)


def _touched(sheet: Sheet, fixing: Item, at: d.Point) -> list[d.Drawn]:
    """What touches the fabric, in true size where the symbol does not hide it."""
    radius = fixing.contact_radius_mm / sheet.scale
    if radius < symbols.FIXING_MM + LEAST_RING_MM:
        return []
    line = symbols.STATE_LINES[fixing.state]
    return [d.stroke(d.circle(*at, radius), d.NARROW, line.ink, line.dashes)]


def _reach(sheet: Sheet, fixing: Item) -> float:
    """From the middle of a fixing to where its letters may begin: past its symbol, or past what touches."""
    radius = fixing.contact_radius_mm / sheet.scale
    return radius if symbols.FIXING_MM + LEAST_RING_MM <= radius <= GREATEST_RING_MM else symbols.FIXING_MM


def _displaced(sheet: Sheet, fixing: Item, at: d.Point) -> list[d.Drawn]:
    """A tick from where a fixing is towards where it was planned; at least long enough to be seen."""
    planned = sheet.at(fixing.x_mm, fixing.z_mm)
    distance = math.dist(at, planned)
    if distance == 0:
        return []
    across, down = (planned[0] - at[0]) / distance, (planned[1] - at[1]) / distance
    length = max(distance, LEAST_TICK_MM)
    x, y = at[0] + across * length, at[1] + down * length
    bar = ((x - down * 0.8, y + across * 0.8), (x + down * 0.8, y - across * 0.8))
    return [d.stroke(d.segments([(at, (x, y)), bar]), d.NARROW, d.BLUE)]
