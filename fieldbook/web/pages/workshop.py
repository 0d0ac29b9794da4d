"""Workshop sheets of a phase: what is cut, drilled, bought and finished, and by when."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, render_template, request

from ...book.gathering import gather
from ...checks.cutting import Layout, Stock
from ...drawing.cutting_plan import cutting_plan, left_words, taken_words
from ...errors import FieldbookError
from ...findings.shopping import shopping_of
from ...findings.workshop import Lot, phases_of, workshop_of
from ...model.fields import Field, Type
from ...model.typed import from_text
from ...model.values import accept
from ..books import book
from ..shown.drawings import WIDE_MM
from ..shown.glance import money_of
from ..shown.planning import ASKED, planning

blueprint = Blueprint("workshop", __name__)
SPARE = Field("spare", "More of each part, for mistakes", Type.NUMBER, unit="%", low=0, high=100)


@blueprint.get("/site/<item:item>/workshop")
def sheets(item: str) -> tuple[str, int]:
    """The sheets of the phase that is asked for, at first of the one that comes first."""
    site = gather(book(), item)
    phases, typed, error = phases_of(site), request.args.get(SPARE.name, ""), None
    phase = request.args.get("phase", phases[0] if phases else "")
    try:
        spare = accept(SPARE, from_text(SPARE, typed)) or 0
    except FieldbookError as refused:
        spare, error = 0, refused
    made = workshop_of(site, phase, spare)
    planned = planning(request.args, made.fittings, [one.finish for one in made.finishes])
    page = render_template(
        "workshop/sheets.html", site=site, one=site.item, phases=phases, phase=phase, made=made, typed=typed,
        spare=SPARE, error=error, plans=[_plans(lot) for lot in made.lots],
        left_words=left_words, shopping=shopping_of(site, made),
        asked=ASKED, planned=planned, given=request.args, today=date.today(), money=money_of(site),
    )  # fmt: skip
    return page, 422 if error or planned.wrong else 200


def _plans(lot: Lot) -> list[str]:
    """A drawing for each size that is cut from, as it is taken."""
    if lot.cut is None or lot.kerf_mm is None:
        return []
    drawings: list[str] = []
    for one in lot.cut.taken:
        stock = Stock(one.offer.length_mm, one.offer.width_mm, lot.kerf_mm)
        layout = Layout(one.needed, lot.cut.at_least or 0, one.pieces, one.used_share)
        told = "" if lot.cut.at_least else taken_words(layout, stock, one.offer.source)
        drawings.append(cutting_plan(lot.called, layout, stock, told=told, paper_width_mm=WIDE_MM, interactive=True))
    return drawings
