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
from ...book.site import Item
from ...book.wording import count
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..all_or_nothing import written
from ..books import book, item_of, site_around
from ..errors import findings_of
from ..forms.of_citing import TICKED, Citing, changed, citings
from ..forms.of_kind import MendableForm, entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf

blueprint = Blueprint("documents", __name__)
DOCUMENT = KINDS["document"]
RESTS, NEXT = "rests", "next"  # the buttons that lead on to what rests on it, and on the next one


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
            after = ".rests" if request.form.get("then") == RESTS else "items.show"
            return redirect(url_for(after, item=document), 303)
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


@blueprint.route("/documents/<item:item>/rests", methods=["GET", "POST"])
@csrf.exempt
def rests(item: str) -> Response | tuple[str, int]:
    """What rests on a document, ticked all together."""
    document, site = item_of(item), site_around(item)
    if document.kind != DOCUMENT.name or document.withdrawn:
        abort(404)
    form = MendableForm()
    groups, after = citings(site, document), site.after(document)
    if form.validate_on_submit() and (number := _cited(form, groups, document)) is not None:
        flash(f"{count(number, 'entry', 'entries')} changed." if number else "Nothing was changed.")
        to_next = after is not None and request.form.get("then") == NEXT
        return redirect(
            url_for(".rests", item=after.id) if after and to_next else url_for("items.show", item=item), 303
        )
    sent = form.is_submitted()
    shown = {
        "ticked": request.form.getlist(TICKED)
        if sent
        else [one.value for _, found in groups for one in found if one.cites],
        "base": request.form.get("base") or book().revision(),
    }
    page = render_template(
        "documents/rests.html", one=document, site=site, form=form, groups=groups, after=after, **shown
    )
    return page, 422 if sent else 200


def _cited(form: MendableForm, groups: list[tuple[str, list[Citing]]], document: Item) -> int | None:
    """How many entries were changed; None where something is to be mended."""
    lines = changed([one for _, found in groups for one in found], document, request.form.getlist(TICKED))
    site = site_around(document.id)
    called = [site[str(line["item"])].called for line in lines if isinstance(line, dict)]
    if lines and not written(lines, request.form.get("base"), lambda at: called[at - 1], form.unplaced.append):
        return None
    return len(lines)


@blueprint.get("/documents/<item:item>/as-it-came")
def as_it_came(item: str) -> Response:
    """The file of a document, byte for byte, to be saved: nothing in it runs here."""
    kind, values = book().item(item)
    if kind != DOCUMENT.name:
        abort(404)
    path = path_of(book().folder, values["sha256"])
    name = f"{values['sha256'][:12]}.{ENDINGS.get(values['file_type'], 'bin')}"
    return send_file(path.resolve(), values["file_type"], as_attachment=True, download_name=name)
