"""One field or more set for all that were ticked; what is left empty stays as it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.gathering import gather
from ...book.site import Item, Site
from ...book.wording import count
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..all_or_nothing import ITEMS, page_around, ticked, written
from ..books import book
from ..forms.of_kind import EntryForm, entry_form, fields_of
from ..forms.presets import given
from ..security import csrf
from ..shown.following import asked_about, following_all, told
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
    if form.validate_on_submit() and (changed := _set(site, form, chosen)) is not None:
        number = count(len(changed), KINDS[name].label.lower(), KINDS[name].plural.lower())
        flash(f"{number} changed." if changed else "Nothing was changed.")
        standing = following_all(site, changed).standing
        return redirect(asked_about(site, standing, next(iter(changed.values()), {})) or back, 303)
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


def _set(site: Site, form: EntryForm, items: Sequence[Item]) -> dict[Item, dict[str, Any]] | None:
    """What was changed, and to what; None where something is to be mended."""
    try:
        filled = {name: value for name, value in form.accepted({}).items() if value not in (None, [])}
    except Refused as refused:
        form.add_errors(refused.findings)
        return None
    new = {name: value for name, value in filled.items() if name not in OF_ONE}
    if not new or not items:
        nothing: FieldbookError = Missing(
            "Nothing is filled in, or nothing is ticked.", "Fill in what is to be set, and tick for which."
        )
        form.add_errors([nothing])
        return None
    changed = {one: _own(form, one, new) for one in items}
    changed = {one: own for one, own in changed.items() if own}
    follows = following_all(site, changed)
    lines: list[Line] = [{"kind": one.kind, "item": one.id, "set": own} for one, own in changed.items()]
    lines += follows.lines
    names = [site[str(line["item"])].called for line in lines if isinstance(line, dict)]
    if lines and not written(lines, form.base.data, lambda at: names[at - 1], lambda error: form.add_errors([error])):
        return None
    told(follows)
    return changed


def _own(form: EntryForm, one: Item, new: Mapping[str, Any]) -> dict[str, Any]:
    """What of this one thing is set otherwise than it is."""
    return {name: value for name, value in new.items() if differ(form.kind.by_name[name], value, one.values[name])}
