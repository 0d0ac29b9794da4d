"""New items by the row: what all have in common above, the rest in a table; entered together or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from ...book.fixings_of_copies import Reaching, reaching
from ...book.gathering import gather
from ...book.site import Site
from ...book.table_lines import lines_of
from ...book.wording import count
from ...errors import FieldbookError, UnknownKind
from ...model.fields import Field
from ...model.kinds import Kind, kind_named
from ..all_or_nothing import page_around, written
from ..books import book
from ..errors import findings_of
from ..forms.likes import likes
from ..forms.of_kind import EntryForm, entry_form, fields_of, in_columns
from ..forms.of_rows import (
    COLUMNS,
    ROWS,
    SHOW,
    STEP,
    WALLS,
    RowsForm,
    columns_of,
    may_be_columns,
    rows_form,
    walls_rows,
)
from ..forms.presets import presets
from ..forms.words_before import words_of_cells
from ..security import csrf
from ..shown.following import asked_about_new

blueprint = Blueprint("several", __name__, url_prefix="/site/<item:item>/several")
ANOTHER, EACH = (
    "another",
    "each",
)  # the buttons that lead to the same table again, or through the forms of what was made


@blueprint.route("/<kind>", methods=["GET", "POST"])
@csrf.exempt
def new(item: str, kind: str) -> Response | tuple[str, int]:
    """The form of a kind with a table under it."""
    site, known = gather(book(), item), kind_named(kind)
    if known.with_a_file or known.name == "site":
        raise UnknownKind(f"{known.plural} are not entered by the row.", "Enter each by itself.", field="kind")
    columns = columns_of(known, site)
    form = entry_form(known, site, presets(known, site, request.args), book().revision())
    walls = walls_rows(site, site.get(request.args.get("room"), "room")) if WALLS in request.args else ""
    table = rows_form(columns, walls)
    form.words |= in_columns(ROWS, words_of_cells(site, known, columns))
    sent = form.is_submitted() and SHOW not in request.form
    if sent:
        table.spread(columns)
    if sent and not table.errors and form.validate() and (done := _entered(site, known, form, table, columns)):
        ids, reach = done
        made = list(ids.values())[: len(ids) - len(reach.lines)]
        flash(f"{count(len(made), known.label.lower(), known.plural.lower())} entered.")
        asks, now = asked_about_new(site, reach, ids), gather(book(), item)
        if request.form.get("then") == ANOTHER:
            return redirect(_more_like(item, known, made[-1], table, columns), 303)
        if request.form.get("then") == EACH:
            first = next(one for one in now.all(known.name) if one.id in made)
            return redirect(asks or url_for("entries.change", item=first.id), 303)
        return redirect(asks or page_around(now, [now[one] for one in made]), 303)
    asked = _asked(known, columns) | {"likes": likes(known, site)}
    page = render_template("several/new.html", site=site, kind=known, form=form, table=table, **asked)
    return page, 422 if sent else 200


def _more_like(site: str, kind: Kind, last: str, table: RowsForm, columns: Sequence[Field]) -> str:
    """The same table, empty, with what the last one hands on above it."""
    shown: dict[str, Any] = {f"{STEP}{name}": step for name, step in table.steps.items() if step}
    shown[COLUMNS] = [column.name for column in columns]
    return url_for(".new", item=site, kind=kind.name, like=last, **shown)


def _asked(kind: Kind, columns: Sequence[Field]) -> dict[str, Any]:
    """What is asked for above the table, in it, and what could be."""
    fitting = may_be_columns(kind)
    return {
        "fields": [field for field in fields_of(kind) if field not in columns],
        "columns": list(columns),
        "choices": [field for field in fields_of(kind) if field.name in fitting],
    }


def _entered(
    site: Site, kind: Kind, form: EntryForm, table: RowsForm, columns: Sequence[Field]
) -> tuple[dict[str, str], Reaching] | None:
    """The ids of what was entered, and what of it reached copies; None where something is to be mended."""
    own = {column.name for column in columns}
    try:
        common = {name: value for name, value in form.accepted({}).items() if value is not None and name not in own}
        lines = lines_of(site, kind, common, columns, table.cells, table.steps)
    except FieldbookError as error:
        for finding in findings_of(error):
            (table if finding.field in table else form).add_errors([finding])
        return None

    reach = reaching(site, lines)

    def find(error: FieldbookError) -> None:
        if (error.line or 0) > len(lines) and table[ROWS].errors:
            return  # what is wrong in a row is wrong on the copies too, and told once
        error.field = ROWS
        table.add_errors([error])

    made = written([*lines, *reach.lines], form.base.data, reach.calling(len(lines), "Row {}".format), find)
    return (made.ids, reach) if made else None
