"""The packers that a face calls for, taken over into the planned fixings that have none."""

from __future__ import annotations

import math

from flask import Blueprint, flash, redirect, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.wording import count
from ...errors import FieldbookError
from ...findings.packing import packing_of
from ..all_or_nothing import written
from ..books import item_of, site_around
from ..shown.filters import page_of
from ..shown.setting_out import STOCK, thicknesses

blueprint = Blueprint("packers", __name__)


@blueprint.post("/item/<item:item>/packers")
def take_over(item: str) -> Response:
    """Enter them as worked out for one fitting, up to a tenth of a millimetre; none where one entered is another."""
    site = site_around(item)
    fitting = site[item_of(item, "fitting").id]
    face = site[fitting.face]
    back = redirect(f"{page_of(face)}#setting-out", 303)
    try:
        packing = packing_of(site, face, fitting, thicknesses(request.form.get(STOCK.name, "")))
    except FieldbookError as error:
        flash(f"{error.reason} {error.remedy}")
        return back
    lines: list[Line] = [
        {"kind": "fixing", "item": row.fixing.id, "set": {"packers_mm": math.ceil(round(10 * row.packer_mm, 3)) / 10}}
        for row in packing.to_take_over
    ]
    if not lines:
        flash("Nothing is to be taken over: the fixings are fitted, or have packers of their own.")
        return back
    called = [row.fixing.called for row in packing.to_take_over]
    if written(lines, request.form.get("base"), lambda at: called[at - 1], lambda error: flash(error.reason)):
        flash(f"Packers of {count(len(lines), 'fixing')} entered.")
    return back
