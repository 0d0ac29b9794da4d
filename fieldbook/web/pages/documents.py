"""Documents: kept as they came, handed out to be saved, and never shown or run here."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, send_file, url_for
from werkzeug.datastructures import FileStorage
from werkzeug.wrappers import Response

from ...book import evidence
from ...book.attached import MOST_BYTES, known_of
from ...book.book import Book
from ...book.documents import ENDINGS, path_of
from ...book.gathering import gather
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..books import book
from ..errors import findings_of
from ..forms.of_kind import entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf

blueprint = Blueprint("documents", __name__)
DOCUMENT = KINDS["document"]


@blueprint.route("/site/<item:item>/documents/new", methods=["GET", "POST"])
@csrf.exempt
def new(item: str) -> Response | tuple[str, int]:
    """Add a document to a site."""
    around = gather(book(), item)
    form = entry_form(DOCUMENT, around, presets(DOCUMENT, around, request.args), book().revision())
    if form.validate_on_submit():
        try:
            document = add(book(), form.accepted(), request.files.get("files"))
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            flash("The document is in the book.")
            return redirect(url_for("items.show", item=document), 303)
    page = render_template("documents/new.html", form=form, site=around, kind=DOCUMENT, fields=fields_of(DOCUMENT))
    return page, 422 if form.is_submitted() else 200


def add(opened: Book, values: dict[str, Any], file: FileStorage | None) -> str:
    """Keep a document and enter it; the id of the item. Raises Refused when there is no file, or it is unsuitable."""
    content = file.stream.read(MOST_BYTES[DOCUMENT.name] + 1) if file else b""
    if not content:
        raise Refused([Missing("No file is chosen, or it is empty.", "Choose the PDF or scan.", field="files")])
    given = {name: value for name, value in values.items() if value is not None}
    try:
        known = known_of(DOCUMENT.name, content, given)
    except FieldbookError as error:
        error.field = "files"
        raise Refused([error]) from error
    evidence.keep(opened.folder, DOCUMENT.name, content)
    return opened.write(DOCUMENT.name, given | known)


@blueprint.get("/documents/<item:item>/as-it-came")
def as_it_came(item: str) -> Response:
    """The file of a document, byte for byte, to be saved: nothing in it runs here."""
    kind, values = book().item(item)
    if kind != DOCUMENT.name:
        abort(404)
    path = path_of(book().folder, values["sha256"])
    name = f"{values['sha256'][:12]}.{ENDINGS.get(values['file_type'], 'bin')}"
    return send_file(path.resolve(), values["file_type"], as_attachment=True, download_name=name)
