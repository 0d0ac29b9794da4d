"""Copies of a fitting with its fixings: shown first, then entered together or not at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.fixings_of_copies import Lacked, lacked, lacked_lines
from ...book.gathering import gather
from ...book.makes import copies_of, copy_lines, first_of
from ...book.site import Item, Site
from ...book.supposed import with_new
from ...book.wording import count
from ...checks.verdict import Word
from ...drawing.drafting import Drawn
from ...drawing.elevation import elevation
from ...errors import FieldbookError, Missing, Refused
from ...findings import appraise, worst_words
from ..all_or_nothing import page_around, written
from ..books import book, item_of, site_around
from ..forms.of_copies import ASKED, CopiesForm, copies_form, copies_in
from ..forms.of_kind import MendableForm
from ..security import csrf
from ..shown.drawings import WIDE_MM, drawing_of
from ..shown.filters import page_of

blueprint = Blueprint("copies", __name__)
SHOW = "show"  # the button that enters nothing
LACKED = "lacked"  # what tick boxes are called


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
        copies=copies_of(site, first_of(site, fitting)), lacked=lacked(site, first_of(site, fitting)),
        face=site[fitting.face],
        drawing=drawing_of(site, site[fitting.face], appraise(site)),
    )  # fmt: skip
    return page, 422 if form.is_submitted() and SHOW not in request.form else status


@blueprint.route("/site/<item:item>/fixings-of-copies", methods=["GET", "POST"])
@csrf.exempt
def fixings(item: str) -> Response | tuple[str, int]:
    """Which copies are to have what the first has: all fixings of a fitting in the address, or those in it."""
    site, form = gather(book(), item), MendableForm()
    asked = [one for name in request.args.getlist("fixing") if (one := site.get(name, "fixing"))]
    named = [site.get(name, "fitting") for name in (*(one.fitting for one in asked), request.args.get("fitting"))]
    firsts = dict.fromkeys(one for one in named if one)
    lacking = {f"{one.copy.id} {one.fixing.id}": one for first in firsts for one in lacked(site, first)}
    if form.is_submitted():
        ticked = [name for name in lacking if name in request.form.getlist(LACKED)]
    else:
        ticked = [name for name, one in lacking.items() if one.fixing in asked]
    if form.validate_on_submit() and _planned(form, site, [lacking[name] for name in ticked]):
        return redirect(page_around(site, [lacking[name].copy for name in ticked]), 303)
    page = render_template("copies/fixings.html", site=site, form=form, lacking=lacking, ticked=ticked, firsts=firsts)
    return page, 422 if form.is_submitted() else 200


def _planned(form: MendableForm, site: Site, chosen: Sequence[Lacked]) -> bool:
    if not chosen:
        form.add_errors([Missing("Nothing is ticked.", "Tick what is to be entered, or leave the page.")])
        return False
    lines = lacked_lines(site, chosen)
    if made := written(lines, request.form.get("base"), lambda at: str(_set(lines[at - 1])["mark"]), _on_top(form)):
        flash(f"{count(len(made.ids), 'fixing', 'fixings')} planned.")
    return made is not None


def _on_top(form: MendableForm) -> Callable[[FieldbookError], None]:
    """Puts what is wrong with one of many things above the form: no input is about it alone."""

    def find(error: FieldbookError) -> None:
        error.field = None
        form.add_errors([error])

    return find


def _entered(form: CopiesForm, lines: Sequence[Line]) -> int:
    def called(number: int) -> str:
        return str(_set(lines[number - 1])["mark"])

    made = written(lines, str(book().revision()), called, _on_top(form))
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
