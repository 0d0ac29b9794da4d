"""What is recorded on a face, drawn over a photograph of it, with the marks the photograph is measured by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..book.site import Item, Site
from ..checks.picture_plane import Plane
from ..findings import geometry
from . import drafting as d

STEPS = 12  # parts a side of an outline is drawn in, so that one that leaves the picture still shows its rest
LETTERS = 60  # of them make the picture's width
HALO, INK = "#000", "#fff"


def face_shown(site: Site, photograph: Item) -> Item | None:
    """The face a photograph most likely shows; None where what it is of lies on none."""
    subject = site.get(photograph.subject)
    if marked := site.get(photograph.plane_face):
        return marked
    return subject if subject is None or subject.kind == "face" else site.get(subject.values.get("face"))


def over_photograph(site: Site, photograph: Item, plane: Plane | None) -> str:
    """An SVG in the photograph's pixels: its marks, and, where these make a plane, what is recorded on the face."""
    width, height = photograph.width_px or 1600, photograph.height_px or 1200
    size = width / LETTERS
    drawn = list(_marks(photograph, size))
    face = site.get(photograph.plane_face)
    if plane and face:
        drawn = [*_recorded(site, face, plane, size), *drawn]
    title = "Marks of the photograph, and what is recorded on the face it shows"
    return d.element(
        "svg",
        d.element("title", title),
        *drawn,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width} {height}",
        role="img",
        fill="none",
        font_family=d.FAMILY,
        data_over="photograph",
    )


def numbered_marks(site: Site, photograph: Item, but: str = "") -> str:
    """An SVG in the photograph's pixels: the numbers of its marks in rings, but for one by its id."""
    width, height = photograph.width_px or 1600, photograph.height_px or 1200
    size, marks = width / LETTERS, site.of(photograph, "pointer")
    return d.element(
        "svg",
        d.element("title", "Numbered marks on the photograph"),
        *(part for mark in marks if mark.id != but for part in _ring(mark, size)),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width} {height}",
        role="img",
        font_family=d.FAMILY,
    )


def _ring(mark: Item, size: float) -> Iterator[str]:
    x, y = mark.across_px, mark.down_px
    yield d.element("circle", cx=x, cy=y, r=size, fill=INK, stroke=HALO, stroke_width=size / 9)
    yield d.element("text", str(mark.number), x=x, y=y + size * 0.35, font_size=size, text_anchor="middle", fill=HALO)


def _marks(photograph: Item, size: float) -> Iterator[str]:
    for number, row in enumerate(photograph.plane_marks or (), 1):
        yield d.element("g", *_cross((row[0], row[1]), str(number), size), data_mark=number - 1)


def _cross(at: d.Point, words: str, size: float) -> Iterator[str]:
    x, y = at
    near, far = size / 5, size
    arms = [f"M{x + a * near:.1f} {y + b * near:.1f}L{x + a * far:.1f} {y + b * far:.1f}" for a, b in _ARMS]
    yield from _line("".join(arms), size)
    yield _letters((x + size / 2, y - size / 2), words, size)


_ARMS = ((1, 0), (-1, 0), (0, 1), (0, -1))


def _recorded(site: Site, face: Item, plane: Plane, size: float) -> Iterator[str]:
    for zone in site.of(face, "zone"):
        yield from _outline(plane, zone.outline, zone.called, size, within=True)
    for fitting in site.of(face, "fitting"):
        if fitting.stands:
            part = geometry.fitting_stretch(fitting)
            corners = [(part.x_from, part.z_from), (part.x_to, part.z_from), (part.x_to, part.z_to)]
            yield from _outline(plane, [*corners, (part.x_from, part.z_to)], fitting.called, size)
    for item in (*site.fixings_on(face), *site.of(face, "hold")):
        x, z = geometry.place_of(item) if item.kind == "fixing" else (item.x_mm, item.z_mm)
        if item.stands and (at := plane.seen(x, z)):
            for ink, pen in ((HALO, size / 4), (INK, size / 9)):
                yield d.element("circle", cx=at[0], cy=at[1], r=size / 2.5, stroke=ink, stroke_width=pen)
            yield _letters((at[0] + size * 0.7, at[1] + size / 3), item.called, size)


def _outline(
    plane: Plane, corners: Iterable[Iterable[float]], words: str, size: float, *, within: bool = False
) -> Iterator[str]:
    points = [tuple(corner) for corner in corners]
    along = [
        (
            x + (points[(at + 1) % len(points)][0] - x) * step / STEPS,
            z + (points[(at + 1) % len(points)][1] - z) * step / STEPS,
        )
        for at, (x, z) in enumerate(points)
        for step in range(STEPS)
    ]
    seen = [point for place in along if (point := plane.seen(*place))]
    if len(seen) > 2:
        yield from _line(d.through(seen, closed=True), size)
        middle = sum(x for x, _ in seen) / len(seen), sum(y for _, y in seen) / len(seen)
        yield _letters(middle if within else seen[0], words, size)


def _line(data: str, size: float) -> Iterator[str]:
    for ink, pen in ((HALO, size / 4), (INK, size / 9)):
        yield d.element("path", d=data, stroke=ink, stroke_width=pen)


def _letters(at: d.Point, words: str, size: float) -> str:
    return d.element(
        "text", words, x=at[0], y=at[1], font_size=size, fill=INK, stroke=HALO,
        stroke_width=size / 6, paint_order="stroke",
    )  # fmt: skip
