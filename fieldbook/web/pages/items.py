"""One item of any kind: all that is known of it, its history, and taking it out or back."""

from __future__ import annotations

from datetime import date

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from ...drawing.over_photograph import numbered_marks
from ...errors import UnknownItem
from ...findings import about, appraise, worst_words
from ...findings.hazards import cautions_of
from ...model.kinds import KINDS
from ..books import book, device_names, item_of, site_around
from ..forms.of_lacking import lacking
from ..shown.facts import sheet_of
from ..shown.filters import page_of, titles_of
from ..shown.fitting_page import fitting_page
from ..shown.mending import mending_of
from ..shown.repeat import repeated
from ..shown.revisions import steps_of, undoing
from .register import register_of

blueprint = Blueprint("items", __name__, url_prefix="/item/<item:item>")


@blueprint.get("")
def show(item: str) -> str:
    """Every field, finding, photograph and link of an item."""
    one, site = item_of(item), site_around(item)
    today = date.today()
    findings = appraise(site, today)
    words, sheet = worst_words(findings), sheet_of(site, one, book().not_known_of(item))
    return render_template(
        "items/show.html",
        one=one,
        site=site,
        sheet=sheet,
        numbered=numbered_marks(site, one) if one.kind == "photograph" else "",
        cautions=cautions_of(site, one) if one.id in site else (),
        page=fitting_page(site, one, findings, today) if one.kind == "fitting" and one.id in site else None,
        registers=[register_of(site, kind, items, words) for kind, items in sheet.belonging],
        lacking=len(lacking(about(findings, one))),
        findings=[(finding, repeated(finding), mending_of(site, finding)) for finding in about(findings, one)],
    )


@blueprint.get("/history")
def history(item: str) -> str:
    """Every entry about an item, the latest first."""
    one, site = item_of(item), site_around(item)
    steps = steps_of(KINDS[one.kind], book().history(item), device_names(), titles_of(site))
    return render_template("items/history.html", one=one, site=site, steps=steps)


@blueprint.post("/withdraw")
def withdraw(item: str) -> Response:
    """Take an item out of the book's present state."""
    book().withdraw(item)
    flash("Withdrawn. The ledger keeps it; it can be brought back here.")
    return redirect(url_for(".show", item=item), 303)


@blueprint.post("/bring-back")
def bring_back(item: str) -> Response:
    """Bring a withdrawn item back."""
    book().withdraw(item, False)
    flash("Brought back.")
    return redirect(page_of(item_of(item)), 303)


@blueprint.post("/set-back")
def set_back(item: str) -> Response:
    """Make a new entry that sets an item's fields to what they were after an earlier one."""
    one, entries = item_of(item), book().history(item)
    revision = request.form.get("revision", "")
    if revision not in {str(entry["revision"]) for entry in entries}:
        raise UnknownItem(
            "There is no such entry about this item.", "Choose one from its history.", field="revision", value=revision
        )
    if changed := undoing(KINDS[one.kind], entries, int(revision)):
        book().write(one.kind, changed, item)
    flash(f"Set back to what it was at entry {revision}." if changed else "It is what it was at that entry already.")
    return redirect(url_for(".history", item=item), 303)
