"""A list from a spreadsheet: shown first with what is wrong in it, then entered together or not at all."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response
from wtforms import HiddenField, TextAreaField

from ...book.csv_lines import ID, CsvTable, csv_lines, table_in
from ...book.entering import looked_over
from ...book.entry_lines import Line
from ...book.fixings_of_copies import reaching
from ...book.gathering import gather
from ...book.site import Site
from ...book.wording import count
from ...errors import FieldbookError, Refused, UnknownKind, UnsuitableText
from ...model.kinds import Kind, kind_named
from ..all_or_nothing import written
from ..books import book
from ..forms.of_kind import MendableForm
from ..security import csrf
from ..shown.following import asked_about_each, asked_about_new, following_all, told

blueprint = Blueprint("importing", __name__)
ENTER = "enter"  # the button that enters what was shown
MOST_SHOWN = 200
AN_ID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}", re.IGNORECASE)
NEW, CHANGED, AS_IT_IS, WRONG = "new", "changed", "as it is", "to be corrected"


class ListForm(MendableForm):
    """The text of a table, however it came."""

    text = TextAreaField("Or paste it here, with its row of headings", render_kw={"rows": 8})
    base = HiddenField()


@dataclass(frozen=True)
class ShownRow:
    """A row as it would be entered: what becomes of it, its cells, and what is wrong by the name of the field."""

    number: int
    becomes: str
    cells: Sequence[str]
    faults: Mapping[str | None, Sequence[FieldbookError]]


@dataclass(frozen=True)
class Preview:
    """What a table would enter."""

    table: CsvTable
    rows: Sequence[ShownRow]

    @property
    def shown(self) -> list[ShownRow]:
        """The rows with something wrong first, then the others, as many as a page bears."""
        return sorted(self.rows, key=lambda row: row.becomes != WRONG)[:MOST_SHOWN]

    def number(self, becomes: str) -> int:
        """How many rows come to this."""
        return sum(row.becomes == becomes for row in self.rows)


@blueprint.route("/site/<item:item>/list/<kind>", methods=["GET", "POST"])
@csrf.exempt
def new(item: str, kind: str) -> Response | tuple[str, int]:
    """Ask for a table, show what would be entered, and enter it."""
    site, known = gather(book(), item), kind_named(kind)
    if known.with_a_file or known.name == "site":
        raise UnknownKind(f"{known.plural} are not entered from a list.", "Enter each by itself.", field="kind")
    form, preview = ListForm(data={"base": str(book().revision())}), None
    if form.is_submitted():
        try:
            form.text.data = _sent(form)
            table = table_in(known, form.text.data or "")
            lines = csv_lines(site, known, table)
            preview = _preview(site, table, lines)
            whole = ENTER in request.form and not preview.number(WRONG) and form.validate()
            if whole and (asks := _entered(site, known, form, lines)) is not None:
                return redirect(asks or url_for("register.every", item=item, kind=known.name), 303)
        except Refused as refused:
            form.add_errors(refused.findings)
    wrong = form.is_submitted() and (preview is None or preview.number(WRONG) or form.errors or form.unplaced)
    page = render_template("importing/new.html", one=site.item, site=site, kind=known, form=form, preview=preview)
    return page, 422 if wrong else 200


def _sent(form: ListForm) -> str:
    """The text of the file that was chosen, else what was pasted."""
    file = request.files.get("files")
    content = file.stream.read() if file else b""
    try:
        return content.decode("utf-8-sig") if content else form.text.data or ""
    except UnicodeDecodeError as error:
        remedy = "Save it as CSV in UTF-8, or paste the cells."
        raise Refused([UnsuitableText("The file is no text in UTF-8.", remedy, field="files")]) from error


def _preview(site: Site, table: CsvTable, lines: Sequence[Line]) -> Preview:
    faults: dict[int, dict[str | None, list[FieldbookError]]] = defaultdict(lambda: defaultdict(list))
    for error in looked_over(book(), lines, book().folder, called=_called) if any(lines) else ():
        faults[error.line or 0][error.field].append(error)
    rows = [
        ShownRow(
            number, WRONG if number in faults else _becomes(line), _in_words(site, table, cells), faults.get(number, {})
        )
        for number, (line, cells) in enumerate(zip(lines, table.rows, strict=True), 1)
    ]
    return Preview(table, rows)


def _in_words(site: Site, table: CsvTable, cells: Sequence[str]) -> list[str]:
    """The cells of a row with marks or names where ids of this site stand."""

    def called(found: re.Match[str]) -> str:
        one = site.get(found[0].lower())
        return one.called if one else found[0]

    links = [head == ID or bool(field and field.to) for head, field in zip(table.heads, table.fields, strict=True)]
    named = [AN_ID.sub(called, cell) if link else cell for cell, link in zip(cells, links, strict=False)]
    return named + list(cells[len(named) :])


def _called(number: int, _: str | None) -> str:
    return f"Row {number}"


def _becomes(line: Line) -> str:
    if line is None:
        return AS_IT_IS
    return NEW if isinstance(line, Mapping) and str(line["item"]).startswith("row ") else CHANGED


def _entered(site: Site, kind: Kind, form: ListForm, lines: Sequence[Line]) -> str | None:
    """The page that asks about copies, "" where none is to be asked about; None where something is to be mended."""
    number, reach, asks = sum(line is not None for line in lines), reaching(site, lines), ""
    changes = {
        site[str(line["item"])]: line["set"] for line in lines if isinstance(line, dict) and line["item"] in site
    }
    follows = following_all(site, changes)
    if number:
        own = [f"Row {at}" for at, _ in enumerate(lines, 1)]
        own += [site[str(line["item"])].called for line in follows.lines if isinstance(line, dict)]
        called = reach.calling(len(own), lambda at: own[at - 1])
        all_lines = [*lines, *follows.lines, *reach.lines]
        made = written(all_lines, form.base.data, called, lambda error: form.add_errors([error]))
        if made is None:
            return None
        told(follows)
        asks = asked_about_new(site, reach, made.ids) or asked_about_each(site, changes)
    flash(f"{count(number, kind.label.lower(), kind.plural.lower())} entered." if number else "Nothing was changed.")
    return asks
