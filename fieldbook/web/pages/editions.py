"""Making the record of a site, and the editions made so far."""

from __future__ import annotations

from dataclasses import dataclass

from flask import Blueprint, abort, current_app, jsonify, redirect, render_template, request, send_file, url_for
from flask.blueprints import BlueprintSetupState
from werkzeug.wrappers import Response

from ...book.gathering import gather
from ...record.editions import Edition, editions
from ...record.gaps import gaps_of
from ...record.printing import Printer, file_of
from ..books import FOLDER, book, site_around
from ..errors import wants_json

blueprint = Blueprint("editions", __name__)


@dataclass(frozen=True)
class Issue:
    """An edition, and which of its PDFs lie here: without costs, with costs."""

    edition: Edition
    plain: bool
    with_costs: bool


@blueprint.record_once
def _set_up_printer(state: BlueprintSetupState) -> None:
    state.app.extensions["printer"] = Printer(state.app.config[FOLDER])


def printer() -> Printer:
    """The printer of this app's book."""
    return current_app.extensions["printer"]


@blueprint.get("/site/<item:site>/record")
def every(site: str) -> str:
    """The editions of a site's record, and what the next would lack."""
    around = gather(book(), site)
    issues = [
        Issue(edition, *(file_of(book(), site, str(edition.number), costs).exists() for costs in (False, True)))
        for edition in reversed(editions(book(), site))
    ]
    return render_template("editions/every.html", one=around.item, site=around, issues=issues, gaps=gaps_of(around))


@blueprint.post("/site/<item:site>/record")
def make(site: str) -> Response:
    """Begin to make a record."""
    book().refuse_newer()
    gather(book(), site)
    printing = printer().start(site, request.form.get("costs") == "yes")
    return redirect(url_for(".progress", site=site, printing=printing.id), 303)


@blueprint.get("/site/<item:site>/record/making/<item:printing>")
def progress(site: str, printing: str) -> Response | str:
    """How far a record is."""
    made = printer().printing(printing)
    if made is None or made.site != site:
        return redirect(url_for(".every", site=site), 303)
    if wants_json():
        return jsonify(share=made.share, words=made.words, finished=made.finished)
    return render_template("editions/progress.html", site=site_around(site), made=made)


@blueprint.get("/site/<item:site>/record/<int:number>.pdf")
def download(site: str, number: int) -> Response:
    """The PDF of an edition."""
    file = file_of(book(), site, str(number), request.args.get("costs") == "yes")
    if not file.exists():
        abort(404)
    return send_file(file.resolve(), "application/pdf", download_name=f"record-edition-{number}.pdf")
