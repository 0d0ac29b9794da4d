"""The part of a face that one fitting takes up, larger than on the elevation, with its fixings dimensioned."""

from __future__ import annotations

from collections.abc import Iterable

from ..book.site import Item, Site
from ..checks.clearance import Stretch
from ..findings import Finding, geometry
from . import drafting as d
from .captions import LEAST_MM, caption_below_name
from .dimensions import SCALES
from .elevation import GROUND_MM, PAPER_MM, SIGNS_NOTE, words_of_place
from .face_items import draw_face_items
from .running import dimensions_round, left_out, room_mm
from .sheet import Sheet

HEIGHT_MM = 130.0  # of paper
RIGHT_MM = 18.0  # beside the part, for letters that hang over
BELOW_MM, LETTERS_BELOW_MM = 4.0, 18.0  # air; and for letters there is no room for on a low part
ROUND_SHARE, ROUND_MM = 0.1, 60.0  # of the face shown round the fitting: a share of it, and no less than this
OTHERS_NOTE = "Fixings of other fittings have no marks here."
SAME_MM = 1.0  # fixings as near as this share a figure


def detail(
    site: Site,
    fitting: Item,
    findings: Iterable[Finding],
    *,
    paper_width_mm: float = PAPER_MM[0],
    paper_height_mm: float = HEIGHT_MM,
    interactive: bool = False,
) -> d.Drawn:
    """A fitting on its face as one SVG, at the largest standard scale that fits; its root is as that of `elevation`."""
    face = site[fitting.face]
    sheet, own, xs, zs = _laid_out(site, fitting, (paper_width_mm, paper_height_mm), interactive=interactive)
    drawn = dimensions_round(sheet, own, xs, zs)
    drawn += draw_face_items(site, face, sheet, words_of_place(findings), about=fitting)
    read = f"Figures in mm from the datum of {face.called}; x to the right, z up."
    notes = [" ".join([read, *([SIGNS_NOTE] if findings else []), OTHERS_NOTE])]
    notes += sheet.lettering.left_out
    notes += left_out(sheet, xs, zs)
    foot = max(sheet.bottom_mm, sheet.lettering.lowest_mm) + BELOW_MM
    under, foot = caption_below_name(f"Part of {face.called}", sheet.scale, notes, foot, paper_width_mm)
    return d.drawing(
        f"{fitting.title} on {face.title}, scale 1:{sheet.scale}",
        (paper_width_mm, foot),
        *drawn,
        *under,
        interactive=interactive,
        **sheet.facts,
    )


def detail_scale(site: Site, fitting: Item, paper_width_mm: float, paper_height_mm: float) -> int:
    """The scale (1:this) a fitting would be drawn at on a paper, without drawing it."""
    return _laid_out(site, fitting, (paper_width_mm, paper_height_mm), interactive=False)[0].scale


def _laid_out(
    site: Site, fitting: Item, paper_mm: d.Point, *, interactive: bool
) -> tuple[Sheet, Stretch, list[float], list[float]]:
    """The sheet at its scale, the fitting's stretch, and the figures along x and z."""
    face = site[fitting.face]
    fixings = [fixing for fixing in site.of(fitting, "fixing") if fixing.face == face.id]
    part = _part(face, fitting, fixings)
    places = [geometry.place_of(fixing) for fixing in fixings]
    own = geometry.fitting_stretch(fitting)
    xs = _figures([own.x_from, own.x_to, *(x for x, _ in places)])
    zs = _figures([own.z_from, own.z_to, *(z for _, z in places)])
    return _fitted(part, (room_mm(zs), room_mm(xs)), paper_mm, interactive), own, xs, zs


def _part(face: Item, fitting: Item, fixings: list[Item]) -> Stretch:
    """The fitting and its fixings, with some of the face round them."""
    stretches = [geometry.fitting_stretch(fitting), *map(geometry.fixing_stretch, fixings)]
    left, right = min(each.x_from for each in stretches), max(each.x_to for each in stretches)
    low, high = min(each.z_from for each in stretches), max(each.z_to for each in stretches)
    wider = Stretch(left, right, low, high).widened(max(ROUND_MM, ROUND_SHARE * max(right - left, high - low)))
    whole = geometry.face_stretch(face)
    return Stretch(
        min(left, max(wider.x_from, whole.x_from)),
        max(right, min(wider.x_to, whole.x_to)),
        min(low, max(wider.z_from, whole.z_from)),
        max(high, min(wider.z_to, whole.z_to)),
    )


def _figures(edges: list[float]) -> list[float]:
    """The edges worth a figure: of those that all but coincide, the first."""
    kept: list[float] = []
    for edge in sorted(edges):
        if not kept or edge - kept[-1] > SAME_MM:
            kept.append(edge)
    return kept


def _fitted(part: Stretch, corner: d.Point, paper_mm: d.Point, interactive: bool) -> Sheet:
    for scale in SCALES:
        right = paper_mm[0] - corner[0] - (part.x_to - part.x_from) / scale
        foot = corner[1] + (part.z_to - part.z_from) / scale + BELOW_MM
        if right >= RIGHT_MM and foot + LEAST_MM <= paper_mm[1]:
            break
    sheet = Sheet(scale, corner, part, (3, 4, right - 0.3, 2), interactive=interactive)
    sheet.let_letters_below(GROUND_MM, min(LETTERS_BELOW_MM, paper_mm[1] - foot - LEAST_MM))
    return sheet
