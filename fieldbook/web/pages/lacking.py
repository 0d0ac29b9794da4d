"""What the answers about one thing still lack, entered in one form: on the thing itself and on what it rests on."""

from __future__ import annotations

from flask import Blueprint, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response

from ...book.wording import count
from ...errors import FieldbookError, Missing, Refused
from ...findings import about, appraise
from ..all_or_nothing import written
from ..books import book, item_of, site_around
from ..forms.of_lacking import LackingForm, lacking, lacking_form
from ..security import csrf

blueprint = Blueprint("lacking", __name__)


@blueprint.route("/item/<item:item>/lacking", methods=["GET", "POST"])
@csrf.exempt
def enter(item: str) -> Response | tuple[str, int]:
    """Ask for what is lacking, and enter what was filled in: all of it or nothing."""
    one, site = item_of(item), site_around(item)
    form = lacking_form(lacking(about(appraise(site), one)))
    if form.validate_on_submit() and (number := _entered(form)):
        flash(f"{count(number, 'entry', 'entries')} made.")
        return redirect(url_for("items.show", item=item), 303)
    return render_template("lacking/enter.html", one=one, site=site, form=form), 422 if form.is_submitted() else 200


def _entered(form: LackingForm) -> int:
    """How many things were told more of; 0 where something is to be mended."""
    try:
        lines = form.lines()
        if not lines:
            raise Missing("Nothing is filled in.", "Fill in what is known; the rest can wait.")
    except Refused as refused:
        form.add_errors(refused.findings)
        return 0
    except FieldbookError as error:
        form.add_errors([error])
        return 0
    items = [str(line["item"]) for line in lines if isinstance(line, dict)]
    called = {item.id: item.called for item, _ in form.asked.values()}

    def find(error: FieldbookError) -> None:
        error.field = f"{error.field}-{items[(error.line or 1) - 1]}"
        form.add_errors([error])

    made = written(lines, str(book().revision()), lambda at: called[items[at - 1]], find)
    return len(lines) if made else 0
