"""What the page of a fitting shows beyond its fields: drawings, and its projection layer by layer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from ...book.site import Item, Site
from ...checks.clearance import ClearDepth, clear_depth
from ...checks.limits import rounded_down
from ...checks.projection import Projection
from ...drawing.cutting_plan import cutting_plan
from ...drawing.detail import detail
from ...drawing.diagrams import load_path_of
from ...drawing.drafting import Drawn
from ...errors import FieldbookError
from ...findings import Finding
from ...findings.geometry import fitting_stretch
from ...findings.limits_here import limits_of
from ...findings.making import layout_of, projection_of, stock_of
from ...findings.room_to_move import RoomToMove, room_to_move
from ...model.terms import Term
from .drawings import WIDE_MM

HIGH_MM = 170.0  # of paper, for the detail


@dataclass(frozen=True)
class FittingPage:
    """The drawings of a fitting under their headings, how far it stands out, and what is clear there.

    refusals  why one of these is not shown, in words
    packer_mm the thickest packer entered behind its fixings
    room      where it may be set and how much more it may carry; None for one that is not made to be moved
    """

    drawings: Sequence[tuple[str, Drawn]]
    projection: Projection | None
    clear: ClearDepth | None
    packer_mm: float | None
    refusals: Sequence[FieldbookError]
    room: RoomToMove | None


def fitting_page(site: Site, fitting: Item, findings: Sequence[Finding], today: date) -> FittingPage:
    """What is shown of a fitting that is on the site."""
    refusals: list[FieldbookError] = []
    fixings = [fixing for fixing in site.of(fitting, "fixing") if fixing.stands]
    packers = [fixing.packers_mm for fixing in fixings if fixing.packers_mm is not None]
    projection = clear = None
    if fitting.build_up:
        try:
            projection, clear = projection_of(fitting), _clear(site, fitting)
        except FieldbookError as error:
            refusals.append(error)
    drawings = list(_drawings(site, fitting, findings, today, refusals))
    room = None if fitting.moves_mm is None else room_to_move(site, fitting, today)
    return FittingPage(drawings, projection, clear, max(packers, default=None), refusals, room)


def _clear(site: Site, fitting: Item) -> ClearDepth:
    found = clear_depth(limits_of(site, site[fitting.face]), fitting_stretch(fitting))
    return ClearDepth(None if found.depth_mm is None else rounded_down(found.depth_mm), found.limited_by)


def _drawings(
    site: Site, fitting: Item, findings: Sequence[Finding], today: date, refusals: list[FieldbookError]
) -> Iterator[tuple[str, Drawn]]:
    yield (
        "Place on the face",
        detail(site, fitting, findings, paper_width_mm=WIDE_MM, paper_height_mm=HIGH_MM, interactive=True),
    )
    if load_path := load_path_of(site, fitting, findings, today):
        yield "Load path", load_path
    if fitting.parts and (fitting.stock_length_mm is not None or not fitting.cut_from):
        try:
            layout, stock = layout_of(fitting), stock_of(fitting)
            yield (
                Term.CUTTING_PLAN,
                cutting_plan(fitting.title, layout, stock, paper_width_mm=WIDE_MM, interactive=True),
            )
        except FieldbookError as error:
            refusals.append(error)
