"""Everything that is drawn on a face: its outline and floor, zones, limits, holds, fittings and fixings."""

from __future__ import annotations

from collections.abc import Mapping

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from .. import gather
from ..checks.clearance import Limit, Stretch
from ..checks.verdict import Word
from ..errors import FieldbookError
from ..gather import Item, Site
from . import clear_depth, hatching, placing, symbols
from . import drafting as d
from .dimensions import said
from .placing import Box
from .sheet import Sheet, places_in

Worst = Mapping[str, Word]
LEAST_TICK_MM = 2.4  # of paper: a displacement too small to see at this scale is drawn this long


def draw_face_items(site: Site, face: Item, sheet: Sheet, worst: Worst) -> list[d.Drawn]:
    """All of it, in the order of painting: letters find their places first, so that hatching can leave them free."""
    zones, limits = site.of(face, "zone"), site.of(face, "limit")
    fittings, fixings, holds = site.of(face, "fitting"), site.fixings_on(face), site.of(face, "hold")
    _reserve(sheet, zones, fittings, fixings, holds)
    datum = _datum(sheet)
    drawn_fixings = [_fixing(sheet, item, worst.get(item.id)) for item in fixings]
    drawn_fittings = [_fitting(sheet, item, worst.get(item.id)) for item in fittings]
    drawn_holds = [_hold(sheet, item) for item in holds]
    drawn_limits = [drawn for item in limits if (drawn := _limit(sheet, face, item))]
    letters_of_zones = [_zone_letters(sheet, item) for item in zones]
    free = hatching.letters_free(sheet.plan.boxes)
    drawn_zones = [_zone(sheet, item, letters, free) for item, letters in zip(zones, letters_of_zones, strict=True)]
    return [*drawn_zones, *_face(sheet, face), *drawn_limits, *drawn_holds, *drawn_fittings, *drawn_fixings, *datum]


def _reserve(sheet: Sheet, zones: list[Item], fittings: list[Item], fixings: list[Item], holds: list[Item]) -> None:
    """Take the room of every symbol, and mark the lines letters had better not run over."""
    for fixing in fixings:
        sheet.plan.take(_around(sheet.at(*gather.place_of(fixing)), symbols.FIXING_MM + 0.2))
    for hold in holds:
        sheet.plan.take(_around(sheet.at(hold.x_mm, hold.z_mm), symbols.HOLD_MM + 0.2))
    for fitting in fittings:
        sheet.plan.avoid(_corners(sheet.box(gather.fitting_stretch(fitting))), closed=True)
    for zone in zones:
        sheet.plan.avoid([sheet.at(*corner) for corner in zone.outline], closed=True)
    whole = sheet.box(sheet.part)
    sheet.plan.avoid(_corners(whole), closed=True)


def _around(at: d.Point, reach: float) -> Box:
    return at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach


def _corners(area: Box) -> list[d.Point]:
    left, top, right, bottom = area
    return [(left, top), (right, top), (right, bottom), (left, bottom)]


def _path(area: Box) -> str:
    return d.through(_corners(area), closed=True)


def _face(sheet: Sheet, face: Item) -> list[d.Drawn]:
    outline = d.stroke(_path(sheet.box(gather.face_stretch(face))), d.WIDE)
    if not face.floor:
        return [outline]
    profile = gather.floor_of(face)
    ends = gather.face_stretch(face)
    level = [(ends.x_from, profile[0][1]), *profile, (ends.x_to, profile[-1][1])]
    points = [sheet.at(x, z) for x, z in level if ends.x_from <= x <= ends.x_to]
    sheet.plan.avoid(points)
    return [outline, symbols.ground(points)]


def _datum(sheet: Sheet) -> list[d.Drawn]:
    if not (sheet.part.x_from <= 0 <= sheet.part.x_to and sheet.part.z_from <= 0 <= sheet.part.z_to):
        return []
    x, y = sheet.at(0, 0)
    sheet.plan.take((x - 1.6, y - symbols.DATUM_MM - 0.3, x + 1.6, y))
    letters = sheet.letter("0, 0", (x, y - symbols.DATUM_MM / 2), 1.8, d.SMALL)
    return [symbols.datum((x, y)), *letters]


def _zone_shape(sheet: Sheet, zone: Item) -> Polygon:
    return Polygon([sheet.at(*corner) for corner in zone.outline]).buffer(0)


def _zone_letters(sheet: Sheet, zone: Item) -> list[d.Drawn]:
    words = f"{zone.called} no {', '.join(zone.forbids)}"
    shape = _zone_shape(sheet, zone)
    inner = shape.buffer(-0.4)
    size = placing.size_of(words)
    inside = [place for place in places_in(shape.bounds, size) if inner.contains(box(*place))]
    middle = shape.representative_point()
    return sheet.letter(words, (middle.x, middle.y), 0.6, ink=d.VERMILION, inside=inside)


def _zone(sheet: Sheet, zone: Item, letters: list[d.Drawn], free: BaseGeometry) -> d.Drawn:
    shape = _zone_shape(sheet, zone)
    drawn = hatching.hatched(shape, zone.forbids, free)
    drawn.append(d.stroke(d.through(shape.exterior.coords[:-1], closed=True), d.MEDIUM, d.VERMILION))
    if zone.margin_mm:
        edge = shape.buffer(zone.margin_mm / sheet.scale).exterior.intersection(box(*sheet.box(sheet.part)))
        path = "".join(d.through(line.coords) for line in getattr(edge, "geoms", [edge]) if not line.is_empty)
        drawn.append(d.stroke(path, d.NARROW, d.VERMILION, d.DASHED))
    return sheet.item(zone, *drawn, *letters)


def _limit(sheet: Sheet, face: Item, item: Item) -> d.Drawn | None:
    """The band of a limit on the face, with what it allows."""
    try:
        limit = gather.limit_value(item, face)
    except FieldbookError:
        return None  # the notes under the drawing say why
    if item.sort == "headroom":
        return _headroom(sheet, item, limit)
    band = _seen(limit, sheet.part)
    area = sheet.box(band)
    words = (
        f"{item.called} {item.leaf or 'leaf'}"
        if limit.leaf
        else f"{item.called} {item.sort} {said(limit.projection_mm - limit.margin_mm)}"
    )
    sheet.plan.avoid(_corners(area), closed=True)
    middle = ((area[0] + area[2]) / 2, (area[1] + area[3]) / 2)
    letters = sheet.letter(words, middle, 0.6, ink=d.VERMILION, inside=places_in(area, placing.size_of(words)))
    dashes = d.LONG_DASHED_DOUBLE_DOTTED if limit.leaf else d.LONG_DASHED_DOTTED
    return sheet.item(item, d.stroke(_path(area), d.NARROW, d.VERMILION, dashes), *letters)


def _seen(limit: Limit, part: Stretch) -> Stretch:
    """Where on the face a limit holds: its band, and of a leaf only what it comes in front of."""
    band = limit.band
    left, right = max(band.x_from, part.x_from), min(band.x_to, part.x_to)
    if limit.leaf:
        before = clear_depth.swept(limit).intersection(box(-1e6, 0, 1e6, 1e6))
        if not before.is_empty:
            left = max(left, before.bounds[0] - limit.margin_mm)
            right = min(right, before.bounds[2] + limit.margin_mm)
    return Stretch(min(left, right), right, max(band.z_from, part.z_from), min(band.z_to, part.z_to))


def _headroom(sheet: Sheet, item: Item, limit: Limit) -> d.Drawn:
    left, right = max(limit.band.x_from, sheet.part.x_from), min(limit.band.x_to, sheet.part.x_to)
    inner = [(x, z) for x, z in limit.below_mm if left < x < right]
    from ..checks.clearance import height_at

    profile = [(left, height_at(limit.below_mm, left)), *inner, (right, height_at(limit.below_mm, right))]
    points = [sheet.at(x, z) for x, z in profile]
    sheet.plan.avoid(points)
    words = f"{item.called} headroom {said(item.headroom_mm)}"
    middle = points[len(points) // 2]
    letters = sheet.letter(words, middle, 0.4, ink=d.VERMILION)
    return sheet.item(item, d.stroke(d.through(points), d.MEDIUM, d.VERMILION, d.LONG_DASHED_DOTTED), *letters)


def _hold(sheet: Sheet, hold: Item) -> d.Drawn:
    at = sheet.at(hold.x_mm, hold.z_mm)
    letters = sheet.letter(hold.called, at, symbols.HOLD_MM, d.SMALL)
    return sheet.item(hold, symbols.hold(at, hold.sort, hold.may_be_used), *letters)


def _fitting(sheet: Sheet, fitting: Item, word: Word | None) -> d.Drawn:
    area = sheet.box(gather.fitting_stretch(fitting))
    ink = symbols.STATE_LINES[fitting.state].ink
    size = placing.size_of(f"{fitting.called} {word}" if word and word is not Word.WITHIN else fitting.called)
    inside = places_in(area, (size[0] + 3, size[1]))
    middle = ((area[0] + area[2]) / 2, area[1])
    letters = sheet.letter(fitting.called, middle, 0.5, ink=ink, word=word, inside=inside, bold=True)
    return sheet.item(fitting, symbols.outline_of_state(_path(area), fitting.state), *letters)


def _fixing(sheet: Sheet, fixing: Item, word: Word | None) -> d.Drawn:
    at = sheet.at(*gather.place_of(fixing))
    drawn = [
        *_touched(sheet, fixing, at),
        *_displaced(sheet, fixing, at),
        symbols.fixing(at, fixing.hole, fixing.state),
    ]
    ink = symbols.STATE_LINES[fixing.state].ink
    return sheet.item(fixing, *drawn, *sheet.letter(fixing.called, at, symbols.FIXING_MM, d.SMALL, ink=ink, word=word))


def _touched(sheet: Sheet, fixing: Item, at: d.Point) -> list[d.Drawn]:
    """What touches the fabric, in true size where the symbol does not hide it."""
    radius = fixing.contact_radius_mm / sheet.scale
    if radius < symbols.FIXING_MM + 0.3:
        return []
    line = symbols.STATE_LINES[fixing.state]
    return [d.stroke(d.circle(*at, radius), d.NARROW, line.ink, line.dashes)]


def _displaced(sheet: Sheet, fixing: Item, at: d.Point) -> list[d.Drawn]:
    """A tick from where a fixing is towards where it was planned; at least long enough to be seen."""
    planned = sheet.at(fixing.x_mm, fixing.z_mm)
    across, down = planned[0] - at[0], planned[1] - at[1]
    distance = (across**2 + down**2) ** 0.5
    if distance < 1e-6:
        return []
    share = max(1, LEAST_TICK_MM / distance)
    x, y = at[0] + across * share, at[1] + down * share
    bar = (-down / distance * 0.8, across / distance * 0.8)
    path = d.segments([(at, (x, y)), ((x - bar[0], y - bar[1]), (x + bar[0], y + bar[1]))])
    return [d.stroke(path, d.NARROW, d.BLUE)]
