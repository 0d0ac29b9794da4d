"""A fitting set elsewhere, or with more on it: the answer at once, and the new state in the book."""

from __future__ import annotations

from datetime import date
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request
from werkzeug.wrappers import Response

from ...book.entry_lines import Line
from ...book.site import Item, Site
from ...book.wording import figure
from ...errors import FieldbookError
from ...findings.rearranged import Rearranged, rearranged
from ...model.choices import DONE
from ...model.kinds import KINDS
from ...model.typed import from_text
from ...model.values import accept
from ..all_or_nothing import written
from ..books import book, item_of, site_around
from ..shown.filters import page_of

blueprint = Blueprint("moving", __name__)
ASKED = ("x_mm", "mass_loaded_kg")


@blueprint.route("/item/<item:item>/move", methods=["GET", "POST"])
def move(item: str) -> Response | tuple[str, int] | str:
    """What a place and a mass come to; sent, they are entered as what stands now."""
    one, site = item_of(item, "fitting"), site_around(item)
    given, wrong = _given(one)
    asked = any(value is not None for value in given.values()) and not wrong
    found = rearranged(site, site[item], given["x_mm"], given["mass_loaded_kg"], date.today()) if asked else None
    if request.method == "POST" and found and _entered(site, site[item], found, wrong):
        flash("Entered. It is to be asked about." if found.against else "Entered: within its room to move.")
        return redirect(page_of(one), 303)
    page = render_template(
        "moving/move.html", one=one, site=site, typed=request.values, found=found, wrong=wrong, base=book().revision()
    )
    return page, 422 if request.method == "POST" else 200


def _given(one: Item) -> tuple[dict[str, Any], list[FieldbookError]]:
    """What was typed, as a fitting would hold it, and what of it is to be mended."""
    given: dict[str, Any] = {}
    wrong: list[FieldbookError] = []
    for name in ASKED:
        field = KINDS[one.kind].by_name[name]
        given[name] = None
        try:
            text = request.values.get(name, "").strip()
            given[name] = accept(field, from_text(field, text)) if text else None
        except FieldbookError as error:
            wrong.append(error)
    return given, wrong


def _entered(site: Site, fitting: Item, found: Rearranged, wrong: list[FieldbookError]) -> bool:
    lines: list[Line] = []
    for one in found.changed:
        changed = {name: value for name, value in one.values.items() if value != site[one.id].values[name]}
        lines.append({"kind": one.kind, "item": one.id, "set": changed})
    then = next((one for one in found.changed if one.id == fitting.id), fitting)
    said = ", ".join(filter(None, (f"x {figure(then.x_mm, 'mm')}", figure(then.mass_loaded_kg, "kg"))))
    work: dict[str, Any] = {
        "site": site.item.id,
        "what": f"{fitting.called}: {said}",
        "sort": "moved or loaded",
        "outcome": DONE,
    }
    work |= {"fitting": fitting.id, "on": date.today().isoformat(), "done": request.form.get("words") or None}
    work |= {"found": f"To be asked: {' '.join(found.against)}" if found.against else None}
    kept = {name: value for name, value in work.items() if value is not None}
    lines.append({"kind": "work", "item": "the work", "set": kept})
    return written(lines, request.form.get("base"), lambda _: fitting.called, wrong.append) is not None
