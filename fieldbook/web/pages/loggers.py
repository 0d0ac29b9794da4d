"""Logger files: kept as they came, once it is told which column is which."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from ...book import evidence
from ...book.attached import MOST_BYTES, known_of, log_in
from ...book.book import Book
from ...book.gathering import gather
from ...book.wording import moment
from ...checks.humidity_record import by_day
from ...checks.logger import COLUMNS
from ...drawing.diagrams import logger_plot
from ...drawing.drafting import Drawn
from ...errors import FieldbookError, Missing, Refused
from ...model.kinds import KINDS
from ..books import book
from ..errors import findings_of
from ..forms.of_kind import EntryForm, entry_form, fields_of
from ..forms.presets import presets
from ..security import csrf

blueprint = Blueprint("loggers", __name__)
LOG = KINDS["log"]
SHOW = "show"  # what asks for a look alone
PASTED = "pasted"
READ_BY = (*(f"{what}_column" for what in COLUMNS), "date_order")


@dataclass(frozen=True)
class LoggerPreview:
    """What a file says before it is taken: facts and plot, or in words what is lacking or wrong."""

    facts: Sequence[tuple[str, str]] = ()
    plot: Drawn | None = None
    words: str = ""


@blueprint.route("/site/<item:item>/logger-files/new", methods=["GET", "POST"])
@csrf.exempt
def new(item: str) -> Response | tuple[str, int]:
    """Add a logger's file to a room."""
    around = gather(book(), item)
    form = entry_form(LOG, around, presets(LOG, around, request.args), book().revision())
    sent = form.is_submitted() and SHOW not in request.form
    look = _look(form) if form.is_submitted() and not sent else None
    if sent and form.validate():
        try:
            log = add(book(), form.accepted(), _content())
        except FieldbookError as error:
            form.add_errors(findings_of(error))
        else:
            flash("The logger's file is in the book.")
            return redirect(url_for("items.show", item=log), 303)
    page = render_template("loggers/new.html", form=form, site=around, kind=LOG, fields=fields_of(LOG), look=look)
    return page, 422 if sent else 200


def _content() -> bytes:
    """The chosen file, as much of it as tells that it is too large; where there is none, what was pasted."""
    file = request.files.get("files")
    chosen = file.stream.read(MOST_BYTES[LOG.name] + 1) if file else b""
    return chosen or request.form.get(PASTED, "").strip("\r\n").encode()  # a tab in front is a cell


def _look(form: EntryForm) -> LoggerPreview:
    """What the chosen file says with the columns that are named so far; nothing is kept of it."""
    content = _content()
    if not content or not form["time_column"].data or not form["humidity_column"].data:
        return LoggerPreview(
            words="Choose or paste the readings, and the columns of time and humidity: what was read stands here then."
        )
    try:
        log = log_in(content, {name: form[name].data or None for name in READ_BY})
    except FieldbookError as error:
        return LoggerPreview(words=f"{error.reason} {error.remedy}")
    first, last = (datetime.fromtimestamp(at, UTC).isoformat(timespec="minutes") for at in _ends(log.seconds))
    facts = [("Readings", f"{len(log.seconds):,}"), ("From", moment(first)), ("To", moment(last))]
    facts += [("Lines without a reading", f"{log.empty:,}")] if log.empty else []
    facts += [("Clock put back", f"{log.clock_put_back} times")] if log.clock_put_back else []
    return LoggerPreview(facts, logger_plot(form["name"].data or "as read", by_day(log)))


def _ends(seconds: Sequence[float]) -> tuple[float, float]:
    return seconds[0], seconds[-1]


def add(opened: Book, values: dict[str, Any], content: bytes) -> str:
    """Keep a file that can be read with these columns, and enter it; the id of the item.

    Raises Refused when there is nothing in it, or it cannot be read.
    """
    if not content:
        remedy = "Choose the logger's file, or paste its table."
        raise Refused([Missing("No file is chosen, or it is empty.", remedy, field="files")])
    given = {name: value for name, value in values.items() if value is not None}
    try:
        known = known_of(LOG.name, content, given)
    except FieldbookError as error:
        error.field = "files" if error.field == "file" else error.field
        raise Refused([error]) from error
    evidence.keep(opened.folder, LOG.name, content)
    return opened.write(LOG.name, given | known)
