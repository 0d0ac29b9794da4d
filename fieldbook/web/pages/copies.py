"""Copies of a fitting with its fixings: shown first, then entered together or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.makes import copies_of, copy_lines, first_of
from ...book.site import Item, Site
from ...book.supposed import with_new
from ...book.wording import count
from ...checks.verdict import Word
from ...drawing.drafting import Drawn
from ...drawing.elevation import elevation
from ...errors import FieldbookError, Refused
from ...findings import appraise, worst_words
from ..all_or_nothing import written
from ..books import book, item_of, site_around
from ..forms.of_copies import ASKED, CopiesForm, copies_form, copies_in
from ..security import csrf
from ..shown.drawings import WIDE_MM, drawing_of
from ..shown.filters import page_of

blueprint = Blueprint("copies", __name__)
SHOW = "show"  # the button that enters nothing


@dataclass(frozen=True)
class Shown:
    """What the copies would be: each fitting with its worst word, and the drawing of the face with them."""

    copies: Sequence[tuple[Item, Word | None]]
    drawing: Drawn | None


@blueprint.route("/item/<item:item>/copies", methods=["GET", "POST"])
@csrf.exempt
def make(item: str) -> Response | tuple[str, int]:
    """Ask where, show, and enter."""
    fitting, site = item_of(item, "fitting"), site_around(item)
    form, shown, status = copies_form(site, fitting), None, 200
    if form.is_submitted() or request.args:
        try:
            lines = copy_lines(site, fitting, copies_in(form, site, fitting))
            if SHOW not in request.form and form.validate_on_submit() and (made := _entered(form, lines)):
                flash(f"{count(made, 'copy', 'copies')} of {fitting.called} entered.")
                return redirect(page_of(site[str(form["face"].data)]), 303)
            shown = _shown(site, site[str(form["face"].data)], lines)
        except Refused as refused:
            form.add_errors(refused.findings)
            status = 422
    page = render_template(
        "copies/make.html", one=fitting, site=site, form=form, asked=ASKED, shown=shown, first=first_of(site, fitting),
        copies=copies_of(site, first_of(site, fitting)), face=site[fitting.face],
        drawing=drawing_of(site, site[fitting.face], appraise(site)),
    )  # fmt: skip
    return page, 422 if form.is_submitted() and SHOW not in request.form else status


def _entered(form: CopiesForm, lines: Sequence[Line]) -> int:
    def called(number: int) -> str:
        return str(_set(lines[number - 1])["mark"])

    def find(error: FieldbookError) -> None:
        error.field = None
        form.add_errors([error])

    made = written(lines, str(book().revision()), called, find)
    return sum("width_mm" in _set(line) for line in lines) if made else 0


def _set(line: Line) -> dict[str, Any]:
    return dict(line["set"]) if isinstance(line, dict) else {}


def _shown(site: Site, face: Item, lines: Sequence[Line]) -> Shown:
    supposed = with_new(site, lines)
    findings = appraise(supposed.site)
    words = worst_words(findings)
    fittings = [one for one in supposed.items if one.kind == "fitting"]
    drawn = elevation(supposed.site, face, findings, paper_width_mm=WIDE_MM, interactive=False)
    return Shown([(one, words.get(one.id)) for one in fittings], drawn)
