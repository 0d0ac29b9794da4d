"""The elevation of a face, to scale: what exists, what is forbidden or limited, what is planned and fitted.

Under it lies the strip of `clear_depth`. Drawn in millimetres of paper, so that a print is true to the
scale it names. To find the place on the face that a point (x, y) of the drawing shows, in face mm:
x × scale + left, top − y × scale, with `data-scale`, `data-left-mm` and `data-top-mm` of the root.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from .. import gather
from ..checks.clearance import Stretch
from ..checks.verdict import Word
from ..gather import Item, Site
from ..verdicts import WORST_FIRST, Finding
from . import dimensions
from . import drafting as d
from .captions import LEAST_MM, caption
from .clear_depth import Strip
from .dimensions import SCALES, overall, said, spread
from .face_items import draw_face_items
from .section import Section, section
from .sheet import Sheet

LEFT_MM, RIGHT_MM, TOP_MM = 26.0, 14.0, 28.0  # round the face: dimensions, and letters that hang over
OVERALL_MM, RUNNING_MM = 5.5, 5.0  # overall dimensions from the sheet's edge, running ones from the face
OVER_MM = 4.0  # running figures may be led this far past the face
BELOW_MM = 5.0  # the ground's strokes, and air
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
) -> d.Drawn:
    """A face as one SVG, at the largest standard scale that fits the paper.

    findings     the verdicts of the site: what is over, close or not known carries its sign and word
    interactive  without a fixed size, and with each item leading to its page
    z_mm         height of the cut the strip shows; None for the least clear depth of all heights
    """
    worst = worst_words(findings)
    cut = section(site, face, z_mm)
    sheet, strip = _fitted(face, cut, paper_width_mm, paper_height_mm, interactive)
    drawn = _dimensions(site, face, sheet)
    drawn += draw_face_items(site, face, sheet, worst)
    foot = strip.top_mm
    if not cut.is_empty:
        drawn += strip.drawn()
        foot = strip.foot_mm
    notes = _notes(face, cut, sheet)
    under, foot = caption(face.title, "Elevation", sheet.scale, notes, foot, paper_width_mm)
    return d.drawing(
        f"Elevation of {face.title}, scale 1:{sheet.scale}",
        (paper_width_mm, foot),
        *drawn,
        *under,
        interactive=interactive,
        **sheet.facts,
    )


def worst_words(findings: Iterable[Finding]) -> Mapping[str, Word]:
    """Item id -> the worst word found about it."""
    worst: dict[str, Word] = {}
    for finding in findings:
        word, key = finding.verdict.word, finding.subject.id
        if key not in worst or WORST_FIRST.index(word) < WORST_FIRST.index(worst[key]):
            worst[key] = word
    return worst


def _fitted(face: Item, cut: Section, width_mm: float, height_mm: float, interactive: bool) -> tuple[Sheet, Strip]:
    """The face and its strip at the largest scale at which both fit."""
    part = drawn_part(face)
    for scale in SCALES:
        right = width_mm - LEFT_MM - (part.x_to - part.x_from) / scale - 0.3
        sheet = Sheet(scale, (LEFT_MM, TOP_MM), part, (3, 4, right, 0.3), interactive=interactive)
        strip = Strip(sheet, cut, sheet.bottom_mm + BELOW_MM)
        foot = strip.top_mm if cut.is_empty else strip.foot_mm
        if sheet.right_mm + RIGHT_MM <= width_mm and foot + LEAST_MM <= height_mm:
            break
    return sheet, strip


def drawn_part(face: Item) -> Stretch:
    """The part of the face's plane that is drawn: the face, and the floor where it lies lower."""
    part = gather.face_stretch(face)
    floor = min((z for _, z in face.floor or []), default=part.z_from)
    return Stretch(part.x_from, part.x_to, min(part.z_from, floor), part.z_to)


def _dimensions(site: Site, face: Item, sheet: Sheet) -> list[d.Drawn]:
    """The face's own size, and the edges of fittings as figures running from the datum."""
    whole = gather.face_stretch(face)
    top, left, right = sheet.top_mm, sheet.left_mm, sheet.right_mm
    bottom = sheet.y(whole.z_from)
    drawn = overall((left, OVERALL_MM), (right, OVERALL_MM), said(face.width_mm))
    drawn += overall((OVERALL_MM, bottom), (OVERALL_MM, top), said(face.height_mm))
    ends = [((left, OVERALL_MM - dimensions.BEYOND_MM), (left, top - dimensions.GAP_MM))]
    ends.append(((right, OVERALL_MM - dimensions.BEYOND_MM), (right, top - dimensions.GAP_MM)))
    ends += [((OVERALL_MM - dimensions.BEYOND_MM, y), (left - dimensions.GAP_MM, y)) for y in (top, bottom)]
    drawn.append(d.stroke(d.segments(ends)))
    parts = [gather.fitting_stretch(item) for item in site.of(face, "fitting") if item.state != "taken down"]
    drawn += _running_x(sheet, sorted({0.0} | {edge for part in parts for edge in (part.x_from, part.x_to)}))
    drawn += _running_z(
        sheet, sorted({0.0} | {edge for part in parts for edge in (part.z_from, part.z_to)}, reverse=True)
    )
    return drawn


def _running_x(sheet: Sheet, edges: list[float]) -> list[d.Drawn]:
    """Distances along the face from the datum, each in line with its extension line."""
    kept = _roomy([(sheet.x(edge), edge) for edge in edges], sheet.left_mm, sheet.right_mm)
    line = sheet.top_mm - RUNNING_MM
    words_at = line - 2.6
    places = spread([paper for paper, _ in kept], sheet.left_mm - OVER_MM, sheet.right_mm + OVER_MM)
    extensions, drawn = [], []
    for (paper, edge), place in zip(kept, places, strict=True):
        extensions.append(
            d.through([(paper, sheet.top_mm - dimensions.GAP_MM), (paper, line - 0.6), (place, words_at + 0.4)])
        )
        drawn.append(d.letters(said(edge), (place + d.FIGURE / 2, words_at), upright=False))
    ends = [(paper, line) for paper, _ in kept]
    return [d.stroke("".join(extensions)), *_running_line(ends, kept), *drawn]


def _running_z(sheet: Sheet, edges: list[float]) -> list[d.Drawn]:
    """Heights from the datum, each in line with its extension line."""
    kept = _roomy([(sheet.y(edge), edge) for edge in edges], sheet.top_mm, sheet.bottom_mm)
    line = sheet.left_mm - RUNNING_MM
    words_at = line - 2.6
    places = spread([paper for paper, _ in kept], sheet.top_mm - OVER_MM, sheet.bottom_mm + OVER_MM)
    extensions, drawn = [], []
    for (paper, edge), place in zip(kept, places, strict=True):
        extensions.append(
            d.through([(sheet.left_mm - dimensions.GAP_MM, paper), (line - 0.6, paper), (words_at + 0.4, place)])
        )
        drawn.append(d.letters(said(edge), (words_at, place + d.FIGURE / 2), anchor="end"))
    ends = [(line, paper) for paper, _ in kept]
    return [d.stroke("".join(extensions)), *_running_line(ends, kept), *drawn]


def _roomy(edges: list[tuple[float, float]], low: float, high: float) -> list[tuple[float, float]]:
    """The edges there is room to write at, of those that lie on the drawing."""
    shown = {paper: edge for paper, edge in edges if low - 0.01 <= paper <= high + 0.01}
    places = dimensions.fitting_places(sorted(shown), high - low + 2 * OVER_MM)
    return [(paper, shown[paper]) for paper in places]


def _running_line(ends: list[d.Point], kept: list[tuple[float, float]]) -> list[d.Drawn]:
    """The line itself: a ring at the datum, an arrowhead at each other end."""
    if len(ends) < 2:
        return []
    rings = "".join(
        d.circle(*end, dimensions.ORIGIN_MM) for end, (_, edge) in zip(ends, kept, strict=True) if edge == 0
    )
    heads = "".join(
        dimensions.arrowhead(end, ends[0], ends[-1], forward=_away(edge, kept))
        for end, (_, edge) in zip(ends, kept, strict=True)
        if edge != 0
    )
    return [d.stroke(d.through([ends[0], ends[-1]])), d.filled(heads), d.stroke(rings, fill=d.PAPER)]


def _away(edge: float, kept: list[tuple[float, float]]) -> bool:
    """Whether a figure's arrow points along the line as it is sorted: away from the datum."""
    rising = kept[0][1] < kept[-1][1]
    return (edge > 0) == rising


def _notes(face: Item, cut: Section, sheet: Sheet) -> list[str]:
    notes = ["Figures in mm from the datum; x to the right, z up."]
    if face.layers:
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
    if sheet.lettering.unlettered:
        notes.append(f"No room on the drawing to letter: {', '.join(sheet.lettering.unlettered)}.")
    return notes


def _layer(material: str, thickness_mm: float | None, age: str | None) -> str:
    return f"{material}{f' {said(thickness_mm)} mm' if thickness_mm is not None else ''}{f' ({age})' if age else ''}"
