"""Logger files: kept as they came, once it is told which column is which."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from ...book import evidence
from ...book.attached import MOST_BYTES, known_of
from ...book.book import Book
from ...book.site import gather
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..books import book
from ..errors import findings_of
from ..forms.of_kind import entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf

blueprint = Blueprint("loggers", __name__)
LOG = KINDS["log"]


@blueprint.route("/site/<item:item>/logger-files/new", methods=["GET", "POST"])
@csrf.exempt
def new(item: str) -> Response | tuple[str, int]:
    """Add a logger's file to a room."""
    around = gather(book(), item)
    form = entry_form(LOG, around, presets(LOG, around, request.args), book().revision())
    if form.validate_on_submit():
        try:
            log = add(book(), form.accepted(), request.files.get("files"))
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            flash("The logger's file is in the book.")
            return redirect(url_for("items.show", item=log), 303)
    page = render_template("loggers/new.html", form=form, site=around, kind=LOG, fields=fields_of(LOG))
    return page, 422 if form.is_submitted() else 200


def add(opened: Book, values: dict[str, Any], file: FileStorage | None) -> str:
    """Keep a file that can be read with these columns, and enter it; the id of the item.

    Raises Refused when there is no file, or it cannot be read.
    """
    content = file.stream.read(MOST_BYTES[LOG.name] + 1) if file else b""
    if not content:
        raise Refused([Missing("No file is chosen, or it is empty.", "Choose the logger's file.", field="files")])
    given = {name: value for name, value in values.items() if value is not None}
    try:
        known = known_of(LOG.name, content, given)
    except FieldbookError as error:
        error.field = "files" if error.field == "file" else error.field
        raise Refused([error]) from error
    evidence.keep(opened.folder, LOG.name, content)
    return opened.write(LOG.name, given | known)
