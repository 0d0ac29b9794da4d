"""The elevation of a face, to scale: what exists, what is forbidden or limited, what is planned and fitted.

Under it lies the strip of `clear_depth`. Drawn in millimetres of paper, so that a print is true to the
scale it names. To find the place on the face that a point (x, y) of the drawing shows, in face mm:
x × scale + left, top − y × scale, with `data-scale`, `data-left-mm` and `data-top-mm` of the root.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from operator import attrgetter

from ..book.site import Item, Site
from ..book.wording import joined
from ..checks.clearance import Stretch
from ..checks.verdict import Word
from ..findings import Finding, geometry, worst_words
from . import drafting as d
from .captions import LEAST_MM, SHORT_MM, caption, caption_below_name
from .clear_depth import Strip
from .dimensions import SCALES, said
from .face_items import draw_face_items
from .labels import words_beside
from .running import dimensions_round, left_out, room_mm
from .section import Section, section
from .sheet import Sheet

RIGHT_MM = 10.0  # beside the face, for letters that hang over
GROUND_MM, AIR_MM = 2.0, 2.0  # the ground's strokes; between letters and what stands below them
BELOW_MM = GROUND_MM + 3.0
LETTERS_BELOW_MM = 18.0  # below the ground's strokes, for letters there is no room for on a low face
CHECKS_OF_PLACE = {"keep-off", "clearance"}
SIGNS_NOTE = "Signs beside marks tell of keep-off zones and clearance only."
AXES_NOTE = "Figures in mm from the datum; x to the right, z up."
HOW_READ = f"{AXES_NOTE} {SIGNS_NOTE}"
PAPER_MM = (180.0, 240.0)


def elevation(
    site: Site,
    face: Item,
    findings: Iterable[Finding],
    *,
    paper_width_mm: float = PAPER_MM[0],
    paper_height_mm: float = PAPER_MM[1],
    interactive: bool = False,
    z_mm: float | None = None,
    to_fixings: bool = False,
    about: str = "",
    alone: bool = True,
) -> d.Drawing:
    """A face as one SVG, at the largest standard scale that fits the paper.

    findings     those of the site: what is over, close or not known in its place carries its sign and word; none where
                 a list beside the drawing has the words
    interactive  without a fixed size, and with each item leading to its page
    z_mm         height of the cut the strip shows; None for the least clear depth of all heights
    to_fixings   whether dimensions run to what is to be set out, rather than to the edges of fittings alone
    about        number, state and day of the sheet, where it goes by itself
    alone        whether all that must be known stands on it; else its name stands above it, how it is read in the
                 key, and what zones and limits say, and what the wall is made of, in words below it
    """
    worst = words_of_place(findings)
    cut = section(site, face, z_mm)
    edges = _edges(site, face, to_fixings=to_fixings)
    below_mm = LEAST_MM if alone else SHORT_MM
    sheet, strip = _fitted(face, cut, edges, (paper_width_mm, paper_height_mm - below_mm), interactive=interactive)
    drawn = dimensions_round(sheet, geometry.face_stretch(face), *edges)
    drawn += draw_face_items(site, face, sheet, worst, words_beside if alone else attrgetter("called"))
    strip = Strip(sheet, cut, max(strip.top_mm, sheet.lettering.lowest_mm + AIR_MM))
    foot = strip.top_mm
    if not cut.is_empty:
        drawn += strip.drawn()
        foot = strip.foot_mm
    notes = [
        *filter(None, [about, (HOW_READ if findings else AXES_NOTE) if alone else ""]),
        *_on_floor(site, face),
        *_notes(face, cut, sheet, alone=alone),
        *left_out(sheet, *edges),
    ]
    named = caption(face.title, "Elevation", sheet.scale, notes, foot, paper_width_mm)
    under, foot = named if alone else caption_below_name("Elevation", sheet.scale, notes, foot, paper_width_mm)
    return d.drawing(
        f"Elevation of {face.title}, scale 1:{sheet.scale}",
        (paper_width_mm, foot),
        *drawn,
        *under,
        interactive=interactive,
        **sheet.facts,
    )


def scale_on(site: Site, face: Item, paper_width_mm: float, paper_height_mm: float) -> int:
    """The scale (1:this) a face would be drawn at on a paper below its name, without drawing it."""
    cut, size_mm = section(site, face, None), (paper_width_mm, paper_height_mm - SHORT_MM)
    return _fitted(face, cut, _edges(site, face), size_mm, interactive=False)[0].scale


def words_of_place(findings: Iterable[Finding]) -> Mapping[str, Word]:
    """Item id -> the worst word about where it stands; loads and the like are no matter of a drawing."""
    return worst_words(finding for finding in findings if finding.verdict.check in CHECKS_OF_PLACE)


def _fitted(
    face: Item, cut: Section, edges: tuple[list[float], list[float]], paper_mm: d.Point, *, interactive: bool
) -> tuple[Sheet, Strip]:
    """The face and its strip at the largest scale at which both fit the paper above what stands below them."""
    part = drawn_part(face)
    corner = (room_mm(edges[1]), room_mm(edges[0]))
    for scale in SCALES:
        right = paper_mm[0] - corner[0] - (part.x_to - part.x_from) / scale
        sheet = Sheet(scale, corner, part, (3, 4, right - 0.3, 0.3), interactive=interactive)
        strip = Strip(sheet, cut, sheet.bottom_mm + BELOW_MM)
        foot = strip.top_mm if cut.is_empty else strip.foot_mm
        if right >= RIGHT_MM and foot <= paper_mm[1]:
            break
    sheet.let_letters_below(GROUND_MM, min(LETTERS_BELOW_MM, paper_mm[1] - foot - AIR_MM))
    return sheet, strip


def drawn_part(face: Item) -> Stretch:
    """The part of the face's plane that is drawn: the face, and the floor where it lies lower."""
    part = geometry.face_stretch(face)
    floor = min((z for _, z in face.floor or []), default=part.z_from)
    return Stretch(part.x_from, part.x_to, min(part.z_from, floor), part.z_to)


def _edges(site: Site, face: Item, *, to_fixings: bool = False) -> tuple[list[float], list[float]]:
    """The edges of what stands on the face, x and z, the datum, and where its fixings are if asked for."""
    parts = [geometry.fitting_stretch(item) for item in site.of(face, "fitting") if item.stands]
    places = [geometry.place_of(item) for item in site.fixings_on(face) if to_fixings and item.stands]
    xs = {edge for part in parts for edge in (part.x_from, part.x_to)} | {x for x, _ in places}
    zs = {edge for part in parts for edge in (part.z_from, part.z_to)} | {z for _, z in places}
    return sorted(xs | {0.0}), sorted(zs | {0.0})


def _on_floor(site: Site, face: Item) -> list[str]:
    """What of its zones lies on the floor before it, where a drawing of the wall has no room for it."""
    if geometry.overhead(face):
        return []
    foot = geometry.floor_of(face)[0][1]
    out = [(zone.called, sorted(foot - z for _, z in zone.outline)) for zone in site.of(face, "zone")]
    told = [f"{called} {max(far[0], 0):g} to {far[-1]:g} mm out" for called, far in out if far[-1] > 0]
    return [f"On the floor before it: {joined(told)}."] if told else []


def _notes(face: Item, cut: Section, sheet: Sheet, *, alone: bool) -> list[str]:
    notes = []
    if face.layers and alone:
        notes.append(f"Made of, from the surface inwards: {'; '.join(_layer(*layer) for layer in face.layers)}.")
    if not face.floor:
        notes.append("The floor in front of this face was not surveyed.")
    if not cut.limits:
        notes.append(
            "No clearance limit is entered for this face."
            if cut.z_mm is None
            else "No clearance limit holds at this height."
        )
    notes += cut.unusable
    notes += sheet.lettering.left_out
    return notes


def _layer(material: str, thickness_mm: float | None, age: str | None) -> str:
    return f"{material}{f' {said(thickness_mm)} mm' if thickness_mm is not None else ''}{f' ({age})' if age else ''}"
