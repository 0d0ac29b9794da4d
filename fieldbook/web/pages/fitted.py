"""A whole fitting put up in one act: who and when once, figures only where there are such."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, flash, redirect, render_template
from werkzeug.wrappers import Response

from ...book.gathering import gather
from ...book.wording import count
from ...errors import FieldbookError, Refused
from ...findings.place import warnings
from ..all_or_nothing import page_around, ticked, written
from ..books import book
from ..forms.of_fitted import OF_ALL, OF_EACH, FittedForm, fitted_form, put_up
from ..security import csrf

blueprint = Blueprint("fitted", __name__)


@blueprint.route("/site/<item:item>/fitted", methods=["GET", "POST"])
@csrf.exempt
def tick(item: str) -> Response | tuple[str, int]:
    """What was ticked and is planned went up."""
    site = gather(book(), item)
    form = fitted_form(site, ticked(site), book().revision())
    around = page_around(site, list(form.items.values())) if form.items else ""
    if form.validate_on_submit() and (number := _put_up(form)):
        flash(f"{count(number, 'thing')} fitted.")
        for _, sentence in warnings(gather(book(), item), form.chosen, date.today()):
            flash(sentence)
        return redirect(around, 303)
    page = render_template("fitted/tick.html", site=site, form=form, back=around, of_all=OF_ALL, of_each=OF_EACH)
    return page, 422 if form.is_submitted() or not form.items else 200


def _put_up(form: FittedForm) -> int:
    """How many things were; 0 where something is to be mended."""
    try:
        lines = put_up(form)
    except Refused as refused:
        form.add_errors(refused.findings)
        return 0
    items = [str(line["item"]) for line in lines if isinstance(line, dict)]

    def find(error: FieldbookError) -> None:
        error.field = f"{error.field}-{items[(error.line or 1) - 1]}"
        form.add_errors([error])

    return len(lines) if written(lines, form.base.data, lambda at: form.items[items[at - 1]].called, find) else 0
