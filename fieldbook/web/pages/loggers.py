"""Logger files: kept as they came, once it is told which column is which."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from ...book import evidence
from ...book.book import Book
from ...book.site import gather
from ...checks import logger
from ...errors import FieldbookError, Missing, OutOfRange, Refused
from ...findings.logs import lines_of
from ...model.kinds import KINDS
from ..books import book
from ..errors import findings_of
from ..forms.of_kind import entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf

blueprint = Blueprint("loggers", __name__)
LOG = KINDS["log"]
MOST_BYTES = 100_000_000


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
            form.blame(findings_of(error))
        else:
            flash("The logger's file is in the book.")
            return redirect(url_for("items.show", item=log), 303)
    page = render_template("loggers/new.html", form=form, site=around, kind=LOG, fields=fields_of(LOG))
    return page, 422 if form.is_submitted() else 200


def add(opened: Book, values: dict[str, Any], file: FileStorage | None) -> str:
    """Keep a file that can be read with these columns, and enter it; the id of the item.

    Raises Refused when there is no file, or it cannot be read.
    """
    content = file.stream.read(MOST_BYTES + 1) if file else b""
    if not content:
        raise Refused([Missing("No file is chosen, or it is empty.", "Choose the logger's file.", field="files")])
    if len(content) > MOST_BYTES:
        reason = f"The file has more than {MOST_BYTES / 1e6:.0f} MB."
        raise Refused([OutOfRange(reason, "Export a shorter time.", field="files")])
    _try_to_read(content, values)
    kept = {"sha256": evidence.keep(opened.folder, LOG.name, content), "size_bytes": len(content)}
    return opened.write(LOG.name, {name: value for name, value in values.items() if value is not None} | kept)


def _try_to_read(content: bytes, values: dict[str, Any]) -> None:
    columns = {what: values[f"{what}_column"] for what in logger.COLUMNS if values.get(f"{what}_column")}
    try:
        logger.read(lines_of(content), columns, values.get("date_order"))
    except FieldbookError as error:
        named = [f"{what}_column" for what in logger.COLUMNS if error.field == f"columns.{what}"]
        error.field = named[0] if named else "files"
        raise Refused([error]) from error
