"""One field or more set for all that were ticked; what is left empty stays as it is."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.site import Item, gather
from ...book.wording import count
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..all_or_nothing import ITEMS, page_around, ticked, written
from ..books import book
from ..forms.of_kind import EntryForm, entry_form, fields_of
from ..forms.presets import given
from ..security import csrf
from ..shown.revisions import differ

blueprint = Blueprint("together", __name__)
OF_ONE = {"mark", "reference", "name"}  # each thing's own


@blueprint.route("/site/<item:item>/together", methods=["GET", "POST"])
@csrf.exempt
def change(item: str) -> Response | tuple[str, int]:
    """The form of the kind that was ticked, empty; where several kinds were, which of them is asked first."""
    site = gather(book(), item)
    by_kind = sorted(ticked(site), key=lambda one: list(KINDS).index(one.kind))
    kinds = {name: list(found) for name, found in groupby(by_kind, key=lambda one: one.kind)}
    if len(kinds) != 1:
        return render_template("together/which.html", site=site, kinds=kinds), 200 if kinds else 422
    ((name, items),) = kinds.items()
    shown = dict(given(KINDS[name], request.args))
    form, back = entry_form(KINDS[name], site, shown, book().revision()), page_around(site, items)
    chosen = [one for one in items if one.id in request.form.getlist(ITEMS)]
    if form.validate_on_submit() and (told := _set(form, chosen)):
        flash(told)
        return redirect(back, 303)
    asked = [field for field in fields_of(KINDS[name]) if field.name not in OF_ONE]
    page = render_template(
        "together/change.html",
        site=site,
        kind=KINDS[name],
        items=items,
        form=form,
        fields=asked,
        back=back,
        chosen=chosen if form.is_submitted() else items,
    )
    return page, 422 if form.is_submitted() else 200


def _set(form: EntryForm, items: Sequence[Item]) -> str:
    """What was done, in words; nothing where something is to be mended."""
    try:
        filled = {name: value for name, value in form.accepted({}).items() if value not in (None, [])}
    except Refused as refused:
        form.add_errors(refused.findings)
        return ""
    new = {name: value for name, value in filled.items() if name not in OF_ONE}
    if not new or not items:
        nothing: FieldbookError = Missing(
            "Nothing is filled in, or nothing is ticked.", "Fill in what is to be set, and tick for which."
        )
        form.add_errors([nothing])
        return ""
    lines: list[Line] = []
    changed: list[Item] = []
    for one in items:
        own = {name: value for name, value in new.items() if differ(form.kind.by_name[name], value, one.values[name])}
        if own:
            lines.append({"kind": one.kind, "item": one.id, "set": own})
            changed.append(one)
    if not lines:
        return "Nothing was changed."
    kind = form.kind
    if written(
        lines, form.base.data, lambda number: changed[number - 1].called, lambda error: form.add_errors([error])
    ):
        return f"{count(len(lines), kind.label.lower(), kind.plural.lower())} changed."
    return ""
