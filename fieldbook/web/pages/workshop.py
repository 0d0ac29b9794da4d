"""Workshop sheets of a phase: what is cut, drilled, bought and finished, and by when."""

from __future__ import annotations

from flask import Blueprint, render_template, request

from ...book.site import gather
from ...drawing.cutting_plan import cutting_plan
from ...errors import FieldbookError
from ...findings.workshop import Lot, phases_of, workshop_of
from ...model.fields import Field, Type, accept
from ...model.typed import from_text
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
    planned = planning(request.args, made.fittings, made.finishes)
    page = render_template(
        "workshop/sheets.html", site=site, one=site.item, phases=phases, phase=phase, made=made, typed=typed,
        spare=SPARE, error=error, plans=[_plan(lot) for lot in made.lots],
        asked=ASKED, planned=planned, given=request.args, money=money_of(site),
    )  # fmt: skip
    return page, 422 if error or planned.wrong else 200


def _plan(lot: Lot) -> str:
    if lot.stock is None or lot.layout is None:
        return ""
    return cutting_plan("all parts", lot.layout, lot.stock, paper_width_mm=WIDE_MM, interactive=True)
