"""The setting-out sheet of a face: what goes where, in which order, with what; to scale, with room to tick and write.

Figures run from the datum; heights are told from it and from the floor at that very place, since floors slope.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from ..book.book import Book
from ..book.photographs import UnsuitablePhotograph, reduced
from ..book.site import Item, Site, by_mark
from ..book.wording import figure, of_item
from ..checks.clearance import height_at
from ..checks.level import marks_mm
from ..checks.verdict import FINE, Word
from ..drawing.detail import detail
from ..drawing.elevation import elevation
from ..drawing.key import key, met
from ..drawing.signs import hazard, sign
from ..errors import FieldbookError, NotAChoice
from ..findings import Finding, geometry, worst_words
from ..findings.hazards import cautions_for, cautions_in
from ..findings.packing import Packing, packing_of
from ..model.choices import FITTED
from .pdf import Printed
from .removal import removal_of
from .sheets import print_sheets

PAPERS = {"A4": (277.0, 152.0), "A3": (400.0, 234.0)}
"""Room for the drawing on a sheet of this size turned sideways, width and height, mm."""

LINE_MM = 1000.0  # above the datum, where a level line is usually struck
DATUM_PX = 660
DETAIL_MM = {"A4": 110.0, "A3": 170.0}  # height of the drawing of one fitting
OTHER_FITTING = "another fitting"


@dataclass(frozen=True)
class SetOutFixing:
    """One fixing as it is set out.

    above_floor_mm  where it is planned, above the floor at that x; None where the floor was not surveyed
    packers         as they are laid, thickness by thickness; "" where they are not known
    uses            the hold, board or other fitting it goes into
    word            the worst found about it, unless that is fine
    """

    fixing: Item
    above_floor_mm: float | None
    packers: str
    uses: str
    word: Word | None

    @property
    def is_in(self) -> bool:
        """Whether it is fitted already."""
        return self.fixing.state == FITTED

    def told(self, name: str) -> str:
        """A field of it in words."""
        return of_item(self.fixing, name, {})


@dataclass(frozen=True)
class SetOutFitting:
    """One fitting in its turn, with its fixings from left to right, and why its packers are not known, if so."""

    number: int
    fitting: Item
    after: tuple[Item, ...]
    fixings: tuple[SetOutFixing, ...]
    out_of_plane_mm: float
    refusal: FieldbookError | None
    word: Word | None


def set_out(
    site: Site, face: Item, findings: Sequence[Finding], stock_mm: Sequence[float] = ()
) -> tuple[SetOutFitting, ...]:
    """What is set out on a face, in the order it goes up: what carries comes before what hangs on it.

    stock_mm  thicknesses of packers in the box; empty: any
    Raises what `packing_of` raises for the thicknesses.
    """
    words = worst_words(findings)
    turns = turns_of(site)
    by_fitting: dict[str, list[Item]] = {one.id: [] for one in site.of(face, "fitting") if one.stands}
    for fixing in site.fixings_on(face):
        if fixing.stands and site[fixing.fitting].stands:
            by_fitting.setdefault(fixing.fitting, []).append(fixing)
    fittings = sorted((site[one] for one in by_fitting), key=lambda one: (turns.get(one.id, 0), by_mark(one)))
    return tuple(
        _fitting(site, face, fitting, by_fitting[fitting.id], number, words, stock_mm)
        for number, fitting in enumerate(fittings, 1)
    )


def turns_of(site: Site) -> Mapping[str, int]:
    """Id of each fitting -> its turn in going up: the order of taking down, from its end."""
    steps = removal_of(site).steps
    last = max((step.stage for step in steps), default=0)
    return {step.fitting.id: last - step.stage for step in steps}


def _fitting(
    site: Site,
    face: Item,
    fitting: Item,
    fixings: Sequence[Item],
    number: int,
    words: Mapping[str, Word],
    stock_mm: Sequence[float],
) -> SetOutFitting:
    bearing = [one for one in fixings if one.fabric != OTHER_FITTING]
    packing = packing_of(site, face, fitting, stock_mm) if face.surface and len(bearing) > 1 else None
    packers = _packers(packing)
    rows = [
        SetOutFixing(
            fixing,
            _above_floor(face, fixing.x_mm, fixing.z_mm),
            packers.get(fixing.id) or _entered(fixing),
            _uses(site, fixing),
            _unless_fine(words, fixing),
        )
        for fixing in sorted(fixings, key=lambda one: (one.x_mm, one.z_mm, one.id))
    ]
    off, refusal = (packing.out_of_plane_mm, packing.refusal) if packing else (0.0, None)
    carriers = tuple(one for one in site.goes_through(fitting))
    return SetOutFitting(number, fitting, carriers, tuple(rows), off, refusal, _unless_fine(words, fitting))


def _packers(packing: Packing | None) -> Mapping[str, str]:
    """Id of a fixing -> its packers: from the box as so many of each thickness, else as one thickness."""
    found = {}
    for row in packing.packed if packing else ():
        pieces = [f"{row.made_of.count(one)} × {figure(one)}" for one in dict.fromkeys(row.made_of)]
        found[row.fixing.id] = " + ".join(pieces) or figure(round(row.packer_mm, 1), "mm")
    return found


def _entered(fixing: Item) -> str:
    if fixing.fabric == OTHER_FITTING:
        return "none: not on the face"
    return "" if fixing.packers_mm is None else f"{figure(fixing.packers_mm, 'mm')} entered"


def _uses(site: Site, fixing: Item) -> str:
    used = (site.get(link) for link in (fixing.hold, fixing.member, fixing.other_fitting))
    return ", ".join(one.called for one in used if one)


def _above_floor(face: Item, x_mm: float, z_mm: float) -> float | None:
    return None if not face.floor or geometry.overhead(face) else z_mm - height_at(geometry.floor_of(face), x_mm)


def _unless_fine(words: Mapping[str, Word], item: Item) -> Word | None:
    word = words.get(item.id)
    return None if word in FINE or word is Word.DOES_NOT_APPLY else word


def level_marks(face: Item, line_mm: float = LINE_MM) -> list[tuple[float, float, float]]:
    """x, z of the floor, and how far above the floor a level line is marked there; empty without a floor profile."""
    if not face.floor:
        return []
    floor = geometry.floor_of(face)
    marks = marks_mm({str(place): z for place, (_, z) in enumerate(floor)}, line_mm)
    return [(x, z, marks[str(place)]) for place, (x, z) in enumerate(floor)]


def write_setting_out_sheet(
    book: Book,
    site: Site,
    face: Item,
    findings: Sequence[Finding],
    file: Path,
    *,
    paper: str = "A4",
    stock_mm: Sequence[float] = (),
    state: str = "",
) -> Printed:
    """Write the setting-out sheet of a face as PDF.

    paper     "A4" or "A3", turned sideways
    stock_mm  thicknesses of packers in the box, mm; empty: any
    state     what it is made from; left out, the state of the book
    Raises NotAChoice for another paper, what `set_out` raises, and what printing raises.
    """
    if paper not in PAPERS:
        raise NotAChoice(f"{paper} is no paper here.", "Choose A4 or A3.", field="paper", value=paper)
    fittings = set_out(site, face, findings, stock_mm)
    room = site[face.room]
    about = [*cautions_in(room), *(one for row in fittings for one in cautions_for(site, row.fitting))]
    cautions = {caution.key: caution for caution in about}
    width_mm, height_mm = PAPERS[paper]
    # Without findings: each fixing's word stands in its row, where what was agreed and what it carries count too.
    drawing = elevation(site, face, (), paper_width_mm=width_mm, paper_height_mm=height_mm, to_fixings=True)
    drawings = {"app:drawing": drawing, "app:key": key(met(site, ()), paper_width_mm=width_mm)}
    drawings |= {
        f"app:fitting/{one.number}": detail(
            site, one.fitting, (), paper_width_mm=width_mm, paper_height_mm=DETAIL_MM[paper]
        )
        for one in fittings
        if one.fitting.face == face.id
    }
    drawings |= {f"app:sign/{word.name.lower()}": sign(word) for word in Word}
    drawings |= {f"app:hazard/{place}": hazard(one.key, one.title) for place, one in enumerate(cautions.values(), 1)}
    photographs = dict(_datum_photograph(book, site, face))
    return print_sheets(
        "setting_out.html",
        drawings,
        file,
        photographs,
        site=site,
        room=room,
        face=face,
        paper=paper,
        state=state or f"state {site.revision} of the book",
        fittings=fittings,
        stock_mm=stock_mm,
        marks=level_marks(face),
        line_mm=LINE_MM,
        cautions=list(cautions.values()),
        shown={*drawings, *photographs},
    )


def _datum_photograph(book: Book, site: Site, face: Item) -> Iterator[tuple[str, bytes]]:
    """The latest photograph of the datum, where one can be shown."""
    taken = [one for one in site.photographs_of(face) if one.purpose == "datum"]
    for photograph in sorted(taken, key=lambda one: one.taken_at or "")[-1:]:
        with suppress(UnsuitablePhotograph):
            yield "app:datum", reduced(book, photograph.sha256, DATUM_PX)
