"""A door entered as it is told, with its plan beside it; the limit's hinge and boxes come of themselves."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.next_mark import next_mark
from ...book.site import Item, Site
from ...book.supposed import with_new
from ...drawing.drafting import Drawn
from ...drawing.elevation import elevation
from ...errors import FieldbookError
from ..books import book, item_of, site_around
from ..errors import findings_of
from ..forms.of_door import ASKED, LIMIT, door_form, limit_in
from ..security import csrf
from ..shown.drawings import WIDE_MM
from ..shown.filters import page_of

blueprint = Blueprint("doors", __name__)
SHOW = "show"  # what asks for the plan alone


@blueprint.route("/face/<item:item>/door", methods=["GET", "POST"])
@csrf.exempt
def new(item: str) -> Response | tuple[str, int]:
    """Ask, show the plan, and enter a clearance limit."""
    face, site = item_of(item, "face"), site_around(item)
    form, plan = door_form(), None
    if form.is_submitted():
        try:
            values = limit_in(form, face.id)
            plan = _plan(site, face, values)
            if SHOW not in request.form and form.validate():
                values["mark"] = values.get("mark") or next_mark(LIMIT, site, values) or None
                limit = book().write(LIMIT.name, {name: one for name, one in values.items() if one is not None})
                flash(f"{LIMIT.label} {item_of(limit).title} is in the book.")
                return redirect(page_of(face), 303)
        except FieldbookError as error:
            form.add_errors(findings_of(error))
    wrong = form.is_submitted() and SHOW not in request.form
    page = render_template("doors/new.html", one=face, site=site, form=form, asked=ASKED, plan=plan)
    return page, 422 if wrong else 200


def _plan(site: Site, face: Item, values: dict[str, Any]) -> Drawn:
    """The face with this leaf alone among the limits: its sweep stands in the strip under the wall."""
    supposed = with_new(site, [{"kind": LIMIT.name, "item": "door", "set": values}])
    return elevation(supposed.site, face, [], paper_width_mm=WIDE_MM, interactive=False)
